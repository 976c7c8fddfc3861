package diagram_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/deviation"
	"lubberline.example/deviation/diagram"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"
	"lubberline.example/variation"
)

// longDetails have names in other letters, and longer than their places.
var longDetails = deviation.Details{
	Vessel: "Ωκεανός Βόρειος · 北方の星丸 · Приморская звезда · السفينة", Compass: strings.Repeat("steering ", 20),
	Place: strings.Repeat("off the north buoy, ", 20), Adjuster: strings.Repeat("W", 90), Remarks: strings.Repeat("羅針儀の自差 ", 60),
	Date: time.Date(2026, 12, 30, 0, 0, 0, 0, time.UTC),
}

// label is a text on a drawing.
type label struct {
	text  string
	box   drawing.Box
	at    drawing.Spot
	class string
	bold  bool
}

// boxOf returns the box of a text that begins at a spot on its base line, in a wide font with
// letters of a size in millimetres. Other scripts than Latin, Greek and Cyrillic reach higher and lower.
func boxOf(at drawing.Spot, text string, size float64) drawing.Box {
	up, down := 0.8, 0.26
	if strings.ContainsFunc(text, func(r rune) bool { return unicode.In(r, tallScripts...) }) {
		up, down = 1.1, 0.4
	}
	return drawing.Box{Left: at.X, Top: at.Y - up*size, Right: at.X + size*drawing.TextWidth(text), Bottom: at.Y + down*size}
}

// tallScripts are some whose letters stand higher or hang lower than Latin ones.
var tallScripts = []*unicode.RangeTable{unicode.Arabic, unicode.Hebrew, unicode.Devanagari, unicode.Thai, unicode.Tibetan, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul}

// labels reads the level texts of a drawing, with the boxes that they take.
func labels(t devtest.Fails, svg string) []label {
	t.Helper()
	var list []label
	var now *label
	size, anchor := 0.0, ""
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := d.Token()
		if err != nil {
			return list
		}
		switch e := token.(type) {
		case xml.StartElement:
			if e.Name.Local != "text" {
				continue
			}
			a := map[string]string{}
			for _, at := range e.Attr {
				a[at.Name.Local] = at.Value
			}
			if a["transform"] != "" {
				continue
			}
			size, anchor = drawing.Letters, a["text-anchor"]
			if s, err := strconv.ParseFloat(a["font-size"], 64); err == nil {
				size = s
			}
			x, _ := strconv.ParseFloat(a["x"], 64)
			y, _ := strconv.ParseFloat(a["y"], 64)
			now = &label{at: drawing.At(x, y), class: a["class"], bold: a["font-weight"] == "bold"}
		case xml.CharData:
			if now != nil {
				now.text += string(e)
			}
		case xml.EndElement:
			if now != nil {
				at, width := now.at, size*drawing.TextWidth(now.text)
				switch anchor {
				case "middle":
					at.X -= width / 2
				case "end":
					at.X -= width
				}
				now.box = boxOf(at, now.text, size)
				list, now = append(list, *now), nil
			}
		}
	}
}

