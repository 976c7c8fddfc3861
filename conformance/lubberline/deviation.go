package lubberline

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/deviation"
	"lubberline.example/deviation/check"
	"lubberline.example/deviation/sky"
	"lubberline.example/deviation/swing"
	"lubberline.example/variation"
)

type byHandGiven struct {
	Headings         string // eight, cardinal or intercardinal, clockwise from north
	DeviationDegrees []float64
}

// byHand works the coefficients by the rules for the hand.
func byHand(g byHandGiven) (conformance.Answer, error) {
	names := map[string][]string{
		"eight":         {"N", "NE", "E", "SE", "S", "SW", "W", "NW"},
		"cardinal":      {"N", "E", "S", "W"},
		"intercardinal": {"NE", "SE", "SW", "NW"},
	}[g.Headings]
	if names == nil || len(names) != len(g.DeviationDegrees) {
		return nil, fmt.Errorf("%d deviations on %s headings", len(g.DeviationDegrees), g.Headings)
	}
	deviations := map[string]angle.Angle{}
	for i, degrees := range g.DeviationDegrees {
		a, err := angle.Degrees(degrees)
		if err != nil {
			return nil, err
		}
		deviations[names[i]] = a
	}
	h, err := deviation.AnalyseByHand(deviations)
	if err != nil {
		return nil, err
	}
	a := coefficients(h.Coefficients)
	a["found"] = h.Found
	return a, nil
}

func coefficients(k deviation.Coefficients) conformance.Answer {
	return conformance.Answer{
		"aDegrees": k.A.Degrees(), "bDegrees": k.B.Degrees(), "cDegrees": k.C.Degrees(),
		"dDegrees": k.D.Degrees(), "eDegrees": k.E.Degrees(),
	}
}

type fitGiven struct {
	By    string
	Table []entry
}

// fit finds the coefficients of a table by least squares.
func fit(g fitGiven) (conformance.Answer, error) {
	t, err := table(g.By, g.Table)
	if err != nil {
		return nil, err
	}
	var observations []swing.Observation
	for _, e := range t.Entries() {
		observations = append(observations, swing.Observation{Heading: e.Compass, Deviation: e.Deviation})
	}
	f, err := swing.NewFit(observations, swing.FitOptions{By: t.By(), Order: 2})
	if err != nil {
		return nil, err
	}
	return coefficients(f.Curve.Coefficients()), nil
}

type curveGiven struct {
	ADegrees, BDegrees, CDegrees, DDegrees, EDegrees float64
	HeadingsDegrees                                  []float64
}

// curve finds deviations from coefficients.
func curve(g curveGiven) (conformance.Answer, error) {
	var k deviation.Coefficients
	for to, degrees := range map[*angle.Angle]float64{&k.A: g.ADegrees, &k.B: g.BDegrees, &k.C: g.CDegrees, &k.D: g.DDegrees, &k.E: g.EDegrees} {
		var err error
		if *to, err = angle.Degrees(degrees); err != nil {
			return nil, err
		}
	}
	c, err := k.Curve(deviation.ByCompass)
	if err != nil {
		return nil, err
	}
	var deviations []float64
	for _, h := range g.HeadingsDegrees {
		heading, err := angle.CompassDegrees(h)
		if err != nil {
			return nil, err
		}
		d, err := c.OnCompass(heading)
		if err != nil {
			return nil, err
		}
		deviations = append(deviations, d.Degrees())
	}
	return conformance.Answer{"deviationsDegrees": deviations}, nil
}

type azimuthGiven struct {
	LatitudeDegrees, DeclinationDegrees, HourAngleDegrees float64
}

// azimuth solves the celestial triangle.
func azimuth(g azimuthGiven) (conformance.Answer, error) {
	latitude, declination, err := place(g.LatitudeDegrees, g.DeclinationDegrees)
	if err != nil {
		return nil, err
	}
	hourAngle, err := angle.Degrees(g.HourAngleDegrees)
	if err != nil {
		return nil, err
	}
	z, h, err := sky.Azimuth(latitude, declination, hourAngle)
	return conformance.Answer{"azimuthDegrees": z.Degrees(), "altitudeDegrees": h.Degrees()}, err
}

func place(latitude, declination float64) (angle.Latitude, angle.Angle, error) {
	l, err := angle.LatitudeDegrees(latitude)
	if err != nil {
		return angle.Latitude{}, 0, err
	}
	d, err := angle.Degrees(declination)
	return l, d, err
}

type amplitudeGiven struct{ LatitudeDegrees, DeclinationDegrees float64 }

func amplitude(g amplitudeGiven) (conformance.Answer, error) {
	latitude, declination, err := place(g.LatitudeDegrees, g.DeclinationDegrees)
	if err != nil {
		return nil, err
	}
	r, err := sky.Amplitude(latitude, declination)
	return conformance.Answer{
		"amplitudeDegrees": r.Amplitude().Degrees(),
		"risingDegrees":    r.Rising.Degrees(), "settingDegrees": r.Setting.Degrees(),
	}, err
}

type checkGiven struct{ TrueDegrees, CompassDegrees, VariationDegrees float64 }

// checkByObject finds the error of a compass, and the deviation in it.
func checkByObject(g checkGiven) (conformance.Answer, error) {
	t, err := angle.TrueDegrees(g.TrueDegrees)
	if err != nil {
		return nil, err
	}
	c, err := angle.CompassDegrees(g.CompassDegrees)
	if err != nil {
		return nil, err
	}
	v, err := angle.Degrees(g.VariationDegrees)
	if err != nil {
		return nil, err
	}
	k, err := check.Reading{Heading: new(angle.CompassFrom(0)), Bearing: new(c), Variation: variation.East(v)}.Against("the Sun", t, angle.Uncertainty{})
	return conformance.Answer{"errorDegrees": k.Error.Degrees(), "deviationDegrees": k.Deviation.Degrees()}, err
}

type amplitudeCheckGiven struct {
	LatitudeDegrees, DeclinationDegrees float64
	Setting                             bool
	CompassDegrees, VariationDegrees    float64
}

func checkByAmplitude(g amplitudeCheckGiven) (conformance.Answer, error) {
	latitude, declination, err := place(g.LatitudeDegrees, g.DeclinationDegrees)
	if err != nil {
		return nil, err
	}
	r, err := sky.Amplitude(latitude, declination)
	if err != nil {
		return nil, err
	}
	t := r.Rising
	if g.Setting {
		t = r.Setting
	}
	a, err := checkByObject(checkGiven{t.Degrees(), g.CompassDegrees, g.VariationDegrees})
	if err != nil {
		return nil, err
	}
	a["trueDegrees"], a["amplitudeDegrees"] = t.Degrees(), r.Amplitude().Degrees()
	return a, nil
}
