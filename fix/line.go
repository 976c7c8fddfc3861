package fix

import (
	"fmt"
	"math"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
)

// A Mark is a charted object.
type Mark struct {
	Name     string         `json:"name"` // may be empty
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
	KindRange           Kind = "distance-off"
	KindTransit         Kind = "transit"
	KindHorizontalAngle Kind = "horizontal-angle"
	KindLatitude        Kind = "latitude"
	KindLongitude       Kind = "longitude"
	KindOther           Kind = "other"
)

// A Line is a position line: something observed that holds only along a line on the chart,
// and its uncertainty. Make one with [Bearing] or another function that returns a Line.
// [Line.TransferredBy] and [Line.Transferred] carry it to a later time. A Line does not change
// once it is made. [Solve] refuses the zero value.
//
// # Which curve a bearing is
//
// The position line of a bearing holds all places from which the object has that bearing. The
// bearing is the direction of the normal section from the observer to the object. A straight line
// from the object on the reciprocal, drawn on a Mercator chart, differs from it by half the
// convergency. At 50° north, on an east bearing, that is 32 m in 10 miles and 1150 m in 60. [Solve]
// uses the curve. Within 60 miles the azimuth of the geodesic differs from it by less than 0.0001°,
// or 2 cm.
type Line struct {
	kind  Kind
	name  string
	time  time.Time
	marks []Mark // never changed once the line is made

	want   float64 // the observed value: radians, metres, or the unit of LineFromFunc
	sigma  float64 // in the same unit; 0 if unknown
	stated bool
	lacks  lacks // what is not stated, if stated is false
	a, b   earth.Vector

	assumed lacks // in a solution, the parts for which usual uncertainties were taken

	byCompass   bool          // by the vessel's compass
	heading     angle.Compass // of the vessel, if byCompass
	ofVariation float64       // standard uncertainties of shared errors, in radians; 0 if not shared
	ofDeviation float64
	group       int // in a solution, the group of lines that share its error of the deviation

	other func(angle.Position) float64
	unit  string

	fault       string // why it is invalid, if that was found after it was made
	moved       bool
	north, east float64 // of the transfer, in metres
	transfer    sailing.Covariance
	carried     time.Duration // of the transfer; below 0 if unknown
	legs        []leg         // of the transfer, in order; never changed once the line is made

	sharedLegs []sharedLeg        // in a solution, the legs that other lines share
	without    sailing.Covariance // of the transfer without the shared legs
	steps      working.Steps
}

// sigmaOf returns a standard uncertainty in radians.
func sigmaOf(u angle.Uncertainty) (sigma float64, stated bool) {
	s, stated := u.Sigma()
	return s.Radians(), stated
}

// know sets the uncertainty of an observed angle.
func (l *Line) know(known angle.Uncertainty) {
	if l.sigma, l.stated = sigmaOf(known); !l.stated {
		l.lacks = lacksReading
	}
}

// place returns where a mark stands.
func place(m Mark) earth.Vector { return earth.PlaceOf(m.Position) }

// Bearing returns the line of a true bearing of a mark from the vessel. Its error is
// independent of other lines. For a bearing by compass use [CompassBearing], which keeps the
// errors that bearings share.
func Bearing(mark Mark, bearing angle.True, uncertainty angle.Uncertainty) Line {
	l := Line{kind: KindBearing, name: mark.String(), marks: []Mark{mark}, want: bearing.FromNorth().Radians(), a: place(mark)}
	l.know(uncertainty)
	l.steps = working.Steps{working.Direction("true bearing", "True bearing", bearing).Because("of-mark", "of %v", mark)}
	return l
}

// CompassBearing returns the line of a bearing that package course converted, with the
// standard uncertainty of its reading. Bearings share the errors of the conversion, which
// therefore do not average out (see [course.Bearing.Conversion]):
//
//   - All bearings by the vessel's compass, from the bow and by a hand-bearing compass
//     share the error of the variation.
//   - Bearings by the vessel's compass and from the bow share the error of the deviation
//     on headings within 10° of each other.
//   - A bearing given as true has no such error.
//
// If the uncertainty of the variation, the deviation or the reading is not stated, the uncertainty
// of the line is unknown. The working names the missing part. The uncertainty in [course.With] is
// that of the heading: it counts only for bearings from the bow.
func CompassBearing(mark Mark, bearing course.Bearing, reading angle.Uncertainty) Line {
	l := Bearing(mark, bearing.True(), reading)
	if bearing.ByCompass() {
		l.byCompass, l.heading = true, bearing.Heading().Compass()
	}
	variation, deviation := bearing.Conversion()
	var stated bool
	if l.ofVariation, stated = sigmaOf(variation); !stated {
		l.lacks |= lacksVariation
	}
	if l.ofDeviation, stated = sigmaOf(deviation); !stated {
		l.lacks |= lacksDeviation
	}
	l.stated = l.lacks == 0
	l.steps = append(bearing.Working().Steps, l.uncertaintyStep())
	return l
}

