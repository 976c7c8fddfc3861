package check

import (
	"math"
	"slices"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle"
	"lubberline.example/deviation/internal/harmonic"
)

// A reviewRow is a check that a card is judged by, in degrees.
type reviewRow struct {
	index      int        // of the check in the review
	row        int        // number among the checks that are not doubtful, in the order of the model
	time       time.Time  // zero if not known
	basis      [3]float64 // 1, sin z, cos z of the heading z
	difference float64    // check minus card
	variance   float64    // that the check shares with no other
	common     [2]float64 // standard uncertainties shared with the others: of the variation, of the card
}

// A reviewModel holds the differences between a log of checks and the card. Their covariance is
// diagonal plus rank two: each check's own variance, and one vector each for the variation and the
// card. So every computation takes time in proportion to the number of checks (Woodbury's
// identity).
type reviewModel struct {
	rows    []reviewRow
	ordered bool // whether all have a time; then the rows are in the order of time

	// inverse is the inverse of the 2×2 matrix 1 + UᵀD⁻¹U, and uwd is UᵀD⁻¹d. U holds the shared
	// uncertainties, D the own variances and d the differences.
	inverse [2][2]float64
	uwd     [2]float64
}

// add adds a check to the model.
func (m *reviewModel) add(index int, d Difference, own float64) {
	unit := float64(angle.Degree)
	v, _ := d.Check.Variation.Uncertainty().Sigma()
	k, _ := d.Card.Uncertainty().Sigma()
	s, c := d.Check.Heading.FromNorth().SinCos()
	own /= unit
	m.rows = append(m.rows, reviewRow{
		index: index, time: d.Check.Time,
		basis: [3]float64{1, s, c}, difference: d.Difference.Degrees(),
		variance: own * own, common: [2]float64{v.Degrees(), k.Degrees()},
	})
}

// separate completes the model. For several checks, the card's uncertainty also counts as separate
// for each heading.
func (m *reviewModel) separate() {
	m.ordered = true
	for i := range m.rows {
		r := &m.rows[i]
		if len(m.rows) > 1 {
			r.variance += r.common[1] * r.common[1]
		}
		m.ordered = m.ordered && !r.time.IsZero()
	}
	if m.ordered {
		slices.SortStableFunc(m.rows, func(a, b reviewRow) int { return a.time.Compare(b.time) })
	}
	for i := range m.rows {
		m.rows[i].row = i
	}
	m.weigh()
}

// weigh computes what all solutions need.
func (m *reviewModel) weigh() {
	var a [2][2]float64
	m.uwd = [2]float64{}
	a[0][0], a[1][1] = 1, 1
	for i := range m.rows {
		r := &m.rows[i]
		w := 1 / r.variance
		a[0][0] += w * r.common[0] * r.common[0]
		a[0][1] += w * r.common[0] * r.common[1]
		a[1][1] += w * r.common[1] * r.common[1]
		m.uwd[0] += w * r.common[0] * r.difference
		m.uwd[1] += w * r.common[1] * r.difference
	}
	determinant := a[0][0]*a[1][1] - a[0][1]*a[0][1]
	m.inverse = [2][2]float64{{a[1][1] / determinant, -a[0][1] / determinant}, {-a[0][1] / determinant, a[0][0] / determinant}}
}

// shared returns xᵀ (1 + UᵀD⁻¹U)⁻¹ y.
func (m *reviewModel) shared(x, y [2]float64) float64 {
	return x[0]*(m.inverse[0][0]*y[0]+m.inverse[0][1]*y[1]) + x[1]*(m.inverse[1][0]*y[0]+m.inverse[1][1]*y[1])
}

// chiSquare returns the differences squared, weighted by the inverse of the covariance.
func (m *reviewModel) chiSquare() float64 {
	sum := 0.0
	for i := range m.rows {
		r := &m.rows[i]
		sum += r.difference * r.difference / r.variance
	}
	return max(0, sum-m.shared(m.uwd, m.uwd))
}

// without returns the model of the rows that are not left out.
func (m *reviewModel) without(apart []int) *reviewModel {
	rest := &reviewModel{rows: slices.Clone(m.rows), ordered: m.ordered}
	for _, row := range apart {
		rest.leave(row)
	}
	rest.weigh()
	return rest
}

// leave leaves a row out.
func (m *reviewModel) leave(row int) {
	if i, found := m.position(row); found {
		m.rows = slices.Delete(m.rows, i, i+1)
	}
}

// position is where a row is, or where the next one is that is not left out.
func (m *reviewModel) position(row int) (i int, found bool) {
	return slices.BinarySearchFunc(m.rows, row, func(r reviewRow, row int) int { return r.row - row })
}

// test makes the two tests of a model and gives the verdict by them.
func (r *Review) test(m *reviewModel) Verdict {
	unit := float64(angle.Degree)
	s := m.equations(0)
	mean, precision := s.right[0]/s.normal[0][0], s.normal[0][0]
	r.Mean, r.MeanUncertainty = harmonic.Round(mean*unit), harmonic.Round(unit/math.Sqrt(precision))
	r.MeanProbability = 2 * distuv.UnitNormal.Survival(math.Abs(mean)*math.Sqrt(precision))
	r.ChiSquare = m.chiSquare()
	r.ChiSquareProbability = distuv.ChiSquared{K: float64(len(m.rows))}.Survival(r.ChiSquare)
	switch least := min(r.MeanProbability, r.ChiSquareProbability); {
	case least < swingLevel/2:
		return SwingAgain
	case least < doubtLevel/2:
		return CardInDoubt
	}
	return CardHolds
}

// sums holds the normal equations of a change of the compass from a row on, by constant, sine and
// cosine of the heading.
type sums struct {
	normal [3][3]float64 // of the own variances alone; of the whole after less
	right  [3]float64    // likewise
	common [3][2]float64 // UᵀD⁻¹X
	weight float64       // the sum of the weights
}

// add takes in a row that shows the change.
func (s *sums) add(r *reviewRow) {
	w := 1 / r.variance
	s.weight += w
	for j, b := range r.basis {
		for k, c := range r.basis {
			s.normal[j][k] += w * b * c
		}
		s.right[j] += w * b * r.difference
		s.common[j][0] += w * b * r.common[0]
		s.common[j][1] += w * b * r.common[1]
	}
}

// less returns the equations with what the rows share taken into account.
func (s sums) less(m *reviewModel) sums {
	for j := range 3 {
		for k := range 3 {
			s.normal[j][k] -= m.shared(s.common[j], s.common[k])
		}
		s.right[j] -= m.shared(s.common[j], m.uwd)
	}
	return s
}

// equations are those of a change that begins at a row.
func (m *reviewModel) equations(row int) sums {
	var s sums
	for i := row; i < len(m.rows); i++ {
		s.add(&m.rows[i])
	}
	return s.less(m)
}
