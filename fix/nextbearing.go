package fix

import (
	"cmp"
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
)

// A NextBearing is what one more bearing would do for a fix.
type NextBearing struct {
	Mark    Mark            `json:"mark"`    // the mark to observe
	Bearing angle.True      `json:"bearing"` // of the mark from the fix
	Ellipse sailing.Ellipse `json:"ellipse"` // the 95 % ellipse with that bearing
}

// NextBearings returns what a bearing of each mark would do for the fix, the best mark first. The
// uncertainty is that of the bearing. NextBearings takes the bearing to share no error with the
// lines: one by the same compass gains less. If the uncertainty of the lines or of the bearing is
// unknown, it returns an [*Error].
func (f Fix) NextBearings(marks []Mark, uncertainty angle.Uncertainty) ([]NextBearing, error) {
	sigma, stated := sigmaOf(uncertainty)
	if !f.known || !stated || sigma <= 0 {
		return nil, &Error{Kind: UncertaintyMissing, Reason: "the next bearing cannot be chosen without standard uncertainties: state those of all lines and of the bearing, such as 1°"}
	}
	at := earth.FrameAt(f.state.up)
	var out []NextBearing
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
		out = append(out, NextBearing{m, angle.TrueFrom(bearing), e})
	}
	slices.SortStableFunc(out, func(a, b NextBearing) int { return cmp.Compare(a.Ellipse.SemiMajor, b.Ellipse.SemiMajor) })
	return out, nil
}

// updated returns a covariance after one more line. The slopes of the line are in its
// standard uncertainties.
func updated(c sailing.Covariance, north, east float64) sailing.Covariance {
	cn, ce := c.North*north+c.Both*east, c.Both*north+c.East*east
	spread := 1 + north*cn + east*ce
	if math.IsInf(spread, 0) || math.IsNaN(spread) {
		return c
	}
	return sailing.Covariance{North: c.North - cn*cn/spread, East: c.East - ce*ce/spread, Both: c.Both - cn*ce/spread}
}
