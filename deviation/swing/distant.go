package swing

import (
	"fmt"
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/say"
)

// A DistantObject compares the compass with an object of unknown direction, far
// enough off that its bearing hardly changes while the vessel swings: it uses
// Bearing of each [Reading].
//
// The object's magnetic bearing is taken to be the mean of its bearings by
// compass, all round the circle. That is so if the compass has no constant
// deviation: A is taken as zero, and an A there is, an index error of the
// lubber line for one, goes unseen. Where the headings are not at equal steps the
// mean is that of the curve A to E through the bearings, so that a crowded
// sector does not draw it aside; a bearing that stands apart is left out of it.
type DistantObject struct {
	// Distance of the object from the middle of the swinging circle and the
	// circle's Radius, in the same unit. If they are given, the bearings are
	// brought to the middle; zero means that they are not known: no parallax is
	// allowed for then, and a warning says so. The object must be at least three radii
	// off.
	Distance float64
	Radius   float64

	// Turning is the side to which the vessel steams the circle, Starboard if empty. It
	// is of no account without a distance and a radius.
	Turning angle.Side

	// A is how well the constant deviation is known to be zero, as by a lubber line
	// that was checked. Not stated, it leaves [Swing.Common] not stated.
	A angle.Uncertainty
}

func (o DistantObject) name() string      { return "a distant object of unknown direction" }
func (o DistantObject) columns() []string { return []string{"bearing"} }

func (o DistantObject) reduce(readings []reading) (reduction, error) {
	if o.Distance != 0 || o.Radius != 0 {
		if !(o.Radius > 0) || !(o.Distance >= 3*o.Radius) || math.IsInf(o.Distance, 0) {
			return reduction{}, swingError(fmt.Errorf("distance %v and radius %v: want the object at least three radii off, or neither given", o.Distance, o.Radius))
		}
	}
	if o.Turning != "" && o.Turning != angle.Starboard && o.Turning != angle.Port {
		return reduction{}, swingError(fmt.Errorf("turning to %q: give angle.Starboard or angle.Port", o.Turning))
	}
	bearings := make([]angle.Compass, len(readings))
	for i, s := range readings {
		bearings[i] = s.Bearing
	}
	start, _, err := angle.Mean(bearings...)
	if err != nil {
		return reduction{}, swingError(err)
	}
	magnetic := angle.MagneticFrom(start.FromNorth())
	parallax := make([]angle.Angle, len(readings))
	// The parallax depends on the vessel's magnetic heading, and that on the
	// parallax: each round brings it nearer, by half at three radii.
	var observations []Observation
	var used []bool
	settled := false
	looks := 0 // how often suspect bearings were looked for: at first, and when the parallax is known
	for round := 0; !settled && round < 60; round++ {
		observations = make([]Observation, len(readings))
		for i, s := range readings {
			d := deviation.Between(magnetic.Add(parallax[i]), s.Bearing).WithUncertainty(s.Uncertainty)
			observations[i] = Observation{Heading: s.Heading, Deviation: d}
		}
		if used == nil {
			used = unsuspected(observations, true)
			looks++
		}
		if round == 0 || o.Radius == 0 { // later only the parallax changes
			q := &problem{by: deviation.ByCompass, observations: observations, used: used, steps: make([]angle.Angle, len(observations))}
			if _, _, err := q.fitOrder(2); err != nil {
				return reduction{}, swingError(suspectFirst(err, observations))
			}
		}
		a, ok := constantOf(observations, used)
		if !ok {
			return reduction{}, swingError(spreadError(observations, used, deviation.ByCompass))
		}
		magnetic = magnetic.Add(-a)
		settled = true
		if o.Radius == 0 {
			break
		}
		for i, s := range readings {
			heading := observations[i].Deviation.Magnetic(s.Heading)
			p := o.parallax(heading, magnetic)
			settled = settled && (p-parallax[i]).Abs() < angle.Second
			parallax[i] = p
		}
		if settled && looks == 1 {
			used, settled = nil, false
		}
	}
	if !settled {
		return reduction{}, swingError(fmt.Errorf("the parallax does not settle: check distance %v, radius %v and the side turned to", o.Distance, o.Radius))
	}
	fit, err := fitUsed(observations, used, FitOptions{Order: 2})
	if err != nil {
		return reduction{}, swingError(err)
	}
	return o.reduction(readings, magnetic, parallax, fit), nil
}

