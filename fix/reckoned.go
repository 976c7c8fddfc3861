package fix

import (
	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
)

// usualReckoning is the standard uncertainty of a reckoned position of unstated uncertainty. A
// fix more than about 10 M from it then has a warning.
const usualReckoning = 3.3 * sailing.NauticalMile

// farReckoned is the square of a distance from the reckoned position, in standard uncertainties.
// One sound fix in 100 is farther off (chi-square, two degrees of freedom).
const farReckoned = 9.21

// reckoned returns the reckoned position, if the options have one.
func (f Fix) reckoned() (p angle.Position, ok bool) {
	switch o := f.solver.options; {
	case o.Prior != nil:
		return o.Prior.Position, true
	case o.Near != nil:
		return *o.Near, true
	}
	return p, false
}

// fromReckoned returns the direction and the distance of the fix from the reckoned position.
func (f Fix) fromReckoned() (working.Step, bool) {
	p, ok := f.reckoned()
	if !ok {
		return working.Step{}, false
	}
	run := sailing.WGS84().Rhumb(p, f.position)
	m := milesFor(max(run.Distance, sailing.Cable))
	s := working.Step{Key: "from reckoned", What: "From the reckoned position", Value: m.of(run.Distance), Number: run.Distance.NauticalMiles(), Unit: "nautical miles"}
	if !m.small(run.Distance) {
		s = s.Because("from-reckoned-toward", "toward %s", bearingText(run.Course))
	}
	return s, true
}

// isFarFromReckoned reports whether the fix lies farther from the reckoned position than
// the uncertainties of both allow.
func (f Fix) isFarFromReckoned() bool {
	o := f.solver.options
	// Lines without stated uncertainties have nominal ones.
	c := sailing.Covariance{North: f.state.inverse[0], East: f.state.inverse[2], Both: f.state.inverse[1]}
	var from earth.Frame
	switch {
	case o.Prior != nil:
		// The prior takes part and pulls the fix toward it, so only its own uncertainty counts.
		c, from = o.Prior.Covariance, f.solver.prior.frame
	case o.Near != nil:
		sigma := float64(usualReckoning)
		if o.NearUncertainty > 0 {
			sigma = float64(o.NearUncertainty)
		}
		c.North += sigma * sigma
		c.East += sigma * sigma
		from = earth.FrameAt(earth.Upright(*o.Near))
	default:
		return false
	}
	at := earth.FrameAt(f.state.up)
	d, n, e := at.Surface(from.At)
	n, e = d*n, d*e
	det := c.North*c.East - c.Both*c.Both
	if !(det > 0) {
		return false
	}
	return (n*n*c.East-2*n*e*c.Both+e*e*c.North)/det > farReckoned
}
