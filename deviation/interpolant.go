package deviation

import (
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/deviation/internal/harmonic"
)

// An interpolant is a periodic curve of deviation over heading, linear or cubic between its knots.
// It also gives the other heading: over compass headings, magnetic = compass + deviation; over
// magnetic headings, compass = magnetic − deviation.
type interpolant struct {
	sign       angle.Angle   // +1 over compass headings, −1 over magnetic ones
	knots      []angle.Angle // headings, rising in [0°, 360°)
	deviations []angle.Angle // at the knots, east positive
	others     []angle.Angle // knot + sign × deviation, not normalized

	// second has the second derivatives of a cubic curve at the knots, per unit of Angle.
	second []float64

	// ordered is true if the other heading always rises with the heading. Then each heading of one
	// kind has one of the other.
	ordered bool
}

// newInterpolant returns the linear curve through the rows of a table.
func newInterpolant(by HeadingKind, rows []row) interpolant {
	c := interpolant{sign: 1}
	if by == ByMagnetic {
		c.sign = -1
	}
	for _, e := range rows {
		d := e.deviation.Angle()
		c.knots = append(c.knots, e.heading)
		c.deviations = append(c.deviations, d)
		c.others = append(c.others, e.heading+c.sign*d)
	}
	c.ordered = c.isOrdered()
	return c
}

// next is the knot after i, round the circle.
func (c *interpolant) next(i int) int {
	if i++; i == len(c.knots) {
		return 0
	}
	return i
}

// width is the width of the segment that begins at knot i.
func (c *interpolant) width(i int) angle.Angle {
	if i == len(c.knots)-1 {
		return c.knots[0] + angle.Turn - c.knots[i]
	}
	return c.knots[i+1] - c.knots[i]
}

// otherEnd is the other heading at the end of segment i, without a jump from its beginning.
func (c *interpolant) otherEnd(i int) angle.Angle {
	if i == len(c.knots)-1 {
		return c.others[0] + angle.Turn
	}
	return c.others[i+1]
}

// segment returns the segment that contains a heading in [0°, 360°), and the distance of the
// heading from its beginning.
func (c *interpolant) segment(heading angle.Angle) (i int, along angle.Angle) {
	if heading < c.knots[0] {
		heading += angle.Turn
	}
	i = lastNotAfter(c.knots, heading)
	return i, heading - c.knots[i]
}

