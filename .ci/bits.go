//go:build ignore

// Command bits works the same figures on any machine and compares them with those worked
// on another: with and without fused multiply-adds, in 32 bits and in 64. Run it from the
// top of the repository:
//
//	GOAMD64=v1 go run .ci/bits.go > /tmp/plain
//	GOAMD64=v3 go run .ci/bits.go -against /tmp/plain
//
// It exits with 1 where two figures differ by more than is allowed of their kind.
package main

import (
	"bufio"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/deviation/sky"
	"lubberline.example/deviation/swing"
	"lubberline.example/fix"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

// allowed is how far the figures of a kind may be apart, in the unit of the figure.
// A unit of angle is a billionth of a second; a declination is unsure near a dip pole, and
// the Sun by what its many turns leave of a float64.
var allowed = []struct {
	kind string
	most float64
	unit string
}{
	{"rose", 0, "units of angle"},
	{"conversion", 0, "units of angle"},
	{"table, smooth", 1, "units of angle"},
	{"field", 1e-9, "nT"},
	{"rates", 1e-11, "nT a year"},
	{"declination", 100, "units of angle"},
	{"rhumb line", 2e-8, "m"},
	{"position", 1, "units of angle"},
	{"sun", 1000, "units of angle"},
	{"to steer", 1, "units of angle"},
	{"deviation fit", 1, "units of angle"},
	{"fix", 30, "units of angle"}, // a micrometre: steps end at ten
}

func main() {
	against := flag.String("against", "", "a `file` of figures to compare with")
	flag.Parse()
	figures := work()
	if *against == "" {
		out := bufio.NewWriter(os.Stdout)
		defer out.Flush()
		for _, f := range figures {
			fmt.Fprintf(out, "%s\t%x\n", f.kind, f.value)
		}
		return
	}
	others, err := read(*against)
	if err != nil || len(others) != len(figures) {
		fmt.Fprintln(os.Stderr, "bits:", *against, "has", len(others), "figures, not", len(figures), err)
		os.Exit(2)
	}
	if !compare(figures, others) {
		os.Exit(1)
	}
}

// A figure is one answer.
type figure struct {
	kind  string
	value float64
}

// read reads the figures of another run.
func read(name string) ([]figure, error) {
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	var out []figure
	for line := range strings.Lines(string(data)) {
		kind, value, _ := strings.Cut(strings.TrimSpace(line), "\t")
		x, err := strconv.ParseFloat(value, 64)
		if err != nil {
			return nil, err
		}
		out = append(out, figure{kind, x})
	}
	return out, nil
}

// compare prints the greatest difference of each kind, and reports whether all are allowed.
func compare(figures, others []figure) bool {
	worst, differ, count := map[string]float64{}, map[string]int{}, map[string]int{}
	for i, f := range figures {
		off := math.Abs(f.value - others[i].value)
		if f.kind != others[i].kind || math.IsNaN(f.value) {
			off = math.Inf(1)
		}
		if off > 180*float64(angle.Degree) && strings.HasPrefix(allowedUnit(f.kind), "units") {
			off = math.Abs(off - float64(angle.Turn))
		}
		worst[f.kind] = max(worst[f.kind], off)
		count[f.kind]++
		if off != 0 {
			differ[f.kind]++
		}
	}
	good := true
	for _, a := range allowed {
		fmt.Printf("%-14s %5d of %5d differ, by %.2g %s at most; allowed %.2g\n", a.kind, differ[a.kind], count[a.kind], worst[a.kind], a.unit, a.most)
		good = good && worst[a.kind] <= a.most && count[a.kind] > 0
	}
	return good
}

func allowedUnit(kind string) string {
	for _, a := range allowed {
		if a.kind == kind {
			return a.unit
		}
	}
	return ""
}

// work works all figures, from the same invented inputs on every machine.
func work() []figure {
	r := rand.New(rand.NewPCG(1, 2))
	var out []figure
	add := func(kind string, values ...float64) {
		for _, v := range values {
			out = append(out, figure{kind, v})
		}
	}
	anyAngle := func() angle.Angle { return angle.Angle(r.Int64N(int64(angle.Turn))) }
	anyPlace := func() angle.Position {
		return angle.Position{
			Latitude:  angle.Must(angle.LatitudeFrom(angle.Angle(r.Int64N(int64(angle.Turn/2))) - angle.Turn/4)),
			Longitude: angle.LongitudeFrom(anyAngle()),
		}
	}
	workCompass(r, add, anyAngle)
	evaluator := angle.Must(wmm.WMM2025().InYear(2027.25))
	for range 1000 {
		from, to := anyPlace(), anyPlace()
		field, rates, err := evaluator.FieldAndRates(from, 0)
		must(err)
		add("field", field.X, field.Y, field.Z)
		add("rates", rates.X, rates.Y, rates.Z)
		add("declination", float64(angle.Must(field.D())))
		run := sailing.WGS84().Rhumb(from, to)
		add("rhumb line", float64(run.Distance))
		near := angle.Must(sailing.WGS84().Follow(from, sailing.Run{Course: run.Course, Distance: min(run.Distance, 100*sailing.NauticalMile)}))
		add("position", float64(near.Latitude.Angle()), float64(near.Longitude.Angle()))
		when := time.Date(1950+r.IntN(150), time.January, 1, 0, 0, r.IntN(365*86400), r.IntN(1e9), time.UTC)
		s := angle.Must(sky.Sun(when))
		add("sun", float64(s.Declination), float64(s.GreenwichHourAngle))
		steering := angle.Must(stream.CourseToSteer(angle.TrueFrom(anyAngle()), 6*sailing.Knot, stream.Stream{Set: angle.TrueFrom(anyAngle()), Rate: sailing.Speed(r.Float64())}))
		add("to steer", float64(steering.Water.Course.FromNorth()))
	}
	return out
}

// workCompass works roses, tables, conversions, fits of deviation, and fixes.
func workCompass(r *rand.Rand, add func(string, ...float64), anyAngle func() angle.Angle) {
	rose := variation.MustParseLegend("7°20′W 2015 (12′E)")
	var rows []deviation.Row[angle.Compass]
	var observations []swing.Observation
	for i := range 24 {
		heading := angle.CompassFrom(angle.Angle(i) * 15 * angle.Degree)
		d := deviation.East(angle.Must(angle.Degrees(4*heading.FromNorth().Sin() - 2*heading.FromNorth().Cos() + r.Float64() - 0.5)))
		rows = append(rows, deviation.Row[angle.Compass]{Heading: heading, Deviation: d})
		observations = append(observations, swing.Observation{Heading: heading, Deviation: d})
	}
	table := angle.Must(deviation.NewTable(rows))
	smooth := table.Smooth()
	fit := angle.Must(swing.NewFit(observations, swing.FitOptions{Order: 2}))
	for year := 1990; year < 2050; year++ {
		add("rose", float64(angle.Must(rose.InYear(year)).Variation.Angle()))
	}
	day := time.Date(2026, time.May, 14, 12, 0, 0, 0, time.UTC)
	for range 1000 {
		h := angle.Must(course.FromTrue(angle.TrueFrom(anyAngle()), course.With{Variation: rose, Deviation: table, On: day}))
		add("conversion", float64(h.Magnetic().FromNorth()), float64(h.Compass().FromNorth()))
		c := angle.CompassFrom(anyAngle())
		add("table, smooth", float64(angle.Must(smooth.OnCompass(c)).Angle()))
		add("deviation fit", float64(angle.Must(fit.Curve.OnCompass(c)).Angle()))
	}
	here := angle.MustParsePosition("47°00.0′N 019°10.0′W")
	for range 300 {
		var lines []fix.Line
		for i := range 3 {
			far := sailing.Run{Course: angle.TrueFrom(angle.Angle(i)*70*angle.Degree + angle.Angle(r.Int64N(int64(20*angle.Degree)))), Distance: sailing.Distance(1000 + 9000*r.Float64())}
			mark := fix.Mark{Name: strconv.Itoa(i), Position: angle.Must(sailing.WGS84().Follow(here, far))}
			lines = append(lines, fix.Bearing(mark, far.Course, angle.Must(angle.StandardUncertainty(angle.Degree))))
		}
		f := angle.Must(fix.Solve(lines, fix.Options{}))
		add("fix", float64(f.Position().Latitude.Angle()), float64(f.Position().Longitude.Angle()))
	}
}

func must(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, "bits:", err)
		os.Exit(2)
	}
}
