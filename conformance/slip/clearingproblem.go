package slip

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
	"lubberline.example/fix/danger"
)

// NewClearingBearing asks for the clearing bearing of a mark, to the whole degree. It is by the
// steering compass on a heading, and keeps the vessel a margin off a danger. leaveTo is the side
// on which a vessel that heads for the mark leaves the danger. For the sources see [NewToSteer];
// errors are also those of [danger.NewClearingBearing].
func NewClearingBearing(mark fix.Mark, rock angle.Position, margin sailing.Distance, leaveTo angle.Side, head angle.Compass, with course.With) (Problem, error) {
	limit, err := danger.NewClearingBearing(mark, rock, margin, leaveTo)
	if err != nil {
		return Problem{}, err
	}
	a, err := onHeading(head, with)
	if err != nil {
		return Problem{}, err
	}
	direct := sailing.WGS84().Rhumb(rock, mark.Position).Course // without the margin
	half := limit.Limit.Sub(direct)
	own, err := with.Deviation.OnCompass(head)
	if err != nil {
		return Problem{}, err
	}
	return made(Problem{
		Topic: "clearing bearing",
		Question: fmt.Sprintf("On heading %s a vessel heads for %s and leaves a rock (%s) %s M to %s. %s. What is the clearing bearing of the mark by the steering compass, to the degree?",
			exact(head), charted(mark), rock, plain(margin.NauticalMiles()), leaveTo, a.says()),
		Form: Direction, Rounding: 1, north: 'C', plotted: onChart, minor: append([]Kind{DeviationOfBearing, DeviationLeftOut, DeviationWrongWay, MarginLeftOut, DecimalYears}, minorOfConversions...),
	}, func() working.Steps { return upTo(limit.Working(a.heading).Steps, "compass bearing") }, func(c *calculation) (float64, error) {
		t := limit.Limit
		switch {
		case c.does(MarginLeftOut):
			t = direct
		case c.does(MarginWrongSide):
			t = direct.Add(-half)
		}
		t = angle.TrueFrom(c.figureAngle(trueFigure, t.FromNorth()))
		variation, _ := a.v.variation(c, 1)
		magnetic := angle.MagneticFrom(c.figureAngle(magneticFigure, t.FromNorth()-variation))
		if c.does(DeviationOfBearing) {
			d, err := with.Deviation.OnMagnetic(magnetic)
			return reversed(c, (magnetic.FromNorth() - withSlips(c, d.Angle())).Degrees()), err
		}
		return reversed(c, (magnetic.FromNorth() - appliedDeviation(c, own)).Degrees()), nil
	})
}