// figure writes a sheet as a figure.
func figure(t devtest.Fails, sheet *drawing.Sheet, err error) string {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := sheet.WriteSVG(&b, drawing.Figure); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// page returns the size of the paper of a plate.
func page(t devtest.Fails, sheet *drawing.Sheet) string {
	t.Helper()
	var b bytes.Buffer
	if err := sheet.WriteSVG(&b, drawing.Plate); err != nil {
		t.Fatal(err)
	}
	return regexp.MustCompile(`viewBox="0 0 ([^"]*)"`).FindStringSubmatch(b.String())[1]
}

// drawSwing draws a curve of some size, and a swing about it.
func drawSwing(t *rapid.T) diagram.Plot {
	most := rapid.SampledFrom([]angle.Angle{devtest.Deg / 10, 3 * devtest.Deg, 12 * devtest.Deg}).Draw(t, "most")
	of := func(name string) angle.Angle { return devtest.DrawBetween(t, -most, most, name) }
	k := deviation.Coefficients{A: of("A"), B: of("B"), C: of("C"), D: of("D") / 4, E: of("E") / 4}
	p := diagram.Plot{Source: angle.Must(k.Curve(deviation.ByCompass)), Details: rapid.SampledFrom([]deviation.Details{{}, longDetails, {Vessel: "Quillon"}}).Draw(t, "details")}
	for h := angle.Angle(0); h < angle.Turn; h += 45 * devtest.Deg {
		on := angle.CompassFrom(h + devtest.DrawBetween(t, 0, 40*devtest.Deg, "heading"))
		d := angle.Must(p.Source.OnCompass(on)).Angle() + devtest.DrawBetween(t, -most/8, most/8, "off")
		p.Observations = append(p.Observations, swing.Observation{Heading: on, Deviation: deviation.East(d)})
	}
	p.LeftOut = p.Observations[:1]
	p.Observations = p.Observations[1:]
	return p
}

// sheets draws the pictures of this package whose texts are placed by the data.
func sheets(t devtest.Fails, p diagram.Plot, step angle.Angle) map[string]*drawing.Sheet {
	t.Helper()
	must := func(s *drawing.Sheet, err error) *drawing.Sheet {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	card, err := deviation.NewCard(p.Source, step, p.Details)
	if err != nil {
		t.Fatal(err)
	}
	k := deviation.Coefficients{A: -devtest.Deg, B: -40 * devtest.Deg, C: 40 * devtest.Deg}
	return map[string]*drawing.Sheet{
		"card": must(diagram.Card(card, diagram.Options{Coefficients: &k})), "rose": must(diagram.Card(card, diagram.Options{Rose: true})),
		"polar": must(diagram.Polar(p)), "before and after": must(diagram.BeforeAfter(p, diagram.Plot{Source: p.Source, Details: p.Details})),
	}
}

// For any deviations and names, no text covers another or leaves the sheet, and each plate is A4.
func TestTextsDoNotOverlap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawSwing(t)
		step := rapid.SampledFrom([]angle.Angle{10 * devtest.Deg, angle.Point, 15 * devtest.Deg, 22*devtest.Deg + 30*devtest.Minute, 45 * devtest.Deg}).Draw(t, "step")
		for name, sheet := range sheets(t, p, step) {
			svg := figure(t, sheet, nil)
			list := labels(t, svg)
			if len(list) < 30 {
				t.Fatalf("%s: only %d texts", name, len(list))
			}
			var body drawing.Box
			size := regexp.MustCompile(`viewBox="([^"]+)"`).FindStringSubmatch(svg)[1]
			if _, err := fmt.Sscanf(size, "%g %g %g %g", &body.Left, &body.Top, &body.Right, &body.Bottom); err != nil {
				t.Fatal(err)
			}
			for i, a := range list {
				if !a.box.Within(body.Grown(0.1)) {
					t.Fatalf("%s: %q leaves the sheet of %v: %v", name, a.text, body, a.box)
				}
				for _, b := range list[:i] {
					if a.box.Grown(-0.1).Meets(b.box.Grown(-0.1)) {
						t.Fatalf("%s: %q covers %q", name, a.text, b.text)
					}
				}
			}
			if got := page(t, sheet); got != "210 297" {
				t.Fatalf("%s: the page is %s", name, got)
			}
		}
	})
}

// The curve and Napier's diagram print on A4, with long names too.
func TestPlatesAreA4(t *testing.T) {
	p := quillonDiagram(t)
	for _, details := range []deviation.Details{{}, p.Details, longDetails} {
		p.Details = details
		for name, draw := range drawings {
			sheet, err := draw(p)
			if err != nil {
				t.Fatal(err)
			}
			if got := page(t, sheet); got != "210 297" {
				t.Errorf("%s: the page is %s", name, got)
			}
		}
	}
}

// A swing is read back from the polar plot: each circle's heading and deviation to 0.2 mm.
func TestPolarIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawSwing(t)
		svg := figure(t, angle.Must(diagram.Polar(p)), nil)
		var mid, zero, scale float64
		rings := regexp.MustCompile(`<circle cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)" fill="none"`).FindAllStringSubmatch(svg, -1)
		if len(rings) != 5 {
			t.Fatal("want five rings")
		}
		centre := drawing.At(number(rings[0][1]), number(rings[0][2]))
		zero, scale = number(rings[2][3]), number(rings[4][3])-number(rings[2][3])
		for _, l := range labels(t, svg) {
			if l.class == "scale" {
				mid = max(mid, parseEast(l.text))
			}
		}
		marks := regexp.MustCompile(`class="observation" cx="([\d.]+)" cy="([\d.]+)"`).FindAllStringSubmatch(svg, -1)
		for i, o := range p.Observations {
			at := drawing.At(number(marks[i][1]), number(marks[i][2]))
			x, y := at.X-centre.X, centre.Y-at.Y
			heading, east := math.Atan2(x, y)*180/math.Pi, (math.Hypot(x, y)-zero)*mid/scale
			off := math.Abs(math.Remainder(heading-o.Heading.Degrees(), 360)) * math.Pi / 180 * math.Hypot(x, y)
			if off > 0.2 || math.Abs(east-o.Deviation.Degrees())*scale/mid > 0.2 {
				t.Fatalf("%v on %v is drawn as %.2f° on %.1f°", o.Deviation, o.Heading, east, heading)
			}
		}
	})
}

// number reads a number that was matched.
func number(text string) float64 { return angle.Must(strconv.ParseFloat(text, 64)) }

