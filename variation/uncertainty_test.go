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
	const years = 12
	wholeDays, decimalDays := (1-math.Sqrt(0.05))/2, 0.95/2 // half of the 95 % points of the count
	const whole2, decimal2 = years*years + 1.0/6, years*years - years + 1.0/3
	square := func(x float64) float64 { return x * x }
	q2, c := 6.0, 9*60.0 // in seconds of arc: 0.1′, 9′
	for _, k := range []struct {
		name   string
		count  variation.YearCount
		u0, u1 float64 // stated by the caller, 0 if not
		m2     float64
		tau    float64
	}{
		{"whole years", variation.WholeYears, 0, 0, whole2, wholeDays},
		{"decimal years", variation.DecimalYears, 0, 0, decimal2, decimalDays},
		{"with the office's own", variation.WholeYears, 600, 0, whole2, wholeDays},
		{"with the change's own", variation.DecimalYears, 0, 30, decimal2, decimalDays},
		{"with both", variation.WholeYears, 600, 30, whole2, wholeDays},
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
		const ofStep = 0.95 / 4                   // half of the 95 % point of a rounding
		printed := 300 * (1 - 0.05*(1+1.0/5)) / 4 // 50′ may be to 5′
		want := math.Sqrt(square(printed) + k.m2*(square(k.u1)+square(ofStep*q2)) + square(k.tau*c))
		if r, stated := p.Rounding.Sigma(); !stated || !near(r.Seconds(), want, 1e-6) {
			t.Errorf("%s: rounding %v″, %v; want %v″", k.name, r.Seconds(), stated, want)
		}
		drift := 375 * math.Pow(12, 1.3) / 20_800 * 3600
		if k.count == variation.DecimalYears {
			drift *= math.Pow(p.Years/12, 1.3)
		}
		source := math.Hypot(0.26, 5625.0/20_800) * 3600
		if k.u0 > 0 {
			source = k.u0 // as stated
		}
		want = math.Sqrt(square(want) + square(drift) + square(source))
		s, stated := p.Variation.Uncertainty().Sigma()
		if !stated || !near(s.Seconds(), want, 1e-6) { // each of the parts is rounded to 1e-9″ and scaled by 12
			t.Errorf("%s: %v″, %v; want %v″", k.name, s.Seconds(), stated, want)
		}
	}
}

func TestUnstatedChangeUncertainty(t *testing.T) {
	r := variation.MustParseLegend("3°50′W 2014")
	own, err := r.InYear(2014)
	if err != nil {
		t.Fatal(err)
	}
	if _, stated := own.Variation.Uncertainty().Sigma(); !stated {
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
func TestRoundingWithoutSteps(t *testing.T) {
	r := variation.Rose{Variation: variation.West(4 * deg), Year: 2014, Change: variation.Eastward(12 * minute)}
	p, err := r.InYear(2026)
	if err != nil {
		t.Fatal(err)
	}
	want := 12 * (1 - math.Sqrt(0.05)) / 2
	if s, stated := p.Rounding.Sigma(); !stated || !near(s.Minutes(), want, 1e-9) {
		t.Errorf("%v′, %v; want %v′", s.Minutes(), stated, want)
	}
	still, err := rose(4 * deg).InYear(2026)
	if s, stated := still.Rounding.Sigma(); err != nil || s != 0 || !stated {
		t.Errorf("no change, no steps: %v, %v, %v", s, stated, err)
	}
}

// A chart office knows the variation and its change exactly, and prints them rounded, with the
// year but not the day. If the change is steady, the navigator's error lies within twice the
// rounding in 95 % of cases, if one part is by far the largest. It is 91 % or more if two
// parts are equal, and more than 95 % if a figure to 1′ looks like one to 15′.
func TestRoundingHoldsItsPart(t *testing.T) {
	random := rand.New(rand.NewPCG(2014, 9))
	const draws = 20_000
	for _, c := range []struct {
		name             string
		step, changeStep angle.Angle
		most             float64 // the largest annual change, in minutes: whole ones and a half
		years            int
		count            variation.YearCount
		holds            float64 // at most, in per cent
	}{
		{"whole, the change decides", minute, minute, 3.5, 12, variation.WholeYears, 99},
		{"whole, the day decides", minute, minute, 20.5, 1, variation.WholeYears, 97},
		{"whole, in the rose's own year", minute, minute, 20.5, 0, variation.WholeYears, 97},
		{"whole, backwards", minute, minute, 10.5, -8, variation.WholeYears, 98},
		{"whole, in quarters of a degree", deg / 4, minute, 10.5, 5, variation.WholeYears, 98},
		{"whole, minutes by fives", 5 * minute, minute, 10.5, 5, variation.WholeYears, 98},
		{"whole, minutes by fifteens", 15 * minute, minute, 1.5, 0, variation.WholeYears, 96},
		{"whole, a change that prints as zero", minute, minute, 0.5, 1, variation.WholeYears, 100},
		{"decimal, the change decides", minute, minute, 3.5, 12, variation.DecimalYears, 99},
		{"decimal, the day decides", minute, minute / 10, 20.05, 2, variation.DecimalYears, 97},
		{"decimal, in the rose's own year", minute, minute, 20.5, 0, variation.DecimalYears, 97},
		{"decimal, a change that prints as zero", minute, minute, 0.5, 8, variation.DecimalYears, 99},
		{"decimal, a change of a minute", minute, minute, 1.5, 2, variation.DecimalYears, 99},
		{"decimal, backwards, a change of a minute", minute, minute, 1.5, -4, variation.DecimalYears, 99},
		{"decimal, backwards", minute, minute, 10.5, -8, variation.DecimalYears, 98},
	} {
		within := 0
		for range draws {
			perYear := degrees((2*random.Float64() - 1) * c.most / 60)
			begin := degrees((2*random.Float64() - 1) * 20) // the truth at the beginning of 2014
			truth := func(years float64) angle.Angle { return begin + angle.Must(perYear.Scale(years)) }

			r := variation.Rose{
				Variation: variation.East(truth(random.Float64()).Round(c.step)), Year: 2014, Step: minute,
				Change: variation.Eastward(perYear.Round(c.changeStep)), ChangeStep: c.changeStep,
			}
			into := random.Float64() // the year of the date
			date := time.Date(2014+c.years, 1, 1, 0, 0, 0, 0, time.UTC)
			date = date.Add(time.Duration(into * float64(date.AddDate(1, 0, 0).Sub(date))))
			p, err := r.On(date, c.count)
			if err != nil {
				t.Fatal(err)
			}
			off := p.Variation.Angle() - truth(float64(c.years)+into)
			if s, _ := p.Rounding.Sigma(); off.Abs() <= 2*s {
				within++
			}
		}
		if held := 100 * float64(within) / draws; held < 91 || held > c.holds {
			t.Errorf("%s: 2σ holds %.1f %%, want 91 to %.0f", c.name, held, c.holds)
		}
	}
}
