package slip

import (
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/variation"
)

// marks are the charted marks of the invented waters.
var marks = []fix.Mark{
	{Name: "Orlesk Head light", Position: angle.MustParsePosition("47°08.4′N 019°00.0′W")},
	{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")},
	{Name: "Braddle Point tower", Position: angle.MustParsePosition("46°47.5′N 019°01.0′W")},
	{Name: "St Osk church", Position: angle.MustParsePosition("46°57.0′N 019°03.0′W")},
}

// errDraw reports figures that make no good exercise. [Exercises] then draws again.
var errDraw = &Error{Reason: "figures that make no good exercise"}

// known draws a known variation, with the deviation of a compass.
func (d draw) known(compass *deviation.Table) course.With {
	v := d.angle(3, 8+7*d.hard)
	if d.hard > 0 {
		v = v.Round(angle.Degree / 2)
	}
	if d.IntN(2) == 0 {
		v = -v
	}
	return course.With{Variation: variation.East(v), Deviation: compass, On: time.Date(exerciseYear, time.July, 1, 0, 0, 0, 0, time.UTC)}
}

// offing draws a position to the west of the marks.
func (d draw) offing() angle.Position {
	return angle.Must(angle.PositionDegrees(float64(2812+d.IntN(16))/60+d.Float64()/60, -float64(1152+d.IntN(14))/60-d.Float64()/60))
}

// atSea reports whether a position is to the west of the marks, where the invented waters are.
func atSea(p angle.Position) bool { return p.Longitude.Degrees() < -19.2 }

// marksInOrder draws all marks in any order.
func (d draw) marksInOrder() []fix.Mark {
	out := make([]fix.Mark, len(marks))
	for i, at := range d.Perm(len(marks)) {
		out[i] = marks[at]
	}
	return out
}

// sight returns the bearing of a mark from a position by compass on a heading, read to the whole
// degree, or to the half if the exercise is hard.
func (d draw) sight(m fix.Mark, from angle.Position, heading course.Heading) Sighting {
	t := sailing.WGS84().Rhumb(from, m.Position).Course
	step := angle.Degree
	if d.hard > 1 {
		step /= 2
	}
	reading := heading.BearingFromTrue(t).Compass().FromNorth().Round(step)
	return Sighting{m, angle.CompassFrom(reading)}
}

// headingBy draws a heading by a compass.
func (d draw) headingBy(with course.With) (angle.Compass, course.Heading, error) {
	head := angle.CompassFrom(angle.Angle(d.IntN(72)*5) * angle.Degree)
	heading, err := course.FromCompass(head, with)
	return head, heading, err
}

// fixBy draws a fix by n bearings with good cuts.
func fixBy(n int) maker {
	return func(d draw, t *deviation.Table) (Problem, error) {
		with, at, order := d.known(t), d.offing(), d.marksInOrder()
		head, heading, err := d.headingBy(with)
		if err != nil {
			return Problem{}, err
		}
		var sightings []Sighting
		var lines []fix.Line
		for _, m := range order[:n] {
			s := d.sight(m, at, heading)
			sightings = append(sightings, s)
			lines = append(lines, fix.CompassBearing(m, heading.BearingFromCompass(s.Bearing), angle.Uncertainty{}))
		}
		f, err := fix.Solve(lines, fix.Options{})
		if err != nil {
			return Problem{}, err
		}
		for _, l := range lines { // a small cocked hat
			if math.Abs(l.Residual(f.Position()).Offset.NauticalMiles()) > 0.06 {
				return Problem{}, errDraw
			}
		}
		if _, _, cut := f.BestCut(); cut < 40*angle.Degree {
			return Problem{}, errDraw
		}
		return NewFix(sightings, head, with, order[n:3]...)
	}
}

// fixByRange draws a fix by a bearing and a distance.
func fixByRange(d draw, t *deviation.Table) (Problem, error) {
	with, at, order := d.known(t), d.offing(), d.marksInOrder()
	head, heading, err := d.headingBy(with)
	if err != nil {
		return Problem{}, err
	}
	off := math.Round(sailing.WGS84().Rhumb(at, order[0].Position).Distance.NauticalMiles()*10) / 10
	return NewFixByRange(d.sight(order[0], at, heading), sailing.Distance(off)*sailing.NauticalMile, head, with, order[1])
}

// runningFix draws a running fix by one mark or two.
func runningFix(d draw, t *deviation.Table) (Problem, error) {
	with, at, order := d.known(t), d.offing(), d.marksInOrder()
	head, heading, err := d.headingBy(with)
	if err != nil {
		return Problem{}, err
	}
	run := stream.ReckonedRun{
		Heading: heading.True(), Speed: sailing.Speed(d.tenths(4, 4)) * sailing.Knot, Lasts: time.Duration(20+5*d.IntN(9)) * time.Minute,
		Stream: stream.Stream{Set: angle.TrueFrom(d.direction()), Rate: sailing.Speed(d.tenths(1, 1+d.hard)) * sailing.Knot},
	}
	if d.hard > 0 {
		run.Leeway = stream.Leeway{Angle: angle.Angle(4+d.IntN(6)) * angle.Degree, WindSide: []angle.Side{angle.Port, angle.Starboard}[d.IntN(2)]}
	}
	then, err := stream.Estimate{Position: at}.Run(run)
	if err != nil {
		return Problem{}, err
	}
	if !atSea(then.Position) {
		return Problem{}, errDraw
	}
	again := order[d.IntN(2)] // the same mark or another
	first, second := d.sight(order[0], at, heading), d.sight(again, then.Position, heading)
	if cut := first.Bearing.Sub(second.Bearing).Abs(); cut < 35*angle.Degree || cut > 145*angle.Degree {
		return Problem{}, errDraw
	}
	return NewRunningFix(first, second, run, head, with, order[2])
}
