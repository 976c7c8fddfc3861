package slip

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// A Compass is what directions are converted with: a chart's rose, the year, and the
// deviation of the vessel's compass.
type Compass struct {
	Rose      variation.Rose   // the chart's
	Year      int              // to which it is brought, in whole years
	Deviation deviation.Source // of the compass; [deviation.None] for none, nil is refused
}

// NewRose returns the problem of bringing the variation of a rose up to date, in whole
// years, to the minute. Its errors are that of [variation.Rose.InYear], and a
// *[ProblemError] for a rose that states no annual change.
func NewRose(rose variation.Rose, year int) (Problem, error) {
	if _, err := rose.InYear(year); err != nil {
		return Problem{}, err
	}
	if _, stated := rose.Change.PerYear(); !stated {
		return Problem{}, &ProblemError{Reason: "the rose states no annual change: want one, or variation.NoChange"}
	}
	return Problem{
		Topic:    "variation",
		Question: fmt.Sprintf("The rose says %s. What is the variation in %d, to the minute?", rose.Legend(), year),
		Form:     EastWest, Rounding: 1.0 / 60,
		work: func(c *calculation) float64 {
			v := updated(c, rose, year)
			if c.does(EastForWest) {
				v = -v
			}
			if c.does(MinutesAsDecimals) {
				whole := v / angle.Degree
				return float64(whole) + (v-whole*angle.Degree).Minutes()/100
			}
			return v.Degrees()
		},
	}, nil
}

// updated brings a rose up to date.
func updated(c *calculation, rose variation.Rose, year int) angle.Angle {
	printed, yearly := rose.Variation.Angle(), perYear(rose)
	c.step(working.EastWest("printed", fmt.Sprintf("Variation in %d", rose.Year), printed, "printed at the rose, annual change "+yearly.EastWest()))
	if c.does(ChangeLeftOut) {
		return printed
	}
	years := year - rose.Year
	if v, does := c.way(YearsMiscounted, 4); does {
		years += []int{1, -1, 10, -10}[v]
	}
	c.step(working.Step{Key: "years", What: "Years", Value: counted(years), Number: float64(years), Unit: "years", How: fmt.Sprintf("%d to %d", rose.Year, year)})
	change := yearly * angle.Angle(years)
	if c.does(ChangeWrongWay) {
		change = -change
	}
	c.step(working.EastWest("change", "Change", change, fmt.Sprintf("%s × %s", counted(years), yearly.EastWest())))
	v := printed + change
	if c.does(MinutesAtHundred) {
		v = carriedAtHundred(printed, change)
	}
	c.step(working.EastWest("variation", fmt.Sprintf("Variation in %d", year), v, "the printed one and the change: of the same name their sum, otherwise their difference, of the name of the greater"))
	return v
}

// reversed is a course, or the other way if that slip is made.
func reversed(c *calculation, degrees float64) float64 {
	if c.does(ReciprocalTaken) {
		return degrees + 180
	}
	return degrees
}

// counted is a number of years in words.
func counted(years int) string {
	if years == 1 || years == -1 {
		return fmt.Sprintf("%d year", years)
	}
	return fmt.Sprintf("%d years", years)
}

// byMagnetic reports whether a source is a card kept by magnetic headings.
func byMagnetic(source deviation.Source) bool {
	card, ok := source.(interface{ By() deviation.By })
	return ok && card.By() == deviation.ByMagnetic
}

// exact is a direction as a question gives it: in degrees and tenths if it is in whole
// tenths, otherwise in degrees and minutes.
func exact[R angle.North](d angle.Direction[R]) string {
	if d.FromNorth()%(6*angle.Minute) == 0 {
		return d.String()
	}
	return working.Direction("", "", d, "").Value
}

// perYear is the annual change of a rose that was checked.
func perYear(rose variation.Rose) angle.Angle {
	yearly, _ := rose.Change.PerYear()
	return yearly
}

// carriedAtHundred sums two angles as if a degree had a hundred minutes.
func carriedAtHundred(a, b angle.Angle) angle.Angle {
	if a < 0 {
		return -carriedAtHundred(-a, -b)
	}
	degrees := a / angle.Degree
	hundredths := 100*(degrees*angle.Minute) + (a - degrees*angle.Degree) + b
	if hundredths < 0 { // it changed its name: no figures to carry
		return a + b
	}
	whole := hundredths / (100 * angle.Minute)
	return whole*angle.Degree + hundredths - whole*100*angle.Minute
}

// variation works the variation that a conversion takes, with its slips of sign.
func (k Compass) variation(c *calculation) angle.Angle {
	v := updated(c, k.Rose, k.Year)
	switch {
	case c.does(VariationWrongWay):
		return -v
	case c.does(VariationLeftOut):
		return 0
	}
	return v
}

// signed works a deviation with its slips of sign.
func signed(c *calculation, d deviation.Deviation, heading string) angle.Angle {
	c.step(working.EastWest("deviation", "Deviation", d.Angle(), "from the card, for the ship's head "+heading))
	switch {
	case c.does(DeviationWrongWay):
		return -d.Angle()
	case c.does(DeviationLeftOut):
		return 0
	}
	return d.Angle()
}

