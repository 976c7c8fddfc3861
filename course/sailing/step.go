package sailing

import (
	"fmt"

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

// positionSteps are the positions and the differences between them.
func positionSteps(from, to angle.Position) working.Steps {
	return working.Steps{
		{Key: "from", What: "From", Value: from.String(), How: "given"},
		{Key: "to", What: "To", Value: to.String(), How: "given"},
		dlatStep(to.Latitude.Angle()-from.Latitude.Angle(), "to minus from"),
		dlongStep(to.Longitude.Sub(from.Longitude), "to minus from, the shorter way round"),
	}
}

// dlatStep is a difference of latitude in minutes, which are miles.
func dlatStep(d angle.Angle, how string) working.Step {
	return working.Step{Key: "d.lat", What: "Difference of latitude", Value: printed.Named(d.Minutes(), "′", "N", "S"), Number: d.Minutes(), Unit: minutesNorth, How: how}
}

// dlongStep is a difference of longitude in minutes.
func dlongStep(d angle.Angle, how string) working.Step {
	return working.Step{Key: "d.long", What: "Difference of longitude", Value: printed.Named(d.Minutes(), "′", "E", "W"), Number: d.Minutes(), Unit: minutesEast, How: how}
}

// departureStep is a distance east or west.
func departureStep(d Distance, how string) working.Step {
	return working.Step{Key: "departure", What: "Departure", Value: printed.Named(d.NauticalMiles(), " M ", "E", "W"), Number: d.NauticalMiles(), Unit: "nautical miles, east positive", How: how}
}

func distanceStep(key, what string, d Distance, how string) working.Step {
	return working.Step{Key: key, What: what, Value: d.String(), Number: d.NauticalMiles(), Unit: nauticalMiles, How: how}
}

func partsStep(key, what string, parts float64, how string) working.Step {
	return working.Step{Key: key, What: what, Value: printed.Named(parts, " ", "N", "S"), Number: parts, Unit: "minutes of longitude, north positive", How: how}
}

// quadrantal is a course in the quadrantal form, as tables give it.
func quadrantal(c angle.True) string { return fmt.Sprintf("%.1q", c) }

// courseStep is a course, in three figures and quadrantal.
func courseStep(c angle.True, how string) working.Step {
	if how != "" {
		how += "; "
	}
	return working.Direction("course", "Course", c, how+quadrantal(c))
}
