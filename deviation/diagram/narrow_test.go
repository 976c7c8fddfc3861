package diagram_test

import (
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/deviation"
	"lubberline.example/deviation/diagram"
	"lubberline.example/deviation/internal/devtest"
)

// fails is a test or a property test.
type fails interface {
	devtest.Fails
	Errorf(string, ...any)
}

// small fails if a figure cannot be read on a small screen: if it is wider than 95 mm, if a text has
// letters below 9 pixels on a screen 320 pixels wide, covers another or leaves the sheet.
func small(t fails, name, svg string) {
	t.Helper()
	box := regexp.MustCompile(`viewBox="0 0 ([\d.]+) ([\d.]+)"`).FindStringSubmatch(svg)
	width, height := number(box[1]), number(box[2])
	for _, size := range regexp.MustCompile(`font-size="([\d.]+)"`).FindAllStringSubmatch(svg, -1) {
		if px := number(size[1]) * 320 / width; px < 9 {
			t.Errorf("%s: letters of %.1f pixels", name, px)
		}
	}
	list := labels(t, svg)
	for i, a := range list {
		if !a.box.Within(drawing.Box{Right: width, Bottom: height}.Grown(0.1)) {
			t.Errorf("%s: %q in %v is not on the sheet of %v by %v mm", name, a.text, a.box, width, height)
		}
		for _, b := range list[:i] {
			if a.box.Grown(-0.1).Meets(b.box.Grown(-0.1)) {
				t.Errorf("%s: %q covers %q", name, a.text, b.text)
			}
		}
	}
	if width > 95 {
		t.Errorf("%s is %v mm wide", name, width)
	}
}

// written returns the texts of a class, without spaces, one after the other.
func written(t fails, svg, class string) string {
	t.Helper()
	var all strings.Builder
	for _, l := range labels(t, svg) {
		if l.class == class {
			all.WriteString(strings.Join(strings.Fields(l.text), ""))
		}
	}
	return all.String()
}

// A narrow card has the figures of the wide one, and all details as they were given. It can be read
// on a small screen, as the polar plot can.
func TestNarrowCardIsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawSwing(t)
		step := rapid.SampledFrom([]angle.Angle{10 * devtest.Deg, angle.Point, 45 * devtest.Deg}).Draw(t, "step")
		card, err := deviation.NewCard(p.Source, step, p.Details)
		if err != nil {
			t.Fatal(err)
		}
		k := deviation.Coefficients{A: -devtest.Deg, B: -40 * devtest.Deg, C: 40 * devtest.Deg}
		wide, err := diagram.Card(card, diagram.Options{Coefficients: &k})
		page := figure(t, wide, err)
		narrow, err := diagram.Card(card, diagram.Options{Coefficients: &k, Narrow: true})
		svg := figure(t, narrow, err)
		small(t, "card", svg)
		if written(t, svg, "cell") != written(t, page, "cell") || narrow.Description() != wide.Description() {
			t.Fatal("the figures are not those of the wide card")
		}
		values := written(t, svg, "value")
		for _, text := range []string{p.Details.Vessel, p.Details.Compass, p.Details.Place, p.Details.Adjuster, p.Details.Remarks, "+40.00°"} {
			if !strings.Contains(values, strings.Join(strings.Fields(text), "")) {
				t.Fatalf("%q is not on the card", text)
			}
		}
		polar, err := diagram.Polar(p)
		small(t, "polar", figure(t, polar, err))
	})
}

// A long name is printed whole, in smaller letters.
func TestLongNameIsPrintedWhole(t *testing.T) {
	const name = "Training vessel Quillon of Orlesk Harbour, in St Osk Road"
	card, err := deviation.NewCard(deviation.None(), 30*devtest.Deg, deviation.Details{Vessel: name})
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := diagram.Card(card, diagram.Options{})
	if svg := figure(t, sheet, err); !strings.Contains(svg, ">"+name+"<") {
		t.Error("the name is cut")
	}
}