// NewToSteer returns the problem of the course to steer by compass for a true course, to
// the whole degree. Its errors are those of the sources, and a *[ProblemError] if there is no
// source of deviation.
func NewToSteer(track angle.True, k Compass) (Problem, error) {
	work := func(c *calculation) (float64, error) {
		c.step(working.Direction("true", "True course", track, "given"))
		magnetic := angle.MagneticFrom(track.FromNorth() - k.variation(c))
		c.step(working.Direction("magnetic", "Magnetic course", magnetic, "less an easterly variation, plus a westerly one"))
		d, err := k.Deviation.OnMagnetic(magnetic)
		by := byMagnetic(k.Deviation)
		if !by && c.does(DeviationOnMagnetic) {
			d, err = k.Deviation.OnCompass(angle.CompassFrom(magnetic.FromNorth()))
		} else if !by && c.does(DeviationOnTrue) {
			d, err = k.Deviation.OnCompass(angle.CompassFrom(track.FromNorth()))
		}
		if err != nil {
			return 0, err
		}
		head := magnetic.String()
		if !by {
			head = angle.CompassFrom(magnetic.FromNorth()-d.Angle()).String() + ", found by trial"
		}
		compass := angle.CompassFrom(magnetic.FromNorth() - signed(c, d, head))
		c.step(working.Direction("compass", "Compass course", compass, "less an easterly deviation, plus a westerly one"))
		return reversed(c, compass.Degrees()), nil
	}
	return k.problem('C', "course to steer", fmt.Sprintf("The course is %s; the rose says %s; the year is %d. What is the course to steer by compass, to the degree?",
		exact(track), k.Rose.Legend(), k.Year), func(w course.With) (dial, error) { return course.FromTrue(track, w) }, work)
}

// NewMade returns the problem of the true course of a vessel that steers one by compass,
// to the whole degree.
func NewMade(steered angle.Compass, k Compass) (Problem, error) {
	work := func(c *calculation) (float64, error) {
		c.step(working.Direction("compass", "Compass course", steered, "given"))
		d, err := k.Deviation.OnCompass(steered)
		if err != nil {
			return 0, err
		}
		magnetic := angle.MagneticFrom(steered.FromNorth() + signed(c, d, steered.String()))
		c.step(working.Direction("magnetic", "Magnetic course", magnetic, "plus an easterly deviation, less a westerly one"))
		t := angle.TrueFrom(magnetic.FromNorth() + k.variation(c))
		c.step(working.Direction("true", "True course", t, "plus an easterly variation, less a westerly one"))
		return reversed(c, t.Degrees()), nil
	}
	return k.problem('T', "true course", fmt.Sprintf("She steers %s; the rose says %s; the year is %d. What is the true course, to the degree?",
		exact(steered), k.Rose.Legend(), k.Year), func(w course.With) (dial, error) { return course.FromCompass(steered, w) }, work)
}

// NewPositionLine returns the problem of the true bearing of a vessel from an object that
// bears so by her compass while she heads so: the line to lay off from the object, to the
// whole degree.
func NewPositionLine(object string, bearing, head angle.Compass, k Compass) (Problem, error) {
	work := func(c *calculation) (float64, error) {
		c.step(working.Direction("compass", "Compass bearing", bearing, "given"))
		d, err := k.Deviation.OnCompass(head)
		if c.does(DeviationOfBearing) {
			d, err = k.Deviation.OnCompass(bearing)
		}
		if err != nil {
			return 0, err
		}
		magnetic := angle.MagneticFrom(bearing.FromNorth() + signed(c, d, head.String()))
		c.step(working.Direction("magnetic", "Magnetic bearing", magnetic, "plus an easterly deviation, less a westerly one"))
		t := angle.TrueFrom(magnetic.FromNorth() + k.variation(c))
		c.step(working.Direction("true", "True bearing", t, "plus an easterly variation, less a westerly one"))
		if c.does(ReciprocalForgotten) {
			return t.Degrees(), nil
		}
		c.step(working.Direction("reciprocal", "From the object", t.Reciprocal(), "the other way: 180° more or less"))
		return t.Reciprocal().Degrees(), nil
	}
	return k.problem('T', "position line", fmt.Sprintf("Heading %s, %s bears %s; the rose says %s; the year is %d. In what true direction does the position line run from it, to the degree?",
		exact(head), object, exact(bearing), k.Rose.Legend(), k.Year), func(w course.With) (dial, error) {
		h, err := course.FromCompass(head, w)
		if err != nil {
			return nil, err
		}
		return h.BearingFromCompass(bearing), nil
	}, work)
}

// with is the compass as package course takes it.
func (k Compass) with() (course.With, error) {
	if k.Deviation == nil {
		return course.With{}, &ProblemError{Reason: "no source of deviation: want a card, or deviation.None"}
	}
	projection, err := k.Rose.InYear(k.Year)
	return course.With{Variation: projection.Variation, Deviation: k.Deviation}, err
}

// problem makes a problem of a conversion, if it can be worked without slips.
func (k Compass) problem(north rune, topic, question string, drawn func(course.With) (dial, error), work func(*calculation) (float64, error)) (Problem, error) {
	with, err := k.with()
	if err != nil {
		return Problem{}, err
	}
	figure, err := drawn(with)
	if err != nil {
		return Problem{}, err
	}
	if _, err := work(&calculation{}); err != nil {
		return Problem{}, err
	}
	return Problem{Topic: topic, Question: question, Form: Direction, Rounding: 1, work: orNothing(work), drawn: figure, north: north,
		minor: []Kind{YearsMiscounted, MinutesAtHundred, DeviationOnMagnetic, DeviationOnTrue}}, nil
}
