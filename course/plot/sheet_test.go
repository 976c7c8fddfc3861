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

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/plot"
	"lubberline.example/variation"
)

// fails is a test or a property test.
type fails interface {
	Helper()
	Errorf(string, ...any)
	Fatalf(string, ...any)
	Fatal(...any)
}

// An element is an element of a drawing: its name, its attributes and its text.
type element struct {
	name, text string
	attribute  map[string]string
}

// number returns an attribute as a number.
func (e element) number(t fails, name string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(e.attribute[name], 64)
	if err != nil {
		t.Fatalf("%s of %+v: %v", name, e, err)
	}
	return x
}

// points returns the points of a polyline or a polygon.
func (e element) points(t fails) (all []drawing.Spot) {
	t.Helper()
	for pair := range strings.FieldsSeq(e.attribute["points"]) {
		x, y, _ := strings.Cut(pair, ",")
		a, err := strconv.ParseFloat(x, 64)
		b, err2 := strconv.ParseFloat(y, 64)
		if err := errors.Join(err, err2); err != nil {
			t.Fatal(err)
		}
		all = append(all, drawing.At(a, b))
	}
	return all
}

// elements reads a sheet back from its SVG.
func elements(t fails, s *drawing.Sheet) (all []element) {
	t.Helper()
	var b bytes.Buffer
	if err := s.WriteSVG(&b, drawing.Figure); err != nil {
		t.Fatal(err)
	}
	if text := b.String(); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || strings.Contains(text, ` id="`) {
		t.Fatal("a number that is not finite, or an id")
	}
	for d := xml.NewDecoder(&b); ; {
		token, err := d.Token()
		if err == io.EOF {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := element{name: token.Name.Local, attribute: map[string]string{}}
			for _, a := range token.Attr {
				e.attribute[a.Name.Local] = a.Value
			}
			all = append(all, e)
		case xml.CharData:
			all[max(len(all)-1, 0)].text += strings.TrimSpace(string(token))
		}
	}
}

// ofClass returns the elements of a class.
func ofClass(all []element, class string) (some []element) {
	for _, e := range all {
		if e.attribute["class"] == class {
			some = append(some, e)
		}
	}
	return some
}

// meridionalParts are those of WGS84, in minutes of longitude: the closed formula of
// J. P. Snyder, Map Projections, a Working Manual (U.S. Geological Survey Professional Paper
// 1395, 1987), equation 7-7, cited from memory.
func meridionalParts(degrees float64) float64 {
	const f = 1 / 298.257223563
	e := math.Sqrt(f * (2 - f))
	sin := math.Sin(degrees * math.Pi / 180)
	return (math.Atanh(sin) - e*math.Atanh(e*sin)) * 10800 / math.Pi
}

// A graticule is read back: the latitudes of its parallels, and the longitudes of its
// meridians, by their figures at the border.
type readGraticule struct {
	parallels, meridians map[float64]float64 // place on the sheet, by degrees
}

// readFigures reads 47°N, 019°05.5′W and the like, in degrees.
func readFigures(t fails, text string) float64 {
	t.Helper()
	a, err := angle.Parse(strings.TrimRight(text, "NSEW"))
	if err != nil {
		t.Fatal(err)
	}
	if strings.ContainsAny(text, "SW") {
		a = -a
	}
	return a.Degrees()
}

// readBack reads the graticule of a sheet.
func readBack(t fails, all []element) readGraticule {
	t.Helper()
	g := readGraticule{map[float64]float64{}, map[float64]float64{}}
	for _, e := range ofClass(all, "parallel") {
		y := e.number(t, "y1")
		text := ""
		for _, f := range all { // one line at its level, or two lines around it
			if f.attribute["class"] == "latitude" && math.Abs(f.number(t, "y")-1-y) < 1.7 {
				text += f.text
			}
		}
		g.parallels[readFigures(t, text)] = y
	}
	for _, e := range ofClass(all, "meridian") {
		x := e.number(t, "x1")
		for _, f := range all {
			if f.attribute["class"] == "longitude" && f.attribute["x"] == e.attribute["x1"] {
				g.meridians[readFigures(t, f.text)] = x
			}
		}
	}
	if len(g.parallels) < 2 || len(g.meridians) < 2 {
		t.Fatalf("%d parallels and %d meridians with figures", len(g.parallels), len(g.meridians))
	}
	return g
}

