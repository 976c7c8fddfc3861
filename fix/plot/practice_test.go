package plot_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
	"lubberline.example/fix/plot"
	"lubberline.example/fix/practice"
)

// A pcElement is an element of a drawing.
type pcElement struct {
	name, class, text string
	attributes        map[string]string
}

// number returns an attribute as a number.
func (e pcElement) number(name string) float64 {
	n, err := strconv.ParseFloat(e.attributes[name], 64)
	if err != nil {
		return math.NaN()
	}
	return n
}

// pcElements reads a figure as XML.
func pcElements(t *testing.T, s *drawing.Sheet) []pcElement {
	t.Helper()
	var b bytes.Buffer
	if err := s.WriteSVG(&b, drawing.Figure); err != nil {
		t.Fatal(err)
	}
	for _, bad := range []string{"NaN", "Inf", " id=", "<script"} {
		if strings.Contains(b.String(), bad) {
			t.Errorf("the drawing contains %q", bad)
		}
	}
	var out []pcElement
	for d := xml.NewDecoder(&b); ; {
		token, err := d.Token()
		if err == io.EOF {
			return out
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := pcElement{name: token.Name.Local, attributes: map[string]string{}}
			for _, a := range token.Attr {
				e.attributes[a.Name.Local] = a.Value
			}
			e.class = e.attributes["class"]
			out = append(out, e)
		case xml.CharData:
			if len(out) > 0 {
				out[len(out)-1].text += strings.TrimSpace(string(token))
			}
		}
	}
}

// pcClass returns the elements of a class.
func pcClass(all []pcElement, class string) (out []pcElement) {
	for _, e := range all {
		if slices.Contains(strings.Fields(e.class), class) {
			out = append(out, e)
		}
	}
	return out
}

// pcMeasured reads positions from a chart, as a navigator does from its border: longitude is even
// along the frame, and latitude as the meridional parts of WGS84.
type pcMeasured struct {
	chart                    practice.Chart
	left, top, right, bottom float64
}

// pcFrame finds the frame of a chart.
func pcFrame(t *testing.T, c practice.Chart, all []pcElement) pcMeasured {
	t.Helper()
	frame := pcClass(all, "frame")
	if len(frame) != 1 {
		t.Fatalf("%d frames", len(frame))
	}
	f := frame[0]
	return pcMeasured{c, f.number("x"), f.number("y"), f.number("x") + f.number("width"), f.number("y") + f.number("height")}
}

// parts returns meridional parts on WGS84, in radians, by the closed formula.
func (m pcMeasured) parts(l angle.Latitude) float64 {
	e := math.Sqrt(0.00669437999014)
	s := math.Sin(l.Degrees() * math.Pi / 180)
	return math.Atanh(s) - e*math.Atanh(e*s)
}

// off returns how far a spot of the drawing is from where a position belongs, mm.
func (m pcMeasured) off(p angle.Position, x, y float64) float64 {
	east := func(l angle.Longitude) float64 { return math.Mod(l.Degrees()-m.chart.West.Degrees()+720, 360) }
	wantX := m.left + (m.right-m.left)*east(p.Longitude)/east(m.chart.East)
	north, south := m.parts(m.chart.North), m.parts(m.chart.South)
	wantY := m.top + (m.bottom-m.top)*(north-m.parts(p.Latitude))/(north-south)
	return math.Hypot(x-wantX, y-wantY)
}

// pcDrawn draws a practice chart.
func pcDrawn(t *testing.T, c practice.Chart, o plot.PracticeOptions) []pcElement {
	t.Helper()
	s, err := plot.PracticeChart(c, o)
	if err != nil {
		t.Fatal(err)
	}
	return pcElements(t, s)
}

