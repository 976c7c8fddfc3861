package deviation

import (
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/deviation/internal/harmonic"
)

// solve finds the deviation on a heading of the other kind.
func (c *Curve) solve(other angle.Angle) (Deviation, error) {
	var z angle.Angle
	if c.ordered {
		z = c.between(other-harmonic.Round(c.most)-1, other+harmonic.Round(c.most)+1, other)
	} else {
		found := c.all(other)
		if len(found) != 1 {
			return Deviation{}, ambiguous(c.by, found, other)
		}
		z = found[0]
	}
	d := East(angle.Angle(c.sign) * (other - z).NormalizedSigned())
	if c.stated {
		// The heading that was solved for is uncertain too, by the slope of the curve.
		s, k := z.SinCos()
		d = d.WithUncertainty(harmonic.Sigma(math.Sqrt(max(0, c.variance.At(s, k))) / math.Abs(c.rise(z))))
	}
	return d, nil
}

// height is the other heading on z, not normalized.
func (c *Curve) height(z angle.Angle) float64 {
	s, k := z.SinCos()
	return float64(z) + c.sign*c.function.At(s, k)
}

// between finds the heading between low and high with the given other heading, if that only rises or
// only falls there and passes it. It uses Newton's method, kept inside the bracket.
func (c *Curve) between(low, high, other angle.Angle) angle.Angle {
	f := func(z angle.Angle) float64 { return c.height(z) - float64(other) }
	rising := f(high) >= f(low)
	z := low + (high-low)/2
	for range 80 {
		at := f(z)
		if (at > 0) == rising {
			high = z
		} else {
			low = z
		}
		next := z - harmonic.Round(at/c.rise(z))
		if next == z || high-low <= 1 {
			break
		}
		if next <= low || next >= high {
			next = low + (high-low)/2
		}
		z = next
	}
	return z
}

// all finds every heading with a given other heading, in order.
func (c *Curve) all(other angle.Angle) []angle.Angle {
	// Between two turns the other heading only rises or only falls.
	turns := []angle.Angle{0}
	for z := angle.Angle(0); z < angle.Turn; z += curveStep {
		if a, b := c.rise(z), c.rise(z+curveStep); (a < 0) != (b < 0) {
			low, high := z, z+curveStep
			for high-low > 1 {
				middle := low + (high-low)/2
				if (c.rise(middle) < 0) == (a < 0) {
					low = middle
				} else {
					high = middle
				}
			}
			turns = append(turns, high)
		}
	}
	turns = append(turns, angle.Turn)
	var found []angle.Angle
	for i := range len(turns) - 1 {
		y0, y1 := c.height(turns[i]), c.height(turns[i+1])
		low, high := min(y0, y1), max(y0, y1)
		// A piece may cover more than the circle, if the falling piece lies across north.
		for target := harmonic.Round(low) + (other - harmonic.Round(low)).Normalized(); float64(target) <= high; target += angle.Turn {
			found = append(found, c.between(turns[i], turns[i+1], target).Normalized())
		}
	}
	slices.Sort(found)
	found = slices.CompactFunc(found, func(a, b angle.Angle) bool { return (b - a).Abs() <= sameHeading })
	if n := len(found); n > 1 && found[0]+angle.Turn-found[n-1] <= sameHeading {
		found = found[:n-1]
	}
	return found
}
