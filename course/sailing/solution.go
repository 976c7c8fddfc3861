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

// A Solution is a sailing worked as in the books. Its embedded Triangle holds the course and
// distance, the difference of latitude and the departure. A minute of latitude is a nautical mile on
// any figure of the earth. For the true distance on the ellipsoid use [Ellipsoid.Rhumb].
type Solution struct {
	Method Method         `json:"method"`
	From   angle.Position `json:"from"`
	To     angle.Position `json:"to"`
	Triangle
	DLong angle.Angle `json:"dLong"` // difference of longitude, east positive

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

// steps returns the steps of the working.
func (w Solution) steps() working.Steps {
	var rule working.Steps
	switch w.Method {
	case MidLatitudeSailing:
		middle := working.Step{Key: "middle latitude", What: "Middle latitude", Value: w.Middle.String(), Number: w.Middle.Degrees(), Unit: degreesNorth}
		rule = working.Steps{middle.Because("half-the-sum-of-latitudes", "half the sum of the latitudes")}
	case MercatorSailing:
		rule = working.Steps{partsStep("d.m.p.", "Difference of meridional parts", w.Parts).
			Because("meridional-parts-on-figure", "of both latitudes (%v), to minus from", w.Figure)}
	}
	if w.direct {
		return w.stepsDirect(rule)
	}
	steps := append(positionSteps(w.From, w.To), rule...)
	departure, course, distance := departureStep(w.Departure), courseStep(w.Course), distanceStep("distance", "Distance", w.Distance)
	switch w.Method {
	case ParallelSailing:
		return append(steps,
			departure.Because("dlong-cos-latitude", "d.long × cos latitude"),
			quadrantal(course.Because("along-the-parallel", "along the parallel"), w.Course),
			distance.Because("equal-to-the-departure", "the departure"))
	case MidLatitudeSailing:
		steps = append(steps,
			departure.Because("dlong-cos-middle-latitude", "d.long × cos middle latitude"),
			quadrantal(course.Because("departure-over-dlat", "tan course = departure / d.lat"), w.Course))
	default:
		steps = append(steps, quadrantal(course.Because("dlong-over-parts", "tan course = d.long / difference of meridional parts"), w.Course))
	}
	return append(steps, distance.Because("dlat-over-cos-course", "d.lat / cos course"))
}

// stepsDirect returns the steps of a sailing from a course and a distance.
func (w Solution) stepsDirect(rule working.Steps) working.Steps {
	latitude := working.Step{Key: "latitude", What: "Latitude of arrival", Value: w.To.Latitude.String(), Number: w.To.Latitude.Degrees(), Unit: degreesNorth}
	steps := working.Steps{
		given(working.Step{Key: "from", What: "From", Value: w.From.String()}),
		quadrantal(courseStep(w.Course), w.Course),
		given(distanceStep("distance", "Distance", w.Distance)),
		dlatStep(w.DLat).Because("distance-cos-course", "distance × cos course"),
		latitude.Because("start-and-dlat", "starting latitude and d.lat"),
	}
	departure, dlong := departureStep(w.Departure), dlongStep(w.DLong)
	switch w.Method {
	case MercatorSailing:
		steps = append(steps, rule...)
		steps = append(steps, dlong.Because("parts-tan-course", "difference of meridional parts × tan course"))
	case MidLatitudeSailing:
		steps = append(steps, departure.Because("distance-sin-course", "distance × sin course"))
		steps = append(steps, rule...)
		steps = append(steps, dlong.Because("departure-over-cos-middle-latitude", "departure / cos middle latitude"))
	default:
		steps = append(steps, departure.Because("equal-to-the-distance", "the distance"), dlong.Because("departure-over-cos-latitude", "departure / cos latitude"))
	}
	to := working.Step{Key: "to", What: "Position of arrival", Value: w.To.String()}
	return append(steps, to.Because("start-and-dlong", "starting longitude and d.long"))
}
