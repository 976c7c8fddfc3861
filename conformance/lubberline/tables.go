package lubberline

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/deviation"
)

// deviations are the operations of package deviation and of its checks.
var deviations = map[string]conformance.Operation{
	"deviation.lookup":       conformance.On(lookup),
	"deviation.interpolate":  conformance.On(interpolate),
	"deviation.nearestEntry": conformance.On(nearestEntry),
	"deviation.byHand":       conformance.On(byHand),
	"deviation.fit":          conformance.On(fit),
	"deviation.curve":        conformance.On(curve),
	"sun.azimuth":            conformance.On(azimuth),
	"sun.amplitude":          conformance.On(amplitude),
	"check.bearing":          conformance.On(checkByObject),
	"check.amplitude":        conformance.On(checkByAmplitude),
	"deviation.between": conformance.On(func(g struct{ CompassDegrees, MagneticDegrees float64 }) (conformance.Answer, error) {
		c, err := angle.CompassDegrees(g.CompassDegrees)
		if err != nil {
			return nil, err
		}
		m, err := angle.MagneticDegrees(g.MagneticDegrees)
		return conformance.Answer{"deviationDegrees": deviation.Between(m, c).Degrees()}, err
	}),
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

func lookup(g lookupGiven) (conformance.Answer, error) {
	t, err := table(g.By, g.Table)
	if err != nil {
		return nil, err
	}
	m, err := angle.MagneticDegrees(g.MagneticDegrees)
	if err != nil {
		return nil, err
	}
	d, err := t.OnMagnetic(m)
	return conformance.Answer{"deviationDegrees": d.Degrees(), "compassDegrees": d.Compass(m).Degrees()}, err
}

type nearestEntryGiven struct {
	By             string
	Table          []entry
	HeadingDegrees float64
}

func nearestEntry(g nearestEntryGiven) (conformance.Answer, error) {
	t, err := table(g.By, g.Table)
	if err != nil {
		return nil, err
	}
	heading, err := angle.Degrees(g.HeadingDegrees)
	if err != nil {
		return nil, err
	}
	e, err := t.NearestEntry(heading)
	if err != nil {
		return nil, err
	}
	own := e.Compass.FromNorth()
	if t.By() == deviation.ByMagnetic {
		own = e.Magnetic.FromNorth()
	}
	return conformance.Answer{"entryDegrees": own.Degrees(), "deviationDegrees": e.Deviation.Degrees()}, nil
}

type interpolateGiven struct {
	From, To       entry
	HeadingDegrees float64
}

// interpolate goes between two rows. The rest of the circle, of which nothing is
// given, is filled so that there is a table.
func interpolate(g interpolateGiven) (conformance.Answer, error) {
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
	return conformance.Answer{
		"deviationDegrees":      d.Degrees(),
		"deviationWholeDegrees": d.Angle().Round(angle.Degree).Degrees(),
	}, err
}
