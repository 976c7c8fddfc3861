package check

import (
	"math"
	"math/bits"
	"slices"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
)

// A change explains the differences between a log and a card: a change of the compass, and the
// checks that are outliers. The zero value is no change and no outlier.
type change struct {
	letters uint       // bits 0 to 2: constant, as on east and west, as on north and south
	begins  int        // the row of the model at which it begins
	size    [3]float64 // of each part in degrees; 0 for those not in letters
	apart   []int      // rows of the outliers, the worst first
	squares []float64  // of each outlier's difference in standard deviations
	cost    float64    // the remaining chi-square plus the cost of the parts
}

// mostApart returns the largest number of outliers among n checks.
func mostApart(n int) int {
	if n < 2 {
		return 0
	}
	return min(1+n/10, 20)
}

// apartSquare returns the square of the difference, in standard deviations, from which one of n
// checks is an outlier. One log in a hundred without a blunder has such a check.
func apartSquare(n int) float64 {
	z := distuv.UnitNormal.Quantile(1 - 0.005/float64(n))
	return z * z
}

// doubtfulChange is how much better a change must explain a log than outliers do. Of logs of eight
// checks with one blunder, 2.4 % were condemned with a value of 0, and 1.8 % with 1.
const doubtfulChange = 1

// explain finds the change and the outliers that explain the log best: the least sum of the
// remaining chi-square and the cost of the parts. A coefficient of a change costs log n (Schwarz,
// Annals of Statistics 6, 1978; cited from memory). The search for its beginning costs 2 log n
// more. An outlier costs the same: one figure, and the search for it.
func (m *reviewModel) explain() change {
	best := m.leaveOut(change{})
	if changed := m.search(nil); changed.letters != 0 {
		// An outlier may hide the beginning.
		changed = m.leaveOut(changed)
		if len(changed.apart) > 0 {
			if again := m.leaveOut(m.search(changed.apart)); again.letters != 0 && again.cost < changed.cost {
				changed = again
			}
		}
		// What is astray without a change may hide which change it is. Of very few checks a
		// change with an outlier explains anything.
		if n := len(best.apart); n > 0 && len(m.rows)-n >= fewJudged {
			if again := m.leaveOut(m.search(best.apart)); again.letters != 0 && again.cost < changed.cost {
				changed = again
			}
		}
		if changed.cost < best.cost-doubtfulChange {
			best = changed
		}
	}
	return best
}

// each is the cost of one figure of an explanation.
func (m *reviewModel) each() float64 { return math.Log(float64(max(3, len(m.rows)))) }

// price returns the cost of the coefficients of a change.
func (m *reviewModel) price(letters uint, begins int) float64 {
	p := float64(bits.OnesCount(letters)) * m.each()
	if letters != 0 && begins > 0 {
		p += 2 * m.each()
	}
	return p
}

// leastSeen is the least part of a change as on east, or as on north, that the headings of the
// checks must show on the mean of the squares: half of it on each. A check on 100° sees a sixth of
// a change as on north, and would make of 1° one of 6°.
const leastSeen = 0.25

// search finds the change with the lowest cost, without the outliers. One check alone cannot
// say which change it is.
func (m *reviewModel) search(apart []int) change {
	rest := m.without(apart)
	var best change
	n := len(rest.rows)
	if n < 2 {
		return best
	}
	var raw sums
	for i := n - 1; i >= 0; i-- {
		raw.add(&rest.rows[i])
		if i > 0 && !rest.ordered {
			continue
		}
		s := raw.less(rest)
		for letters := uint(1); letters < 8; letters++ {
			p := bits.OnesCount(letters)
			if n-i < p+2 && !(i == 0 && p == 1) {
				continue
			}
			if j := bits.TrailingZeros(letters); p == 1 && raw.normal[j][j] < leastSeen*raw.weight {
				continue
			}
			size, _, gain, ok := s.solve(letters)
			if cost := m.price(letters, i) - gain; ok && cost < best.cost {
				best = change{letters: letters, begins: rest.rows[i].row, size: size, cost: cost}
			}
		}
	}
	return best
}

// leaveOut leaves out checks one by one as long as that lowers the cost. Each time it takes the
// check that is farthest from what the others predict.
func (m *reviewModel) leaveOut(c change) change {
	price := 3 * m.each()
	c.apart, c.squares = nil, nil
	for rest := m.without(nil); ; rest.weigh() {
		worst, square, chi := rest.worst(&c)
		c.cost = chi + m.price(c.letters, c.begins) + float64(len(c.apart))*price
		if square < price || len(c.apart) == mostApart(len(m.rows)) || len(rest.rows) <= 1+bits.OnesCount(c.letters) {
			return c
		}
		c.apart, c.squares = append(c.apart, worst), append(c.squares, square)
		rest.leave(worst)
	}
}

// judge gives the verdict by the checks that are not outliers. An outlier is too far off for
// chance. The other checks that the explanation leaves out still count, with one exception. If no
// change explains the log and only the next such check condemns the card, that check is an outlier
// too.
func (m *reviewModel) judge(r *Review, c *change) Verdict {
	least := apartSquare(len(m.rows))
	all, n := c.apart, 0
	for n < len(all) && c.squares[n] >= least {
		n++
	}
	c.apart = all[:n]
	v := r.test(m.without(c.apart))
	if v == SwingAgain && n > 0 && len(m.rows)-n < fewJudged {
		// Too few remain to condemn the card. All checks count, or the card is not condemned.
		c.apart = nil
		return r.test(m)
	}
	if c.letters != 0 {
		return v
	}
	for more := n; v == SwingAgain && more < len(all); {
		more++
		if with := new(Review).test(m.without(all[:more])); with != SwingAgain {
			c.apart = all[:more]
			return r.test(m.without(c.apart))
		}
	}
	return v
}

