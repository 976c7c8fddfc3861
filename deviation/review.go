package deviation

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
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
	NotJudged  Verdict = "not judged"  // every check is doubtful
)

// A Difference is what one check found, less the card.
type Difference struct {
	Check       Check       `json:"check"`
	Card        Deviation   `json:"card"`        // what the card has on the check's heading
	Difference  angle.Angle `json:"difference"`  // the check less the card, east positive
	Uncertainty angle.Angle `json:"uncertainty"` // standard uncertainty of the difference

	// LeftOut says that the check is doubtful, and the card not judged by it.
	LeftOut bool `json:"leftOut,omitzero"`
}

// Ratio is the difference in standard uncertainties. It is not finite in a Difference
// made by hand without one.
func (d Difference) Ratio() float64 { return float64(d.Difference) / float64(d.Uncertainty) }

// A Review compares a log of checks with a card.
type Review struct {
	Verdict     Verdict      `json:"verdict"`
	Differences []Difference `json:"differences,omitempty"` // in the order of the checks

	// Mean is the mean difference, weighted, with its standard uncertainty, and
	// MeanProbability how often chance alone makes it so large either way. A mean
	// that differs from nought is what a shifted lubber line, a wrong variation or
	// newly fitted iron near by shows first.
	Mean            angle.Angle `json:"mean"`
	MeanUncertainty angle.Angle `json:"meanUncertainty"`
	MeanProbability float64     `json:"meanProbability"`

	// ChiSquare is the sum of the squares of the differences over their
	// uncertainties, what they share taken into account, with as many degrees of
	// freedom as there are checks that are not left out, and ChiSquareProbability how often chance alone
	// makes it so large.
	ChiSquare            float64 `json:"chiSquare"`
	ChiSquareProbability float64 `json:"chiSquareProbability"`

	// Reasons say in words what led to the verdict, and what was taken for
	// granted.
	Reasons []string `json:"reasons,omitempty"`
}

// A card that holds is called in doubt by one log in twenty and sent to be swung
// by one in a hundred: both tests together, each at half.
const (
	doubtLevel = 0.05
	swingLevel = 0.01
)

// ReviewChecks tells by the checks made since whether a card still holds. Two
// tests are made of the differences between the checks and the card: a chi-square
// test of all of them, and a normal test of their mean. Either, at half of one per
// cent, says to swing again; at half of five per cent, that the card is in doubt.
//
// What the checks share does not average out, and is counted so: the uncertainty of
// the variation, and the card's own. A card's errors are partly shared by all its
// headings and partly each heading's; of several checks its uncertainty is counted
// in full as the one and as the other, so that a good card is not called wrong.
//
// A check that carries a warning of [NotADeviation] or [SunElsewhere] is a doubtful
// reading, and says nothing of the card: it is left out of both tests, and a reason
// says so. Where none remains the card is [NotJudged], and the tests are nought.
//
// Every other check needs a stated uncertainty, above nought and not less than that of
// its variation; otherwise, and where the card has no answer on a heading, the
// error is a [*CheckError]. A card without a stated uncertainty is taken to be
// exact, and a reason says so.
func ReviewChecks(card Source, checks []Check) (Review, error) {
	if card == nil {
		return Review{}, &CheckError{"the card", errNoSource}
	}
	if len(checks) == 0 {
		return Review{}, &CheckError{"the card", errors.New("no checks: want at least one")}
	}
	var r Review
	var own, shared, cards []float64
	exact := false
	for i, c := range checks {
		if _, doubtful := doubt(c); doubtful {
			d, _, err := lessCard(card, c)
			if err != nil {
				return Review{}, &CheckError{fmt.Sprintf("the card, check %d on %v", i+1, c.Heading), err}
			}
			d.LeftOut = true
			r.Differences = append(r.Differences, d)
			continue
		}
		d, known, err := difference(card, c)
		var part float64
		if err == nil {
			part, err = ownPart(c.Deviation.Uncertainty(), c.Variation.Uncertainty())
		}
		if err != nil {
			return Review{}, &CheckError{fmt.Sprintf("the card, check %d on %v", i+1, c.Heading), err}
		}
		exact = exact || !known
		v, _ := c.Variation.Uncertainty().Sigma()
		k, _ := d.Card.Uncertainty().Sigma()
		own, shared, cards = append(own, part), append(shared, float64(v)), append(cards, float64(k))
		r.Differences = append(r.Differences, d)
	}
	if len(own) > 0 {
		if err := r.test(own, shared, cards); err != nil {
			return Review{}, &CheckError{"the card", err}
		}
	}
	r.judge(exact)
	return r, nil
}

// doubt returns the warning, if there is one, that makes a check a doubtful reading.
func doubt(c Check) (Warning, bool) {
	i := slices.IndexFunc(c.Warnings, func(w Warning) bool { return w.Kind == NotADeviation || w.Kind == SunElsewhere })
	if i < 0 {
		return Warning{}, false
	}
	return c.Warnings[i], true
}

// judged are the differences that the card is judged by.
func (r *Review) judged() []Difference {
	return slices.DeleteFunc(slices.Clone(r.Differences), func(d Difference) bool { return d.LeftOut })
}

