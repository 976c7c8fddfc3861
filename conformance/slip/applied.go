package slip

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// given is the variation of a conversion: a rose to be brought up to date, or the answer of
// another source, looked up once.
type given struct {
	rose   variation.Rose
	byRose bool
	year   int // of the date, in UTC

	value  angle.Angle
	change angle.Angle // since the roses of a chart were printed; 0 for other sources

	says string // for the question
}

// variationOf looks up the variation of a conversion.
func variationOf(with course.With) (given, error) {
	if err := variation.Missing(with.Variation, with.At, with.On); err != nil {
		return given{}, err
	}
	g := given{year: with.On.UTC().Year()}
	if rose, ok := roseOf(with.Variation); ok {
		// A rose that does not state its change leaves nothing to do.
		if _, stated := rose.Change.PerYear(); stated {
			g.rose, g.byRose = rose, true
			g.says = fmt.Sprintf("the rose says %s; the year is %d", rose, g.year)
			return g, nil
		}
	}
	var at angle.Position
	if with.At != nil {
		at = *with.At
	}
	e, err := variation.Explain(with.Variation, at, with.On)
	if err != nil {
		return given{}, err
	}
	g.value, g.change = e.Variation.Angle(), e.Change
	g.says = "the variation is " + g.value.EastWestString()
	if g.change != 0 {
		g.says = fmt.Sprintf("the variation is that of the chart in %s on %s", at, with.On.UTC().Format("2 January 2006"))
	}
	return g, nil
}

// roseOf returns the rose that a source is or points to.
func roseOf(source variation.Source) (variation.Rose, bool) {
	switch rose := source.(type) {
	case variation.Rose:
		return rose, true
	case *variation.Rose:
		if rose != nil {
			return *rose, true
		}
	}
	return variation.Rose{}, false
}

// variation returns the variation as applied, with its slips. The slips of applying it have
// variants that the caller must follow; variation returns which one is made.
func (g given) variation(c *calculation, ways int) (v angle.Angle, way int) {
	v = g.value
	if g.byRose {
		v = updated(c, g.rose, g.year)
	}
	if g.change != 0 {
		switch {
		case c.does(ChangeLeftOut):
			v -= g.change
		case c.does(ChangeWrongWay):
			v -= 2 * g.change
		case c.does(ChangeForVariation):
			v = g.change
		}
	}
	v = rounded(c, c.figureAngle(variationFigure, v), 1)
	for _, slip := range []struct {
		kind  Kind
		times angle.Angle
	}{{VariationWrongWay, -1}, {VariationLeftOut, 0}, {VariationTwice, 2}} {
		if way, does := c.way(slip.kind, ways); does {
			return slip.times * v, way
		}
	}
	return v, 0
}

// appliedDeviation returns a deviation as applied, with its slips.
func appliedDeviation(c *calculation, d deviation.Deviation) angle.Angle {
	return withSlips(c, c.figureAngle(deviationFigure, d.Angle()))
}

// withSlips returns a deviation as applied, with its slips.
func withSlips(c *calculation, a angle.Angle) angle.Angle {
	a = rounded(c, a, 2)
	switch {
	case c.does(DeviationWrongWay):
		return -a
	case c.does(DeviationLeftOut):
		return 0
	case c.does(DeviationTwice):
		return 2 * a
	}
	return a
}

// rounded returns a variation, 1, or a deviation, 2, as applied: exact, or first rounded to the
// whole or half degree, both of them or one.
func rounded(c *calculation, a angle.Angle, which int) angle.Angle {
	if way, does := c.way(RoundedOnTheWay, 5); does && (way == 2 || way == 2+which) {
		return a.Round(angle.Degree)
	}
	if way, does := c.way(HalfDegreeFirst, 3); does && (way == 0 || way == which) {
		return a.Round(angle.Degree / 2)
	}
	return a
}

// misreadGiven returns a direction given, or misread: ten degrees off, or with two figures exchanged. Of
// the ways to misread a figure, the first are in the answer.
func misreadGiven(c *calculation, a angle.Angle) angle.Angle {
	a = misread(c, a, 2)
	way, does := c.way(FiguresTransposed, 6)
	if !does || way < 4 {
		return a
	}
	as := Problem{Form: Direction, Rounding: 1}
	degrees := math.Floor(a.Degrees())
	if x := as.transposed(degrees, as.figures(degrees), way-4); x >= 0 {
		return a + angle.Angle(x-degrees)*angle.Degree
	}
	return a
}

// misread returns a figure given in degrees, or misread by ten. Of the ways to misread a figure,
// the first two are in the answer, and those of the figure begin at from.
func misread(c *calculation, a angle.Angle, from int) angle.Angle {
	switch way, does := c.way(TensMisread, from+2); {
	case does && way == from:
		return a + 10*angle.Degree
	case does && way == from+1:
		return a - 10*angle.Degree
	}
	return a
}

// off returns a given figure, or that figure and some more or less if that slip is made. From is the
// first of its two ways.
func off(c *calculation, k Kind, from int, x, by float64) float64 {
	switch way, does := c.way(k, from+2); {
	case does && way == from:
		return x + by
	case does && way == from+1:
		return x - by
	}
	return x
}

// toldOf returns the part of a question about the deviation. It is empty for a card.
func toldOf(source deviation.Source) string {
	var d deviation.Deviation
	switch known := source.(type) {
	case deviation.Deviation:
		d = known
	case *deviation.Deviation:
		if known != nil {
			d = *known
		}
	}
	if d.Angle() == 0 {
		return ""
	}
	return "; the deviation is " + d.Angle().EastWestString()
}

// byMagnetic reports whether a source is a card kept by magnetic headings.
func byMagnetic(source deviation.Source) bool {
	card, ok := source.(interface{ By() deviation.HeadingKind })
	return ok && card.By() == deviation.ByMagnetic
}

// toSteer looks up the deviation for converting a true course to compass, possibly with the
// heading by the wrong north.
func (k compassCard) toSteer(c *calculation, track angle.Angle, magnetic angle.Magnetic) (deviation.Deviation, error) {
	heading := magnetic.FromNorth()
	if k.byMagnetic {
		if c.does(DeviationOnTrue) {
			heading = track
		}
		d, err := k.OnMagnetic(angle.MagneticFrom(heading))
		return k.look(c, heading, d), err
	}
	switch {
	case c.does(DeviationOnMagnetic):
	case c.does(DeviationOnTrue):
		heading = track
	default:
		d, err := k.OnMagnetic(magnetic)
		return k.look(c, heading-d.Angle(), d), err
	}
	d, err := k.OnCompass(angle.CompassFrom(heading))
	return k.look(c, heading, d), err
}

// onCompass looks up the deviation of a compass heading.
func (k compassCard) onCompass(c *calculation, head angle.Angle) (deviation.Deviation, error) {
	d, err := k.OnCompass(angle.CompassFrom(head))
	if k.byMagnetic {
		head += d.Angle()
	}
	return k.look(c, head, d), err
}
