package fix

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
)

// A Mark is a charted object.
type Mark struct {
	Name     string         `json:"name"`
	Position angle.Position `json:"position"`
}

// String returns the mark's name, or its position if it has none.
func (m Mark) String() string {
	if m.Name == "" {
		return m.Position.String()
	}
	return m.Name
}

// A Kind is what was observed.
type Kind string

// The kinds of position line.
const (
	KindBearing         Kind = "bearing"
	KindRange           Kind = "distance off"
	KindTransit         Kind = "transit"
	KindHorizontalAngle Kind = "horizontal angle"
	KindLatitude        Kind = "latitude"
	KindLongitude       Kind = "longitude"
	KindOther           Kind = "other"
)

// A Line is a position line: something observed, and how well, that is so only
// along a line on the chart. Make one with [Bearing], [CompassBearing], [HandBearing],
// [Range], [Transit], [HorizontalAngle], [DippingLight], [LatitudeLine], [LongitudeLine] or
// [Other]; [Line.Transferred] brings it to a later time.
//
// # Which curve a bearing is
//
// The eye sees an object in the vertical plane that holds both, so that a bearing is
// the direction, at the observer, of the normal section from observer to object. The
// line of position is where the object has that bearing. It is not the straight line
// drawn on a Mercator chart from the object on the reciprocal, from which it bends
// away by half the convergency: 32 m in ten miles, 1150 m in 60 (at 50° north, on an
// east bearing). It is that curve which is solved for. The azimuth of
// the geodesic differs from that of the normal section by less than 0.0001° in 60
// miles, 2 cm.
type Line struct {
	Kind  Kind
	Name  string    // what it is of, in words
	Time  time.Time // when it was observed; zero if it is not known
	Marks []Mark

	want   float64 // radians, or metres, or Other's own unit
	sigma  float64 // the same unit; 0 if it is not stated
	stated bool
	shared bool    // whether it was taken with the compass, whose error it shares
	common float64 // standard uncertainty of that error, in radians; 0 if it is not known
	a, b   vector
	other  func(angle.Position) float64
	unit   string

	fault       string // why it is none, found after it was made
	moved       bool
	north, east float64 // of the transfer, in metres
	transfer    sailing.Covariance
	steps       working.Steps
}

// A LineError reports an observation that makes no position line.
type LineError struct {
	Line   string // what it is of
	Reason string
}

// Error says which and why.
func (e *LineError) Error() string { return fmt.Sprintf("fix: %s: %s", e.Line, e.Reason) }

// sigmaOf is a standard uncertainty in radians.
func sigmaOf(u angle.Uncertainty) (sigma float64, stated bool) {
	s, stated := u.Sigma()
	return s.Radians(), stated
}

// place is where a mark stands.
func place(m Mark) vector {
	f := frameAt(upright(m.Position))
	return f.at
}

// Bearing returns the line of a true bearing of a mark from the vessel, and how well
// it is known. If it was taken with the steering compass use [CompassBearing], which
// keeps the compass's part.
func Bearing(mark Mark, bearing angle.True, known angle.Uncertainty) Line {
	l := Line{Kind: KindBearing, Name: mark.String(), Marks: []Mark{mark}, want: bearing.FromNorth().Radians(), a: place(mark)}
	l.sigma, l.stated = sigmaOf(known)
	l.steps = working.Steps{working.Direction("true bearing", "True bearing", bearing, "of "+mark.String())}
	return l
}

// CompassBearing returns the line of a bearing that was converted through the
// heading's deviation and the variation. It has the uncertainty of reading the
// bearing, and with the other lines made so it shares that of the conversion,
// [course.Bearing.Uncertainty]: an error of the variation or of the deviation turns
// all of them together, so that it does not average out. If either is not stated the
// line's is not. The reading is stated here only: leave it out of [course.With], or
// it counts twice.
func CompassBearing(mark Mark, bearing course.Bearing, reading angle.Uncertainty) Line {
	conversion, known := sigmaOf(bearing.Uncertainty())
	if !known {
		reading = angle.Uncertainty{}
	}
	l := Bearing(mark, bearing.True(), reading)
	l.shared, l.common = true, conversion
	l.steps = append(bearing.Working().Steps, lineStep(bearing.Uncertainty().Combined(reading)))
	return l
}

