package slip

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// NewSailing asks for the course and distance between two positions, to the degree and to a tenth
// of a mile. The method is one of the sailings of the books. By parallel sailing, both positions
// are in one latitude, and the answer is the distance alone. Meridional parts are those of WGS84.
// Errors are those of [sailing.MidLatitude] and [sailing.Mercator], and an [*angle.ParseError]
// for another method.
func NewSailing(method sailing.Method, from, to angle.Position) (Problem, error) {
	switch method {
	case sailing.ParallelSailing:
		return newParallel(from, to)
	case sailing.MidLatitudeSailing, sailing.MercatorSailing:
	default:
		return Problem{}, &angle.ParseError{What: "method", Input: string(method), Kind: angle.UnknownWord, Want: "parallel, mid-latitude or mercator"}
	}
	right, err := sailing.MidLatitude(from, to)
	if method == sailing.MercatorSailing {
		right, err = sailing.Mercator(from, to, nil)
	}
	if err != nil {
		return Problem{}, err
	}
	parts := sailing.WGS84().MeridionalParts(to.Latitude) - sailing.WGS84().MeridionalParts(from.Latitude)
	words := map[sailing.Method]string{sailing.MidLatitudeSailing: "middle-latitude sailing", sailing.MercatorSailing: "Mercator sailing"}[method]
	by := words
	if method == sailing.MercatorSailing {
		by += ", with the meridional parts of WGS84"
	}
	return made(Problem{
		Topic:    words,
		Question: fmt.Sprintf("What are the true course and the distance from %s to %s by %s, to the degree and to a tenth of a mile?", from, to, by),
		Form:     CourseAndDistance, Rounding: 1, north: 'T',
		minor: []Kind{NorthForSouth, EastForWest, RoundedOnTheWay, SineForCosine, FirstLatitude, DividedForMultiplied, CosineWrongWay, MinutesAsDecimals},
	}, func() working.Steps { return right.Working().Steps }, func(c *calculation) (float64, error) {
		up, along, dlat := sidesOf(c, method, from.Latitude, parts, right.DLat.Minutes(), right.DLong.Minutes())
		if c.does(SineForCosine) {
			up, along = math.Copysign(along, up), math.Copysign(up, along)
		}
		sec := math.Hypot(up, along) / math.Abs(up)
		if v, does := c.way(RoundedOnTheWay, 3); does && v == 2 { // the course, before the distance
			sec = math.Abs(1 / math.Cos(math.Round(math.Atan2(along, up)*180/math.Pi)*math.Pi/180))
		}
		if method == sailing.MercatorSailing && up == 0 || dlat == 0 {
			return 0, &Error{Reason: "positions in one latitude are worked by parallel sailing"}
		}
		return courseAndDistance(c, ReciprocalTaken, up, along, func(float64) float64 {
			if c.does(DividedForMultiplied) {
				return math.Abs(dlat) / sec
			}
			return math.Abs(dlat) * sec
		}), nil
	})
}

// sidesOf returns the sides of the triangle that gives the course, and the difference of latitude
// that gives the distance, with their slips, in minutes.
func sidesOf(c *calculation, method sailing.Method, from angle.Latitude, parts, dlat, dlong float64) (up, along, rise float64) {
	if v, does := c.way(SumOff, 8); does && v >= 4 { // a degree in a difference
		one := []float64{60, -60}[v%2]
		if v < 6 {
			dlat += one
		} else {
			dlong += one
		}
	}
	if v, does := c.way(MinutesAsDecimals, 6); does && v == 4 {
		dlat = 60 * asDecimals(dlat/60)
	} else if does && v == 5 {
		dlong = 60 * asDecimals(dlong/60)
	}
	up, along = dlat, dlong
	if method == sailing.MercatorSailing {
		up = parts
		switch v, does := c.way(LatitudesForParts, 2); {
		case does && v == 0:
			up = dlat
		case does:
			dlat = parts // in the distance
		}
	} else {
		middle := from.Degrees() + dlat/120
		if c.does(FirstLatitude) {
			middle = from.Degrees()
		}
		cos := math.Cos(middle * math.Pi / 180)
		switch {
		case c.does(CosineLeftOut):
			cos = 1
		case c.does(CosineWrongWay):
			cos = 1 / cos
		}
		along *= cos
	}
	return up, along, dlat
}

