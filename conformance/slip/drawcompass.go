package slip

import (
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/deviation/sky"
	"lubberline.example/variation"
)

// observed returns what a compass shows for a true direction on a heading, read to a whole or half
// degree.
func (d draw) observed(t angle.True, heading course.Heading) angle.Compass {
	step := angle.Degree
	if d.hard > 0 {
		step /= 2
	}
	return angle.CompassFrom(heading.BearingFromTrue(t).Compass().FromNorth().Round(step))
}

// deviationByTransit draws a transit of two of the marks.
func deviationByTransit(d draw, t *deviation.Table) (Problem, error) {
	with, order := d.with(t), d.marksInOrder()
	head, heading, err := d.headingBy(with)
	if err != nil {
		return Problem{}, err
	}
	charted := angle.TrueFrom(sailing.WGS84().Rhumb(order[0].Position, order[1].Position).Course.FromNorth().Round(angle.Degree / 2))
	return NewDeviation("the transit of "+order[0].Name+" and "+order[1].Name, charted, d.observed(charted, heading), head, with)
}

// day draws a day of the year of the exercises.
func (d draw) day() time.Time {
	return time.Date(exerciseYear, time.January, 1+d.IntN(365), 0, 0, 0, 0, time.UTC)
}

// deviationBySun draws an azimuth of the Sun, not too high.
func deviationBySun(d draw, t *deviation.Table) (Problem, error) {
	with, from := d.known(t), d.tenthOfMinute(d.offing())
	with.On = d.day().Add(time.Duration(6*60+d.IntN(14*60)) * time.Minute)
	head, heading, err := d.headingBy(with)
	if err != nil {
		return Problem{}, err
	}
	sun, err := sky.Sun(with.On)
	if err != nil {
		return Problem{}, err
	}
	sight := sun.From(from)
	if sight.Altitude < 5*angle.Degree || sight.Altitude > 40*angle.Degree {
		return Problem{}, errDraw
	}
	return NewDeviationBySun(from, d.observed(sight.Azimuth, heading), head, with)
}

// deviationByAmplitude draws a rising or a setting of the Sun.
func deviationByAmplitude(d draw, t *deviation.Table) (Problem, error) {
	with, from := d.known(t), d.tenthOfMinute(d.offing())
	event := []sky.Event{sky.Rise, sky.Set}[d.IntN(2)]
	on, err := sky.Next(event, from, d.day())
	if err != nil {
		return Problem{}, err
	}
	with.On = on
	sun, err := sky.Sun(on)
	if err != nil {
		return Problem{}, err
	}
	both, err := sky.Amplitude(from.Latitude, sun.Declination)
	if err != nil || both.Amplitude().Abs() < 3*angle.Degree {
		return Problem{}, errDraw
	}
	head, heading, err := d.headingBy(with)
	if err != nil {
		return Problem{}, err
	}
	bearing := map[sky.Event]angle.True{sky.Rise: both.Rising, sky.Set: both.Setting}[event]
	return NewDeviationByAmplitude(event, from, d.observed(bearing, heading), head, with)
}

// cardReading draws a magnetic heading between the rows of a card.
func cardReading(d draw, t *deviation.Table) (Problem, error) {
	return NewCardReading(t, angle.MagneticFrom(d.direction()))
}

// coefficientsOf draws the deviations on the eight headings, in half degrees, or in tenths if the
// exercise is hard.
func (d draw) deviations() map[string]angle.Angle {
	size := func(most float64) float64 { return most * (2*d.Float64() - 1) }
	a, b, c, e := size(2), size(6), size(6), size(1)
	dd := 1 + 2*d.Float64()
	step := angle.Degree / 2
	if d.hard > 0 {
		step = 6 * angle.Minute
	}
	out := map[string]angle.Angle{}
	for i, point := range points {
		z := float64(i) * math.Pi / 4
		x := a + b*math.Sin(z) + c*math.Cos(z) + dd*math.Sin(2*z) + e*math.Cos(2*z)
		out[point] = angle.Must(angle.Degrees(x)).Round(step)
	}
	return out
}

// swingHeading draws a swing by a distant object.
func swingHeading(d draw, _ *deviation.Table) (Problem, error) {
	magnetic := d.direction()
	bearings := map[string]angle.Compass{}
	for point, deviation := range d.deviations() {
		bearings[point] = angle.CompassFrom(magnetic - deviation)
	}
	return NewSwingHeading(bearings, points[d.IntN(len(points))])
}

// coefficient draws a coefficient by hand.
func coefficient(d draw, _ *deviation.Table) (Problem, error) {
	return NewCoefficient(string("ABCDE"[d.IntN(5)]), d.deviations())
}

// roseAgainstModel draws a rose, and a model that differs by up to a degree.
func roseAgainstModel(d draw, _ *deviation.Table) (Problem, error) {
	rose := d.rose()
	now, err := rose.InYear(exerciseYear)
	if err != nil {
		return Problem{}, err
	}
	off := angle.Angle(10+d.IntN(50)) * angle.Minute * angle.Angle(1-2*d.IntN(2))
	return NewRoseAgainstModel(rose, exerciseYear, variation.East((now.Variation.Angle() + off).Round(angle.Minute)))
}