// lineStep is how well a line is known altogether.
func lineStep(u angle.Uncertainty) working.Step {
	return working.Step{Key: "line", What: "The line is known to", Value: u.String(), How: "the reading and what it was converted with"}
}

// HandBearing returns the line of a bearing by a hand-bearing compass clear of the
// vessel's iron, converted through the variation alone, as
// [course.Heading.BearingFromMagnetic] does. Its uncertainty is that of the conversion
// and the reading; it does not share the steering compass's error.
func HandBearing(mark Mark, bearing course.Bearing, reading angle.Uncertainty) Line {
	known := bearing.Uncertainty().Combined(reading)
	l := Bearing(mark, bearing.True(), known)
	l.steps = append(bearing.Working().Steps, lineStep(known))
	return l
}

// VerticalAngleLine returns the line of the distance off an object whose top and water
// line subtend an angle, as by sextant; see [VerticalAngle]. The angle's standard
// uncertainty becomes that of the distance, d²/h times it.
func VerticalAngleLine(mark Mark, height float64, a angle.Angle, known angle.Uncertainty, heightOfEye float64) (Line, error) {
	d, err := VerticalAngle(height, a, heightOfEye)
	if err != nil {
		return Line{}, err
	}
	sigma, stated := sigmaOf(known)
	if stated && sigma == 0 {
		return Line{}, &LineError{mark.String(), "the angle's standard uncertainty is nought: want more, or none stated"}
	}
	s := a.Sin()
	l, err := Range(mark, d, sailing.Distance(height*sigma/(s*s)))
	if err != nil {
		return Line{}, err
	}
	l.steps[0].How = fmt.Sprintf("of %v, %.1f m high: height / tan %v", mark, height, a)
	return l, nil
}

// Range returns the line of a distance off a mark, along the surface, with its
// standard uncertainty; nought is not stated. It is good to 2 m at 600 miles, and
// refuses distances that are not above nought, or beyond that, with a [*LineError].
func Range(mark Mark, distance, known sailing.Distance) (Line, error) {
	if !(distance > 0 && distance <= 600*sailing.NauticalMile) {
		return Line{}, &LineError{mark.String(), fmt.Sprintf("distance %v: want above 0, at most 600 M", distance)}
	}
	if err := checkKnown(mark.String(), float64(known)); err != nil {
		return Line{}, err
	}
	return Line{
		Kind: KindRange, Name: mark.String(), Marks: []Mark{mark}, want: float64(distance), sigma: float64(known), stated: known > 0, a: place(mark),
		steps: working.Steps{{Key: "distance off", What: "Distance off", Value: distance.String(), Number: distance.NauticalMiles(), Unit: "nautical miles", How: "of " + mark.String()}},
	}, nil
}

// checkKnown refuses uncertainties that are none.
func checkKnown(line string, sigma float64) error {
	if !(sigma >= 0) || math.IsInf(sigma, 0) {
		return &LineError{line, fmt.Sprintf("standard uncertainty %v: want 0, for not stated, or more", sigma)}
	}
	return nil
}

// Transit returns the line on which two marks are in line, the rear one behind the
// front one, with the standard uncertainty of the angle between them: a twentieth of
// a degree for a sharp one. Marks at one place are refused with a [*LineError].
func Transit(front, rear Mark, known angle.Uncertainty) (Line, error) {
	name := front.String() + " and " + rear.String()
	if front.Position.SamePlace(rear.Position) {
		return Line{}, &LineError{name, "both are at one place"}
	}
	l := Line{Kind: KindTransit, Name: name, Marks: []Mark{front, rear}, a: place(front), b: place(rear)}
	l.sigma, l.stated = sigmaOf(known)
	l.steps = working.Steps{{Key: "transit", What: "Transit", Value: "in line", How: name}}
	return l, nil
}

// HorizontalAngle returns the line on which two marks subtend an angle, as by
// sextant held level: an arc of a circle through both. The left mark is the one to
// the left as seen. Angles must be above 0 and below 180°, and the marks apart;
// otherwise a [*LineError].
func HorizontalAngle(left, right Mark, a angle.Angle, known angle.Uncertainty) (Line, error) {
	name := left.String() + " to " + right.String()
	if left.Position.SamePlace(right.Position) {
		return Line{}, &LineError{name, "both are at one place"}
	}
	if a <= 0 || a >= angle.Turn/2 {
		return Line{}, &LineError{name, fmt.Sprintf("angle %v: want above 0, below 180°", a)}
	}
	l := Line{Kind: KindHorizontalAngle, Name: name, Marks: []Mark{left, right}, want: a.Radians(), a: place(right), b: place(left)}
	l.sigma, l.stated = sigmaOf(known)
	l.steps = working.Steps{{Key: "horizontal angle", What: "Horizontal angle", Value: a.String(), Number: a.Degrees(), Unit: "degrees", How: name}}
	return l, nil
}

