package check

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/say"
)

// A Combined is the compass error from several checks on one heading, such as of two bodies, and
// a test of whether they agree.
type Combined struct {
	Check // the weighted mean

	// ChiSquare is the sum of the squared differences from the mean, each divided by its
	// uncertainty without that of the variation, which they share. Probability is the probability
	// by chance alone of so large a sum. Below 0.01, one of the checks is wrong.
	ChiSquare   float64 `json:"chiSquare"`
	Probability float64 `json:"probability"`
}

// sameHeadingChecks is how far apart headings may be to count as one: a
// helmsman's course.
const sameHeadingChecks = 5 * angle.Degree

// Combine takes the weighted mean of checks made on one heading, all within 5°, with the same
// variation. The compass error of each needs a stated uncertainty above zero. Otherwise Combine
// returns an [*Error].
func Combine(checks ...Check) (Combined, error) {
	if len(checks) < 2 {
		return Combined{}, &Error{"several objects", fmt.Errorf("%d checks; give two or more", len(checks))}
	}
	if err := onOneHeading(checks); err != nil {
		return Combined{}, err
	}
	first := checks[0]
	var steps working.Steps
	var weights, weighted, headings float64
	sigmas := make([]float64, len(checks))
	var warnings []working.Warning
	for i, c := range checks {
		warnings = append(warnings, c.Warnings...)
		if c.Variation.Angle() != first.Variation.Angle() {
			return Combined{}, &Error{"several objects", fmt.Errorf("variations %v and %v; give checks with the same variation", first.Variation, c.Variation)}
		}
		s, stated := c.Error.Uncertainty().Sigma()
		if !stated || s <= 0 {
			return Combined{}, &Error{cmp.Or(c.Against, "an object"), errors.New("the uncertainty of its compass error is unknown or zero; give that of the reading and the direction")}
		}
		sigmas[i] = float64(s)
		w := 1 / (sigmas[i] * sigmas[i])
		weights += w
		weighted += w * float64((c.Error.Angle() - first.Error.Angle()).NormalizedSigned())
		headings += w * float64(c.Heading.Sub(first.Heading))
		steps = append(steps, working.EastWest(fmt.Sprintf("error %d", i+1), "Error by "+cmp.Or(c.Against, "an object"), c.Error.Angle()).
			Because("check-error-uncertainty", "%v", c.Error.Uncertainty()))
	}
	mean := first.Error.Angle() + harmonic.Round(weighted/weights)
	u := harmonic.Sigma(1 / math.Sqrt(weights))
	out := Combined{}
	for i, c := range checks {
		r := float64((c.Error.Angle() - mean).NormalizedSigned()) / sigmas[i]
		out.ChiSquare += r * r
	}
	out.Probability = distuv.ChiSquared{K: float64(len(checks) - 1)}.Survival(out.ChiSquare)
	v := first.Variation
	d := deviation.East(mean - v.Angle()).WithUncertainty(u.Combined(v.Uncertainty()))
	heading := first.Heading.Add(harmonic.Round(headings / weights))
	out.Check = Check{
		Time: first.Time, Heading: heading, Against: "several objects",
		Error: angle.EastWestFrom(mean).WithUncertainty(u), Variation: v, Deviation: d,
		Steps: append(steps,
			working.EastWest("compass error", "Compass error", mean).Because("check-weighted-mean", "weighted mean"),
			variationStep(v), deviationStep(d, heading)),
	}
	out.Warnings = warnings
	if out.Probability < 0.01 {
		out.Warnings = append(out.Warnings, working.Warn(ChecksDisagree, "checks-disagree", "the objects do not agree (probability by chance alone %s): at least one of them is misread or misnamed", say.Percent(out.Probability)))
	}
	return out, nil
}

// onOneHeading returns an error if checks are not on one heading, within [sameHeadingChecks].
func onOneHeading(checks []Check) error {
	first := checks[0].Heading
	lowest, highest := first, first
	for _, c := range checks {
		off := c.Heading.Sub(first)
		if off < lowest.Sub(first) {
			lowest = c.Heading
		}
		if off > highest.Sub(first) {
			highest = c.Heading
		}
		if off.Abs() <= sameHeadingChecks && highest.Sub(lowest) <= sameHeadingChecks {
			continue
		}
		other := first
		if off.Abs() <= sameHeadingChecks { // too far from the one at the other end
			if other = lowest; c.Heading == lowest {
				other = highest
			}
		}
		return &Error{"several objects", fmt.Errorf("headings %v and %v; give checks on one heading, within 5°, because the deviation depends on it", other, c.Heading)}
	}
	return nil
}
