package deviation_test

import (
	"errors"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/wmm"
)

func TestAnAnalysisSaysWhatEachCoefficientMeans(t *testing.T) {
	k := deviation.Coefficients{A: deg, B: -4 * deg, C: 3 * deg, D: 2 * deg, E: deg / 2}
	a := deviation.Analyse(k)
	if a.Coefficients != k || a.Caution != deviation.AdjusterCaution || len(a.Warnings) != 0 || len(a.Findings) != 5 {
		t.Fatalf("%+v", a)
	}
	sheet := a.Working()
	if sheet.Caution != deviation.AdjusterCaution || sheet.Title == "" || len(sheet.Steps) != 5 {
		t.Fatalf("%+v", sheet)
	}
	for i, want := range []struct {
		letter   string
		value    angle.Angle
		text     string
		greatest string
		has      string
	}{
		{"A", deg, "+1.00°", "the same on all headings", "lubber line"},
		{"B", -4 * deg, "−4.00°", "on east and west", "fore-and-aft magnets"},
		{"C", 3 * deg, "+3.00°", "on north and south", "athwartship magnets"},
		{"D", 2 * deg, "+2.00°", "on the intercardinal headings", "spheres"},
		{"E", deg / 2, "+0.50°", "on the cardinal headings", "slewed"},
	} {
		f := a.Findings[i]
		if f.Letter != want.letter || f.Value != want.value || f.Greatest != want.greatest || f.Cause == "" || !strings.Contains(f.Corrector, want.has) {
			t.Errorf("%+v", f)
		}
		s := sheet.Steps[i]
		if s.Key != want.letter || s.Value != want.text || s.Number != want.value.Degrees() || s.Unit != working.DegreesEast || !strings.Contains(s.How, f.Cause) || !strings.Contains(s.How, f.Corrector) {
			t.Errorf("%+v", s)
		}
	}
}

func TestAnAnalysisWarns(t *testing.T) {
	for _, test := range []struct {
		k    deviation.Coefficients
		want []deviation.Warning
	}{
		{deviation.Coefficients{A: 3 * deg, B: 17 * deg}, nil}, // 20° just
		{deviation.Coefficients{B: 20*deg + minute}, []deviation.Warning{{Kind: deviation.LargeDeviations, Message: "deviations up to 20°"}}},
		{deviation.Coefficients{B: 20 * deg, C: 15 * deg}, []deviation.Warning{{Kind: deviation.LargeDeviations, Message: "deviations up to 25°"}}},
		{deviation.Coefficients{A: -3*deg - 1}, []deviation.Warning{{Kind: deviation.LargeConstant, Message: "A is large"}}},
		{deviation.Coefficients{A: -4 * deg, B: -18 * deg}, []deviation.Warning{{Kind: deviation.LargeDeviations, Message: "deviations up to 22°"}, {Kind: deviation.LargeConstant, Message: "A is large"}}},
	} {
		a := deviation.Analyse(test.k)
		if len(a.Warnings) != len(test.want) {
			t.Errorf("%v: %q", test.k, a.Warnings)
			continue
		}
		for i, w := range test.want {
			if a.Warnings[i].Kind != w.Kind || !strings.HasPrefix(a.Warnings[i].Message, w.Message) || a.Working().Warnings[i] != a.Warnings[i] {
				t.Errorf("%v: %q", test.k, a.Warnings)
			}
		}
	}
}

// 720° over 18 µT is 40°; from memory, as the limits say themselves.
func TestTheLimitsBeforeCorrection(t *testing.T) {
	k := deviation.Coefficients{A: -3 * deg, B: 40 * deg, C: -40*deg - minute, D: 7 * deg, E: 3*deg + 1}
	limits, err := deviation.UncorrectedLimits(k, wmm.Field{X: 18000, Z: 45000})
	if err != nil || len(limits) != 5 {
		t.Fatal(limits, err)
	}
	for i, want := range []struct {
		what  string
		value angle.Angle
		most  angle.Angle
		holds bool
		text  string
	}{
		{"A", k.A, 3 * deg, true, "A −3.00°: within 3.0°"},
		{"B", k.B, 40 * deg, true, "B +40.00°: within 40.0°"},
		{"C", k.C, 40 * deg, false, "C −40.02°: OUTSIDE 40.0°"},
		{"D", k.D, 7 * deg, true, "D +7.00°: within 7.0°"},
		{"E", k.E, 3 * deg, false, "E +3.00°: OUTSIDE 3.0°"},
	} {
		l := limits[i]
		if l.What != want.what || l.Value != want.value || l.Most != want.most || l.Holds != want.holds || l.Clause == "" || l.Purpose == "" {
			t.Errorf("%+v", l)
		}
		if text := l.String(); !strings.HasPrefix(text, want.text) || !strings.Contains(text, l.Clause) || !strings.HasSuffix(text, "; "+l.Doubt) {
			t.Error(text)
		}
	}
	sure := limits[0]
	sure.Doubt = ""
	if text := sure.String(); !strings.HasSuffix(text, sure.Clause+")") {
		t.Error(text)
	}
}

func TestNoLimitWhereThereIsHardlyAField(t *testing.T) {
	limits, err := deviation.UncorrectedLimits(deviation.Coefficients{}, wmm.Field{X: 1, Z: 1})
	if err == nil && limits[1].Most < 360*deg {
		t.Errorf("%v", limits)
	}
	if _, err := deviation.UncorrectedLimits(deviation.Coefficients{}, wmm.Field{Z: 60000}); err == nil {
		t.Error("a limit at the pole")
	} else if _, ok := errors.AsType[*deviation.FieldError](err); !ok {
		t.Error(err)
	}
}
