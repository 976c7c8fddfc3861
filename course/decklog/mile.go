package decklog

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// A Factor is the factor of a log: the distance through the water divided by the distance by
// log. Above 1, the log reads too little. The zero value is 1, with an unknown uncertainty.
type Factor struct {
	Value   float64                               `json:"value"`
	PerMile sailing.Uncertainty[sailing.Distance] `json:"perMile,omitzero"` // standard uncertainty for each mile run
}

// maxFactor is the maximum factor; the minimum is 1 / maxFactor. A log outside them is faulty.
const maxFactor = 2

// value returns the factor, or an error if it is outside the limits.
func (f Factor) value() (float64, error) {
	if f.Value == 0 {
		return 1, nil
	}
	if !(f.Value >= 1.0/maxFactor && f.Value <= maxFactor) {
		return 0, &angle.RangeError{What: "factor of the log", Value: f.Value, Accepted: "0.5 to 2"}
	}
	return f.Value, nil
}

// A MileRun is one run over a measured mile.
type MileRun struct {
	Course angle.True       // along the mile, there or back
	Lasts  time.Duration    // the time from transit to transit
	Log    sailing.Distance // by log, the difference of its readings
}

// A MeasuredMile is a trial of the log over a measured distance. Its runs lead there and back, and
// follow each other at equal intervals.
//
// The mean of means of the speeds over the ground is the speed through the water. With two runs it
// removes a steady stream. With three it also removes one that changes evenly with time, and so on
// (common practice of speed trials).
type MeasuredMile struct {
	Length sailing.Distance
	Runs   []MileRun // at least two, alternately there and back

	// TimeUncertainty and LogUncertainty are the standard uncertainties of the time and of the
	// distance by log of one run. If both are zero, that of the factor is unknown.
	TimeUncertainty time.Duration
	LogUncertainty  sailing.Distance
}

// weights returns the weights of the runs in the mean of means: binomial coefficients.
func weights(n int) []float64 {
	w := []float64{1}
	for len(w) < n {
		next := make([]float64, len(w)+1)
		for i, x := range w {
			next[i] += x / 2
			next[i+1] += x / 2
		}
		w = next
	}
	return w
}

// Factor returns the factor of the log. A trial has 2 to 20 runs, each opposite to the one before
// within 20°. Times and distances are above zero, and the factor is from 0.5 to 2. Otherwise Factor
// returns an [*angle.RangeError].
func (m MeasuredMile) Factor() (Factor, error) {
	ground, logged, f, err := m.speeds()
	if err != nil {
		return Factor{}, err
	}
	if m.TimeUncertainty == 0 && m.LogUncertainty == 0 {
		return f, nil
	}
	// Each error moves the factor in proportion to the run's weight.
	var variance float64
	for i, w := range weights(len(m.Runs)) {
		r := m.Runs[i]
		t := r.Lasts.Seconds()
		v, l := float64(m.Length)/t, float64(r.Log)/t
		time := w * (v/ground - l/logged) * m.TimeUncertainty.Seconds() / t
		log := w * float64(m.LogUncertainty) / t / logged
		variance += time*time + log*log
	}
	f.PerMile, err = sailing.StandardUncertainty(sailing.Distance(f.Value*math.Sqrt(variance)) * sailing.NauticalMile)
	return f, err
}

// speeds returns the means of means of the speeds over the ground and by log, in metres a
// second, and the factor.
func (m MeasuredMile) speeds() (ground, logged float64, f Factor, err error) {
	if n := len(m.Runs); n < 2 || n > 20 {
		return 0, 0, f, &angle.RangeError{What: "number of runs over the measured mile", Value: float64(n), Accepted: "2 to 20, alternately there and back"}
	}
	if !(m.Length > 0 && m.Length < 100*sailing.NauticalMile) {
		return 0, 0, f, &angle.RangeError{What: "length of the measured mile", Value: m.Length.NauticalMiles(), Accepted: "miles above 0, below 100"}
	}
	if !(m.TimeUncertainty >= 0 && m.LogUncertainty >= 0 && m.LogUncertainty < m.Length) {
		return 0, 0, f, &angle.RangeError{What: "uncertainty of a run by log", Value: m.LogUncertainty.NauticalMiles(), Accepted: "miles from 0, below the length; and that of the time 0 s or more"}
	}
	for i, w := range weights(len(m.Runs)) {
		r := m.Runs[i]
		if !(r.Lasts > 0 && r.Log > 0 && r.Log < 1000*sailing.NauticalMile) {
			return 0, 0, f, &angle.RangeError{What: fmt.Sprintf("time or log of run %d, in miles by log,", i+1), Value: r.Log.NauticalMiles(), Accepted: "a time above 0 and a distance above 0"}
		}
		if i > 0 {
			if off := r.Course.Sub(m.Runs[i-1].Course.Reciprocal()); off.Abs() > 20*angle.Degree {
				return 0, 0, f, &angle.RangeError{What: fmt.Sprintf("course of run %d, from the reciprocal of the run before,", i+1), Value: off.Degrees(), Accepted: "degrees from -20 to 20: run alternately there and back, or the stream remains in the mean"}
			}
		}
		ground += w * float64(m.Length) / r.Lasts.Seconds()
		logged += w * float64(r.Log) / r.Lasts.Seconds()
	}
	f.Value = ground / logged
	_, err = f.value()
	return ground, logged, f, err
}

// Working returns the steps: the speeds of each run, their means of means, and the factor. Its
// errors are those of [MeasuredMile.Factor].
func (m MeasuredMile) Working() (working.Sheet, error) {
	f, err := m.Factor()
	if err != nil {
		return working.Sheet{}, err
	}
	ground, logged, _, err := m.speeds()
	if err != nil {
		return working.Sheet{}, err
	}
	var steps working.Steps
	knots := func(key, what string, v float64) working.Step {
		k := sailing.Speed(v).Knots()
		return working.Step{Key: key, What: what, Value: fmt.Sprintf("%.2f kn", k), Number: k, Unit: "knots"}
	}
	for i, r := range m.Runs {
		steps = append(steps, knots("run", fmt.Sprintf("Run %d over the ground", i+1), float64(m.Length)/r.Lasts.Seconds()).
			Because("mile-run", "%.3f M in %s on %.0f; by log %.3f M", m.Length.NauticalMiles(), minutesAndSeconds(r.Lasts), r.Course, r.Log.NauticalMiles()))
	}
	factor := working.Step{Key: "factor", What: "Factor of the log", Value: fmt.Sprintf("%.3f", f.Value), Number: f.Value}.Because("mile-factor", "speed through the water over speed by log")
	if s, ok := f.PerMile.Sigma(); ok {
		factor = factor.Because("mile-factor-uncertainty", "±%.3f, standard", s.NauticalMiles())
	}
	return working.Sheet{Steps: append(steps,
		knots("water speed", "Speed through the water", ground).Because("mile-mean-of-means", "mean of means of the speeds over the ground, so that the stream cancels"),
		knots("log speed", "Speed by log", logged).Because("mile-log-mean", "mean of means of the speeds by log"), factor)}, nil
}

// minutesAndSeconds prints a time on the mile, rounded to the second: 9 min 13 s.
func minutesAndSeconds(t time.Duration) string {
	t = t.Round(time.Second)
	return fmt.Sprintf("%d min %02d s", t/time.Minute, t%time.Minute/time.Second)
}