// lastNotAfter returns the index of the last of some rising angles that is at most a limit, or 0, by
// binary search.
func lastNotAfter(rising []angle.Angle, limit angle.Angle) int {
	low, high := 0, len(rising)
	for high-low > 1 {
		if middle := (low + high) / 2; rising[middle] <= limit {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// value returns the deviation at a distance along a segment.
func (c *interpolant) value(i int, along angle.Angle) angle.Angle {
	start := c.deviations[i]
	rise := float64(c.deviations[c.next(i)] - start)
	t := float64(along) / float64(c.width(i))
	if c.second == nil {
		return start + harmonic.Round(rise*t)
	}
	return start + harmonic.Round(c.bend(i, rise, t))
}

// bend returns the cubic's rise from the beginning of segment i at t in [0, 1]. With second
// derivatives p and q at the ends of a segment of width h it is
//
//	rise·t − h²/6 · t(1−t) · ((2−t)p + (1+t)q)
func (c *interpolant) bend(i int, rise, t float64) float64 {
	h := float64(c.width(i))
	p, q := c.second[i], c.second[c.next(i)]
	return rise*t - h*h/6*t*(1-t)*((2-t)*p+(1+t)*q)
}

// smoothed returns the periodic cubic spline through the knots. At each knot, the second
// derivatives m satisfy the equation below. The widths h and the slopes s are those of the segments
// before and after the knot.
//
//	h₋ m₋ + 2(h₋ + h₊) m + h₊ m₊ = 6 (s₊ − s₋)
//
// (the condition that the first derivative has no jump; de Boor, A Practical
// Guide to Splines, 1978, chapter IV; cited from memory).
func (c interpolant) smoothed() interpolant {
	n := len(c.knots)
	low, high, right := make([]float64, n), make([]float64, n), make([]float64, n)
	slope := func(i int) float64 {
		return float64(c.deviations[c.next(i)]-c.deviations[i]) / float64(c.width(i))
	}
	for i := range n {
		before := (i + n - 1) % n
		h, k := c.width(before).Degrees(), c.width(i).Degrees()
		// Each row is divided by its diagonal. The rest of the row then sums to ½, and the matrix is
		// well conditioned for any spacing.
		low[i], high[i] = h/(2*(h+k)), k/(2*(h+k))
		right[i] = 3 * (slope(i) - slope(before)) / (h + k)
	}
	c.second = cyclic(low, high, right)
	for i := range n {
		c.second[i] /= float64(angle.Degree)
	}
	c.ordered = c.isOrdered()
	return c
}

// isOrdered reports whether the other heading rises strictly in each segment.
func (c *interpolant) isOrdered() bool {
	for i := range c.knots {
		if c.otherEnd(i) <= c.others[i] || c.second != nil && len(c.turns(i)) > 0 {
			return false
		}
	}
	return true
}

// turns returns the places in (0, 1) along a segment of a cubic curve at which the other heading
// stops rising or falling.
func (c *interpolant) turns(i int) []float64 {
	// d/dt of the other heading, over h: 1 + sign·(slope + h/6·(…)), quadratic
	// in t.
	h := float64(c.width(i))
	rise := float64(c.deviations[c.next(i)] - c.deviations[i])
	s := float64(c.sign)
	p, q := c.second[i], c.second[c.next(i)]
	// bend(t) = rise·t − h²/6·(2p+q)·t + h²/2·p·t² + h²/6·(q−p)·t³
	k0 := h + s*(rise-h*h/6*(2*p+q))
	k1 := s * h * h * p
	k2 := s * h * h * (q - p) / 2
	var roots []float64
	for _, t := range quadraticRoots(k2, k1, k0) {
		if t > 0 && t < 1 {
			roots = append(roots, t)
		}
	}
	slices.Sort(roots)
	return roots
}

// quadraticRoots returns the real roots of ax² + bx + c, at most two.
func quadraticRoots(a, b, c float64) []float64 {
	d := b*b - 4*a*c
	if d < 0 {
		return nil
	}
	// The larger root comes first, and the other from their product. So neither loses digits.
	w := -(b + math.Copysign(math.Sqrt(d), b)) / 2
	var roots []float64
	if a != 0 {
		roots = append(roots, w/a)
	}
	if w != 0 {
		roots = append(roots, c/w)
	}
	return roots
}

// unique returns the heading with a given other heading, if there is exactly one.
func (c *interpolant) unique(other angle.Angle) (heading angle.Angle, ok bool) {
	if !c.ordered {
		found := c.all(other)
		if len(found) != 1 {
			return 0, false
		}
		return found[0], true
	}
	other = c.others[0] + (other - c.others[0]).Normalized()
	i := lastNotAfter(c.others, other)
	return (c.knots[i] + c.solve(i, 0, 1, other)).Normalized(), true
}

// all returns every heading with a given other heading, in order.
func (c *interpolant) all(other angle.Angle) []angle.Angle {
	var found []angle.Angle
	for i := range c.knots {
		cuts := []float64{0}
		if c.second != nil {
			cuts = append(cuts, c.turns(i)...)
		}
		cuts = append(cuts, 1)
		for k := range len(cuts) - 1 {
			t0, t1 := cuts[k], cuts[k+1]
			y0, y1 := c.otherAt(i, t0), c.otherAt(i, t1)
			low, high := min(y0, y1), max(y0, y1)
			// The given heading plus the turns that bring it to the piece or above.
			target := low + (other - low).Normalized()
			if target > high {
				continue
			}
			if low == high { // the other heading is constant
				found = append(found, c.knots[i]+harmonic.Round(t0*float64(c.width(i))), c.knots[i]+harmonic.Round(t1*float64(c.width(i))))
				continue
			}
			found = append(found, c.knots[i]+c.solve(i, t0, t1, target))
		}
	}
	for i := range found {
		found[i] = found[i].Normalized()
	}
	slices.Sort(found)
	// The ends of pieces are found from both sides, with rounding errors.
	found = slices.CompactFunc(found, func(a, b angle.Angle) bool { return (b - a).Abs() <= sameHeading })
	if n := len(found); n > 1 && found[0]+angle.Turn-found[n-1] <= sameHeading {
		found = found[:n-1]
	}
	return found
}

// sameHeading is the difference below which two solutions count as one: a millionth of a second of
// arc.
const sameHeading = angle.Second / 1_000_000

// otherAt returns the other heading at t along a segment.
func (c *interpolant) otherAt(i int, t float64) angle.Angle {
	switch t {
	case 0:
		return c.others[i]
	case 1:
		return c.otherEnd(i)
	}
	along := harmonic.Round(t * float64(c.width(i)))
	return c.knots[i] + along + c.sign*c.value(i, along)
}

// solve returns the distance along segment i, between t0 and t1, at which the other heading has the
// given value. Between t0 and t1 the other heading must only rise or only fall, and must pass the
// given value.
func (c *interpolant) solve(i int, t0, t1 float64, other angle.Angle) angle.Angle {
	width := float64(c.width(i))
	if c.second == nil {
		return harmonic.Round(width * float64(other-c.others[i]) / float64(c.otherEnd(i)-c.others[i]))
	}
	rise := float64(c.deviations[c.next(i)] - c.deviations[i])
	s := float64(c.sign)
	target := float64(other - c.others[i])
	height := func(t float64) float64 { return t*width + s*c.bend(i, rise, t) - target }
	// Regula falsi in the Illinois form. It keeps the root between the ends, and needs no derivative,
	// which is zero at a turn.
	f0, f1 := height(t0), height(t1)
	if f0*f1 >= 0 { // at an end, with rounding errors
		if math.Abs(f0) < math.Abs(f1) {
			return harmonic.Round(t0 * width)
		}
		return harmonic.Round(t1 * width)
	}
	for range 100 {
		if math.Abs(t1-t0)*width < 0.25 {
			break
		}
		t := t1 - f1*(t1-t0)/(f1-f0)
		f := height(t)
		if f == 0 {
			return harmonic.Round(t * width)
		}
		if f*f1 < 0 {
			t0, f0 = t1, f1
		} else {
			f0 /= 2
		}
		t1, f1 = t, f
	}
	return harmonic.Round(t1 * width)
}
