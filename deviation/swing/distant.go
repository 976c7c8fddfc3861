package swing

import (
	"fmt"
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
)

// A DistantObject compares the compass with an object of unknown direction, so far off that its
// bearing hardly changes while the vessel swings. It uses the Bearing of each [Reading].
//
// The object's magnetic bearing is taken as the mean of its compass bearings round the circle. This
// assumes that the coefficient A is zero. A constant deviation, such as from a lubber line out of
// line, does not show in this swing. If the headings are not at equal steps, the curve A to E
// through the bearings gives the mean. A bearing that does not agree with the others is left out.
type DistantObject struct {
	// Distance is from the middle of the swinging circle to the object, and Radius is that of the
	// circle, in the same unit. With them, the bearings are corrected for parallax. If both are
	// zero, there is no correction, and a warning says so. The distance must be at least three
	// radii.
	Distance float64
	Radius   float64

	// Turning is the side to which the vessel turns round the circle; if empty, starboard. Without
	// a distance and a radius it has no effect.
	Turning angle.Side

	// A is the standard uncertainty of the coefficient A, which this method takes as zero. State it
	// if the lubber line was checked. If not stated, [Swing.Common] is unknown.
	A angle.Uncertainty
}

// name implements [Method].
func (o DistantObject) name() string { return "a distant object of unknown direction" }

// columns implements [Method].
func (o DistantObject) columns() []string { return []string{"bearing"} }

// reduce implements [Method].
func (o DistantObject) reduce(readings []reading) (reduction, error) {
	if err := o.check(); err != nil {
		return reduction{}, swingError(err)
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
	// The parallax depends on the vessel's magnetic heading, and the heading depends on the
	// parallax. Each round at least halves the error at three radii, and reduces it more at a
	// greater distance.
	var observations []Observation
	var used []bool
	settled := false
	looks := 0 // the number of searches for suspect bearings: at first, and when the parallax is known
	for round := 0; !settled && round < 60; round++ {
		observations = observationsBy(readings, magnetic, parallax)
		if used == nil {
			used = unsuspected(observations, true)
			looks++
		}
		if round == 0 || o.Radius == 0 { // later only the parallax changes
			q := newProblem(observations, used, deviation.ByCompass, make([]angle.Angle, len(observations)), 2)
			if _, _, err := q.curveOf(2); err != nil {
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
		return reduction{}, swingError(fmt.Errorf("the parallax cannot be found; check the distance %v, the radius %v and the side of the turn", o.Distance, o.Radius))
	}
	fit, err := fitUsed(observations, used, FitOptions{Order: 2})
	if err != nil {
		return reduction{}, swingError(err)
	}
	return o.reduction(readings, magnetic, parallax, fit), nil
}

// check returns an error if the object is too near, or the side of the turn is invalid.
func (o DistantObject) check() error {
	if o.Distance != 0 || o.Radius != 0 {
		if !(o.Radius > 0) || !(o.Distance >= 3*o.Radius) || math.IsInf(o.Distance, 0) {
			return fmt.Errorf("the distance is %v and the radius %v; the object must be at least three radii off, or give neither", o.Distance, o.Radius)
		}
	}
	if o.Turning != "" && o.Turning != angle.Starboard && o.Turning != angle.Port {
		return fmt.Errorf("%q is not a side; give angle.Starboard or angle.Port", o.Turning)
	}
	return nil
}

// observationsBy returns the deviations on the headings of some readings, by the magnetic bearing
// of the object and its parallax at each.
func observationsBy(readings []reading, magnetic angle.Magnetic, parallax []angle.Angle) []Observation {
	observations := make([]Observation, len(readings))
	for i, s := range readings {
		d := deviation.Between(magnetic.Add(parallax[i]), s.Bearing).WithUncertainty(s.Uncertainty)
		observations[i] = Observation{Heading: s.Heading, Deviation: d}
	}
	return observations
}

// constantOf returns A of the observations used, weighted as in a fit. It reports false if they do
// not determine it.
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

// reduction returns what the swing gives, with its steps and warnings.
func (o DistantObject) reduction(readings []reading, magnetic angle.Magnetic, parallax []angle.Angle, fit *Fit) reduction {
	n := len(readings) - len(fit.LeftOut())
	step := working.Direction("magnetic", "Object by magnetic", magnetic)
	if n == len(readings) && isEven(readings) {
		step = step.Because("swing-mean-of-bearings", "mean of %d bearings round the circle, A taken as zero", n)
	} else {
		step = step.Because("swing-curve-of-bearings", "of a curve A to E through %d bearings, A taken as zero", n)
	}
	r := reduction{
		steps:    working.Steps{step},
		warnings: []working.Warning{working.Warn(ConstantTakenAsZero, "constant-taken-as-zero", "A is taken as zero: a constant deviation, such as that of a lubber line out of line, does not show in this swing")},
	}
	if e, known := fit.StandardErrors(); known {
		r.common = o.A.Combined(harmonic.Sigma(float64(e.A)))
	}
	for _, rejected := range fit.LeftOut() {
		r.warnings = append(r.warnings, working.Warn(BearingLeftOut, "bearing-left-out", "the bearing on %v does not agree with the others and was left out of the mean", rejected.Heading))
	}
	if o.Radius == 0 {
		r.warnings = append(r.warnings, working.Warn(NoParallax, "no-parallax", "no parallax was allowed for: stay as far from the object as it can be seen, or swing in a small circle"))
	}
	for i, s := range readings {
		var steps working.Steps
		should := magnetic.Add(parallax[i])
		if o.Radius != 0 {
			steps = working.Steps{
				working.Direction("centre", "Object from the middle", magnetic).Because("swing-as-found", "as found"),
				parallaxStep(parallax[i]),
			}
		}
		r.observations = append(r.observations, compared(s, "Object", should, s.Bearing, s.Uncertainty, steps))
	}
	return r
}

// parallaxStep is the step of the parallax.
func parallaxStep(p angle.Angle) working.Step {
	step := working.Step{Key: "parallax", What: "Parallax", Value: fmt.Sprintf("%.1v", p.Abs()), Number: p.Degrees(), Unit: "degrees, clockwise positive"}
	if p < 0 {
		return step.Because("swing-parallax-less", "the bearing from the vessel is less than from the middle of the circle")
	}
	return step.Because("swing-parallax-greater", "the bearing from the vessel is greater than from the middle of the circle")
}

// isEven reports whether the headings are at equal steps round the circle, within a degree.
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

// parallax returns the object's bearing from the vessel minus that from the middle of the circle. A
// vessel that turns to starboard has the middle on its starboard beam.
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
