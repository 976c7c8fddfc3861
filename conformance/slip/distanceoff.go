package slip

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
	"lubberline.example/fix/danger"
)

// miles returns a step of a distance in nautical miles.
func milesStep(key, what string, miles float64) working.Step {
	return working.Step{Key: key, What: what, Value: fmt.Sprintf("%.1f M", miles), Number: miles, Unit: "nautical miles"}
}

// metres prints a height for a question.
func metres(h sailing.Distance) string { return plain(h.Metres()) + " m" }

// feet returns a height that was read in the wrong unit, if that slip is made.
func feet(c *calculation, h float64) float64 {
	if v, does := c.way(FeetForMetres, 2); does {
		return h * []float64{0.3048, 1 / 0.3048}[v]
	}
	return h
}

// inStatute returns a distance in the wrong miles, if that slip is made.
func inStatute(c *calculation, miles float64) float64 {
	if v, does := c.way(StatuteForNautical, 2); does {
		return miles * []float64{statute, 1 / statute}[v]
	}
	return miles
}

// NewTwoBearings asks for the distance off an object, to a tenth of a mile. It is worked by two
// angles on the bow and the run between them. If abeam is true, the distance is that abeam;
// otherwise it is that at the second bearing. Errors are those of [fix.ByTwoBearings].
func NewTwoBearings(first, second angle.Angle, run sailing.Distance, abeam bool) (Problem, error) {
	right, err := fix.ByTwoBearings(first, second, run)
	if err != nil {
		return Problem{}, err
	}
	first, second = first.Abs(), second.Abs()
	topic, asks, last := "two bearings and the run", "off at the second bearing", "distance"
	if second == 2*first {
		topic = "doubling the angle on the bow"
	}
	if abeam {
		asks, last = "when the object is abeam", "abeam"
	}
	return made(Problem{
		Topic: topic,
		Question: fmt.Sprintf("An object bears %s on the bow. After a run of %s M over the ground it bears %s on the same bow. What is the distance %s, to a tenth of a mile?",
			bow(first), plain(run.NauticalMiles()), bow(second), asks),
		Form: Miles, Rounding: 0.1, minor: []Kind{StatuteForNautical, OtherDistance, RunForDistance, SineForCosine},
	}, func() working.Steps { return upTo(right.Working().Steps, last) }, func(c *calculation) (float64, error) {
		off, a, b := run.NauticalMiles(), misread(c, first, 2), misread(c, second, 4)
		if v, does := c.way(TensMisread, 8); does && v >= 6 {
			off += []float64{10, -10}[v-6]
		}
		if v, does := c.way(SumOff, 4); does && v >= 2 {
			off += []float64{1, -1}[v-2]
		}
		if b <= a || off <= 0 {
			return math.NaN(), nil
		}
		factor := a.Sin() / (b - a).Sin()
		if second != 2*first { // otherwise the run is the distance
			switch {
			case c.does(RunForDistance):
				factor = 1
			case c.does(DividedForMultiplied):
				factor = 1 / factor
			}
		}
		off = c.figure(Figure{Key: "distance", What: "Distance off at the second bearing", Form: Miles, Rounding: 0.1}, off*factor)
		if c.does(OtherDistance) != abeam {
			return inStatute(c, off*b.Sin()), nil
		}
		if abeam && c.does(SineForCosine) {
			return math.Abs(off * b.Cos()), nil
		}
		return inStatute(c, off), nil
	})
}

// bow prints an angle on the bow.
func bow(a angle.Angle) string {
	if a%angle.Degree == 0 {
		return fmt.Sprintf("%d°", int64(a/angle.Degree))
	}
	return plain(a.Degrees()) + "°"
}

