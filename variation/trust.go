package variation

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// rounding is the standard uncertainty from the printed figures after some years:
//
//	r² = q² + m² (u′² + q′²) + τ² c²
//
// with the symbols of the package comment.
func (r Rose) rounding(years float64, count YearCount) angle.Uncertainty {
	perYear, _ := r.Change.PerYear()
	m := math.Sqrt(count.meanSquare(years))
	parts := []angle.Uncertainty{sigma(scaled(perYear, count.ageError())), sigma(scaled(r.ChangeStep, ofStep)).Scaled(m)}
	if u := r.Change.Uncertainty(); u != (angle.Uncertainty{}) {
		parts = append(parts, u.Scaled(m))
	}
	return sigma(r.valueRounding()).Combined(parts...)
}

// ofStep × the step is half of the 95 % point of a figure rounded to that step. The error has
// the same probability everywhere within half a step.
const ofStep = 0.95 / 4

// valueRounding is half of the 95 % point of the rounding of the printed variation.
//
// Charts print minutes to 1′, 5′ or 15′ without saying which. Suppose that all three are
// equally common. Then a figure of whole minutes that 15 divides is from a chart that prints
// to 15′ with the probability 1/(1 + 1/3 + 1/15). A figure that 5 divides is to 5′ with the
// probability 1/(1 + 1/5). The 95 % point of such a mixture is where the widest part alone
// leaves 5 % outside.
func (r Rose) valueRounding() angle.Angle {
	size := r.Variation.Angle().Abs()
	mixture := func(step angle.Angle, probability float64) angle.Angle {
		return scaled(step, (1-0.05/probability)/4)
	}
	switch {
	case r.Step.Abs() != angle.Minute || size%angle.Minute != 0:
		return scaled(r.Step, ofStep)
	case size%(15*angle.Minute) == 0:
		return mixture(15*angle.Minute, 1/(1+1.0/3+1.0/15))
	case size%(5*angle.Minute) == 0:
		return mixture(5*angle.Minute, 1/(1+1.0/5))
	}
	return scaled(r.Step, ofStep)
}

// scaled is the size of an angle times a factor that is not negative, or half a turn if the
// product is too large.
func scaled(a angle.Angle, factor float64) angle.Angle {
	b, err := a.Abs().Scale(factor)
	if err != nil {
		return angle.Turn / 2
	}
	return b
}

// trust returns the steps of the uncertainty, or nil if it is unknown.
func (p Projection) trust() working.Steps {
	if p.Variation.Uncertainty() == (angle.Uncertainty{}) {
		return nil
	}
	step := func(key, what string, u angle.Uncertainty, how string) working.Step {
		s, _ := u.Sigma()
		return working.Step{Key: key, What: what, Value: brief(u), Number: s.Degrees(), Unit: "degrees", How: how}
	}
	var steps working.Steps
	if drift, _ := p.Drift.Sigma(); drift != 0 {
		steps = append(steps, step("rose drift", "Drift", p.Drift, fmt.Sprintf("over %s the annual change is not steady%s", yearsText(math.Abs(p.Years)), p.where)))
	}
	how := "the chart prints a forecast" + p.where.String() + "; local anomalies are not in it"
	if p.Rose.Variation.Uncertainty() != (angle.Uncertainty{}) {
		how = "as stated for the rose"
	}
	return append(steps,
		step("rose source", "Source", p.Source, how),
		step("rose uncertainty", "Uncertainty", p.Variation.Uncertainty(), "standard: drift, source and rounding ("+brief(p.Rounding)+") together"))
}

// String says how the intensity is known, for the end of a sentence.
func (i intensity) String() string {
	switch i.by {
	case "model":
		return fmt.Sprintf(", where H is %.0f nT", i.nanotesla)
	case "latitude":
		return ", at this latitude"
	}
	return ""
}

// brief prints an uncertainty to a whole minute, or to a tenth if it is below 3′.
func brief(u angle.Uncertainty) string {
	s, stated := u.Sigma()
	if stated && s >= 3*angle.Minute {
		u = sigma(s.Round(angle.Minute))
	}
	return u.String()
}
