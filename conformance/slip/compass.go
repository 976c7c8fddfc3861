package slip

import (
	"fmt"
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
)

// Figures of a conversion.
var (
	variationFigure = Figure{Key: "variation", What: "Variation", Form: EastWest, Rounding: 1.0 / 60}
	deviationFigure = Figure{Key: "deviation", What: "Deviation", Form: EastWest, Rounding: 0.5}
	magneticFigure  = Figure{Key: "magnetic", What: "Magnetic", Form: Direction, Rounding: 1, North: "M"}
	trueFigure      = Figure{Key: "true", What: "True", Form: Direction, Rounding: 1, North: "T"}
)

// minorOfConversions are slips that are rare in a conversion, or seldom change it by a degree.
var minorOfConversions = []Kind{YearsMiscounted, MinutesAtHundred, MinutesAsDecimals, ChangeForVariation, NameKept, DeviationOnMagnetic, DeviationOnTrue, VariationTwice, DeviationTwice}

// NewToSteer asks for the course to steer by compass for a true course, to the whole degree.
//
// A [variation.Rose] that states its annual change is brought up to the year of with.On, in UTC
// and in whole years. The problem then has the slips of that sum too. For a chart, it has the
// slips of leaving out the change of its roses, or applying it the wrong way. The variation of
// other sources is used unchanged. The field with.Reading has no effect. Errors are those of
// [course.FromTrue].
func NewToSteer(track angle.True, with course.With) (Problem, error) {
	drawn, err := course.FromTrue(track, with)
	if err != nil {
		return Problem{}, err
	}
	v, err := variationOf(with)
	if err != nil {
		return Problem{}, err
	}
	question := fmt.Sprintf("The course is %s; %s%s. What is the course to steer by compass, to the degree?",
		exact(track), v.says, toldOf(with.Deviation))
	card := cardOf(with.Deviation)
	return conversion("course to steer", question, drawn, "compass course", nil, 'C', func(c *calculation) (float64, error) {
		compass, err := toCompass(c, v, misreadGiven(c, track.FromNorth()), drawn.Magnetic(), card)
		return reversed(c, compass.Degrees()), err
	})
}

// toCompass converts a true course to compass, with its slips, given the right magnetic course.
func toCompass(c *calculation, v given, track angle.Angle, right angle.Magnetic, card compassCard) (angle.Compass, error) {
	applied, way := v.variation(c, 2)
	magnetic := angle.MagneticFrom(c.figureAngle(magneticFigure, track-applied))
	lookedUp := magnetic
	if way == 1 { // the deviation was looked up before the slip in the variation
		lookedUp = right
	}
	d, err := card.toSteer(c, track, lookedUp)
	if err != nil {
		return angle.Compass{}, err
	}
	return angle.CompassFrom(magnetic.FromNorth() - appliedDeviation(c, d)), nil
}

// NewTrueCourse asks for the true course of a vessel that steers a compass course, to the whole
// degree. For the sources and the errors see [NewToSteer].
func NewTrueCourse(steered angle.Compass, with course.With) (Problem, error) {
	drawn, err := course.FromCompass(steered, with)
	if err != nil {
		return Problem{}, err
	}
	v, err := variationOf(with)
	if err != nil {
		return Problem{}, err
	}
	question := fmt.Sprintf("The vessel steers %s; %s%s. What is the true course, to the degree?",
		exact(steered), v.says, toldOf(with.Deviation))
	compass := cardOf(with.Deviation)
	return conversion("true course", question, drawn, "true course", nil, 'T', func(c *calculation) (float64, error) {
		given := misreadGiven(c, steered.FromNorth())
		d, err := compass.onCompass(c, given)
		if err != nil {
			return 0, err
		}
		magnetic := angle.MagneticFrom(c.figureAngle(magneticFigure, given+appliedDeviation(c, d)))
		applied, _ := v.variation(c, 1)
		return reversed(c, angle.TrueFrom(magnetic.FromNorth()+applied).Degrees()), nil
	})
}

// NewPositionLine asks for the position line to draw from an object: the reciprocal of its true
// bearing, to the whole degree. The bearing is by the steering compass on a heading. The question
// names the object; without a name it returns an [*Error]. For the sources and the other errors
// see [NewToSteer].
func NewPositionLine(object string, bearing, head angle.Compass, with course.With) (Problem, error) {
	if strings.TrimSpace(object) == "" {
		return Problem{}, &Error{Reason: "the object has no name: give one, such as the beacon"}
	}
	heading, err := course.FromCompass(head, with)
	if err != nil {
		return Problem{}, err
	}
	v, err := variationOf(with)
	if err != nil {
		return Problem{}, err
	}
	question := fmt.Sprintf("Heading %s, %s bears %s; %s%s. What is the true direction of the position line from %s, to the degree?",
		exact(head), object, exact(bearing), v.says, toldOf(with.Deviation), object)
	drawn := heading.BearingFromCompass(bearing)
	back := working.Direction("reciprocal", "From the object", drawn.True().Reciprocal()).Because("reciprocal-of-bearing", "the reciprocal: 180° more or less")
	compass := cardOf(with.Deviation)
	return conversion("position line", question, drawn, "true bearing", working.Steps{back}, 'T', func(c *calculation) (float64, error) {
		heading, bearing := misread(c, head.FromNorth(), 4), angle.CompassFrom(misreadGiven(c, bearing.FromNorth()))
		if c.does(DeviationOfBearing) {
			heading = bearing.FromNorth()
		}
		d, err := compass.onCompass(c, heading)
		if err != nil {
			return 0, err
		}
		magnetic := angle.MagneticFrom(c.figureAngle(magneticFigure, bearing.FromNorth()+appliedDeviation(c, d)))
		applied, _ := v.variation(c, 1)
		t := angle.TrueFrom(c.figureAngle(trueFigure, magnetic.FromNorth()+applied))
		if c.does(ReciprocalForgotten) {
			return t.Degrees(), nil
		}
		return t.Reciprocal().Degrees(), nil
	})
}

// conversion returns the problem of a conversion, if it can be worked without slips. Its
// working is that of the conversion up to the step with the key last, then the steps after.
func conversion(topic, question string, drawn converted, last string, after working.Steps, north rune, work func(*calculation) (float64, error)) (Problem, error) {
	answer, err := work(&calculation{})
	if err != nil {
		return Problem{}, err
	}
	figure := orNaN(work)
	return Problem{
		Topic: topic, Question: question, Form: Direction, Rounding: 1,
		work: func(c *calculation) float64 {
			if c.steps == nil {
				return figure(c)
			}
			steps := drawn.Working().Steps
			at := slices.IndexFunc(steps, func(s working.Step) bool { return s.Key == last })
			c.step(steps[:at+1]...)
			c.step(after...)
			return answer
		},
		north: north,
		minor: minorOfConversions,
	}, nil
}

// reversed returns a course, or its reciprocal if that slip is made.
func reversed(c *calculation, degrees float64) float64 {
	if c.does(ReciprocalTaken) {
		return degrees + 180
	}
	return degrees
}

// exact returns a direction for a question: in tenths of a degree if it is a whole number of
// tenths, otherwise in degrees and minutes.
func exact[R angle.North](d angle.Direction[R]) string {
	if d.FromNorth()%(6*angle.Minute) == 0 {
		return d.String()
	}
	if d.FromNorth()%angle.Minute == 0 {
		return fmt.Sprintf("%.0v", d)
	}
	return fmt.Sprintf("%.1v", d)
}
