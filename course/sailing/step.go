package sailing

import (
	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/internal/printed"
)

// Units of steps.
const (
	nauticalMiles = "nautical miles"
	degreesNorth  = "degrees, north positive"
	minutesNorth  = "minutes of arc, north positive"
	minutesEast   = "minutes of arc, east positive"
)

// sheet is the working of an answer that may be steered by.
func sheet(steps working.Steps) working.Sheet {
	return working.Sheet{Steps: steps, Caution: working.Caution}
}

// given returns the step with the reason "given".
func given(s working.Step) working.Step { return s.Because("given", "given") }

// positionSteps are the positions and the differences between them.
func positionSteps(from, to angle.Position) working.Steps {
	return working.Steps{
		given(working.Step{Key: "from", What: "From", Value: from.String()}),
		given(working.Step{Key: "to", What: "To", Value: to.String()}),
		dlatStep(to.Latitude.Angle()-from.Latitude.Angle()).Because("to-minus-from", "to minus from"),
		dlongStep(to.Longitude.Sub(from.Longitude)).Because("to-minus-from-shorter-way", "to minus from, the shorter way round"),
	}
}

// dlatStep is a difference of latitude in minutes, which are miles.
func dlatStep(d angle.Angle) working.Step {
	return working.Step{Key: "d.lat", What: "Difference of latitude", Value: printed.Named(d.Minutes(), "′", "N", "S"), Number: d.Minutes(), Unit: minutesNorth}
}

// dlongStep is a difference of longitude in minutes.
func dlongStep(d angle.Angle) working.Step {
	return working.Step{Key: "d.long", What: "Difference of longitude", Value: printed.Named(d.Minutes(), "′", "E", "W"), Number: d.Minutes(), Unit: minutesEast}
}

// departureStep is a distance east or west.
func departureStep(d Distance) working.Step {
	return working.Step{Key: "departure", What: "Departure", Value: printed.Named(d.NauticalMiles(), " M ", "E", "W"), Number: d.NauticalMiles(), Unit: "nautical miles, east positive"}
}

// distanceStep is a distance in nautical miles.
func distanceStep(key, what string, d Distance) working.Step {
	return working.Step{Key: key, What: what, Value: d.String(), Number: d.NauticalMiles(), Unit: nauticalMiles}
}

// partsStep is a difference of meridional parts.
func partsStep(key, what string, parts float64) working.Step {
	return working.Step{Key: key, What: what, Value: printed.Named(parts, " ", "N", "S"), Number: parts, Unit: "minutes of longitude, north positive"}
}

// courseStep is a course in three figures.
func courseStep(c angle.True) working.Step { return working.Direction("course", "Course", c) }

// quadrantal adds a course in the quadrantal form, as tables give it.
func quadrantal(s working.Step, c angle.True) working.Step {
	return s.Because("quadrantal-course", "%.1q", c)
}
