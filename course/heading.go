package course

import (
	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// A Heading is one direction of the vessel's head, or one course to steer, by
// true north, by magnetic north and by compass, with the variation and the
// deviation between them. Make one with [FromTrue], [FromMagnetic] or
// [FromCompass].
//
// Bearings taken while the vessel heads so are converted by its methods
// [Heading.BearingFromCompass] and so on, because the deviation in a bearing is
// that of the vessel's heading, not that of the bearing's own direction.
//
// The zero value, as stands beside an error, is no conversion: all its directions are
// north, and its working says zero of everything.
type Heading struct {
	t    angle.True
	m    angle.Magnetic
	c    angle.Compass
	v    variation.Variation
	d    deviation.Deviation
	with sources
	from given
}

// given says which direction a conversion began with.
type given byte

const (
	givenTrue given = iota
	givenMagnetic
	givenCompass
	givenRelative
)

// FromTrue converts a true course or heading to magnetic and compass. The
// deviation is that of the compass heading that results, solved for by its
// source. Errors are those of the sources, or a [*variation.MissingInputError]; among
// them that of a compass heading which other magnetic headings share, and which
// can't be steered.
func FromTrue(t angle.True, w With) (Heading, error) {
	h := Heading{t: t, from: givenTrue}
	var err error
	if h.with, h.v, err = w.look(); err != nil {
		return Heading{}, err
	}
	h.m = h.v.Magnetic(t)
	return h.steer()
}

// FromMagnetic converts a magnetic course or heading to true and compass; see
// [FromTrue].
func FromMagnetic(m angle.Magnetic, w With) (Heading, error) {
	h := Heading{m: m, from: givenMagnetic}
	var err error
	if h.with, h.v, err = w.look(); err != nil {
		return Heading{}, err
	}
	h.t = h.v.True(m)
	return h.steer()
}

// steer finds the compass heading of the magnetic one.
func (h Heading) steer() (Heading, error) {
	source, err := h.with.compass()
	if err != nil {
		return Heading{}, err
	}
	if h.d, err = source.OnMagnetic(h.m); err != nil {
		return Heading{}, err
	}
	h.c = h.d.Compass(h.m)
	// A compass that reads the same on other headings too can't be steered by.
	if o, ok := source.(interface{ Ordered() bool }); !ok || !o.Ordered() {
		if _, err = source.OnCompass(h.c); err != nil {
			return Heading{}, err
		}
	}
	return h, nil
}

// FromCompass converts a compass course or heading to magnetic and true; see
// [FromTrue].
func FromCompass(c angle.Compass, w With) (Heading, error) {
	h := Heading{c: c, from: givenCompass}
	var err error
	if h.with, h.v, err = w.look(); err != nil {
		return Heading{}, err
	}
	source, err := h.with.compass()
	if err != nil {
		return Heading{}, err
	}
	if h.d, err = source.OnCompass(c); err != nil {
		return Heading{}, err
	}
	h.m = h.d.Magnetic(c)
	h.t = h.v.True(h.m)
	return h, nil
}

// True returns the heading from true north.
func (h Heading) True() angle.True { return h.t }

// Magnetic returns the heading from magnetic north.
func (h Heading) Magnetic() angle.Magnetic { return h.m }

// Compass returns the heading by compass.
func (h Heading) Compass() angle.Compass { return h.c }

// Variation returns the variation used.
func (h Heading) Variation() variation.Variation { return h.v }

// Deviation returns the deviation used, that of this heading.
func (h Heading) Deviation() deviation.Deviation { return h.d }

// CompassError returns the total error of the compass on this heading, the sum
// of variation and deviation: true = compass + error, east positive.
func (h Heading) CompassError() angle.EastWest { return h.v.Plus(h.d.EastWest) }

// Equal reports whether two headings have the same directions, variation and
// deviation, wherever those came from.
func (h Heading) Equal(g Heading) bool {
	return h.t == g.t && h.m == g.m && h.c == g.c && h.v == g.v && h.d == g.d
}

// String returns the heading by the three norths, to a tenth of a degree:
// 236°T 238°M 237.9°C.
func (h Heading) String() string {
	return h.t.String() + " " + h.m.String() + " " + h.c.String()
}

// Warnings returns what makes the heading weak, as its sources see it: of the
// variation an old rose, roses that differ, a rose far away; of the deviation a curve
// that swings out between its rows, or a heading that was never observed.
func (h Heading) Warnings() []working.Warning {
	var all []working.Warning
	if h.with.variation != nil {
		if e, err := variation.Explain(h.with.variation, h.with.at, h.with.on); err == nil {
			all = append(all, e.Warnings...)
		}
	}
	if h.with.deviation != nil {
		if e, err := deviation.Explain(h.with.deviation, h.c); err == nil {
			all = append(all, e.Warnings...)
		}
	}
	return all
}

// Steer returns the course by compass to the nearest whole degree, from 000° to 359°,
// as it is given to the helm: the last step in the working of a course to steer. Halves
// go up.
func (h Heading) Steer() angle.Compass { return h.c.Round(angle.Degree) }

// Uncertainty returns the standard uncertainty of the result: those of
// variation and deviation combined as independent, with that of the reading if
// it is stated. If that of the variation or of the deviation is not stated,
// neither is the result's.
//
// How the deviation itself varies with an uncertain heading is left out: for
// deviations that change by less than a tenth of a degree in a degree of
// heading, which a card in good order has, that is a tenth of the uncertainty
// or less.
func (h Heading) Uncertainty() angle.Uncertainty {
	u := h.CompassError().Uncertainty()
	if _, stated := h.with.reading.Sigma(); stated {
		u = u.Combined(h.with.reading)
	}
	return u
}
