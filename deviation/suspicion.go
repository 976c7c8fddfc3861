package deviation

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle"
)

// A Suspicion is an observation that does not go with the others. It is a
// suggestion: look at the record, the data are not changed.
type Suspicion struct {
	Index       int         `json:"index"` // in the observations given
	Observation Observation `json:"observation"`

	// Expected is the deviation on that heading by the other observations.
	Expected Deviation `json:"expected"`

	// Slips are what may have happened, in words that programs can compare, the one
	// that fits best first; empty if nothing known fits.
	Slips []ReadingSlip `json:"slips,omitempty"`
}

// A ReadingSlip is a mistake in reading or writing down a swing, in a word that programs
// can compare: the same as that of package [lubberline.example/course/slip].
type ReadingSlip string

// The slips that are recognised.
const (
	// ReciprocalTaken: the bearing is 180° off.
	ReciprocalTaken ReadingSlip = "reciprocal-taken"

	// TensMisread: the bearing is 10° off, or 20°, up to 50°: the wrong figure
	// of the card was read, or the wrong one written down.
	TensMisread ReadingSlip = "tens-misread"

	// EastForWest: the deviation is right in size and has the wrong name.
	EastForWest ReadingSlip = "east-for-west"
)

// String says what is odd, and what may have happened.
func (s Suspicion) String() string {
	text := fmt.Sprintf("on %v: deviation %v, where the other headings lead one to expect %v", s.Observation.Heading, s.Observation.Deviation, East(s.Expected.Angle().Round(angle.Degree/10)))
	off := (s.Observation.Deviation.Angle() - s.Expected.Angle()).NormalizedSigned()
	for i, slip := range s.Slips {
		text += []string{": ", ", or "}[min(i, 1)]
		switch slip {
		case ReciprocalTaken:
			text += "the bearing may be the reciprocal, 180° off"
		case TensMisread:
			text += fmt.Sprintf("the bearing may be misread by %d°", int(off.Abs().Round(10*angle.Degree)/angle.Degree))
		case EastForWest:
			text += "it may be named the wrong way"
		}
	}
	return text
}

// leastBlunder is the least that is suspected, in degrees: less is poor reading,
// not a blunder.
const leastBlunder = 2.5

// suspicionLevel is how often a swing without a blunder may have one suspected.
const suspicionLevel = 0.01

// Suspicions returns the observations that do not go with the others, in their
// order. With fewer than eight different headings it finds none: too few are
// left to judge by.
//
// The coefficients A to E are fitted to the half of the observations that agree
// best (least trimmed squares; Rousseeuw and Van Driessen, Data Mining and
// Knowledge Discovery 12, 2006). Then the others are taken in again, the one that
// agrees best first, until one is too far off for chance, by Student's
// distribution with Bonferroni's allowance for their number, at 1 %, and by
// more than 2½° (the
// procedure of Hadi and Simonoff, Journal of the American Statistical
// Association 88, 1993). Both are cited from memory.
func Suspicions(observations []Observation) []Suspicion {
	const p = 5
	n := len(observations)
	if len(usedHeadings(observations, nil, ByCompass)) < p+3 {
		return nil
	}
	d := newDesign(observations)
	order, clean := d.forward(d.trimmed())
	if clean == n {
		return nil
	}
	b, inverse, ok := d.fit(order[:clean])
	if !ok {
		return nil
	}
	s := d.scatter(order[:clean], b)
	var out []Suspicion
	for _, i := range order[clean:] {
		expected := 0.0
		for j, x := range d.x[i] {
			expected += x * b[j]
		}
		se := s * math.Sqrt(1+form(d.x[i], inverse))
		out = append(out, Suspicion{
			Index: i, Observation: observations[i],
			Expected: East(round(expected * float64(angle.Degree))).WithUncertainty(sigma(se * float64(angle.Degree))),
			Slips:    slips(d.y[i], expected, se),
		})
	}
	slices.SortFunc(out, func(a, b Suspicion) int { return a.Index - b.Index })
	return out
}

// slips are those that bring an observed deviation to within three standard
// errors, but at least a degree and a half, of what is expected.
func slips(observed, expected, se float64) []ReadingSlip {
	type candidate struct {
		slip ReadingSlip
		left float64 // what it leaves unexplained
	}
	var found []candidate
	try := func(slip ReadingSlip, left float64) {
		if left = math.Abs(math.Remainder(left, 360)); left <= max(3*se, 1.5) {
			found = append(found, candidate{slip, left})
		}
	}
	off := math.Remainder(observed-expected, 360)
	try(ReciprocalTaken, off-180)
	if tens := 10 * math.Round(off/10); tens != 0 && math.Abs(tens) <= 50 {
		try(TensMisread, off-tens)
	}
	try(EastForWest, observed+expected)
	slices.SortStableFunc(found, func(a, b candidate) int { return compare(a.left, b.left) })
	var out []ReadingSlip
	for _, c := range found {
		out = append(out, c.slip)
	}
	return out
}

