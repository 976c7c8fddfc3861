package fix_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
	"lubberline.example/variation"
)

// svOn returns the Quillon on a heading by compass, with variation and deviation known to
// some degrees.
func svOn(head, ofVariation, ofDeviation float64) course.Heading {
	return angle.Must(course.FromCompass(angle.CompassFrom(angle.Must(angle.Degrees(head))), course.With{
		Variation: variation.West(5 * angle.Degree).WithUncertainty(fixtest.Sigma(ofVariation)),
		Deviation: deviation.East(angle.Degree).WithUncertainty(fixtest.Sigma(ofDeviation)),
	}))
}

// svByHand returns a bearing by a hand-bearing compass, off by some degrees.
func svByHand(from angle.Position, m fix.Mark, h course.Heading, off, sigma float64) fix.Line {
	b := h.BearingFromTrue(fixtest.True(fixtest.Azimuth(from, m.Position) + off))
	return fix.CompassBearing(m, h.BearingFromMagnetic(b.Magnetic()), fixtest.Sigma(sigma))
}

// svByShip returns a bearing by the vessel's compass, off by some degrees.
func svByShip(from angle.Position, m fix.Mark, h course.Heading, off, sigma float64) fix.Line {
	b := h.BearingFromTrue(fixtest.True(fixtest.Azimuth(from, m.Position) + off))
	return fix.CompassBearing(m, h.BearingFromCompass(b.Compass()), fixtest.Sigma(sigma))
}

// Three bearings each of two objects 5 miles off, with a variation known to 2° and
// read to 0.5°: an error of the variation does not average out.
func TestHandBearingsShareTheVariation(t *testing.T) {
	h := svOn(226, 2, 0)
	for _, test := range []struct {
		cut  float64
		want float64 // metres, as a reviewer simulated it
	}{
		{90, 462}, {10, 500},
	} {
		var lines []fix.Line
		rad := math.Pi / 180
		// The place's error is A⁻¹ of the two objects' errors, which have the variation's in common.
		each, common := math.Pow(0.5*rad*5*1852, 2)/3, math.Pow(2*rad*5*1852, 2)
		sin, cos := math.Sincos(test.cut * rad)
		worked := math.Sqrt((2*each + 2*(1-cos)*common) / (sin * sin))
		if math.Abs(worked-test.want) > 1 { // as rounded
			t.Errorf("cut of %v°: %.0f m worked by hand, want %v", test.cut, worked, test.want)
		}
		for range 3 {
			for _, degrees := range []float64{0, test.cut} {
				lines = append(lines, svByHand(svVessel, fix.Mark{Name: "object", Position: fixtest.From(svVessel, degrees, 5*1852)}, h, 0, 0.5))
			}
		}
		c := svKnown(svSolve(t, lines, fix.Options{Near: &svVessel}))
		if got := math.Sqrt(c.North + c.East); math.Abs(got-worked) > 0.005*worked { // the north turns as one moves
			t.Errorf("cut of %v°: %.0f m, want %.0f m", test.cut, got, worked)
		}
	}
}

// Two bearings of one mark: what they have in common is by how each was taken.
func TestBearingsShareConversionErrors(t *testing.T) {
	const v, d, reading = 2.0, 1.5, 0.5
	vessel := fixtest.From(svHead.Position, 180, 10_000) // the mark bears north
	wide := stream.Estimate{Position: vessel, Covariance: sailing.Circular(1e6)}
	here, near, away := svOn(226, v, d), svOn(232, v, d), svOn(46, v, d)
	relative := func(h course.Heading) fix.Line {
		b := h.BearingFromTrue(fixtest.True(fixtest.Azimuth(vessel, svHead.Position)))
		return fix.CompassBearing(svHead, h.BearingFromRelative(b.Relative()), fixtest.Sigma(reading))
	}
	asTrue := fix.CompassBearing(svHead, here.BearingFromTrue(fixtest.True(fixtest.Azimuth(vessel, svHead.Position))), fixtest.Sigma(reading))
	hand, ship := func(h course.Heading) fix.Line { return svByHand(vessel, svHead, h, 0, reading) }, func(h course.Heading) fix.Line { return svByShip(vessel, svHead, h, 0, reading) }
	const r, h, s = reading * reading, v*v + reading*reading, v*v + d*d + reading*reading
	for name, test := range map[string]struct {
		a, b             fix.Line
		of, with, common float64 // variances, square degrees
	}{
		"by hand both":             {hand(here), hand(here), h, h, v * v},
		"by hand on other heads":   {hand(here), hand(away), h, h, v * v},
		"by ship on one head":      {ship(here), ship(here), s, s, v*v + d*d},
		"by ship on heads alike":   {ship(here), ship(near), s, s, v*v + d*d},
		"by ship on other heads":   {ship(here), ship(away), s, s, v * v},
		"by ship and by hand":      {ship(here), hand(here), s, h, v * v},
		"from the bow and by ship": {relative(here), ship(here), s, s, v*v + d*d},
		"from the bow and by hand": {relative(here), hand(here), s, h, v * v},
		"true and by ship":         {asTrue, ship(here), r, s, 0},
		"true both":                {asTrue, asTrue, r, r, 0},
		"of another variation":     {hand(here), hand(svOn(226, 1, d)), h, 1 + r, v * 1},
	} {
		// Of the weighted mean; all of it in square degrees.
		variance := (test.of*test.with - test.common*test.common) / (test.of + test.with - 2*test.common)
		want := math.Sqrt(variance) * math.Pi / 180 * 10_000
		got := math.Sqrt(svKnown(svSolve(t, []fix.Line{test.a, test.b}, fix.Options{Prior: &wide})).East)
		if math.Abs(got-want) > 0.003*want { // the north turns as one moves, a part of 0.0017
			t.Errorf("%s: %.1f m, want %.1f m", name, got, want)
		}
	}
}