// VerticalAngle returns the line of the distance off an object whose top and water line subtend
// an angle, as by sextant; see [DistanceByVerticalAngle]. The uncertainty is that of the angle.
// That of the distance is d²/h times as large. Errors are those of DistanceByVerticalAngle.
func VerticalAngle(mark Mark, height sailing.Distance, a angle.Angle, heightOfEye sailing.Distance, uncertainty angle.Uncertainty) (Line, error) {
	d, err := DistanceByVerticalAngle(height, a, heightOfEye)
	if err != nil {
		return Line{}, err
	}
	sigma, stated := sigmaOf(uncertainty)
	if stated && sigma == 0 {
		return Line{}, invalidLine(mark.String(), "the standard uncertainty of the angle is zero: state one above zero, such as 1′, or leave it out")
	}
	s := a.Sin()
	of := height * sailing.Distance(sigma/(s*s))
	l, step, err := distanceOff(mark, d, of)
	if err != nil {
		return Line{}, err
	}
	step = step.Because("height-over-tangent", "of %v, %.1f metres high: height / tan %v", mark, height.Metres(), a)
	if stated {
		step = step.Because("uncertainty-of-vertical-angle", "the angle's %s makes ±%s", uncertaintyText(sigma), milesFor(of).of(of))
	}
	l.steps = working.Steps{step}
	return l, nil
}

// Range returns the line of a distance off a mark along the surface. An uncertainty of 0 means
// unknown. The line is accurate to 2 m at 600 miles. If the distance is not above 0 and at most
// 600 miles, or the uncertainty is below 0, Range returns an [*Error].
func Range(mark Mark, distance, uncertainty sailing.Distance) (Line, error) {
	l, step, err := distanceOff(mark, distance, uncertainty)
	if err != nil {
		return Line{}, err
	}
	l.steps = working.Steps{step.Because("of-mark", "of %v", mark)}
	return l, nil
}

// distanceOff returns the line of a distance off, and the step of its working without a reason.
func distanceOff(mark Mark, distance, known sailing.Distance) (Line, working.Step, error) {
	if !(distance > 0 && distance <= 600*sailing.NauticalMile) {
		return Line{}, working.Step{}, invalidLine(mark.String(), fmt.Sprintf("%v cannot be a distance off: give one above 0 and at most 600 M, such as 4.2 M", distance))
	}
	if err := checkKnown(mark.String(), float64(known)); err != nil {
		return Line{}, working.Step{}, err
	}
	l := Line{kind: KindRange, name: mark.String(), marks: []Mark{mark}, want: float64(distance), sigma: float64(known), stated: known > 0, a: place(mark)}
	return l, working.Step{Key: "distance off", What: "Distance off", Value: fmt.Sprintf("%.2f M", distance.NauticalMiles()), Number: distance.NauticalMiles(), Unit: "nautical miles"}, nil
}

// checkKnown refuses invalid uncertainties.
func checkKnown(line string, sigma float64) error {
	if !(sigma >= 0) || math.IsInf(sigma, 0) {
		return invalidLine(line, fmt.Sprintf("%v cannot be a standard uncertainty: give one above zero, or 0 if it is unknown", sigma))
	}
	return nil
}

// Transit returns the line on which two marks are in transit (a range in the United States), the
// rear mark behind the front one. The uncertainty is that of the angle between them; a sharp
// transit is good to 0.05°. If both marks are at one place, Transit returns an [*Error]. If the
// front mark is farther from the fix than the rear one, the fix has the warning
// [TransitReversed].
func Transit(front, rear Mark, uncertainty angle.Uncertainty) (Line, error) {
	name := front.String() + " and " + rear.String()
	if front.Position.SamePlace(rear.Position) {
		return Line{}, invalidLine(name, "both marks are at one place: choose two marks apart")
	}
	l := Line{kind: KindTransit, name: name, marks: []Mark{front, rear}, a: place(front), b: place(rear)}
	l.know(uncertainty)
	text, number, unit := l.observed()
	step := working.Step{Key: "transit", What: "Transit", Value: text, Number: number, Unit: unit}
	l.steps = working.Steps{step.Because("marks-in-line", "%v and %v in line, from the front mark to the rear one", front, rear)}
	return l, nil
}

