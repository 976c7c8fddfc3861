package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/say"
)

// verdictReason is the kind of warning of a review's reasons.
const verdictReason working.WarningKind = "verdict-reason"

// reason says what led to the verdict: first the two tests, then the rest.
func (r *Review) reason(exact bool, c change, m *reviewModel, slips [][]namedSlip) {
	tell := func(w ...working.Warning) { r.Reasons = append(r.Reasons, w...) }
	n := r.judged()
	mean, uncertainty, chance := r.Mean.Round(angle.Minute).EastWestString(), say.Minutes(r.MeanUncertainty), say.Percent(r.MeanProbability)
	if n == 1 {
		tell(working.Warn(verdictReason, "review-one-check", "1 check differs from the card by %s, ±%s (probability by chance alone %s)", mean, uncertainty, chance))
	}
	if n > 1 {
		tell(working.Warn(verdictReason, "review-mean", "%d checks differ from the card by %s in the mean, ±%s (probability by chance alone %s)", n, mean, uncertainty, chance),
			working.Warn(verdictReason, "review-chi-square", "chi-square %.1f for %d checks (probability by chance alone %s)", r.ChiSquare, n, say.Percent(r.ChiSquareProbability)))
	}
	if r.Change != (deviation.Coefficients{}) {
		tell(c.reasons(r.Since)...)
	}
	for i := range r.Differences {
		if d := &r.Differences[i]; !d.LeftOut && math.Abs(d.ratio()) > 3 {
			tell(working.Warn(verdictReason, "review-differs", "on %v the check found %v and the card has %v", d.Check.Heading, d.Check.Deviation, d.Card))
		}
	}
	for i := range r.Differences {
		d := &r.Differences[i]
		if !d.LeftOut {
			continue
		}
		may := slips[0]
		slips = slips[1:]
		if doubts := doubts(d.Check); len(doubts) > 0 {
			tell(working.Warn(verdictReason, "review-doubtful", "on %v the reading is doubtful and was left out: take it again", d.Check.Heading))
			tell(ofKind(verdictReason, doubts)...)
			if len(doubts) > 1 {
				continue // the warnings have the slips
			}
		} else {
			tell(working.Warn(verdictReason, "review-left-out", "on %v the check found %v and the card has %v; the other checks do not show it, so it was left out: take it again", d.Check.Heading, d.Check.Deviation, d.Card))
		}
		tell(named(verdictReason, may)...)
	}
	if r.Verdict == CardInDoubt && slices.Contains(c.apart, len(m.rows)-1) {
		tell(working.Warn(verdictReason, "review-latest-apart", "the latest check does not agree with the others: if a second one agrees with it, the compass has changed; then swing it again"))
	}
	switch rest := len(m.rows) - len(c.apart); {
	case r.Verdict != CardInDoubt:
	case len(m.rows) == 1:
		tell(working.Warn(verdictReason, "review-take-again", "one check is not enough to reject a card: take it again, and check on other headings"))
	case len(c.apart) > 0 && rest < fewJudged:
		tell(working.Warn(verdictReason, "review-too-few", "too few checks remain to be sure: at least %d are needed", fewJudged))
	}
	if exact {
		tell(working.Warn(verdictReason, "review-card-exact", "the card states no uncertainty and was taken to be exact"))
	}
}

// doubts are the kinds of warnings that make a check doubtful.
func doubts(c Check) []working.Warning {
	return slices.DeleteFunc(slices.Clone(c.Warnings), func(w working.Warning) bool { return w.Kind != NotADeviation && w.Kind != SunElsewhere })
}

// ofKind returns the warnings with another kind.
func ofKind(kind working.WarningKind, list []working.Warning) []working.Warning {
	list = slices.Clone(list)
	for i := range list {
		list[i].Kind = kind
	}
	return list
}

// Working returns the review as a sheet: the difference of each check from the card, the two
// tests, and the verdict. Its warnings are the other reasons of the verdict.
func (r Review) Working() working.Sheet {
	sheet := working.Sheet{Title: "The card by the checks made since", Caution: working.Caution}
	for i, d := range r.Differences {
		step := working.EastWest(fmt.Sprintf("difference %d", i+1), "Check on "+d.Check.Heading.String(), d.Difference).
			Because("review-difference", "check %v minus card %v", d.Check.Deviation, d.Card)
		if d.LeftOut {
			step = step.Because("review-take-this-again", "left out: take it again")
		} else {
			step = step.Because("review-uncertainty", "uncertainty ±%s", say.Minutes(d.Uncertainty))
		}
		sheet.Steps = append(sheet.Steps, step)
	}
	tests := 0
	n := r.judged()
	if n > 0 {
		step := working.EastWest("mean", "Mean difference", r.Mean.Round(angle.Minute)).
			Because("review-weighted-mean", "weighted, uncertainty ±%s", say.Minutes(r.MeanUncertainty)).
			Because("review-chance", "probability by chance alone %s", say.Percent(r.MeanProbability))
		step.Number = r.Mean.Degrees()
		sheet.Steps = append(sheet.Steps, step)
		tests++
	}
	if n > 1 {
		sheet.Steps = append(sheet.Steps, working.Step{Key: "chi-square", What: "Chi-square", Value: fmt.Sprintf("%.1f", r.ChiSquare), Number: r.ChiSquare}.
			Because("review-of-checks", "for %d checks", n).
			Because("review-chance", "probability by chance alone %s", say.Percent(r.ChiSquareProbability)))
		tests++
	}
	sheet.Steps = append(sheet.Steps, working.Step{Key: "verdict", What: "The card", Value: strings.ReplaceAll(string(r.Verdict), "-", " ")})
	sheet.Warnings = slices.Clone(r.Reasons[min(len(r.Reasons), tests):])
	return sheet
}
