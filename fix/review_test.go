package fix_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
	"lubberline.example/variation"
)

// Three distances off marks in one line fit both sides of it.
func TestLinesThatFitTwoPlaces(t *testing.T) {
	vessel := fixtest.At(47+4.0/60, -18-52.0/60)
	var lines []fix.Line
	for _, minutes := range []float64{0, 5, 10} {
		lines = append(lines, svRange(vessel, fix.Mark{Position: fixtest.At(47+minutes/60, -19)}, 0, 50))
	}
	f := svSolve(t, lines, fix.Options{})
	if len(f.Alternatives()) != 1 || min(fixtest.Apart(f.Position(), vessel), fixtest.Apart(f.Alternatives()[0], vessel)) > 1 { // metres
		t.Errorf("%v and %v, vessel at %v", f.Position(), f.Alternatives(), vessel)
	}
	if f := svSolve(t, lines, fix.Options{Near: &vessel}); len(f.Alternatives()) != 0 || fixtest.Apart(f.Position(), vessel) > 1 {
		t.Errorf("chosen: %v and %v", f.Position(), f.Alternatives())
	}
}

func TestFixKeepsItsLines(t *testing.T) {
	for _, n := range []int{2, 3, 5, 9} {
		vessel := fixtest.At(47, -19)
		var lines []fix.Line
		for i, m := range svRing(vessel, 8000, 10, 50, 95, 140, 185, 230, 250, 300, 350)[:n] {
			lines = append(lines, svBearing(vessel, m, 0.3*float64(i%3-1), 1))
		}
		f := svSolve(t, lines, fix.Options{Near: &vessel})
		want := f.Lines()[0].Name()
		for i := range lines {
			lines[i] = fix.Line{}
		}
		if f.Hat(); f.Lines()[0].Name() != want || f.Lines()[0].Kind() != fix.KindBearing {
			t.Errorf("%d lines: the caller's lines are the fix's", n)
		}
	}
}

func TestCockedHatAppliesCompassError(t *testing.T) {
	vessel := fixtest.At(47, -19)
	var lines []fix.Line
	for _, m := range svRing(vessel, 9000, 0, 60, 130, 220) {
		lines = append(lines, svCompass(vessel, m, 3, 0, 1))
	}
	f := svSolve(t, lines, fix.Options{Near: &vessel, CompassError: true})
	if corners, longest := f.Hat(); len(corners) != 6 || longest > 0.1 { // metres, of lines without chance in them
		t.Errorf("compass error %v: %d corners, longest side %.1f m", f.CompassError(), len(corners), longest.Metres())
	}
}

// A line transferred along a rhumb line has the bearing of the place where the run began.
func TestTransferFollowsRhumbLine(t *testing.T) {
	for _, latitude := range []float64{-60, 0, 50, 70} {
		for _, miles := range []float64{6, 24, 60} {
			start := fixtest.At(latitude, -19)
			run := sailing.Run{Course: angle.MustParseTrue("090"), Distance: sailing.Distance(miles) * sailing.NauticalMile}
			end := angle.Must(sailing.WGS84().Follow(start, run))
			first := svRange(start, svRing(start, 9000, 0)[0], 0, 50).Transferred(run, sailing.Exactly())
			second := svBearing(end, svRing(end, 9000, 85)[0], 0, 1)
			f := svSolve(t, []fix.Line{first, second}, fix.Options{Near: &end})
			if off := fixtest.Apart(f.Position(), end); off > 1 { // metres
				t.Errorf("%v° north, %v miles: %.1f m off", latitude, miles, off)
			}
		}
	}
}

// Bearings that share the error of their conversion do not average it out, and the ellipse
// allows for that.
func TestSharedErrorTurnsEllipse(t *testing.T) {
	n := 4000
	if testing.Short() {
		n = 800
	}
	r := rand.New(rand.NewPCG(3, 7))
	vessel := fixtest.At(47, -19)
	for name, degrees := range map[string][]float64{"on one side": {0, 30, 60}, "all round": {0, 120, 240}} {
		marks := svRing(vessel, 9000, degrees...)
		inside := 0
		for range n {
			shared := svShared * r.NormFloat64()
			var lines []fix.Line
			for _, m := range marks {
				lines = append(lines, svConverted(vessel, m, shared+0.5*r.NormFloat64(), 0.5))
			}
			f := svSolve(t, lines, fix.Options{Near: &vessel})
			run := sailing.WGS84().Rhumb(f.Position(), vessel)
			s, c := run.Course.FromNorth().SinCos()
			north, east := float64(run.Distance)*c, float64(run.Distance)*s
			k := svKnown(f)
			if det := k.North*k.East - k.Both*k.Both; (north*north*k.East-2*north*east*k.Both+east*east*k.North)/det < 5.9915 { // chi-square of 2 at 95 %
				inside++
			}
		}
		if share := float64(inside) / float64(n); !testing.Short() && (share < 0.94 || share > 0.96) {
			t.Errorf("%s: %.1f %% lie in the ellipse", name, 100*share)
		}
	}
}

// svShared is the standard uncertainty of the conversion in svConverted, in degrees.
const svShared = 1.5

