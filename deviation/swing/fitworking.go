package swing

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/say"
)

// Working returns the fit as it stands on the page: its coefficients with their
// standard uncertainties, how the observations scatter, and as warnings those that
// were left out, the sectors in which none lies, and that the curve's deviations have no
// uncertainty where the swing's common one was not stated, see [Swing.Fit]. Of a nil Fit and of the zero
// value it is empty.
func (f *Fit) Working() working.Sheet {
	if f == nil || f.Curve.Order() == 0 {
		return working.Sheet{}
	}
	sheet := working.Sheet{
		Title:   fmt.Sprintf("Deviation curve by %v heading, fitted to %d observations", f.Curve.By(), len(f.Residuals)-len(f.Rejected())),
		Caution: working.Caution,
	}
	add := func(i int, key, what string, value angle.Angle) {
		how := "its uncertainty is not known"
		if i == 0 && f.covariance != nil {
			how += ": what all readings share is not stated"
		}
		if v, known := f.Covariance(i, i); known {
			how = fmt.Sprintf("±%.2f°", math.Sqrt(v))
		}
		sheet.Steps = append(sheet.Steps, working.Step{Key: key, What: what, Value: say.Signed(value), Number: value.Degrees(), Unit: working.DegreesEast, How: how})
	}
	for k := range f.Order + 1 {
		sine, cosine := f.Curve.Harmonic(k)
		switch k {
		case 0:
			add(0, "A", "Coefficient A", cosine)
		case 1, 2:
			letters := "BCDE"[2*k-2 : 2*k]
			add(2*k-1, letters[:1], "Coefficient "+letters[:1], sine)
			add(2*k, letters[1:], "Coefficient "+letters[1:], cosine)
		default:
			add(2*k-1, fmt.Sprintf("sin %dz", k), fmt.Sprintf("Of sin %dz", k), sine)
			add(2*k, fmt.Sprintf("cos %dz", k), fmt.Sprintf("Of cos %dz", k), cosine)
		}
	}
	sheet.Steps = append(sheet.Steps, f.scatterSteps()...)
	sheet.Warnings = append(sheet.Warnings, f.doubts()...)
	for _, r := range f.Rejected() {
		sheet.Warnings = append(sheet.Warnings, say.Warn(ObservationLeftOut, "the observation on %v, %v, stands apart and was left out", r.Heading, r.Deviation))
	}
	for _, s := range f.gaps {
		sheet.Warnings = append(sheet.Warnings, say.Warn(deviation.NotObserved, "%s", say.NotObserved(say.Heading(f.by, s.From), say.Heading(f.by, s.To))))
	}
	if f.covariance != nil && !f.stated {
		sheet.Warnings = append(sheet.Warnings, say.Warn(SharedNotStated, "the curve and a card of it have no ±: what all readings share, such as the uncertainty of the variation or of the object's direction, is not stated"))
	}
	return sheet
}

// scatterSteps say how well the curve goes through the observations.
func (f *Fit) scatterSteps() working.Steps {
	steps := working.Steps{{
		Key: "degrees of freedom", What: "Degrees of freedom", Value: fmt.Sprint(f.DegreesOfFreedom), Number: float64(f.DegreesOfFreedom), How: "observations minus coefficients",
	}}
	if f.Exact != nil {
		steps = append(steps, working.Step{Key: "form", What: "Form", Value: "exact", How: fmt.Sprintf("the deviations are large: the curve is the one that forces make, %v", *f.Exact)})
	}
	if f.shown > 0 && f.shown < MaxOrder {
		steps = append(steps, working.Step{Key: "harmonics", What: "Harmonics", Value: fmt.Sprintf("to %d", f.shown), Number: float64(f.shown), How: fmt.Sprintf("these headings cannot show those of %d and more times the heading", f.shown+1)})
	}
	if f.DegreesOfFreedom == 0 {
		return steps
	}
	steps = append(steps, working.Step{
		Key: "scatter", What: "Scatter", Value: fmt.Sprintf("%.2f°", f.StandardDeviation.Degrees()), Number: f.StandardDeviation.Degrees(), Unit: "degrees", How: "standard deviation of one observation about the curve",
	})
	steps = append(steps, f.serialStep())
	if f.ChiSquareProbability > 0 {
		steps = append(steps, working.Step{
			Key: "chi-square", What: "Chi-square", Value: fmt.Sprintf("%.1f", f.ChiSquare), Number: f.ChiSquare, How: "against the stated uncertainties; chance alone reaches that in " + say.Percent(f.ChiSquareProbability),
		})
	}
	return steps
}

// serialStep says what the test of correlated errors found, and how often it finds them.
func (f *Fit) serialStep() working.Step {
	step := working.Step{Key: "serial correlation", What: "Neighbours err alike", Value: "not tested", How: "too few readings, or too coarse ones"}
	if t := f.Serial; t.Power > 0 {
		step.Value, step.Number = "not found", t.Correlation
		if t.Found {
			step.Value = fmt.Sprintf("by %.1f", t.Correlation)
		}
		step.How = fmt.Sprintf("so many readings show a correlation of 0.7 in %.0f %% of swings", 100*t.Power)
	}
	return step
}

// doubts are what the tests of the fit warn of.
func (f *Fit) doubts() []working.Warning {
	var list []working.Warning
	if f.Serial.Found {
		list = append(list, say.Warn(SerialCorrelation, "readings on neighbouring headings err alike: the swing was made too fast, a mark drifted, or the curve has more in it than these headings can show; the uncertainties allow for it"))
	}
	if f.lacking > 0 && !f.Serial.Found {
		list = append(list, say.Warn(LackOfFit, "the readings show %.1f° more than a curve of order %d can follow: leave the order to be chosen, or look for a reading that is wrong", f.lacking/float64(angle.Degree), f.Order))
	}
	return list
}
