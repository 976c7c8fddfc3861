package plot_test

import (
	"bytes"
	"encoding/xml"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course"
	"lubberline.example/course/internal/coursetest"
	"lubberline.example/course/plot"
)

const deg = angle.Degree

var update = flag.Bool("update", false, "write the drawings to testdata as they are now; then look at them")

// A drawer is what is drawn: a [course.Heading] or a [course.Bearing].
type drawer any

// sheetOf draws it.
func sheetOf(d drawer) *drawing.Sheet {
	if h, ok := d.(course.Heading); ok {
		return plot.HeadingDial(h)
	}
	return plot.BearingDial(d.(course.Bearing))
}

// inWords is its text alternative.
func inWords(d drawer) string { return sheetOf(d).Description() }

// Conversions of directions that are written with their north.
var known, given, taken = coursetest.Known, coursetest.Heading, coursetest.Bearing

// dials are the drawings that are kept, by their names.
func dials(t testing.TB) map[string]drawer {
	return map[string]drawer{
		"west-west":         given(t, "236T", known("4°15′W", "3°30′W")),
		"east-west":         given(t, "112C", known("12°30′E", "9°W")),
		"small":             given(t, "236T", known("5°06′W", "0°06′W")),
		"small-east":        given(t, "045M", known("0°30′E", "2°E")),
		"zero-angles":       given(t, "090T", known("0", "0")),
		"zero-angles-north": given(t, "000T", known("0", "0")),
		"no-deviation":      given(t, "180T", known("7°W", "0")),
		"large":             given(t, "300T", known("60°W", "25°E")),
		"large-east":        given(t, "030T", known("60°E", "40°E")),
		"near-north":        given(t, "358T", known("2°E", "1°W")),
		"near-south":        given(t, "181T", known("11°20′W", "4°E")),
		"half-a-turn":       given(t, "358T", known("150E", "35E")),
		"zero":              course.Heading{},
		"bearing":           taken(given(t, "045C", known("4°15′W", "2°30′E")), "300C"),
		"bearing-abeam":     taken(given(t, "090C", known("18°E", "6°E")), "180C"),
		"bearing-ahead":     taken(given(t, "270T", known("3°W", "0")), "271T"),
		"bearing-north":     taken(given(t, "352T", known("1°W", "3°W")), "003T"),
		"bearing-by-hand":   angle.Must(course.HandBearing(angle.MustParseMagnetic("300"), known("4°15′W", "2°30′E"))),
		"bearing-astern":    taken(given(t, "000T", known("35°W", "1°E")), "180R"),
	}
}

