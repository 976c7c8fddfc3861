package fix_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

// svFull reports whether simulations make all draws: set FULL=1.
func svFull() bool { return os.Getenv("FULL") == "1" }

// svNamed returns the first suspicion of a fix, or of the error of Solve.
func svNamed(f fix.Fix, err error) (first fix.Suspicion, found bool) {
	all := f.Suspicions()
	if e, ok := errors.AsType[*fix.Error](err); ok {
		all = e.Suspicions
	}
	if len(all) == 0 {
		return fix.Suspicion{}, false
	}
	return all[0], true
}

// svNearest returns the distance of a place from the nearest mark, in metres.
func svNearest(p angle.Position, marks []fix.Mark) float64 {
	nearest := math.Inf(1)
	for _, m := range marks {
		nearest = min(nearest, fixtest.Apart(p, m.Position))
	}
	return nearest
}

// TestReversedBearingIsNamed has three bearings, one of which was written down as its
// reciprocal. Once they gave a position 2,000 miles off (found by a review). The marks are
// invented.
func TestReversedBearingIsNamed(t *testing.T) {
	near := angle.MustParsePosition("46°01.0′N 020°00.0′W")
	marks := []fix.Mark{
		{Name: "north", Position: angle.MustParsePosition("46°05.2′N 019°57.0′W")},
		{Name: "east", Position: angle.MustParsePosition("46°02.0′N 019°54.5′W")},
		{Name: "south", Position: angle.MustParsePosition("45°58.6′N 019°56.2′W")},
	}
	for _, u := range []angle.Uncertainty{fixtest.Sigma(2), {}} {
		lines := []fix.Line{fix.Bearing(marks[0], fixtest.True(25), u), fix.Bearing(marks[1], fixtest.True(257), u), fix.Bearing(marks[2], fixtest.True(134), u)}
		for _, o := range []fix.Options{{Near: &near}, {}} {
			f, err := fix.Solve(lines, o)
			s, found := svNamed(f, err)
			if !found || s.Line != 1 || s.Slip != fix.ReciprocalTaken || fixtest.Apart(s.Position, near) > 2*1852 {
				t.Errorf("%v: %v, %v, %+v", u, f, err, s)
			}
			if err == nil && svNearest(f.Position(), marks) > 60*1852 {
				t.Errorf("%v: a fix at %v", u, f.Position())
			}
		}
		_, err := fix.Solve(lines[:2], fix.Options{Near: &near})
		if err == nil || !strings.Contains(err.Error(), "look again at east: reversed") {
			t.Errorf("two bearings: %v", err)
		}
	}
	prior := stream.Estimate{Position: near, Covariance: sailing.Circular(1000)}
	_, err := fix.Solve([]fix.Line{fix.Bearing(marks[1], fixtest.True(257), fixtest.Sigma(2))}, fix.Options{Prior: &prior})
	if err == nil || !strings.Contains(err.Error(), "look again at east: reversed") {
		t.Errorf("one bearing and an estimated position: %v", err)
	}
}

// svRounds returns how many rounds a simulation of reversed bearings makes.
func svRounds() int {
	if svFull() {
		return 3000
	}
	return 100
}

// TestReversedBearingIsNamedFirst draws bearings good to 2°, of marks from 2 to 12 miles off
// and at least 25° apart. It solves them with and without a reckoned position good to 2 miles
// each way. Measured over 3,000 rounds each (FULL=1): named first in 99.97 % and more of rounds
// of two, 99.2 % of three, and 99.0 % of four.
func TestReversedBearingIsNamedFirst(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 2026))
	for _, count := range []int{2, 3, 4} {
		for _, with := range []bool{true, false} {
			named, far, fixes := 0, 0, 0
			for range svRounds() {
				p := svSomewhere(r)
				marks, bearings := svRound(r, p, count)
				wrong := r.IntN(count)
				lines := make([]fix.Line, count)
				for i, m := range marks {
					degrees := bearings[i] + 2*r.NormFloat64()
					if i == wrong {
						degrees += 180
					}
					lines[i] = fix.Bearing(m, fixtest.True(degrees), fixtest.Sigma(2))
				}
				o := fix.Options{}
				if with {
					at := fixtest.From(fixtest.From(p, 0, 2*1852*r.NormFloat64()), 90, 2*1852*r.NormFloat64())
					o.Near = &at
				}
				f, err := fix.Solve(lines, o)
				if s, found := svNamed(f, err); found && s.Line == wrong && s.Slip == fix.ReciprocalTaken {
					named++
				}
				if err == nil {
					fixes++
					if svNearest(f.Position(), marks) > 60*1852 {
						far++
					}
				}
			}
			n := float64(svRounds())
			t.Logf("%d bearings, near %v: named first %.4f; %.4f solved, %d of them beyond 60 miles", count, with, float64(named)/n, float64(fixes)/n, far)
			if far > 0 {
				t.Errorf("%d bearings: %d fixes beyond 60 miles", count, far)
			}
			if float64(named) < 0.95*n {
				t.Errorf("%d bearings, near %v: named first %.4f", count, with, float64(named)/n)
			}
		}
	}
}

