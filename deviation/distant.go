package deviation

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A DistantObject compares the compass with an object of unknown direction, far
// enough off that its bearing hardly changes while the vessel swings: it uses
// Bearing of each [Reading].
//
// The object's magnetic bearing is taken to be the mean of its bearings by
// compass, all round the circle. That is so if the compass has no constant
// deviation: A is taken as nought, and an A there is, an index error of the
// lubber line for one, goes unseen. Where the headings are not at equal steps the
// mean is that of the curve A to E through the bearings, so that a crowded
// sector does not draw it aside; a bearing that stands apart is left out of it.
type DistantObject struct {
	// Distance of the object from the middle of the swinging circle and the
	// circle's Radius, in the same unit. If they are given, the bearings are
	// brought to the middle; nought means that they are not known. The vessel
	// is taken to steam the circle, turning to Turning.
	Distance float64
	Radius   float64
	Turning  angle.Side
}

func (o DistantObject) name() string      { return "a distant object of unknown direction" }
func (o DistantObject) columns() []string { return []string{"bearing"} }

func (o DistantObject) reduce(readings []Reading) (reduction, error) {
	if o.Distance != 0 || o.Radius != 0 {
		if !(o.Radius >= 0) || !(o.Distance > o.Radius) || math.IsInf(o.Distance, 0) {
			return reduction{}, &ReadingError{Index: -1, Err: fmt.Errorf("distance %v and radius %v: want the object outside the circle, or neither given", o.Distance, o.Radius)}
		}
	}
	if o.Turning != angle.Starboard && o.Turning != angle.Port {
		return reduction{}, &ReadingError{Index: -1, Err: fmt.Errorf("turning to %v: want Starboard or Port", o.Turning)}
	}
	bearings := make([]angle.Compass, len(readings))
	for i, s := range readings {
		bearings[i] = s.Bearing
	}
	start, err := angle.Mean(bearings...)
	if err != nil {
		return reduction{}, &ReadingError{Index: -1, Err: err}
	}
	magnetic := angle.MagneticFrom(start.Direction.FromNorth())
	parallax := make([]angle.Angle, len(readings))
	// The parallax depends on the vessel's true place on the circle, for which
	// its magnetic heading is good enough; it settles in a round or two.
	var fit *Fit
	for range 4 {
		observations := make([]Observation, len(readings))
		for i, s := range readings {
			d := Between(magnetic.Add(parallax[i]), s.Bearing).WithUncertainty(s.Uncertainty)
			observations[i] = Observation{Heading: s.Heading, Deviation: d}
		}
		if fit, err = NewFit(observations, FitOptions{Robust: true}); err != nil {
			return reduction{}, &ReadingError{Index: -1, Err: err}
		}
		magnetic = magnetic.Add(-fit.Coefficients().A)
		if o.Radius == 0 {
			break
		}
		for i, s := range readings {
			heading := observations[i].Deviation.Magnetic(s.Heading)
			parallax[i] = o.parallax(heading, magnetic)
		}
	}
	return o.reduction(readings, magnetic, parallax, fit), nil
}

func (o DistantObject) reduction(readings []Reading, magnetic angle.Magnetic, parallax []angle.Angle, fit *Fit) reduction {
	how := fmt.Sprintf("mean of %d bearings round the circle, A taken as nought", len(readings)-len(fit.Rejected()))
	r := reduction{
		steps:    working.Steps{working.Direction("magnetic", "Object by magnetic", magnetic, how)},
		warnings: []string{"A is taken as nought: a constant deviation, such as a lubber line out of line, does not show in this swing"},
	}
	if e, known := fit.StandardErrors(); known {
		r.common = sigma(float64(e.A))
	}
	for _, rejected := range fit.Rejected() {
		r.warnings = append(r.warnings, fmt.Sprintf("the bearing on %v stands apart and was left out of the mean", rejected.Heading))
	}
	if o.Radius == 0 {
		r.warnings = append(r.warnings, "no parallax was allowed for: lie as far from the object as it can be seen, or swing in a small circle")
	}
	for i, s := range readings {
		var steps working.Steps
		should := magnetic.Add(parallax[i])
		if o.Radius != 0 {
			steps = working.Steps{
				working.Direction("centre", "Object from the middle", magnetic, "as found"),
				working.EastWest("parallax", "Parallax", parallax[i], "from the vessel's place on the circle"),
			}
		}
		r.observations = append(r.observations, compared(s, "Object", should, s.Bearing, s.Uncertainty, steps))
	}
	return r
}

// parallax is by how much the object's bearing from the vessel is greater than
// from the middle of the circle. A vessel that turns to starboard has the middle
// on her starboard beam.
func (o DistantObject) parallax(heading, object angle.Magnetic) angle.Angle {
	out := heading.Add(-90 * angle.Degree) // from the middle to the vessel
	if o.Turning == angle.Port {
		out = heading.Add(90 * angle.Degree)
	}
	s, c := out.Sub(object).SinCos()
	p, err := angle.Atan2(-o.Radius*s, o.Distance-o.Radius*c)
	if err != nil {
		return 0 // the object is outside the circle
	}
	return p
}
