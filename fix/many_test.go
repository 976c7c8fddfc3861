package fix_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/fix"
)

// svMany returns many bearings good to 1°, of which the middle one is misread.
func svMany(count int, degrees float64) []fix.Line {
	r := rand.New(rand.NewPCG(10, 2026))
	marks := svSpread(r, svVessel, count, 360/float64(count), 1)
	lines := make([]fix.Line, count)
	for i, m := range marks {
		off := r.NormFloat64()
		if i == count/2 {
			off += degrees
		}
		lines[i] = svBearing(svVessel, m, off, 1)
	}
	return lines
}

// TestManyLinesAreReviewedInTime examines 3,600 lines. The suspicions take 8 ms; leaving out
// each line in turn took seconds. The limit is wide, for busy machines.
func TestManyLinesAreReviewedInTime(t *testing.T) {
	for _, degrees := range []float64{0, 60, 180} {
		f, err := fix.Solve(svMany(3600, degrees), fix.Options{Near: &svVessel})
		began := time.Now()
		s, found := svNamed(f, err)
		f.Warnings()
		took := time.Since(began)
		t.Logf("off by %v°: probability %.3g, %v", degrees, f.Probability(), took)
		if found != (degrees != 0) || found && s.Line != 1800 {
			t.Errorf("off by %v°: %v, %+v", degrees, err, s)
		}
		if took > 2*time.Second {
			t.Errorf("off by %v°: it took %v", degrees, took)
		}
	}
}

// TestBestCutOfManyLines compares the best cut with that of all pairs of lines.
func TestBestCutOfManyLines(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 2026))
	for range 20 {
		lines := make([]fix.Line, 101+r.IntN(20))
		for i, m := range svSpread(r, svVessel, len(lines), 0.5+r.Float64(), 1) {
			lines[i] = svBearing(svVessel, m, r.NormFloat64(), 1)
		}
		f := svSolve(t, lines, fix.Options{Near: &svVessel})
		want := angle.Angle(-1)
		residuals := f.Residuals()
		for i, a := range residuals {
			for _, b := range residuals[:i] {
				off := a.Toward.Sub(b.Toward).Abs()
				want = max(want, min(off, 180*angle.Degree-off))
			}
		}
		if _, _, cut := f.BestCut(); cut != want {
			t.Errorf("%v, want %v", cut, want)
		}
	}
}

func BenchmarkSuspicionsOfMany(b *testing.B) {
	f, err := fix.Solve(svMany(3600, 60), fix.Options{Near: &svVessel})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if len(f.Suspicions()) == 0 {
			b.Fatal("nothing is suspected")
		}
	}
}
