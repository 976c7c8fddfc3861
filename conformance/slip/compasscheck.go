package slip

import (
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/deviation/check"
	"lubberline.example/deviation/sky"
)

// A comparison is a bearing by the steering compass of something whose true bearing is known.
type comparison struct {
	topic, asks string
	head        angle.Compass
	observed    angle.Compass
	with        course.With
	right       check.Check
}

// minorOfChecks are slips that seldom change a deviation enough, or are rare.
var minorOfChecks = []Kind{DecimalYears, MinutesAsDecimals, ChangeLeftOut, ChangeWrongWay, YearsMiscounted, MinutesAtHundred, ChangeForVariation, NameKept, RoundedOnTheWay, VariationTwice, BearingMisread, CountedWrongWay, CosineWrongWay, SineForCosine, NorthForSouth}

// reading returns a reading of the steering compass.
func reading(head, observed angle.Compass, with course.With) check.Reading {
	return check.Reading{Time: with.On, Heading: &head, Bearing: &observed, Variation: with.Variation, At: with.At}
}

// problem returns the problem of the deviation, given a function that returns the true bearing in
// degrees, with its slips.
func (o comparison) problem(bearing func(*calculation) (float64, error)) (Problem, error) {
	v, err := variationOf(o.with)
	if err != nil {
		return Problem{}, err
	}
	return made(Problem{
		Topic:    o.topic,
		Question: fmt.Sprintf("On heading %s, %s. %s. What is the deviation, to a tenth of a degree?", exact(o.head), o.asks, capital(v.says)),
		Form:     EastWest, Rounding: 0.1, minor: minorOfChecks,
	}, func() working.Steps { return upTo(o.right.Steps, "deviation") }, func(c *calculation) (float64, error) {
		t, err := bearing(c)
		if err != nil {
			return 0, err
		}
		switch way, does := c.way(RoundedOnTheWay, 7); {
		case does && way == 5:
			t = math.Round(t)
		case does && way == 6:
			t = math.Round(2*t) / 2
		}
		t = c.figure(Figure{Key: "true", What: "True bearing", Form: Direction, Rounding: 0.1, North: "T"}, t)
		observed := o.observed.Degrees()
		if way, does := c.way(BearingMisread, 2); does {
			observed += []float64{10, -10}[way]
		}
		applied, _ := v.variation(c, 1)
		d := math.Remainder(t-observed-applied.Degrees(), 360)
		if c.does(EastForWest) {
			d = -d
		}
		return d, nil
	})
}

// NewDeviation asks for the deviation by a transit or another known true direction, to a tenth of
// a degree. against names what was observed, such as "the transit of the beacons". The deviation
// of with is not used; for its variation see [NewToSteer]. Errors are those of
// [check.Reading.Against], and an [*Error] if against is empty.
func NewDeviation(against string, direction angle.True, observed, head angle.Compass, with course.With) (Problem, error) {
	if strings.TrimSpace(against) == "" {
		return Problem{}, &Error{Reason: "what was observed has no name: give one, such as the transit of the beacons"}
	}
	right, err := reading(head, observed, with).Against(against, direction, angle.Uncertainty{})
	if err != nil {
		return Problem{}, err
	}
	o := comparison{
		topic: "deviation by transit", head: head, observed: observed, with: with, right: right,
		asks: fmt.Sprintf("%s, charted as %s, bears %s", against, exact(direction), exact(observed)),
	}
	return o.problem(func(*calculation) (float64, error) { return direction.Degrees(), nil })
}

// northSouth prints an angle with N or S.
func northSouth(a angle.Angle) string { return Problem{Form: NorthSouth}.Print(a.Degrees()) }

