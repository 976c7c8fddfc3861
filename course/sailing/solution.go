package sailing

import (
	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Method is one of the sailings of the books.
type Method string

// Methods of a [Solution].
const (
	ParallelSailing    Method = "parallel"
	MidLatitudeSailing Method = "mid-latitude"
	MercatorSailing    Method = "mercator"
)

// A Solution is a sailing worked as in the books. A minute of latitude is a nautical mile on
// any figure of the earth. For the true distance on the ellipsoid use [Ellipsoid.Rhumb].
type Solution struct {
	Method Method         `json:"method"`
	From   angle.Position `json:"from"`
	To     angle.Position `json:"to"`
	Run
	DLat      angle.Angle `json:"dLat"`      // difference of latitude, north positive
	DLong     angle.Angle `json:"dLong"`     // difference of longitude, east positive
	Departure Distance    `json:"departure"` // east positive

	// Middle is the middle latitude, for mid-latitude sailing only.
	Middle angle.Latitude `json:"middle,omitzero"`

	// Parts is the difference of meridional parts on Figure, for Mercator sailing only. It is in
	// minutes of longitude, north positive.
	Parts  float64    `json:"partsMinutes,omitzero"`
	Figure *Ellipsoid `json:"figure,omitempty"` // nil for the other sailings

	direct bool // whether course and distance were given
}

// unsuitable is the error of a sailing between two positions that it does not serve.
func unsuitable(method Method, from, to angle.Position, reason string) error {
	name := string(method)
	if method == MercatorSailing {
		name = "Mercator"
	}
	return errorOf(Unsuitable, "%s sailing from %v to %v: %s", name, from, to, reason)
}

// Working returns the steps, in the order in which they are worked.
func (w Solution) Working() working.Sheet { return sheet(w.steps()) }

func (w Solution) steps() working.Steps {
	var rule working.Steps
	switch w.Method {
	case MidLatitudeSailing:
		how := "half the sum of the latitudes"
		rule = working.Steps{{Key: "middle latitude", What: "Middle latitude", Value: w.Middle.String(), Number: w.Middle.Degrees(), Unit: degreesNorth, How: how}}
	case MercatorSailing:
		rule = working.Steps{partsStep("d.m.p.", "Difference of meridional parts", w.Parts, "of both latitudes ("+w.Figure.String()+"), to minus from")}
	}
	if w.direct {
		return w.stepsDirect(rule)
	}
	steps := append(positionSteps(w.From, w.To), rule...)
	switch w.Method {
	case ParallelSailing:
		steps = append(steps, departureStep(w.Departure, "d.long × cos latitude"), courseStep(w.Course, "along the parallel"))
		return append(steps, distanceStep("distance", "Distance", w.Distance, "the departure"))
	case MidLatitudeSailing:
		steps = append(steps, departureStep(w.Departure, "d.long × cos middle latitude"), courseStep(w.Course, "tan course = departure / d.lat"))
	default:
		steps = append(steps, courseStep(w.Course, "tan course = d.long / difference of meridional parts"))
	}
	return append(steps, distanceStep("distance", "Distance", w.Distance, "d.lat / cos course"))
}

func (w Solution) stepsDirect(rule working.Steps) working.Steps {
	steps := working.Steps{
		{Key: "from", What: "From", Value: w.From.String(), How: "given"},
		courseStep(w.Course, ""),
		distanceStep("distance", "Distance", w.Distance, "given"),
		dlatStep(w.DLat, "distance × cos course"),
		{Key: "latitude", What: "Latitude of arrival", Value: w.To.Latitude.String(), Number: w.To.Latitude.Degrees(), Unit: degreesNorth, How: "starting latitude and d.lat"},
	}
	switch w.Method {
	case MercatorSailing:
		steps = append(steps, rule...)
		steps = append(steps, dlongStep(w.DLong, "difference of meridional parts × tan course"))
	case MidLatitudeSailing:
		steps = append(steps, departureStep(w.Departure, "distance × sin course"))
		steps = append(steps, rule...)
		steps = append(steps, dlongStep(w.DLong, "departure / cos middle latitude"))
	default:
		steps = append(steps, departureStep(w.Departure, "the distance"), dlongStep(w.DLong, "departure / cos latitude"))
	}
	return append(steps, working.Step{Key: "to", What: "Position of arrival", Value: w.To.String(), How: "starting longitude and d.long"})
}