// check measures meridional parts between the parallels, and compares them with the formula.
func (g readGraticule) check(t fails, name string) {
	t.Helper()
	var minute float64 // mm to a minute of longitude, over the widest pair
	for a, x := range g.meridians {
		for b, y := range g.meridians {
			if d := math.Mod(b-a+720, 360) * 60; y > x && (minute == 0 || y-x > minute*d) {
				minute = (y - x) / d
			}
		}
	}
	for a, y := range g.parallels {
		for b, z := range g.parallels {
			want := (meridionalParts(b) - meridionalParts(a)) * minute
			// Lines to 0.1 mm: two places rounded to 0.01 mm, and the minute measured from two more.
			if got := y - z; math.Abs(got-want) > 0.1 {
				t.Errorf("%s: %v° to %v°: %.2f mm, want %.2f", name, a, b, got, want)
			}
		}
	}
}

func TestPlottingSheetHasMeridionalParts(t *testing.T) {
	for name, g := range map[string]plot.Graticule{
		"A4":             {Middle: angle.MustParsePosition("46°57′N 019°17′W"), Scale: 200_000},
		"A2":             {Middle: angle.MustParsePosition("46°57′N 019°17′W"), Scale: 150_000, Width: 400, Height: 545},
		"equator":        {Middle: angle.MustParsePosition("0°N 0°E"), Scale: 1_000_000},
		"date line":      {Middle: angle.MustParsePosition("16°50′S 179°58′E"), Scale: 75_000},
		"78°N":           {Middle: angle.MustParsePosition("78°N 015°E"), Scale: 300_000},
		"south":          {Middle: angle.MustParsePosition("54°30′S 068°W"), Scale: 150_000, Width: 277, Height: 190},
		"ocean":          {Middle: angle.MustParsePosition("40°N 030°W"), Scale: 10_000_000},
		"harbour":        {Middle: angle.MustParsePosition("46°56′N 019°03.9′W"), Scale: 5_000},
		"the whole turn": {Middle: angle.MustParsePosition("0°N 180°E"), Scale: 50_000_000, Width: 800, Height: 200},
	} {
		s, err := plot.PlottingSheet(g)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		all := elements(t, s)
		readBack(t, all).check(t, name)
		textsApart(t, name, all)
	}
}

// textsApart fails if two level texts lie on each other, or one leaves the sheet.
func textsApart(t fails, name string, all []element) {
	t.Helper()
	var sheet drawing.Box
	if _, err := fmt.Sscanf(all[0].attribute["viewBox"], "0 0 %g %g", &sheet.Right, &sheet.Bottom); err != nil {
		t.Fatal(err)
	}
	var boxes []drawing.Box
	var texts []string
	for _, e := range all {
		if e.name != "text" || e.attribute["transform"] != "" {
			continue
		}
		size := drawing.Letters
		if e.attribute["font-size"] != "" {
			size = e.number(t, "font-size")
		}
		w := 0.9 * size * drawing.TextWidth(e.text) // measured widths are below the wide font's
		at := drawing.At(e.number(t, "x"), e.number(t, "y"))
		switch e.attribute["text-anchor"] {
		case "middle":
			at.X -= w / 2
		case "end":
			at.X -= w
		}
		box := drawing.Box{Left: at.X, Top: at.Y - 0.75*size, Right: at.X + w, Bottom: at.Y + 0.1*size}
		if b := sheet.Grown(0.1); box.Left < b.Left || box.Right > b.Right || box.Top < b.Top || box.Bottom > b.Bottom {
			t.Errorf("%s: %q leaves the sheet", name, e.text)
		}
		for i, b := range boxes {
			if b.Meets(box) {
				t.Errorf("%s: %q lies on %q", name, e.text, texts[i])
			}
		}
		boxes, texts = append(boxes, box), append(texts, e.text)
	}
}

