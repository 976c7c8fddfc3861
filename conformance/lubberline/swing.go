package lubberline

import (
	"errors"
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/deviation"
	"lubberline.example/deviation/swing"
	"lubberline.example/variation"
)

// swings are the operations of a swing and of what is posted after it.
var swings = map[string]conformance.Operation{
	"deviation.swing":     conformance.On(reduceSwing),
	"deviation.card":      conformance.On(card),
	"deviation.onCompass": conformance.On(onCompass),
	"check.deviation": conformance.On(func(g struct{ ErrorDegrees, VariationDegrees float64 }) (conformance.Answer, error) {
		e, err := angle.Degrees(g.ErrorDegrees)
		if err != nil {
			return nil, err
		}
		v, err := angle.Degrees(g.VariationDegrees)
		if err != nil {
			return nil, err
		}
		// True north stands in for the object: the error is what its compass bearing is out by.
		d := deviation.Between(variation.East(v).Magnetic(angle.True{}), angle.CompassFrom(-e))
		return conformance.Answer{"deviationDegrees": d.Degrees()}, nil
	}),
}

type swingGiven struct {
	Method                          string
	HeadingsDegrees                 []float64 // by the compass that is swung
	BearingsDegrees                 []float64 // of the object, by that compass
	MagneticDegrees                 []float64 // headings by a compass clear of iron
	ObjectDegrees, VariationDegrees float64
}

// reduceSwing reduces the readings of a swing to deviations.
func reduceSwing(g swingGiven) (conformance.Answer, error) {
	v, err := angle.Degrees(g.VariationDegrees)
	if err != nil {
		return nil, err
	}
	object, err := angle.TrueDegrees(g.ObjectDegrees)
	if err != nil {
		return nil, err
	}
	known := variation.East(v)
	var method swing.Method
	other := g.BearingsDegrees
	switch g.Method {
	case "transit":
		method = swing.Transit{Direction: object, Variation: known}
	case "distant-object":
		method = swing.DistantObject{}
	case "magnetic-headings":
		method, other = swing.StatedDeviations{}, g.MagneticDegrees
	default:
		return nil, fmt.Errorf("method %q", g.Method)
	}
	if len(other) != len(g.HeadingsDegrees) {
		return nil, errors.New("as many directions as headings are needed")
	}
	var readings []swing.Reading
	for i := range g.HeadingsDegrees {
		h, err := angle.CompassDegrees(g.HeadingsDegrees[i])
		if err != nil {
			return nil, err
		}
		r := swing.Reading{Heading: &h}
		if g.Method == "magnetic-headings" {
			m, err := angle.MagneticDegrees(other[i])
			if err != nil {
				return nil, err
			}
			r.Deviation = new(deviation.Between(m, h))
		} else {
			b, err := angle.CompassDegrees(other[i])
			if err != nil {
				return nil, err
			}
			r.Bearing = &b
		}
		readings = append(readings, r)
	}
	s, err := swing.Reduce(readings, method)
	if err != nil {
		return nil, err
	}
	var found []float64
	for _, o := range s.Observations {
		found = append(found, o.Deviation.Degrees())
	}
	return conformance.Answer{"deviationsDegrees": found}, nil
}

type cardGiven struct {
	ADegrees, BDegrees, CDegrees, DDegrees, EDegrees float64
	StepDegrees                                      float64
}

// card makes the card of a curve at equal steps from north.
func card(g cardGiven) (conformance.Answer, error) {
	c, err := curveOf(g.ADegrees, g.BDegrees, g.CDegrees, g.DDegrees, g.EDegrees)
	if err != nil {
		return nil, err
	}
	step, err := angle.Degrees(g.StepDegrees)
	if err != nil {
		return nil, err
	}
	posted, err := deviation.NewCard(c, step, deviation.Details{})
	if err != nil {
		return nil, err
	}
	var deviations, compass []float64
	for _, row := range posted.ByCompass {
		deviations = append(deviations, row.Deviation.Degrees())
	}
	for _, row := range posted.ByMagnetic {
		compass = append(compass, row.Compass.Degrees())
	}
	return conformance.Answer{"deviationsDegrees": deviations, "compassDegrees": compass}, nil
}

// curveOf is the curve of coefficients, by compass heading.
func curveOf(degrees ...float64) (*deviation.Curve, error) {
	var k [5]angle.Angle
	for i, d := range degrees {
		var err error
		if k[i], err = angle.Degrees(d); err != nil {
			return nil, err
		}
	}
	return deviation.Coefficients{A: k[0], B: k[1], C: k[2], D: k[3], E: k[4]}.Curve(deviation.ByCompass)
}

type onCompassGiven struct {
	By             string
	Table          []entry
	CompassDegrees float64
}

// onCompass enters a table with the heading by compass.
func onCompass(g onCompassGiven) (conformance.Answer, error) {
	t, err := table(g.By, g.Table)
	if err != nil {
		return nil, err
	}
	c, err := angle.CompassDegrees(g.CompassDegrees)
	if err != nil {
		return nil, err
	}
	d, err := t.OnCompass(c)
	return conformance.Answer{"deviationDegrees": d.Degrees(), "magneticDegrees": d.Magnetic(c).Degrees()}, err
}
