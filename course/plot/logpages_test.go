package plot_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/decklog"
	"lubberline.example/course/passage"
	"lubberline.example/course/plot"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// pageOf returns a sheet as a plate, which must be well-formed.
func pageOf(t *testing.T, s *drawing.Sheet) string {
	t.Helper()
	var b bytes.Buffer
	if err := s.WriteSVG(&b, drawing.Plate); err != nil {
		t.Fatal(err)
	}
	for d := xml.NewDecoder(bytes.NewReader(b.Bytes())); ; {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
	return b.String()
}

const lyingA4 = `width="297mm" height="210mm"`

// has fails if a page does not have all texts.
func has(t *testing.T, svg string, texts ...string) {
	t.Helper()
	for _, text := range texts {
		if !strings.Contains(svg, ">"+text+"<") {
			t.Errorf("no %q on the page", text)
		}
	}
}

// TestDeckLogShowsReckoning holds the figures of a row to plane sums by hand: from 47°N 019°W
// on 095°C, error 5°W, so 090°T, 6 M by log with a factor of 1, a stream of 1 kn southward for
// an hour: EP 46°59.0′N, and 6 M east are 8.8′ of longitude.
func TestDeckLogShowsReckoning(t *testing.T) {
	log, err := decklog.ReadLog(strings.NewReader("time,log,compass,wind,leeway,set,rate,fix,fix_uncertainty,remarks\n" +
		"2026-07-02T06:00Z,10.0,095°C,290,0°,180,1.0,47°00.0′N 019°00.0′W,0.1 M,off the head\n2026-07-02T07:00Z,16.0,,,,,,,,<fog>\n"))
	if err != nil {
		t.Fatal(err)
	}
	r, err := log.Reckon(decklog.Options{Variation: variation.West(5 * angle.Degree), Deviation: deviation.None()})
	if err != nil {
		t.Fatal(err)
	}
	svg := pageOf(t, plot.DeckLog(r, plot.Page{Vessel: "Quillon"}))
	has(t, svg, "2 July 2026", "0600", "10.0", "095°C", "5°00′W", "090.0°T", "290°T", "off the head", "0700", "16.0", "6.0", "180°T 1.0", "46°59.0′N", "018°51.2′W", "&lt;fog&gt;")
	if !strings.Contains(svg, lyingA4) {
		t.Error("not on A4")
	}
	if strings.Contains(svg, "factor of the log") {
		t.Error("a factor of 1 is written")
	}
	for len(log) < 16 {
		next := log[len(log)-1]
		reading := *next.Log + sailing.NauticalMile
		log = append(log, decklog.Entry{Time: next.Time.Add(time.Hour), Log: &reading})
	}
	if r, err = log.Reckon(decklog.Options{Factor: decklog.Factor{Value: 1.03}, Variation: variation.West(5 * angle.Degree), Deviation: deviation.None()}); err != nil {
		t.Fatal(err)
	}
	svg = pageOf(t, plot.DeckLog(r, plot.Page{Vessel: "Quillon"}))
	if has(t, svg, "6.2"); !strings.Contains(svg, lyingA4) || !strings.Contains(svg, "difference of the log × 1.030, the factor of the log.<") {
		t.Error("a page with a factor is not on A4, or does not tell it")
	}
	for _, points := range []int{16, 17} {
		long := decklog.Reckoning{Points: make([]decklog.Point, points)}
		if svg := pageOf(t, plot.DeckLog(long, plot.Page{})); strings.Contains(svg, lyingA4) != (points == 16) || strings.Contains(svg, "000°") || strings.Contains(svg, "0000") {
			t.Errorf("%d empty rows", points)
		}
	}
	if blank := plot.DeckLog(decklog.Reckoning{}, plot.Page{}); !strings.Contains(pageOf(t, blank), lyingA4) || !strings.Contains(blank.Description(), "Lines filled in: 0") {
		t.Error("a blank page")
	}
}

// TestPassagePlanShowsLegs holds a leg to sums by hand: 10 M due north across a stream that sets
// east at 3 kn, at 5 kn through the water: 323.1°T, 4 kn made good, 2 h 30 min.
func TestPassagePlanShowsLegs(t *testing.T) {
	plan := passage.Plan{
		Depart: time.Date(2026, 7, 2, 6, 0, 0, 0, time.UTC), Speed: 5 * sailing.Knot, Variation: variation.West(5 * angle.Degree), Deviation: deviation.East(2 * angle.Degree),
		Streams:   stream.Stream{Set: angle.MustParseTrue("090"), Rate: 3 * sailing.Knot},
		Waypoints: []passage.Waypoint{{Name: "the offing", Position: angle.MustParsePosition("47°00′N 019°00′W")}, {Name: "<head>", Position: angle.MustParsePosition("47°10′N 019°00′W")}},
	}
	p, err := passage.New(plan)
	if err != nil {
		t.Fatal(err)
	}
	svg := pageOf(t, plot.PassagePlan(p, plot.Page{Vessel: "Quillon"}))
	has(t, svg, "the offing", "&lt;head&gt;", "2 Jul 2026 0600", "2 Jul 2026 0830", "10.0", "000°T", "090°T 3.0", "323.1°T", "5°00′W", "328.1°M", "2°00′E", "326°C", "4.0 kn", "2 h 30", "0830")
	if !strings.Contains(svg, lyingA4) {
		t.Error("not on A4")
	}
	if blank := plot.PassagePlan(nil, plot.Page{}); !strings.Contains(pageOf(t, blank), lyingA4) {
		t.Error("a blank form is not on A4")
	}
}

// narrowPage fails if a narrow page loses a text of the rows that its description has, or cannot be
// read on a small screen: on one 320 pixels wide the smallest letters are 9 pixels.
func narrowPage(t *testing.T, s *drawing.Sheet, head string) {
	t.Helper()
	all := elements(t, s)
	textsApart(t, "narrow", all)
	var width, height float64
	if _, err := fmt.Sscanf(all[0].attribute["viewBox"], "0 0 %g %g", &width, &height); err != nil || width != 92 {
		t.Errorf("%v mm wide, %v", width, err)
	}
	if px := drawing.Letters * 320 / width; px < 9 {
		t.Errorf("letters of %.1f pixels", px)
	}
	var values strings.Builder
	for _, e := range all {
		if e.attribute["font-size"] != "" && e.name == "text" {
			t.Errorf("%q has letters of its own size", e.text)
		}
		if e.name == "text" && (e.number(t, "x") < 0 || e.number(t, "x")+drawing.Letters*drawing.TextWidth(e.text) > width || e.number(t, "y") > height) {
			t.Errorf("%q is not on the page", e.text)
		}
		if e.attribute["class"] == "value" {
			values.WriteString(e.text)
		}
	}
	plain := func(text string) string { return strings.Join(strings.Fields(strings.ReplaceAll(text, ";", "")), "") }
	_, rows, _ := strings.Cut(s.Description(), "Lines filled in: ")
	_, rows, _ = strings.Cut(rows, ". ")
	for _, text := range []string{head, rows} {
		if !strings.Contains(plain(values.String()), plain(text)) {
			t.Errorf("%.200q is not in %.900q", plain(text), plain(values.String()))
		}
	}
}

func TestNarrowPagesAreWhole(t *testing.T) {
	long := strings.Repeat("the Innermost Ledge ", 12)
	log, err := decklog.ReadLog(strings.NewReader("time,log,compass,wind,leeway,set,rate,fix,fix_uncertainty,remarks\n" +
		"2026-07-02T06:00Z,10.0,095°C,290,0°,180,1.0,47°00.0′N 019°00.0′W,0.1 M,\"" + long + "\"\n2026-07-02T07:00Z,16.0,,,,,,46°59.0′N 018°51.0′W,0.1 M,ประภาคาร 羅針 <fog>\n"))
	if err != nil {
		t.Fatal(err)
	}
	r, err := log.Reckon(decklog.Options{Variation: variation.West(5 * angle.Degree), Deviation: deviation.None()})
	if err != nil {
		t.Fatal(err)
	}
	narrowPage(t, plot.DeckLog(r, plot.Page{Vessel: long, Narrow: true}), long)
	plan := passage.Plan{Depart: time.Date(2026, 12, 31, 23, 0, 0, 0, time.UTC), Speed: 5 * sailing.Knot, Variation: variation.West(25 * angle.Degree), Deviation: deviation.None(), WindFrom: new(angle.MustParseTrue("200")), Leeway: 5 * angle.Degree}
	for i := range 21 {
		at := angle.MustParsePosition([]string{"78°00′N 179°30′W", "78°30′N 178°00′E"}[i%2])
		plan.Waypoints = append(plan.Waypoints, passage.Waypoint{Name: []string{long, "港口", "", "Мыс"}[i%4], Position: at, GreatCircle: i%3 == 0})
	}
	p, err := passage.New(plan)
	if err != nil {
		t.Fatal(err)
	}
	narrowPage(t, plot.PassagePlan(p, plot.Page{Vessel: "Quillon", Narrow: true}), "Quillon"+long)
	for _, blank := range []*drawing.Sheet{plot.DeckLog(decklog.Reckoning{}, plot.Page{Narrow: true}), plot.PassagePlan(nil, plot.Page{Narrow: true})} {
		narrowPage(t, blank, "")
		if svg := pageOf(t, blank); !strings.Contains(svg, ">Leeway<") || !strings.Contains(svg, ">Vessel<") {
			t.Error("a blank page has no columns")
		}
	}
}

// TestPassagePlanFarAway draws legs across the date line, at 78°N and along a great circle, with names
// that are long or in other scripts. The larger of them is 20 legs long.
func TestPassagePlanFarAway(t *testing.T) {
	long := strings.Repeat("the Innermost Ledge ", 12)
	plan := passage.Plan{Depart: time.Date(2026, 12, 31, 23, 0, 0, 0, time.UTC), Speed: 5 * sailing.Knot, Variation: variation.West(25 * angle.Degree), Deviation: deviation.None(), WindFrom: new(angle.MustParseTrue("200")), Leeway: 5 * angle.Degree}
	for i := range 21 {
		at := angle.MustParsePosition([]string{"78°00′N 179°30′W", "78°30′N 178°00′E"}[i%2])
		plan.Waypoints = append(plan.Waypoints, passage.Waypoint{Name: []string{long, "港口", "", "Мыс"}[i%4], Position: at, GreatCircle: i%3 == 0})
	}
	p, err := passage.New(plan)
	if err != nil {
		t.Fatal(err)
	}
	svg := pageOf(t, plot.PassagePlan(p, plot.Page{Vessel: long}))
	has(t, svg, "1 Jan", "港口", "Мыс", "78°30.0′N", "179°30.0′W")
	if strings.Contains(svg, lyingA4) || strings.Contains(svg, "NaN") {
		t.Error("20 legs are on A4")
	}
}
