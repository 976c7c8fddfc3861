package course_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/variation"
)

func TestAHeadingAndABearingPrintByTheThreeNorths(t *testing.T) {
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

func TestWarningsAreThoseOfTheVariation(t *testing.T) {
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

// changeable answers otherwise each time it is asked.
type changeable struct{ asked *int }

func (f changeable) VariationAt(angle.Position, time.Time) (variation.Variation, error) {
	*f.asked++
	return variation.East(angle.Angle(*f.asked) * angle.Degree), nil
}

func TestWorkingSaysThatItsSourceChanged(t *testing.T) {
	w := known("4°W", "2°E")
	w.Variation, w.At, w.On = changeable{new(int)}, &offOrlesk, day
	h := angle.Must(course.FromTrue(angle.MustParseTrue("112"), w))
	step, _ := h.Working().Steps.Find("variation")
	if step.Value != "1°00′E" || step.How != "the source no longer explains it: it now gives 2°00′E" {
		t.Errorf("%+v", step)
	}
}
