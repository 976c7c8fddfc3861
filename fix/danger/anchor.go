package danger

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/earth"
)

// An AnchorWatch is the circle in which a vessel at anchor swings. If the vessel is outside
// it, the anchor drags or the position is wrong.
type AnchorWatch struct {
	Anchor angle.Position   `json:"anchor"` // the centre
	Radius sailing.Distance `json:"radius"` // to where positions are taken aboard

	swinging SwingingCircle // what Radius was found from; zero if it was given otherwise
}

// A SwingingCircle holds the parts of an anchor watch's radius.
type SwingingCircle struct {
	// Cable is the length let out, from the anchor to the bow roller. It must be longer than
	// Height.
	Cable sailing.Distance `json:"cable"`

	// Height is that of the bow roller above the bottom at low water. If zero, the cable
	// lies along the bottom, which gives the widest circle.
	Height sailing.Distance `json:"height"`

	// Length is the distance from the bow roller to where positions are taken, such as the
	// aerial or the pelorus. If zero, positions are taken at the bow.
	Length sailing.Distance `json:"length"`

	// Margin allows for the uncertainty of the anchor's and the vessel's position. Two
	// standard uncertainties are usual. If zero, both count as exact, and sound positions
	// will seem to lie outside.
	Margin sailing.Distance `json:"margin"`
}

// NewAnchorWatch returns the circle about an anchor. Its radius is the reach of the cable stretched
// straight, √(cable² − height²), with the length and the margin added. If the cable is not longer
// than the height, a part is below zero, or the sum is above 100 km, it returns an
// [*angle.RangeError].
func NewAnchorWatch(anchor angle.Position, s SwingingCircle) (AnchorWatch, error) {
	for _, part := range []struct {
		name  string
		value sailing.Distance
	}{{"height of the bow roller", s.Height}, {"length to where positions are taken", s.Length}, {"margin", s.Margin}} {
		if !(part.value >= 0 && part.value <= 1e5) {
			return AnchorWatch{}, &angle.RangeError{What: part.name, Value: part.value.Metres(), Accepted: "metres from 0 to 100000"}
		}
	}
	if !(s.Cable > s.Height && s.Cable+s.Length+s.Margin <= 1e5) {
		return AnchorWatch{}, &angle.RangeError{What: "cable", Value: s.Cable.Metres(), Accepted: fmt.Sprintf("metres above the height of the bow roller, %.0f, and below 100000 in all", s.Height.Metres())}
	}
	return AnchorWatch{anchor, s.reach() + s.Length + s.Margin, s}, nil
}

// Inside reports whether a position is within the circle, and how far it is from the
// anchor.
func (w AnchorWatch) Inside(p angle.Position) (inside bool, off sailing.Distance) {
	f := earth.FrameAt(earth.Upright(w.Anchor))
	d, _, _ := f.Surface(earth.PlaceOf(p))
	return sailing.Distance(d) <= w.Radius, sailing.Distance(d)
}

// Bearings returns the limits of the bearing of a mark outside the circle, as seen from
// anywhere within it. The bearing must stay between them, clockwise from least to greatest.
// If the mark lies within the circle, or the radius is below zero or not finite, Bearings returns
// an [*Error].
func (w AnchorWatch) Bearings(mark fix.Mark) (least, greatest angle.True, err error) {
	if !(w.Radius >= 0) || math.IsInf(float64(w.Radius), 0) {
		return angle.True{}, angle.True{}, &Error{fmt.Sprintf("the radius of the circle is %v m: give one from 0 m, as NewAnchorWatch does", w.Radius.Metres())}
	}
	f := earth.FrameAt(earth.Upright(w.Anchor))
	d, _, _ := f.Surface(earth.PlaceOf(mark.Position))
	if d <= float64(w.Radius) {
		return angle.True{}, angle.True{}, &Error{fmt.Sprintf("%v lies within the circle: choose a mark outside it", mark)}
	}
	half, err := angle.Radians(math.Asin(float64(w.Radius) / d))
	if err != nil {
		return angle.True{}, angle.True{}, &Error{err.Error()}
	}
	middle := earth.BearingBetween(w.Anchor, mark.Position)
	return middle.Add(-half), middle.Add(half), nil
}

// String returns the circle: within 84 m of 46°58.0′N 019°17.8′W.
func (w AnchorWatch) String() string {
	return fmt.Sprintf("within %.0f m of %v", w.Radius.Metres(), w.Anchor)
}

// Working returns the parts of the radius, if [NewAnchorWatch] added them, with the caution.
func (w AnchorWatch) Working() working.Sheet {
	length := func(key, what string, d sailing.Distance) working.Step {
		return working.Step{Key: key, What: what, Value: fmt.Sprintf("%.0f m", d.Metres()), Number: d.Metres(), Unit: "metres"}
	}
	s := working.Sheet{Title: "Anchor watch", Caution: working.Caution}
	s.Steps = append(s.Steps, working.Step{Key: "anchor", What: "Anchor", Value: w.Anchor.String()})
	if p := w.swinging; p.Cable > 0 {
		s.Steps = append(s.Steps,
			length("cable", "Cable", p.Cable).Because("cable-let-out", "let out, from the anchor to the bow roller"),
			length("height", "Height", p.Height).Because("height-of-bow-roller", "of the bow roller above the bottom, at low water"),
			length("reach", "Reach", p.reach()).Because("reach-of-cable", "of the cable stretched straight: √(cable² − height²)"),
			length("length", "Length", p.Length).Because("length-to-aerial", "from the bow roller to where positions are taken"),
			length("margin", "Margin", p.Margin).Because("margin-of-positions", "for the uncertainty of both positions"))
	}
	s.Steps = append(s.Steps, length("radius", "Radius", w.Radius).Because("outside-circle", "outside it the anchor drags, or the position is wrong"))
	return s
}

// reach returns how far the cable reaches over the ground.
func (s SwingingCircle) reach() sailing.Distance {
	return sailing.Distance(math.Sqrt(float64(s.Cable*s.Cable - s.Height*s.Height)))
}
