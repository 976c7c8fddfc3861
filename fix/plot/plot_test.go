package plot_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/fix/danger"
	"lubberline.example/fix/internal/fixtest"
	"lubberline.example/fix/plot"
	"lubberline.example/variation"
)

var update = flag.Bool("update", false, "write the drawings to testdata as they are now; then look at them")

// The coast of Orlesk, its marks and the Quillon's figures are invented.
var (
	plOrlesk = fix.Mark{Name: "Orlesk Head light", Position: angle.MustParsePosition("47°08.4′N 019°00.0′W")}
	plMinnow = fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}
	plChapel = fix.Mark{Name: "Chapel spire", Position: angle.MustParsePosition("47°10.1′N 019°09.5′W")}
	plTower  = fix.Mark{Name: "Water tower", Position: angle.MustParsePosition("47°10.9′N 019°03.2′W")}
	plHere   = angle.MustParsePosition("47°05.0′N 019°05.0′W")
)

const plMile = sailing.NauticalMile

// plBears returns the bearing and the distance of a mark from a place by rhumb line.
func plBears(m fix.Mark, from angle.Position) sailing.Run {
	return sailing.WGS84().Rhumb(from, m.Position)
}

// plBearing returns a bearing of a mark from a place, wrong by some degrees.
func plBearing(m fix.Mark, from angle.Position, off, sigma float64) fix.Line {
	return fix.Bearing(m, plBears(m, from).Course.Add(angle.Must(angle.Degrees(off))), fixtest.Sigma(sigma))
}

