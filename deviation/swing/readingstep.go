package swing

import (
	"math"

	"lubberline.example/angle"
)

// A readingStep is a step to which a compass is read.
type readingStep struct {
	step  angle.Angle
	finer float64 // the next finer step that divides it, as a part of it
}

// readingSteps are the steps that are looked for, the coarsest first, in degrees and in points of
// the compass.
var readingSteps = []readingStep{
	{angle.Point, 0.5}, {10 * angle.Degree, 0.5}, {angle.Point / 2, 0.5}, {5 * angle.Degree, 0.2},
	{angle.Point / 4, 0.5}, {2 * angle.Degree, 0.5}, {angle.Degree, 0.5}, {angle.Degree / 2, 0.2},
	{angle.Degree / 4, 0.5}, {angle.Degree / 5, 0.5}, {angle.Degree / 10, 0.1},
}

// gridTolerance is the largest distance from the grid of a direction that was computed from one on
// the grid.
const gridTolerance = angle.Second

// chanceOfStep is the probability at which directions read to a finer step may look like ones read
// to a coarser step.
const chanceOfStep = 0.01

// stepOf finds the coarsest step to which directions were read. Directions on a grid
// differ by multiples of the step. If the grid must go through north, they are multiples themselves.
// One in ten may be off the grid, because of a blunder. It returns zero if there is no such step: the
// directions are on no grid, are all the same, or are too few.
func stepOf(directions []angle.Angle, throughNorth bool) angle.Angle {
	n := len(directions)
	for _, r := range readingSteps {
		bases := []angle.Angle{0}
		if !throughNorth {
			bases = directions[:min(3, n)]
		}
		for _, base := range bases {
			on, missed, first, several := 0, 0, angle.Angle(0), false
			for _, d := range directions {
				off := (d - base).NormalizedSigned()
				nearest := off.Round(r.step)
				if (off - nearest).Abs() > gridTolerance {
					if missed++; missed > n/10 {
						break
					}
					continue
				}
				if on == 0 {
					first = nearest
				}
				several = several || nearest != first
				on++
			}
			if several && missed <= n/10 && math.Pow(r.finer, float64(on-1)) < chanceOfStep {
				return r.step
			}
		}
	}
	return 0
}

// sameStep returns the step of directions that are all the same. It is the coarsest step of at most
// 5° that the direction is a multiple of. If they were read to a finer step, they would differ.
func sameStep(directions []angle.Angle) angle.Angle {
	for _, d := range directions {
		if d != directions[0] {
			return 0
		}
	}
	for _, r := range readingSteps {
		if r.step <= 5*angle.Degree && len(directions) >= five && (directions[0]-directions[0].Round(r.step)).Abs() <= gridTolerance {
			return r.step
		}
	}
	return 0
}

// readSteps returns the step of each observation: the stated one, or otherwise the step that the
// deviations show.
func readSteps(observations []Observation) []angle.Angle {
	steps := make([]angle.Angle, len(observations))
	unstated := make([]angle.Angle, 0, len(observations))
	for i, o := range observations {
		steps[i] = o.Step.Abs()
		if steps[i] == 0 {
			unstated = append(unstated, o.Deviation.Angle())
		}
	}
	if found := stepOf(unstated, false); found != 0 {
		for i := range steps {
			if steps[i] == 0 {
				steps[i] = found
			}
		}
	}
	return steps
}

// rounding returns the standard uncertainty of a reading to a step.
func rounding(step angle.Angle) float64 { return float64(step) / math.Sqrt(12) }

// stepAsRead returns the step of the directions read beside the headings: the coarsest step of the
// columns that a method uses. It is zero if there is no step.
func stepAsRead(readings []reading, columns []string) angle.Angle {
	var coarsest angle.Angle
	for _, column := range columns {
		if column == "time" || column == "deviation" {
			continue
		}
		list := make([]angle.Angle, len(readings))
		for i, r := range readings {
			switch column {
			case "bearing":
				list[i] = r.Bearing.FromNorth()
			case "true":
				list[i] = r.True.FromNorth()
			case "shore":
				list[i] = r.Shore.FromNorth()
			case "other":
				list[i] = r.Other.FromNorth()
			}
		}
		coarsest = max(coarsest, stepOf(list, true), sameStep(list))
	}
	return coarsest
}