func dialOf(t testing.TB, d drawer) string {
	t.Helper()
	var b bytes.Buffer
	if err := sheetOf(d).WriteSVG(&b, drawing.Figure); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestDialsMatchTestdata(t *testing.T) {
	kept := dials(t)
	for _, name := range []string{"small", "bearing", "large", "zero-angles"} {
		path := filepath.Join("testdata", "dial-"+name+".svg")
		got := dialOf(t, kept[name])
		if *update {
			if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s is drawn otherwise; look at it after -update", path)
		}
	}
}

// A dialText is a line of text on a dial, with the room that it takes in a wide font.
type dialText struct {
	text                     string
	left, top, right, bottom float64
}

// dialTexts reads a drawing as strict XML, and returns its title, its description
// and its lines of text.
func dialTexts(t *testing.T, svg string) (title, desc string, lines []dialText) {
	t.Helper()
	var read struct {
		XMLName xml.Name `xml:"http://www.w3.org/2000/svg svg"`
		Title   string   `xml:"title"`
		Desc    string   `xml:"desc"`
		Texts   []struct {
			X      float64 `xml:"x,attr"`
			Y      float64 `xml:"y,attr"`
			Size   string  `xml:"font-size,attr"`
			Anchor string  `xml:"text-anchor,attr"`
			Text   string  `xml:",chardata"`
		} `xml:"g>text"`
	}
	if err := xml.Unmarshal([]byte(svg), &read); err != nil {
		t.Fatal(err)
	}
	for _, l := range read.Texts {
		size := 3.2
		if l.Size != "" {
			size, _ = strconv.ParseFloat(l.Size, 64)
		}
		if size < 3.2 {
			t.Errorf("%q is %v mm small", l.Text, size)
		}
		width := size * drawing.TextWidth(l.Text)
		left := l.X
		switch l.Anchor {
		case "middle":
			left -= width / 2
		case "end":
			left -= width
		}
		lines = append(lines, dialText{l.Text, left, l.Y - 0.75*size, left + width, l.Y + 0.05*size})
	}
	return read.Title, read.Desc, lines
}

// uncovered fails where two texts lie on each other, or off the sheet.
func uncovered(t *testing.T, name string, lines []dialText) {
	t.Helper()
	for i, a := range lines {
		if a.left < 0 || a.top < 0 || a.right > 96 || a.bottom > 138 {
			t.Errorf("%s: %q is off the sheet: %+v", name, a.text, a)
		}
		for _, b := range lines[:i] {
			if a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom {
				t.Errorf("%s: %q lies on %q", name, a.text, b.text)
			}
		}
	}
}

func TestDialTextsDoNotOverlap(t *testing.T) {
	for name, d := range dials(t) {
		title, desc, lines := dialTexts(t, dialOf(t, d))
		uncovered(t, name, lines)
		if desc != inWords(d) || title == "" {
			t.Errorf("%s: title %q, description %q", name, title, desc)
		}
	}
	every := 3 // combinations: drawing takes time
	if os.Getenv("FULL") == "1" {
		every = 1
	}
	n := 0
	for _, v := range []string{"0", "0°01′W", "3°W", "7°E", "60°E"} {
		for _, dev := range []string{"0", "0°30′E", "6°W"} {
			w := known(v, dev)
			for _, c := range []string{"000T", "357M", "180C"} {
				if n++; (n+n/3)%every != 0 { // each heading, variation and deviation in turn
					continue
				}
				h := given(t, c, w)
				for name, d := range map[string]drawer{"heading": h, "bearing": h.BearingFromTrue(h.True().Add(deg)), "other bearing": taken(h, "350T")} {
					_, _, lines := dialTexts(t, dialOf(t, d))
					uncovered(t, fmt.Sprintf("%s %s on %s, %s", name, c, v, dev), lines)
				}
			}
		}
	}
}

// textsOf returns the texts of a dial, each followed by a comma.
func textsOf(t *testing.T, d drawer) string {
	_, _, lines := dialTexts(t, dialOf(t, d))
	var all []string
	for _, l := range lines {
		all = append(all, l.text)
	}
	return strings.Join(all, ", ") + ","
}

// The dial shows the figures of the conversion.
func TestDialShowsTheFigures(t *testing.T) {
	h := given(t, "236T", known("5°06′W", "0°06′W"))
	all := textsOf(t, h)
	for _, want := range []string{"Heading, 236.0°T, 241.1°M, 241.2°C,", " T,", " M,", " C,", "Variation, 5°06′W,", "Deviation, 0°06′W,", "Total error, 5°12′W,", "000, 030, 060,", "enlarged: not to scale"} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in %s", want, all)
		}
	}
	if strings.Contains(all, "Ship's head") {
		t.Error("a heading has no other ship's head")
	}
	if all = textsOf(t, taken(h, "100T")); !strings.Contains(all, "Bearing, 100.0°T, 105.1°M, 105.2°C,") || !strings.Contains(all, "Ship's head, 236.0°T, 241.2°C,") {
		t.Errorf("bearing: %s", all)
	}
	for d, want := range map[drawer]string{
		given(t, "236T", known("0", "0")):        "T, M, C,",
		given(t, "236T", known("7°W", "0")):      "M, C,",
		given(t, "236T", known("7°W", "7°E")):    "T, C,",
		given(t, "236T", known("150°E", "35°E")): "Total error, 175°00′W,",
	} {
		if all := textsOf(t, d); !strings.Contains(all, want) {
			t.Errorf("no %q in %s", want, all)
		}
	}
}