// plSolve returns the fix by some lines. If there is none, the test fails.
func plSolve(t *testing.T, o fix.Options, lines ...fix.Line) fix.Fix {
	t.Helper()
	f, err := fix.Solve(lines, o)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// plRange returns the exact distance off of a mark from a place.
func plRange(m fix.Mark, from angle.Position, known sailing.Distance) fix.Line {
	return angle.Must(fix.Range(m, plBears(m, from).Distance, known))
}

// plAngle returns the exact horizontal angle between two marks from a place.
func plAngle(left, right fix.Mark, from angle.Position, sigma float64) fix.Line {
	return angle.Must(fix.HorizontalAngle(left, right, plBears(right, from).Course.Sub(plBears(left, from).Course), fixtest.Sigma(sigma)))
}

// plFixes returns the fixes of testdata.
func plFixes(t *testing.T) map[string]fix.Fix {
	t.Helper()
	near := fix.Options{Near: &plHere}
	hat := []fix.Line{plBearing(plOrlesk, plHere, 1.2, 1), plBearing(plMinnow, plHere, 0.6, 1), plBearing(plChapel, plHere, -1.1, 1)}
	for i := range hat {
		hat[i] = hat[i].WithTime(time.Date(2026, 5, 3, 10, 15, 0, 0, time.UTC))
	}
	front := fix.Mark{Name: "Front leading light", Position: angle.MustParsePosition("47°08.0′N 019°06.2′W")}
	rear := fix.Mark{Name: "Rear leading light", Position: angle.MustParsePosition("47°09.0′N 019°06.6′W")}
	run := sailing.Run{Course: angle.MustParseTrue("205°T"), Distance: 2 * plMile}
	before := fixtest.From(plHere, 25, 2*1852)
	slope := angle.Must(fix.LineFromFunc("depth on the slope", "m", func(p angle.Position) float64 { return 40 - 4*(p.Latitude.Angle()-plHere.Latitude.Angle()).Minutes() }, 40, 2))
	return map[string]fix.Fix{
		"fix":      plSolve(t, near, hat...),
		"ranges":   plSolve(t, near, plRange(plOrlesk, plHere, 0.05*plMile), plRange(plMinnow, plHere, 0.05*plMile)),
		"range":    plSolve(t, near, plBearing(plOrlesk, plHere, 0, 1), plRange(plOrlesk, plHere, 0.1*plMile)),
		"angles":   plSolve(t, near, plAngle(plMinnow, plChapel, plHere, 0.05), plAngle(plChapel, plOrlesk, plHere, 0.05)),
		"transit":  plSolve(t, near, angle.Must(fix.Transit(front, rear, fixtest.Sigma(0.05))), plBearing(plOrlesk, plHere, 0, 1)),
		"disagree": plSolve(t, near, append(hat[:2:2], plBearing(plChapel, plHere, -1.1, 1), plBearing(plTower, plHere, 10, 1))...),
		"running":  plSolve(t, fix.Options{Near: new(fixtest.From(plHere, 250, 1500))}, plBearing(plMinnow, before, 0, 1).WithTime(hat[0].Time().Add(-30*time.Minute)).Transferred(run, sailing.Circular(150)), hat[0]),
		"reckoned": plSolve(t, fix.Options{Prior: &stream.Estimate{Position: angle.MustParsePosition("47°05.6′N 019°04.2′W"), Covariance: sailing.Circular(0.6 * plMile)}},
			plBearing(plMinnow, plHere, 0, 1), slope),
	}
}

// plDrawn returns the plot of a fix as SVG.
func plDrawn(t *testing.T, f fix.Fix, title string) string {
	t.Helper()
	sheet, err := plot.Fix(f, plot.Options{Title: title})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := sheet.WriteSVG(&b, drawing.Plate); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// Goldens are few: the laws hold the other plots.
func TestPlotGolden(t *testing.T) {
	fixes := plFixes(t)
	for _, name := range []string{"fix", "disagree", "running"} {
		f := fixes[name]
		path := filepath.Join("testdata", name+".svg")
		got := plDrawn(t, f, "Fix off Orlesk Head")
		if *update {
			if err := errors.Join(os.MkdirAll("testdata", 0o777), os.WriteFile(path, []byte(got), 0o666)); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		// A checkout may have turned the line ends.
		if got != strings.ReplaceAll(string(want), "\r\n", "\n") {
			t.Errorf("%s has changed; run go test -update and look at it", path)
		}
	}
}

// plCheck reads a plot as XML and checks what every plot has.
func plCheck(t *testing.T, svg string) {
	t.Helper()
	var all strings.Builder
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("not XML: %v", err)
		}
		if text, ok := token.(xml.CharData); ok {
			all.Write(text)
			all.WriteByte(' ')
		}
	}
	text := strings.Join(strings.Fields(all.String()), " ")
	for _, want := range []string{"Overview", "Close-up", working.Caution, " N "} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q", want)
		}
	}
	for _, bad := range []string{"<script", "href", "NaN", "Inf", `"-0.00"`} {
		if strings.Contains(svg, bad) {
			t.Errorf("contains %s", bad)
		}
	}
}

func TestPlotTexts(t *testing.T) {
	fixes := plFixes(t)
	agree := "if the lines are as good as stated."
	for name, want := range map[string][]string{
		"fix":      {"47°05.", ">cocked hat<", "3: bearing of Chapel spire", agree, "3 May 2026 10:15 UTC"},
		"ranges":   {"lines meet too", "No degree of freedom", "The lines cut at only 28°: the fix is weak", `class="other"`},
		"disagree": {"THE LINES DO NOT AGREE: AT LEAST ONE OF THEM IS WRONG; DO NOT USE THIS POSITION.", "Look again at Water tower: without it the others agree", "misread by 10°", "NO FIX: the lines do not agree", ">cocked hat<"},
		"reckoned": {"estimated position", `class="reckoned"`, "40 m ±2"},
		"angles":   {"1: angle, Minnow Ledge beacon to Chapel spire"},
		"transit":  {"1: transit, Front leading light and Rear"},
	} {
		svg := plDrawn(t, fixes[name], "Fix")
		plCheck(t, svg)
		joined := strings.Join(strings.Fields(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(svg, " ")), " ") + svg
		for _, w := range want {
			if !strings.Contains(joined, strings.Join(strings.Fields(w), " ")) && !strings.Contains(joined, w) {
				t.Errorf("%s: no %q", name, w)
			}
		}
		if name != "disagree" && strings.Contains(svg, "DO NOT AGREE") {
			t.Errorf("%s: says that the lines do not agree", name)
		}
		if f := fixes[name]; name == "disagree" {
			for _, bad := range []string{"llipse", ">the fix<", fmt.Sprintf("%.2v", f.Position()), fmt.Sprintf("%.1v", f.Position())} {
				if strings.Contains(svg, bad) {
					t.Errorf("%s: %q, though there is no fix", name, bad)
				}
			}
		}
	}
}

