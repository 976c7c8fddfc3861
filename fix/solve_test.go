package fix_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"gonum.org/v1/gonum/stat/distuv"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

// An svObserved is an observation for the independent solution.
type svObserved struct {
	mark  fix.Mark
	off   bool    // whether a distance off
	value float64 // degrees or metres
	sigma float64
}

// line returns the line of an observation.
func (o svObserved) line() fix.Line {
	if o.off {
		return angle.Must(fix.Range(o.mark, sailing.Distance(o.value), sailing.Distance(o.sigma)))
	}
	return fix.Bearing(o.mark, fixtest.True(o.value), fixtest.Sigma(o.sigma))
}

// svLines returns the lines of observations.
func svLines(observed []svObserved) []fix.Line {
	lines := make([]fix.Line, len(observed))
	for i, o := range observed {
		lines[i] = o.line()
	}
	return lines
}

// svRatios returns the residuals in standard uncertainties, at a place some metres north and east
// of another on a local plane of degrees.
func svRatios(observed []svObserved, about angle.Position, north, east float64) []float64 {
	latitude, longitude := about.Degrees()
	p := fixtest.At(latitude+north/111_000, longitude+east/111_000/about.Latitude.Angle().Cos())
	out := make([]float64, len(observed))
	for i, o := range observed {
		if o.off {
			out[i] = (o.value - fixtest.Apart(p, o.mark.Position)) / o.sigma
		} else {
			out[i] = math.Remainder(o.value-fixtest.Azimuth(p, o.mark.Position), 360) / o.sigma
		}
	}
	return out
}

// svSlowly solves the least squares of observations by Gauss–Newton steps with numerical
// derivatives of geodesics.
func svSlowly(observed []svObserved, about angle.Position) (p angle.Position, square float64) {
	n, e := 0.0, 0.0
	for range 30 {
		const h = 5 // metres
		r := svRatios(observed, about, n, e)
		n1, n2 := svRatios(observed, about, n+h, e), svRatios(observed, about, n-h, e)
		e1, e2 := svRatios(observed, about, n, e+h), svRatios(observed, about, n, e-h)
		var nn, ne, ee, gn, ge float64
		square = 0
		for i := range r {
			dn, de := (n1[i]-n2[i])/(2*h), (e1[i]-e2[i])/(2*h)
			nn, ne, ee = nn+dn*dn, ne+dn*de, ee+de*de
			gn, ge = gn-dn*r[i], ge-de*r[i]
			square += r[i] * r[i]
		}
		det := nn*ee - ne*ne
		n += (ee*gn - ne*ge) / det
		e += (nn*ge - ne*gn) / det
	}
	latitude, longitude := about.Degrees()
	return fixtest.At(latitude+n/111_000, longitude+e/111_000/about.Latitude.Angle().Cos()), square
}

// svDrawObserved draws bearings and distances off, each somewhat wrong.
func svDrawObserved(t *rapid.T, p angle.Position, count int) []svObserved {
	observed := make([]svObserved, count)
	for i, m := range svDrawMarks(t, p, count) {
		by := rapid.Float64Range(-1.5, 1.5).Draw(t, "error")
		if rapid.Bool().Draw(t, "distance off") {
			observed[i] = svObserved{m, true, fixtest.Apart(p, m.Position) + by*100, 100}
		} else {
			sigma := rapid.Float64Range(0.2, 1).Draw(t, "sigma")
			observed[i] = svObserved{m, false, fixtest.Azimuth(p, m.Position) + by*sigma, sigma}
		}
	}
	return observed
}

func TestFixAgreesWithPlainLeastSquares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := svDraw(t, 85)
		observed := svDrawObserved(t, p, rapid.IntRange(3, 6).Draw(t, "lines"))
		f := svSolve(t, svLines(observed), fix.Options{Near: &p})
		want, square := svSlowly(observed, p)
		if d := fixtest.Apart(f.Position(), want); d > 0.05 { // Gauss–Newton settles where the linear part does, to the step of the derivatives
			t.Fatalf("%v, want %v: %v m", f.Position(), want, d)
		}
		if math.Abs(f.ChiSquare()-square) > 1e-4*(1+square) { // bearings in degrees
			t.Fatalf("χ² %v, want %v", f.ChiSquare(), square)
		}
		if _, known := f.Covariance(); f.DegreesOfFreedom() != len(observed)-2 || !known {
			t.Fatalf("%d degrees of freedom, known %v", f.DegreesOfFreedom(), known)
		}
		if got, want := f.Probability(), (distuv.ChiSquared{K: float64(len(observed) - 2)}).Survival(f.ChiSquare()); got != want {
			t.Fatalf("probability %v, want %v", got, want)
		}
	})
}

func TestSolveWithoutNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := svDraw(t, 80)
		marks := svDrawMarks(t, p, 4)
		lines := []fix.Line{svBearing(p, marks[0], 0.3, 1), svBearing(p, marks[1], -0.2, 1), svBearing(p, marks[2], 0.1, 1), svRange(p, marks[3], 20, 100)}
		near, alone := svSolve(t, lines, fix.Options{Near: &p}), svSolve(t, lines, fix.Options{})
		if d := fixtest.Apart(near.Position(), alone.Position()); d > 0.001 { // both settle to 10 µm
			t.Fatalf("%v m apart", d)
		}
	})
}

func TestLineOrderDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := svDraw(t, 85)
		lines := svLines(svDrawObserved(t, p, 5))
		a := svSolve(t, lines, fix.Options{Near: &p})
		mixed := slices.Clone(lines)
		order := rapid.Permutation([]int{0, 1, 2, 3, 4}).Draw(t, "order")
		for i, j := range order {
			mixed[i] = lines[j]
		}
		b := svSolve(t, mixed, fix.Options{Near: &p})
		if d := fixtest.Apart(a.Position(), b.Position()); d > 0.001 { // it settles to 10 µm
			t.Fatalf("%v m apart", d)
		}
		for i, j := range order {
			if math.Abs(a.Residuals()[j].Ratio-b.Residuals()[i].Ratio) > 1e-5 { // of a millimetre
				t.Fatalf("residuals %v and %v", a.Residuals()[j], b.Residuals()[i])
			}
		}
	})
}

func TestFixesTurnAndMirrorWithEarth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := svDraw(t, 85)
		observed := svDrawObserved(t, p, 4)
		f := svSolve(t, svLines(observed), fix.Options{Near: &p})
		by := angle.Angle(rapid.Int64Range(-180, 180).Draw(t, "turn")) * angle.Degree
		for name, image := range map[string]struct {
			place   func(angle.Position) angle.Position
			bearing func(float64) float64
		}{
			"turned": {func(p angle.Position) angle.Position { p.Longitude = p.Longitude.Add(by); return p }, func(b float64) float64 { return b }},
			"east for west": {func(p angle.Position) angle.Position {
				p.Longitude = angle.LongitudeFrom(-p.Longitude.Angle())
				return p
			}, func(b float64) float64 { return -b }},
			"north for south": {func(p angle.Position) angle.Position {
				p.Latitude = angle.Must(angle.LatitudeFrom(-p.Latitude.Angle()))
				return p
			}, func(b float64) float64 { return 180 - b }},
		} {
			other := slices.Clone(observed)
			for i := range other {
				other[i].mark.Position = image.place(other[i].mark.Position)
				if !other[i].off {
					other[i].value = image.bearing(other[i].value)
				}
			}
			near := image.place(p)
			g := svSolve(t, svLines(other), fix.Options{Near: &near})
			if d := fixtest.Apart(g.Position(), image.place(f.Position())); d > 0.001 { // it settles to 10 µm
				t.Fatalf("%s: %v m apart", name, d)
			}
			if math.Abs(g.ChiSquare()-f.ChiSquare()) > 1e-6*(1+f.ChiSquare()) { // likewise
				t.Fatalf("%s: χ² %v, want %v", name, g.ChiSquare(), f.ChiSquare())
			}
		}
	})
}

func TestHeavierLinesPullFix(t *testing.T) {
	marks := svRing(svVessel, 8000, 0, 90, 225)
	off := func(sigma float64) float64 {
		lines := []fix.Line{svBearing(svVessel, marks[0], 2, sigma), svBearing(svVessel, marks[1], 0, 1), svBearing(svVessel, marks[2], 0, 1)}
		return math.Abs(float64(svSolve(t, lines, fix.Options{Near: &svVessel}).Residuals()[0].Offset))
	}
	if a, b, c := off(0.1), off(1), off(5); !(a < b && b < c) {
		t.Errorf("offsets %v %v %v: want them to grow", a, b, c)
	}
}

