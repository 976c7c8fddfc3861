package swing

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/say"
)

// Working returns the fit as a sheet: the coefficients with their standard uncertainties, the
// scatter of the observations, and what was tested. The warnings name the observations that were
// left out and the sectors without an observation. They also say why the uncertainty is unknown, if
// it is; see [Swing.Fit]. For a nil Fit and the zero value the sheet is empty.
func (f *Fit) Working() working.Sheet {
	if f == nil || f.Curve.Order() == 0 {
		return working.Sheet{}
	}
	sheet := working.Sheet{
		Title:   fmt.Sprintf("Deviation curve by %v heading, fitted to %d observations", f.Curve.By(), len(f.Residuals)-len(f.LeftOut())),
		Caution: working.Caution,
	}
	for k := range f.Order + 1 {
		sine, cosine := f.Curve.Harmonic(k)
		switch k {
		case 0:
			sheet.Steps = append(sheet.Steps, f.coefficientStep(0, "A", "Coefficient A", cosine))
		case 1, 2:
			letters := "BCDE"[2*k-2 : 2*k]
			sheet.Steps = append(sheet.Steps,
				f.coefficientStep(2*k-1, letters[:1], "Coefficient "+letters[:1], sine),
				f.coefficientStep(2*k, letters[1:], "Coefficient "+letters[1:], cosine))
		default:
			sheet.Steps = append(sheet.Steps,
				f.coefficientStep(2*k-1, fmt.Sprintf("sin %dz", k), fmt.Sprintf("Of sin %dz", k), sine),
				f.coefficientStep(2*k, fmt.Sprintf("cos %dz", k), fmt.Sprintf("Of cos %dz", k), cosine))
		}
	}
	sheet.Steps = append(sheet.Steps, f.scatterSteps()...)
	sheet.Warnings = append(sheet.Warnings, f.doubts()...)
	for _, r := range f.LeftOut() {
		sheet.Warnings = append(sheet.Warnings, working.Warn(ObservationLeftOut, "observation-left-out", "the observation on %v, deviation %v, does not agree with the others and was left out", r.Heading, r.Deviation))
	}
	for _, s := range f.gaps {
		sheet.Warnings = append(sheet.Warnings, say.NotObserved(deviation.NotObserved, say.Heading(f.by, s.From), say.Heading(f.by, s.To)))
	}
	if f.covariance != nil && !f.stated {
		sheet.Warnings = append(sheet.Warnings, working.Warn(SharedNotStated, "shared-not-stated", "the curve and its card have no ±, because the uncertainty that all readings share is not stated: that of the variation or of the object's direction"))
	}
	return sheet
}

// coefficientStep is the step of a coefficient, with its uncertainty.
func (f *Fit) coefficientStep(i int, key, what string, value angle.Angle) working.Step {
	step := working.Step{Key: key, What: what, Value: say.Signed(value), Number: value.Degrees(), Unit: working.DegreesEast}
	v, known := f.Covariance(i, i)
	switch {
	case known:
		return step.Because("coefficient-uncertainty", "±%.2f°", math.Sqrt(v))
	case i == 0 && f.covariance != nil:
		return step.Because("coefficient-shared-not-stated", "uncertainty unknown: what all readings share is not stated")
	}
	return step.Because("coefficient-uncertainty-unknown", "uncertainty unknown")
}

// scatterSteps say how closely the curve follows the observations, and how its order was found.
func (f *Fit) scatterSteps() working.Steps {
	steps := working.Steps{
		working.Step{Key: "degrees of freedom", What: "Degrees of freedom", Value: fmt.Sprint(f.DegreesOfFreedom), Number: float64(f.DegreesOfFreedom)}.
			Because("observations-less-coefficients", "observations minus coefficients"),
	}
	if n := len(f.candidates); n > 0 {
		chosen := f.candidates[0]
		for _, c := range f.candidates {
			if c.order == f.Order {
				chosen = c
			}
		}
		step := working.Step{Key: "order", What: "Order", Value: fmt.Sprint(f.Order), Number: float64(f.Order)}
		if n == 1 {
			step = step.Because("order-lowest", "so few readings support no higher order")
		} else {
			step = step.Because("order-chosen", "chosen by AICc from orders %d to %d; its weight among them is %.2f", f.candidates[0].order, f.candidates[n-1].order, chosen.weight)
		}
		steps = append(steps, step)
	}
	if f.Exact != nil {
		steps = append(steps, working.Step{Key: "form", What: "Form", Value: "exact"}.
			Because("exact-form", "the deviations are large: the curve has the form of the exact coefficients, %v", *f.Exact))
	}
	if f.shown > 0 && f.shown < MaxOrder {
		steps = append(steps, working.Step{Key: "harmonics", What: "Harmonics", Value: fmt.Sprintf("to %d", f.shown), Number: float64(f.shown)}.
			Because("harmonics-not-shown", "these headings cannot show harmonics of order %d and above", f.shown+1))
	}
	if f.DegreesOfFreedom == 0 {
		return steps
	}
	steps = append(steps, working.Step{Key: "scatter", What: "Scatter", Value: fmt.Sprintf("%.2f°", f.StandardDeviation.Degrees()), Number: f.StandardDeviation.Degrees(), Unit: "degrees"}.
		Because("scatter-about-curve", "standard deviation of one observation about the curve"))
	steps = append(steps, f.serialStep())
	if f.ChiSquareProbability > 0 {
		steps = append(steps, working.Step{Key: "chi-square", What: "Chi-square", Value: fmt.Sprintf("%.1f", f.ChiSquare), Number: f.ChiSquare}.
			Because("chi-square-of-fit", "against the stated uncertainties; probability by chance alone %s", say.Percent(f.ChiSquareProbability)))
	}
	return steps
}

// serialStep is the step of the test of neighbouring readings. It also says how often the test
// finds a correlation.
func (f *Fit) serialStep() working.Step {
	step := working.Step{Key: "serial correlation", What: "Correlation of neighbours", Value: "not tested"}
	t := f.serial
	if t.power == 0 {
		return step.Because("serial-not-tested", "the readings are too few or too coarse")
	}
	step.Value, step.Number = "not found", t.correlation
	if t.found {
		step.Value = fmt.Sprintf("%.1f", t.correlation)
	}
	return step.Because("serial-power", "so many readings show a correlation of 0.7 in %.0f %% of swings", 100*t.power)
}

// doubts are what the tests of the fit warn of.
func (f *Fit) doubts() []working.Warning {
	var list []working.Warning
	if f.serial.found {
		list = append(list, working.Warn(SerialCorrelation, "serial-correlation", "readings on neighbouring headings have errors in common: the swing was made too fast, a mark drifted, or the curve has more harmonics than these headings can show; the uncertainties allow for it"))
	}
	if f.lacking > 0 && !f.serial.found {
		list = append(list, working.Warn(LackOfFit, "lack-of-fit", "the readings differ by %.1f° more than a curve of order %d can follow: let the fit choose the order, or look for a wrong reading", f.lacking/float64(angle.Degree), f.Order))
	}
	return list
}
