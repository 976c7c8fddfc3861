package practice_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/google/go-cmp/cmp"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/tidal"
	"lubberline.example/fix/practice"
)

func Example() {
	chart := practice.Orlesk()
	light, _ := chart.Mark("Orlesk Head light")
	fmt.Println(light.Position, light.Light, light.Height.Metres())

	// The chart's roses are a source of variation.
	v, err := chart.Roses.VariationAt(light.Position, time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC))
	if err != nil {
		fmt.Println(err)
	}
	fmt.Println(v)
	fmt.Println(chart.InWater(angle.MustParsePosition("46°58.0′N 019°17.8′W")))
	// Output:
	// 47°08.4′N 019°00.0′W Fl(3) 15s 38
	// 5°08′W
	// true
}

// The places of DEVELOPERS, "The invented scenario", stand on the chart where its table says.
func TestMarksStandWhereDevelopersSays(t *testing.T) {
	text, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, table, _ := strings.Cut(string(text), "| place | position |")
	table, _, _ = strings.Cut(table, "\n\n")
	chart, found := practice.Orlesk(), 0
	for _, row := range strings.Split(table, "\n") {
		cells := strings.Split(row, "|")
		if len(cells) < 4 || strings.Contains(row, "---") {
			continue
		}
		name, where := strings.TrimSpace(cells[1]), angle.MustParsePosition(strings.TrimSpace(cells[2]))
		found++
		if name, legend, isRose := strings.Cut(name, " rose, "); isRose {
			ok := false
			for _, r := range chart.Roses.Roses() {
				ok = ok || r.Name == name+" rose" && r.Position == where && strings.Contains(legend, r.Rose.String())
			}
			if !ok {
				t.Errorf("no %s rose at %v with %s", name, where, legend)
			}
			continue
		}
		if slices.ContainsFunc(chart.Dangers, func(d practice.Danger) bool { return d.Name == name && d.Position == where }) {
			continue
		}
		if m, ok := chart.Mark(name); !ok || m.Position != where {
			t.Errorf("%s: %v, want %v", name, m.Position, where)
		}
	}
	if found < 6 {
		t.Errorf("found only %d places", found)
	}
}

// The land lies to the east of the marks and ends in the north with Orlesk Head.
func TestLandLiesToTheEast(t *testing.T) {
	chart := practice.Orlesk()
	for name, dry := range map[string]bool{"Orlesk Head light": true, "Braddle Point tower": true, "St Osk church": true, "Minnow Ledge beacon": false} {
		m, _ := chart.Mark(name)
		if chart.InWater(m.Position) == dry {
			t.Errorf("%s is in the water: %v", name, !dry)
		}
		lat, lon := m.Position.Degrees()
		for west := lon - 0.03; west > -19.59; west -= 0.01 {
			if !chart.InWater(angle.Must(angle.PositionDegrees(lat, west))) {
				t.Errorf("%.2f°, west of %s, is land", west, name)
			}
		}
	}
	for lon := -19.59; lon < -18.54; lon += 0.01 {
		for lat := 47 + 8.4/60 + 0.03; lat < 47.21; lat += 0.01 {
			if p := angle.Must(angle.PositionDegrees(lat, lon)); !chart.InWater(p) && math.Abs(lon+19.022) > 0.01 { // Skerrin, an islet
				t.Errorf("%v, north of Orlesk Head, is land", p)
			}
		}
	}
	if chart.InWater(angle.MustParsePosition("46°55′N 018°45′W")) {
		t.Error("inland is water")
	}
}

// The vessel floats wherever the examples and the demos have it.
func TestVesselOfTheExamplesFloats(t *testing.T) {
	chart := practice.Orlesk()
	places := []string{
		"46°58.0′N 019°17.8′W", "46°50.9′N 019°14.6′W", "46°47.9′N 019°08.9′W", "46°44.0′N 019°00.3′W", "47°02.0′N 019°15.4′W", "47°12′N 019°00′W",
		"47°02.0′N 018°54.5′W", "47°00.0′N 018°53.2′W", "47°04.5′N 019°03′W", "47°02′N 019°06′W", "46°46.5′N 019°00.7′W", "46°58.0′N 019°08.0′W",
	}
	csv, err := os.ReadFile("../../examples/passage/waypoints.csv")
	if err != nil {
		t.Fatal(err)
	}
	var way []angle.Position
	for _, row := range strings.Split(string(csv), "\n") {
		if _, where, ok := strings.Cut(row, ","); ok && !strings.HasPrefix(row, "#") && !strings.HasPrefix(row, "name") {
			places = append(places, where)
			way = append(way, angle.MustParsePosition(where))
		}
	}
	for _, p := range places {
		if !chart.InWater(angle.MustParsePosition(p)) {
			t.Errorf("the vessel at %s is on land", p)
		}
	}
	// The passage keeps off the dangers too.
	for i := 1; i < len(way); i++ {
		run := sailing.WGS84().Rhumb(way[i-1], way[i])
		for d := sailing.Distance(0); d < run.Distance; d += 100 {
			p := angle.Must(sailing.WGS84().Follow(way[i-1], sailing.Run{Course: run.Course, Distance: d}))
			if !chart.InWater(p) {
				t.Fatalf("leg %d crosses land at %v", i, p)
			}
			for _, danger := range chart.Dangers {
				if off := sailing.WGS84().Rhumb(p, danger.Position).Distance; off < danger.Radius {
					t.Fatalf("leg %d passes %v from %s", i, off, danger.Name)
				}
			}
		}
	}
}

