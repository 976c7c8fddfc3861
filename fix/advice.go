package fix

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
)

// An Advice is what one more bearing would do for a fix.
type Advice struct {
	Mark    Mark             `json:"mark"`    // to be observed
	Bearing angle.True       `json:"bearing"` // that the mark has from the fix
	Ellipse sailing.Ellipse  `json:"ellipse"` // of 95 %, with it
	Gain    sailing.Distance `json:"gain"`    // by which the longer axis shrinks
}

// Next returns what a bearing of each mark would do for the fix, the best mark first. The
// bearing has a standard uncertainty, and is taken to share no error with the lines; a
// bearing by the same compass does less. If the uncertainty of the lines or of the bearing
// is unknown, Next returns a [*Error].
func (f Fix) Next(marks []Mark, known angle.Uncertainty) ([]Advice, error) {
	sigma, stated := sigmaOf(known)
	if !f.known || !stated || sigma <= 0 {
		return nil, &Error{Kind: UncertaintyMissing, Reason: "uncertainties are not stated, so that nothing can be compared"}
	}
	now, err := f.Ellipse(0.95)
	if err != nil {
		return nil, err
	}
	at := earth.FrameAt(f.state.up)
	var out []Advice
	for _, m := range marks {
		s := at.Sight(place(m))
		if s.Across == 0 {
			continue // the vessel is there
		}
		north, east := at.Slope(s)
		c := updated(f.covariance, north/sigma, east/sigma)
		e, err := c.Ellipse(0.95)
		if err != nil {
			return nil, err
		}
		bearing, err := angle.Atan2(s.East, s.North)
		if err != nil {
			continue
		}
		out = append(out, Advice{m, angle.TrueFrom(bearing), e, now.SemiMajor - e.SemiMajor})
	}
	sortBy(out, func(a, b Advice) bool { return a.Ellipse.SemiMajor < b.Ellipse.SemiMajor })
	return out, nil
}

// updated is a covariance after one more line, of slopes in its standard
// uncertainties.
func updated(c sailing.Covariance, north, east float64) sailing.Covariance {
	cn, ce := c.North*north+c.Both*east, c.Both*north+c.East*east
	spread := 1 + north*cn + east*ce
	if math.IsInf(spread, 0) || math.IsNaN(spread) {
		return c
	}
	return sailing.Covariance{North: c.North - cn*cn/spread, East: c.East - ce*ce/spread, Both: c.Both - cn*ce/spread}
}
