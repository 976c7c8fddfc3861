package swing

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"lubberline.example/angle"
	"lubberline.example/deviation/internal/harmonic"
)

// leftOver is the number of degrees of freedom that a higher order needs to be tried.
const leftOver = 6

// A rival is one explanation of the observations: an order, and a correlation of neighbours'
// errors.
type rival struct {
	order      int
	rho        float64
	weight     float64 // by likelihood and number of coefficients; all together 1
	correction float64 // AICc minus AIC
	freedom    float64
	b          []float64
	covariance func(i, j int) float64
}

// choose fits every order that the observations support and returns the fit with the least AICc.
// The other orders, and those with correlated errors, widen its uncertainties.
func choose(q *problem, first, last int) (*Fit, error) {
	if first < last {
		q.takeExact()
	}
	var fits []*Fit
	var candidates []candidate
	var criteria []float64 // with half the correction for few observations
	best := 0
	for order := first; order <= last; order++ {
		fit, squares, err := q.fitOrder(order)
		if err != nil {
			if len(fits) > 0 {
				break // the observations do not support this order or a higher one
			}
			return nil, err
		}
		k := float64(2*order + 2) // the variance is a parameter too
		n := float64(fit.DegreesOfFreedom + 2*order + 1)
		if len(fits) > 0 && (n-k-1 <= 0 || fit.DegreesOfFreedom < leftOver) {
			break
		}
		aic := n*math.Log(q.spread(squares, n)) + 2*k
		aicc := aic
		if n-k-1 > 0 {
			aicc += correction(n, k)
		}
		fits = append(fits, fit)
		criteria = append(criteria, (aic+aicc)/2)
		candidates = append(candidates, candidate{order: order, aicc: aicc})
		if aicc < candidates[best].aicc {
			best = len(fits) - 1
		}
	}
	chosen := fits[best]
	c := q.chain()
	if chosen.covariance == nil || chosen.DegreesOfFreedom <= 0 {
		q.look(chosen, c, first < last)
		return chosen, nil
	}
	rivals := q.rivals(fits, criteria, c)
	sum := 0.0
	for i := range candidates {
		sum += rivals[i].weight
	}
	for i := range candidates {
		candidates[i].weight = rivals[i].weight / sum
	}
	if first < last && chosen.DegreesOfFreedom > 2 {
		chosen.candidates = candidates
	}
	chosen.serial = testSerial(rivals, len(c.y))
	if !chosen.serial.found || correlated(rivals) < serialAllowed {
		rivals = rivals[:len(fits)]
	}
	chosen.widen(rivals)
	q.look(chosen, c, first < last)
	return chosen, nil
}

// spread returns the mean square of a fit's residuals. It is at least the variance of the rounding
// of the readings, and at least one unit of Angle squared.
func (q *problem) spread(squares, n float64) float64 {
	return max(squares/n, q.rounded, 1)
}

// correction returns AICc minus AIC for n observations and k parameters.
func correction(n, k float64) float64 { return 2 * k * (k + 1) / (n - k - 1) }

// coarse is the part of a reading's variance above which rounding alone correlates the errors of
// neighbours. The test of correlated errors is not made then.
const coarse = 0.25

// unread is the least variance of a reading, in units squared: that of a hundredth of a degree.
const unread = float64(angle.Degree/100) * float64(angle.Degree/100)

// rivals returns the fits and, with enough degrees of freedom, the same orders with correlated
// errors of neighbours, each weighted by its likelihood and order. The weights have half of the
// correction for few observations. The whole correction is right for the choice, but it gives the
// higher orders too little weight in the uncertainty of the choice. Swings were simulated with
// harmonics 3 and 4 of 0.2° to 1°, and without. Twice the standard uncertainty held the deviation
// in 95 % to 97 % of cases.
func (q *problem) rivals(fits []*Fit, criteria []float64, c chain) []rival {
	var rivals []rival
	for i, f := range fits {
		p := 2*f.Order + 1
		rivals = append(rivals, rival{order: f.Order, weight: criteria[i], correction: correction(float64(len(c.y)), float64(p+1)), freedom: float64(f.DegreesOfFreedom),
			b: f.function.List(p), covariance: f.covariance.At})
		for j, v := range q.bend.List(p) {
			rivals[i].b[j] -= v
		}
	}
	n := float64(len(c.y))
	var ways []whitened
	if fits[0].DegreesOfFreedom > leftOver && max(q.rounded, unread) < coarse*fits[0].unit {
		for k := range serialMost + 1 {
			ways = append(ways, c.whiten(serialStep*float64(k)))
		}
	}
	// Correlated errors are together as likely beforehand as independent ones.
	prior := 2 * math.Log(serialMost)
	for w := 1; w < len(ways); w++ {
		for i, f := range fits {
			p := 2*f.Order + 1
			if p > min(ways[0].rank, ways[w].rank) {
				break
			}
			more := ways[w].criterion(p, n, q.rounded) - ways[0].criterion(p, n, q.rounded)
			rivals = append(rivals, rival{order: f.Order, rho: ways[w].rho, correction: rivals[i].correction, weight: criteria[i] + more + prior, freedom: n - float64(p)})
		}
	}
	least := rivals[0].weight
	for _, r := range rivals {
		least = min(least, r.weight)
	}
	sum := 0.0
	for i := range rivals {
		rivals[i].weight = math.Exp((least - rivals[i].weight) / 2)
		sum += rivals[i].weight
	}
	for i := range rivals {
		r := &rivals[i]
		r.weight /= sum
		if r.b != nil || r.weight < 0.001 {
			continue
		}
		p := 2*r.order + 1
		way := ways[slices.IndexFunc(ways, func(w whitened) bool { return w.rho == r.rho })]
		b, inverse := way.solve(p)
		innovation := max(way.squares(p)/r.freedom, q.rounded*(1-r.rho*r.rho))
		r.b, r.covariance = b, func(i, j int) float64 { return innovation * inverse[i][j] }
		r.freedom *= (1 - r.rho*r.rho) / (1 + r.rho*r.rho)
	}
	return rivals
}

