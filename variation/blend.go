package variation

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A part is a rose with its weight in a blend.
type part struct {
	rose   int
	weight float64
}

// blend returns the roses that answer for a position, with their weights.
func (c *Chart) blend(position angle.Position) ([]part, error) {
	outside := func(reason string) error {
		near := c.roses[c.nearest(position)]
		return &Error{Kind: OutsideRoses, Rose: near.Name, Reason: fmt.Sprintf("%s: %s; the nearest rose is %s, %.1f M away", position, reason, near.label(), position.ArcTo(near.Position).Minutes())}
	}
	if len(c.roses) == 1 {
		return []part{{0, 1}}, nil
	}
	for i, r := range c.roses {
		if r.Position.SamePlace(position) {
			return []part{{i, 1}}, nil
		}
	}
	if c.plane.reason != "" {
		return nil, outside(c.plane.reason)
	}
	p := c.plane.point(position)
	if c.line != nil {
		parts, reason := c.plane.alongLine(c.line, p)
		if reason != "" {
			return nil, outside(reason)
		}
		return parts, nil
	}
	for _, t := range c.triangles {
		u, v, w := c.plane.barycentric(t, p)
		if u >= -onEdge && v >= -onEdge && w >= -onEdge {
			return c.plane.shares(t, u, v, w), nil
		}
	}
	return nil, outside("outside the triangles of the roses")
}

// onEdge keeps rounding from moving a position off the edge of a triangle.
const onEdge = 1e-12

// mix brings the roses of a blend to a date and returns their weighted mean.
func (c *Chart) mix(parts []part, date time.Time) (Variation, error) {
	var first angle.Angle
	var sum, sigmas float64
	allStated := true
	for i, p := range parts {
		projection, err := c.project(p.rose, date)
		if err != nil {
			return Variation{}, err
		}
		v := projection.Variation
		if i == 0 {
			first = v.Angle()
		}
		sum += p.weight * float64((v.Angle() - first).NormalizedSigned())
		s, stated := v.Uncertainty().Sigma()
		sigmas += p.weight * float64(s)
		allStated = allStated && stated
	}
	v := East(first + angle.Angle(math.Round(sum)))
	if allStated {
		v = v.WithUncertainty(sigma(angle.Angle(math.Round(max(sigmas, 0)))))
	}
	return v, nil
}

// explainBlend adds the working of a blend.
func (c *Chart) explainBlend(e Explanation, parts []part, date time.Time) (Explanation, error) {
	var first, least, most angle.Angle // variations; least and most are relative to first
	change := 0.0
	for i, p := range parts {
		r := c.roses[p.rose]
		projection, err := c.project(p.rose, date)
		if err != nil {
			return e, err
		}
		weight := working.Step{Key: "rose", What: "Rose", Value: fmt.Sprintf("%.3f", p.weight), Number: p.weight, Unit: "weight"}
		e.Working = append(e.Working, weight.Because("weight-of-rose", "%s: its weight", r.label()))
		e.Working = append(e.Working, projection.Working()...)
		e.Warnings = append(e.Warnings, projection.Warnings(c.Limits)...)
		change += p.weight * float64(projection.Change)
		if i == 0 {
			first = projection.Variation.Angle()
		}
		d := (projection.Variation.Angle() - first).NormalizedSigned()
		least, most = min(least, d), max(most, d)
	}
	e.Change = angle.Angle(math.Round(change))
	if most-least >= c.Limits.difference() {
		e.Warnings = append(e.Warnings, working.Warn(RosesDiffer, "blended-roses-differ", "the blended roses differ by %v: use a field model, or a chart with a nearer rose", most-least))
	}
	e.Working = append(e.Working, working.EastWest("blended variation", "Variation here", e.Variation.Angle()).
		Because("weighted-mean", "weighted mean of the roses, linear in latitude and longitude"))
	return e, nil
}
