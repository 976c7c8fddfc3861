package fix_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

// svTrials is how many fixes a simulation makes: few by default, all with FULL=1.
func svTrials() int {
	if svFull() {
		return 10_000
	}
	return 1000
}

// svSpread returns marks from 3 to 12 km about a place. They lie a step of degrees apart,
// each shifted by at most off degrees.
func svSpread(r *rand.Rand, p angle.Position, count int, step, off float64) []fix.Mark {
	marks := make([]fix.Mark, count)
	base := r.Float64() * 360
	for i := range marks {
		d := base + float64(i)*step + (2*r.Float64()-1)*off
		marks[i] = fix.Mark{Name: fmt.Sprint("mark ", i), Position: fixtest.From(p, d, 3000+9000*r.Float64())}
	}
	return marks
}

// svSomewhere draws a place within 70° of the equator.
func svSomewhere(r *rand.Rand) angle.Position {
	return fixtest.At(-70+140*r.Float64(), -180+360*r.Float64())
}

// svWithin reports whether a place is within the 95 % ellipse of a fix.
func svWithin(t *testing.T, f fix.Fix, p angle.Position) bool {
	t.Helper()
	e := angle.Must(f.Ellipse(0.95))
	azimuth, d := fixtest.Geodesic(f.Position(), p)
	sin, cos := math.Sincos(azimuth - e.MajorAxis.FromNorth().Radians())
	along, across := d*cos/float64(e.SemiMajor), d*sin/float64(e.SemiMinor)
	return along*along+across*across <= 1
}

func TestEllipseCoverage(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2026))
	within := 0
	var probabilities []float64
	for range svTrials() {
		p := svSomewhere(r)
		count := 3 + r.IntN(3)
		marks := svSpread(r, p, count, 360/float64(count), 15)
		lines := make([]fix.Line, count)
		for i, m := range marks {
			if r.IntN(2) == 0 {
				lines[i] = svBearing(p, m, 0.5*r.NormFloat64(), 0.5)
			} else {
				lines[i] = svRange(p, m, 60*r.NormFloat64(), 60)
			}
		}
		f := svSolve(t, lines, fix.Options{Near: &p})
		if svWithin(t, f, p) {
			within++
		}
		probabilities = append(probabilities, f.Probability())
	}
	n := float64(len(probabilities))
	part := float64(within) / n
	slack := 0.01
	if !svFull() {
		slack = 0.02 // three standard deviations of a thousand
	}
	if math.Abs(part-0.95) > slack {
		t.Errorf("%v of the ellipses hold the true position", part)
	}
	slices.Sort(probabilities)
	worst := 0.0
	for i, p := range probabilities {
		worst = max(worst, p-float64(i)/n, float64(i+1)/n-p)
	}
	t.Logf("%.4f hold the true position; Kolmogorov's √n D = %.3f", part, worst*math.Sqrt(n))
	if worst*math.Sqrt(n) > 1.628 { // Kolmogorov–Smirnov at 1 %
		t.Errorf("the probabilities are not uniform: √n D = %v", worst*math.Sqrt(n))
	}
}

func TestBlunderIsNamedFirst(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2026))
	named, suspected := 0, 0
	trials := svTrials()
	for range trials {
		p := svSomewhere(r)
		marks := svSpread(r, p, 4, 45, 5)
		lines := make([]fix.Line, 4)
		off := make([]float64, 4)
		for i, m := range marks {
			off[i] = r.NormFloat64()
			lines[i] = svBearing(p, m, off[i], 1)
		}
		if len(svSolve(t, lines, fix.Options{Near: &p}).Suspicions()) > 0 {
			suspected++
		}
		wrong := r.IntN(4)
		by := 10.0
		if r.IntN(2) == 0 {
			by = -10
		}
		lines[wrong] = svBearing(p, marks[wrong], off[wrong]+by, 1)
		if s := svSolve(t, lines, fix.Options{Near: &p}).Suspicions(); len(s) > 0 && s[0].Line == wrong {
			named++
		}
	}
	t.Logf("named first %.4f, of sound lines suspected %.4f", float64(named)/float64(trials), float64(suspected)/float64(trials))
	if float64(named) < 0.9*float64(trials) {
		t.Errorf("named first in %d of %d", named, trials)
	}
	if float64(suspected) > 0.02*float64(trials) {
		t.Errorf("sound lines suspected in %d of %d", suspected, trials)
	}
}

func TestCompassErrorUncertainty(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 2026))
	const trials, sigma, wrong = 1000, 0.5, 3.0
	sum, squares, within := 0.0, 0.0, 0
	for range trials {
		p := svSomewhere(r)
		lines := make([]fix.Line, 4)
		for i, m := range svSpread(r, p, 4, 90, 20) {
			lines[i] = svCompass(p, m, wrong, sigma*r.NormFloat64(), sigma)
		}
		f := svSolve(t, lines, fix.Options{Near: &p, CompassError: true})
		known, stated := f.CompassError().Uncertainty().Sigma()
		if !stated {
			t.Fatal("not stated")
		}
		z := (f.CompassError().Degrees() - wrong) / known.Degrees()
		if math.Abs(z) > 4 { // once in 16,000
			t.Errorf("%v ± %v", f.CompassError(), known)
		}
		sum += z
		squares += z * z
		if svWithin(t, f, p) {
			within++
		}
	}
	mean := sum / trials
	deviation := math.Sqrt(squares/trials - mean*mean)
	t.Logf("z %.3f ± %.3f; %d of %d ellipses hold the true position", mean, deviation, within, trials)
	if math.Abs(mean) > 0.1 || deviation < 0.9 || deviation > 1.1 { // three and more standard deviations of a thousand
		t.Errorf("z %v ± %v", mean, deviation)
	}
	if within < 922 { // four standard deviations
		t.Errorf("%d of %d ellipses hold the true position", within, trials)
	}
}
