package variation

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// rounding returns the standard uncertainty from the printed figures after some years:
//
//	r² = q² + m² (u′² + q′²) + τ² c²
//
// with the symbols of the package comment.
func (r *Rose) rounding(years float64, count YearCount) angle.Uncertainty {
	perYear, _ := r.Change.PerYear()
	m := math.Sqrt(count.meanSquare(years))
	ofChange := sigma(0)
	if u := r.Change.Uncertainty(); u != (angle.Uncertainty{}) {
		ofChange = u.Scaled(m)
	}
	return sigma(r.valueRounding()).Combined(
		sigma(scaled(perYear, count.ageError())), sigma(scaled(r.ChangeStep, ofStep)).Scaled(m), ofChange)
}

// ofStep × the step is half of the 95 % point of a figure rounded to that step. The error has
// the same probability everywhere within half a step.
const ofStep = 0.95 / 4

// valueRounding returns half of the 95 % point of the rounding of the printed variation.
//
// Charts print minutes to 1′, 5′ or 15′ without saying which. Suppose that all three are
// equally common. Then a figure of whole minutes that 15 divides is from a chart that prints
// to 15′ with the probability 1/(1 + 1/3 + 1/15). A figure that 5 divides is to 5′ with the
// probability 1/(1 + 1/5). The 95 % point of such a mixture is where the widest part alone
// leaves 5 % outside.
func (r *Rose) valueRounding() angle.Angle {
	size := r.Variation.Angle().Abs()
	switch {
	case r.Step.Abs() != angle.Minute || size%angle.Minute != 0:
		return scaled(r.Step, ofStep)
	case size%(15*angle.Minute) == 0:
		return ofFifteen
	case size%(5*angle.Minute) == 0:
		return ofFive
	}
	return scaled(r.Step, ofStep)
}

// The roundings of a figure of whole minutes that 15 divides, and of one that 5 divides.
var (
	ofFifteen = mixture(15*angle.Minute, 1/(1+1.0/3+1.0/15))
	ofFive    = mixture(5*angle.Minute, 1/(1+1.0/5))
)

// mixture returns half of the 95 % point of figures that are printed to a step with some
// probability, and otherwise to a smaller one.
func mixture(step angle.Angle, probability float64) angle.Angle {
	return scaled(step, (1-0.05/probability)/4)
}

// scaled returns the size of an angle multiplied by a factor, which is not negative. If the
// product is too large, it returns half a turn.
func scaled(a angle.Angle, factor float64) angle.Angle {
	b, err := a.Abs().Scale(factor)
	if err != nil {
		return angle.Turn / 2
	}
	return b
}

// appendTrust appends the steps of the uncertainty, or none if it is unknown.
func (p *Projection) appendTrust(steps working.Steps) working.Steps {
	if p.Variation.Uncertainty() == (angle.Uncertainty{}) {
		return steps
	}
	step := func(key, what string, u angle.Uncertainty) working.Step {
		s, _ := u.Sigma()
		return working.Step{Key: key, What: what, Value: brief(u), Number: s.Degrees(), Unit: "degrees"}
	}
	if drift, _ := p.Drift.Sigma(); drift != 0 {
		steps = append(steps, p.becauseDrift(step("rose drift", "Change error", p.Drift)))
	}
	source := step("rose source", "Source", p.Source)
	if p.Rose.Variation.Uncertainty() != (angle.Uncertainty{}) {
		source = source.Because("rose-uncertainty-stated", "as stated for the rose")
	} else {
		source = p.where.becauseForecast(source).Because("no-local-anomalies", "local anomalies are not included")
	}
	return append(steps, source,
		step("rose uncertainty", "Uncertainty", p.Variation.Uncertainty()).
			Because("drift-source-rounding", "standard: change error, source and rounding (%s) together", brief(p.Rounding)))
}

// becauseDrift adds to a step where the drift comes from.
func (p *Projection) becauseDrift(step working.Step) working.Step {
	years, one := yearsFigure(p.Years), yearsFigure(p.Years) == "1"
	switch h := p.where.nanotesla; {
	case p.where.by == "model" && one:
		return step.Because("drift-one-year-by-model", "the annual change is not steady over 1 year, where H is %.0f nT", h)
	case p.where.by == "model":
		return step.Because("drift-years-by-model", "the annual change is not steady over %s years, where H is %.0f nT", years, h)
	case p.where.by == "latitude" && one:
		return step.Because("drift-one-year-at-latitude", "the annual change is not steady over 1 year, at this latitude")
	case p.where.by == "latitude":
		return step.Because("drift-years-at-latitude", "the annual change is not steady over %s years, at this latitude", years)
	case one:
		return step.Because("drift-one-year", "the annual change is not steady over 1 year")
	}
	return step.Because("drift-years", "the annual change is not steady over %s years", years)
}

// becauseForecast adds to a step that its value is the error of the forecast on the chart.
func (i intensity) becauseForecast(step working.Step) working.Step {
	switch i.by {
	case "model":
		return step.Because("chart-forecast-by-model", "the error of the forecast on the chart, where H is %.0f nT", i.nanotesla)
	case "latitude":
		return step.Because("chart-forecast-at-latitude", "the error of the forecast on the chart, at this latitude")
	}
	return step.Because("chart-forecast", "the error of the forecast on the chart")
}

// brief prints an uncertainty to a whole minute, or to a tenth if it is below 3′.
func brief(u angle.Uncertainty) string {
	s, stated := u.Sigma()
	if stated && s >= 3*angle.Minute {
		u = sigma(s.Round(angle.Minute))
	}
	return u.String()
}
