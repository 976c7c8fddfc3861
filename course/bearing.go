package course

import (
	"lubberline.example/angle"
)

// A Bearing is the direction of an object by true north, by magnetic north, by
// compass and from the bow, as seen while the vessel heads as its Heading says. The zero
// value is no conversion, as of [Heading].
type Bearing struct {
	heading Heading
	t       angle.True
	m       angle.Magnetic
	c       angle.Compass
	from    given
}

// BearingFromCompass converts a bearing taken with the vessel's own compass
// while the vessel heads so. The deviation applied is that of the heading.
func (h Heading) BearingFromCompass(c angle.Compass) Bearing {
	m := h.d.Magnetic(c)
	return Bearing{h, h.v.True(m), m, c, givenCompass}
}

// BearingFromMagnetic converts a magnetic bearing, as taken with a hand-bearing
// compass held clear of the vessel's magnetism: only the variation lies between
// it and the true bearing.
func (h Heading) BearingFromMagnetic(m angle.Magnetic) Bearing {
	return Bearing{h, h.v.True(m), m, h.d.Compass(m), givenMagnetic}
}

// HandBearing converts a magnetic bearing by a hand-bearing compass to true. No deviation is
// applied, whatever w.Deviation is: hold the compass where the vessel's iron and wiring do
// not reach it. It needs no heading: Heading of the result returns the zero Heading, and
// Relative has no meaning. Errors are those of the variation's source, or a
// [*variation.MissingInputError].
func HandBearing(m angle.Magnetic, w With) (Bearing, error) {
	kept, v, err := w.look()
	if err != nil {
		return Bearing{}, err
	}
	kept.deviation = nil
	h := Heading{v: v, with: kept}
	return Bearing{h, v.True(m), m, h.d.Compass(m), givenMagnetic}, nil
}

// byHand reports whether the bearing is of [HandBearing], which has no heading.
func (b Bearing) byHand() bool {
	return b.from == givenMagnetic && b.heading.with.deviation == nil && b.heading.with.variation != nil
}

// BearingFromTrue converts a true bearing, as taken from the chart, to what the
// vessel's compass will read on that heading.
func (h Heading) BearingFromTrue(t angle.True) Bearing {
	m := h.v.Magnetic(t)
	return Bearing{h, t, m, h.d.Compass(m), givenTrue}
}

// BearingFromRelative converts a bearing from the bow.
func (h Heading) BearingFromRelative(r angle.Relative) Bearing {
	return Bearing{h, h.t.Bearing(r), h.m.Bearing(r), h.c.Bearing(r), givenRelative}
}

// Heading returns the heading on which the bearing was taken.
func (b Bearing) Heading() Heading { return b.heading }

// True returns the bearing from true north, to plot.
func (b Bearing) True() angle.True { return b.t }

// Magnetic returns the bearing from magnetic north.
func (b Bearing) Magnetic() angle.Magnetic { return b.m }

// Compass returns the bearing by the vessel's compass.
func (b Bearing) Compass() angle.Compass { return b.c }

// Equal reports whether two bearings have the same directions and were taken on
// the same heading.
func (b Bearing) Equal(a Bearing) bool {
	return b.t == a.t && b.m == a.m && b.c == a.c && b.heading.Equal(a.heading)
}

// String returns the bearing by the three norths, to a tenth of a degree; without that by
// the vessel's compass for one of [HandBearing].
func (b Bearing) String() string {
	if b.byHand() {
		return b.t.String() + " " + b.m.String()
	}
	return b.t.String() + " " + b.m.String() + " " + b.c.String()
}

// Relative returns the bearing from the bow.
func (b Bearing) Relative() angle.Relative { return b.c.Relative(b.heading.c) }

// Uncertainty returns the standard uncertainty of the conversion. Between
// compass and true it is that of the heading, see [Heading.Uncertainty];
// between magnetic and true the deviation has no part in it.
//
// A bearing from the bow is turned by the vessel's true heading, which for a
// heading known by compass has the same uncertainty.
func (b Bearing) Uncertainty() angle.Uncertainty {
	if b.from != givenMagnetic {
		return b.heading.Uncertainty()
	}
	u := b.heading.v.Uncertainty()
	if _, stated := b.heading.with.reading.Sigma(); stated {
		u = u.Combined(b.heading.with.reading)
	}
	return u
}

// ByCompass reports whether the bearing was taken by the vessel's compass: read from
// it, or from the bow, which is turned by the heading that it showed. It is false for
// one by a hand-bearing compass and for one given as true.
func (b Bearing) ByCompass() bool { return b.from == givenCompass || b.from == givenRelative }

// Conversion returns the standard uncertainties that the true bearing has from what it
// was converted with, apart, since other bearings share them: that of the variation is
// in every bearing by magnetic or by compass, that of the deviation in those by the
// vessel's compass on the same heading. A part that was not applied is a stated 0:
// both for a bearing given as true, the deviation's for one given as magnetic.
//
// The reading of the bearing is in neither; that of the heading is, where stated, in
// the second of a bearing from the bow.
func (b Bearing) Conversion() (ofVariation, ofDeviation angle.Uncertainty) {
	none := angle.Rectangular(0) // a stated 0
	switch b.from {
	case givenTrue:
		return none, none
	case givenMagnetic:
		return b.heading.v.Uncertainty(), none
	}
	ofDeviation = b.heading.d.Uncertainty()
	if reading := b.heading.with.reading; b.from == givenRelative {
		if _, stated := reading.Sigma(); stated {
			ofDeviation = ofDeviation.Combined(reading)
		}
	}
	return b.heading.v.Uncertainty(), ofDeviation
}
