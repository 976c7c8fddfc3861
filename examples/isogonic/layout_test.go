package main

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
	"unicode/utf8"
)

// A spot is a place on the map, and unit the length on paper of a unit in which the map is drawn,
// mm.
type spot struct{ x, y float64 }

const unit = 0.186

// The names of projections in the key.
const (
	mercator = "Mercator projection"
	polar    = "polar stereographic projection"
	plain    = "latitude and longitude to one scale"
)

// A written is a text of the map as it stands on the page.
type written struct {
	text   string
	x, y   float64 // its middle
	turn   float64 // radians
	length float64 // of the text alone, at 6.5 units a character of 14 units, generously
	height float64
}

// corners are those of the box about the text.
func (w written) corners() (c [4]spot) {
	sin, cos := math.Sincos(w.turn)
	for i, k := range [4]spot{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		dx, dy := k.x*w.length/2, k.y*w.height/2
		c[i] = spot{w.x + dx*cos - dy*sin, w.y + dx*sin + dy*cos}
	}
	return c
}

// overlaps reports whether two boxes have a part in common: if no side of either parts them.
func (w written) overlaps(v written) bool {
	a, b := w.corners(), v.corners()
	for _, turn := range []float64{w.turn, w.turn + math.Pi/2, v.turn, v.turn + math.Pi/2} {
		sin, cos := math.Sincos(turn)
		extent := func(c [4]spot) (from, to float64) {
			from, to = math.Inf(1), math.Inf(-1)
			for _, p := range c {
				along := p.x*cos + p.y*sin
				from, to = min(from, along), max(to, along)
			}
			return from, to
		}
		a0, a1 := extent(a)
		b0, b1 := extent(b)
		if a1 <= b0 || b1 <= a0 {
			return false
		}
	}
	return true
}

// readMap reads a map back: its page, its texts, and the points of its paths.
func readMap(t *testing.T, svg []byte) (page spot, texts []written, points []spot) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(svg))
	number := func(s string) float64 {
		x, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	var at written
	reading := false
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return page, texts, points
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			a := map[string]string{}
			for _, attr := range e.Attr {
				a[attr.Name.Local] = attr.Value
			}
			switch e.Name.Local {
			case "svg":
				if page == (spot{}) {
					page = spot{190 / unit, 258 / unit} // a body that fits on A4
				}
			case "g":
				if a["class"] == "body" {
					texts = nil // what was read is the title of the plate
				} else if strings.HasPrefix(a["transform"], "translate") {
					var degrees float64
					if _, err := fmt.Sscanf(a["transform"], "translate(%f %f) rotate(%f)", &at.x, &at.y, &degrees); err != nil {
						t.Fatal(err)
					}
					at.turn = degrees * math.Pi / 180
				}
			case "path":
				if strings.ContainsAny(a["d"], "hv") {
					continue // of the key
				}
				for _, pair := range strings.FieldsFunc(a["d"], func(r rune) bool { return r == 'M' || r == 'L' }) {
					x, y, _ := strings.Cut(pair, " ")
					points = append(points, spot{number(x), number(y)})
				}
			case "text":
				reading = true
				at.height, at.length = 12, 6.5
				if a["font-size"] != "" {
					at.height, at.length = 18, 9.5
				}
				if a["x"] != "" {
					at.x, at.y, at.turn = number(a["x"]), number(a["y"])-5, 0
				}
				if a["text-anchor"] == "" {
					at.turn = math.NaN() // begins at x
				}
			}
		case xml.CharData:
			if reading {
				at.text = string(e)
				at.length *= float64(utf8.RuneCountInString(at.text))
				if math.IsNaN(at.turn) {
					at.turn = 0
					at.x += at.length / 2
				}
				texts = append(texts, at)
				reading = false
			}
		}
	}
}

