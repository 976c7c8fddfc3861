package deviation_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/deviation"
	"lubberline.example/wmm"
)

// A pointer that is nil is no source, whatever it points to: a typed error, no panic.
func TestNilPointerIsNoSource(t *testing.T) {
	for _, s := range []deviation.Source{nil, (*deviation.Deviation)(nil), (*deviation.ExactCoefficients)(nil), (*deviation.Table)(nil), (*deviation.Curve)(nil)} {
		_, explain := deviation.Explain(s, angle.CompassFrom(0))
		_, eight := deviation.Eight(s)
		_, card := deviation.NewCard(s, 15*deg, deviation.Details{})
		_, review := deviation.ReviewChecks(s, []deviation.Check{rvwStated(0, 1, 1)})
		curve := deviation.Diagram{Source: s}.WriteCurve(&strings.Builder{})
		for i, err := range []error{explain, eight, card, review, curve} {
			if e, ok := errors.AsType[*deviation.MissingInputError](err); !ok || e.What != "deviation" {
				t.Errorf("%T, %d: %v", s, i, err)
			}
		}
	}
	k := deviation.ExactCoefficients{B: 0.1}
	_, err := deviation.AllPermanent(k, (*wmm.Field)(nil))
	if _, ok := errors.AsType[*deviation.FieldError](err); !ok {
		t.Error(err)
	}
}

// A nil reader or writer is an error.
func TestNilReaderOrWriterIsAnError(t *testing.T) {
	_, table := deviation.ReadTable(nil)
	_, checks := deviation.ReadChecks(nil)
	_, swing := deviation.ReadSwing(nil, deviation.DistantObject{})
	for i, err := range []error{table, checks, swing} {
		if _, ok := errors.AsType[*record.Error](err); !ok || !strings.Contains(err.Error(), "no reader") {
			t.Errorf("reader %d: %v", i, err)
		}
	}
	card := angle.Must(deviation.NewCard(deviation.None(), 15*deg, deviation.Details{}))
	d := deviation.Diagram{Source: deviation.None()}
	for i, err := range []error{card.WriteCSV(nil), d.WriteCurve(nil), d.WriteNapier(nil)} {
		if err == nil || !strings.Contains(err.Error(), "writer") {
			t.Errorf("writer %d: %v", i, err)
		}
	}
}

// Neither NaN nor an infinite figure comes of forces and heeling, whatever goes in.
func TestForcesAndHeelingAreFinite(t *testing.T) {
	figures := []float64{0, 0.1, -1, 1e-300, 1e300, -1e300, math.MaxFloat64, math.NaN(), math.Inf(1), math.Inf(-1)}
	finite := func(what string, err error, list ...float64) {
		t.Helper()
		for _, x := range list {
			if err == nil && (math.IsNaN(x) || math.IsInf(x, 0)) {
				t.Errorf("%s: %v", what, list)
			}
		}
	}
	dips := []angle.Angle{0, 60 * deg, -89 * deg, 90*deg - 1, 90 * deg, math.MaxInt64, math.MinInt64}
	for _, x := range figures {
		k := deviation.ExactCoefficients{A: 0.01, B: x, C: -x, D: x}
		for _, h := range figures {
			for _, dip := range dips {
				at := swxField{h, dip}
				permanent, err := deviation.AllPermanent(k, at)
				finite("permanent", err, permanent.A, permanent.D, permanent.PermanentAhead, permanent.PermanentStarboard)
				induced, err := deviation.AllInduced(k, at)
				finite("induced", err, induced.InducedAhead, induced.InducedStarboard)
				there, err := deviation.Forces{A: x, PermanentAhead: x, InducedAhead: -x, PermanentStarboard: -x, InducedStarboard: x}.At(at)
				finite("at", err, there.A, there.B, there.C)
				both, err := deviation.Separate(k, at, k, swxField{20_000, 10 * deg})
				finite("separate", err, both.PermanentAhead, both.InducedAhead)
				for _, mu := range figures {
					j, err := deviation.NewHeeling(x, mu, h, dip)
					finite("heeling", err, float64(j))
				}
			}
		}
	}
}