// At the scale of the sheet a mile in its middle latitude has its length.
func TestDistanceScaleIsInMiles(t *testing.T) {
	for _, latitude := range []float64{0, 47, -54, 70, 78} {
		middle := angle.Must(angle.PositionDegrees(latitude, 10))
		s, err := plot.PlottingSheet(plot.Graticule{Middle: middle, Scale: 100_000})
		if err != nil {
			t.Fatal(err)
		}
		all := elements(t, s)
		var zero float64
		var miles []float64
		for _, e := range all {
			if e.name == "text" && e.text == "0" {
				zero = e.number(t, "x")
			} else if text, ok := strings.CutSuffix(e.text, " M"); ok && e.name == "text" {
				miles = append(miles, (e.number(t, "x")-zero)/angle.Must(strconv.ParseFloat(text, 64)))
			}
		}
		// At 1:100 000 a mile is 18.52 mm; half a hundredth of a mm at both ends.
		if mile := miles[len(miles)/2]; math.Abs(mile-18.52) > 0.01 {
			t.Errorf("%v°: a mile is %.3f mm, want 18.52", latitude, mile)
		}
	}
}

func TestPlottingSheetsAnywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := plot.Graticule{
			Middle: angle.Must(angle.PositionDegrees(rapid.Float64Range(-90, 90).Draw(t, "latitude"), rapid.Float64Range(-180, 180).Draw(t, "longitude"))),
			Scale:  math.Exp(rapid.Float64Range(6, 18).Draw(t, "logarithm of the scale")),
			Width:  rapid.Float64Range(80, 400).Draw(t, "width"), Height: rapid.Float64Range(80, 400).Draw(t, "height"),
		}
		s, err := plot.PlottingSheet(g)
		if err != nil {
			if _, ok := errors.AsType[*angle.RangeError](err); !ok {
				t.Fatalf("%T: %v", err, err)
			}
			return
		}
		var b bytes.Buffer
		if err := s.WriteSVG(&b, drawing.Plate); err != nil || b.Len() > 1<<20 || bytes.Contains(b.Bytes(), []byte("NaN")) {
			t.Fatalf("%d bytes, %v", b.Len(), err)
		}
	})
}

