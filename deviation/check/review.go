package check

import (
	"errors"
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/ask"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/swing"
)

// A Verdict says whether a card still holds, by the checks made since.
type Verdict string

// The verdicts.
const (
	CardHolds   Verdict = "holds"       // the checks agree with it
	CardInDoubt Verdict = "in-doubt"    // they agree badly, or a check is to be taken again first
	SwingAgain  Verdict = "swing-again" // they do not agree with it
	NotJudged   Verdict = "not-judged"  // every check is doubtful
)

// A Difference is the deviation found by one check minus the deviation by the card.
type Difference struct {
	Check       Check               `json:"check"`
	Card        deviation.Deviation `json:"card"`        // the card's deviation on the check's heading
	Difference  angle.Angle         `json:"difference"`  // check minus card, east positive
	Uncertainty angle.Angle         `json:"uncertainty"` // standard uncertainty of the difference

	// LeftOut says that the check is doubtful, or does not agree with the others. The
	// card is not judged by it.
	LeftOut bool `json:"leftOut,omitzero"`

	// Slips are the mistakes that may explain a check that is left out, the likeliest first. The
	// list is empty if no known slip explains it.
	Slips []swing.Slip `json:"slips,omitempty"`
}

// ratio is the difference in standard uncertainties. It is not finite in a Difference
// made by hand without one.
func (d Difference) ratio() float64 { return float64(d.Difference) / float64(d.Uncertainty) }

// A Review compares a log of checks with a card.
type Review struct {
	Verdict     Verdict      `json:"verdict"`
	Differences []Difference `json:"differences,omitempty"` // in the order of the checks

	// Mean is the weighted mean difference of the checks that are not left out, with its standard
	// uncertainty. MeanProbability is the probability by chance alone of so large a mean, either
	// way. A shifted lubber line, a wrong variation or newly fitted iron shows in the mean first.
	Mean            angle.Angle `json:"mean"`
	MeanUncertainty angle.Angle `json:"meanUncertainty"`
	MeanProbability float64     `json:"meanProbability"`

	// ChiSquare is the sum of the squares of the differences divided by their uncertainties,
	// corrected for shared errors. Its degrees of freedom are the number of checks that are not
	// left out. ChiSquareProbability is the probability by chance alone of so large a sum.
	ChiSquare            float64 `json:"chiSquare"`
	ChiSquareProbability float64 `json:"chiSquareProbability"`

	// Change is the likely change of the compass if the card does not hold: A on all headings, B as
	// on east and west, C as on north and south. It is zero if no such change explains the checks,
	// or if there is only one check.
	Change deviation.Coefficients `json:"change,omitzero"`

	// Since is the time of the first check that shows the change. It is zero if all checks show it,
	// or if a check has no time.
	Since time.Time `json:"since,omitzero"`

	// Reasons say what led to the verdict, and what was assumed.
	Reasons []working.Warning `json:"reasons,omitempty"`
}

// One log in twenty calls a sound card in doubt, and one in a hundred sends it to be swung again.
// These are the levels of both tests together; each has half. The second level is a little higher
// than that, since checks that do not agree are taken again first.
const (
	doubtLevel = 0.05
	swingLevel = 0.011
)

// fewJudged is the number of checks that must remain for a verdict without those left out.
const fewJudged = 4