// NewVerticalAngle asks for the distance off an object of known height, to a tenth of a mile. It
// is worked by the sextant angle between its top and the water line. A positive index error is on
// the arc, and is subtracted. Errors are those of [fix.DistanceByVerticalAngle].
func NewVerticalAngle(height sailing.Distance, sextant, indexError angle.Angle, heightOfEye sailing.Distance) (Problem, error) {
	right, err := fix.DistanceByVerticalAngle(height, sextant-indexError, heightOfEye)
	if err != nil {
		return Problem{}, err
	}
	return made(Problem{
		Topic: "distance by vertical angle",
		Question: fmt.Sprintf("The angle between the top of a light, %s above the water, and the water line below it is %.1v by sextant. %s. What is the distance off, to a tenth of a mile?",
			metres(height), sextant, indexOf(indexError)),
		Form: Miles, Rounding: 0.1, minor: []Kind{StatuteForNautical, IndexError, MinutesAsDecimals, DividedForMultiplied},
	}, func() working.Steps {
		corrected := sextant - indexError
		return working.Steps{
			working.Step{Key: "angle", What: "Corrected angle", Value: fmt.Sprintf("%.1v", corrected), Number: corrected.Degrees(), Unit: "degrees"}.Because("index-error-off", "index error on the arc is subtracted, off the arc added"),
			milesStep("distance", "Distance off", right.NauticalMiles()).Because("slip-height-over-tangent", "height ÷ tangent of the angle"),
		}
	}, func(c *calculation) (float64, error) {
		index := indexError
		if v, does := c.way(IndexError, 2); does {
			index = []angle.Angle{-indexError, 0}[v]
		}
		degrees := c.figure(Figure{Key: "angle", What: "Corrected angle", Form: Angle, Rounding: 0.1 / 60}, (sextant - index).Degrees())
		if decimalsOnTheWay(c) {
			degrees = asDecimals(degrees)
		}
		degrees = off(c, TensMisread, 4, degrees, 10.0/60)
		h := feet(c, off(c, TensMisread, 2, height.Metres(), 10))
		miles := h / math.Tan(degrees*math.Pi/180) / 1852
		if degrees <= 0 || h <= 0 {
			return math.NaN(), nil
		}
		if c.does(DividedForMultiplied) {
			miles = 1 / miles
		}
		return inStatute(c, miles), nil
	})
}

// indexOf returns the words about an index error, for a question.
func indexOf(e angle.Angle) string {
	switch {
	case e > 0:
		return fmt.Sprintf("The index error is %.1f′ on the arc", e.Minutes())
	case e < 0:
		return fmt.Sprintf("The index error is %.1f′ off the arc", -e.Minutes())
	}
	return "There is no index error"
}

// NewDippingLight asks for the distance off a light that has just risen or dipped, to a tenth of
// a mile. The refraction is [fix.HorizonTable]. Errors are those of [fix.GeographicRange].
func NewDippingLight(heightOfLight, heightOfEye sailing.Distance) (Problem, error) {
	right, err := fix.GeographicRange(heightOfLight, heightOfEye, fix.HorizonTable)
	if err != nil {
		return Problem{}, err
	}
	horizon := func(h float64) (float64, error) {
		d, err := fix.Horizon(sailing.Distance(h), fix.HorizonTable)
		return d.NauticalMiles(), err
	}
	light, eye := heightOfLight.Metres(), heightOfEye.Metres()
	return made(Problem{
		Topic:    "dipping light",
		Question: fmt.Sprintf("A light %s high has just dipped. The height of eye is %s. Take the distance of the horizon as 2.12 M × the root of the height in metres. What is the distance off, to a tenth of a mile?", metres(heightOfLight), metres(heightOfEye)),
		Form:     Miles, Rounding: 0.1, minor: []Kind{StatuteForNautical},
	}, func() working.Steps {
		a, _ := horizon(light)
		b, _ := horizon(eye)
		return working.Steps{
			milesStep("light", "Horizon of the light", a).Because("horizon-of-height", "2.12 × root of %s", metres(heightOfLight)),
			milesStep("eye", "Horizon of the eye", b).Because("horizon-of-height", "2.12 × root of %s", metres(heightOfEye)),
			milesStep("distance", "Distance off", right.NauticalMiles()).Because("sum-of-horizons", "the sum of both"),
		}
	}, func(c *calculation) (float64, error) {
		h, e := feet(c, off(c, TensMisread, 2, light, 10)), feet(c, off(c, TensMisread, 4, eye, 10))
		if h < 0 || e < 0 {
			return math.NaN(), nil
		}
		if c.does(HeightsAdded) {
			h, e = h+e, 0
		}
		if v, does := c.way(HeightLeftOut, 2); does {
			h, e = []float64{h, e}[v], 0
		}
		a, err := horizon(h)
		if err != nil {
			return 0, err
		}
		b, err := horizon(e)
		return inStatute(c, a+b), err
	})
}

