package deviation_test

import (
	"errors"
	"strings"
	"testing"

	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/check"
	"lubberline.example/deviation/diagram"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"
	"lubberline.example/variation"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/deviation"
	"lubberline.example/wmm"
)

// A nil pointer of any type is refused as a source, with a typed error and without a panic.
func TestNilPointerIsNoSource(t *testing.T) {
	for _, s := range []deviation.Source{nil, (*deviation.Deviation)(nil), (*deviation.ExactCoefficients)(nil), (*deviation.Table)(nil), (*deviation.Curve)(nil)} {
		_, explain := deviation.Explain(s, angle.CompassFrom(0))
		_, eight := deviation.OnEightHeadings(s)
		_, card := deviation.NewCard(s, 15*devtest.Deg, deviation.Details{})
		_, review := check.ReviewCard(s, []check.Check{{Heading: angle.Compass{}, Deviation: deviation.East(devtest.Deg).WithUncertainty(devtest.Sigma(devtest.Deg))}})
		_, curve := diagram.Curve(diagram.Plot{Source: s})
		for i, err := range []error{explain, eight, card, review, curve} {
			if e, ok := errors.AsType[*variation.MissingInputError](err); !ok || e.What != "deviation" {
				t.Errorf("%T, %d: %v", s, i, err)
			}
		}
	}
	k := deviation.ExactCoefficients{B: 0.1}
	_, err := adjust.AllPermanent(k, (*wmm.Field)(nil))
	if _, ok := errors.AsType[*adjust.FieldError](err); !ok {
		t.Error(err)
	}
}

// A nil reader or writer is an error.
func TestNilReaderOrWriterIsAnError(t *testing.T) {
	_, table := deviation.ReadTable(nil)
	_, checks := check.ReadLog(nil)
	_, swung := swing.ReadSwing(nil, swing.DistantObject{})
	for i, err := range []error{table, checks, swung} {
		if _, ok := errors.AsType[*record.Error](err); !ok || !strings.Contains(err.Error(), "no reader") {
			t.Errorf("reader %d: %v", i, err)
		}
	}
	card := angle.Must(deviation.NewCard(deviation.None(), 15*devtest.Deg, deviation.Details{}))
	if err := card.WriteCSV(nil); err == nil || !strings.Contains(err.Error(), "writer") {
		t.Error(err)
	}
}

// A method of a swing that is nil, or a nil pointer, is refused.
func TestNilMethodIsRefused(t *testing.T) {
	for _, m := range []swing.Method{nil, (*swing.Transit)(nil), (*swing.DistantObject)(nil), (*swing.SunAzimuths)(nil), (*swing.TrueHeadings)(nil), (*swing.ShoreCompass)(nil), (*swing.SecondCompass)(nil), (*swing.StatedDeviations)(nil)} {
		s, err := swing.Reduce(make([]swing.Reading, 8), m)
		if e, ok := errors.AsType[*swing.Error](err); !ok || e.Kind != swing.BadReading || e.Index != -1 || s != nil {
			t.Errorf("%T: %v, %v", m, s, err)
		}
		s, err = swing.ReadSwing(strings.NewReader("heading,bearing\n000,000\n"), m)
		if _, ok := errors.AsType[*record.Error](err); !ok || s != nil {
			t.Errorf("%T: %v, %v", m, s, err)
		}
	}
}