// parseEast reads a figure of a scale.
func parseEast(text string) float64 {
	x, _, _ := strings.Cut(text, "°")
	if v := number(x); !strings.HasSuffix(text, "W") {
		return v
	}
	return -number(x)
}

// The cells of a card add up: compass and deviation give the magnetic heading as printed.
func TestCardAddsUp(t *testing.T) {
	source := devtest.MustTable(t, devtest.Every15(func(h angle.Angle) float64 { return 40*h.Sin() - 0.1 }))
	for _, step := range []angle.Angle{5 * devtest.Deg, 10 * devtest.Deg, angle.Point, 45 * devtest.Deg} {
		card, err := deviation.NewCard(source, step, longDetails)
		if err != nil {
			t.Fatal(err)
		}
		sheet, err := diagram.Card(card, diagram.Options{})
		var cells []string
		for _, l := range labels(t, figure(t, sheet, err)) {
			if l.class == "cell" {
				if heading := len(cells)%3 != 1; l.bold != heading {
					t.Errorf("%s: bold %v; the headings are", l.text, l.bold)
				}
				cells = append(cells, l.text)
			}
		}
		if len(cells) != 6*len(card.ByCompass) {
			t.Fatalf("%d cells", len(cells))
		}
		for i := 0; i < len(cells); i += 3 {
			d := deviation.MustParse(strings.TrimSuffix(cells[i+1], " "))
			if i < len(cells)/2 {
				c, m := angle.MustParseCompass(cells[i]), angle.MustParseMagnetic(cells[i+2])
				if off := d.Magnetic(c).Sub(m).Abs(); off > devtest.Deg/20 { // a point has more decimals than are printed
					t.Errorf("%s: %v", cells[i:i+3], off)
				}
				continue
			}
			m, c := angle.MustParseMagnetic(cells[i]), angle.MustParseCompass(cells[i+2])
			if off := d.Compass(m).Sub(c).Abs(); off > devtest.Deg/20 {
				t.Errorf("%s: %v", cells[i:i+3], off)
			}
		}
		if got, want := page(t, sheet), map[bool]string{true: "297 420", false: "210 297"}[step == 5*devtest.Deg]; got != want {
			t.Errorf("step %v: page %s, want %s", step, got, want)
		}
	}
}

// A card has room for what is not known, and states its uncertainty.
func TestCardHasRoomToWrite(t *testing.T) {
	card, err := deviation.NewCard(deviation.None().WithUncertainty(devtest.Sigma(devtest.Deg/2)), 30*devtest.Deg, deviation.Details{})
	if err != nil {
		t.Fatal(err)
	}
	for _, rose := range []bool{false, true} {
		sheet, err := diagram.Card(card, diagram.Options{Rose: rose})
		svg := figure(t, sheet, err)
		// Vessel, compass, date, place and adjuster; A to E; name, signature and date.
		if got := strings.Count(svg, `class="blank"`); got != 13 {
			t.Errorf("%d lines to write on, want 13", got)
		}
		if strings.Contains(svg, "± is one") == rose {
			t.Errorf("rose %v: the note on ± is wrong", rose)
		}
	}
}

// What cannot be drawn is an error.
func TestCardRefuses(t *testing.T) {
	every := func(step angle.Angle) *deviation.Card {
		return angle.Must(deviation.NewCard(deviation.None(), step, deviation.Details{}))
	}
	wild := every(30 * devtest.Deg)
	wild.ByMagnetic[2].Deviation = deviation.West(91 * devtest.Deg)
	for name, test := range map[string]struct {
		card *deviation.Card
		rose bool
		says string
	}{
		"nil": {nil, false, "no rows"}, "empty": {&deviation.Card{}, true, "no rows"}, "half": {&deviation.Card{ByCompass: wild.ByCompass}, false, "no rows"},
		"4°": {every(4 * devtest.Deg), false, "at least 5°"}, "rose 5°": {every(5 * devtest.Deg), true, "at least 10°"}, "91°": {wild, false, "at most 90°"}, "narrow rose": {every(30 * devtest.Deg), true, "no narrow form"},
	} {
		sheet, err := diagram.Card(test.card, diagram.Options{Rose: test.rose, Narrow: name == "narrow rose"})
		if _, is := errors.AsType[*diagram.Error](err); !is || sheet != nil || !strings.Contains(err.Error(), test.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	good := diagram.Plot{Source: deviation.None()}
	for i, pair := range [][2]diagram.Plot{{{}, good}, {good, {}}} {
		sheet, err := diagram.BeforeAfter(pair[0], pair[1])
		_, is := errors.AsType[*diagram.Error](err)
		_, missing := errors.AsType[*variation.MissingInputError](err)
		if !is || !missing || sheet != nil || !strings.Contains(err.Error(), []string{"before: ", "after: "}[i]) {
			t.Errorf("%d: %v", i, err)
		}
	}
}
