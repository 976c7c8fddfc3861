package swing

import (
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
)

// The parameters of the test of headings by magnetic.
const (
	// fewestForHeadings is the number of readings that it takes to tell magnetic headings from
	// compass headings.
	fewestForHeadings = 16

	// clearlyBetter is how much smaller the sum of squares, over the variance of a reading, must be
	// with magnetic headings. The odds are then exp(3) = 20 to 1.
	clearlyBetter = 6

	// usualHarmonic is the standard deviation of the third and fourth harmonics that vessels have
	// beyond those of the exact form, in degrees.
	usualHarmonic = 0.5
)

// magneticHeadings warns if the headings seem to be magnetic headings, not headings by the compass
// that is swung. Where deviations are large, the curves by compass and by magnetic heading differ
// in the third and fourth harmonics. Both are fitted, and the usual size of these harmonics is
// allowed for. The warning is given only if the curve by magnetic heading fits clearly better.
func magneticHeadings(observations []Observation) []working.Warning {
	if len(usedHeadings(observations, nil, deviation.ByCompass)) < fewestForHeadings {
		return nil
	}
	used := unsuspected(observations, true)
	taken := make([]Observation, len(observations)) // with magnetic headings equal to those recorded
	for i, o := range observations {
		taken[i] = o
		taken[i].Heading = o.Heading.Add(-o.Deviation.Angle())
	}
	compass, ok := exactResiduals(observations, used, deviation.ByCompass)
	if !ok {
		return nil
	}
	magnetic, ok := exactResiduals(taken, used, deviation.ByMagnetic)
	if !ok {
		return nil
	}
	const least = 0.1 * float64(angle.Degree)
	variance := max(min(compass.free(), magnetic.free()), least*least)
	byCompass, byMagnetic := compass.squares(variance), magnetic.squares(variance)
	if !((byCompass-byMagnetic)/variance > clearlyBetter) {
		return nil
	}
	freedom := float64(len(compass.y) - five)
	scatter := func(squares float64) float64 { return math.Sqrt(squares/freedom) / float64(angle.Degree) }
	return []working.Warning{working.Warn(LikelyCause, "swing-headings-by-magnetic", "the headings seem to be by magnetic: taken so, they scatter by %.2f° about the exact curve; taken as by compass, by %.2f°. A swing needs the headings by the compass that is swung", scatter(byMagnetic), scatter(byCompass))}
}

// leftByExact holds the deviations without what the exact form adds to A to E, and the harmonics to
// the fourth.
type leftByExact struct {
	x [][]float64
	y []float64
}

// exactResiduals subtracts from the deviations what the exact form adds to A to E. It reports false
// if the deviations are too small for it.
func exactResiduals(observations []Observation, used []bool, by deviation.HeadingKind) (leftByExact, bool) {
	q := newProblem(observations, used, by, readSteps(observations), 2)
	q.takeExact()
	if q.exact == nil {
		return leftByExact{}, false
	}
	var left leftByExact
	for i, o := range observations {
		if used[i] {
			line := make([]float64, five+4)
			s, c := o.heading(by).SinCos()
			harmonic.Basis(line, s, c)
			left.x, left.y = append(left.x, line), append(left.y, q.deviation(i))
		}
	}
	return left, len(left.y) >= fewestForHeadings-2
}

// free returns the variance about a fit of all harmonics to the fourth.
func (l leftByExact) free() float64 {
	return l.penalised(0) / float64(len(l.y)-five-4)
}

// squares returns the sum of squared residuals, with third and fourth harmonics of the usual size.
func (l leftByExact) squares(variance float64) float64 {
	const usual = usualHarmonic * float64(angle.Degree)
	return l.penalised(math.Sqrt(variance) / usual)
}

// penalised returns the sum of squares of a fit that keeps the third and fourth harmonics near
// zero.
func (l leftByExact) penalised(weight float64) float64 {
	n := len(l.y)
	columns, y := matrix(five+4, n+4), make([]float64, n+4)
	copy(y, l.y)
	for j, column := range columns {
		for i, line := range l.x {
			column[i] = line[j]
		}
		if j >= five {
			column[n+j-five] = weight
		}
	}
	f := factor(columns)
	if !f.determines(five + 4) {
		return math.Inf(1)
	}
	for k := range columns {
		f.reflect(k, y)
	}
	squares := 0.0
	for _, v := range y[five+4:] {
		squares += v * v
	}
	return squares
}