// svRound returns marks about a place, at least 25° apart, and their bearings.
func svRound(r *rand.Rand, p angle.Position, count int) (marks []fix.Mark, bearings []float64) {
	for len(marks) < count {
		m := fix.Mark{Name: string(rune('A' + len(marks))), Position: fixtest.From(p, 360*r.Float64(), 1852*(2+10*r.Float64()))}
		b := fixtest.Azimuth(p, m.Position)
		apart := true
		for _, other := range bearings {
			off := math.Abs(math.Remainder(b-other, 180)) // a cut, in either direction
			apart = apart && off >= 25
		}
		if apart {
			marks, bearings = append(marks, m), append(bearings, b)
		}
	}
	return marks, bearings
}

// Sound rounds of the same kind are solved, and no line is suspected.
func TestSoundBearingsAreSolved(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 2026))
	for _, count := range []int{2, 3, 4} {
		refused, accused := 0, 0
		for range svRounds() {
			p := svSomewhere(r)
			marks, bearings := svRound(r, p, count)
			lines := make([]fix.Line, count)
			for i, m := range marks {
				lines[i] = fix.Bearing(m, fixtest.True(bearings[i]+2*r.NormFloat64()), fixtest.Sigma(2))
			}
			f, err := fix.Solve(lines, fix.Options{Near: &p})
			if err != nil {
				refused++
			} else if len(f.Suspicions()) > 0 {
				accused++
			}
		}
		n := float64(svRounds())
		t.Logf("%d bearings: refused %.4f, accused %.4f", count, float64(refused)/n, float64(accused)/n)
		if float64(refused) > 0.01*n || float64(accused) > 0.02*n+2 {
			t.Errorf("%d bearings: refused %d, accused %d", count, refused, accused)
		}
	}
}

// One mark of four is mistaken for another mark in sight, at least a mile from it. Measured
// over 3,000 rounds (FULL=1): of 2,453 that disagree, named in 98.9 %, first in 98.7 %.
func TestNeighbouringMarkIsNamed(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 2026))
	named, first, disagree := 0, 0, 0
	for range svRounds() {
		p := svSomewhere(r)
		marks, bearings := svRound(r, p, 4)
		other := fix.Mark{Name: "other", Position: fixtest.From(marks[1].Position, 360*r.Float64(), 1852*(1+2*r.Float64()))}
		lines := make([]fix.Line, 4)
		for i, m := range marks {
			if i == 1 {
				m = other
			}
			lines[i] = fix.Bearing(m, fixtest.True(bearings[i]+r.NormFloat64()), fixtest.Sigma(1))
		}
		f, err := fix.Solve(lines, fix.Options{Near: &p, Marks: append(marks, other)})
		if err == nil && f.Probability() >= 0.01 {
			continue
		}
		disagree++
		all := f.Suspicions()
		if e, ok := errors.AsType[*fix.Error](err); ok {
			all = e.Suspicions
		}
		for i, s := range all {
			if s.Line == 1 && s.Slip == fix.NeighbourTaken && *s.Mark == marks[1] {
				named++
				if i == 0 {
					first++
				}
			}
		}
	}
	t.Logf("%d rounds disagree: named in %.4f, first in %.4f", disagree, float64(named)/float64(disagree), float64(first)/float64(disagree))
	if float64(named) < 0.95*float64(disagree) || float64(first) < 0.85*float64(disagree) {
		t.Errorf("of %d named %d, first %d", disagree, named, first)
	}
}
