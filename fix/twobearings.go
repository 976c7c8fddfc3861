package fix

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// TwoBearings is the distance off an object, by two bearings and the run between them. Doubling the
// angle on the bow is an example. It is right if the vessel keeps its course and speed over the
// ground from the first bearing to the second, and to abeam. A stream or leeway that is not in the
// run makes it wrong, most of all if it sets along the bearing.
type TwoBearings struct {
	Distance sailing.Distance `json:"distance"` // off at the second bearing
	Abeam    sailing.Distance `json:"abeam"`    // off when abeam
	ToAbeam  sailing.Distance `json:"toAbeam"`  // run from the second bearing until abeam; below zero if already past

	first, second angle.Angle      // angles on the bow, both above zero
	run           sailing.Distance // over the ground, between the bearings
}

// ByTwoBearings returns the distance off by two angles on the bow and the run between them.
// Measure the angles from the course made good over the ground to the object, the short way:
//
//	distance at the second = run · sin first / sin(second − first)
//	distance abeam = distance at the second · sin second
//
// (the table of distance by two bearings of The American Practical Navigator, Pub. No.
// 9, whose factors are these distances for a run of 1). The angle on the bow of a true bearing
// is bearing.Sub(courseMadeGood), positive to starboard and negative to port. Both angles must
// be on the same side and below 180°, and the second must be at least a minute of arc greater
// than the first. Otherwise ByTwoBearings returns an [*angle.RangeError].
//
// To double the angle on the bow, wait until the second angle is twice the first: the run is
// then the distance off at the second bearing.
func ByTwoBearings(first, second angle.Angle, run sailing.Distance) (TwoBearings, error) {
	if (first < 0) != (second < 0) {
		return TwoBearings{}, &angle.RangeError{What: "second angle on the bow", Value: second.Degrees(), Accepted: "degrees on the same side as the first; starboard is positive, port negative"}
	}
	first, second = first.Abs(), second.Abs()
	switch {
	case first <= 0 || first >= angle.Turn/2:
		return TwoBearings{}, &angle.RangeError{What: "first angle on the bow", Value: first.Degrees(), Accepted: "degrees above 0, below 180"}
	case second >= angle.Turn/2 || second-first < angle.Minute:
		return TwoBearings{}, &angle.RangeError{What: "second angle on the bow", Value: second.Degrees(), Accepted: "degrees above the first, below 180"}
	case !(run > 0) || math.IsInf(float64(run), 0):
		return TwoBearings{}, &angle.RangeError{What: "run in nautical miles", Value: run.NauticalMiles(), Accepted: "above 0"}
	}
	t := TwoBearings{first: first, second: second, run: run}
	t.Distance = run * sailing.Distance(first.Sin()/(second-first).Sin())
	t.Abeam = t.Distance * sailing.Distance(second.Sin())
	t.ToAbeam = t.Distance * sailing.Distance(second.Cos())
	return t, nil
}

// String returns the distance off at the second bearing and abeam: 5.9 M off, 4.2 M
// abeam.
func (t TwoBearings) String() string { return fmt.Sprintf("%v off, %v abeam", t.Distance, t.Abeam) }

// Working returns the steps by which the distances were found, with the caution.
func (t TwoBearings) Working() working.Sheet {
	degrees := func(key, what string, a angle.Angle) working.Step {
		return working.Step{Key: key, What: what, Value: a.String(), Number: a.Degrees(), Unit: "degrees"}
	}
	miles := func(key, what string, d sailing.Distance) working.Step {
		return working.Step{Key: key, What: what, Value: d.String(), Number: d.NauticalMiles(), Unit: "nautical miles"}
	}
	steps := working.Steps{
		degrees("first", "First angle on the bow", t.first),
		t.withRule(degrees("second", "Second angle on the bow", t.second)),
		miles("run", "Run", t.run).Because("run-on-one-course", "over the ground, on one course"),
		miles("distance", "Distance off", t.Distance).Because("distance-by-two-bearings", "at the second bearing: run × sin first / sin(second − first)"),
		miles("abeam", "Distance abeam", t.Abeam).Because("distance-abeam", "distance off × sin second, if course and speed over the ground are kept"),
	}
	if t.ToAbeam > 0 {
		steps = append(steps, miles("to abeam", "Run to abeam", t.ToAbeam).Because("from-second-bearing", "from the second bearing"))
	}
	return working.Sheet{Title: "Distance by two bearings", Steps: steps, Caution: working.Caution}
}

// withRule adds the rule for a pair of angles that has one to a step.
func (t TwoBearings) withRule(s working.Step) working.Step {
	near := func(a, b angle.Angle) bool { return (a - b).Abs() <= angle.Minute }
	switch {
	case near(t.first, 45*angle.Degree) && near(t.second, 90*angle.Degree):
		return s.Because("bow-and-beam", "bow and beam (four-point) bearing: the run is the distance abeam")
	case near(t.second, 2*t.first):
		return s.Because("angle-doubled-on-bow", "angle doubled on the bow: the run is the distance at the second bearing")
	case math.Abs(1/t.first.Tan()-1/t.second.Tan()-1) < 0.01: // 26½° and 45° among them
		return s.Because("run-is-distance-abeam", "the run is the distance abeam")
	}
	return s
}

// AbeamPartner returns the second angle on the bow at which the run equals the distance abeam, as
// 45° for 26½°. It solves cot first − cot second = 1. If the first angle is not above 0 and below
// 135°, there is none, and it returns an [*angle.RangeError].
func AbeamPartner(first angle.Angle) (angle.Angle, error) {
	if first <= 0 || first >= 135*angle.Degree {
		return 0, &angle.RangeError{What: "first angle on the bow", Value: first.Degrees(), Accepted: "degrees above 0, below 135"}
	}
	s, c := first.SinCos()
	return angle.Atan2(s, c-s)
}
