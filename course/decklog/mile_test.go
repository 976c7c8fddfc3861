package decklog_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/decklog"
	"lubberline.example/course/sailing"
)

// TestMeanOfMeans works four runs in a stream that changes as the square of time: 1, 0.6, 0.4
// and 0.4 kn. Means of means by hand: speeds 7, 5.4, 6.4, 5.6 kn give 6.2, 5.9, 6.0; 6.05,
// 5.95; 6.0 kn. The log shows 5.0 kn, so the factor is 1.2.
func TestMeanOfMeans(t *testing.T) {
	m := trial([]float64{7, 5.4, 6.4, 5.6}, 5)
	f, err := m.Factor()
	if err != nil || math.Abs(f.Value-1.2) > 1e-9 {
		t.Errorf("factor %v, %v; want 1.2", f, err)
	}
	sheet, err := m.Working()
	if step, ok := sheet.Steps.Find("water speed"); err != nil || !ok || math.Abs(step.Number-6) > 1e-9 {
		t.Errorf("%v\n%v", err, sheet)
	}
}

// trial returns runs over one mile at speeds over the ground, with one speed by log, in knots.
func trial(ground []float64, log float64) decklog.MeasuredMile {
	m := decklog.MeasuredMile{Length: sailing.NauticalMile}
	for i, v := range ground {
		lasts := time.Duration(float64(time.Hour) / v)
		course := angle.MustParseTrue("010")
		if i%2 == 1 {
			course = course.Reciprocal()
		}
		m.Runs = append(m.Runs, decklog.MileRun{Course: course, Lasts: lasts, Log: sailing.Distance(log*lasts.Hours()) * sailing.NauticalMile})
	}
	return m
}

// TestTimesOnTheMileAreInMinutesAndSeconds runs a mile at 8, 5 and 6.5 knots: 450, 720 and 553.8
// seconds.
func TestTimesOnTheMileAreInMinutesAndSeconds(t *testing.T) {
	sheet, err := trial([]float64{8, 5, 6.5}, 5.5).Working()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"in 7 min 30 s on 010", "in 12 min 00 s on 190", "in 9 min 14 s on 010"} {
		if !strings.Contains(sheet.String(), want) {
			t.Errorf("no %q in\n%s", want, sheet)
		}
	}
}

// TestEitherUncertaintyCounts states the uncertainty of the log, of the time, or none. By hand: two logs
// of 5/6 M ±0.01 M are ±1.2 % each, so the factor 1.2 is ±1.2 × 1.2 %/√2.
func TestEitherUncertaintyCounts(t *testing.T) {
	none, log, clock := trial([]float64{6, 6}, 5), trial([]float64{6, 6}, 5), trial([]float64{7, 5}, 5)
	log.LogUncertainty, clock.TimeUncertainty = 0.01*sailing.NauticalMile, 6*time.Second
	if f, err := none.Factor(); err != nil || f.PerMile != (sailing.Uncertainty[sailing.Distance]{}) {
		t.Errorf("none: %v, %v", f.PerMile, err)
	}
	f, err := log.Factor()
	if s, ok := f.PerMile.Sigma(); err != nil || !ok || math.Abs(s.NauticalMiles()-1.2*0.012/math.Sqrt2) > 1e-6 {
		t.Errorf("log: %v, %v", f.PerMile, err)
	}
	f, err = clock.Factor()
	if s, ok := f.PerMile.Sigma(); err != nil || !ok || s <= 0 {
		t.Errorf("time: %v, %v", f.PerMile, err)
	}
}

// TestFactorUncertaintyBySimulation draws errors of time and log for 4,000 trials. The stated
// uncertainty is within 5 % of the spread of the factors.
func TestFactorUncertaintyBySimulation(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	m := trial([]float64{7, 5, 7, 5}, 5.8)
	m.TimeUncertainty, m.LogUncertainty = 6*time.Second, 0.02*sailing.NauticalMile
	f, err := m.Factor()
	if err != nil {
		t.Fatal(err)
	}
	const trials = 4000
	var squares float64
	for range trials {
		n := trial([]float64{7, 5, 7, 5}, 5.8)
		for i := range n.Runs {
			n.Runs[i].Lasts += time.Duration(r.NormFloat64() * 6 * float64(time.Second))
			n.Runs[i].Log += sailing.Distance(r.NormFloat64()*0.02) * sailing.NauticalMile
		}
		g, err := n.Factor()
		if err != nil {
			t.Fatal(err)
		}
		squares += (g.Value - f.Value) * (g.Value - f.Value)
	}
	sigma, _ := f.PerMile.Sigma()
	if got, want := sigma.NauticalMiles(), math.Sqrt(squares/trials); math.Abs(got/want-1) > 0.05 {
		t.Errorf("stated ±%.5f, spread ±%.5f", got, want)
	}
}

// TestInvalidMile refuses trials without an answer.
func TestInvalidMile(t *testing.T) {
	same := trial([]float64{6, 6}, 5)
	same.Runs[1].Course = same.Runs[0].Course
	still := trial([]float64{6, 6}, 5)
	still.Runs[1].Lasts = 0
	negative := trial([]float64{6, 6}, 5)
	negative.TimeUncertainty = -1
	vague := trial([]float64{6, 6}, 5)
	vague.LogUncertainty = vague.Length // the log says nothing
	for name, m := range map[string]decklog.MeasuredMile{"zero": {}, "one": trial([]float64{6}, 5), "same way": same, "no time": still, "negative": negative, "vague": vague, "no log": trial([]float64{6, 6}, 0), "factor": trial([]float64{6, 6}, 2), "NaN": trial([]float64{6, 6}, math.NaN())} {
		if f, err := m.Factor(); err == nil {
			t.Errorf("%s: %v", name, f)
		}
		if _, err := m.Working(); err == nil {
			t.Errorf("%s has a working", name)
		}
	}
}
