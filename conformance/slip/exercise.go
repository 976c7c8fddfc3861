package slip

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// A Difficulty says how hard the figures of an exercise are.
type Difficulty string

// The difficulties.
const (
	Easy   Difficulty = "easy"   // whole degrees and knots, few years
	Medium Difficulty = "medium" // minutes and tenths
	Hard   Difficulty = "hard"   // and large variations, both hemispheres, strong streams
)

// MaxExercises is the greatest number of exercises in one set.
const MaxExercises = 1000

// exerciseYear is the year for which exercises are set: it is part of what a seed draws.
const exerciseYear = 2026

// maker draws the figures of one exercise.
type maker func(draw, *deviation.Table) (Problem, error)

// makers are the topics with the functions that make their exercises, in teaching order.
var makers = []struct {
	topic string
	make  maker
}{
	{"variation", func(d draw, _ *deviation.Table) (Problem, error) { return NewRose(d.rose(), exerciseYear) }},
	{"course to steer", func(d draw, t *deviation.Table) (Problem, error) {
		return NewToSteer(angle.TrueFrom(d.direction()), d.with(t))
	}},
	{"true course", func(d draw, t *deviation.Table) (Problem, error) {
		return NewTrueCourse(angle.CompassFrom(d.direction()), d.with(t))
	}},
	{"position line", func(d draw, t *deviation.Table) (Problem, error) {
		objects := []string{"Orlesk Head light", "Minnow Ledge beacon", "Braddle Point tower"}
		bearing, head := d.direction(), d.direction()
		return NewPositionLine(objects[d.IntN(len(objects))], angle.CompassFrom(bearing), angle.CompassFrom(head), d.with(t))
	}},
	{"stream", func(d draw, _ *deviation.Table) (Problem, error) {
		rate := d.tenths(1, 2+d.hard)
		leeway := stream.Leeway{Angle: angle.Angle(3+d.IntN(8)) * angle.Degree, WindSide: []angle.Side{angle.Port, angle.Starboard}[d.IntN(2)]}
		flow := stream.Stream{Set: angle.TrueFrom(d.direction()), Rate: sailing.Speed(rate) * sailing.Knot}
		return NewToSteerThroughStream(angle.TrueFrom(d.direction()), sailing.Speed(d.tenths(5, 3))*sailing.Knot, flow, leeway)
	}},
	{"distance run", func(d draw, _ *deviation.Table) (Problem, error) {
		minutes := 60*(1+d.IntN(3+3*d.hard)) + d.IntN(60)
		return NewRun(sailing.Speed(d.tenths(4, 5))*sailing.Knot, time.Duration(minutes)*time.Minute)
	}},
	{"latitude", func(d draw, _ *deviation.Table) (Problem, error) {
		run := sailing.Run{Course: angle.TrueFrom(d.direction()), Distance: sailing.Distance(d.tenths(30, 60)) * sailing.NauticalMile}
		return NewLatitude(d.latitude(), run)
	}},
	{"difference of longitude", func(d draw, _ *deviation.Table) (Problem, error) {
		sign := float64(1 - 2*d.IntN(2))
		return NewDLong(d.latitude(), sailing.Distance(sign*d.tenths(20, 60))*sailing.NauticalMile)
	}},
	{"course to steer in wind", func(d draw, t *deviation.Table) (Problem, error) {
		return NewToSteerInWind(angle.TrueFrom(d.direction()), d.leeway(), d.known(t))
	}},
	{"rose against a model", roseAgainstModel},
	{"deviation card", cardReading},
	{"deviation by transit", deviationByTransit},
	{"deviation by the Sun's azimuth", deviationBySun},
	{"deviation by the Sun's amplitude", deviationByAmplitude},
	{"heading of a swing", swingHeading},
	{"coefficients", coefficient},
	{"fix by two bearings", fixBy(2)},
	{"fix by three bearings", fixBy(3)},
	{"fix by bearing and distance", fixByRange},
	{"running fix", runningFix},
	{"doubling the angle on the bow", doubledAngle},
	{"two bearings and the run", twoBearings},
	{"distance by vertical angle", verticalAngle},
	{"dipping light", dippingLight},
	{"horizontal-angle circle", angleCircle},
	{"vertical danger angle", dangerAngle},
	{"clearing bearing", clearingBearing},
	{"tidal stream", tidalRate},
	{"time of arrival", arrival},
	{"course and speed made good", madeGood},
	{"set and drift", setAndDrift},
	{"dead reckoning", reckoning(false)},
	{"estimated position", reckoning(true)},
	{"course and distance made good", func(d draw, _ *deviation.Table) (Problem, error) { return NewCourseMadeGood(d.legs(d.hard > 0)...) }},
	{"parallel sailing", bySailing(sailing.ParallelSailing)},
	{"middle-latitude sailing", bySailing(sailing.MidLatitudeSailing)},
	{"Mercator sailing", bySailing(sailing.MercatorSailing)},
	{"great circle", greatCircle},
}

// Topics returns the topics of exercises in teaching order: "variation", "course to steer" and
// so on. The caller may change the slice.
func Topics() []string {
	out := make([]string, len(makers))
	for i, m := range makers {
		out[i] = m.topic
	}
	return out
}

