package diagram_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"lubberline.example/deviation/diagram"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"
	"lubberline.example/variation"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/deviation"
)

var update = flag.Bool("update", false, "write the drawings to testdata as they are now; then look at them")

// quillonDiagram is the table of testdata with an uncertainty and invented
// observations.
func quillonDiagram(t *testing.T) diagram.Plot {
	t.Helper()
	file, err := os.ReadFile(filepath.Join("..", "testdata", "quillon.csv"))
	if err != nil {
		t.Fatal(err)
	}
	table := angle.Must(deviation.ReadTable(bytes.NewReader(file)))
	d := diagram.Plot{
		Source: table.WithUncertainty(devtest.Sigma(devtest.Deg / 2)),
		Details: deviation.Details{
			Vessel: "Quillon", Compass: "steering compass", Place: "off the north buoy",
			Date: time.Date(2026, 5, 3, 0, 0, 0, 0, time.UTC), Remarks: "Vessel and figures are invented.",
		},
	}
	off := []float64{0.2, 0.5, -0.4, 0.3, -0.2, 0, -0.6, -0.5, 0.4, -0.3, 0.1, 0.6, -0.3, 0.2, 0.5, -0.4}
	for i, by := range off {
		c := angle.CompassFrom(devtest.Degrees(22.5 * float64(i)))
		found := angle.Must(table.OnCompass(c))
		d.Observations = append(d.Observations, swing.Observation{
			Heading: c, Deviation: deviation.East(found.Angle() + devtest.Degrees(by)).WithUncertainty(devtest.Sigma(devtest.Deg * 2 / 5)),
		})
	}
	return d
}

// quillonRejected are observations that a fit left out: one near, one far off, and two
// reciprocals.
var quillonRejected = []swing.Observation{
	{Heading: angle.MustParseCompass("000"), Deviation: deviation.MustParse("5°W")},
	{Heading: angle.MustParseCompass("100"), Deviation: deviation.MustParse("14°W ±0°24′")},
	{Heading: angle.MustParseCompass("200"), Deviation: deviation.MustParse("178.55°E")},
	{Heading: angle.MustParseCompass("300"), Deviation: deviation.MustParse("176°W")},
}

// drawings are the ways of drawing a diagram.
var drawings = map[string]func(diagram.Plot) (*drawing.Sheet, error){
	"curve":  diagram.Curve,
	"napier": diagram.Napier,
	"polar":  diagram.Polar,
}

func drawn(t devtest.Fails, name string, d diagram.Plot) string {
	t.Helper()
	sheet, err := drawings[name](d)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := sheet.WriteSVG(&b, drawing.Plate); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// texts reads a drawing to its end and returns its texts.
func texts(t devtest.Fails, svg string) []string {
	t.Helper()
	var found []string
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := d.Token()
		if err == io.EOF {
			return found
		}
		if err != nil {
			t.Fatalf("not XML: %v", err)
		}
		if text, ok := token.(xml.CharData); ok {
			found = append(found, string(text))
		}
	}
}

// polylines are the points of all lines of a class.
func polylines(svg, class string) [][][2]float64 {
	var lines [][][2]float64
	for _, found := range regexp.MustCompile(`class="`+class+`"[^>]* points="([^"]*)"`).FindAllStringSubmatch(svg, -1) {
		var line [][2]float64
		for _, pair := range strings.Fields(found[1]) {
			x, y, _ := strings.Cut(pair, ",")
			line = append(line, [2]float64{angle.Must(strconv.ParseFloat(x, 64)), angle.Must(strconv.ParseFloat(y, 64))})
		}
		lines = append(lines, line)
	}
	return lines
}

func circles(svg string) int { return strings.Count(svg, `class="observation"`) }