// northsOf reads the norths of the lower part of a dial: T, M and C, in degrees from up.
func northsOf(t *testing.T, svg string) (drawn [3]float64) {
	t.Helper()
	ray := regexp.MustCompile(`<line x1="48.00" y1="130.00" x2="(\S+)" y2="(\S+)" class="north"`).FindAllStringSubmatch(svg, -1)
	if len(ray) != 3 {
		t.Fatalf("%d norths in %s", len(ray), svg)
	}
	for i, m := range ray { // the last is true north
		x, _ := strconv.ParseFloat(m[1], 64)
		y, _ := strconv.ParseFloat(m[2], 64)
		drawn[2-i] = math.Atan2(x-48, 130-y) * 180 / math.Pi
	}
	return drawn
}

// In the lower part the norths stand in their order from west to east. Those that differ by a
// minute or more are at least 18° apart. Where the dial says "to scale", they are.
func TestNorthsAreApartAndSayTheirScale(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		v, d := rapid.IntRange(-90*60, 90*60).Draw(rt, "variation"), rapid.IntRange(-80*60, 80*60).Draw(rt, "deviation")
		if rapid.Bool().Draw(rt, "small") {
			v, d = v/300, d/300
		}
		h := given(t, "236T", known((angle.Angle(v)*angle.Minute).EastWestString(), (angle.Angle(d)*angle.Minute).EastWestString()))
		svg := dialOf(t, h)
		drawn, norths := northsOf(t, svg), [3]int{0, v, v + d}
		toScale := strings.Contains(svg, "The norths, to scale")
		if toScale == strings.Contains(svg, "not to scale") && !(v == 0 && d == 0) {
			rt.Fatalf("%s: to scale %v", h, toScale)
		}
		for i, a := range norths {
			for k, b := range norths[:i] {
				gap, shown := float64(a-b)/60, drawn[i]-drawn[k]
				if gap == 0 && math.Abs(shown) > 0.05 || gap != 0 && (math.Abs(shown) < 17.9 || shown*gap < 0) || toScale && math.Abs(shown-gap) > 0.05 {
					rt.Fatalf("%v from %v is drawn as %.2f°, to scale %v", a, b, shown, toScale)
				}
			}
		}
	})
}

// The dial has only black, white and greys.
func TestDialHasNoColours(t *testing.T) {
	paint := regexp.MustCompile(`(?:fill|stroke)="([^"]*)"`)
	for name, d := range dials(t) {
		for _, m := range paint.FindAllStringSubmatch(dialOf(t, d), -1) {
			if !slices.Contains([]string{"none", "black", "white", "#777"}, m[1]) {
				t.Errorf("%s: painted %s", name, m[1])
			}
		}
	}
}

func TestDialText(t *testing.T) {
	h := given(t, "236T", known("5°06′W", "0°06′E"))
	norths := "A compass dial graduated from true north. Magnetic north is 5°06′ west of true north (the variation); compass north is 0°06′ east of magnetic north (the deviation) and 5°00′ west of true north (the compass error)."
	if got, want := inWords(h), norths+" The heading is 236.0°T, 241.1°M and 241.0°C."; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	if got, want := inWords(taken(h, "100T")), norths+" The bearing is 100.0°T, 105.1°M and 105.0°C; the ship's head is 236.0°T, 241.1°M and 241.0°C."; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	if got := inWords(course.Heading{}); strings.Count(got, "is in line with") != 2 || !strings.Contains(got, "and in line with true north") {
		t.Errorf("zero: %s", got)
	}
}

// A hand-bearing compass shows neither the ship's head nor a compass north.
func TestHandBearingHasNoCompassNorth(t *testing.T) {
	b := angle.Must(course.HandBearing(angle.MustParseMagnetic("300"), known("4°15′W", "2°30′E")))
	all := textsOf(t, b)
	for _, want := range []string{"Bearing, 295.8°T, 300.0°M, The norths,", "M, T, Variation, 4°15′W, T true, M magnetic,"} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in %s", want, all)
		}
	}
	if words := inWords(b) + all; strings.Contains(words, "°C") || strings.Contains(words, "head") || strings.Contains(words, "compass north") || strings.Contains(words, "Deviation") {
		t.Error(words)
	}
}