// NewDeviationBySun asks for the deviation by the azimuth of the Sun, to a tenth of a degree. The
// azimuth follows from the declination and the Greenwich hour angle at the time of with. Errors
// are those of [check.Reading.AgainstSun].
func NewDeviationBySun(from angle.Position, observed, head angle.Compass, with course.With) (Problem, error) {
	with.At = &from
	right, err := reading(head, observed, with).AgainstSun(from)
	if err != nil {
		return Problem{}, err
	}
	sun, err := sky.Sun(with.On)
	if err != nil {
		return Problem{}, err
	}
	o := comparison{
		topic: "deviation by the Sun's azimuth", head: head, observed: observed, with: with, right: right,
		asks: fmt.Sprintf("at %s UTC in %s, the Sun bears %s; its declination is %s, its Greenwich hour angle %.1v",
			with.On.UTC().Format("1504"), from, exact(observed), northSouth(sun.Declination), sun.GreenwichHourAngle.Round(angle.Minute/10)),
	}
	return o.problem(func(c *calculation) (float64, error) {
		east, declination := from.Longitude.Angle(), sun.Declination
		if c.does(HourAngleWrongWay) {
			east = -east
		}
		if c.does(DeclinationContrary) {
			declination = -declination
		}
		east = misread(c, east, 2)
		if v, does := c.way(SumOff, 4); does && v >= 2 {
			east += []angle.Angle{angle.Degree, -angle.Degree}[v-2]
		}
		declination = misread(c, declination, 4)
		bearing, _, err := sky.Azimuth(from.Latitude, declination, sun.GreenwichHourAngle+east)
		azimuth := bearing.Degrees()
		if c.does(NorthForSouth) {
			azimuth = 180 - azimuth
		}
		if c.does(CountedWrongWay) {
			azimuth = 360 - azimuth
		}
		return azimuth, err
	})
}

// NewDeviationByAmplitude asks for the deviation by the amplitude of the Sun at its rising or
// setting, to a tenth of a degree. The Sun's centre is on the celestial horizon. The amplitude
// follows from the latitude and the declination on the date of with. Errors are those of
// [check.Reading.AgainstAmplitude].
func NewDeviationByAmplitude(event sky.Event, from angle.Position, observed, head angle.Compass, with course.With) (Problem, error) {
	with.At = &from
	right, err := reading(head, observed, with).AgainstAmplitude(event, sky.CelestialHorizon, from, 0)
	if err != nil {
		return Problem{}, err
	}
	sun, err := sky.Sun(with.On)
	if err != nil {
		return Problem{}, err
	}
	o := comparison{
		topic: "deviation by the Sun's amplitude", head: head, observed: observed, with: with, right: right,
		asks: fmt.Sprintf("in latitude %s, the Sun bears %s at its %s, with its centre on the celestial horizon; its declination is %s",
			from.Latitude, exact(observed), map[sky.Event]string{sky.Rise: "rising", sky.Set: "setting"}[event], northSouth(sun.Declination)),
	}
	return o.problem(func(c *calculation) (float64, error) {
		declination, latitude := misread(c, sun.Declination, 4).Degrees(), math.Abs(misread(c, from.Latitude.Angle(), 2).Degrees())
		switch v, does := c.way(MinutesAsDecimals, 5); {
		case does && v == 3:
			declination = asDecimals(declination)
		case does && v == 4:
			latitude = asDecimals(latitude)
		}
		sin, cos := math.Sin(declination*math.Pi/180), math.Cos(latitude*math.Pi/180)
		switch {
		case c.does(LatitudeIgnored):
			cos = 1
		case c.does(CosineWrongWay):
			cos = 1 / cos
		case c.does(SineForCosine):
			cos = math.Sin(latitude * math.Pi / 180)
		}
		amplitude := math.Asin(sin/cos) * 180 / math.Pi // NaN if there is none
		if c.does(DeclinationContrary) {
			amplitude = -amplitude
		}
		amplitude = c.figure(Figure{Key: "amplitude", What: "Amplitude", Form: NorthSouth, Rounding: 0.1 / 60}, amplitude)
		if rising := event == sky.Rise; rising != c.does(CountedWrongWay) {
			return 90 - amplitude, nil
		}
		return 270 + amplitude, nil
	})
}