// NewAngleCircle asks for the radius of the circle on which two marks subtend a horizontal angle,
// to a tenth of a mile. Errors are those of [fix.HorizontalAngle].
func NewAngleCircle(left, right fix.Mark, subtended angle.Angle) (Problem, error) {
	if _, err := fix.HorizontalAngle(left, right, subtended, angle.Uncertainty{}); err != nil {
		return Problem{}, err
	}
	apart := sailing.WGS84().Rhumb(left.Position, right.Position).Distance.NauticalMiles()
	apart = math.Round(apart*10) / 10
	if apart < 0.1 {
		return Problem{}, &Error{Reason: "marks less than a tenth of a mile apart: give others"}
	}
	radius := apart / 2 / subtended.Sin()
	return made(Problem{
		Topic: "horizontal-angle circle",
		Question: fmt.Sprintf("%s and %s are %.1f M apart. The horizontal angle between them is %.0v. What is the radius of the circle of position, to a tenth of a mile?",
			left.Name, right.Name, apart, subtended),
		Form: Miles, Rounding: 0.1, minor: []Kind{MinutesAsDecimals, DividedForMultiplied, StatuteForNautical},
	}, func() working.Steps {
		return working.Steps{
			working.Step{Key: "half", What: "Half the distance", Value: fmt.Sprintf("%.2f M", apart/2), Number: apart / 2, Unit: "nautical miles"}.Because("half-the-chord", "of the marks, which is a chord of the circle"),
			milesStep("radius", "Radius", radius).Because("half-chord-over-sine", "half the distance ÷ sine of the angle"),
		}
	}, func(c *calculation) (float64, error) {
		chord := off(c, SumOff, 2, apart, 1)
		half := chord / 2
		if c.does(NotDivided) {
			half = chord
		}
		degrees := off(c, TensMisread, 2, subtended.Degrees(), 10)
		if chord <= 0 || degrees <= 0 || degrees >= 180 {
			return math.NaN(), nil
		}
		if decimalsOnTheWay(c) {
			degrees = asDecimals(degrees)
		}
		sin := math.Sin(degrees * math.Pi / 180)
		if c.does(SineForCosine) {
			sin = math.Abs(math.Cos(degrees * math.Pi / 180))
		}
		if c.does(DividedForMultiplied) {
			sin = 1 / sin
		}
		return inStatute(c, half/sin), nil
	})
}

// NewDangerAngle asks for the vertical danger angle of an object of known height at a distance,
// to a tenth of a minute. Errors are those of [danger.VerticalAngle].
func NewDangerAngle(height, distance sailing.Distance) (Problem, error) {
	right, err := danger.VerticalAngle(height, distance, danger.Outside)
	if err != nil {
		return Problem{}, err
	}
	return made(Problem{
		Topic:    "vertical danger angle",
		Question: fmt.Sprintf("A light is %s high. What is the vertical danger angle for %s M off it, to a tenth of a minute?", metres(height), plain(distance.NauticalMiles())),
		Form:     Angle, Rounding: 0.1 / 60, minor: []Kind{MinutesAsDecimals},
	}, func() working.Steps { return upTo(right.Working().Steps, "limit") }, func(c *calculation) (float64, error) {
		h, miles := feet(c, off(c, TensMisread, 2, height.Metres(), 10)), inStatute(c, off(c, SumOff, 6, distance.NauticalMiles(), 1))
		if h <= 0 || miles <= 0 {
			return math.NaN(), nil
		}
		degrees := math.Atan(h/(miles*1852)) * 180 / math.Pi
		switch v, does := c.way(MinutesAsDecimals, 3); {
		case does && v == 0: // 0°17.7′ is taken as 0.177°
			return asDecimals(degrees), nil
		case does && v == 2: // 0.295° is written as 0°29.5′
			whole, part := math.Modf(degrees)
			return whole + part*100/60, nil
		}
		return degrees, nil
	})
}