// draw draws figures of a difficulty.
type draw struct {
	*rand.Rand
	hard int
}

// angle draws an angle between two whole degrees, a whole degree if the exercise is easy.
func (d draw) angle(from, to int) angle.Angle {
	a := angle.Angle(from+d.IntN(to-from+1)) * angle.Degree
	if d.hard > 0 {
		a += angle.Angle(d.IntN(60)) * angle.Minute
	}
	return a
}

// direction draws a direction in tenths of a degree, or in whole degrees if the exercise is
// easy.
func (d draw) direction() angle.Angle {
	a := angle.Angle(d.IntN(360)) * angle.Degree
	if d.hard > 0 {
		a += angle.Angle(d.IntN(10)) * 6 * angle.Minute
	}
	return a
}

// tenths draws a number from least up, in tenths, or a whole number if the exercise is easy.
func (d draw) tenths(least, span int) float64 {
	n := 10 * (least + d.IntN(span+1))
	if d.hard > 0 {
		n += d.IntN(10)
	}
	return float64(n) / 10
}

// latitude draws a latitude, always north unless the exercise is hard.
func (d draw) latitude() angle.Latitude {
	north := angle.Angle(40+d.IntN(15))*angle.Degree + angle.Angle(d.IntN(60))*angle.Minute
	if d.hard > 1 && d.IntN(2) == 0 {
		north = -north
	}
	return angle.Must(angle.LatitudeFrom(north))
}

// rose draws a rose of some years ago.
func (d draw) rose() variation.Rose {
	v := d.angle(3, 8+7*d.hard)
	change := angle.Angle(4+d.IntN(9)) * angle.Minute
	if d.IntN(2) == 0 {
		v = -v
	}
	if d.IntN(2) == 0 {
		change = -change
	}
	return variation.Rose{
		Variation: variation.East(v), Year: exerciseYear - 3 - d.IntN(5+5*d.hard), Change: variation.Eastward(change),
		Step: angle.Minute, ChangeStep: angle.Minute,
	}
}

// with draws the rose of a conversion with the deviation of a compass.
func (d draw) with(compass *deviation.Table) course.With {
	return course.With{Variation: d.rose(), Deviation: compass, On: time.Date(exerciseYear, time.July, 1, 0, 0, 0, 0, time.UTC)}
}

// Exercises returns n exercises of a topic with invented figures, and with the deviation of a card.
// Topics without a steering compass do not use the card, which may then be nil. The same seed draws
// the same exercises in all versions of this module with the same minor number (v0.2.0, v0.2.1). A
// new minor version may draw others.
//
// The slips of each exercise give rounded answers that differ from the right one and from each
// other. Slips in figures do not count. In a conversion to the whole degree, some rare slips do not
// count either. They are a miscounted year, minutes carried at 100, a card entered with the wrong
// heading, and a correction applied twice. Each answer is at least a tenth of the last figure from
// where the rounding changes. So less careful working gives the same answer.
//
// For an unknown topic or difficulty, Exercises returns an [*angle.ParseError]. If n is not from
// 1 to [MaxExercises], it returns an [*angle.RangeError]. If hardly any figures make such an
// exercise, it returns an [*Error]: a card of zero deviations gives no exercises in deviation.
func Exercises(topic string, difficulty Difficulty, n int, seed uint64, card *deviation.Table) ([]Problem, error) {
	i := slices.Index(Topics(), topic)
	hard := slices.Index([]Difficulty{Easy, Medium, Hard}, difficulty)
	switch {
	case i < 0:
		return nil, &angle.ParseError{What: "topic", Input: topic, Kind: angle.UnknownWord, Want: strings.Join(Topics(), ", ")}
	case hard < 0:
		return nil, &angle.ParseError{What: "difficulty", Input: string(difficulty), Kind: angle.UnknownWord, Want: "easy, medium or hard"}
	case n < 1 || n > MaxExercises:
		return nil, &angle.RangeError{What: "number of exercises", Value: float64(n), Accepted: fmt.Sprintf("1 to %d", MaxExercises)}
	}
	d := draw{rand.New(rand.NewPCG(seed, uint64(i))), hard}
	var out []Problem
	for range 2000 * n {
		p, err := makers[i].make(d, card)
		if err != nil || p.nearTie() || !p.isClear() {
			continue // draw again
		}
		if out = append(out, p); len(out) == n {
			return out, nil
		}
	}
	return nil, &Error{Reason: fmt.Sprintf("%s, %s: found %d of %d exercises whose slips differ enough; ask for fewer, or give a card with deviations", topic, difficulty, len(out), n)}
}

// nearTie reports whether the answer is within a tenth of the last figure of a tie, where the
// rounding changes.
func (p Problem) nearTie() bool {
	if p.Form.isPair() {
		first, second := p.Pair(p.Answer())
		r1, r2 := p.roundings()
		return nearTie(first/r1) || nearTie(second/r2)
	}
	return nearTie(p.Answer() / p.Rounding)
}

// nearTie reports whether a number is within a tenth of a tie.
func nearTie(x float64) bool {
	_, part := math.Modf(math.Abs(x))
	return math.Abs(part-0.5) < 0.1
}