// pcPositions checks every position of a chart against the drawing, to 0.2 mm.
func pcPositions(t *testing.T, c practice.Chart, all []pcElement) {
	t.Helper()
	m := pcFrame(t, c, all)
	marks := pcClass(all, "mark")
	if len(marks) != len(c.Marks) {
		t.Fatalf("%d marks drawn, want %d", len(marks), len(c.Marks))
	}
	for i, mark := range c.Marks {
		if off := m.off(mark.Position, marks[i].number("cx"), marks[i].number("cy")); !(off < 0.2) {
			t.Errorf("%s is drawn %.2f mm off", mark.Name, off)
		}
	}
	foul := pcClass(all, "foul")
	for i, d := range c.Dangers {
		if off := m.off(d.Position, foul[i].number("cx"), foul[i].number("cy")); !(off < 0.2) {
			t.Errorf("%s is drawn %.2f mm off", d.Name, off)
		}
	}
	// A sounding stands where its figure has its middle.
	drawn := 0
	for _, e := range pcClass(all, "sounding") {
		found := false
		for _, s := range c.Soundings {
			whole := fmt.Sprint(int(math.Floor(math.Abs(s.Depth.Metres()) + 1e-9)))
			found = found || e.text == whole && m.off(s.Position, e.number("x"), e.number("y")-0.36*e.number("font-size")) < 0.2
		}
		if !found {
			t.Errorf("no sounding of %s m at %v, %v", e.text, e.number("x"), e.number("y"))
		}
		drawn++
	}
	if len(c.Soundings) > 0 && drawn < 1 {
		t.Error("no sounding is drawn")
	}
	for i, l := range pcClass(all, "land") {
		for k, pair := range strings.Fields(l.attributes["points"]) {
			x, y, _ := strings.Cut(pair, ",")
			p := c.Land[i][k]
			if !c.Contains(p) {
				continue
			}
			if off := m.off(p, angle.Must(strconv.ParseFloat(x, 64)), angle.Must(strconv.ParseFloat(y, 64))); !(off < 0.2) {
				t.Fatalf("the land at %v is drawn %.2f mm off", p, off)
			}
		}
	}
}

func TestPracticeChartReadsBackToItsPositions(t *testing.T) {
	chart := practice.Orlesk()
	for _, scale := range []float64{0, 80_000, 150_000, 350_000, 500_000} {
		all := pcDrawn(t, chart, plot.PracticeOptions{Scale: scale})
		pcPositions(t, chart, all)
		if scale == 0 {
			if n := len(pcClass(all, "sounding")); n < 120 {
				t.Errorf("only %d soundings are drawn", n)
			}
		}
	}
}

// Roses are drawn whole: the frame does not cut their rings.
func TestRosesOfPracticeChartAreWhole(t *testing.T) {
	for _, scale := range []float64{80_000, 150_000, 250_000} {
		all := pcDrawn(t, practice.Orlesk(), plot.PracticeOptions{Scale: scale})
		frame := pcClass(all, "frame")[0]
		box := drawing.Box{Left: frame.number("x"), Top: frame.number("y"), Right: frame.number("x") + frame.number("width"), Bottom: frame.number("y") + frame.number("height")}
		rings := pcClass(all, "true")
		if len(rings) != 2 {
			t.Fatalf("%d roses", len(rings))
		}
		for _, r := range rings {
			if ring := drawing.Around(drawing.At(r.number("cx"), r.number("cy")), r.number("r"), r.number("r")); !ring.Within(box) {
				t.Errorf("1:%.0f: the ring %v is cut", scale, ring)
			}
		}
	}
}

// The letters of the tidal diamonds are those of the table beside them, where its places are.
func TestTidalDiamondsMatchTheirTable(t *testing.T) {
	chart := practice.Orlesk()
	all := pcDrawn(t, chart, plot.PracticeOptions{})
	m := pcFrame(t, chart, all)
	letters, places, diamonds := pcClass(all, "tidal-letter"), pcClass(all, "tidal-place"), pcClass(all, "tidal")
	if len(letters) != 2 || len(places) != 2 || len(diamonds) != 2 {
		t.Fatalf("%d letters, %d places, %d diamonds", len(letters), len(places), len(diamonds))
	}
	for i, p := range chart.Tidal.Places {
		if letters[i].text != p.Name || places[i].text != "◇ "+p.Name {
			t.Errorf("letter %q, table %q, want %s", letters[i].text, places[i].text, p.Name)
		}
		var x, y float64
		for _, pair := range strings.Fields(diamonds[i].attributes["points"]) {
			px, py, _ := strings.Cut(pair, ",")
			x, y = x+angle.Must(strconv.ParseFloat(px, 64))/4, y+angle.Must(strconv.ParseFloat(py, 64))/4
		}
		if off := m.off(*p.Position, x, y); !(off < 0.2) {
			t.Errorf("diamond %s is drawn %.2f mm off", p.Name, off)
		}
	}
	var cells []string
	for _, c := range pcClass(all, "tidal-cell") {
		cells = append(cells, c.text)
	}
	if len(cells) != 3*(13+12) || cells[0] != "045°" || cells[1] != "0.5" || cells[3] != "010°" {
		t.Errorf("%d cells: %v", len(cells), cells[:6])
	}
}

