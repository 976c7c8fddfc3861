package wmm_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/wmm"
)

// A gauss is a model for sums by the textbook: g, h, and their rates, by degree
// and order.
type gauss struct {
	degree int
	c      map[[2]int][4]float64
}

// on writes the model in the published layout, reads it, and prepares it.
func (k gauss) on(t testing.TB, year float64) *wmm.Evaluator {
	t.Helper()
	var b strings.Builder
	b.WriteString("2025.0 RANDOM\n")
	for n := 1; n <= k.degree; n++ {
		for m := 0; m <= n; m++ {
			v := k.c[[2]int{n, m}]
			fmt.Fprintln(&b, n, m, v[0], v[1], v[2], v[3])
		}
	}
	return inYear(t, must(wmm.ReadCOF(strings.NewReader(b.String()+nines)))(t), year)
}

// anyGauss draws a model, its coefficients falling off with the degree as those
// of the earth do.
func anyGauss(t *rapid.T, most int) gauss {
	k := gauss{rapid.IntRange(1, most).Draw(t, "degree"), map[[2]int][4]float64{}}
	for n := 1; n <= k.degree; n++ {
		size := 30000 * math.Pow(0.5, float64(n-1))
		draw := func(size float64) float64 {
			return math.Round(rapid.Float64Range(-size, size).Draw(t, "coefficient")*10) / 10
		}
		for m := 0; m <= n; m++ {
			v := [4]float64{draw(size), 0, draw(size / 300), 0}
			if m > 0 {
				v[1], v[3] = draw(size), draw(size/300)
			}
			k.c[[2]int{n, m}] = v
		}
	}
	return k
}

// legendre returns P(n,m)(cos θ) by Schmidt and its derivative by θ, as the
// textbook has them: the associated functions up from P(m,m) = (2m−1)!! sin^m θ,
// their derivative from sin θ P′(n,m) = n cos θ P(n,m) − (n+m) P(n−1,m), and last
// Schmidt's factor √(2 (n−m)!/(n+m)!). Not to be asked at a pole.
func legendre(n, m int, theta float64) (p, slope float64) {
	sin, cos := math.Sincos(theta)
	last, this := 0.0, 1.0
	for i := 1; i <= m; i++ {
		this *= float64(2*i-1) * sin
	}
	for i := m + 1; i <= n; i++ {
		last, this = this, (float64(2*i-1)*cos*this-float64(i+m-1)*last)/float64(i-m)
	}
	slope = (float64(n)*cos*this - float64(n+m)*last) / sin
	factor := 1.0
	if m > 0 {
		factor = 2
		for i := n - m + 1; i <= n+m; i++ {
			factor /= float64(i)
		}
	}
	factor = math.Sqrt(factor)
	return this * factor, slope * factor
}

// geocentric returns a place on or above the ellipsoid, from its semi-axes: the
// distance from the axis and the height above the plane of the equator, in km.
func geocentric(phi, metres float64) (out, up float64) {
	const a, b = 6378.137, 6378.137 * (1 - 1/298.257223563)
	sin, cos := math.Sincos(phi)
	curve := math.Hypot(a*cos, b*sin)
	return (a*a/curve + metres/1000) * cos, (b*b/curve + metres/1000) * sin
}

// field is the field by the formulas as they stand, some years after the epoch.
func (k gauss) field(lat, lon, metres, years float64) wmm.Field {
	phi, lambda := lat*math.Pi/180, lon*math.Pi/180
	out, up := geocentric(phi, metres)
	r, theta := math.Hypot(out, up), math.Atan2(out, up)
	var north, east, down float64
	for n := 1; n <= k.degree; n++ {
		power := math.Pow(6371.2/r, float64(n+2))
		for m := 0; m <= n; m++ {
			v := k.c[[2]int{n, m}]
			g, h := v[0]+years*v[2], v[1]+years*v[3]
			p, slope := legendre(n, m, theta)
			sin, cos := math.Sincos(float64(m) * lambda)
			north += power * (g*cos + h*sin) * slope
			east += power * float64(m) * (g*sin - h*cos) * p / math.Sin(theta)
			down -= power * float64(n+1) * (g*cos + h*sin) * p
		}
	}
	sin, cos := math.Sincos(phi - (math.Pi/2 - theta)) // geodetic less geocentric
	return wmm.Field{X: north*cos + down*sin, Y: east, Z: down*cos - north*sin}
}

// The fast sums are those of the textbook, the rates too.
func TestTheFieldIsTheTextbooks(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		k := anyGauss(rt, 20)
		lat, lon := rapid.Float64Range(-89, 89).Draw(rt, "latitude"), rapid.Float64Range(-180, 180).Draw(rt, "longitude")
		height, year := anyHeight(rt), rapid.Float64Range(2025, 2030).Draw(rt, "year")
		f, r, err := k.on(t, year).FieldAndRates(at(lat, lon), height)
		if err != nil {
			rt.Fatal(err)
		}
		if want := k.field(lat, lon, height, year-2025); !nearField(f, want, 1e-6) {
			rt.Errorf("%v, want %v", f, want)
		}
		a, b := k.field(lat, lon, height, 0), k.field(lat, lon, height, 1)
		if want := (wmm.Field{X: b.X - a.X, Y: b.Y - a.Y, Z: b.Z - a.Z}); !nearField(wmm.Field(r), want, 1e-6) {
			rt.Errorf("rates %v, want %v", r, want)
		}
	})
}