// widen adds to the covariance of the chosen fit how far the other fits differ from it.
func (f *Fit) widen(rivals []rival) {
	widest := f.Order
	for _, r := range rivals {
		if r.b != nil {
			widest = max(widest, r.order)
		}
	}
	p, wide := 2*f.Order+1, 2*widest+1
	var own []float64
	for _, r := range rivals {
		if r.order == f.Order && r.rho == 0 {
			own = append(slices.Clone(r.b), make([]float64, wide-p)...)
		}
	}
	covariance := mat.NewSymDense(wide, nil)
	freedom, sum := 0.0, 0.0
	for _, r := range rivals {
		if r.b == nil {
			continue
		}
		freedom += r.weight * r.freedom
		sum += r.weight
		for j := range wide {
			for k := j; k < wide; k++ {
				v := 0.0
				if k < len(r.b) {
					v = r.covariance(j, k)
				}
				v += (at(r.b, j) - own[j]) * (at(r.b, k) - own[k])
				covariance.SetSym(j, k, covariance.At(j, k)+r.weight*v)
			}
		}
	}
	covariance.ScaleSym(1/sum, covariance)
	f.effectiveFreedom = freedom / sum
	f.variance = harmonic.Quadratic(wide, covariance.At)
	f.covariance = mat.NewSymDense(p, nil)
	for j := range p {
		for k := j; k < p; k++ {
			f.covariance.SetSym(j, k, covariance.At(j, k))
		}
	}
}

// at returns a figure of a list, or zero beyond its end.
func at(list []float64, i int) float64 {
	if i < len(list) {
		return list[i]
	}
	return 0
}

// Correlated errors are found if they are more likely by serialFactor with the lowest order, and if
// no higher order explains the readings much better. In sound swings this happens in at most 5 % of
// cases.
const (
	serialFactor   = 3.0
	serialEvidence = 0.3
	serialAllowed  = 0.5 // from this probability on they widen the uncertainties
)

// correlated returns the probability of correlated errors.
func correlated(rivals []rival) float64 {
	sum := 0.0
	for _, r := range rivals {
		if r.rho > 0 {
			sum += r.weight
		}
	}
	return sum
}

// testSerial weighs the rivals of correlated errors against the others.
func testSerial(rivals []rival, n int) serialTest {
	var t serialTest
	var plain, alike, most float64 // of the lowest order
	any, sum := false, 0.0
	for _, r := range rivals {
		r.weight *= math.Exp(-r.correction / 8) // three quarters of the correction
		sum += r.weight
		if r.rho == 0 {
			if r.order == rivals[0].order {
				plain += r.weight
			}
			continue
		}
		any = true
		t.probability += r.weight
		if r.order == rivals[0].order {
			alike += r.weight
			if r.weight > most {
				most, t.correlation = r.weight, r.rho
			}
		}
	}
	if !any {
		return serialTest{}
	}
	t.probability /= sum
	t.found = alike > serialFactor*plain && t.probability > serialEvidence
	t.power = serialPower(n)
	return t
}

// serialPowers states how often a correlation of 0.7 was found in 1,000 simulated swings of n
// headings.
var serialPowers = []struct{ n, power float64 }{{11, 0.05}, {12, 0.11}, {16, 0.27}, {24, 0.60}, {36, 0.81}}

// serialPower returns how often n readings show a correlation of 0.7. It interpolates linearly
// between the numbers that were simulated.
func serialPower(n int) float64 {
	last := serialPowers[0]
	for _, next := range serialPowers[1:] {
		if float64(n) <= next.n {
			return last.power + (next.power-last.power)*(float64(n)-last.n)/(next.n-last.n)
		}
		last = next
	}
	return last.power
}
