package lubberline

import (
	"fmt"
	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// courses are the operations of package course between the three norths.
var courses = map[string]conformance.Operation{
	"course.convert": conformance.On(convert),
	"course.deduce":  conformance.On(deduce),
	"course.bearing": conformance.On(func(g struct {
		HeadText, BearingText              string
		DeviationDegrees, VariationDegrees float64
	}) (conformance.Answer, error) {
		w, err := with(g.VariationDegrees, g.DeviationDegrees)
		if err != nil {
			return nil, err
		}
		head, err := angle.ParseCompass(g.HeadText)
		if err != nil {
			return nil, err
		}
		h, err := course.FromCompass(head, w)
		if err != nil {
			return nil, err
		}
		c, err := angle.ParseCompass(g.BearingText)
		return conformance.Answer{
			"compassBearingDegrees": c.Degrees(),
			"errorDegrees":          h.CompassError().Degrees(),
			"trueBearingDegrees":    h.BearingFromCompass(c).True().Degrees(),
		}, err
	}),
}

func with(variationDegrees, deviationDegrees float64) (course.With, error) {
	v, err := angle.Degrees(variationDegrees)
	if err != nil {
		return course.With{}, err
	}
	d, err := angle.Degrees(deviationDegrees)
	return course.With{Variation: variation.East(v), Deviation: deviation.East(d)}, err
}

type convertGiven struct {
	TrueDegrees, MagneticDegrees, CompassDegrees *float64
	MagneticText                                 string
	VariationDegrees, DeviationDegrees           float64
}

func convert(g convertGiven) (conformance.Answer, error) {
	w, err := with(g.VariationDegrees, g.DeviationDegrees)
	if err != nil {
		return nil, err
	}
	var h course.Heading
	switch {
	case g.TrueDegrees != nil:
		var t angle.True
		if t, err = angle.TrueDegrees(*g.TrueDegrees); err == nil {
			h, err = course.FromTrue(t, w)
		}
	case g.CompassDegrees != nil:
		var c angle.Compass
		if c, err = angle.CompassDegrees(*g.CompassDegrees); err == nil {
			h, err = course.FromCompass(c, w)
		}
	case g.MagneticDegrees != nil:
		var m angle.Magnetic
		if m, err = angle.MagneticDegrees(*g.MagneticDegrees); err == nil {
			h, err = course.FromMagnetic(m, w)
		}
	case g.MagneticText != "":
		var m angle.Magnetic
		if m, err = angle.ParseMagnetic(g.MagneticText); err == nil {
			h, err = course.FromMagnetic(m, w)
		}
	default: // the total error alone
		h, err = course.FromCompass(angle.Compass{}, w)
	}
	return conformance.Answer{
		"trueDegrees":       h.True().Degrees(),
		"magneticDegrees":   h.Magnetic().Degrees(),
		"compassDegrees":    h.Compass().Degrees(),
		"compassQuadrantal": fmt.Sprintf("%.0q", h.Compass()),
		"compassPoint":      h.Compass().NearestPoint().String(),
		"errorDegrees":      h.CompassError().Degrees(),
	}, err
}

type deduceGiven struct {
	TrueDegrees, CompassDegrees        float64
	VariationDegrees, DeviationDegrees *float64
}

// deduce finds the total error of a compass from a true direction, and from it
// the variation or the deviation if the other is given.
func deduce(g deduceGiven) (conformance.Answer, error) {
	t, err := angle.TrueDegrees(g.TrueDegrees)
	if err != nil {
		return nil, err
	}
	c, err := angle.CompassDegrees(g.CompassDegrees)
	if err != nil {
		return nil, err
	}
	a := conformance.Answer{"errorDegrees": angle.EastWestFrom(t.FromNorth() - c.FromNorth()).Degrees()}
	if g.VariationDegrees != nil {
		v, err := angle.Degrees(*g.VariationDegrees)
		if err != nil {
			return nil, err
		}
		a["deviationDegrees"] = deviation.Between(variation.East(v).Magnetic(t), c).Degrees()
	}
	if g.DeviationDegrees != nil {
		d, err := angle.Degrees(*g.DeviationDegrees)
		if err != nil {
			return nil, err
		}
		a["variationDegrees"] = variation.Between(t, deviation.East(d).Magnetic(c)).Degrees()
	}
	return a, nil
}