// worst fits a change to the rows and returns the row that is farthest from what the others
// predict. It also returns the square of that distance in standard deviations, and the remaining
// chi-square of all rows.
func (m *reviewModel) worst(c *change) (row int, square, chi float64) {
	begins := len(m.rows)
	var e sums
	var inverse [3][3]float64
	chi = m.chiSquare()
	if c.letters != 0 {
		begins, _ = m.position(c.begins)
		if begins == len(m.rows) {
			return 0, 0, math.Inf(1)
		}
		e = m.equations(begins)
		var gain float64
		var ok bool
		if c.size, inverse, gain, ok = e.solve(c.letters); !ok {
			return 0, 0, math.Inf(1)
		}
		chi = max(0, chi-gain)
	}
	left := m.uwd // of the differences less the change
	for j, b := range c.size {
		left[0] -= b * e.common[j][0]
		left[1] -= b * e.common[j][1]
	}
	for i := range m.rows {
		r := &m.rows[i]
		difference, x := r.difference, [3]float64{}
		if i >= begins {
			x = r.basis
			for j, b := range c.size {
				difference -= b * x[j]
			}
		}
		weighted := (difference - m.shared(r.common, left)) / r.variance
		precision := 1/r.variance - m.shared(r.common, r.common)/(r.variance*r.variance)
		for j := range x {
			x[j] = (x[j] - m.shared(r.common, e.common[j])) / r.variance
		}
		for j := range x {
			for k := range x {
				precision -= x[j] * inverse[j][k] * x[k]
			}
		}
		// A check that alone determines a coefficient has no residual.
		if s := weighted * weighted / precision; precision > 1e-6/r.variance && s > square {
			row, square = r.row, s
		}
	}
	return row, square, chi
}

// solve solves the equations of some letters. The inverse is zero for the others. It reports false
// if the headings cannot separate the letters.
func (s *sums) solve(letters uint) (size [3]float64, inverse [3][3]float64, gain float64, ok bool) {
	a := s.normal
	for j := range 3 {
		if letters>>j&1 == 0 {
			for k := range 3 {
				a[j][k], a[k][j] = 0, 0
			}
			a[j][j] = 1
		}
		inverse[j][j] = 1
	}
	// Gauss and Jordan; the matrix is positive definite.
	for j := range 3 {
		if letters>>j&1 == 1 && !(a[j][j] > 1e-9*s.weight) || letters>>j&1 == 1 && j > 0 && !(a[j][j] > 0.02*s.weight) {
			return size, inverse, 0, false
		}
		pivot := a[j][j]
		for k := range 3 {
			a[j][k] /= pivot
			inverse[j][k] /= pivot
		}
		for i := range 3 {
			if f := a[i][j]; i != j && f != 0 {
				for k := range 3 {
					a[i][k] -= f * a[j][k]
					inverse[i][k] -= f * inverse[j][k]
				}
			}
		}
	}
	for j := range 3 {
		if letters>>j&1 == 0 {
			inverse[j][j] = 0
			continue
		}
		for k := range 3 {
			if letters>>k&1 == 1 {
				size[j] += inverse[j][k] * s.right[k]
			}
		}
		gain += size[j] * s.right[j]
	}
	return size, inverse, gain, true
}

// soften turns a verdict from too few checks into "in doubt".
func (m *reviewModel) soften(v Verdict, c change) Verdict {
	n := len(m.rows)
	switch {
	case n == 1 && v == SwingAgain:
		return CardInDoubt
	case v == CardHolds && len(c.apart) > 0 && (n-len(c.apart) < fewJudged || slices.Contains(c.apart, n-1)):
		return CardInDoubt
	}
	return v
}

// coefficients returns the change as A, B and C.
func (c change) coefficients() deviation.Coefficients {
	unit := float64(angle.Degree)
	return deviation.Coefficients{A: harmonic.Round(c.size[0] * unit), B: harmonic.Round(c.size[1] * unit), C: harmonic.Round(c.size[2] * unit)}
}

// since returns the time of the first check that shows a change, unless all checks show it.
func (m *reviewModel) since(c change) time.Time {
	if c.letters == 0 || c.begins == 0 {
		return time.Time{}
	}
	return m.rows[c.begins].time
}

// reasons returns a warning for each part of the change.
func (c change) reasons(since time.Time) []working.Warning {
	var list []working.Warning
	size := func(j int) deviation.Deviation {
		return deviation.East(harmonic.Round(c.size[j] * float64(angle.Degree)).Round(angle.Degree / 10))
	}
	if c.letters&1 != 0 {
		list = append(list, working.Warn(verdictReason, "review-change-constant", "the deviation seems to have changed by %s on all headings (lubber line, variation or a wrong time)", size(0)))
	}
	if c.letters&2 != 0 {
		list = append(list, working.Warn(verdictReason, "review-change-on-east", "the deviation seems to have changed by %s on east, and the other way on west (iron or a magnet fore and aft)", size(1)))
	}
	if c.letters&4 != 0 {
		list = append(list, working.Warn(verdictReason, "review-change-on-north", "the deviation seems to have changed by %s on north, and the other way on south (iron or a magnet to one side)", size(2)))
	}
	if !since.IsZero() {
		list = append(list, working.Warn(verdictReason, "review-change-since", "the change shows since %s", since.UTC().Format("2 January 2006")))
	}
	return list
}