func TestDrawingsAreWellFormed(t *testing.T) {
	quillon := quillonDiagram(t)
	bare := diagram.Plot{Source: quillon.Source.(*deviation.Table).WithUncertainty(angle.Uncertainty{})}
	large := devtest.MustTable(t, devtest.Every15(func(h angle.Angle) float64 { return 60 * h.Sin() }))
	vast := diagram.Plot{Source: large.WithUncertainty(devtest.Sigma(120 * devtest.Deg)), Observations: []swing.Observation{
		{Heading: angle.CompassFrom(0), Deviation: deviation.West(90 * devtest.Deg).WithUncertainty(devtest.Sigma(170 * devtest.Deg))},
	}}
	hostile := quillon
	hostile.Details = deviation.Details{
		Vessel: `</text><script>alert("1")</script> & ']]>` + strings.Repeat("i", 5000), Compass: "\x00\xff\u202e\ufffe", Place: "two\nlines\tand a tab",
		Adjuster: strings.Repeat("W", 5000), Remarks: strings.Repeat("羅針", 500), Date: time.Date(-9000, 1, 1, 0, 0, 0, 0, time.UTC),
	}
	for name, d := range map[string]diagram.Plot{
		"quillon": quillon, "bare": bare, "large": {Source: large}, "vast uncertainty": vast,
		"none": {Source: deviation.None()}, "west": {Source: deviation.West(90 * devtest.Deg)}, "hostile": hostile,
	} {
		for drawing := range drawings {
			t.Run(name+"/"+drawing, func(t *testing.T) {
				svg := drawn(t, drawing, d)
				for _, bad := range []string{"<script", "href", "NaN", "Inf", `"-0.00"`} {
					if strings.Contains(svg, bad) {
						t.Errorf("contains %s", bad)
					}
				}
				texts := texts(t, svg)
				if !strings.Contains(strings.Join(texts, "\n"), "adjusting is the work of a compass adjuster") {
					t.Error("no caution")
				}
				for _, text := range texts {
					if n := len([]rune(text)); n > 250 {
						t.Errorf("text of %d characters", n)
					}
				}
				if drawn(t, drawing, d) != svg {
					t.Error("drawn another way the second time")
				}
			})
		}
	}
}