// In areas of every shape no two figures overlap, nothing is beyond the page, and the map
// has all its required texts.
func TestNothingOverlapsOrLeavesThePage(t *testing.T) {
	for _, k := range []struct {
		south, north, west, east, every string
		kind                            string
	}{
		{"35N", "60N", "40W", "0E", "0", mercator},
		{"30N", "60N", "20W", "15W", "0", mercator},                  // narrow and tall
		{"30N", "60N", "20W", "16W", "0.25", mercator},               // narrower
		{"10S", "10N", "150E", "150W", "0", mercator},                // across the date line
		{"1S", "1N", "60W", "50W", "0", mercator},                    // wide and low
		{"46°50′N", "47°10′N", "19°30′W", "19°00′W", "0", mercator},  // a chart
		{"46°50′N", "47°10′N", "19°30′W", "19°00′W", "10", mercator}, // without a line
		{"46°57′N", "47°03′N", "19°06′W", "19°00′W", "0", mercator},  // the least
		{"65N", "85N", "40W", "20E", "0", polar},
		{"70N", "72N", "20E", "21E", "0", polar},
		{"60N", "90N", "180W", "180E", "0", polar},
		{"20N", "71N", "0E", "10E", "0", polar},
		{"85S", "55S", "150E", "130W", "0", polar},
		{"90S", "60S", "0E", "0E", "5", polar},
		{"80S", "60S", "130E", "140E", "0", polar}, // about the south dip pole
		{"85N", "90N", "0E", "90W", "0", polar},
		{"90S", "90N", "180W", "180E", "0", plain},
	} {
		name := strings.Join([]string{k.south, k.north, k.west, k.east, k.every}, " ")
		for _, narrow := range []string{"false", "true"} {
			if narrow == "true" && slices.Contains([]string{"15W", "16W", "50W"}, k.east) {
				continue // too long and narrow for a small screen
			}
			checkLayout(t, name+", narrow "+narrow, k.kind, k.every, "-narrow="+narrow, "-south", k.south, "-north", k.north, "-west", k.west, "-east", k.east, "-every", k.every, "-title", "Orlesk & <environs>")
		}
	}
}

// checkLayout draws a map with some flags, and checks its texts and lines.
func checkLayout(t *testing.T, name, kind, every string, flags ...string) {
	t.Helper()
	svg, _ := drawnSVG(t, flags...)
	page, texts, points := readMap(t, svg)
	if strings.Contains(name, "narrow true") {
		page.x = 95 / unit
	}
	for i, a := range texts {
		for _, c := range a.corners() {
			if c.x < 0 || c.y < 0 || c.x > page.x || c.y > page.y {
				t.Errorf("%s: %q leaves the page: %v of %v", name, a.text, c, page)
				break
			}
		}
		for _, b := range texts[:i] {
			if a.overlaps(b) {
				t.Errorf("%s: %q runs over %q", name, a.text, b.text)
			}
		}
	}
	for _, p := range points {
		if p.x < 0 || p.y < 0 || p.x > page.x || p.y > page.y {
			t.Errorf("%s: a line leaves the page: %v of %v", name, p, page)
			break
		}
	}
	for _, want := range []string{kind, "nnual change", "Not for navigation", "Orlesk &amp; &lt;environs&gt;"} {
		if !bytes.Contains(svg, []byte(want)) {
			t.Errorf("%s: the map does not say %q", name, want)
		}
	}
	figures := 0
	for _, w := range texts {
		if strings.HasPrefix(w.text, "(") {
			figures++
		}
	}
	if figures == 0 && every != "10" && kind == mercator {
		t.Errorf("%s: no annual change on the map", name)
	}
}

// A spacing that no line of the area has is said, on the map and to the user.
func TestMapWithoutALineSaysSo(t *testing.T) {
	svg, stderr := drawnSVG(t, "-south", "46°50′N", "-north", "47°10′N", "-west", "19°30′W", "-east", "19°00′W", "-every", "10")
	if !bytes.Contains(svg, []byte("No line: the variation is from 5°")) || !strings.Contains(stderr, "no multiple of 10° occurs") {
		t.Errorf("%s\n%s", stderr, svg)
	}
}

func drawnSVG(t *testing.T, args ...string) ([]byte, string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if status := run(append(args, "-svg", "-", "-geojson", ""), &stdout, &stderr); status != 0 {
		t.Fatalf("%v: status %d: %s", args, status, &stderr)
	}
	return stdout.Bytes(), stderr.String()
}