// TestEllipseCoverageOfMixedBearings solves bearings by hand and by the vessel's compass on two
// headings, with errors of variation and deviation as stated. 95 % of the ellipses hold the
// true position, and a tenth of the probabilities are below a tenth.
func TestEllipseCoverageOfMixedBearings(t *testing.T) {
	const v, d, reading = 1.0, 1.2, 0.5
	r := rand.New(rand.NewPCG(4, 2026))
	within, low := 0, 0
	heads := [2]course.Heading{svOn(226, v, d), svOn(40, v, d)}
	for range svTrials() {
		p := svSomewhere(r)
		ofVariation, ofDeviation := v*r.NormFloat64(), [2]float64{d * r.NormFloat64(), d * r.NormFloat64()}
		count := 4 + r.IntN(4)
		lines := make([]fix.Line, count)
		for i, m := range svSpread(r, p, count, 200/float64(count), 15) {
			off := ofVariation + reading*r.NormFloat64()
			head := r.IntN(2)
			if i%2 == 0 {
				lines[i] = svByHand(p, m, heads[head], off, reading)
			} else {
				lines[i] = svByShip(p, m, heads[head], off+ofDeviation[head], reading)
			}
		}
		f := svSolve(t, lines, fix.Options{Near: &p})
		if svWithin(t, f, p) {
			within++
		}
		if f.Probability() < 0.1 {
			low++
		}
	}
	n := float64(svTrials())
	part, lowPart := float64(within)/n, float64(low)/n
	t.Logf("%.4f hold the true position, %.4f of the probabilities are below a tenth", part, lowPart)
	slack := 0.01
	if !svFull() {
		slack = 0.02 // three standard deviations of a thousand
	}
	if math.Abs(part-0.95) > slack {
		t.Errorf("%v of the ellipses hold the true position", part)
	}
	if math.Abs(lowPart-0.1) > 3*math.Sqrt(0.09/n) {
		t.Errorf("%v of the probabilities are below a tenth", lowPart)
	}
}

// The compass error that is solved for replaces the deviation's for the vessel's compass.
// Bearings by hand keep the error of the variation.
func TestCompassErrorOfMixedBearings(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2026))
	const trials, v, reading, wrong = 1000, 1.0, 0.5, 3.0
	h := svOn(226, v, 1)
	squares, within := 0.0, 0
	for range trials {
		p := svSomewhere(r)
		ofVariation := v * r.NormFloat64()
		lines := make([]fix.Line, 6)
		for i, m := range svSpread(r, p, 6, 60, 20) {
			if i%2 == 0 {
				lines[i] = svByHand(p, m, h, ofVariation+reading*r.NormFloat64(), reading)
			} else {
				lines[i] = svByShip(p, m, h, -wrong+reading*r.NormFloat64(), reading)
			}
		}
		f := svSolve(t, lines, fix.Options{Near: &p, CompassError: true})
		known, _ := f.CompassError().Uncertainty().Sigma()
		z := (f.CompassError().Degrees() - wrong) / known.Degrees()
		squares += z * z
		if svWithin(t, f, p) {
			within++
		}
	}
	if spread := math.Sqrt(squares / trials); spread < 0.9 || spread > 1.1 || within < 922 { // four standard deviations of a thousand
		t.Errorf("spread %v, %d of %d ellipses hold the true position", spread, within, trials)
	}
}

