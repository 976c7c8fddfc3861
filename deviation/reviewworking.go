package deviation

import (
	"fmt"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// Working returns the review as it stands on the page: each check's difference from
// the card, the two tests, and the verdict with what else led to it.
func (r Review) Working() working.Sheet {
	sheet := working.Sheet{Title: "The card by the checks made since", Caution: working.Caution}
	for i, d := range r.Differences {
		known := "known to ±" + string(d.Uncertainty.Round(angle.Minute).AppendMinutes(nil, 0))
		if d.LeftOut {
			known = "doubtful, and left out"
		}
		sheet.Steps = append(sheet.Steps, working.EastWest(fmt.Sprintf("difference %d", i+1), "Check on "+d.Check.Heading.String(), d.Difference,
			fmt.Sprintf("the check %v less the card %v; %s", d.Check.Deviation, d.Card, known)))
	}
	n := len(r.judged())
	if n > 0 {
		sheet.Steps = append(sheet.Steps, working.EastWest("mean", "Mean difference", r.Mean.Round(angle.Minute), "weighted, known to ±"+string(r.MeanUncertainty.Round(angle.Minute).AppendMinutes(nil, 0))+"; chance alone differs as much in "+percent(r.MeanProbability)))
		sheet.Steps[len(sheet.Steps)-1].Number = r.Mean.Degrees()
	}
	if n > 1 {
		sheet.Steps = append(sheet.Steps, working.Step{Key: "chi-square", What: "Chi-square", Value: fmt.Sprintf("%.1f", r.ChiSquare), Number: r.ChiSquare,
			How: fmt.Sprintf("for %d checks; chance alone reaches that in %s", n, percent(r.ChiSquareProbability))})
	}
	reasons := r.Reasons[min(len(r.Reasons), len(sheet.Steps)-len(r.Differences)):] // the first are of the steps
	sheet.Steps = append(sheet.Steps, working.Step{Key: "verdict", What: "The card", Value: string(r.Verdict), How: strings.Join(reasons, "; ")})
	return sheet
}
