package course

import (
	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// The rules in words. Each also says whether the sum passed through north.

// toMagnetic adds to a magnetic direction the rule by which it follows from the true one.
func toMagnetic(s working.Step, v variation.Variation, t angle.True) working.Step {
	switch east := v.Angle(); {
	case east == 0:
		s = s.Because("no-variation-magnetic", "no variation: magnetic is the same as true")
	case east > 0:
		s = s.Because("variation-east-magnetic-less", "variation is east: magnetic is less than true")
	default:
		s = s.Because("variation-west-magnetic-greater", "variation is west: magnetic is greater than true")
	}
	return through(s, t.FromNorth()-v.Angle())
}

// toTrue adds to a true direction the rule by which it follows from the magnetic one.
func toTrue(s working.Step, v variation.Variation, m angle.Magnetic) working.Step {
	switch east := v.Angle(); {
	case east == 0:
		s = s.Because("no-variation-true", "no variation: true is the same as magnetic")
	case east > 0:
		s = s.Because("variation-east-true-greater", "variation is east: true is greater than magnetic")
	default:
		s = s.Because("variation-west-true-less", "variation is west: true is less than magnetic")
	}
	return through(s, m.FromNorth()+v.Angle())
}

// toCompass adds to a direction by compass the rule by which it follows from the magnetic one.
func toCompass(s working.Step, d deviation.Deviation, m angle.Magnetic) working.Step {
	switch east := d.Angle(); {
	case east == 0:
		s = s.Because("no-deviation-compass", "no deviation: compass is the same as magnetic")
	case east > 0:
		s = s.Because("deviation-east-compass-less", "deviation is east: compass is less than magnetic")
	default:
		s = s.Because("deviation-west-compass-greater", "deviation is west: compass is greater than magnetic")
	}
	return through(s, m.FromNorth()-d.Angle())
}

// fromCompass adds to a magnetic direction the rule by which it follows from that by compass.
func fromCompass(s working.Step, d deviation.Deviation, c angle.Compass) working.Step {
	switch east := d.Angle(); {
	case east == 0:
		s = s.Because("no-deviation-magnetic", "no deviation: magnetic is the same as compass")
	case east > 0:
		s = s.Because("deviation-east-magnetic-greater", "deviation is east: magnetic is greater than compass")
	default:
		s = s.Because("deviation-west-magnetic-less", "deviation is west: magnetic is less than compass")
	}
	return through(s, c.FromNorth()+d.Angle())
}

// fromCompassByError adds to a true direction the rule by which it follows from that by compass.
func fromCompassByError(s working.Step, e angle.EastWest, c angle.Compass) working.Step {
	switch east := e.Angle(); {
	case east == 0:
		s = s.Because("no-compass-error-true", "no total compass error: true is the same as compass")
	case east > 0:
		s = s.Because("compass-error-east-true-greater", "total compass error is east: true is greater than compass")
	default:
		s = s.Because("compass-error-west-true-less", "total compass error is west: true is less than compass")
	}
	return through(s, c.FromNorth()+e.Angle())
}

// through adds whether a direction passed through north.
func through(s working.Step, sum angle.Angle) working.Step {
	switch {
	case sum >= angle.Turn:
		return s.Because("through-north-less", "through north, less 360°")
	case sum < 0:
		return s.Because("through-north-plus", "through north, plus 360°")
	}
	return s
}
