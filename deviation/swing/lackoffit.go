package swing

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// lackLevel is the probability by chance below which a lack of fit gives a warning and widens the
// uncertainty.
const lackLevel = 0.01

// look tests whether the readings show harmonics above the order of the fit. It compares the fit
// with the highest order that they support (the F test of nested models). It also finds which
// harmonics the headings can show. If the order was chosen, the other orders have already widened
// the uncertainty.
func (q *problem) look(f *Fit, c chain, chosen bool) {
	w := c.whiten(0)
	f.shown = (w.rank - 1) / 2
	n := float64(len(c.y))
	p := 2*f.Order + 1
	full := min(w.rank, 2*int((n-leftOver-1)/2)+1)
	if full <= p {
		return
	}
	left := w.squares(full) / (n - float64(full))
	more := w.squares(p) - w.squares(full)
	if !(left > 0) {
		return
	}
	ratio := more / float64(full-p) / max(left, q.rounded)
	chance := distuv.F{D1: float64(full - p), D2: n - float64(full)}.Survival(ratio)
	if !(chance < lackLevel) {
		return
	}
	lack := max(0, more-left*float64(full-p)) / n
	f.lacking = math.Sqrt(lack)
	if !chosen {
		f.lack = lack
	}
}
