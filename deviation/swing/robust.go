package swing

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle"
	"lubberline.example/deviation/internal/harmonic"
)

// leastBlunder is the smallest error in degrees that is suspected, above half the step of the
// readings. A smaller one is poor reading, not a blunder.
const leastBlunder = 2.5

// suspicionLevel is the share of swings without a blunder in which one may be suspected.
const suspicionLevel = 0.02

// The robust fit begins with many small samples, improves each once, and continues with the best few.
// With a quarter of the readings wrong, a sample of six is sound in one case of six. All samples fail
// in one swing of a hundred thousand.
const (
	robustDraws = 60
	robustBest  = 4
)

// The prior knowledge of readings: they scatter by about 1°. It has the weight of two readings, so
// that a swing of few headings can be judged.
const (
	usualScatter = 1.0 // degrees
	usualWeight  = 2.0 // degrees of freedom
)

// five is the number of coefficients of the robust fit: A to E.
const five = 5

// A design holds the equations of A to E, in degrees. The observations are in the order of their
// headings, so that the order in which they are given has no effect.
type design struct {
	rows  []int // the index of each row's observation
	x     [][five]float64
	y     []float64
	floor []float64 // the smallest scatter that each reading allows
	least []float64 // the smallest error that is suspected in each
}

// newDesign returns the equations of deviations that are not reversed; see foldReversed.
func newDesign(observations []Observation, folded []angle.Angle) *design {
	n := len(observations)
	d := &design{rows: make([]int, n), x: make([][five]float64, n), y: make([]float64, n), floor: make([]float64, n), least: make([]float64, n)}
	for i := range d.rows {
		d.rows[i] = i
	}
	slices.SortStableFunc(d.rows, func(a, b int) int {
		return cmp.Or(cmp.Compare(observations[a].Heading.FromNorth(), observations[b].Heading.FromNorth()), cmp.Compare(folded[a], folded[b]))
	})
	steps := readSteps(observations)
	for i, row := range d.rows {
		o := observations[row]
		s, c := o.Heading.FromNorth().SinCos()
		harmonic.Basis(d.x[i][:], s, c)
		d.y[i] = folded[row].Degrees()
		stated, _ := o.Deviation.Uncertainty().Sigma()
		// No compass is read to less than a hundredth of a degree.
		d.floor[i] = max(0.01, rounding(steps[row])/float64(angle.Degree), stated.Degrees())
		d.least[i] = leastBlunder + steps[row].Degrees()/2
	}
	return d
}

// A normal holds the factored XᵀX of some rows, and the coefficients that solve their equations.
type normal struct {
	l [five][five]float64 // the lower triangle of Cholesky
	b [five]float64       // the coefficients
}

// fit solves the equations of some rows. It reports false if they do not determine the
// coefficients.
func (d *design) fit(rows []int) (f normal, ok bool) {
	var a [five][five]float64
	var right [five]float64
	for _, i := range rows {
		x := &d.x[i]
		for j := range five {
			for k := 0; k <= j; k++ {
				a[j][k] += x[j] * x[k]
			}
			right[j] += x[j] * d.y[i]
		}
	}
	for j := range five {
		for k := 0; k <= j; k++ {
			sum := a[j][k]
			for m := range k {
				sum -= f.l[j][m] * f.l[k][m]
			}
			if j != k {
				f.l[j][k] = sum / f.l[k][k]
				continue
			}
			if !(sum > 1e-8*float64(len(rows))) {
				return f, false
			}
			f.l[j][j] = math.Sqrt(sum)
		}
	}
	f.b = right
	f.forward(&f.b)
	for j := five - 1; j >= 0; j-- {
		for k := j + 1; k < five; k++ {
			f.b[j] -= f.l[k][j] * f.b[k]
		}
		f.b[j] /= f.l[j][j]
	}
	return f, true
}

