package slip

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// NewCardReading asks for the deviation on a magnetic heading, to a tenth of a degree. The card
// may be kept by compass or by magnetic headings. Errors are those of the card.
func NewCardReading(card *deviation.Table, heading angle.Magnetic) (Problem, error) {
	if card == nil {
		return Problem{}, &variation.MissingInputError{What: "deviation card"}
	}
	right, err := card.OnMagnetic(heading)
	if err != nil {
		return Problem{}, err
	}
	drawn, err := course.FromMagnetic(heading, course.With{Variation: variation.East(0), Deviation: card})
	if err != nil {
		return Problem{}, err
	}
	rows := cardOf(card)
	return made(Problem{
		Topic:    "deviation card",
		Question: fmt.Sprintf("The magnetic heading is %s. What is the deviation by the card, to a tenth of a degree?", exact(heading)),
		Form:     EastWest, Rounding: 0.1, minor: []Kind{EastForWest},
	}, func() working.Steps {
		steps := drawn.Working().Steps
		at := slices.IndexFunc(steps, func(s working.Step) bool { return s.Key == "magnetic course" })
		return upTo(steps[max(at, 0):], "deviation")
	}, func(c *calculation) (float64, error) {
		d, at := right, heading.FromNorth()
		switch {
		case rows.byMagnetic:
		case c.does(DeviationOnMagnetic):
			taken, err := card.OnCompass(angle.CompassFrom(at))
			if err != nil {
				return 0, err
			}
			d = taken
		default:
			at -= d.Angle()
		}
		x := rows.look(c, at, d).Angle().Degrees()
		if c.does(EastForWest) {
			x = -x
		}
		return x, nil
	})
}

// points are the eight headings of a swing, in order.
var points = []string{"N", "NE", "E", "SE", "S", "SW", "W", "NW"}

// NewSwingHeading asks for the deviation on one heading of a swing, to a tenth of a degree. The
// bearings are those of a distant object by compass on the eight headings N, NE and so on. Their
// mean is its magnetic bearing. If a bearing is missing, or the heading is not one of the eight,
// it returns an [*Error].
func NewSwingHeading(bearings map[string]angle.Compass, heading string) (Problem, error) {
	said := make([]string, len(points))
	var first angle.Compass
	mean := func(step int) angle.Angle { // over every heading or every other one
		var sum angle.Angle
		for i := 0; i < len(points); i += step {
			sum += bearings[points[i]].Sub(first)
		}
		return first.FromNorth() + sum/angle.Angle(len(points)/step)
	}
	for i, point := range points {
		b, stated := bearings[point]
		if !stated {
			return Problem{}, &Error{Reason: "no bearing on " + point + ": give those on " + strings.Join(points, ", ")}
		}
		if i == 0 {
			first = b
		}
		said[i] = point + " " + exact(b)
	}
	at := slices.Index(points, heading)
	if at < 0 {
		return Problem{}, &Error{Reason: "heading " + heading + ": give one of " + strings.Join(points, ", ")}
	}
	return made(Problem{
		Topic:    "heading of a swing",
		Question: fmt.Sprintf("A vessel is swung, and a distant object bears by compass: %s. What is the deviation on %s, to a tenth of a degree?", strings.Join(said, ", "), heading),
		Form:     EastWest, Rounding: 0.1, minor: []Kind{BearingMisread, MeanOfSome, OtherHeading},
	}, func() working.Steps {
		magnetic, observed := angle.MagneticFrom(mean(1)), bearings[heading]
		return working.Steps{
			working.Direction("magnetic", "Magnetic bearing", magnetic).Because("mean-of-swing-bearings", "the mean of all compass bearings: the deviations cancel"),
			working.Direction("compass", "Compass bearing", observed).Because("read-on-heading", "read on %s", heading),
			working.EastWest("deviation", "Deviation", magnetic.Sub(angle.MagneticFrom(observed.FromNorth()))).Because("magnetic-minus-compass", "magnetic less compass"),
		}
	}, func(c *calculation) (float64, error) {
		magnetic := mean(1)
		if c.does(MeanOfSome) {
			magnetic = mean(2)
		}
		if way, does := c.way(RoundedOnTheWay, 4); does && way >= 2 {
			magnetic = magnetic.Round(angle.Degree / angle.Angle(way-1))
		}
		magnetic = c.figureAngle(Figure{Key: "magnetic", What: "Magnetic bearing", Form: Direction, Rounding: 0.1, North: "M"}, magnetic)
		on := at
		if v, does := c.way(OtherHeading, 3); does {
			on += []int{1, 7, 4}[v]
		}
		observed := bearings[points[on%len(points)]].FromNorth()
		if v, does := c.way(BearingMisread, 2); does {
			observed += []angle.Angle{10, -10}[v] * angle.Degree
		}
		d := math.Remainder((magnetic - observed).Degrees(), 360)
		if c.does(EastForWest) {
			d = -d
		}
		return d, nil
	})
}

// A rule is how a coefficient is found by hand: the headings that count, those of them whose name is
// changed, and the divisor.
type rule struct {
	plus, minus []string
	divisor     float64
}

