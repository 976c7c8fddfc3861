package variation_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// The formula of the package comment, term by term.
func TestUncertaintyOfAProjection(t *testing.T) {
	const years, thirdOfAYear, sixthOfAYear = 12, 1.0 / 3, 1.0 / 6
	const whole2, decimal2 = years*years + 1.0/6, years*years - years + 1.0/3
	square := func(x float64) float64 { return x * x }
	q, q2, c := 60.0, 6.0, 9*60.0 // in seconds of arc: 1′, 0.1′, 9′
	for _, k := range []struct {
		name   string
		count  variation.YearCount
		u0, u1 float64 // stated by the caller, 0 if not
		m2     float64
		tau2   float64
	}{
		{"whole years", variation.WholeYears, 0, 0, whole2, sixthOfAYear},
		{"decimal years", variation.DecimalYears, 0, 0, decimal2, thirdOfAYear},
		{"with the office's own", variation.WholeYears, 600, 0, whole2, sixthOfAYear},
		{"with the change's own", variation.DecimalYears, 0, 30, decimal2, thirdOfAYear},
		{"with both", variation.WholeYears, 600, 30, whole2, sixthOfAYear},
	} {
		r := variation.MustParseLegend("3°50′W 2014 (9.0′E)")
		if k.u0 > 0 {
			r.Variation = r.Variation.WithUncertainty(sigma(angle.Must(angle.Seconds(k.u0))))
		}
		if k.u1 > 0 {
			r.Change = r.Change.WithUncertainty(sigma(angle.Must(angle.Seconds(k.u1))))
		}
		p, err := r.On(time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC), k.count)
		if err != nil {
			t.Fatal(err)
		}
		want := math.Sqrt(square(k.u0) + square(q)/12 + k.m2*(square(k.u1)+square(q2)/12) + k.tau2*square(c))
		s, stated := p.Variation.Uncertainty().Sigma()
		if !stated || !near(s.Seconds(), want, 1e-7) { // each of the parts is rounded to 1e-9″ and scaled by 12
			t.Errorf("%s: %v″, %v; want %v″", k.name, s.Seconds(), stated, want)
		}
	}
}

func TestAChangeNotStatedLeavesTheUncertaintyUnknown(t *testing.T) {
	r := variation.MustParseLegend("3°50′W 2014")
	own, err := r.InYear(2014)
	if err != nil {
		t.Fatal(err)
	}
	if own.Variation.Uncertainty() != angle.Rectangular(angle.Minute) {
		t.Errorf("in its own year %v", own.Variation.Uncertainty())
	}
	for _, year := range []int{2013, 2015} {
		p, err := r.InYear(year)
		if _, stated := p.Variation.Uncertainty().Sigma(); stated || err != nil {
			t.Errorf("in %d: %v, %v", year, p.Variation.Uncertainty(), err)
		}
	}
}

// A step that is not known counts as exact.
func TestWithoutStepsOnlyTheCountIsUncertain(t *testing.T) {
	r := variation.Rose{Variation: variation.West(4 * deg), Year: 2014, Change: variation.Eastward(12 * minute)}
	p, err := r.InYear(2026)
	if err != nil {
		t.Fatal(err)
	}
	want := 12 * math.Sqrt(1.0/6)
	if s, stated := p.Variation.Uncertainty().Sigma(); !stated || !near(s.Minutes(), want, 1e-9) {
		t.Errorf("%v′, %v; want %v′", s.Minutes(), stated, want)
	}
	still, err := rose(4 * deg).InYear(2026)
	if s, stated := still.Variation.Uncertainty().Sigma(); err != nil || s != 0 || !stated {
		t.Errorf("no change, no steps: %v, %v, %v", s, stated, err)
	}
}

// A chart office knows the variation and its change exactly, and prints them
// rounded, with the year but not the day. The error of what a navigator makes of
// that is then what the formula says.
func TestTheFormulaIsWhatASimulationGives(t *testing.T) {
	random := rand.New(rand.NewPCG(2014, 9))
	const draws = 60_000 // the ratio itself then scatters by 0.3 %
	for _, c := range []struct {
		name             string
		step, changeStep angle.Angle
		most             float64 // the largest annual change, in minutes: whole ones and a half
		years            int
		count            variation.YearCount
	}{
		{"whole, the change decides", minute, minute, 3.5, 12, variation.WholeYears},
		{"whole, the day decides", minute, minute, 20.5, 1, variation.WholeYears},
		{"whole, in the rose's own year", minute, minute, 20.5, 0, variation.WholeYears},
		{"whole, backwards", minute, minute, 10.5, -8, variation.WholeYears},
		{"whole, in quarters of a degree", deg / 4, minute, 10.5, 5, variation.WholeYears},
		{"whole, a change that prints as nought", minute, minute, 0.5, 1, variation.WholeYears},
		{"decimal, the change decides", minute, minute, 3.5, 12, variation.DecimalYears},
		{"decimal, the day decides", minute, minute / 10, 20.05, 2, variation.DecimalYears},
		{"decimal, in the rose's own year", minute, minute, 20.5, 0, variation.DecimalYears},
		{"decimal, a change that prints as nought", minute, minute, 0.5, 8, variation.DecimalYears},
		{"decimal, a change of a minute", minute, minute, 1.5, 2, variation.DecimalYears},
		{"decimal, backwards, a change of a minute", minute, minute, 1.5, -4, variation.DecimalYears},
		{"decimal, backwards", minute, minute, 10.5, -8, variation.DecimalYears},
	} {
		var errors2, stated2 float64
		for range draws {
			perYear := degrees((2*random.Float64() - 1) * c.most / 60)
			begin := degrees((2*random.Float64() - 1) * 20) // the truth at the beginning of 2014
			truth := func(years float64) angle.Angle { return begin + angle.Must(perYear.Scale(years)) }

			r := variation.Rose{
				Variation: variation.East(truth(random.Float64()).Round(c.step)), Year: 2014, Step: c.step,
				Change: variation.Eastward(perYear.Round(c.changeStep)), ChangeStep: c.changeStep,
			}
			into := random.Float64() // the year of the date
			date := time.Date(2014+c.years, 1, 1, 0, 0, 0, 0, time.UTC)
			date = date.Add(time.Duration(into * float64(date.AddDate(1, 0, 0).Sub(date))))
			p, err := r.On(date, c.count)
			if err != nil {
				t.Fatal(err)
			}
			off := (p.Variation.Angle() - truth(float64(c.years)+into)).Minutes()
			s, _ := p.Variation.Uncertainty().Sigma()
			errors2 += off * off
			stated2 += s.Minutes() * s.Minutes()
		}
		if ratio := math.Sqrt(errors2 / stated2); !near(ratio, 1, 0.015) { // five times its scatter
			t.Errorf("%s: the errors are %.3f times the stated", c.name, ratio)
		}
	}
}
