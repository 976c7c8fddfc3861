package course_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

func TestStrings(t *testing.T) {
	h := angle.Must(course.FromTrue(angle.MustParseTrue("112"), known("4°W", "2°E")))
	if got, want := h.String(), "112°T 116°M 114°C"; got != want {
		t.Errorf("heading %s, want %s", got, want)
	}
	b := h.BearingFromCompass(angle.MustParseCompass("300.5"))
	if got, want := b.String(), "298.5°T 302.5°M 300.5°C"; got != want {
		t.Errorf("bearing %s, want %s", got, want)
	}
}

func TestEqualComparesDirections(t *testing.T) {
	h := angle.Must(course.FromTrue(angle.MustParseTrue("112"), known("4°W", "2°E")))
	again := angle.Must(course.FromCompass(h.Compass(), known("4°W", "2°E")))
	other := angle.Must(course.FromTrue(angle.MustParseTrue("113"), known("4°W", "2°E")))
	if !h.Equal(again) || !cmp.Equal(h, again) || h.Equal(other) || cmp.Equal(h, other) {
		t.Errorf("%v, %v and %v", h, again, other)
	}
	c := angle.MustParseCompass("300")
	b := h.BearingFromCompass(c)
	if !b.Equal(again.BearingFromCompass(c)) || !cmp.Equal(b, again.BearingFromMagnetic(b.Magnetic())) ||
		b.Equal(h.BearingFromCompass(c.Add(angle.Degree))) || cmp.Equal(b, other.BearingFromCompass(c)) {
		t.Errorf("bearings from %v", b)
	}
}

func TestWarningsOfVariation(t *testing.T) {
	w := known("4°W", "2°E")
	w.Variation = variation.MustParseLegend("4°00′W 1980 (2′E)")
	w.On = time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC)
	h := angle.Must(course.FromTrue(angle.MustParseTrue("112"), w))
	if got := h.Warnings(); len(got) != 1 || got[0].Kind != variation.OldRose {
		t.Errorf("an old rose: %v", got)
	}
	if got := angle.Must(course.FromTrue(angle.True{}, known("4°W", "2°E"))).Warnings(); len(got) != 0 {
		t.Errorf("a known variation: %v", got)
	}
	if got := (course.Heading{}).Warnings(); got != nil {
		t.Errorf("the zero heading: %v", got)
	}
}

// changeable answers otherwise each time it is asked, and explains itself.
type changeable struct{ asked *int }

func (f changeable) ExplainVariation(p angle.Position, t time.Time) (variation.Explanation, error) {
	v, err := f.VariationAt(p, t)
	step := working.EastWest("variation", "Variation", v.Angle()).Because("as-given", "as given")
	return variation.Explanation{Variation: v, Working: working.Steps{step}, Warnings: []working.Warning{{Kind: "changeable"}}}, err
}

func (f changeable) OnCompass(angle.Compass) (deviation.Deviation, error) {
	*f.asked++
	return deviation.East(angle.Degree), nil
}

func (f changeable) OnMagnetic(angle.Magnetic) (deviation.Deviation, error) {
	return f.OnCompass(angle.Compass{})
}

func (f changeable) ExplainDeviation(c angle.Compass) (deviation.Explanation, error) {
	d, err := f.OnCompass(c)
	return deviation.Explanation{Deviation: d, Working: working.Steps{working.EastWest("deviation", "Deviation", d.Angle())}, Warnings: []working.Warning{{Kind: "changeable"}}}, err
}

func (f changeable) VariationAt(angle.Position, time.Time) (variation.Variation, error) {
	*f.asked++
	return variation.East(angle.Angle(*f.asked) * angle.Degree), nil
}

func TestWorkingDoesNotAskItsSourcesAgain(t *testing.T) {
	variations, deviations := new(int), new(int)
	w := course.With{Variation: changeable{variations}, Deviation: changeable{deviations}, At: &offOrlesk, On: day}
	h := angle.Must(course.FromTrue(angle.MustParseTrue("112"), w))
	asked := *deviations
	for range 2 {
		steps := h.Working().Steps
		if step, _ := steps.Find("variation"); step.Value != "1°00′E" || h.Variation() != variation.East(angle.Degree) {
			t.Errorf("%+v", step)
		}
		if len(h.Warnings()) != 2 || len(h.BearingFromTrue(angle.True{}).Working().Warnings) != 2 {
			t.Errorf("%v", h.Warnings())
		}
	}
	if *variations != 1 || *deviations != asked {
		t.Errorf("asked %d and %d times more", *variations-1, *deviations-asked)
	}
}