// Of a dipole along the axis there is a closed form: everywhere, minus the
// gradient of g R³ up / r³.
func TestADipoleAtAnyPlace(t *testing.T) {
	const g = -30000
	e := gauss{1, map[[2]int][4]float64{{1, 0}: {g}}}.on(t, 2025)
	rapid.Check(t, func(t *rapid.T) {
		p, height := anyPosition(t), anyHeight(t)
		lat, _ := p.Degrees()
		out, up := geocentric(lat*math.Pi/180, height)
		r := math.Hypot(out, up)
		c := g * math.Pow(6371.2/r, 3)
		fieldOut, fieldUp := 3*c*up*out/(r*r), c*(3*up*up/(r*r)-1)
		sin, cos := math.Sincos(lat * math.Pi / 180)
		want := wmm.Field{X: fieldUp*cos - fieldOut*sin, Z: -fieldUp*sin - fieldOut*cos}
		f, err := e.Field(p, height)
		if err != nil || !nearField(f, want, 1e-7) {
			t.Errorf("%v, %v: want %v", f, err, want)
		}
	})
}

// The field of the sum of two models is the sum of their fields, at the poles too.
func TestTheFieldIsLinear(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		a, b := anyGauss(rt, 8), anyGauss(rt, 8)
		factor := math.Round(rapid.Float64Range(-2, 2).Draw(rt, "factor")*8) / 8
		sum := gauss{max(a.degree, b.degree), map[[2]int][4]float64{}}
		for n := 1; n <= sum.degree; n++ {
			for m := 0; m <= n; m++ {
				i := [2]int{n, m}
				v, w := a.c[i], b.c[i]
				for j := range v {
					v[j] += factor * w[j]
				}
				sum.c[i] = v
			}
		}
		p, height := anyPosition(rt), anyHeight(rt)
		field := func(k gauss) wmm.Field { return must(k.on(t, 2027.25).Field(p, height))(t) }
		f, g, got := field(a), field(b), field(sum)
		if want := (wmm.Field{X: f.X + factor*g.X, Y: f.Y + factor*g.Y, Z: f.Z + factor*g.Z}); !nearField(got, want, 1e-7) {
			rt.Errorf("%v, want %v", got, want)
		}
	})
}

// Nearby places have nearly the same field, near the poles too. It changes by under
// 10,000 nT a degree, and X and Y turn with the meridian.
func TestTheFieldIsContinuous(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026)
	rapid.Check(t, func(t *rapid.T) {
		lat := rapid.SampledFrom([]float64{-1, 1}).Draw(t, "pole") * (90 - math.Pow(10, rapid.Float64Range(-9, 1).Draw(t, "off")))
		lon := rapid.Float64Range(-180, 180).Draw(t, "longitude")
		const step = 1e-6
		f, err := e.Field(at(lat, lon), 0)
		g, err2 := e.Field(at(lat-math.Copysign(step, lat), lon), 0)
		h, err3 := e.Field(at(lat, lon+step), 0)
		if err != nil || err2 != nil || err3 != nil || !nearField(f, g, 0.01) || !nearField(f, h, 0.01) {
			t.Errorf("%v, %v, %v", f, g, h)
		}
	})
	// The date line has two names and one field.
	for lat := -90.0; lat <= 90; lat += 15 {
		if a, b := must(e.Field(at(lat, 180), 0))(t), must(e.Field(at(lat, -180), 0))(t); a != b {
			t.Errorf("%v: %v and %v", lat, a, b)
		}
	}
}

// As a source of variation each model gives the D of its evaluator. The rates of H,
// F, D and I agree with difference quotients.
func TestSourcesAgreeWithField(t *testing.T) {
	set := wmm.Models()
	rapid.Check(t, func(rt *rapid.T) {
		year, p, height := rapid.Float64Range(2015, 2029.9).Draw(rt, "year"), anyPosition(rt), anyHeight(rt)
		checkVariation(t, set, year, p)
		f, r, err := must(set.InYear(year))(t).FieldAndRates(p, height)
		if err != nil {
			rt.Fatal(err)
		}
		if f.H() < 1000 {
			return
		}
		// The quotient loses eight digits of 60,000 nT, and is of the first order.
		const dt = 1e-4
		next := wmm.Field{X: f.X + dt*r.X, Y: f.Y + dt*r.Y, Z: f.Z + dt*r.Z}
		if !near((next.H()-f.H())/dt, r.H(f), 5e-3) || !near((next.F()-f.F())/dt, r.F(f), 5e-3) {
			rt.Errorf("H %v, F %v", r.H(f), r.F(f))
		}
		d := func(f wmm.Field) float64 { return math.Atan2(f.Y, f.X) * 180 / math.Pi }
		i := func(f wmm.Field) float64 { return math.Atan2(f.Z, math.Hypot(f.X, f.Y)) * 180 / math.Pi }
		if !near(math.Remainder(d(next)-d(f), 360)/dt, r.D(f), 1e-3) || !near((i(next)-i(f))/dt, r.I(f), 1e-4) {
			rt.Errorf("D %v, I %v", r.D(f), r.I(f))
		}
	})
}