func TestDrawingsAreAsInTestdata(t *testing.T) {
	d := quillonDiagram(t)
	d.LeftOut = quillonRejected
	for name := range drawings {
		path := filepath.Join("testdata", name+".svg")
		got := drawn(t, name, d)
		if *update {
			if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		// A checkout may have turned the line ends.
		if got != strings.ReplaceAll(string(want), "\r\n", "\n") {
			t.Errorf("%s is drawn otherwise; see go test -update", path)
		}
	}
}

func TestCurveShowsWhatThereIs(t *testing.T) {
	d := quillonDiagram(t)
	svg := drawn(t, "curve", d)
	// The curve: east right of the middle, the scale of 8° in 48 mm.
	line := polylines(svg, "curve")[0]
	for h, p := range line {
		want := angle.Must(d.Source.OnCompass(angle.CompassFrom(angle.Angle(h) * devtest.Deg))).Angle().Degrees()
		if east := (p[0] - 70) / 6; !devtest.Near(east, want, 0.002) || !devtest.Near(p[1], 29.5+0.56*float64(h), 0.006) {
			t.Fatalf("on %03d drawn at %v, deviation %.3f: want %.3f", h, p, east, want)
		}
	}
	// The band lies half a degree to both sides.
	bands := polylines(svg, "band")
	if len(bands) != 4 {
		t.Fatalf("%d lines of the band: want two beside the curve and two beside the residuals", len(bands))
	}
	if w, e := bands[0][100][0], bands[1][100][0]; !devtest.Near(w, line[100][0]-3, 0.011) || !devtest.Near(e, line[100][0]+3, 0.011) {
		t.Errorf("band at %v and %v beside %v", w, e, line[100])
	}
	// Each observation twice, that on north at both ends, and one in the legend.
	if n := circles(svg); n != 2*17+1 {
		t.Errorf("%d observations", n)
	}
	for _, text := range []string{"Quillon", "3 May 2026", "steering compass", "8°W", "8°E", "root mean square of observation − curve: 0.38°"} {
		if !strings.Contains(svg, text) {
			t.Errorf("no %s", text)
		}
	}

	d.Observations = nil
	d.Source = d.Source.(*deviation.Table).WithUncertainty(angle.Uncertainty{})
	svg = drawn(t, "curve", d)
	if n := circles(svg) + len(polylines(svg, "band")); n != 0 || strings.Contains(svg, "uncertainty") || strings.Contains(svg, "Observation −") {
		t.Errorf("observations or a band where there are none")
	}
}

// What a fit left out is drawn as crosses, and moves nothing of what is drawn beside.
func TestWhatWasLeftOutIsDrawnAsCrosses(t *testing.T) {
	d := quillonDiagram(t)
	without := map[string]string{"curve": drawn(t, "curve", d), "napier": drawn(t, "napier", d)}
	d.LeftOut = quillonRejected
	for name, c := range map[string]struct {
		crosses int
		texts   []string
	}{
		// At both ends of the circle, three at the edge, and one in the legend.
		"curve":  {2 + 3 + 1, []string{"left out of the curve; at the edge: beyond the scale", "14°W", "178.6°E", "176°W", "root mean square of observation − curve: 0.38°", "observations: 16; left out: 4."}},
		"napier": {2 + 1 + 1, []string{"left out of the curve; beyond this scale, and not drawn: 2", "observations: 16; left out: 4."}},
	} {
		svg := drawn(t, name, d)
		if n := strings.Count(svg, `class="rejected"`); n != c.crosses {
			t.Errorf("%s: %d crosses, want %d", name, n, c.crosses)
		}
		if circles(svg) != circles(without[name]) || !reflect.DeepEqual(polylines(svg, "curve"), polylines(without[name], "curve")) || !reflect.DeepEqual(polylines(svg, "band"), polylines(without[name], "band")) {
			t.Errorf("%s: what was left out moves the rest", name)
		}
		for _, text := range c.texts {
			if !strings.Contains(svg, text) {
				t.Errorf("%s: no %s", name, text)
			}
		}
		if strings.Contains(without[name], "left out") {
			t.Errorf("%s: left out where nothing was", name)
		}
	}
	// Where all are within the scale nothing is said of an edge; without a curve on
	// their heading there is no drawing.
	d.LeftOut = d.LeftOut[:1]
	if svg := drawn(t, "curve", d) + drawn(t, "napier", d); strings.Contains(svg, "beyond") {
		t.Error("beyond the scale where nothing is")
	}
	d.Source, d.Observations, d.LeftOut = onlyEast{}, nil, quillonRejected[2:3]
	for name, draw := range drawings {
		if _, err := draw(d); !errors.Is(err, errNoAnswer) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestNapierLaw draws tables and follows, from every point of the curve, both
// lines back to the axis: the dotted one must come to the compass heading, the
// plain one to the magnetic.
func TestNapierLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := devtest.MustTable(t, devtest.DrawRows(t, 5*devtest.Deg, devtest.DrawBetween(t, devtest.Deg, 90*devtest.Deg, "limit")))
		lines := polylines(drawn(t, "napier", diagram.Plot{Source: table}), "curve")
		// The scale follows from the axis: 220.5 mm for the column and 15° more
		// at both ends.
		perDegree := 220.5 / 210
		if len(lines) == 1 {
			perDegree = 220.5 / 390
		}
		covered := map[angle.Compass]bool{}
		for _, line := range lines {
			for _, p := range line {
				compass := (p[1] - p[0]*math.Tan(math.Pi/6)) / perDegree
				magnetic := (p[1] + p[0]*math.Tan(math.Pi/6)) / perDegree
				c := angle.CompassFrom(devtest.Degrees(math.Round(compass)))
				covered[c] = true
				want := angle.Must(table.OnCompass(c)).Angle().Degrees()
				if !devtest.Near(compass, math.Round(compass), 0.02) || !devtest.Near(magnetic-compass, want, 0.03) {
					t.Fatalf("from %v back to %.3f compass and %.3f magnetic: want a deviation of %.3f on %v", p, compass, magnetic, want, c)
				}
			}
		}
		if len(covered) != 360 {
			t.Fatalf("the curve has %d headings", len(covered))
		}
	})
}