// plPoints returns the points of the lines of a class, or of the lines in a group of a class.
func plPoints(svg, class string) (out [][2]float64) {
	for _, group := range regexp.MustCompile(`(?s)<g class="`+class+`">(.*?)</g>`).FindAllStringSubmatch(svg, -1) {
		for _, kind := range []string{"bearing-line", "range-line", "transferred-line", "ground-track"} {
			out = append(out, plPoints(group[1], kind)...)
		}
	}
	for _, found := range regexp.MustCompile(`class="`+class+`"[^>]* points="([^"]*)"`).FindAllStringSubmatch(svg, -1) {
		for _, pair := range strings.Fields(found[1]) {
			x, y, _ := strings.Cut(pair, ",")
			out = append(out, [2]float64{angle.Must(strconv.ParseFloat(x, 64)), angle.Must(strconv.ParseFloat(y, 64))})
		}
	}
	return out
}

func TestRangeArcIsCircle(t *testing.T) {
	f := plFixes(t)["range"]
	svg := plDrawn(t, f, "")
	var middle [2]float64
	for _, p := range plPoints(svg, "mark")[:4] {
		middle[0] += p[0] / 4
		middle[1] += p[1] / 4
	}
	overview := svg[:strings.Index(svg, `class="close"`)]
	arc := plPoints(overview, "line-2")
	if len(arc) < 30 {
		t.Fatalf("an arc of %d points", len(arc))
	}
	first := math.Hypot(arc[0][0]-middle[0], arc[0][1]-middle[1])
	for _, p := range arc {
		if r := math.Hypot(p[0]-middle[0], p[1]-middle[1]); math.Abs(r-first) > 0.05 { // two roundings to 0.01 mm, and the plane over 5 miles
			t.Fatalf("radius %.3f and %.3f mm", r, first)
		}
	}
	for _, p := range plPoints(overview, "line-1") {
		off := math.Atan2(p[0]-middle[0], middle[1]-p[1])*180/math.Pi - f.Lines()[0].Working()[0].Number
		if d := math.Hypot(p[0]-middle[0], p[1]-middle[1]); d > 20 && math.Abs(math.Remainder(off-180, 360)) > 0.15 { // convergency over the chart, and roundings
			t.Fatalf("the bearing's line at %v is %.2f° off", p, off)
		}
	}
}

func TestPlotsAnywhere(t *testing.T) {
	for _, place := range []string{"16°50′S 179°59.9′E", "89°59.9′N 010°E", "90°S 000°E", "00°00′N 180°00′E", "0°N 0°E", "78°N 015°E"} {
		here := angle.MustParsePosition(place)
		var marks []fix.Mark
		for i, b := range []float64{10, 130, 230} {
			f := sailing.Run{Course: angle.Must(angle.TrueDegrees(b)), Distance: 6 * plMile}
			p, err := sailing.WGS84().Follow(here, f)
			if err != nil { // over the pole
				p = angle.Must(angle.PositionDegrees(math.Copysign(89.9, here.Latitude.Degrees()), 120*float64(i-1)))
			}
			marks = append(marks, fix.Mark{Name: strconv.Itoa(i), Position: p})
		}
		var lines []fix.Line
		for i, m := range marks {
			lines = append(lines, angle.Must(fix.Range(m, sailing.Distance(6+0.1*float64(i))*plMile, plMile/10)))
		}
		lines = append(lines, angle.Must(fix.Latitude(here.Latitude, plMile)), angle.Must(fix.Longitude(here.Longitude, plMile)))
		f, err := fix.Solve(lines, fix.Options{Near: &here})
		if err != nil {
			t.Errorf("%s: %v", place, err)
			continue
		}
		svg := plDrawn(t, f, place)
		plCheck(t, svg)
		if len(plPoints(svg, "line-1")) < 10 || len(plPoints(svg, "mark")) < 12 {
			t.Errorf("%s: lines or marks are missing", place)
		}
	}
}

