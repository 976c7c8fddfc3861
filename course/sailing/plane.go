package sailing

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/internal/printed"
)

// A Triangle is the right-angled triangle of plane sailing, for which a small part of the
// earth is flat. Its sides are the distance, the difference of latitude and the departure, the
// distance made good to the east. A minute of latitude is a nautical mile.
//
//	d.lat = distance cos course    departure = distance sin course
type Triangle struct {
	Run
	DLat      angle.Angle `json:"dLat"`      // difference of latitude, north positive
	Departure Distance    `json:"departure"` // east positive
}

// Plane returns the triangle of a run. If the distance is below zero or more than 21,600
// miles, once round the earth, it returns an [*angle.RangeError].
func Plane(run Run) (Triangle, error) {
	if err := checkDistance(run.Distance); err != nil {
		return Triangle{}, err
	}
	s, c := run.Course.FromNorth().SinCos()
	return Triangle{run, arcOf(run.Distance * Distance(c)), run.Distance * Distance(s)}, nil
}

// checkDistance refuses distances below zero or more than once round the earth.
func checkDistance(d Distance) error {
	if !(d >= 0 && d <= 360*60*NauticalMile) {
		return &angle.RangeError{What: "distance", Value: d.NauticalMiles(), Accepted: acceptedMiles}
	}
	return nil
}

const acceptedMiles = "nautical miles from 0 to 21600"

// arcOf is the arc of latitude as long as a distance within the circle.
func arcOf(d Distance) angle.Angle {
	a, err := angle.Minutes(d.NauticalMiles())
	if err != nil {
		return 0 // not reached: distances are checked
	}
	return a
}

// PlaneFromSides returns the triangle of a difference of latitude and a departure. If both are
// zero, or the departure is more than 21,600 miles, it returns an [*angle.RangeError].
func PlaneFromSides(dlat angle.Angle, departure Distance) (Triangle, error) {
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

// PlaneFromCourse returns the triangle of a course and a difference of latitude. If the course
// does not lead to that side, north or south, it returns an [*angle.RangeError]. It also
// returns one if the course is within a minute of arc of east or west.
func PlaneFromCourse(course angle.True, dlat angle.Angle) (Triangle, error) {
	_, c := course.FromNorth().SinCos()
	if math.Abs(c) < angle.Minute.Sin() || dlat == 0 || (c > 0) != (dlat > 0) {
		return Triangle{}, &angle.RangeError{What: "course " + course.String() + " for a difference of latitude in minutes of", Value: dlat.Minutes(), Accepted: "a course to the same side, north or south, and not east or west"}
	}
	return Plane(Run{course, Distance(dlat.Minutes()/c) * NauticalMile})
}

// Working returns the steps of the triangle, course and distance first.
func (t Triangle) Working() working.Sheet {
	return sheet(working.Steps{
		quadrantal(courseStep(t.Course), t.Course),
		distanceStep("distance", "Distance", t.Distance),
		dlatStep(t.DLat).Because("distance-cos-course", "distance × cos course").Because("minute-is-a-mile", "a minute is a mile"),
		departureStep(t.Departure).Because("distance-sin-course", "distance × sin course"),
	})
}

// A Traverse is several runs, one after the other. Its embedded Triangle is the single run
// that leads to the same place by plane sailing: the course and distance made good.
type Traverse struct {
	Legs []Triangle `json:"legs"` // in order
	Triangle
}

// NewTraverse sums the differences of latitude and the departures of some runs. If the runs
// lead back to where they began, Distance is zero and Course 000°. If a distance is out of range,
// as for [Plane], it returns an [*angle.RangeError] that names the run.
func NewTraverse(runs ...Run) (Traverse, error) {
	var t Traverse
	for i, run := range runs {
		leg, err := Plane(run)
		if err != nil {
			return Traverse{}, &angle.RangeError{What: fmt.Sprintf("distance of run %d", i+1), Value: run.Distance.NauticalMiles(), Accepted: acceptedMiles}
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
		step := working.Step{
			Key: fmt.Sprintf("leg %d", i+1), What: fmt.Sprintf("Leg %d", i+1), Value: leg.Run.String(), Number: leg.Distance.NauticalMiles(), Unit: nauticalMiles,
		}
		steps = append(steps, step.Because("traverse-leg", "%.1q: d.lat %s, departure %s", leg.Course, printed.Named(leg.DLat.Minutes(), "′", "N", "S"), printed.Named(leg.Departure.NauticalMiles(), " M ", "E", "W")))
	}
	course := courseStep(t.Course)
	if t.Distance == 0 {
		course = course.Because("back-at-the-start", "no course: back at the start")
	} else {
		course = quadrantal(course.Because("course-made-good-by-sides", "made good: tan course = departure / d.lat"), t.Course)
	}
	return sheet(append(steps,
		dlatStep(t.DLat).Because("north-minus-south", "north minus south"),
		departureStep(t.Departure).Because("east-minus-west", "east minus west"),
		course,
		distanceStep("distance", "Distance", t.Distance).Because("made-good", "made good"),
	))
}