func TestSoundingsLieInWater(t *testing.T) {
	chart := practice.Orlesk()
	for _, s := range chart.Soundings {
		if !chart.InWater(s.Position) {
			t.Errorf("%v at %v is on land", s.Depth, s.Position)
		}
	}
	for _, d := range chart.Dangers {
		if !chart.InWater(d.Position) {
			t.Errorf("%s is on land", d.Name)
		}
	}
	for _, p := range chart.Anchorages {
		if !chart.InWater(p) {
			t.Errorf("the anchorage at %v is on land", p)
		}
	}
	for _, c := range chart.Contours {
		for _, p := range c.Line {
			if chart.Contains(p) && !chart.InWater(p) {
				t.Errorf("the contour of %v at %v is on land", c.Depth, p)
			}
		}
	}
	for _, r := range chart.Roses.Roses() {
		if !chart.InWater(r.Position) {
			t.Errorf("%s is on land", r.Name)
		}
	}
	if len(chart.Soundings) < 150 {
		t.Errorf("only %d soundings", len(chart.Soundings))
	}
}

// Soundings on one side of a contour are all deeper than it, or all shallower. Walking from one
// sounding to another crosses as many contours as their depths have between them.
func TestSoundingsAgreeWithContours(t *testing.T) {
	chart := practice.Orlesk()
	lon, lat := func(p angle.Position) float64 { return p.Longitude.Degrees() * 0.68 }, func(p angle.Position) float64 { return p.Latitude.Degrees() }
	crosses := func(a, b, c, d angle.Position) bool {
		side := func(a, b, p angle.Position) bool {
			return (lon(b)-lon(a))*(lat(p)-lat(a))-(lat(b)-lat(a))*(lon(p)-lon(a)) > 0
		}
		return side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
	}
	wrong, pairs := 0, 0
	for i, a := range chart.Soundings {
		for _, b := range chart.Soundings[:i] {
			if sailing.WGS84().Rhumb(a.Position, b.Position).Distance > 2.5*sailing.NauticalMile {
				continue
			}
			for _, level := range []sailing.Distance{10, 20, 50, 100} {
				n := 0
				for _, c := range chart.Contours {
					for k := 1; k < len(c.Line) && c.Depth == level; k++ {
						if crosses(a.Position, b.Position, c.Line[k-1], c.Line[k]) {
							n++
						}
					}
				}
				pairs++
				if (n%2 == 1) != ((a.Depth < level) != (b.Depth < level)) {
					wrong++
				}
			}
		}
	}
	if pairs < 500 || wrong*200 > pairs { // contours are smoothed, depths rounded down
		t.Errorf("%d of %d pairs of soundings do not agree with the contours", wrong, pairs)
	}
}

