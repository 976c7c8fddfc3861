package adjust_test

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/variation"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
)

func TestAnalysisExplainsCoefficients(t *testing.T) {
	k := deviation.Coefficients{A: devtest.Deg, B: -4 * devtest.Deg, C: 3 * devtest.Deg, D: 2 * devtest.Deg, E: devtest.Deg / 2}
	a := adjust.Analyse(k)
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
		{"A", devtest.Deg, "+1.00°", "the same on all headings", "lubber line"},
		{"B", -4 * devtest.Deg, "−4.00°", "on east and west", "fore-and-aft magnets"},
		{"C", 3 * devtest.Deg, "+3.00°", "on north and south", "athwartship magnets"},
		{"D", 2 * devtest.Deg, "+2.00°", "on the intercardinal headings", "spheres"},
		{"E", devtest.Deg / 2, "+0.50°", "on the cardinal headings", "turned about"},
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
		want []working.Warning
	}{
		{deviation.Coefficients{A: 3 * devtest.Deg, B: 17 * devtest.Deg}, nil}, // 20° just
		{deviation.Coefficients{B: 20*devtest.Deg + devtest.Minute}, []working.Warning{{Kind: adjust.LargeDeviations, Message: "the deviations reach 20°"}}},
		{deviation.Coefficients{B: 20 * devtest.Deg, C: 15 * devtest.Deg}, []working.Warning{{Kind: adjust.LargeDeviations, Message: "the deviations reach 25°"}}},
		{deviation.Coefficients{A: -3*devtest.Deg - 1}, []working.Warning{{Kind: adjust.LargeConstant, Message: "A is large"}}},
		{deviation.Coefficients{A: -4 * devtest.Deg, B: -18 * devtest.Deg}, []working.Warning{{Kind: adjust.LargeDeviations, Message: "the deviations reach 22°"}, {Kind: adjust.LargeConstant, Message: "A is large"}}},
	} {
		a := adjust.Analyse(test.k)
		if len(a.Warnings) != len(test.want) {
			t.Errorf("%v: %q", test.k, a.Warnings)
			continue
		}
		for i, w := range test.want {
			if a.Warnings[i].Kind != w.Kind || !strings.HasPrefix(a.Warnings[i].Message, w.Message) || !reflect.DeepEqual(a.Working().Warnings[i], a.Warnings[i]) {
				t.Errorf("%v: %q", test.k, a.Warnings)
			}
		}
	}
}

// The largest deviation is remarked on, with the authority that sets the limit: 5° on any
// heading (Republic of the Marshall Islands, Marine Notice 2-011-32, June 2009, 2.1).
func TestLimitNamesItsAuthority(t *testing.T) {
	for _, c := range []struct {
		b    angle.Angle
		says string
	}{
		{-5 * devtest.Deg, "on 090°C; within the 5° allowed on any heading (Republic of the Marshall Islands, Marine Notice 2-011-32 (June 2009), 2.1"},
		{5*devtest.Deg + devtest.Minute, "on 090°C; MORE than the 5° allowed on any heading"},
		{0, "on 000°C; within the 5°"},
	} {
		curve := angle.Must(deviation.Coefficients{B: c.b}.Curve(deviation.ByCompass))
		s, err := adjust.FlagStateLimit().Remark(curve)
		if err != nil || s.Key != "largest deviation" || !devtest.Near(s.Number, c.b.Degrees(), 1e-9) || !strings.Contains(s.How, c.says) { // the rounding of an angle
			t.Errorf("%v: %+v, %v", c.b, s, err)
		}
	}
}

func TestLimitWithoutAuthorityIsRefused(t *testing.T) {
	for name, l := range map[string]adjust.Limit{"nobody's": {Max: 5 * devtest.Deg, Authority: " \n"}} {
		_, err := l.Remark(deviation.None())
		if _, ok := errors.AsType[*angle.ParseError](err); !ok {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, most := range []angle.Angle{0, -devtest.Deg, 91 * devtest.Deg} {
		_, err := adjust.Limit{Max: most, Authority: "invented"}.Remark(deviation.None())
		if _, ok := errors.AsType[*angle.RangeError](err); !ok {
			t.Errorf("%v: %v", most, err)
		}
	}
	for _, source := range []deviation.Source{nil, (*deviation.Table)(nil), (*deviation.Deviation)(nil)} {
		_, err := adjust.FlagStateLimit().Remark(source)
		if _, ok := errors.AsType[*variation.MissingInputError](err); !ok {
			t.Errorf("%T: %v", source, err)
		}
	}
}