func TestPlotsOfManyLines(t *testing.T) {
	var lines []fix.Line
	for i := range 30 {
		m := fix.Mark{Name: "mark " + strconv.Itoa(i), Position: angle.Must(angle.PositionDegrees(47.2+0.01*float64(i%6), -19-0.01*float64(i)))}
		lines = append(lines, plBearing(m, plHere, 0, 1))
	}
	svg := plDrawn(t, plSolve(t, fix.Options{Near: &plHere}, lines...), "Many")
	plCheck(t, svg)
	if !strings.Contains(svg, "of which 6 are not drawn") {
		t.Error("does not say that lines are not drawn")
	}
	far := fix.Mark{Name: "far", Position: angle.MustParsePosition("10°N 019°W")}
	svg = plDrawn(t, plSolve(t, fix.Options{Near: &plHere}, plBearing(far, plHere, 0, 1), plBearing(plOrlesk, plHere, 0, 1)), "Far")
	plCheck(t, svg)
	if !strings.Contains(svg, "Off the drawing: far.") {
		t.Error("does not say that a mark is off the drawing")
	}
	// Uncertainties not stated.
	svg = plDrawn(t, plSolve(t, fix.Options{Near: &plHere}, fix.Bearing(plOrlesk, plBears(plOrlesk, plHere).Course, angle.Uncertainty{}), fix.Bearing(plTower, plBears(plTower, plHere).Course, angle.Uncertainty{})), "")
	plCheck(t, svg)
	if !strings.Contains(svg, "The accuracy is unknown: the uncertainty of the reading is not stated") {
		t.Error("does not say that uncertainties are not stated")
	}
	// A latitude and a longitude without marks, transferred.
	run := sailing.Run{Course: angle.MustParseTrue("090°T"), Distance: 3 * plMile}
	svg = plDrawn(t, plSolve(t, fix.Options{Near: &plHere}, angle.Must(fix.Latitude(plHere.Latitude, plMile)).Transferred(run, sailing.Circular(300)), angle.Must(fix.Longitude(plHere.Longitude, 30))), "Sun")
	plCheck(t, svg)
	if !strings.Contains(svg, "transferred") || !strings.Contains(svg, "±0.02 M") {
		t.Error("does not print the transfer")
	}
	// Compass bearings with the compass error solved for.
	h := angle.Must(course.FromTrue(angle.MustParseTrue("090°T"), course.With{Variation: variation.MustParse("5°00′W").WithUncertainty(fixtest.Sigma(0.25)), Deviation: deviation.MustParse("3°E").WithUncertainty(fixtest.Sigma(0.5)), At: &plHere}))
	lines = nil
	for _, m := range []fix.Mark{plOrlesk, plMinnow, plChapel, plTower} {
		lines = append(lines, fix.CompassBearing(m, h.BearingFromCompass(h.BearingFromTrue(plBears(m, plHere).Course.Add(-3*angle.Degree)).Compass()), fixtest.Sigma(0.3)))
	}
	svg = plDrawn(t, plSolve(t, fix.Options{Near: &plHere, CompassError: true}, lines...), "Compass")
	plCheck(t, svg)
	if !strings.Contains(svg, "compass error applied: 3.0°E") {
		t.Error("does not print the compass error", regexp.MustCompile(`compass error applied[^<]*`).FindString(svg))
	}
}

func TestHostileNamesAreText(t *testing.T) {
	for _, name := range []string{`</text><script>alert("1")</script> & ']]>`, "\x00\xff\u202e\ufffe", strings.Repeat("W", 5000), "two\nlines", strings.Repeat("羅針", 500), ""} {
		m := plOrlesk
		m.Name = name
		svg := plDrawn(t, plSolve(t, fix.Options{Near: &plHere}, plBearing(m, plHere, 0, 1), plRange(plMinnow, plHere, 100)), name)
		plCheck(t, svg)
		if len(svg) > 60_000 {
			t.Errorf("%d bytes", len(svg))
		}
	}
}