func TestSheetsOutOfRange(t *testing.T) {
	middle := angle.MustParsePosition("46°57′N 019°17′W")
	for name, g := range map[string]plot.Graticule{
		"no scale":         {Middle: middle},
		"a scale of NaN":   {Middle: middle, Scale: math.NaN()},
		"small":            {Middle: middle, Scale: 1e5, Width: 10, Height: 10},
		"one side":         {Middle: middle, Scale: 1e5, Width: 200},
		"infinite":         {Middle: middle, Scale: 1e5, Width: math.Inf(1), Height: 200},
		"beyond 85°":       {Middle: angle.MustParsePosition("84°59′N 0°E"), Scale: 1e5},
		"the pole":         {Middle: angle.MustParsePosition("90°S 0°E"), Scale: 1e5},
		"more than a turn": {Middle: angle.MustParsePosition("0°N 0°E"), Scale: 5e7, Width: 1200, Height: 90},
		"a rose elsewhere": {Middle: middle, Scale: 1e5, Roses: []plot.Rose{{At: angle.MustParsePosition("46°57′N 029°17′W")}}},
		"a rose south":     {Middle: middle, Scale: 1e5, Roses: []plot.Rose{{At: angle.MustParsePosition("16°57′N 019°17′W")}}},
		"a large rose":     {Middle: middle, Scale: 1e5, Roses: []plot.Rose{{At: middle, Diameter: 1000}}},
		"year":             {Middle: middle, Scale: 1e5, Roses: []plot.Rose{{At: middle, Legend: variation.MustParseLegend("7°20′W 2015 (12′E)"), Year: 9999}}},
	} {
		_, err := plot.PlottingSheet(g)
		if _, ok := errors.AsType[*angle.RangeError](err); !ok {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, scale := range []float64{1000, 50e6} { // the limits that the error names
		if _, err := plot.PlottingSheet(plot.Graticule{Middle: angle.Position{}, Scale: scale}); err != nil {
			t.Errorf("1:%.0f: %v", scale, err)
		}
	}
}

// Each size of paper that the documentation names holds its body, with a title and the caution.
func TestSheetsFitTheirPaper(t *testing.T) {
	for page, size := range map[string][2]float64{"210mm 297mm": {0, 0}, "297mm 210mm": {277, 165}, "297mm 420mm": {277, 370}, "420mm 594mm": {400, 545}} {
		s, err := plot.PlottingSheet(plot.Graticule{Middle: angle.MustParsePosition("46°57′N 019°17′W"), Scale: 1e6, Width: size[0], Height: size[1]})
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := s.WriteSVG(&b, drawing.Plate); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(b.String(), "@page{size:"+page) {
			t.Errorf("%v: not on %s", size, page)
		}
	}
}

func TestRoomBesideChartOutOfRange(t *testing.T) {
	g := plot.Graticule{Middle: angle.MustParsePosition("60°S 180°E"), Scale: 75000}
	for _, bad := range []float64{math.NaN(), math.Inf(1), -1, 1201} {
		for _, room := range [][2]float64{{bad, 0}, {0, bad}} {
			_, err := g.Draw("", room[0], room[1], nil)
			if _, ok := errors.AsType[*angle.RangeError](err); !ok {
				t.Errorf("%v: %v", room, err)
			}
		}
	}
	s, err := g.Draw("nothing on it", 0, 0, nil)
	if err != nil || s.Description() != "nothing on it" {
		t.Fatalf("%v, %v", s, err)
	}
	var b bytes.Buffer
	if err := s.WriteSVG(&b, drawing.Figure); err != nil || !strings.Contains(b.String(), `viewBox="0 0 190 250"`) || !strings.Contains(b.String(), "<title>Mercator chart, 1:75") {
		t.Errorf("%v, %.400s", err, &b)
	}
}

// The black and white bars of the border alternate up to its corners, where they are cut.
func TestBarsAlternateToTheCorners(t *testing.T) {
	for minutes := 0.0; minutes < 4; minutes += 0.3 {
		s, err := plot.PlottingSheet(plot.Graticule{Middle: angle.Must(angle.PositionDegrees(47, -19+minutes/60)), Scale: 1.5e5})
		if err != nil {
			t.Fatal(err)
		}
		all := elements(t, s)
		frame := ofClass(all, "frame")[0]
		left, right := frame.number(t, "x"), frame.number(t, "x")+frame.number(t, "width")
		top := math.Inf(1)
		var bars [][2]float64
		for _, e := range all {
			if e.name != "rect" || e.attribute["fill"] != "black" || e.number(t, "y") > top {
				continue
			}
			if e.number(t, "y") < top { // of the upper edge
				top, bars = e.number(t, "y"), nil
			}
			bars = append(bars, [2]float64{e.number(t, "x"), e.number(t, "x") + e.number(t, "width")})
		}
		if len(bars) < 4 {
			t.Fatalf("%d bars", len(bars))
		}
		n := len(bars)
		begins, wide := bars[1][0], (bars[n-2][0]-bars[1][0])/float64(n-3)/2
		black := func(x float64) bool { return math.Mod(math.Mod(x-begins, 2*wide)+2*wide, 2*wide) < wide }
		const step, room = 0.25, 0.1 // mm; places to 0.01 mm
		for x := left + room; x < right; x += step {
			if black(x-room) != black(x+room) {
				continue
			}
			drawn := slices.ContainsFunc(bars, func(b [2]float64) bool { return b[0] <= x && x <= b[1] })
			if drawn != black(x) {
				t.Fatalf("%v′: %.2f mm from the corner it is black: %v, and should be: %v", minutes, x-left, drawn, black(x))
			}
		}
	}
}
