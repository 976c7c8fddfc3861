package conformance_test

import (
	"bytes"
	"encoding/json"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

type answer = map[string]any

// operations is this module as a subject: how each operation is asked of it.
var operations = map[string]func(json.RawMessage) (answer, error){
	"angle.parse": on(func(g struct{ Text string }) (answer, error) {
		a, err := angle.Parse(g.Text)
		return answer{"degrees": a.Degrees()}, err
	}),
	"angle.add": on(func(g struct{ Terms []string }) (answer, error) {
		var total angle.Angle
		for _, term := range g.Terms {
			a, err := angle.Parse(term)
			if err != nil {
				return nil, err
			}
			total += a
		}
		half, err := total.Scale(0.5)
		return answer{"sumDegrees": total.Degrees(), "halfDegrees": half.Degrees()}, err
	}),
	"angle.difference": on(func(g struct{ From, To string }) (answer, error) {
		from, err := angle.ParseTrue(g.From)
		if err != nil {
			return nil, err
		}
		to, err := angle.ParseTrue(g.To)
		return answer{"differenceDegrees": to.Sub(from).Degrees()}, err
	}),
	"angle.minutes": on(func(g struct{ Degrees float64 }) (answer, error) {
		a, err := angle.Degrees(g.Degrees)
		return answer{"text": a.String(), "minutes": a.Fields().DecimalMinutes()}, err
	}),
	"angle.arcFromPoints": on(func(g struct{ Points string }) (answer, error) {
		a, err := angle.Parse(g.Points)
		return answer{"arcDegrees": a.Degrees(), "text": string(a.AppendSeconds(nil, 0))}, err
	}),
	"angle.compassCard": on(func(g struct{ Names []string }) (answer, error) {
		var all []float64
		for _, name := range g.Names {
			d, err := angle.ParseTrue(name)
			if err != nil {
				return nil, err
			}
			all = append(all, d.Degrees())
		}
		return answer{"degrees": all}, nil
	}),
	"angle.directionFromText": on(func(g struct{ Text string }) (answer, error) {
		d, err := angle.ParseTrue(g.Text)
		return answer{
			"directionDegrees": d.Degrees(),
			"quadrantal":       string(d.AppendQuadrantal(nil, 0)),
			"point":            d.NearestPoint().String(),
		}, err
	}),
	"angle.relative": on(func(g struct{ HeadingDegrees, BearingDegrees float64 }) (answer, error) {
		heading, err := angle.TrueDegrees(g.HeadingDegrees)
		if err != nil {
			return nil, err
		}
		bearing, err := angle.TrueDegrees(g.BearingDegrees)
		return answer{"relativeDegrees": bearing.Relative(heading).Degrees()}, err
	}),
	"angle.bearing": on(func(g struct{ HeadingDegrees, RelativeDegrees float64 }) (answer, error) {
		heading, err := angle.TrueDegrees(g.HeadingDegrees)
		if err != nil {
			return nil, err
		}
		relative, err := angle.RelativeDegrees(g.RelativeDegrees)
		return answer{"bearingDegrees": heading.Bearing(relative).Degrees()}, err
	}),
	"angle.position": on(func(g struct{ Text string }) (answer, error) {
		p, err := angle.ParsePosition(g.Text)
		return answer{"latitudeDegrees": p.Latitude.Degrees(), "longitudeDegrees": p.Longitude.Degrees()}, err
	}),

	"variation.legend": on(func(g struct{ Legend string }) (answer, error) {
		r, err := variation.ParseLegend(g.Legend)
		perYear, _ := r.Change.PerYear()
		return answer{
			"variationDegrees":    r.Variation.Degrees(),
			"year":                float64(r.Year),
			"annualChangeMinutes": perYear.Minutes(),
		}, err
	}),
	"variation.project": on(func(g struct {
		Legend string
		Year   int
	}) (answer, error) {
		r, err := variation.ParseLegend(g.Legend)
		if err != nil {
			return nil, err
		}
		p, err := r.InYear(g.Year)
		return answer{
			"years":            p.Years,
			"changeMinutes":    p.Change.Minutes(),
			"variationDegrees": p.Variation.Degrees(),
			"text":             string(p.Variation.Angle().AppendEastWest(nil, 0)),
		}, err
	}),
	"variation.apply": on(func(g struct {
		MagneticDegrees     *float64
		TrueText, Variation string
	}) (answer, error) {
		v, err := variation.Parse(g.Variation)
		if err != nil {
			return nil, err
		}
		if g.MagneticDegrees != nil {
			m, err := angle.MagneticDegrees(*g.MagneticDegrees)
			return answer{"trueDegrees": v.True(m).Degrees()}, err
		}
		t, err := angle.ParseTrue(g.TrueText)
		m := v.Magnetic(t)
		return answer{"magneticDegrees": m.Degrees(), "point": m.NearestPoint().String()}, err
	}),
	"variation.change": on(func(g struct{ From, To string }) (answer, error) {
		from, err := variation.Parse(g.From)
		if err != nil {
			return nil, err
		}
		to, err := variation.Parse(g.To)
		return answer{"changeDegrees": (to.Angle() - from.Angle()).Degrees()}, err
	}),
	"variation.age": on(func(struct{}) (answer, error) {
		// The age from which a rose is flagged, found by asking.
		r := variation.MustParseLegend("1°00′W 2000 (1′E)")
		for year := 2000; ; year++ {
			p, err := r.InYear(year)
			if err != nil {
				return nil, err
			}
			if len(p.Warnings(variation.Limits{})) > 0 {
				return answer{"years": float64(year - 1 - 2000)}, nil
			}
		}
	}),
	"variation.nearestRose": on(func(g struct {
		Roses []struct {
			Position angle.Position
			Legend   string
		}
		Position angle.Position
		Year     int
	}) (answer, error) {
		var roses []variation.ChartRose
		for _, r := range g.Roses {
			rose, err := variation.ParseLegend(r.Legend)
			if err != nil {
				return nil, err
			}
			roses = append(roses, variation.ChartRose{Position: r.Position, Rose: rose})
		}
		c, err := variation.NewChart("", roses...)
		if err != nil {
			return nil, err
		}
		v, err := c.VariationAt(g.Position, time.Date(g.Year, time.July, 1, 0, 0, 0, 0, time.UTC))
		return answer{"variationDegrees": v.Degrees()}, err
	}),

	"course.convert": on(convert),
	"course.deduce":  on(deduce),
	"course.bearing": on(func(g struct {
		HeadText, BearingText              string
		DeviationDegrees, VariationDegrees float64
	}) (answer, error) {
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
		return answer{
			"compassBearingDegrees": c.Degrees(),
			"errorDegrees":          h.CompassError().Degrees(),
			"trueBearingDegrees":    h.BearingFromCompass(c).True().Degrees(),
		}, err
	}),

	"deviation.lookup":       on(lookup),
	"deviation.interpolate":  on(interpolate),
	"deviation.nearestEntry": on(nearestEntry),
	"deviation.byHand":       on(byHand),
	"deviation.fit":          on(fit),
	"deviation.curve":        on(curve),
	"deviation.limits":       on(limits),
	"sun.azimuth":            on(azimuth),
	"sun.amplitude":          on(amplitude),
	"check.bearing":          on(check),
	"check.amplitude":        on(checkByAmplitude),
	"deviation.between": on(func(g struct{ CompassDegrees, MagneticDegrees float64 }) (answer, error) {
		c, err := angle.CompassDegrees(g.CompassDegrees)
		if err != nil {
			return nil, err
		}
		m, err := angle.MagneticDegrees(g.MagneticDegrees)
		return answer{"deviationDegrees": deviation.Between(m, c).Degrees()}, err
	}),
}

// on decodes what is given, refusing what the operation does not know.
func on[G any](f func(G) (answer, error)) func(json.RawMessage) (answer, error) {
	return func(data json.RawMessage) (answer, error) {
		var g G
		d := json.NewDecoder(bytes.NewReader(data))
		d.DisallowUnknownFields()
		if err := d.Decode(&g); err != nil {
			return nil, err
		}
		return f(g)
	}
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

func convert(g convertGiven) (answer, error) {
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
	return answer{
		"trueDegrees":       h.True().Degrees(),
		"magneticDegrees":   h.Magnetic().Degrees(),
		"compassDegrees":    h.Compass().Degrees(),
		"compassQuadrantal": string(h.Compass().AppendQuadrantal(nil, 0)),
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
func deduce(g deduceGiven) (answer, error) {
	t, err := angle.TrueDegrees(g.TrueDegrees)
	if err != nil {
		return nil, err
	}
	c, err := angle.CompassDegrees(g.CompassDegrees)
	if err != nil {
		return nil, err
	}
	a := answer{"errorDegrees": angle.EastWestFrom(t.FromNorth() - c.FromNorth()).Degrees()}
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

type entry struct{ HeadingDegrees, DeviationDegrees float64 }

// table makes a table by compass or by magnetic heading.
func table(by string, entries []entry) (*deviation.Table, error) {
	var byCompass []deviation.Row[angle.Compass]
	var byMagnetic []deviation.Row[angle.Magnetic]
	for _, e := range entries {
		heading, err := angle.Degrees(e.HeadingDegrees)
		if err != nil {
			return nil, err
		}
		d, err := angle.Degrees(e.DeviationDegrees)
		if err != nil {
			return nil, err
		}
		byCompass = append(byCompass, deviation.Row[angle.Compass]{Heading: angle.CompassFrom(heading), Deviation: deviation.East(d)})
		byMagnetic = append(byMagnetic, deviation.Row[angle.Magnetic]{Heading: angle.MagneticFrom(heading), Deviation: deviation.East(d)})
	}
	if by == "magnetic" {
		return deviation.NewTable(byMagnetic)
	}
	return deviation.NewTable(byCompass)
}

type lookupGiven struct {
	By              string
	Table           []entry
	MagneticDegrees float64
}

func lookup(g lookupGiven) (answer, error) {
	t, err := table(g.By, g.Table)
	if err != nil {
		return nil, err
	}
	m, err := angle.MagneticDegrees(g.MagneticDegrees)
	if err != nil {
		return nil, err
	}
	d, err := t.OnMagnetic(m)
	return answer{"deviationDegrees": d.Degrees(), "compassDegrees": d.Compass(m).Degrees()}, err
}

type nearestEntryGiven struct {
	By             string
	Table          []entry
	HeadingDegrees float64
}

func nearestEntry(g nearestEntryGiven) (answer, error) {
	t, err := table(g.By, g.Table)
	if err != nil {
		return nil, err
	}
	heading, err := angle.Degrees(g.HeadingDegrees)
	e := t.NearestEntry(heading)
	return answer{"entryDegrees": e.Heading.Degrees(), "deviationDegrees": e.Deviation.Degrees()}, err
}

type interpolateGiven struct {
	From, To       entry
	HeadingDegrees float64
}

// interpolate goes between two rows. The rest of the circle, of which nothing is
// given, is filled so that there is a table.
func interpolate(g interpolateGiven) (answer, error) {
	entries := []entry{g.From, g.To}
	for h := g.To.HeadingDegrees + 30; onCircle(h-g.From.HeadingDegrees) < 0 || onCircle(h-g.From.HeadingDegrees) > 30; h += 30 {
		entries = append(entries, entry{math.Mod(h, 360), 0})
	}
	t, err := table("compass", entries)
	if err != nil {
		return nil, err
	}
	c, err := angle.CompassDegrees(g.HeadingDegrees)
	if err != nil {
		return nil, err
	}
	d, err := t.OnCompass(c)
	return answer{
		"deviationDegrees":      d.Degrees(),
		"deviationWholeDegrees": d.Angle().Round(angle.Degree).Degrees(),
	}, err
}