// forward solves Lv = v in place.
func (f *normal) forward(v *[five]float64) {
	for j := range five {
		for k := range j {
			v[j] -= f.l[j][k] * v[k]
		}
		v[j] /= f.l[j][j]
	}
}

// leverage returns xᵀ(XᵀX)⁻¹x.
func (f *normal) leverage(x [five]float64) float64 {
	f.forward(&x)
	sum := 0.0
	for _, v := range x {
		sum += v * v
	}
	return sum
}

// at returns the deviation of the curve on the heading of a row.
func (f *normal) at(x *[five]float64) float64 {
	return x[0]*f.b[0] + x[1]*f.b[1] + x[2]*f.b[2] + x[3]*f.b[3] + x[4]*f.b[4]
}

// residual returns a row's deviation minus the curve. It is at most 180°, as for a reciprocal
// bearing.
func (d *design) residual(i int, f *normal) float64 {
	r := d.y[i] - f.at(&d.x[i])
	if math.Abs(r) > 180 {
		r = math.Remainder(r, 360)
	}
	return r
}

// scatter returns the standard deviation of one reading about the curve, from the rows that agree
// with it best. These rows alone would make it too small. The function corrects for their share of
// all rows, by the variance of a normal distribution cut off at both ends. The result is never less
// than the readings allow.
func (d *design) scatter(rows []int, f *normal) float64 {
	sum, floor := 0.0, 0.0
	for _, i := range rows {
		r := d.residual(i, f)
		sum += r * r
		floor += d.floor[i] * d.floor[i]
	}
	size := float64(len(rows))
	corrected := sum / truncated(size/float64(len(d.y)))
	return math.Sqrt(max((corrected+usualWeight*usualScatter*usualScatter)/(size-five+usualWeight), floor/size))
}

// truncated returns the variance of the middle part of a standard normal distribution.
func truncated(part float64) float64 {
	if part >= 1 {
		return 1
	}
	z := math.Sqrt2 * math.Erfinv(part)
	return 1 - 2*z*math.Exp(-z*z/2)/math.Sqrt(2*math.Pi)/part
}

// closest puts the h rows with the smallest residuals into rows, and returns the sum of their
// squares. The buffer room is twice as long as the list of all rows.
func (d *design) closest(f *normal, h int, room []float64, rows []int) ([]int, float64) {
	for i := range d.y {
		room[i] = math.Abs(d.residual(i, f))
	}
	limit := nth(append(room[len(d.y):len(d.y)], room[:len(d.y)]...), h-1)
	rows, squares := rows[:0], 0.0
	for i, r := range room[:len(d.y)] {
		if r < limit {
			rows = append(rows, i)
			squares += r * r
		}
	}
	for i, r := range room[:len(d.y)] {
		if r == limit && len(rows) < h {
			rows = append(rows, i)
			squares += r * r
		}
	}
	return rows, squares
}

// nth returns the value at index k of the sorted list. It changes the order of the list.
func nth(list []float64, k int) float64 {
	low, high := 0, len(list)-1
	for low < high {
		pivot := list[(low+high)/2]
		i, j := low, high
		for i <= j {
			for list[i] < pivot {
				i++
			}
			for list[j] > pivot {
				j--
			}
			if i <= j {
				list[i], list[j] = list[j], list[i]
				i++
				j--
			}
		}
		switch {
		case k <= j:
			high = j
		case k >= i:
			low = i
		default:
			return list[k]
		}
	}
	return list[k]
}

