package deviation

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle"
)

// A Verdict says whether a card still holds, by the checks made since.
type Verdict string

// The verdicts.
const (
	CardHolds  Verdict = "holds"       // the checks agree with it
	CardDoubts Verdict = "in doubt"    // they agree badly: check more often
	SwingAgain Verdict = "swing again" // they do not agree with it
)

// A Difference is what one check found, less the card.
type Difference struct {
	Check       Check
	Card        Deviation
	Difference  angle.Angle // east positive
	Uncertainty angle.Angle // standard uncertainty of the difference
}

// Ratio is the difference in standard uncertainties.
func (d Difference) Ratio() float64 { return float64(d.Difference) / float64(d.Uncertainty) }

// A Review compares a log of checks with a card.
type Review struct {
	Verdict     Verdict
	Differences []Difference // in the order of the checks

	// Mean is the mean difference, weighted, with its standard uncertainty, and
	// MeanProbability how often chance alone makes it so large either way. A mean
	// that differs from nought is what a shifted lubber line, a wrong variation or
	// newly fitted iron near by shows first.
	Mean            angle.Angle
	MeanUncertainty angle.Angle
	MeanProbability float64

	// ChiSquare is the sum of the squares of the differences over their
	// uncertainties, with as many degrees of freedom as there are checks, and
	// ChiSquareProbability how often chance alone makes it so large.
	ChiSquare            float64
	ChiSquareProbability float64

	// Reasons say in words what led to the verdict, and what was taken for
	// granted.
	Reasons []string
}

// A card that holds is called in doubt by one log in twenty and sent to be swung
// by one in a hundred: both tests together, each at half.
const (
	doubtLevel = 0.05
	swingLevel = 0.01
)

// ReviewChecks tells by the checks made since whether a card still holds. Two
// tests are made of the differences between the checks and the card: a chi-square
// test of all of them, and a normal test of their mean, in which the uncertainty
// of the variation, which the checks share, does not average out. Either, at half
// of one per cent, says to swing again; at half of five per cent, that the card is
// in doubt.
//
// Every check needs a stated uncertainty, above nought; otherwise, and where the
// card has no answer on a heading, the error is a [*CheckError]. A card without
// a stated uncertainty is taken to be exact, and a reason says so.
func ReviewChecks(card Source, checks []Check) (Review, error) {
	if len(checks) == 0 {
		return Review{}, &CheckError{"the card", errors.New("no checks: want at least one")}
	}
	var r Review
	var weights, weighted, shared float64
	exact := false
	for i, c := range checks {
		d, stated, err := difference(card, c)
		if err != nil {
			return Review{}, &CheckError{fmt.Sprintf("the card, check %d on %v", i+1, c.Heading), err}
		}
		exact = exact || !stated
		r.Differences = append(r.Differences, d)
		r.ChiSquare += d.Ratio() * d.Ratio()
		total := float64(d.Uncertainty)
		v, _ := c.Variation.Uncertainty().Sigma()
		shared = max(shared, float64(v))
		own := max(total*total-float64(v)*float64(v), 1e-6*total*total)
		weights += 1 / own
		weighted += float64(d.Difference) / own
	}
	mean := weighted / weights
	meanUncertainty := math.Sqrt(1/weights + shared*shared)
	r.Mean, r.MeanUncertainty = round(mean), round(meanUncertainty)
	r.MeanProbability = 2 * distuv.UnitNormal.Survival(math.Abs(mean)/meanUncertainty)
	r.ChiSquareProbability = distuv.ChiSquared{K: float64(len(checks))}.Survival(r.ChiSquare)
	r.judge(exact)
	return r, nil
}

// difference is what a check found less the card, and whether the card states
// how well it is known.
func difference(card Source, c Check) (Difference, bool, error) {
	s, stated := c.Deviation.Uncertainty().Sigma()
	if !stated || s <= 0 {
		return Difference{}, false, errors.New("its uncertainty is not stated: want that of the reading, the direction and the variation")
	}
	d, err := card.OnCompass(c.Heading)
	if err != nil {
		return Difference{}, false, err
	}
	own, known := d.Uncertainty().Sigma()
	u := round(math.Hypot(float64(s), float64(own)))
	return Difference{c, d, (c.Deviation.Angle() - d.Angle()).NormalizedSigned(), u}, known, nil
}

// judge gives the verdict and its reasons.
func (r *Review) judge(exact bool) {
	least := min(r.MeanProbability, r.ChiSquareProbability)
	switch {
	case least < swingLevel/2:
		r.Verdict = SwingAgain
	case least < doubtLevel/2:
		r.Verdict = CardDoubts
	default:
		r.Verdict = CardHolds
	}
	say := func(format string, args ...any) { r.Reasons = append(r.Reasons, fmt.Sprintf(format, args...)) }
	n := len(r.Differences)
	checks := "checks differ"
	if n == 1 {
		checks = "check differs"
	}
	say("%d %s from the card by %s in the mean, ±%s: chance does that in %s", n, checks, r.Mean.Round(angle.Minute).EastWest(), string(r.MeanUncertainty.Round(angle.Minute).AppendMinutes(nil, 0)), percent(r.MeanProbability))
	if n > 1 {
		say("chi-square %.1f for %d checks: chance reaches that in %s", r.ChiSquare, n, percent(r.ChiSquareProbability))
	}
	for _, d := range r.Differences {
		if math.Abs(d.Ratio()) > 3 {
			say("on %v the check found %v where the card has %v", d.Check.Heading, d.Check.Deviation, d.Card)
		}
	}
	if exact {
		say("the card states no uncertainty and was taken to be exact")
	}
}

// percent prints a probability as a navigator would say it.
func percent(p float64) string {
	switch {
	case p < 0.001:
		return "less than 1 case in 1000"
	case p < 0.1:
		return fmt.Sprintf("%.1f cases in 100", 100*p)
	}
	return fmt.Sprintf("%.0f cases in 100", 100*p)
}
