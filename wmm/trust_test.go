package wmm_test

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

// onYear is the day, at midnight, nearest a decimal year.
func onYear(year float64) time.Time {
	whole := math.Floor(year)
	start := time.Date(int(whole), 1, 1, 0, 0, 0, 0, time.UTC)
	end := time.Date(int(whole)+1, 1, 1, 0, 0, 0, 0, time.UTC)
	return start.Add(time.Duration((year - whole) * float64(end.Sub(start))).Round(24 * time.Hour))
}

// checkVariation compares a source with D of its evaluator.
func checkVariation(t testing.TB, s *wmm.Set, year float64, p angle.Position) {
	t.Helper()
	date := onYear(year)
	v, err := s.VariationAt(p, date)
	if err != nil {
		t.Fatal(err)
	}
	f, err := must(s.On(date))(t).Field(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	d := must(f.D())(t)
	// 1e-9 degrees where H is 20,000 nT; nearer the dip poles in proportion.
	if off := (v.Angle() - d).NormalizedSigned().Degrees(); math.Abs(off) > 1e-9*max(1, 20000/f.H()) {
		t.Errorf("%v in %v: %v as a source, %v by the field", p, year, v, d)
	}
}

// The published figures, from the technical reports of the World Magnetic Model
// (WMM2025, section 3.4, and its predecessors) by way of the publisher's own
// software.
func TestPublishedErrors(t *testing.T) {
	read := func(name string) wmm.UncertaintyModel {
		return must(wmm.ReadCOF(strings.NewReader(dipole("2025.0 " + name))))(t).Uncertainty()
	}
	for _, tt := range []struct {
		name string
		got  wmm.UncertaintyModel
		want wmm.UncertaintyModel
	}{
		{"WMM2025", wmm.WMM2025().Uncertainty(), wmm.UncertaintyModel{X: 137, Y: 89, Z: 141, H: 133, F: 138, I: 0.20, DOffset: 0.26, DSlope: 5417}},
		{"WMM2020", wmm.WMM2020().Uncertainty(), wmm.UncertaintyModel{X: 131, Y: 94, Z: 157, H: 128, F: 145, I: 0.21, DOffset: 0.26, DSlope: 5625}},
		{"WMM2015v2", wmm.WMM2015v2().Uncertainty(), wmm.UncertaintyModel{X: 138, Y: 89, Z: 165, H: 133, F: 152, I: 0.22, DOffset: 0.24, DSlope: 5432}},
		{"WMM2015", read("WMM-2015"), wmm.WMM2015v2().Uncertainty()},
		{"WMMHR2025", read("WMMHR-2025"), wmm.UncertaintyModel{X: 135, Y: 85, Z: 134, H: 130, F: 134, I: 0.19, DOffset: 0.25, DSlope: 5205}},
		{"another", read("OTHER"), wmm.UncertaintyModel{}},
	} {
		if tt.got != tt.want {
			t.Errorf("%s: %+v, want %+v", tt.name, tt.got, tt.want)
		}
	}
}

func TestUncertaintyOfTheDeclination(t *testing.T) {
	e := wmm.WMM2025().Uncertainty()
	for _, tt := range []struct{ h, want, within float64 }{
		{20000, 0.38, 0.005}, // √(0.26² + 0.27085²) = 0.3754, as the report rounds it
		{20000, math.Hypot(0.26, 5417./20000), 1e-10},
		{math.Inf(1), 0.26, 1e-10},
		{31, math.Hypot(0.26, 5417./31), 1e-10},
		{30, 180, 0}, {1, 180, 0}, {0, 180, 0}, // capped
	} {
		s, stated := e.D(tt.h).Sigma()
		if !stated || !near(s.Degrees(), tt.want, tt.within) {
			t.Errorf("H %v: %v, %v: want %v", tt.h, s.Degrees(), stated, tt.want)
		}
	}
	for _, u := range []angle.Uncertainty{e.D(math.NaN()), wmm.UncertaintyModel{}.D(20000), wmm.UncertaintyModel{X: 1, DOffset: math.NaN()}.D(1), wmm.UncertaintyModel{X: 1}.D(0)} {
		if _, stated := u.Sigma(); stated {
			t.Errorf("%v: want it not stated", u)
		}
	}
	// Another statement of errors goes with the model, and the model stays.
	m := wmm.WMM2025().WithUncertainty(wmm.UncertaintyModel{DOffset: 2})
	v := must(m.VariationAt(at(47, -19), onYear(2026)))(t)
	if s, ok := v.Uncertainty().Sigma(); !ok || s != 2*angle.Degree {
		t.Errorf("±%v", s)
	}
	if wmm.WMM2025().Uncertainty() != e {
		t.Error("the model has changed")
	}
}

func TestZones(t *testing.T) {
	for _, tt := range []struct {
		h    float64
		want wmm.Zone
		text string
	}{
		{0, wmm.BlackoutZone, "blackout"}, {1999.9, wmm.BlackoutZone, "blackout"}, {2000, wmm.CautionZone, "caution"},
		{5999.9, wmm.CautionZone, "caution"}, {6000, wmm.ClearZone, "clear"}, {40000, wmm.ClearZone, "clear"},
	} {
		for _, f := range []wmm.Field{{X: tt.h, Z: 50000}, {Y: -tt.h}} {
			if got := f.Zone(); got != tt.want || string(got) != tt.text {
				t.Errorf("H %v: %v, want %s", tt.h, got, tt.text)
			}
		}
	}
	if z := (wmm.Field{X: math.NaN()}).Zone(); z != wmm.BlackoutZone {
		t.Errorf("a field that is not known: %v", z)
	}
}

var (
	_ variation.Source    = (*wmm.Model)(nil)
	_ variation.Explainer = (*wmm.Model)(nil)
	_ variation.Source    = (*wmm.Set)(nil)
	_ variation.Explainer = (*wmm.Set)(nil)
)

func TestExplanations(t *testing.T) {
	date := time.Date(2026, time.July, 2, 12, 0, 0, 0, time.UTC)
	for _, tt := range []struct {
		name     string
		lat, lon float64
		kind     working.WarningKind
		message  string
	}{
		{"off Orlesk", 47, -19, "", ""},
		{"among the Canadian islands", 72, -95, wmm.InCautionZone, "caution zone: the horizontal field is weak, "},
		{"near the north dip pole", 85.5, 140, wmm.InBlackoutZone, "blackout zone: the horizontal field is "},
		{"near the south dip pole", -64, 136, wmm.InBlackoutZone, "blackout zone: the horizontal field is "},
	} {
		t.Run(tt.name, func(t *testing.T) {
			for _, s := range []variation.Explainer{wmm.WMM2025(), wmm.Models()} {
				e, err := s.ExplainVariation(at(tt.lat, tt.lon), date)
				if err != nil {
					t.Fatal(err)
				}
				v := must(wmm.Models().VariationAt(at(tt.lat, tt.lon), date))(t)
				if e.Variation != v {
					t.Errorf("%v explained, %v told", e.Variation, v)
				}
				if len(e.Working) != 2 || e.Working[0].Unit != "nT" || !strings.Contains(e.Working[0].How, "WMM-2025 at ") || !strings.HasSuffix(e.Working[0].How, ", 2 July 2026") {
					t.Errorf("working %+v", e.Working)
				}
				f := must(must(wmm.WMM2025().On(date))(t).Field(at(tt.lat, tt.lon), 0))(t)
				if !near(e.Working[0].Number, f.H(), 1e-8) {
					t.Errorf("H %v, want %v", e.Working[0].Number, f.H())
				}
				if tt.kind == "" {
					if len(e.Warnings) != 0 {
						t.Errorf("warnings %v", e.Warnings)
					}
					continue
				}
				if len(e.Warnings) != 1 || e.Warnings[0].Kind != tt.kind || !strings.HasPrefix(e.Warnings[0].Message, tt.message) {
					t.Errorf("warnings %v, want %s", e.Warnings, tt.kind)
				}
			}
		})
	}
}

// What a source can't answer it refuses.
func TestSourcesRefuse(t *testing.T) {
	late := time.Date(2031, time.January, 1, 0, 0, 0, 0, time.UTC)
	for _, s := range []variation.Explainer{wmm.WMM2025(), wmm.Models()} {
		_, err := s.VariationAt(at(47, -19), late)
		_, err2 := s.ExplainVariation(at(47, -19), late)
		for _, err := range []error{err, err2} {
			if !isOutside(err, "2031.0", "to 2030.0") {
				t.Error(err)
			}
		}
	}
	// No field, no variation.
	none := must(wmm.ReadCOF(strings.NewReader("2025.0 NONE\n1 0 0 0 0 0\n1 1 0 0 0 0\n" + nines)))(t)
	_, err := none.VariationAt(at(47, -19), onYear(2026))
	_, err2 := none.ExplainVariation(at(47, -19), onYear(2026))
	for _, err := range []error{err, err2} {
		var re *angle.RangeError
		if !errors.As(err, &re) {
			t.Error(err)
		}
	}
	if d := (wmm.Rates{X: 1}).D(wmm.Field{Z: 1}); !math.IsNaN(d) {
		t.Errorf("%v: want no rate of a declination that is not there", d)
	}
	if i, err := (wmm.Field{}).I(); err == nil {
		t.Errorf("inclination %v of no field", i)
	}
	if i := must((wmm.Field{Z: -1}).I())(t); i != -90*angle.Degree {
		t.Error(i)
	}
}