// The tidal streams are those of examples/log, hour by hour, and the diamonds lie in water.
func TestTidalTableIsThatOfTheExamples(t *testing.T) {
	file, err := os.Open("../../examples/log/tidal.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	want, err := tidal.ReadTable(file)
	if err != nil {
		t.Fatal(err)
	}
	chart := practice.Orlesk()
	if diff := cmp.Diff(&want, chart.Tidal); diff != "" {
		t.Error(diff)
	}
	for _, p := range chart.Tidal.Places {
		if !chart.InWater(*p.Position) {
			t.Errorf("diamond %s is on land", p.Name)
		}
	}
}

// Lights have a character, and what has none is unlit.
func TestLightsHaveCharacters(t *testing.T) {
	for _, m := range practice.Orlesk().Marks {
		if (m.Kind == practice.Light || m.Range > 0) && m.Light == "" {
			t.Errorf("%s has no character", m.Name)
		}
	}
}

func TestChartReadsBackFromJSON(t *testing.T) {
	chart := practice.Orlesk()
	text, err := json.Marshal(chart)
	if err != nil {
		t.Fatal(err)
	}
	back, err := practice.Read(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	again, err := json.Marshal(back)
	if err != nil || !bytes.Equal(text, again) {
		t.Errorf("changed: %v", err)
	}
}

func TestInvalidChartsAreRefused(t *testing.T) {
	good := `"name": "Bay", "south": "10°S", "north": "9°S", "west": "179°E", "east": "179°W"`
	if c, err := practice.Read(strings.NewReader("{" + good + "}")); err != nil || !c.Contains(angle.MustParsePosition("9°30′S 179°59′W")) || c.Contains(angle.MustParsePosition("9°30′S 178°W")) {
		t.Errorf("over the date line: %v", err)
	}
	whole := "{" + good + "}" + strings.Repeat(" ", 4<<20-len(good)-2)
	if _, err := practice.Read(strings.NewReader(whole)); err != nil {
		t.Errorf("4 MiB: %v", err)
	}
	if _, err := practice.Read(strings.NewReader(whole + " ")); err == nil || !strings.Contains(err.Error(), "more than 4 MiB") {
		t.Errorf("a byte more than 4 MiB: %v", err)
	}
	for text, want := range map[string]string{
		`x`: "not JSON", `{"nam": 1}`: "unknown field", `{` + good + `} 2`: "more follows", `{}`: "no name", `null`: "no name",
		strings.Replace(good, "9°S", "11°S", 1):                                                           "not south",
		strings.Replace(good, "10°S", "89°S", 1):                                                          "85°",
		strings.Replace(good, "179°W", "179°E", 1):                                                        "120°",
		good + `, "marks": [{"position": "9.5°S 180°E", "kind": "light"}]`:                                "no name",
		good + `, "marks": [{"name": "a", "kind": "light"}]`:                                              "outside",
		good + `, "marks": [{"name": "a", "position": "9.5°S 180°E", "kind": "lamp"}]`:                    "lamp",
		good + `, "marks": [{"name": "a", "position": "9.5°S 180°E", "kind": "light", "height": "-1 m"}]`: "height",
		good + `, "dangers": [{"position": "9.5°S 180°E", "kind": "ice"}]`:                                "ice",
		good + `, "dangers": [{"position": "9.5°S 180°E", "kind": "rock", "depth": "-30 m"}]`:             "depth",
		good + `, "soundings": [{"depth": "3 m"}]`:                                                        "outside",
		good + `, "land": [["9°S 180°E"]]`:                                                                "three",
		good + `, "contours": [{"depth": "3 m", "line": []}]`:                                             "two",
		good + `, "names": [{"position": "9.5°S 180°E"}]`:                                                 "text",
		good + `, "names": [{"text": "` + strings.Repeat("W", 300) + `"}]`:                                "longer",
		good + `, "roses": [{"position": "5°N 0°E", "legend": "1°W 2020 (1′E)"}]`:                         "outside",
		good + `, "tidal": [{"place": "A", "hour": "HW", "springs": "0", "neaps": "0"}]`:                  "no position",
	} {
		if strings.HasPrefix(text, `"`) {
			text = "{" + text + "}"
		}
		_, err := practice.Read(strings.NewReader(text))
		if fault := (*practice.Error)(nil); !errors.As(err, &fault) || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", text, err, want)
		}
	}
	if _, err := practice.Read(nil); err == nil {
		t.Error("a nil reader is accepted")
	}
	if _, err := practice.Read(iotest.ErrReader(io.ErrClosedPipe)); !errors.Is(err, io.ErrClosedPipe) {
		t.Error(err)
	}
	if _, err := practice.Read(strings.NewReader(strings.Repeat(" ", 5<<20))); err == nil {
		t.Error("5 MiB are accepted")
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(`{"name": "Bay", "south": "10°S", "north": "9°S", "west": "179°E", "east": "179°W", "marks": [{"name": "a", "position": "9.5°S 180°E", "kind": "light", "height": "3 m"}], "roses": [{"position": "9.5°S 180°E", "legend": "1°W 2020 (1′E)"}], "tidal": [{"place": "A", "hour": "HW", "springs": "0", "neaps": "0", "position": "9.5°S 180°E"}], "soundings": [{"position": "9.5°S 180°E", "depth": "3 m"}], "land": [["9°S 180°E", "9.5°S 180°E", "9.5°S 179°E"]]}`))
	f.Add([]byte(`{"name": "Bay", "south": "10°N", "north": "11°N", "west": "1°E", "east": "2°E"}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := practice.Read(bytes.NewReader(data))
		if err != nil {
			return
		}
		text, err := json.Marshal(c)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := practice.Read(bytes.NewReader(text)); err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		c.InWater(angle.Position{Latitude: c.South, Longitude: c.West})
	})
}

// A chart of your own, from JSON. A fault says what to change.
func ExampleRead() {
	chart, err := practice.Read(strings.NewReader(`{
		"name": "Invented bay", "south": "10°S", "north": "9°30′S", "west": "179°45′E", "east": "179°45′W",
		"marks": [{"name": "Bay light", "position": "9°45′S 180°E", "kind": "light", "height": "38 m", "range": "18 M"}]
	}`))
	fmt.Println(chart.Name, err)
	light, ok := chart.Mark("Bay light")
	fmt.Println(light.Position, light.Range, ok)
	_, err = practice.Read(strings.NewReader(`{"name": "Invented bay", "south": "9°S", "north": "10°S"}`))
	fmt.Println(err)
	// Output:
	// Invented bay <nil>
	// 09°45.0′S 180°00.0′E 18.0 M true
	// practice: the south limit 09°00.0′S is not south of the north limit 10°00.0′S: exchange them
}