// ReviewCard judges whether a card still holds, by the checks made since. It makes two tests of
// the differences between checks and card: a chi-square test of all of them, and a normal test
// of their mean. Of a hundred good cards the two together send one to be swung again, and call
// five in doubt.
//
// Errors that checks share do not average out: the error of the variation, and part of the card's
// own. For several checks, the uncertainty of the card counts in full both as shared and as
// separate. So a good card is not condemned.
//
// One misread check does not condemn a card. A check that does not agree with the others is left
// out, and a reason says to take it again. It does not agree if chance makes such a difference in
// less than one log in a hundred, or if this check alone condemns the card. It is not left out if a
// change of the compass explains the log better. The change may be constant, as on east and west,
// or as on north and south; it may begin with any check. A check with the warning [NotADeviation]
// or [SunElsewhere] is left out too.
//
// The verdict is [CardInDoubt], not [SwingAgain], if the latest check does not agree, if fewer
// than four checks remain, or if there is only one. Take that check again first. If no check
// remains, the card is [NotJudged] and the tests are zero.
//
// Each check that is not doubtful needs a stated uncertainty, above zero and not less than
// that of its variation. If it has none, or if the card has no answer on its heading, the
// error is an [*Error]. A card without a stated uncertainty is taken as exact, and a reason
// says so.
func ReviewCard(card deviation.Source, checks []Check) (Review, error) {
	if ask.IsNil(card) {
		return Review{}, &Error{"the card", ask.ErrNoSource}
	}
	if len(checks) == 0 {
		return Review{}, &Error{"the card", errors.New("there are no checks; give at least one")}
	}
	r := Review{Differences: make([]Difference, 0, len(checks))}
	m := reviewModel{rows: make([]reviewRow, 0, len(checks))}
	exact := false
	for i, c := range checks {
		doubtful := len(doubts(c)) > 0
		part, err := 0.0, error(nil)
		if !doubtful {
			part, err = usable(c)
		}
		d, known := Difference{}, false
		if err == nil {
			d, known, err = lessCard(card, c)
		}
		if err != nil {
			return Review{}, &Error{fmt.Sprintf("the card, check %d on %v", i+1, c.Heading), err}
		}
		d.LeftOut = doubtful
		r.Differences = append(r.Differences, d)
		if !doubtful {
			exact = exact || !known
			m.add(i, d, part)
		}
	}
	verdict := NotJudged
	var found change
	if len(m.rows) > 0 {
		m.separate()
		found = m.explain()
		verdict = m.soften(m.judge(&r, &found), found)
		for _, k := range found.apart {
			r.Differences[m.rows[k].index].LeftOut = true
		}
	}
	r.Verdict = verdict
	if verdict == SwingAgain || verdict == CardInDoubt {
		r.Change, r.Since = found.coefficients(), m.since(found)
	}
	var slips [][]namedSlip // of each check that is left out
	for i := range r.Differences {
		if d := &r.Differences[i]; d.LeftOut {
			var found []namedSlip
			if len(slips) < mostExplained {
				found = d.slips(card)
			}
			slips = append(slips, found)
			d.Slips = kinds(found)
		}
	}
	r.reason(exact, found, &m, slips)
	return r, nil
}

// judged returns the number of differences that the card is judged by.
func (r *Review) judged() int {
	n := 0
	for i := range r.Differences {
		if !r.Differences[i].LeftOut {
			n++
		}
	}
	return n
}

// slips are what may have happened with a check that does not agree with the card.
func (d Difference) slips(card deviation.Source) []namedSlip {
	within := max(3*d.Uncertainty, 3*angle.Degree/2)
	return d.Check.slips(card, slipTolerance{reading: within, tens: min(within, 3*angle.Degree), sky: within})
}

// usable returns a check's own part of its uncertainty, in units, or why the card can't
// be judged by it.
func usable(c Check) (float64, error) {
	switch s, stated := c.Deviation.Uncertainty().Sigma(); {
	case !stated:
		return 0, errors.New("its uncertainty is unknown; give that of the reading, the direction and the variation together")
	case s <= 0:
		return 0, errors.New("its uncertainty is zero; give one above zero")
	}
	return ownPart(c.Deviation.Uncertainty(), c.Variation.Uncertainty())
}

// lessCard returns the difference between a check and the card.
func lessCard(card deviation.Source, c Check) (d Difference, known bool, err error) {
	on, err := card.OnCompass(c.Heading)
	if err != nil {
		return Difference{}, false, err
	}
	s, _ := c.Deviation.Uncertainty().Sigma()
	own, known := on.Uncertainty().Sigma()
	u := harmonic.Round(math.Hypot(float64(s), float64(own)))
	return Difference{Check: c, Card: on, Difference: (c.Deviation.Angle() - on.Angle()).NormalizedSigned(), Uncertainty: u}, known, nil
}

// ownPart is what the variation leaves of a deviation's uncertainty, in units; at
// least a tenth of it, for the reading. The variation can't be known less well than
// the deviation that was found with it.
func ownPart(total, variation angle.Uncertainty) (float64, error) {
	t, _ := total.Sigma()
	v, _ := variation.Sigma()
	if v > t+t/1000 {
		return 0, fmt.Errorf("the uncertainty of the variation, %v, is larger than that of the deviation, %v, which must include it", variation, total)
	}
	return math.Sqrt(max(float64(t)*float64(t)-float64(v)*float64(v), float64(t)*float64(t)/100)), nil
}