func TestResidualOffset(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := svDraw(t, 80)
		observed := svDrawObserved(t, p, 4)
		f := svSolve(t, svLines(observed), fix.Options{Near: &p})
		sum := 0.0
		for i, r := range f.Residuals() {
			sum += r.Ratio * r.Ratio
			sigma := observed[i].sigma
			if !observed[i].off {
				sigma *= math.Pi / 180
			}
			if math.Abs(r.Ratio*sigma-r.Value) > 1e-9*(1+math.Abs(r.Value)) { // uncertainties are whole units of Angle
				t.Fatalf("ratio %v of %v, left %v", r.Ratio, sigma, r.Value)
			}
			// Moved by the offset, the fix lies on the line.
			on := angle.Must(sailing.WGS84().Follow(f.Position(), sailing.Run{Course: r.Toward, Distance: r.Offset}))
			left := svRatios(observed[i:i+1], on, 0, 0)[0]
			if math.Abs(left) > 0.05*math.Abs(r.Ratio)+1e-3 { // the line bends, over some hundreds of metres of miles
				t.Fatalf("%v left of %v at the offset", left, r.Ratio)
			}
		}
		if math.Abs(sum-f.ChiSquare()) > 1e-9*(1+sum) { // the same sum
			t.Fatalf("χ² %v, want %v", f.ChiSquare(), sum)
		}
	})
}

func TestFixWithoutUncertainties(t *testing.T) {
	marks := svRing(svVessel, 8000, 0, 90, 225)
	var u angle.Uncertainty
	lines := []fix.Line{
		fix.Bearing(marks[0], fixtest.True(fixtest.Azimuth(svVessel, marks[0].Position)), u),
		fix.Bearing(marks[1], fixtest.True(fixtest.Azimuth(svVessel, marks[1].Position)), u),
		angle.Must(fix.Range(marks[2], sailing.Distance(fixtest.Apart(svVessel, marks[2].Position)), 0)),
		angle.Must(fix.Latitude(svVessel.Latitude, 0)),
		angle.Must(fix.Longitude(svVessel.Longitude, 0)),
		angle.Must(fix.LineFromFunc("depth", "m", func(p angle.Position) float64 { return 50 + p.Latitude.Degrees() }, 50+svVessel.Latitude.Degrees(), 0)),
	}
	f := svSolve(t, lines, fix.Options{})
	if d := fixtest.Apart(f.Position(), svVessel); d > 0.01 { // normal section for geodesic, and units of Angle
		t.Errorf("%v m off", d)
	}
	if c, known := f.Covariance(); known || c != (sailing.Covariance{}) || f.Probability() != 1 || f.Suspicions() != nil {
		t.Errorf("known %v, covariance %v, probability %v", known, c, f.Probability())
	}
	_, err := f.Ellipse(0.95)
	fixtest.Refused[*fix.Error](t, "ellipse", err)
	_, err = f.NextBearings(marks, fixtest.Sigma(1))
	fixtest.Refused[*fix.Error](t, "next", err)
	known := svSolve(t, []fix.Line{svBearing(svVessel, marks[0], 0, 1), svBearing(svVessel, marks[1], 0, 1)}, fix.Options{})
	for _, p := range []float64{0, 1, -1, math.NaN()} {
		_, err = known.Ellipse(p)
		fixtest.Refused[*angle.RangeError](t, "probability", err)
	}
	_, err = known.NextBearings(marks, u)
	fixtest.Refused[*fix.Error](t, "next by a bearing not known", err)
}