func TestZeroFixIsNotDrawn(t *testing.T) {
	if _, err := plot.Fix(fix.Fix{}, plot.Options{Title: "x"}); !errors.As(err, new(*fix.Error)) {
		t.Error(err)
	}
}

func TestUnknownUsageIsRefused(t *testing.T) {
	mark := fix.Mark{Name: "a", Position: fixtest.At(47, -19)}
	plan := plot.DangerPlan{Signs: "baltic", Bearings: []danger.ClearingBearing{{Mark: mark, Bound: danger.NotLessThan}}}
	if _, err := plot.Dangers(plan); !errors.As(err, new(*angle.ParseError)) {
		t.Errorf("dangers: %v", err)
	}
	var none angle.Uncertainty
	other := fix.Mark{Name: "b", Position: fixtest.At(46.9, -18.9)}
	f, err := fix.Solve([]fix.Line{fix.Bearing(mark, angle.TrueFrom(0), none), fix.Bearing(other, angle.TrueFrom(80*angle.Degree), none)}, fix.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := plot.Fix(f, plot.Options{Signs: "baltic"}); !errors.As(err, new(*angle.ParseError)) {
		t.Errorf("fix: %v", err)
	}
}

func TestFixSymbolNeedsAFix(t *testing.T) {
	prior := stream.Estimate{Position: plHere, Covariance: sailing.Circular(1000)}
	lines := []fix.Line{plBearing(plOrlesk, plHere, 0, 1), plBearing(plMinnow, plHere, 0, 1), plBearing(plChapel, plHere, 0, 1)}
	for n := 1; n <= 3; n++ {
		svg := plDrawn(t, plSolve(t, fix.Options{Prior: &prior}, lines[:n]...), "")
		if got := strings.Contains(svg, `class="fix"`); got != (n > 1) {
			t.Errorf("%d lines: a symbol of a fix: %v", n, got)
		}
	}
	svg := plDrawn(t, plFixes(t)["disagree"], "")
	if !strings.Contains(svg, "NO FIX") || strings.Contains(svg, `class="fix"`) || strings.Contains(svg, `class="dot"`) {
		t.Error("there is a symbol of a fix under NO FIX")
	}
}

// The position has no more decimals of a minute than the ellipse allows.
func TestPlotDigitsFollowTrust(t *testing.T) {
	for sigma, want := range map[float64]string{20: "47°05′N 019°05′W", 2: "47°05.0′N 019°05.0′W", 0.05: "47°05.00′N 019°05.00′W"} {
		f := plSolve(t, fix.Options{Near: &plHere}, plBearing(plOrlesk, plHere, 0, sigma), plBearing(plMinnow, plHere, 0, sigma), plBearing(plChapel, plHere, 0, sigma))
		if svg := plDrawn(t, f, ""); !strings.Contains(svg, want) {
			t.Errorf("±%v°: no %q", sigma, want)
		}
	}
}

func TestPlotShowsWarnings(t *testing.T) {
	at := time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC)
	near := fixtest.From(plHere, 250, 60*1852)
	lines := []fix.Line{
		plBearing(plOrlesk, plHere, 0, 1).WithTime(at), plBearing(plMinnow, plHere, 0, 1).WithTime(at.Add(time.Hour)),
		fix.Bearing(plChapel, plBears(plChapel, plHere).Course, angle.Uncertainty{}),
	}
	svg := plDrawn(t, plSolve(t, fix.Options{Near: &near, UsualUncertainties: true}, lines...), "Many doubts")
	plCheck(t, svg)
	for _, want := range []string{"from the reckoned position", "was observed 1 h 00 min before", "a usual one is assumed", "@page"} {
		if !strings.Contains(svg, want) {
			t.Errorf("no %q in %s", want, svg)
		}
	}
}