// test makes the two tests, from the parts of each judged check's uncertainty.
func (r *Review) test(own, shared, cards []float64) error {
	n, judged := len(own), r.judged()
	covariance := mat.NewSymDense(n, nil)
	d, ones := mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	unit := float64(angle.Degree)
	for i := range n {
		d.SetVec(i, float64(judged[i].Difference)/unit)
		ones.SetVec(i, 1)
		for j := i; j < n; j++ {
			c := shared[i]*shared[j] + cards[i]*cards[j]
			if i == j {
				c += own[i] * own[i]
				if n > 1 {
					c += cards[i] * cards[i]
				}
			}
			covariance.SetSym(i, j, c/unit/unit)
		}
	}
	var cholesky mat.Cholesky
	var weighted, weights mat.VecDense
	if !cholesky.Factorize(covariance) || cholesky.SolveVecTo(&weighted, d) != nil || cholesky.SolveVecTo(&weights, ones) != nil {
		return errors.New("the uncertainties of the checks differ too widely to be weighed")
	}
	precision := mat.Dot(&weights, ones)
	mean, meanUncertainty := mat.Dot(&weights, d)/precision, 1/math.Sqrt(precision)
	r.Mean, r.MeanUncertainty = round(mean*unit), round(meanUncertainty*unit)
	r.MeanProbability = 2 * distuv.UnitNormal.Survival(math.Abs(mean)/meanUncertainty)
	r.ChiSquare = mat.Dot(&weighted, d)
	r.ChiSquareProbability = distuv.ChiSquared{K: float64(n)}.Survival(r.ChiSquare)
	return nil
}

// difference is what a check found less the card.
func difference(card Source, c Check) (d Difference, known bool, err error) {
	s, stated := c.Deviation.Uncertainty().Sigma()
	switch {
	case !stated:
		return Difference{}, false, errors.New("its uncertainty is not stated: want that of the reading, the direction and the variation")
	case s <= 0:
		return Difference{}, false, errors.New("its uncertainty is nought: want more")
	}
	return lessCard(card, c)
}

// lessCard is a check less the card, whatever is known of either.
func lessCard(card Source, c Check) (d Difference, known bool, err error) {
	on, err := card.OnCompass(c.Heading)
	if err != nil {
		return Difference{}, false, err
	}
	s, _ := c.Deviation.Uncertainty().Sigma()
	own, known := on.Uncertainty().Sigma()
	u := round(math.Hypot(float64(s), float64(own)))
	return Difference{Check: c, Card: on, Difference: (c.Deviation.Angle() - on.Angle()).NormalizedSigned(), Uncertainty: u}, known, nil
}

// ownPart is what the variation leaves of a deviation's uncertainty, in units; at
// least a tenth of it, for the reading. The variation can't be known less well than
// the deviation that was found with it.
func ownPart(total, variation angle.Uncertainty) (float64, error) {
	t, _ := total.Sigma()
	v, _ := variation.Sigma()
	if v > t+t/1000 {
		return 0, fmt.Errorf("the variation is known to %v and the deviation found with it to %v: want the latter to hold both", variation, total)
	}
	return math.Sqrt(max(float64(t)*float64(t)-float64(v)*float64(v), float64(t)*float64(t)/100)), nil
}

// judge gives the verdict and its reasons.
func (r *Review) judge(exact bool) {
	least := min(r.MeanProbability, r.ChiSquareProbability)
	judged := r.judged()
	n := len(judged)
	switch {
	case n == 0:
		r.Verdict = NotJudged
	case least < swingLevel/2:
		r.Verdict = SwingAgain
	case least < doubtLevel/2:
		r.Verdict = CardDoubts
	default:
		r.Verdict = CardHolds
	}
	say := func(format string, args ...any) { r.Reasons = append(r.Reasons, fmt.Sprintf(format, args...)) }
	checks, mean := "checks differ", " in the mean"
	if n == 1 {
		checks, mean = "check differs", ""
	}
	if n > 0 {
		say("%d %s from the card by %s%s, ±%s: chance alone differs as much in %s", n, checks, r.Mean.Round(angle.Minute).EastWest(), mean, string(r.MeanUncertainty.Round(angle.Minute).AppendMinutes(nil, 0)), percent(r.MeanProbability))
	}
	if n > 1 {
		say("chi-square %.1f for %d checks: chance alone reaches that in %s", r.ChiSquare, n, percent(r.ChiSquareProbability))
	}
	for _, d := range judged {
		if math.Abs(d.Ratio()) > 3 {
			say("on %v the check found %v where the card has %v", d.Check.Heading, d.Check.Deviation, d.Card)
		}
	}
	for _, d := range r.Differences {
		if w, doubtful := doubt(d.Check); doubtful {
			say("on %v the reading is doubtful: take it again; the card is not judged by it: %s", d.Check.Heading, w.Message)
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
	case p < 0.095:
		return fmt.Sprintf("%.1f cases in 100", 100*p)
	}
	return fmt.Sprintf("%.0f cases in 100", 100*p)
}