func TestNapierHasTheColumnsItNeeds(t *testing.T) {
	for most, columns := range map[float64]int{0: 2, 20: 2, 45: 2, 46: 1, 90: 1} {
		if n := len(polylines(drawn(t, "napier", diagram.Plot{Source: deviation.West(devtest.Degrees(most))}), "curve")); n != columns {
			t.Errorf("%v°W: %d columns, want %d", most, n, columns)
		}
	}
	// An observation near the seam of the columns stands in both.
	d := diagram.Plot{Source: deviation.East(0), Observations: []swing.Observation{{Heading: angle.CompassFrom(180 * devtest.Deg)}}}
	if n := circles(drawn(t, "napier", d)); n != 3 {
		t.Errorf("%d circles: want one in each column and one in the legend", n)
	}
}

// onlyEast has no answer for the western half.
type onlyEast struct{ deviation.Deviation }

var errNoAnswer = errors.New("no answer")

func (o onlyEast) OnCompass(c angle.Compass) (deviation.Deviation, error) {
	if c.FromNorth() >= 180*devtest.Deg {
		return deviation.Deviation{}, errNoAnswer
	}
	return o.Deviation, nil
}

func TestDrawingsThatFail(t *testing.T) {
	far := swing.Observation{Heading: angle.CompassFrom(10 * devtest.Deg), Deviation: deviation.East(91 * devtest.Deg)}
	for name, test := range map[string]struct {
		d           diagram.Plot
		observation int
		text        string
		is          error
	}{
		"nil":         {diagram.Plot{}, -1, "no source", nil},
		"nil table":   {diagram.Plot{Source: (*deviation.Table)(nil)}, -1, "no source", nil},
		"no answer":   {diagram.Plot{Source: onlyEast{}}, -1, "180°", errNoAnswer},
		"too far":     {diagram.Plot{Source: deviation.West(91 * devtest.Deg)}, -1, "at most 90°", nil},
		"observation": {diagram.Plot{Source: deviation.None(), Observations: []swing.Observation{{}, far}}, 1, "010°", nil},
	} {
		for drawing, draw := range drawings {
			_, err := draw(test.d)
			if _, missing := errors.AsType[*variation.MissingInputError](err); missing != strings.HasPrefix(name, "nil") {
				t.Errorf("%s, %s: %v", name, drawing, err)
			}
			var typed *diagram.Error
			if !errors.As(err, &typed) || typed.Observation != test.observation || !strings.Contains(err.Error(), test.text) {
				t.Errorf("%s, %s: error %v", name, drawing, err)
			}
			if test.is != nil && !errors.Is(err, test.is) {
				t.Errorf("%s, %s: error %v does not wrap the source's", name, drawing, err)
			}
		}
	}
}

// The scale has room for the band beside the largest deviation: it is 1° wide to each side everywhere.
func TestBandHasRoom(t *testing.T) {
	source := devtest.MustTable(t, devtest.Every15(func(h angle.Angle) float64 { return 7.6 * h.Sin() })).WithUncertainty(devtest.Sigma(devtest.Deg))
	svg := drawn(t, "curve", diagram.Plot{Source: source})
	line, bands := polylines(svg, "curve")[0], polylines(svg, "band")
	frame := regexp.MustCompile(`<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)" height="[\d.]+" fill="none" stroke="black" stroke-width="0.3"`).FindStringSubmatch(svg)
	left, right := number(frame[1]), number(frame[1])+number(frame[2])
	perDegree := (line[90][0] - line[270][0]) / (2 * 7.6)
	if len(bands) < 2 || len(bands[0]) != len(line) || len(bands[1]) != len(line) {
		t.Fatal("the band is cut")
	}
	for h, p := range line {
		if bands[0][h][0] < left || bands[1][h][0] > right {
			t.Fatalf("on %03d the band leaves the frame", h)
		}
		if w, e := (p[0]-bands[0][h][0])/perDegree, (bands[1][h][0]-p[0])/perDegree; !devtest.Near(w, 1, 0.01) || !devtest.Near(e, 1, 0.01) { // places to 0.01 mm
			t.Fatalf("on %03d the band is %.2f° and %.2f° wide", h, w, e)
		}
	}
}