// design is the equations of A to E, in degrees.
type design struct {
	x [][]float64
	y []float64
}

func newDesign(observations []Observation) design {
	var d design
	for _, o := range observations {
		line := make([]float64, 5)
		s, c := o.Heading.FromNorth().SinCos()
		basis(line, s, c)
		d.x = append(d.x, line)
		d.y = append(d.y, o.Deviation.Angle().NormalizedSigned().Degrees())
	}
	return d
}

// fit solves the equations of some rows.
func (d design) fit(rows []int) (b []float64, inverse *mat.SymDense, ok bool) {
	p := len(d.x[0])
	normal, right := mat.NewSymDense(p, nil), mat.NewVecDense(p, nil)
	for _, i := range rows {
		for j, xj := range d.x[i] {
			for k := j; k < p; k++ {
				normal.SetSym(j, k, normal.At(j, k)+xj*d.x[i][k])
			}
			right.SetVec(j, right.AtVec(j)+xj*d.y[i])
		}
	}
	var cholesky mat.Cholesky
	if !cholesky.Factorize(normal) || cholesky.Cond() > 1e8 {
		return nil, nil, false
	}
	var solution mat.VecDense
	inverse = mat.NewSymDense(p, nil)
	if cholesky.SolveVecTo(&solution, right) != nil || cholesky.InverseTo(inverse) != nil {
		return nil, nil, false
	}
	return solution.RawVector().Data, inverse, true
}

// residual is what the coefficients leave of a row; a reading 180° off leaves
// 180°, not 180° and then again.
func (d design) residual(i int, b []float64) float64 {
	r := d.y[i]
	for j, x := range d.x[i] {
		r -= x * b[j]
	}
	return math.Remainder(r, 360)
}

// scatter is the standard deviation of some rows about the curve, not less than
// the hundredth of a degree to which no compass is read.
func (d design) scatter(rows []int, b []float64) float64 {
	sum := 0.0
	for _, i := range rows {
		r := d.residual(i, b)
		sum += r * r
	}
	return max(0.01, math.Sqrt(sum/float64(max(1, len(rows)-len(b)))))
}

// closest sorts all rows by the size of their residuals and returns the first h,
// with the sum of their squares.
func (d design) closest(b []float64, h int) (rows []int, squares float64) {
	sizes := make([]float64, len(d.y))
	rows = make([]int, len(d.y))
	for i := range rows {
		rows[i] = i
		sizes[i] = math.Abs(d.residual(i, b))
	}
	slices.SortStableFunc(rows, func(a, b int) int { return compare(sizes[a], sizes[b]) })
	for _, i := range rows[:h] {
		squares += sizes[i] * sizes[i]
	}
	return rows[:h], squares
}

func compare(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// trimmed returns the rows, half of all, whose least squares are least, as far
// as some hundred beginnings find them. The beginnings are the same every time.
func (d design) trimmed() []int {
	n, p := len(d.y), len(d.x[0])
	h := (n + p + 1) / 2
	random := rand.New(rand.NewPCG(1870, 1918))
	var best []int
	least := math.Inf(1)
	for range 150 {
		b, _, ok := d.fit(random.Perm(n)[:p+1])
		if !ok {
			continue
		}
		rows, squares := d.closest(b, h)
		for {
			b, _, ok := d.fit(rows)
			if !ok {
				break
			}
			next, fewer := d.closest(b, h)
			if !(fewer < squares*(1-1e-9)) {
				break
			}
			rows, squares = next, fewer
		}
		if squares < least {
			best, least = rows, squares
		}
	}
	return best
}

// forward takes rows in as long as they agree with those that are in. It
// returns all rows, and how many of them are in.
func (d design) forward(in []int) (order []int, clean int) {
	n, p := len(d.y), len(d.x[0])
	size := len(in)
	if size == 0 {
		return nil, n // no beginning could be solved
	}
	for {
		b, inverse, ok := d.fit(in)
		if !ok {
			return nil, n
		}
		s := d.scatter(in, b)
		inside := make([]bool, n)
		for _, i := range in {
			inside[i] = true
		}
		score := make([]float64, n)
		order = make([]int, n)
		for i := range n {
			order[i] = i
			leverage := form(d.x[i], inverse)
			spread := 1 + leverage
			if inside[i] {
				spread = max(1e-9, 1-leverage)
			}
			score[i] = math.Abs(d.residual(i, b)) / (s * math.Sqrt(spread))
		}
		slices.SortStableFunc(order, func(a, b int) int { return compare(score[a], score[b]) })
		if size == n {
			return order, n
		}
		level := suspicionLevel / (2 * float64(size+1))
		limit := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(size - p)}.Quantile(1 - level)
		if score[order[size]] >= limit && math.Abs(d.residual(order[size], b)) > leastBlunder {
			return order, size
		}
		size++
		in = slices.Clone(order[:size])
	}
}
