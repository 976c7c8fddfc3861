package fix

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/internal/earth"
)

// An AnchorWatch is the circle in which a vessel at anchor swings. Outside it the
// anchor drags, or the position is wrong.
type AnchorWatch struct {
	Anchor angle.Position   `json:"anchor"` // the middle
	Radius sailing.Distance `json:"radius"` // to where positions are taken aboard

	Swinging Swinging `json:"swinging,omitzero"` // what Radius is made of; zero if it was given otherwise
}

// Swinging is what the radius of an anchor watch is made of.
type Swinging struct {
	// Cable is what is let out, from the anchor to the bow roller. It has to be longer
	// than Height; 0 is refused.
	Cable sailing.Distance `json:"cable"`

	// Height is that of the bow roller above the bottom, the least while the vessel lies
	// there: at low water. Left out (0) the whole cable lies along the bottom, which
	// gives the widest circle.
	Height sailing.Distance `json:"height"`

	// Length is that from the bow roller to where positions are taken, the aerial or
	// the pelorus. Left out (0) they are taken at the bow.
	Length sailing.Distance `json:"length"`

	// Margin is for how well the anchor and the vessel are known: two standard
	// uncertainties are usual. Left out (0) both count as exact, and good positions
	// will seem to lie outside.
	Margin sailing.Distance `json:"margin"`
}

// NewAnchorWatch returns the circle about an anchor: the reach of the cable stretched
// straight, √(cable² − height²), with the length and the margin. It refuses a cable
// not longer than the height, and parts below zero, with a [*DangerError].
func NewAnchorWatch(anchor angle.Position, s Swinging) (AnchorWatch, error) {
	if !(s.Cable > s.Height) || !(s.Height >= 0) || !(s.Length >= 0) || !(s.Margin >= 0) || float64(s.Cable+s.Length+s.Margin) > 1e5 {
		return AnchorWatch{}, &DangerError{fmt.Sprintf("cable %.0f m, height %.0f m, length %.0f m, margin %.0f m: want a cable longer than the height, nothing below 0, and no more than 100 km", s.Cable.Metres(), s.Height.Metres(), s.Length.Metres(), s.Margin.Metres())}
	}
	return AnchorWatch{anchor, s.reach() + s.Length + s.Margin, s}, nil
}

// Inside reports whether a position is within the circle, and how far it is from the
// anchor.
func (w AnchorWatch) Inside(p angle.Position) (inside bool, off sailing.Distance) {
	f := earth.FrameAt(earth.Upright(w.Anchor))
	g := earth.FrameAt(earth.Upright(p))
	d, _, _ := f.Surface(g.At)
	return sailing.Distance(d) <= w.Radius, sailing.Distance(d)
}

// Bearings returns the bearings between which a mark outside the circle must stay, the
// least and the greatest clockwise, as seen from anywhere within it. A mark within
// the circle is refused with a [*DangerError].
func (w AnchorWatch) Bearings(mark Mark) (least, greatest angle.True, err error) {
	f := earth.FrameAt(earth.Upright(w.Anchor))
	d, _, _ := f.Surface(place(mark))
	if d <= float64(w.Radius) {
		return angle.True{}, angle.True{}, &DangerError{fmt.Sprintf("%v lies within the circle: want a mark outside it", mark)}
	}
	half, err := angle.Radians(math.Asin(float64(w.Radius) / d))
	if err != nil {
		return angle.True{}, angle.True{}, &DangerError{err.Error()}
	}
	middle := earth.BearingBetween(w.Anchor, mark.Position)
	return middle.Add(-half), middle.Add(half), nil
}

// String returns the circle: within 84 m of 46°58.0′N 019°17.8′W.
func (w AnchorWatch) String() string {
	return fmt.Sprintf("within %.0f m of %v", w.Radius.Metres(), w.Anchor)
}

// Working returns what the radius is made of, if [NewAnchorWatch] made it, with the
// caution.
func (w AnchorWatch) Working() working.Sheet {
	length := func(key, what string, d sailing.Distance, how string) working.Step {
		return working.Step{Key: key, What: what, Value: fmt.Sprintf("%.0f m", d.Metres()), Number: d.Metres(), Unit: "metres", How: how}
	}
	s := working.Sheet{Title: "Anchor watch", Caution: working.Caution}
	s.Steps = append(s.Steps, working.Step{Key: "anchor", What: "Anchor", Value: w.Anchor.String()})
	if p := w.Swinging; p.Cable > 0 {
		s.Steps = append(s.Steps,
			length("cable", "Cable", p.Cable, "let out, from the anchor to the bow roller"),
			length("height", "Height", p.Height, "of the bow roller above the bottom, at low water"),
			length("reach", "Reach", p.reach(), "of the cable stretched straight: √(cable² − height²)"),
			length("length", "Length", p.Length, "from the bow roller to where positions are taken"),
			length("margin", "Margin", p.Margin, "for how well the anchor and the vessel are known"))
	}
	s.Steps = append(s.Steps, length("radius", "Radius", w.Radius, "outside it the anchor drags, or the position is wrong"))
	return s
}

// reach is that of the cable over the ground.
func (s Swinging) reach() sailing.Distance {
	return sailing.Distance(math.Sqrt(float64(s.Cable*s.Cable - s.Height*s.Height)))
}
