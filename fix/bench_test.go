package fix_test

import (
	"testing"

	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

// Results are kept here so that the compiler can't drop the work.
var (
	keptFix fix.Fix
	keptErr error
)

// svThree returns bearings of three marks, each somewhat wrong.
func svThree() []fix.Line {
	return []fix.Line{svBearing(svVessel, svHead, 0.4, 1), svBearing(svVessel, svLedge, -0.6, 1), svBearing(svVessel, svTower, 0.5, 1)}
}

// svFive returns four bearings and a distance off.
func svFive() []fix.Line {
	return append(svThree(), svBearing(svVessel, svChurch, 0.2, 1), svRange(svVessel, svHead, 100, 200))
}

func TestSolveAllocatesOnce(t *testing.T) {
	lines := svThree()
	near := fixtest.From(svVessel, 120, 1500)
	options := fix.Options{Near: &near}
	if n := testing.AllocsPerRun(100, func() { keptFix, keptErr = fix.Solve(lines, options) }); n > 1 {
		t.Errorf("%v allocations", n)
	}
	if keptErr != nil {
		t.Error(keptErr)
	}
}

// benchmarkSolve measures Solve for some lines.
func benchmarkSolve(b *testing.B, lines []fix.Line, options fix.Options) {
	b.ReportAllocs()
	for b.Loop() {
		keptFix, keptErr = fix.Solve(lines, options)
	}
	if keptErr != nil {
		b.Fatal(keptErr)
	}
}

func BenchmarkSolveThreeBearingsNear(b *testing.B) {
	near := fixtest.From(svVessel, 120, 1500)
	benchmarkSolve(b, svThree(), fix.Options{Near: &near})
}

func BenchmarkSolveThreeBearings(b *testing.B) { benchmarkSolve(b, svThree(), fix.Options{}) }

func BenchmarkSolveTwoBearingsNear(b *testing.B) {
	near := fixtest.From(svVessel, 120, 1500)
	benchmarkSolve(b, svThree()[:2], fix.Options{Near: &near})
}

// Without a start the solver begins where the two bearings cross.
func BenchmarkSolveTwoBearings(b *testing.B) { benchmarkSolve(b, svThree()[:2], fix.Options{}) }

func BenchmarkSolveFiveWithPrior(b *testing.B) {
	prior := stream.Estimate{Position: fixtest.From(svVessel, 120, 1500), Covariance: sailing.Circular(1000)}
	benchmarkSolve(b, svFive(), fix.Options{Prior: &prior})
}

func BenchmarkSuspicions(b *testing.B) {
	f, err := fix.Solve(svBlunder(10), fix.Options{Near: &svVessel})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if len(f.Suspicions()) == 0 {
			b.Fatal("nothing is suspected")
		}
	}
}
