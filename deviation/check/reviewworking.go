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

// reason says what led to the verdict.
func (r *Review) reason(exact bool, c change, m *reviewModel, slips [][]namedSlip) {
	tell := func(format string, args ...any) { r.Reasons = append(r.Reasons, fmt.Sprintf(format, args...)) }
	judged := r.judged()
	n := len(judged)
	checks, mean := "checks differ", " in the mean"
	if n == 1 {
		checks, mean = "check differs", ""
	}
	if n > 0 {
		tell("%d %s from the card by %s%s, ±%s: chance alone differs as much in %s", n, checks, r.Mean.Round(angle.Minute).EastWest(), mean, say.Minutes(r.MeanUncertainty), say.Percent(r.MeanProbability))
	}
	if n > 1 {
		tell("chi-square %.1f for %d checks: chance alone reaches that in %s", r.ChiSquare, n, say.Percent(r.ChiSquareProbability))
	}
	if r.Change != (deviation.Coefficients{}) {
		tell("%s", c.text(r.Since))
	}
	for _, d := range judged {
		if math.Abs(d.ratio()) > 3 {
			tell("on %v the check found %v where the card has %v", d.Check.Heading, d.Check.Deviation, d.Card)
		}
	}
	for _, d := range r.Differences {
		if !d.LeftOut {
			continue
		}
		may := perhaps(slips[0])
		slips = slips[1:]
		if w, doubtful := doubt(d.Check); doubtful {
			if strings.Contains(w.Message, "; perhaps ") {
				may = "" // the warning says it
			}
			tell("on %v the reading is doubtful: take it again; the card is not judged by it: %s%s", d.Check.Heading, w.Message, may)
			continue
		}
		tell("on %v the check found %v where the card has %v, and the other checks do not show it: take it again; the card is not judged by it%s", d.Check.Heading, d.Check.Deviation, d.Card, may)
	}
	if r.Verdict == CardInDoubt && len(c.apart) > 0 && slices.Contains(c.apart, len(m.rows)-1) {
		tell("the latest check is the one that stands apart: if a second one agrees with it, the compass has changed; swing it again then")
	}
	switch rest := len(m.rows) - len(c.apart); {
	case r.Verdict != CardInDoubt:
	case len(m.rows) == 1:
		tell("one check does not condemn a card: take it again, and check on other headings")
	case len(c.apart) > 0 && rest < fewJudged:
		tell("too few checks remain to be sure: want %d", fewJudged)
	}
	if exact {
		tell("the card states no uncertainty and was taken to be exact")
	}
}

// Working returns the review as it stands on the page: each check's difference from
// the card, the two tests, and the verdict with what else led to it.
func (r Review) Working() working.Sheet {
	sheet := working.Sheet{Title: "The card by the checks made since", Caution: working.Caution}
	for i, d := range r.Differences {
		trust := "uncertainty ±" + say.Minutes(d.Uncertainty)
		if d.LeftOut {
			trust = "left out: take it again"
		}
		sheet.Steps = append(sheet.Steps, working.EastWest(fmt.Sprintf("difference %d", i+1), "Check on "+d.Check.Heading.String(), d.Difference,
			fmt.Sprintf("check %v minus card %v; %s", d.Check.Deviation, d.Card, trust)))
	}
	n := len(r.judged())
	if n > 0 {
		sheet.Steps = append(sheet.Steps, working.EastWest("mean", "Mean difference", r.Mean.Round(angle.Minute), "weighted, uncertainty ±"+say.Minutes(r.MeanUncertainty)+"; chance alone differs as much in "+say.Percent(r.MeanProbability)))
		sheet.Steps[len(sheet.Steps)-1].Number = r.Mean.Degrees()
	}
	if n > 1 {
		sheet.Steps = append(sheet.Steps, working.Step{Key: "chi-square", What: "Chi-square", Value: fmt.Sprintf("%.1f", r.ChiSquare), Number: r.ChiSquare,
			How: fmt.Sprintf("for %d checks; chance alone reaches that in %s", n, say.Percent(r.ChiSquareProbability))})
	}
	reasons := r.Reasons[min(len(r.Reasons), len(sheet.Steps)-len(r.Differences)):] // the first are of the steps
	sheet.Steps = append(sheet.Steps, working.Step{Key: "verdict", What: "The card", Value: strings.ReplaceAll(string(r.Verdict), "-", " "), How: strings.Join(reasons, "; ")})
	return sheet
}