// handRules are the rules of the coefficients.
var handRules = map[string]rule{
	"A": {points, nil, 8},
	"B": {[]string{"E"}, []string{"W"}, 2},
	"C": {[]string{"N"}, []string{"S"}, 2},
	"D": {[]string{"NE", "SW"}, []string{"SE", "NW"}, 4},
	"E": {[]string{"N", "S"}, []string{"E", "W"}, 4},
}

// of returns the sum for a coefficient by the rule, in degrees. Changed is what the name is changed by:
// -1 if it is changed as it should be. The deviation on the heading contrary, if any, has the wrong name.
func (r rule) of(deviations map[string]angle.Angle, changed float64, contrary string) float64 {
	sum := 0.0
	for i, h := range slices.Concat(r.plus, r.minus) {
		x := deviations[h].Degrees()
		if i >= len(r.plus) {
			x *= changed
		}
		if h == contrary {
			x = -x
		}
		sum += x
	}
	return sum
}

// worked returns a coefficient in degrees with its slips, given the rule of another that may be taken
// for it, or nil.
func (r rule) worked(c *calculation, deviations map[string]angle.Angle, other *rule) float64 {
	changed, contrary := -1.0, ""
	if other != nil && c.does(OtherCoefficient) {
		r = *other
	}
	const first = 3 // of the ways in which one name is wrong
	switch v, does := c.way(NamesIgnored, first+len(points)); {
	case does && v == 0:
		changed = 1
	case does && v >= first:
		contrary = points[v-first]
	}
	divisor := r.divisor
	if v, does := c.way(NotDivided, 2); does {
		divisor = []float64{1, divisor / 2}[v]
	}
	return r.of(deviations, changed, contrary) / divisor
}

// NewCoefficient asks for a coefficient, A to E, to a tenth of a degree. It is worked by the hand
// rules from the deviations on the eight headings N, NE and so on. Errors are those of
// [deviation.AnalyseByHand], and an [*Error] if the letter is not A to E.
func NewCoefficient(letter string, deviations map[string]angle.Angle) (Problem, error) {
	if _, known := handRules[letter]; !known {
		return Problem{}, &Error{Reason: "coefficient " + letter + ": give one of A, B, C, D, E"}
	}
	analysis, err := deviation.AnalyseByHand(deviations)
	if err != nil {
		return Problem{}, err
	}
	if analysis.Found != "ABCDE" {
		return Problem{}, &Error{Reason: "deviations on " + strings.Join(slices.Sorted(maps.Keys(deviations)), ", ") + ": give those on all eight headings"}
	}
	said := make([]string, len(points))
	for i, point := range points {
		said[i] = point + " " + tenths(deviations[point].Degrees())
	}
	hand := handRules[letter]
	var other *rule
	if letter != "A" {
		taken := handRules[map[string]string{"B": "C", "C": "B", "D": "E", "E": "D"}[letter]]
		other = &taken
	}
	minor := []Kind{NotDivided, NamesIgnored}
	return made(Problem{
		Topic:    "coefficients",
		Question: fmt.Sprintf("The deviations on the eight headings are: %s. What is coefficient %s by the hand rules, named E if plus and W if minus, to a tenth of a degree?", strings.Join(said, ", "), letter),
		Form:     EastWest, Rounding: 0.1, minor: minor,
	}, func() working.Steps {
		steps := analysis.Steps
		if at := slices.IndexFunc(steps, func(s working.Step) bool { return s.Key == letter }); at >= 0 {
			return steps[at : at+1]
		}
		return steps
	}, func(c *calculation) (float64, error) {
		x := hand.worked(c, deviations, other)
		if c.does(EastForWest) {
			x = -x
		}
		return x, nil
	})
}

// NewRoseAgainstModel asks for the difference of a rose from a model, to the minute. That is the
// variation of the rose, brought up to a year, minus that of the model. Errors are those of
// [NewRose].
func NewRoseAgainstModel(rose variation.Rose, year int, model variation.Variation) (Problem, error) {
	if _, err := NewRose(rose, year); err != nil {
		return Problem{}, err
	}
	projected, err := rose.InYear(year)
	if err != nil {
		return Problem{}, err
	}
	return made(Problem{
		Topic:    "rose against a model",
		Question: fmt.Sprintf("The rose says %s. A model gives %s for %d. What is the difference, rose less model, to the minute?", rose, model.Angle().EastWestString(), year),
		Form:     EastWest, Rounding: 1.0 / 60, minor: []Kind{DecimalYears, MinutesAtHundred, YearsMiscounted, NameKept, ChangeForVariation, MinutesAsDecimals},
	}, func() working.Steps {
		now := projected.Variation.Angle()
		return append(projected.Working(),
			working.EastWest("model", "Variation by the model", model.Angle()).Because("model-given", "given"),
			working.EastWest("difference", "Difference", now-model.Angle()).Because("rose-less-model", "rose less model, east positive"))
	}, func(c *calculation) (float64, error) {
		now := c.figureAngle(variationFigure, updated(c, rose, year))
		difference := now - model.Angle()
		switch {
		case c.does(NamesIgnored): // the sum for the difference, or the other way
			if difference = now.Abs() - model.Angle().Abs(); (now < 0) == (model.Angle() < 0) {
				difference = now + model.Angle()
			}
		case c.does(EastForWest):
			difference = -difference
		}
		return difference.Degrees(), nil
	})
}