// svConverted returns a compass bearing whose conversion has the uncertainty svShared, wrong by
// some degrees.
func svConverted(from angle.Position, m fix.Mark, off, sigma float64) fix.Line {
	h := angle.Must(course.FromTrue(angle.MustParseTrue("270"), course.With{
		Variation: variation.West(5 * angle.Degree).WithUncertainty(fixtest.Sigma(svShared)),
		Deviation: deviation.None(),
	}))
	return fix.CompassBearing(m, h.BearingFromCompass(h.BearingFromTrue(fixtest.True(fixtest.Azimuth(from, m.Position)+off)).Compass()), fixtest.Sigma(sigma))
}

func TestEmptyLineIsRefused(t *testing.T) {
	vessel := fixtest.At(47, -19)
	m := svRing(vessel, 9000, 0, 80)
	good := svBearing(vessel, m[0], 0, 1)
	for name, bad := range map[string]fix.Line{
		"empty":                         {},
		"empty, with a name":            fix.Line{}.WithName("Minnow Ledge"),
		"more in common than there is":  good.Transferred(sailing.Run{}, sailing.Covariance{North: 1, East: 1, Both: 2}),
		"transferred by NaN":            good.Transferred(sailing.Run{Distance: sailing.Distance(math.NaN())}, sailing.Exactly()),
		"transferred, variance below 0": good.Transferred(sailing.Run{Distance: 1000}, sailing.Covariance{North: -1e9, East: -1e9}),
	} {
		_, err := fix.Solve([]fix.Line{bad, good}, fix.Options{Near: &vessel})
		if _, ok := errors.AsType[*fix.Error](err); !ok {
			t.Errorf("%s: %v", name, err)
		}
	}
	depth := angle.Must(fix.LineFromFunc("depth", "m", func(p angle.Position) float64 { return p.Latitude.Degrees() }, 47, 0.001))
	parallel := angle.Must(fix.Latitude(vessel.Latitude, 100))
	if _, err := fix.Solve([]fix.Line{depth, parallel, depth}, fix.Options{}); err == nil || err.Error() != "fix: the lines have no mark, so that there is no place to begin the search: set Options.Near to the reckoned position" {
		t.Error(err)
	}
}

func TestVerticalAngleLine(t *testing.T) {
	m := fix.Mark{Name: "light", Position: fixtest.At(47, -19)}
	a := angle.Must(angle.Minutes(30))
	l, err := fix.VerticalAngle(m, 42, a, 20, fixtest.Sigma(1.0/60))
	if err != nil {
		t.Fatal(err)
	}
	d, err := fix.DistanceByVerticalAngle(42, a, 20)
	if err != nil {
		t.Fatal(err)
	}
	// A minute of arc more is 155 m nearer: 4813 m by 1/30, and a little less.
	vessel := fixtest.From(m.Position, 180, float64(d))
	f := svSolve(t, []fix.Line{l, svBearing(vessel, m, 0, 0.01)}, fix.Options{Near: &vessel})
	if off := fixtest.Apart(f.Position(), vessel); off > 0.1 || math.Abs(math.Sqrt(svKnown(f).North)-160.4) > 1 { // metres
		t.Errorf("%v m off, known to %.1f m north", off, math.Sqrt(svKnown(f).North))
	}
	for _, bad := range []angle.Uncertainty{fixtest.Sigma(0)} {
		if _, err := fix.VerticalAngle(m, 42, a, 20, bad); err == nil {
			t.Error("an angle known exactly is accepted")
		}
	}
	if _, err := fix.VerticalAngle(m, 0, a, 20, fixtest.Sigma(1)); err == nil {
		t.Error("an object of no height is accepted")
	}
}

func TestTrackUndo(t *testing.T) {
	start := stream.Estimate{Position: fixtest.At(47, -19), Covariance: sailing.Oriented(angle.True{}, 1000, 1000)}
	k := fix.NewTrack(start)
	if k.Undo() {
		t.Error("there is something to take back")
	}
	if _, err := k.Run(stream.ReckonedRun{Speed: 6 * sailing.Knot, Lasts: 3600e9}); err != nil {
		t.Fatal(err)
	}
	if _, err := k.Observe(); err == nil {
		t.Error("nothing was observed, and is kept")
	}
	if !k.Undo() || k.Estimate() != start || len(k.Entries()) != 0 {
		t.Errorf("%v", k)
	}
}

// The squares of the ratios sum to chi-square, a compass error that was found allowed
// for.
func TestChiSquareIsSumOfResiduals(t *testing.T) {
	vessel := fixtest.At(47, -19)
	var lines []fix.Line
	for i, m := range svRing(vessel, 9000, 0, 60, 130, 220, 300) {
		lines = append(lines, svCompass(vessel, m, 3, 0.8*float64(i%3-1), 1))
	}
	f := svSolve(t, lines, fix.Options{Near: &vessel, CompassError: true})
	sum := 0.0
	for _, r := range f.Residuals() {
		sum += r.Ratio * r.Ratio
	}
	if math.Abs(sum-f.ChiSquare()) > 1e-6 || f.ChiSquare() < 0.1 { // the last step of the solution
		t.Errorf("residuals sum to %v, chi-square %v", sum, f.ChiSquare())
	}
}
