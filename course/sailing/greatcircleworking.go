package sailing

import (
	"math"

	"lubberline.example/angle/working"
)

// Working returns the steps. On [Sphere] they are the formulas of the spherical triangle. On an
// ellipsoid, which has no such formulas, they end with the distance and the course on the
// sphere, to check by hand.
func (g GreatCircle) Working() working.Sheet { return sheet(g.steps()) }

// steps returns the steps of the working.
func (g GreatCircle) steps() working.Steps {
	steps := positionSteps(g.From, g.To)
	initial, final := working.Direction("initial course", "Initial course", g.Initial), working.Direction("final course", "Final course", g.Final)
	distance := distanceStep("distance", "Distance", g.Distance)
	figure := g.Figure.or()
	if figure.f == 0 {
		steps = append(steps,
			distance.Because("spherical-distance", "on the sphere, where a minute of arc is a mile: cos D = sin lat₁ sin lat₂ + cos lat₁ cos lat₂ cos d.long"),
			quadrantal(initial.Because("spherical-course", "tan C = sin d.long / (cos lat₁ tan lat₂ − sin lat₁ cos d.long)"), g.Initial),
			final.Because("from-the-other-end", "the same from the other end, reversed"))
		return append(steps, g.vertexSteps()...)
	}
	steps = append(steps,
		distance.Because("shortest-line", "shortest line on %v, in miles of 1852 m", figure),
		initial.Because("solved-course", "solved for, until the line meets the other end"),
		final.Because("course-at-the-end", "of the same line at its end"))
	steps = append(steps, g.vertexSteps()...)
	if s, err := Sphere().GreatCircle(g.From, g.To); err == nil {
		steps = append(steps, distanceStep("sphere distance", "To check: on the sphere", s.Distance).
			Because("check-on-the-sphere", "cos D = sin lat₁ sin lat₂ + cos lat₁ cos lat₂ cos d.long; initial course %.1f; within 0.6 %%", s.Initial))
	}
	return steps
}

// vertexSteps returns the step of the nearer vertex, or none on the equator.
func (g GreatCircle) vertexSteps() working.Steps {
	north, south, ok := g.Vertices()
	if !ok {
		return nil
	}
	v := north
	if !g.onLeg(north.Distance) && (g.onLeg(south.Distance) || math.Abs(float64(south.Distance)) < math.Abs(float64(north.Distance))) {
		v = south
	}
	step := working.Step{Key: "vertex", What: "Vertex", Value: v.Position.String(), Number: v.Position.Latitude.Degrees(), Unit: degreesNorth}
	if g.Figure.or().f == 0 {
		step = step.Because("vertex-by-sine-rule", "cos lat = sin C cos lat₁")
	} else {
		step = step.Because("farthest-from-the-equator", "farthest from the equator")
	}
	if g.onLeg(v.Distance) {
		return working.Steps{step.Because("vertex-on-the-leg", "on the leg, after %v", v.Distance)}
	}
	return working.Steps{step.Because("vertex-outside-the-leg", "outside the leg")}
}