// newParallel returns the problem of parallel sailing.
func newParallel(from, to angle.Position) (Problem, error) {
	right, err := sailing.MidLatitude(from, to)
	switch {
	case err != nil:
		return Problem{}, err
	case from.Latitude != to.Latitude:
		return Problem{}, &Error{Reason: "parallel sailing from " + from.String() + " to " + to.String() + ": give positions in one latitude"}
	}
	return made(Problem{
		Topic:    "parallel sailing",
		Question: fmt.Sprintf("A vessel sails along the parallel from %s to %s. What is the distance, by parallel sailing, to a tenth of a mile?", from, to),
		Form:     Miles, Rounding: 0.1, minor: []Kind{NamesIgnored, MinutesAsDecimals, MinutesAtHundred, StatuteForNautical},
	}, func() working.Steps { return right.Working().Steps }, func(c *calculation) (float64, error) {
		a, b := from.Longitude.Angle(), to.Longitude.Angle()
		dlong := right.DLong.Abs()
		if c.does(NamesIgnored) { // the sum for the difference, or the other way
			if dlong = a.Abs() + b.Abs(); (a < 0) != (b < 0) {
				dlong = (a.Abs() - b.Abs()).Abs()
			}
		}
		if c.does(MinutesAtHundred) {
			dlong = (asWritten(a) - asWritten(b)).Abs()
		}
		minutes := 60 * c.figure(Figure{Key: "d-long", What: "Difference of longitude", Form: Angle, Rounding: 0.1 / 60}, dlong.Degrees())
		if decimalsOnTheWay(c) {
			minutes = asDecimals(minutes/60) * 60
		}
		if v, does := c.way(SumOff, 4); does && v >= 2 {
			minutes += []float64{60, -60}[v-2]
		}
		cos := from.Latitude.Angle().Cos()
		switch {
		case c.does(CosineLeftOut):
			cos = 1
		case c.does(CosineWrongWay):
			cos = 1 / cos
		case c.does(SineForCosine):
			cos = from.Latitude.Angle().Abs().Sin()
		}
		miles := minutes * cos
		if v, does := c.way(StatuteForNautical, 2); does {
			miles *= []float64{statute, 1 / statute}[v]
		}
		return miles, nil
	})
}

// asWritten returns an angle whose degree has 100 minutes: 1°30′ is 130 of them.
func asWritten(a angle.Angle) angle.Angle {
	whole := a / angle.Degree
	return whole*100*angle.Minute + (a - whole*angle.Degree)
}

// NewGreatCircle asks for the initial course of a great circle on the sphere, to the degree. For
// opposite places, where every course is right, the answer is 000°. Errors are those of
// [sailing.Ellipsoid.GreatCircle].
func NewGreatCircle(from, to angle.Position) (Problem, error) {
	right, err := sailing.Sphere().GreatCircle(from, to)
	if err != nil {
		return Problem{}, err
	}
	return made(Problem{
		Topic:    "great circle",
		Question: fmt.Sprintf("What is the initial course of the great circle from %s to %s, to the degree?", from, to),
		Form:     Direction, Rounding: 1, north: 'T', minor: []Kind{RoundedOnTheWay, NamesIgnored},
	}, func() working.Steps { return upTo(right.Working().Steps, "initial course") }, func(c *calculation) (float64, error) {
		to, passage := to, right
		if other, changed := misnamed(c, from, to); changed {
			if to, err = angle.PositionDegrees(other.latitude, math.Remainder(other.longitude, 360)); err != nil {
				return math.NaN(), nil
			}
			if passage, err = sailing.Sphere().GreatCircle(from, to); err != nil {
				return math.NaN(), nil // no great circle, or any
			}
		}
		course := passage.Initial.Degrees()
		switch {
		case c.does(FinalForInitial):
			course = passage.Final.Degrees()
		case c.does(RhumbForGreatCircle):
			course = sailing.Sphere().Rhumb(from, to).Course.Degrees()
		}
		if c.does(EastForWest) {
			course = 360 - course
		}
		if c.does(NorthForSouth) {
			course = 180 - course
		}
		if c.does(ReciprocalTaken) {
			course += 180
		}
		return course, nil
	})
}

// A degreesOf is a position in degrees, of any size.
type degreesOf struct{ latitude, longitude float64 }

// misnamed returns the second position of a great circle as the triangle has it if names are ignored or
// a figure is misread, and whether that is so.
func misnamed(c *calculation, from, to angle.Position) (degreesOf, bool) {
	a, b := from.Longitude.Degrees(), to.Longitude.Degrees()
	latitude, dlong, changed := to.Latitude.Degrees(), math.Remainder(b-a, 360), false
	if v, does := c.way(NamesIgnored, 3); does && v > 0 {
		changed = true
		if v == 2 {
			latitude = -latitude
		} else {
			sum := math.Abs(a) + math.Abs(b) // for the difference, or the other way
			if (a < 0) != (b < 0) {
				sum = math.Abs(math.Abs(a) - math.Abs(b))
			}
			dlong = math.Copysign(min(sum, 360-sum), dlong)
		}
	}
	if v, does := c.way(TensMisread, 6); does && v >= 2 {
		changed = true
		off := []float64{10, -10}[v%2]
		if v < 4 {
			dlong += math.Copysign(off, dlong)
		} else {
			latitude += math.Copysign(off, latitude)
		}
	}
	return degreesOf{latitude, a + dlong}, changed
}