// HorizontalAngle returns the line on which two marks subtend an angle by a sextant held level:
// an arc of a circle through both. left is the mark seen on the left. If the angle is not above 0
// and below 180°, or both marks are at one place, it returns an [*Error].
func HorizontalAngle(left, right Mark, a angle.Angle, uncertainty angle.Uncertainty) (Line, error) {
	name := left.String() + " to " + right.String()
	if left.Position.SamePlace(right.Position) {
		return Line{}, invalidLine(name, "both marks are at one place: choose two marks apart")
	}
	if a <= 0 || a >= angle.Turn/2 {
		return Line{}, invalidLine(name, fmt.Sprintf("%v cannot be a horizontal angle: give one above 0° and below 180°, such as 42°15′, and exchange the marks if it is larger", a))
	}
	l := Line{kind: KindHorizontalAngle, name: name, marks: []Mark{left, right}, want: a.Radians(), a: place(right), b: place(left)}
	l.know(uncertainty)
	step := working.Step{Key: "horizontal angle", What: "Horizontal angle", Value: a.String(), Number: a.Degrees(), Unit: "degrees"}
	l.steps = working.Steps{step.Because("from-mark-to-mark", "%v to %v", left, right)}
	return l, nil
}

// Latitude returns the line of a latitude, such as by a meridian altitude. An uncertainty of 0
// means unknown; if it is below 0, Latitude returns an [*Error].
func Latitude(latitude angle.Latitude, uncertainty sailing.Distance) (Line, error) {
	if err := checkKnown("latitude", float64(uncertainty)); err != nil {
		return Line{}, err
	}
	return Line{
		kind: KindLatitude, name: "latitude " + latitude.String(), want: latitude.Angle().Radians(), sigma: float64(uncertainty), stated: uncertainty > 0,
		steps: working.Steps{{Key: "latitude", What: "Latitude", Value: latitude.String(), Number: latitude.Degrees(), Unit: "degrees, north positive"}},
	}, nil
}

// Longitude returns the line of a longitude, with its uncertainty along the parallel. An
// uncertainty of 0 means unknown; if it is below 0, Longitude returns an [*Error].
func Longitude(longitude angle.Longitude, uncertainty sailing.Distance) (Line, error) {
	if err := checkKnown("longitude", float64(uncertainty)); err != nil {
		return Line{}, err
	}
	return Line{
		kind: KindLongitude, name: "longitude " + longitude.String(), want: longitude.Angle().Radians(), sigma: float64(uncertainty), stated: uncertainty > 0,
		steps: working.Steps{{Key: "longitude", What: "Longitude", Value: longitude.String(), Number: longitude.Degrees(), Unit: "degrees, east positive"}},
	}, nil
}

// LineFromFunc returns the line on which a function of the position has an observed value, such
// as a depth on a charted slope. value returns what would be observed at a position. It must be
// smooth over some tens of metres, and safe for concurrent use. The uncertainty is in the same
// unit; 0 means unknown. If value is nil, the observed value is not finite, or the uncertainty is
// below 0, LineFromFunc returns an [*Error].
func LineFromFunc(name, unit string, value func(angle.Position) float64, observed, uncertainty float64) (Line, error) {
	if value == nil {
		return Line{}, invalidLine(name, "the function of the position is nil: give one, such as the charted depth")
	}
	if !finite(observed) {
		return Line{}, invalidLine(name, fmt.Sprintf("the observed value %v is not finite: give a number, such as 12.5", observed))
	}
	if err := checkKnown(name, uncertainty); err != nil {
		return Line{}, err
	}
	return Line{
		kind: KindOther, name: name, want: observed, sigma: uncertainty, stated: uncertainty > 0, other: value, unit: unit,
		steps: working.Steps{{Key: "observed", What: capital(name), Value: fmt.Sprintf("%g %s", observed, unit), Number: observed, Unit: unit}},
	}, nil
}

// finite reports whether a number is neither NaN nor infinite.
func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// Kind returns what was observed.
func (l Line) Kind() Kind { return l.kind }

// Name returns the name of what was observed: of the mark or the marks, unless [Line.WithName]
// set another.
func (l Line) Name() string { return l.name }

// Time returns when the line was observed. If the time is unknown, it returns the zero time.
func (l Line) Time() time.Time { return l.time }

// Marks returns the marks that were observed: one, two, or none for a latitude and the like.
func (l Line) Marks() []Mark { return slices.Clone(l.marks) }

// WithTime returns the line with the time at which it was observed.
func (l Line) WithTime(t time.Time) Line {
	l.time = t
	return l
}

// WithName returns the line with another name.
func (l Line) WithName(name string) Line {
	l.name = name
	return l
}

// Working returns the steps by which the line was found.
func (l Line) Working() working.Steps { return slices.Clone(l.steps) }