// trimmed returns the half of the rows with the smallest least squares, as far as the samples find
// them. The samples are the same every time.
func (d *design) trimmed() []int {
	n := len(d.y)
	h := (n + five + 1) / 2
	if n > 2*robustSample {
		return d.trimmedBySample(h)
	}
	random := rand.New(rand.NewPCG(1870, 1918))
	room, draw := make([]float64, 2*n), make([]int, five+1)
	type start struct {
		rows    []int
		squares float64
	}
	var best []start
	spare := make([]int, 0, n)
	for range robustDraws {
		for k := range draw {
			draw[k] = random.IntN(n)
			for slices.Contains(draw[:k], draw[k]) {
				draw[k] = random.IntN(n)
			}
		}
		f, ok := d.fit(draw)
		if !ok {
			continue
		}
		rows, _ := d.closest(&f, h, room, spare)
		if f, ok = d.fit(rows); !ok {
			continue
		}
		rows, squares := d.closest(&f, h, room, rows)
		if len(best) < robustBest {
			best = append(best, start{slices.Clone(rows), squares})
		} else if worst := best[robustBest-1]; squares < worst.squares {
			best[robustBest-1] = start{append(worst.rows[:0], rows...), squares}
		} else {
			continue
		}
		slices.SortStableFunc(best, func(a, b start) int { return cmp.Compare(a.squares, b.squares) })
	}
	var found []int
	least := math.Inf(1)
	for _, s := range best {
		for {
			f, ok := d.fit(s.rows)
			if !ok {
				break
			}
			next, fewer := d.closest(&f, h, room, spare)
			if !(fewer < s.squares*(1-1e-9)) {
				break
			}
			s.rows, s.squares = append(s.rows[:0], next...), fewer
		}
		if s.squares < least {
			found, least = s.rows, s.squares
		}
	}
	return found
}

// robustSample is the number of readings in a sample of a large swing.
const robustSample = 300

// trimmedBySample continues with the best result of a sample among all rows.
func (d *design) trimmedBySample(h int) []int {
	random := rand.New(rand.NewPCG(1880, 1922))
	sample := &design{}
	for _, i := range random.Perm(len(d.y))[:robustSample] {
		sample.x, sample.y = append(sample.x, d.x[i]), append(sample.y, d.y[i])
	}
	f, ok := sample.fit(sample.trimmed())
	if !ok {
		return nil
	}
	room := make([]float64, 2*len(d.y))
	rows, squares := d.closest(&f, h, room, nil)
	for {
		if f, ok = d.fit(rows); !ok {
			return nil
		}
		next, fewer := d.closest(&f, h, room, nil)
		if !(fewer < squares*(1-1e-6)) {
			return rows
		}
		rows, squares = next, fewer
	}
}

// agree finds the rows that agree with each other. It adds rows as long as the next row agrees with
// the earlier ones, by Student's distribution. In a large swing it adds blocks of rows. It returns
// all rows, beginning with those that agree, and the number of rows that agree, with their curve
// and scatter.
func (d *design) agree(in []int) (order []int, clean int, f normal, s float64) {
	n := len(d.y)
	size := len(in)
	if size == 0 {
		return nil, n, f, 0 // no sample of rows could be solved
	}
	score := make([]float64, n)
	inside := make([]bool, n)
	order = make([]int, n)
	block := max(1, n/30)
	for {
		var ok bool
		if f, ok = d.fit(in); !ok {
			return nil, n, f, 0
		}
		s = d.scatter(in, &f)
		if size == n {
			return in, n, f, s
		}
		clear(inside)
		for _, i := range in {
			inside[i] = true
		}
		for i := range n {
			order[i] = i
			spread := 1 + f.leverage(d.x[i])
			if inside[i] {
				spread = max(1e-9, 2-spread)
			}
			score[i] = math.Abs(d.residual(i, &f)) / (max(s, d.floor[i]) * math.Sqrt(spread))
		}
		slices.SortFunc(order, func(a, b int) int { return cmp.Or(cmp.Compare(score[a], score[b]), a-b) })
		level := suspicionLevel / (2 * float64(size+1))
		student := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(size-five) + usualWeight}
		grown := size
		for grown < min(n, size+block) {
			i := order[grown]
			if math.Abs(d.residual(i, &f)) > d.least[i] && student.CDF(-score[i]) <= level {
				break
			}
			grown++
		}
		if grown == size {
			return order, size, f, s
		}
		size = grown
		in = append(in[:0:0], order[:size]...)
	}
}