// TestSharedErrorsAgreeWithFullCovariance solves again with the full covariance of all
// bearings: by hand, by compass and from the bow, on the same and on different headings.
func TestSharedErrorsAgreeWithFullCovariance(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 2026))
	heads, group := []float64{226, 232, 46, 120}, []int{0, 0, 1, 2}
	for range 200 {
		p := svSomewhere(r)
		n := 3 + r.IntN(5)
		marks := svSpread(r, p, n, 300/float64(n), 15)
		lines := make([]fix.Line, n)
		off := mat.NewVecDense(n, nil)                                    // degrees
		v, d, g := make([]float64, n), make([]float64, n), make([]int, n) // the errors of each, and whose deviation
		sigma := mat.NewSymDense(n, nil)
		for i, m := range marks {
			k := r.IntN(len(heads))
			g[i], v[i], d[i] = group[k], 0.5+r.Float64(), 0.5+r.Float64()
			h, reading, by := svOn(heads[k], v[i], d[i]), 0.3+r.Float64(), 1.5*r.NormFloat64()
			b := h.BearingFromTrue(fixtest.True(fixtest.Azimuth(p, m.Position) + by))
			switch r.IntN(4) {
			case 0:
				b = h.BearingFromMagnetic(b.Magnetic())
				d[i] = 0
			case 1:
				b = h.BearingFromCompass(b.Compass())
			case 2:
				b = h.BearingFromRelative(b.Relative())
			default:
				v[i], d[i] = 0, 0
			}
			lines[i] = fix.CompassBearing(m, b, fixtest.Sigma(reading))
			sigma.SetSym(i, i, reading*reading)
		}
		for i := range n {
			for j := range i + 1 {
				c := v[i] * v[j]
				if g[i] == g[j] {
					c += d[i] * d[j]
				}
				sigma.SetSym(i, j, sigma.At(i, j)+c)
			}
		}
		f := svSolve(t, lines, fix.Options{Near: &p})
		slopes := mat.NewDense(n, 2, nil)
		for i, m := range marks {
			expected := fixtest.Azimuth(f.Position(), m.Position)
			off.SetVec(i, math.Remainder(lines[i].Working()[0].Number-expected, 360))
			if step, ok := lines[i].Working().Find("true bearing"); ok {
				off.SetVec(i, math.Remainder(step.Number-expected, 360))
			}
			for j, degrees := range []float64{0, 90} {
				slopes.Set(i, j, math.Remainder(fixtest.Azimuth(fixtest.From(f.Position(), degrees, 1), m.Position)-fixtest.Azimuth(fixtest.From(f.Position(), degrees+180, 1), m.Position), 360)/2)
			}
		}
		var inverse, weighed, normal, covariance mat.Dense
		if err := inverse.Inverse(sigma); err != nil {
			t.Fatal(err)
		}
		weighed.Mul(slopes.T(), &inverse)
		normal.Mul(&weighed, slopes)
		if err := covariance.Inverse(&normal); err != nil {
			t.Fatal(err)
		}
		c, scale := svKnown(f), covariance.At(0, 0)+covariance.At(1, 1)
		for _, pair := range [][2]float64{{c.North, covariance.At(0, 0)}, {c.East, covariance.At(1, 1)}, {c.Both, covariance.At(0, 1)}} {
			if math.Abs(pair[0]-pair[1]) > 1e-4*scale { // of slopes by differences of a metre
				t.Fatalf("%v, want %v", c, mat.Formatted(&covariance))
			}
		}
		if want := mat.Inner(off, &inverse, off); math.Abs(f.ChiSquare()-want) > 1e-4*(1+want) { // normal section for geodesic
			t.Fatalf("χ² %v, want %v", f.ChiSquare(), want)
		}
		// The residual of a line left out, by the rows of the projection of the full covariance:
		// variance 1/Rᵢᵢ with R = V⁻¹ − V⁻¹A(AᵀV⁻¹A)⁻¹AᵀV⁻¹ (generalised least squares).
		var gain, projection mat.Dense
		gain.Mul(&covariance, &weighed)
		projection.Mul(weighed.T(), &gain)
		projection.Sub(&inverse, &projection)
		for i := range n {
			if n < 4 {
				break // two bearings that are left may cross at a small angle
			}
			spread, ok := fix.SpreadLeftOut(f, i)
			if want := math.Sqrt(1/projection.At(i, i)) * math.Pi / 180; !ok || math.Abs(spread-want) > 1e-3*want { // of slopes by differences of a metre
				t.Fatalf("bearing %d of %d left out: ±%v, want ±%v", i, n, spread, want)
			}
		}
		sum := 0.0
		for _, q := range f.Residuals() {
			sum += q.Ratio * q.Ratio
		}
		if sum > f.ChiSquare()*(1+1e-9) {
			t.Fatalf("ratios sum to %v, more than χ² %v", sum, f.ChiSquare())
		}
	}
}
