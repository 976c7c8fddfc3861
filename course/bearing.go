package course

import (
	"lubberline.example/angle"
)

// A Bearing is the direction of an object by true north, by magnetic north, by compass and
// from the bow. It belongs to the [Heading] on which it was taken. The zero value holds no
// conversion: all its directions are north.
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

// BearingFromMagnetic converts a magnetic bearing, such as one by a hand-bearing compass
// held clear of the vessel's magnetism. The true bearing differs from it by the variation
// only.
func (h Heading) BearingFromMagnetic(m angle.Magnetic) Bearing {
	return Bearing{h, h.v.True(m), m, h.d.Compass(m), givenMagnetic}
}

// HandBearing converts a magnetic bearing by a hand-bearing compass to true. It applies no
// deviation and ignores w.Deviation: hold the compass clear of the vessel's iron and wiring.
//
// It needs no heading. So [Bearing.Heading] then holds the variation alone, and
// [Bearing.Compass] and [Bearing.Relative] have no meaning. It returns the error of the
// variation's source, or a [*variation.MissingInputError].
func HandBearing(m angle.Magnetic, w With) (Bearing, error) {
	w.Deviation = nil
	var h Heading
	if err := h.look(&w); err != nil {
		return Bearing{}, err
	}
	return Bearing{h, h.v.True(m), m, h.d.Compass(m), givenMagnetic}, nil
}

// ByHand reports whether the bearing is of [HandBearing]: it has no heading, no bearing by the
// vessel's compass and none from the bow.
func (b Bearing) ByHand() bool {
	return b.from == givenMagnetic && b.heading.with.deviation == nil && b.heading.with.variation != nil
}

// BearingFromTrue converts a true bearing, such as one from the chart, to the bearing that
// the vessel's compass shows on the heading.
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

// Equal reports whether two bearings have the same directions and equal headings.
func (b Bearing) Equal(a Bearing) bool {
	return b.t == a.t && b.m == a.m && b.c == a.c && b.heading.Equal(a.heading)
}

// String returns the bearing by the three norths, to a tenth of a degree. A bearing of
// [HandBearing] has two: true and magnetic.
func (b Bearing) String() string {
	if b.ByHand() {
		return b.t.String() + " " + b.m.String()
	}
	return b.t.String() + " " + b.m.String() + " " + b.c.String()
}

// Relative returns the bearing from the bow.
func (b Bearing) Relative() angle.Relative { return b.c.Relative(b.heading.c) }

// Uncertainty returns the standard uncertainty of the conversion. For a bearing by the
// vessel's compass, from the bow or given as true, it is [Heading.Uncertainty]. For a
// magnetic bearing it combines the variation and, if stated, the reading.
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

// ByCompass reports whether the bearing depends on the vessel's compass: read from it, or
// taken from the bow and added to the heading. A magnetic bearing and a bearing given as
// true do not.
func (b Bearing) ByCompass() bool { return b.from == givenCompass || b.from == givenRelative }

// Conversion returns the standard uncertainties of the variation and of the deviation that
// were applied to get the true bearing. They are separate because bearings share them. All
// bearings by magnetic or by compass share the variation; those by the vessel's compass on
// one heading also share the deviation.
//
// A correction that was not applied has a stated uncertainty of 0. A bearing given as true has neither
// correction, and a magnetic bearing has no deviation. The reading of the bearing is in neither
// uncertainty. For a bearing from the bow, ofDeviation includes the reading of the heading, if stated.
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
