package slip

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/stream"
)

// NewToSteerInWind asks for the course to steer by compass to make good a true course with
// leeway, to the whole degree. For the sources and the errors see [NewToSteer], and for the
// leeway [NewToSteerThroughStream].
func NewToSteerInWind(track angle.True, leeway stream.Leeway, with course.With) (Problem, error) {
	if err := checkLeeway(leeway); err != nil {
		return Problem{}, err
	}
	drawn, err := course.FromTrue(track.Add(-leeway.Deflection()), with)
	if err != nil {
		return Problem{}, err
	}
	v, err := variationOf(with)
	if err != nil {
		return Problem{}, err
	}
	card := cardOf(with.Deviation)
	return made(Problem{
		Topic: "course to steer in wind",
		Question: fmt.Sprintf("The course to make good is %s; %s; %s%s. What is the course to steer by compass, to the degree?",
			exact(track), windAndLeeway(leeway), v.says, toldOf(with.Deviation)),
		Form: Direction, Rounding: 1, north: 'C', minor: append([]Kind{LeewayLeftOut}, minorOfConversions...),
	}, func() working.Steps {
		steps := working.Steps{
			working.Direction("track", "Course to make good", track).Because("track-given", "given"),
			working.Direction("heading", "True heading", drawn.True()).Because("slip-toward-wind", "toward the wind by the leeway, %s", leewayText(leeway.Angle)),
		}
		return append(steps, upTo(drawn.Working().Steps, "compass course")...)
	}, func(c *calculation) (float64, error) {
		by := ofLeeway(c, leeway.Deflection())
		heading := c.figureAngle(trueFigure, angle.TrueFrom(misread(c, track.FromNorth(), 2)-by).FromNorth())
		compass, err := toCompass(c, v, heading, drawn.Magnetic(), card)
		return reversed(c, compass.Degrees()), err
	})
}

// ofLeeway returns the angle of a leeway with its slips. Without leeway there are none.
func ofLeeway(c *calculation, by angle.Angle) angle.Angle {
	switch {
	case by == 0:
	case c.does(LeewayWrongSide):
		return -by
	case c.does(LeewayLeftOut):
		return 0
	}
	return by
}
