package fix

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
)

// enoughRise limits how much less the sum of squares may rise, from the fix to an end of the
// ellipse, than straight lines would make it. Below this part the ellipse is too small: by
// simulation it then holds less than 93 % of the true positions, not 95 %.
const enoughRise = 0.65

// farReach is how far the search for a reach goes, in metres.
const farReach = 60 * 1852

// A reach is how far the true 95 % region extends if the ellipse is too small.
type reach struct {
	distance sailing.Distance
	toward   angle.True
	farther  bool // whether the region extends beyond farReach
}

// bent reports whether the 95 % ellipse is too small. Lines that are nearly parallel leave a
// region that widens and bends. The sum of squares then rises less toward an end of the longer
// axis than it would by straight lines. The reach is where the sum rises as much as
// it should at the edge of the ellipse.
func (f *Fix) bent() (reach, bool) {
	e, err := f.Ellipse(0.95)
	if err != nil || f.disagrees() || len(f.lines) == 0 || !(e.SemiMajor > 0) {
		return reach{}, false
	}
	at := earth.FrameAt(f.state.up)
	sin, cos := e.MajorAxis.FromNorth().SinCos()
	var h shared
	foreseen := -2 * math.Log1p(-e.Probability)
	rise := func(metres float64) float64 {
		end := earth.FrameAt(at.Moved(metres*cos, metres*sin))
		return (f.solver.normal(&end, &h).square - f.state.square) / foreseen
	}
	way := float64(e.SemiMajor)
	least := rise(way)
	if other := rise(-way); other < least {
		way, least = -way, other
	}
	if !(least < enoughRise) {
		return reach{}, false
	}
	r := reach{toward: e.MajorAxis}
	if way < 0 {
		r.toward = r.toward.Reciprocal()
	}
	inner, outer := way, way
	for rise(outer) < 1 {
		if math.Abs(outer) >= farReach {
			r.distance, r.farther = farReach, true
			return r, true
		}
		inner, outer = outer, outer*1.25
	}
	for range 20 {
		if middle := (inner + outer) / 2; rise(middle) < 1 {
			inner = middle
		} else {
			outer = middle
		}
	}
	r.distance = sailing.Distance(math.Abs(outer))
	return r, true
}
