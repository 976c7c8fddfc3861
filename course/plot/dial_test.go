package plot_test

import (
	"bytes"
	"encoding/xml"
	"flag"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

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
	for _, name := range slices.Sorted(maps.Keys(kept)) {
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
		size := 3.0
		if l.Size != "" {
			size, _ = strconv.ParseFloat(l.Size, 64)
		}
		if size < 2.5 {
			t.Errorf("%q is %v mm small", l.Text, size)
		}
		width := 0.62 * size * float64(len([]rune(l.Text)))
		left := l.X
		if l.Anchor == "middle" {
			left -= width / 2
		}
		lines = append(lines, dialText{l.Text, left, l.Y - 0.75*size, left + width, l.Y + 0.05*size})
	}
	return read.Title, read.Desc, lines
}

// uncovered fails where two texts lie on each other, or off the sheet.
func uncovered(t *testing.T, name string, lines []dialText) {
	t.Helper()
	for i, a := range lines {
		if a.left < 0 || a.top < 0 || a.right > 120 || a.bottom > 120 {
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

// The dial shows the figures of the conversion.
func TestDialShowsTheFigures(t *testing.T) {
	texts := func(d drawer) string {
		_, _, lines := dialTexts(t, dialOf(t, d))
		var all []string
		for _, l := range lines {
			all = append(all, l.text)
		}
		return strings.Join(all, ", ") + ","
	}
	h := given(t, "236T", known("5°06′W", "0°06′W"))
	all := texts(h)
	for _, want := range []string{"Heading, 236.0°T, 241.1°M, 241.2°C,", "T,", "M, 5°06′W,", "C, 5°12′W,", "Variation, 5°06′W,", "Deviation, 0°06′W,", "000, 030, 060,"} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in %s", want, all)
		}
	}
	if strings.Contains(all, "Ship's head") {
		t.Error("a heading has no other ship's head")
	}
	b := taken(h, "100T")
	if all = texts(b); !strings.Contains(all, "Bearing, 100.0°T, 105.1°M, 105.2°C,") || !strings.Contains(all, "Ship's head, 236.0°T,") {
		t.Errorf("bearing: %s", all)
	}
}

// Arcs are to scale: from one north to the next.
func TestArcsAreToScale(t *testing.T) {
	arc := regexp.MustCompile(`class="(variation|deviation)" d="M(\S+) (\S+)A\S+ \S+ 0 0 \d (\S+) (\S+)"`)
	from := func(x, y string) float64 { // true north
		a, _ := strconv.ParseFloat(x, 64)
		b, _ := strconv.ParseFloat(y, 64)
		return math.Atan2(a-60, 57-b) * 180 / math.Pi
	}
	ends := map[string][2]float64{}
	for _, m := range arc.FindAllStringSubmatch(dialOf(t, given(t, "300T", known("60°W", "2°E"))), -1) {
		if _, ok := ends[m[1]]; !ok { // the first piece
			ends[m[1]] = [2]float64{from(m[2], m[3]), from(m[4], m[5])}
		}
	}
	// The large one stops within its arrowhead.
	if v := ends["variation"]; math.Abs(v[0]) > 0.1 || v[1] > -56 || v[1] < -60 {
		t.Errorf("variation from %v to %v", v[0], v[1])
	}
	if d := ends["deviation"]; math.Abs(d[0]+60) > 0.1 || math.Abs(d[1]+58) > 0.1 {
		t.Errorf("deviation from %v to %v", d[0], d[1])
	}
	if strings.Contains(dialOf(t, course.Heading{}), `class="variation"`) {
		t.Error("an arc of zero")
	}
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