// LatitudeLine returns the line of a latitude, as by a meridian altitude, with its
// standard uncertainty; nought is not stated.
func LatitudeLine(latitude angle.Latitude, known sailing.Distance) (Line, error) {
	if err := checkKnown("latitude", float64(known)); err != nil {
		return Line{}, err
	}
	return Line{
		Kind: KindLatitude, Name: "latitude " + latitude.String(), want: latitude.Angle().Radians(), sigma: float64(known), stated: known > 0,
		steps: working.Steps{{Key: "latitude", What: "Latitude", Value: latitude.String(), Number: latitude.Degrees(), Unit: "degrees, north positive"}},
	}, nil
}

// LongitudeLine returns the line of a longitude, with its standard uncertainty along
// the parallel; nought is not stated.
func LongitudeLine(longitude angle.Longitude, known sailing.Distance) (Line, error) {
	if err := checkKnown("longitude", float64(known)); err != nil {
		return Line{}, err
	}
	return Line{
		Kind: KindLongitude, Name: "longitude " + longitude.String(), want: longitude.Angle().Radians(), sigma: float64(known), stated: known > 0,
		steps: working.Steps{{Key: "longitude", What: "Longitude", Value: longitude.String(), Number: longitude.Degrees(), Unit: "degrees, east positive"}},
	}, nil
}

// Other returns the line on which a quantity that depends on the position has an
// observed value: a depth on a charted slope, say. The function tells what would be
// observed at a position; it must be smooth over some tens of metres and safe for
// use by several goroutines. The uncertainty is in the same unit, above nought.
func Other(name, unit string, value func(angle.Position) float64, observed, known float64) (Line, error) {
	if value == nil {
		return Line{}, &LineError{name, "no function of the position"}
	}
	if !(known > 0) || math.IsInf(known, 0) || math.IsNaN(observed) || math.IsInf(observed, 0) {
		return Line{}, &LineError{name, fmt.Sprintf("observed %v ± %v: want a number and an uncertainty above 0", observed, known)}
	}
	return Line{
		Kind: KindOther, Name: name, want: observed, sigma: known, stated: true, other: value, unit: unit,
		steps: working.Steps{{Key: "observed", What: name, Value: fmt.Sprintf("%g %s", observed, unit), Number: observed, Unit: unit}},
	}, nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// At returns the line with its time.
func (l Line) At(t time.Time) Line {
	l.Time = t
	return l
}

// Working returns how the line was found.
func (l Line) Working() working.Steps { return l.steps }

// Transferred returns the line carried along a run over the ground, for a running
// fix: the line of an object observed before the run, as if it had been observed at
// its end. What the run is known to counts into the line's uncertainty, across it. A
// run or a covariance that is none makes [Solve] refuse the line. The run is a rhumb
// line; several are taken together as the one from first to last.
func (l Line) Transferred(run sailing.Run, known sailing.Covariance) Line {
	s, c := run.Course.FromNorth().SinCos()
	if !(known.North >= 0 && known.East >= 0) || known.Both*known.Both > known.North*known.East*(1+1e-9) || !finite(float64(run.Distance)) || !finite(known.North+known.East+known.Both) {
		l.fault = fmt.Sprintf("transferred by %v with variances %v, %v: want numbers, and no variance below 0", run, known.North, known.East)
	}
	l.moved = true
	l.north += float64(run.Distance) * c
	l.east += float64(run.Distance) * s
	if known.Stated() && l.transfer.Stated() {
		known = known.Plus(l.transfer)
	}
	if known.Stated() {
		l.transfer = known
	}
	l.steps = append(append(working.Steps{}, l.steps...), working.Step{
		Key: "transferred", What: "Transferred", Value: run.String(), Number: run.Distance.NauticalMiles(), Unit: "nautical miles", How: "the run since, over the ground",
	})
	return l
}
