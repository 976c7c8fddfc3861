package slip

import (
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/tidal"
	"lubberline.example/deviation"
)

// doubledAngle draws a first angle on the bow and its double, and asks for the distance abeam.
func doubledAngle(d draw, _ *deviation.Table) (Problem, error) {
	first := angle.Angle(18+d.IntN(44)) * angle.Degree
	return NewTwoBearings(first, 2*first, sailing.Distance(d.tenths(2, 7))*sailing.NauticalMile, true)
}

// twoBearings draws two angles on the bow. Neither is the double of the other.
func twoBearings(d draw, _ *deviation.Table) (Problem, error) {
	first := angle.Angle(20+d.IntN(35)) * angle.Degree
	second := first + angle.Angle(15+d.IntN(50))*angle.Degree
	if second == 2*first {
		return Problem{}, errDraw
	}
	return NewTwoBearings(first, second, sailing.Distance(d.tenths(2, 6))*sailing.NauticalMile, d.IntN(2) == 0)
}

// height draws a height in metres.
func (d draw) height(least, span int) sailing.Distance {
	return sailing.Distance(least+d.IntN(span)) * sailing.Metre
}

// verticalAngle draws a light within its horizon.
func verticalAngle(d draw, _ *deviation.Table) (Problem, error) {
	height, index := d.height(25, 60), angle.Angle(0)
	off := 0.8 + 2.2*d.Float64()
	if d.hard > 0 {
		index = angle.Angle(10+d.IntN(30)) * angle.Minute / 10 * angle.Angle(1-2*d.IntN(2))
	}
	a, err := angle.Degrees(math.Atan(height.Metres()/off/1852) * 180 / math.Pi)
	if err != nil {
		return Problem{}, err
	}
	return NewVerticalAngle(height, a.Round(angle.Minute/10)+index, index, 10*sailing.Metre)
}

// dippingLight draws a light and a height of eye.
func dippingLight(d draw, _ *deviation.Table) (Problem, error) {
	return NewDippingLight(d.height(15, 60), d.height(2, 8))
}

// angleCircle draws two marks and the angle between them.
func angleCircle(d draw, _ *deviation.Table) (Problem, error) {
	order := d.marksInOrder()
	return NewAngleCircle(order[0], order[1], d.angle(25, 75))
}

// dangerAngle draws a light and the distance to keep.
func dangerAngle(d draw, _ *deviation.Table) (Problem, error) {
	return NewDangerAngle(d.height(20, 60), sailing.Distance(5+d.IntN(20))*sailing.Cable)
}

// clearingBearing draws a rock to seaward of a mark.
func clearingBearing(d draw, t *deviation.Table) (Problem, error) {
	with, mark := d.known(t), d.marksInOrder()[0]
	out := angle.TrueFrom(angle.Angle(200+d.IntN(130)) * angle.Degree)
	rock, err := sailing.WGS84().Follow(mark.Position, sailing.Run{Course: out, Distance: sailing.Distance(1.5+3*d.Float64()) * sailing.NauticalMile})
	if err != nil {
		return Problem{}, err
	}
	_, heading, err := d.headingBy(with)
	if err != nil {
		return Problem{}, err
	}
	head := angle.CompassFrom(heading.BearingFromTrue(out.Reciprocal()).Compass().FromNorth().Round(5 * angle.Degree))
	side := []angle.Side{angle.Port, angle.Starboard}[d.IntN(2)]
	return NewClearingBearing(mark, d.tenthOfMinute(rock), sailing.Distance(2+d.IntN(5))*sailing.Cable, side, head, with)
}

// tidalRate draws the table of a place whose stream turns, and a time.
func tidalRate(d draw, _ *deviation.Table) (Problem, error) {
	table := tidal.Table{Port: "Orlesk Harbour", SpringRange: 4.6 * sailing.Metre, NeapRange: 2.2 * sailing.Metre}
	place := tidal.Place{Name: string("ABCD"[d.IntN(4)])}
	set, most, turns := d.IntN(360), 1.5+2*d.Float64(), 3*d.Float64()
	for hour := -4; hour <= 4; hour++ {
		springs := math.Round(10*(0.4+most*math.Abs(math.Cos((float64(hour)+turns)*math.Pi/7)))) / 10
		place.Hours = append(place.Hours, tidal.Hour{
			Hour: hour, Set: angle.TrueFrom(angle.Angle((set+7*hour+360)%360) * angle.Degree),
			Springs: sailing.Speed(springs) * sailing.Knot, Neaps: sailing.Speed(math.Round(10*springs*(0.4+0.15*d.Float64()))/10) * sailing.Knot,
		})
	}
	table.Places = []tidal.Place{place}
	highWater := time.Date(exerciseYear, time.July, 1, 6+d.IntN(12), d.IntN(60), 0, 0, time.UTC)
	after := time.Duration(d.IntN(7)-3)*time.Hour + time.Duration(d.IntN(41)-20)*time.Minute
	low := sailing.Distance(5+d.IntN(10)) * sailing.Metre / 10
	spread := sailing.Distance(24+d.IntN(20)) * sailing.Metre / 10
	return NewTidalRate(table, place.Name, highWater, low+spread, low, highWater.Add(after))
}