func TestPracticeChartSaysThatItIsInvented(t *testing.T) {
	for _, o := range []plot.PracticeOptions{{}, {Plain: true}, {Scale: 500_000}} {
		s, err := plot.PracticeChart(practice.Orlesk(), o)
		if err != nil {
			t.Fatal(err)
		}
		var plate bytes.Buffer
		if err := s.WriteSVG(&plate, drawing.Plate); err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(plate.String(), ">Invented: not for navigation"); n < 2 { // in the title and in the caution
			t.Errorf("%+v: says %d times that it is invented", o, n)
		}
		if !strings.Contains(s.Description(), "Minnow Ledge beacon") {
			t.Error("the description does not name the marks")
		}
	}
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

// pcBoxes returns the boxes of the level texts of some classes.
func pcBoxes(all []pcElement, classes ...string) (out []drawing.Box, texts []string) {
	for _, e := range all {
		if e.name != "text" || !slices.ContainsFunc(classes, func(c string) bool { return slices.Contains(strings.Fields(e.class), c) }) || e.attributes["transform"] != "" {
			continue
		}
		size := e.number("font-size")
		if math.IsNaN(size) {
			size = drawing.Letters
		}
		b := boxOf(drawing.At(e.number("x"), e.number("y")), e.text, size)
		back := (b.Right - b.Left) * map[string]float64{"": 0, "start": 0, "middle": 0.5, "end": 1}[e.attributes["text-anchor"]]
		b.Left, b.Right = b.Left-back, b.Right-back
		out, texts = append(out, b), append(texts, e.text)
	}
	return out, texts
}

func TestTextsOfPracticeChartDoNotOverlap(t *testing.T) {
	for _, scale := range []float64{80_000, 150_000, 250_000, 350_000, 700_000} {
		all := pcDrawn(t, practice.Orlesk(), plot.PracticeOptions{Scale: scale})
		boxes, texts := pcBoxes(all, "name", "sounding", "tidal-letter", "title", "tidal-cell", "least-depth")
		for i, a := range boxes {
			for j := range i {
				if a.Grown(-0.1).Meets(boxes[j]) {
					t.Errorf("1:%.0f: %q and %q overlap", scale, texts[i], texts[j])
				}
			}
		}
		// What has no room on the chart stands beside it.
		var written strings.Builder
		for _, e := range all {
			if e.name == "text" {
				written.WriteString(e.text + " ")
			}
		}
		words := strings.Join(strings.Fields(written.String()), " ")
		for _, m := range practice.Orlesk().Marks {
			if !strings.Contains(words, m.Name) {
				t.Errorf("1:%.0f: %s has no name", scale, m.Name)
			}
		}
		height := 0.0
		fmt.Sscanf(all[0].attributes["viewBox"], "0 0 %g %g", new(float64), &height)
		for i, b := range boxes {
			if b.Bottom > height {
				t.Errorf("1:%.0f: %q stands below the sheet", scale, texts[i])
			}
		}
		if len(boxes) < 60 {
			t.Errorf("1:%.0f: only %d texts", scale, len(boxes))
		}
	}
}

// Charts anywhere: over the date line, at 78° north, in the southern hemisphere, with long names
// and other letters.
func TestPracticeChartsAnywhere(t *testing.T) {
	for _, limits := range [][4]string{
		{"17°00′S", "16°30′S", "179°45′E", "179°30′W"}, {"78°00′N", "78°20′N", "014°00′E", "016°00′E"},
		{"36°20′S", "36°00′S", "174°50′E", "175°20′E"}, {"0°15′S", "0°15′N", "0°20′W", "0°20′E"}, {"84°30′N", "84°50′N", "010°E", "014°E"},
	} {
		c := practice.Chart{Name: "Залив Орлеск 羅針 " + strings.Repeat("long ", 20), South: angle.Must(angle.ParseLatitude(limits[0])), North: angle.Must(angle.ParseLatitude(limits[1])), West: angle.Must(angle.ParseLongitude(limits[2])), East: angle.Must(angle.ParseLongitude(limits[3]))}
		at := func(north, east float64) angle.Position {
			wide := math.Mod(c.East.Degrees()-c.West.Degrees()+360, 360)
			lat := c.South.Degrees() + north*(c.North.Degrees()-c.South.Degrees())
			lon := math.Remainder(c.West.Degrees()+east*wide, 360)
			return angle.Must(angle.PositionDegrees(lat, lon))
		}
		for i, k := range []practice.MarkKind{practice.Light, practice.Beacon, practice.Tower, practice.Church, practice.Buoy, practice.Summit} {
			m := practice.Mark{Kind: k, Light: "Oc(2) WRG 15s", Height: 21 * sailing.Metre, Range: 12 * sailing.NauticalMile}
			m.Mark = fix.Mark{Name: []string{"Маяк Орлеск", "羅針盤の灯台", strings.Repeat("W", 150), "منارة", "</text>&", "Ǻgø"}[i], Position: at(0.1+0.15*float64(i), 0.2+0.1*float64(i%3))}
			c.Marks = append(c.Marks, m)
		}
		c.Dangers = []practice.Danger{{Name: "岩", Position: at(0.5, 0.8), Kind: practice.Rock, Depth: -1, Radius: 300}}
		c.Soundings = []practice.Sounding{{Position: at(0.9, 0.9), Depth: 12.5}, {Position: at(0.05, 0.05), Depth: 130}}
		c.Land = [][]angle.Position{{at(-0.1, -0.1), at(0.4, -0.1), at(0.3, 0.3), at(-0.1, 0.25)}}
		s, err := plot.PracticeChart(c, plot.PracticeOptions{Scale: 200_000})
		if err != nil {
			t.Errorf("%v: %v", limits, err)
			continue
		}
		pcPositions(t, c, pcElements(t, s))
	}
}

func TestScalesOfPracticeChartsAreChecked(t *testing.T) {
	for _, scale := range []float64{-1, 1, math.NaN(), math.Inf(1), 1e12, 1000} {
		var fault *angle.RangeError
		if _, err := plot.PracticeChart(practice.Orlesk(), plot.PracticeOptions{Scale: scale}); !errors.As(err, &fault) {
			t.Errorf("1:%v: %v", scale, err)
		}
	}
	if _, err := plot.PracticeChart(practice.Chart{}, plot.PracticeOptions{}); err == nil {
		t.Error("an empty chart is drawn")
	}
}

// Depths stand a tenth of a minute apart round every mark. None is written on a mark's symbol: its
// star, its beacon with the topmark, its tower, buoy or cross.
func TestSoundingsLeaveSymbolsFree(t *testing.T) {
	chart := practice.Orlesk()
	chart.Soundings = nil
	for _, m := range chart.Marks {
		for north := -8; north <= 8; north++ {
			for east := -8; east <= 8; east++ {
				latitude, longitude := m.Position.Degrees()
				chart.Soundings = append(chart.Soundings, practice.Sounding{
					Position: angle.Must(angle.PositionDegrees(latitude+float64(north)/600, longitude+float64(east)/600)), Depth: 8 * sailing.Metre,
				})
			}
		}
	}
	all := pcDrawn(t, chart, plot.PracticeOptions{})
	depths, _ := pcBoxes(all, "sounding")
	if len(depths) < 50 {
		t.Fatalf("only %d soundings", len(depths))
	}
	symbols := 0
	for _, class := range []string{"star", "beacon", "topmark", "tower", "buoy", "summit"} {
		for _, symbol := range pcClass(all, class) {
			corners := pcPoints(symbol)
			if len(corners) == 0 {
				continue // the small circle of its place
			}
			symbols++
			bounds := drawing.Around(corners[0], 0, 0)
			for _, c := range corners {
				bounds = drawing.Box{Left: min(bounds.Left, c.X), Top: min(bounds.Top, c.Y), Right: max(bounds.Right, c.X), Bottom: max(bounds.Bottom, c.Y)}
			}
			for _, d := range depths {
				if d.Meets(bounds) {
					t.Errorf("a depth at %.1f is on a %s at %.1f", d, class, bounds)
				}
			}
		}
	}
	if symbols < len(chart.Marks)-1 { // the church is lines
		t.Errorf("only %d symbols of %d marks", symbols, len(chart.Marks))
	}
}

// A height that dries has a bar below its figure.
func TestDryingHeightIsUnderlined(t *testing.T) {
	chart := practice.Orlesk()
	at := angle.MustParsePosition("46°54.0′N 019°20.0′W")
	chart.Soundings = []practice.Sounding{{Position: at, Depth: -2 * sailing.Metre}}
	all := pcDrawn(t, chart, plot.PracticeOptions{})
	figures := pcClass(all, "sounding")
	if len(figures) != 1 {
		t.Fatalf("%d soundings", len(figures))
	}
	x, base := figures[0].number("x"), figures[0].number("y")
	bars := 0
	for _, e := range all {
		if e.name == "line" && e.number("y1") == e.number("y2") && math.Abs((e.number("x1")+e.number("x2"))/2-x) < 0.02 && math.Abs(e.number("y1")-base) < 2 { // places to 0.01 mm
			bars++
			if off := e.number("y1") - base; off < 0.1 || off > 1 {
				t.Errorf("the bar is %.2f mm below the figure", off)
			}
		}
	}
	if bars != 1 {
		t.Errorf("%d bars", bars)
	}
}
