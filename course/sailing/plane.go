package sailing

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Triangle is the right-angled triangle of plane sailing, in which a small part
// of the earth is flat: a course and a distance, and the difference of latitude
// and the departure that they make. A minute of latitude is a nautical mile.
//
//	d.lat = distance cos course    departure = distance sin course
type Triangle struct {
	Run
	DLat      angle.Angle `json:"dLat"`      // difference of latitude, north positive
	Departure Distance    `json:"departure"` // east positive
}

// Plane returns the triangle of a run. A distance below zero or beyond 21,600
// miles, once round the earth, is refused with an [*angle.RangeError].
func Plane(run Run) (Triangle, error) {
	if err := checkDistance(run.Distance); err != nil {
		return Triangle{}, err
	}
	s, c := run.Course.FromNorth().SinCos()
	return Triangle{run, arcOf(run.Distance * Distance(c)), run.Distance * Distance(s)}, nil
}

// checkDistance refuses distances that no sailing can have.
func checkDistance(d Distance) error {
	if !(d >= 0 && d <= 360*60*NauticalMile) {
		return &angle.RangeError{What: "distance", Value: d.NauticalMiles(), Accepted: "nautical miles from 0 to 21600"}
	}
	return nil
}

// arcOf is the arc of latitude as long as a distance within the circle.
func arcOf(d Distance) angle.Angle {
	a, err := angle.Minutes(d.NauticalMiles())
	if err != nil {
		return 0 // not reached: distances are checked
	}
	return a
}

// PlaneOf returns the triangle of a difference of latitude and a departure. If
// both are zero there is no course, and a departure may be 21,600 miles at most: otherwise it
// returns an [*angle.RangeError].
func PlaneOf(dlat angle.Angle, departure Distance) (Triangle, error) {
	if err := checkDistance(Distance(math.Abs(float64(departure)))); err != nil {
		return Triangle{}, &angle.RangeError{What: "departure", Value: departure.NauticalMiles(), Accepted: "nautical miles within ±21600"}
	}
	if dlat.Abs() > angle.Turn {
		return Triangle{}, &angle.RangeError{What: "difference of latitude", Value: dlat.Degrees(), Accepted: "degrees within ±360"}
	}
	north := dlat.Minutes()
	course, err := angle.Atan2(departure.NauticalMiles(), north)
	if err != nil {
		return Triangle{}, &angle.RangeError{What: "difference of latitude and departure", Value: 0, Accepted: "one of them other than 0"}
	}
	distance := Distance(math.Hypot(departure.NauticalMiles(), north)) * NauticalMile
	return Triangle{Run{angle.TrueFrom(course), distance}, dlat, departure}, nil
}

// PlaneAlong returns the triangle of a course and a difference of latitude. The
// course must lead to that side and not within a minute of arc of east or west,
// where it leads to no latitude: otherwise an [*angle.RangeError].
func PlaneAlong(course angle.True, dlat angle.Angle) (Triangle, error) {
	_, c := course.FromNorth().SinCos()
	if math.Abs(c) < angle.Minute.Sin() || dlat == 0 || (c > 0) != (dlat > 0) {
		return Triangle{}, &angle.RangeError{What: "course " + course.String() + " for a difference of latitude in minutes of", Value: dlat.Minutes(), Accepted: "a course to its side, not east or west"}
	}
	return Plane(Run{course, Distance(dlat.Minutes()/c) * NauticalMile})
}

// Working returns the steps of the triangle, course and distance first.
func (t Triangle) Working() working.Sheet {
	return sheet(working.Steps{
		courseStep(t.Course, ""),
		distanceStep("distance", "Distance", t.Distance, ""),
		dlatStep(t.DLat, "distance × cos course; a minute is a mile"),
		departureStep(t.Departure, "distance × sin course"),
	})
}

// A Traverse is several runs, one after the other, and the one run that leads to
// the same place by plane sailing.
type Traverse struct {
	Legs []Triangle `json:"legs"` // in order
	Triangle
}

// A TraverseError reports a run of a traverse that can't be worked.
type TraverseError struct {
	Run int // from 1
	Err error
}

// Error says which run, and why.
func (e *TraverseError) Error() string {
	return fmt.Sprintf("sailing: traverse, run %d: %v", e.Run, e.Err)
}

// Unwrap returns why.
func (e *TraverseError) Unwrap() error { return e.Err }

// NewTraverse sums the differences of latitude and the departures of some runs.
// Runs that lead back to where they began have no course: then Course is 000° and
// Distance zero. A run that makes no triangle is a [*TraverseError], which wraps the
// [*angle.RangeError] of [Plane].
func NewTraverse(runs ...Run) (Traverse, error) {
	var t Traverse
	for i, run := range runs {
		leg, err := Plane(run)
		if err != nil {
			return Traverse{}, &TraverseError{i + 1, err}
		}
		t.Legs = append(t.Legs, leg)
		t.DLat += leg.DLat
		t.Departure += leg.Departure
	}
	distance := Distance(math.Hypot(t.Departure.NauticalMiles(), t.DLat.Minutes())) * NauticalMile
	if distance < arcLength(sameArc) { // the roundings of the legs
		return t, nil
	}
	course, err := angle.Atan2(t.Departure.NauticalMiles(), t.DLat.Minutes())
	if err != nil {
		return t, nil // not reached: the runs do not end where they began
	}
	t.Run = Run{angle.TrueFrom(course), distance}
	return t, nil
}

// Working returns a step for each leg, the sums, and the run made good.
func (t Traverse) Working() working.Sheet {
	var steps working.Steps
	for i, leg := range t.Legs {
		steps = append(steps, working.Step{
			Key: fmt.Sprintf("leg %d", i+1), What: fmt.Sprintf("Leg %d", i+1), Value: leg.Run.String(), Number: leg.Distance.NauticalMiles(), Unit: nauticalMiles,
			How: fmt.Sprintf("%s: d.lat %s, departure %s", quadrantal(leg.Course), named(leg.DLat.Minutes(), "′", "N", "S"), named(leg.Departure.NauticalMiles(), " M ", "E", "W")),
		})
	}
	course := courseStep(t.Course, "made good: tan course = departure / d.lat")
	if t.Distance == 0 {
		course.How = "none: back at the start"
	}
	return sheet(append(steps,
		dlatStep(t.DLat, "north less south"),
		departureStep(t.Departure, "east less west"),
		course,
		distanceStep("distance", "Distance", t.Distance, "made good"),
	))
}