func TestLinesWithoutPositionAreRefused(t *testing.T) {
	marks := svRing(svVessel, 8000, 0, 90, 225)
	a, b, c := svBearing(svVessel, marks[0], 0, 1), svBearing(svVessel, marks[1], 0, 1), svBearing(svVessel, marks[2], 0, 1)
	exact := fix.Bearing(marks[2], fixtest.True(10), fixtest.Sigma(0))
	loose := fix.Bearing(marks[2], fixtest.True(10), angle.Uncertainty{})
	flat := &stream.Estimate{Position: svVessel}
	lined := &stream.Estimate{Position: svVessel, Covariance: sailing.Oriented(fixtest.True(45), 100, 0)}
	nan := &stream.Estimate{Position: svVessel, Covariance: sailing.Covariance{North: math.NaN(), East: 1}}
	endless := &stream.Estimate{Position: svVessel, Covariance: sailing.Covariance{North: math.Inf(1), East: 1}}
	for name, try := range map[string]struct {
		lines   []fix.Line
		options fix.Options
	}{
		"no lines":                        {nil, fix.Options{}},
		"one line":                        {[]fix.Line{a}, fix.Options{Near: &svVessel}},
		"one line twice":                  {[]fix.Line{a, a}, fix.Options{Near: &svVessel}},
		"one line thrice":                 {[]fix.Line{a, a, a}, fix.Options{Near: &svVessel}},
		"mixed":                           {[]fix.Line{a, b, loose}, fix.Options{}},
		"too many":                        {slices.Repeat([]fix.Line{a, b}, 5001), fix.Options{Near: &svVessel}},
		"compass error without a compass": {[]fix.Line{a, b, c}, fix.Options{CompassError: true}},
		"compass error of two lines":      {[]fix.Line{svCompass(svVessel, marks[0], 0, 0, 1), b}, fix.Options{CompassError: true}},
		"a prior without area":            {[]fix.Line{a}, fix.Options{Prior: flat}},
		"a prior that is a line":          {[]fix.Line{a}, fix.Options{Prior: lined}},
		"a prior that is no number":       {[]fix.Line{a}, fix.Options{Prior: nan}},
		"a prior without end":             {[]fix.Line{a}, fix.Options{Prior: endless}},
	} {
		f, err := fix.Solve(try.lines, try.options)
		fixtest.Refused[*fix.Error](t, name, err)
		if f.Lines() != nil {
			t.Errorf("%s: a fix all the same", name)
		}
	}
	_, err := fix.Solve([]fix.Line{a}, fix.Options{Prior: flat})
	if e, _ := errors.AsType[*fix.Error](err); e == nil || e.Kind != fix.UncertaintyMissing {
		t.Errorf("a prior of unknown covariance: %v", err)
	}
	_, err = fix.Solve([]fix.Line{a, b, exact}, fix.Options{})
	fixtest.Refused[*fix.Error](t, "stated zero", err)
	_, err = fix.Solve([]fix.Line{a, {}, b}, fix.Options{})
	fixtest.Refused[*fix.Error](t, "empty", err)
	if f := svSolve(t, slices.Repeat([]fix.Line{a, b}, 5000), fix.Options{Near: &svVessel}); f.DegreesOfFreedom() != 9998 {
		t.Errorf("%d degrees of freedom", f.DegreesOfFreedom())
	}
}

// A quantity of unstated uncertainty has the same weight as a latitude, for every unit and
// slope.
func TestUnstatedQuantityWeighsBySlope(t *testing.T) {
	off := fixtest.From(svVessel, 0, 900)
	for _, scale := range []float64{1e-6, 1, 1e6} {
		northing := func(p angle.Position) float64 { return scale * p.Latitude.Degrees() }
		f := svSolve(t, []fix.Line{
			angle.Must(fix.Latitude(svVessel.Latitude, 0)),
			angle.Must(fix.Latitude(svVessel.Latitude, 0)),
			angle.Must(fix.Longitude(svVessel.Longitude, 0)),
			angle.Must(fix.LineFromFunc("northing", "", northing, northing(off), 0)),
		}, fix.Options{Near: &svVessel})
		if d := fixtest.Apart(f.Position(), svVessel); math.Abs(d-300) > 1 { // a third of it; the slope is by 10 m either way
			t.Errorf("%v m off by %v a degree, want 300 m", d, scale)
		}
	}
	level := func(angle.Position) float64 { return 20 }
	_, err := fix.Solve([]fix.Line{angle.Must(fix.LineFromFunc("depth", "m", level, 20, 0)), angle.Must(fix.Latitude(svVessel.Latitude, 0))}, fix.Options{Near: &svVessel})
	fixtest.Refused[*fix.Error](t, "a level bottom", err)
}