// constantOf is A of the observations used, weighted as a fit weighs them.
func constantOf(observations []Observation, used []bool) (angle.Angle, bool) {
	weights, _ := fitWeights(observations, used)
	d := &design{}
	var rows []int
	for i, o := range observations {
		if !used[i] {
			continue
		}
		w := math.Sqrt(weights[len(rows)])
		var line [five]float64
		s, c := o.Heading.FromNorth().SinCos()
		harmonic.Basis(line[:], s, c)
		for j := range line {
			line[j] *= w
		}
		d.x, d.y = append(d.x, line), append(d.y, w*o.Deviation.Angle().NormalizedSigned().Degrees())
		rows = append(rows, len(rows))
	}
	f, ok := d.fit(rows)
	return harmonic.Round(f.b[0] * float64(angle.Degree)), ok
}

func (o DistantObject) reduction(readings []reading, magnetic angle.Magnetic, parallax []angle.Angle, fit *Fit) reduction {
	n := len(readings) - len(fit.Rejected())
	how := fmt.Sprintf("of a curve A to E through %d bearings, A taken as zero", n)
	if n == len(readings) && isEven(readings) {
		how = fmt.Sprintf("mean of %d bearings round the circle, A taken as zero", n)
	}
	r := reduction{
		steps:    working.Steps{working.Direction("magnetic", "Object by magnetic", magnetic, how)},
		warnings: []working.Warning{say.Warn(ConstantTakenAsZero, "A is taken as zero: a constant deviation, such as a lubber line out of line, does not show in this swing")},
	}
	if e, known := fit.StandardErrors(); known {
		r.common = o.A.Combined(harmonic.Sigma(float64(e.A)))
	}
	for _, rejected := range fit.Rejected() {
		r.warnings = append(r.warnings, say.Warn(BearingLeftOut, "the bearing on %v stands apart and was left out of the mean", rejected.Heading))
	}
	if o.Radius == 0 {
		r.warnings = append(r.warnings, say.Warn(NoParallax, "no parallax was allowed for: lie as far from the object as it can be seen, or swing in a small circle"))
	}
	for i, s := range readings {
		var steps working.Steps
		should := magnetic.Add(parallax[i])
		if o.Radius != 0 {
			steps = working.Steps{
				working.Direction("centre", "Object from the middle", magnetic, "as found"),
				parallaxStep(parallax[i]),
			}
		}
		r.observations = append(r.observations, compared(s, "Object", should, s.Bearing, s.Uncertainty, steps))
	}
	return r
}

// parallaxStep says by how much the bearing from the vessel differs.
func parallaxStep(p angle.Angle) working.Step {
	which := "greater"
	if p < 0 {
		which = "less"
	}
	return working.Step{Key: "parallax", What: "Parallax", Value: fmt.Sprintf("%.1v", p.Abs()), Number: p.Degrees(), Unit: "degrees, clockwise positive",
		How: "the bearing from the vessel's place on the circle is " + which}
}

// isEven reports whether the headings are at equal steps round the circle, to a
// degree.
func isEven(readings []reading) bool {
	headings := make([]angle.Angle, len(readings))
	for i, r := range readings {
		headings[i] = r.Heading.FromNorth()
	}
	slices.Sort(headings)
	for i, h := range headings {
		next := headings[(i+1)%len(headings)]
		if gap := (next - h).Normalized(); (gap - angle.Turn/angle.Angle(len(headings))).Abs() > angle.Degree {
			return false
		}
	}
	return true
}

// parallax is by how much the object's bearing from the vessel is greater than
// from the middle of the circle. A vessel that turns to starboard has the middle
// on its starboard beam.
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
