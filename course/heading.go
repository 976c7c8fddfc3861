package course

import (
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// A Heading is the direction of the vessel's head, or a course to steer, by true north, by
// magnetic north and by compass. It keeps the variation, the deviation and their workings:
// a source that changes later does not change them. Make one with [FromTrue], [FromMagnetic]
// or [FromCompass].
//
// The deviation in a bearing is that of the vessel's heading, not that of the bearing's own
// direction. So a Heading converts the bearings that are taken on it; see
// [Heading.BearingFromCompass].
//
// The zero value holds no conversion: all its directions are north.
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

// FromTrue converts a true course or heading to magnetic and compass. The deviation applied
// is that of the compass heading in the result.
//
// It returns the error of a source, or a [*variation.MissingInputError]. If the compass
// shows the same on several magnetic headings, that course cannot be steered, and FromTrue
// returns the error of the deviation's source.
func FromTrue(t angle.True, w With) (h Heading, err error) {
	h.t, h.from = t, givenTrue
	if err := h.look(&w); err != nil {
		return Heading{}, err
	}
	h.m = h.v.Magnetic(t)
	if err := h.steer(); err != nil {
		return Heading{}, err
	}
	return h, nil
}

// FromMagnetic converts a magnetic course or heading to true and compass. It applies the
// deviation and returns the errors that [FromTrue] does.
func FromMagnetic(m angle.Magnetic, w With) (h Heading, err error) {
	h.m, h.from = m, givenMagnetic
	if err := h.look(&w); err != nil {
		return Heading{}, err
	}
	h.t = h.v.True(m)
	if err := h.steer(); err != nil {
		return Heading{}, err
	}
	return h, nil
}

// steer finds the compass heading of the magnetic one.
func (h *Heading) steer() error {
	source, err := h.with.compass()
	if err != nil {
		return err
	}
	if h.d, err = source.OnMagnetic(h.m); err != nil {
		return err
	}
	h.c = h.d.Compass(h.m)
	// If the compass shows the same on other headings too, the course cannot be steered.
	if o, ok := source.(interface{ Ordered() bool }); !ok || !o.Ordered() {
		if _, err = source.OnCompass(h.c); err != nil {
			return err
		}
	}
	return h.keepDeviation()
}

// FromCompass converts a compass course or heading to magnetic and true. It returns the
// error of a source, or a [*variation.MissingInputError].
func FromCompass(c angle.Compass, w With) (h Heading, err error) {
	h.c, h.from = c, givenCompass
	if err := h.look(&w); err != nil {
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
	if err := h.keepDeviation(); err != nil {
		return Heading{}, err
	}
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

// Deviation returns the deviation used. It is that of this heading.
func (h Heading) Deviation() deviation.Deviation { return h.d }

// CompassError returns the total error of the compass on this heading: the sum of variation
// and deviation, east positive. True = compass + error.
func (h Heading) CompassError() angle.EastWest { return h.v.Plus(h.d.EastWest) }

// Equal reports whether two headings have the same directions, variation and deviation. It
// does not compare their sources.
func (h Heading) Equal(g Heading) bool {
	return h.t == g.t && h.m == g.m && h.c == g.c && h.v == g.v && h.d == g.d
}

// String returns the heading by the three norths, to a tenth of a degree:
// 236°T 238°M 237.9°C.
func (h Heading) String() string {
	return h.t.String() + " " + h.m.String() + " " + h.c.String()
}

// Warnings returns the warnings of the sources. For the variation, a rose may be old or far
// away, or roses may differ. For the deviation, the heading may never have been observed, or
// the curve may overshoot between its rows.
func (h Heading) Warnings() []working.Warning {
	v, d := h.explanations()
	return slices.Concat(v.Warnings, d.Warnings)
}

// Steer returns the course to steer by compass, to the nearest whole degree from 000° to
// 359°. Half a degree is rounded up.
func (h Heading) Steer() angle.Compass { return h.c.Round(angle.Degree) }

// Uncertainty returns the standard uncertainty of the result. It combines, as independent,
// those of the variation, the deviation and, if stated, the reading. If that of the
// variation or of the deviation is unknown, the result is unknown too.
//
// It leaves out that an uncertain heading makes its deviation uncertain. On a good card the
// deviation changes by less than 0.1° in a degree of heading. Then the part left out is at
// most a tenth of the uncertainty.
func (h Heading) Uncertainty() angle.Uncertainty {
	u := h.CompassError().Uncertainty()
	if _, stated := h.with.reading.Sigma(); stated {
		u = u.Combined(h.with.reading)
	}
	return u
}
