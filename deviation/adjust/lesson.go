package adjust

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/say"
)

// A Lesson is what is known of a compass before it is corrected. It says which corrector acts on
// each coefficient and which way it stands. It is for learning and for following an adjuster's
// work, not for doing it.
type Lesson struct {
	Coefficients deviation.Coefficients `json:"coefficients"` // of a swing

	// Induced is the part of B from vertical soft iron, for the Flinders bar. [Separate] finds it
	// by swings at two places. If zero, all of B counts as permanent.
	Induced angle.Angle `json:"induced,omitzero"`

	Dip     angle.Angle `json:"dip,omitzero"`     // at the place, positive down; needed with Induced
	Heeling Heeling     `json:"heeling,omitzero"` // degrees for each degree of heel on north, zero if unknown
}

// Corrections returns the corrections that remove all coefficients except A, each with its whole
// amount. Change an amount for a partial correction. A coefficient of zero has no correction.
//
// If Induced is not zero and Dip is, it returns a [*FieldError]. If a coefficient is above 90°, or
// if the heeling coefficient is above 90 or not finite, it returns an [*angle.RangeError].
func (l Lesson) Corrections() ([]Correction, error) {
	var list []Correction
	add := func(corrector Corrector, value angle.Angle, c Correction) {
		if value == 0 {
			return
		}
		c.Corrector, c.Amount, c.Way = corrector, value.Abs(), ways[corrector][0]
		// A Flinders bar acts the other way where the dip is up.
		if (value < 0) != (corrector == FlindersBar && l.Dip < 0) {
			c.Way = ways[corrector][1]
		}
		list = append(list, c)
	}
	k := l.Coefficients
	for i, x := range []angle.Angle{k.B, k.C, k.D, k.E, l.Induced} {
		if x.Abs() > deviation.MaxDeviation {
			return nil, &angle.RangeError{What: []string{"B", "C", "D", "E", "induced B"}[i] + " of a lesson in degrees", Value: x.Degrees(), Accepted: "−90 to 90"}
		}
	}
	add(FlindersBar, l.Induced, Correction{Dip: l.Dip})
	if k.D != 0 || k.E != 0 {
		size, slew := quadrantal(k.D, k.E)
		add(Spheres, size, Correction{Slew: slew})
	}
	j, err := angle.Degrees(float64(l.Heeling))
	if err != nil {
		return nil, &angle.RangeError{What: "heeling coefficient of a lesson", Value: float64(l.Heeling), Accepted: "−90 to 90, in degrees for each degree of heel"}
	}
	add(HeelingMagnet, j, Correction{})
	add(ForeAndAftMagnets, k.B-l.Induced, Correction{})
	add(AthwartshipMagnets, k.C, Correction{})
	for _, c := range list {
		if err := c.check(); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// quadrantal returns the size of D and E together, negative for spheres ahead and astern, and the
// slew of the spheres.
func quadrantal(d, e angle.Angle) (size, slew angle.Angle) {
	size = angle.Angle(math.Round(math.Hypot(float64(d), float64(e)))) // at most 128°
	if d < 0 {
		d, e, size = -d, -e, -size
	}
	return size, angle.Must(angle.Atan2(float64(e), float64(d))) / 2
}

// Working returns the corrections as a sheet, with reasons. The keys of the steps are those of the
// correctors; their numbers are what each adds to its coefficient. It warns as [Analyse] does.
// Its errors are those of Corrections.
func (l Lesson) Working() (working.Sheet, error) {
	corrections, err := l.Corrections()
	if err != nil {
		return working.Sheet{}, err
	}
	s := working.Sheet{Title: "Which corrector acts, and which way", Warnings: Analyse(l.Coefficients).Warnings, Caution: deviation.AdjusterCaution}
	if l.Coefficients.A != 0 {
		s.Steps = append(s.Steps, working.Step{Key: "A", What: "Coefficient A " + say.Signed(l.Coefficients.A), Value: "no corrector"}.
			Because("lesson-no-corrector", "look at the lubber line, the variation and the direction compared with"))
	}
	for _, c := range corrections {
		step, err := l.step(c)
		if err != nil {
			return working.Sheet{}, err
		}
		s.Steps = append(s.Steps, step)
	}
	return s, nil
}

// step returns the step of one correction.
func (l Lesson) step(c Correction) (working.Step, error) {
	k, j, err := c.Adds()
	if err != nil {
		return working.Step{}, err
	}
	step := working.Step{Key: string(c.Corrector), Value: named(c.Way), Unit: working.DegreesEast}
	switch c.Corrector {
	case ForeAndAftMagnets:
		step.What, step.Number = "B "+say.Signed(l.Coefficients.B-l.Induced), k.B.Degrees()
		step = seen(step, "B", k.B < 0)
	case FlindersBar:
		step.What, step.Number = "B induced "+say.Signed(l.Induced), k.B.Degrees()
		step = seen(step, "B", k.B < 0)
	case AthwartshipMagnets:
		step.What, step.Number = "C "+say.Signed(l.Coefficients.C), k.C.Degrees()
		step = seen(step, "C", k.C < 0)
	case Spheres:
		step.What, step.Number = fmt.Sprintf("D %s, E %s", say.Signed(l.Coefficients.D), say.Signed(l.Coefficients.E)), k.D.Degrees()
		if l.Coefficients.D != 0 {
			step = seen(step, "D", l.Coefficients.D > 0)
		}
		if l.Coefficients.E != 0 {
			step = seen(step, "E", l.Coefficients.E > 0).Because("lesson-slew", "slew them %s; seldom needed where E is small", slewed(c.Slew))
		}
	case HeelingMagnet:
		step.What, step.Number, step.Unit = fmt.Sprintf("Heeling %s a degree", say.Signed(angle.Must(angle.Degrees(float64(l.Heeling))))), float64(j), "degrees for each degree of heel"
		step = seen(step, "J", j < 0)
	}
	return because(step, c.Way), nil
}

// slewed prints an angle and the way round.
func slewed(a angle.Angle) string {
	if a < 0 {
		return fmt.Sprintf("%.0f° counterclockwise", -a.Degrees())
	}
	return fmt.Sprintf("%.0f° clockwise", a.Degrees())
}
