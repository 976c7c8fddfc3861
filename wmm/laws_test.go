package wmm_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

// A slowModel is the obvious way: the potential summed from its definition with
// textbook Legendre functions, and its gradient taken by differences.
type slowModel struct {
	degree int
	g, h   map[[2]int]float64
}

// potential is V in nT·km at geocentric r (km), latitude and longitude (radians).
func (s slowModel) potential(r, lat, lon float64) float64 {
	const a = 6371.2
	v := 0.0
	for n := 1; n <= s.degree; n++ {
		for m := 0; m <= n; m++ {
			p := schmidt(n, m, math.Sin(lat))
			v += a * math.Pow(a/r, float64(n+1)) * p *
				(s.g[[2]int{n, m}]*math.Cos(float64(m)*lon) + s.h[[2]int{n, m}]*math.Sin(float64(m)*lon))
		}
	}
	return v
}

// schmidt is the Schmidt semi-normalised associated Legendre function, by the
// explicit sum over powers of x.
func schmidt(n, m int, x float64) float64 {
	sum := 0.0
	for k := 0; 2*k <= n-m; k++ {
		term := math.Pow(x, float64(n-m-2*k))
		sign := 1.0
		if k%2 == 1 {
			sign = -1
		}
		a, _ := math.Lgamma(float64(2*n - 2*k + 1))
		b, _ := math.Lgamma(float64(k + 1))
		c, _ := math.Lgamma(float64(n - k + 1))
		d, _ := math.Lgamma(float64(n - m - 2*k + 1))
		sum += sign * term * math.Exp(a-b-c-d-float64(n)*math.Ln2)
	}
	p := math.Pow(1-x*x, float64(m)/2) * sum
	if m > 0 {
		a, _ := math.Lgamma(float64(n - m + 1))
		b, _ := math.Lgamma(float64(n + m + 1))
		p *= math.Sqrt(2 * math.Exp(a-b))
	}
	return p
}

// field is minus the gradient, turned to the vertical of the ellipsoid.
func (s slowModel) field(lat, lon, height float64) wmm.Field {
	const a, f = 6378.137, 1 / 298.257223563
	e2 := f * (2 - f)
	v := a / math.Sqrt(1-e2*math.Sin(lat)*math.Sin(lat))
	x, z := (v+height)*math.Cos(lat), (v*(1-e2)+height)*math.Sin(lat)
	r, geocentric := math.Hypot(x, z), math.Atan2(z, x)
	const d = 1e-5 // radians
	slope := func(f func(t float64) float64, step float64) float64 {
		return (8*(f(step)-f(-step)) - (f(2*step) - f(-2*step))) / (12 * step)
	}
	north := -slope(func(t float64) float64 { return s.potential(r, geocentric+t, lon) }, d*10) / r
	east := -slope(func(t float64) float64 { return s.potential(r, geocentric, lon+t) }, d*10) / (r * math.Cos(geocentric))
	down := slope(func(t float64) float64 { return s.potential(r+t, geocentric, lon) }, 1)
	turn := geocentric - lat
	return wmm.Field{
		X: north*math.Cos(turn) - down*math.Sin(turn),
		Y: east,
		Z: north*math.Sin(turn) + down*math.Cos(turn),
	}
}

// cof writes the model in the published layout.
func (s slowModel) cof() string {
	var b strings.Builder
	fmt.Fprintln(&b, "2025.0 INVENTED 11/13/2024")
	for n := 1; n <= s.degree; n++ {
		for m := 0; m <= n; m++ {
			k := [2]int{n, m}
			fmt.Fprintf(&b, "%d %d %g %g 0 0\n", n, m, s.g[k], s.h[k])
		}
	}
	fmt.Fprintln(&b, "999999999999")
	return b.String()
}

func TestFieldIsGradientOfPotential(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := slowModel{degree: rapid.IntRange(1, 9).Draw(t, "degree"), g: map[[2]int]float64{}, h: map[[2]int]float64{}}
		for n := 1; n <= s.degree; n++ {
			for m := 0; m <= n; m++ {
				s.g[[2]int{n, m}] = rapid.Float64Range(-1000, 1000).Draw(t, "g")
				if m > 0 {
					s.h[[2]int{n, m}] = rapid.Float64Range(-1000, 1000).Draw(t, "h")
				}
			}
		}
		m, err := wmm.ReadCOF(strings.NewReader(s.cof()))
		if err != nil {
			t.Fatal(err)
		}
		lat, lon := rapid.Float64Range(-85, 85).Draw(t, "lat"), rapid.Float64Range(-180, 180).Draw(t, "lon")
		height := rapid.Float64Range(-10_000, 500_000).Draw(t, "height")
		e, err := m.InYear(2025)
		if err != nil {
			t.Fatal(err)
		}
		got, err := e.Field(at(lat, lon), height)
		if err != nil {
			t.Fatal(err)
		}
		want := s.field(lat*math.Pi/180, lon*math.Pi/180, height/1000)
		// The differences are good to about 1e-4 nT of fields of 1e4 nT.
		if !nearField(got, want, 2e-3) {
			t.Fatalf("%+v, want %+v", got, want)
		}
	})
}

// A dipole along the axis has a closed form: 2 g cos θ (a/r)³ outward, and
// g sin θ (a/r)³ southward.
func TestADipoleAlongTheAxis(t *testing.T) {
	m := must(wmm.ReadCOF(strings.NewReader("2025.0 DIPOLE 11/13/2024\n1 0 -30000 0 0 0\n1 1 0 0 0 0\n999999\n")))(t)
	e := inYear(t, m, 2025)
	for _, tt := range []struct{ lat, x, z float64 }{
		{0, 30000 * math.Pow(6371.2/6378.137, 3), 0},
		{90, 0, 60000 * math.Pow(6371.2/(6378.137*(1-1/298.257223563)), 3)},
		{-90, 0, -60000 * math.Pow(6371.2/(6378.137*(1-1/298.257223563)), 3)},
	} {
		f := must(e.Field(at(tt.lat, 77), 0))(t)
		if !nearField(f, wmm.Field{X: tt.x, Z: tt.z}, 1e-9*30000) {
			t.Errorf("at %v: %+v, want X %v, Z %v", tt.lat, f, tt.x, tt.z)
		}
	}
}

func TestFieldAtPoles(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026)
	for _, pole := range []float64{90, -90} {
		zero := must(e.Field(at(pole, 0), 0))(t)
		for lon := -180.0; lon <= 180; lon += 7.5 {
			f := must(e.Field(at(pole, lon), 0))(t)
			sin, cos := degrees(lon).SinCos()
			if pole < 0 {
				sin = -sin
			}
			// At the north pole X points beyond it, away from the meridian.
			want := wmm.Field{X: zero.X*cos - zero.Y*sin, Y: zero.Y*cos + zero.X*sin, Z: zero.Z}
			if !nearField(f, want, 1e-8) {
				t.Errorf("at %v, %v: %+v, want %+v", pole, lon, f, want)
			}
			// And nothing jumps on the way there.
			near := must(e.Field(at(pole*(1-1e-9), lon), 0))(t)
			if !nearField(f, near, 1e-3) {
				t.Errorf("near %v, %v: %+v, want %+v", pole, lon, near, f)
			}
		}
	}
}

func TestFieldAndRatesHangTogether(t *testing.T) {
	m := wmm.WMM2025()
	early, late := inYear(t, m, 2026), inYear(t, m, 2028)
	rapid.Check(t, func(t *rapid.T) {
		p, height := anyPosition(t), anyHeight(t)
		f, r, err := early.FieldAndRates(p, height)
		alone, err2 := early.Field(p, height)
		then, err3 := late.Field(p, height)
		if err != nil || err2 != nil || err3 != nil {
			t.Fatal(err, err2, err3)
		}
		if !nearField(f, alone, 1e-9) {
			t.Fatalf("%+v alone, %+v with rates", alone, f)
		}
		if !nearField(then, wmm.Field{X: f.X + 2*r.X, Y: f.Y + 2*r.Y, Z: f.Z + 2*r.Z}, 1e-8) {
			t.Fatalf("%+v after two years, rates %+v", then, r)
		}
		west := p
		west.Longitude = angle.LongitudeFrom(p.Longitude.Angle() - angle.Turn)
		if again, _ := early.Field(west, height); again != alone {
			t.Fatalf("%+v once round the earth, %+v", again, alone)
		}
	})
}

func TestHeightsThatAreNone(t *testing.T) {
	e := inYear(t, wmm.WMM2025(), 2026)
	for _, height := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -15_001, 2_000_001} {
		_, err := e.Field(at(47, -19), height)
		_, _, err2 := e.FieldAndRates(at(47, -19), height)
		err3 := e.Rows(wmm.Grid{South: at(1, 0).Latitude, North: at(2, 0).Latitude, Width: degrees(2), LatitudeStep: degrees(1), LongitudeStep: degrees(1), HeightMetres: height}, func(wmm.Row) error { return nil })
		for _, err := range []error{err, err2, err3} {
			re, ok := err.(*angle.RangeError)
			if !ok || re.What != "height above the ellipsoid" || re.Accepted != "-15000 to 2000000 metres" || re.Value != height && !math.IsNaN(height) {
				t.Errorf("%v: %v", height, err)
			}
		}
	}
	if e.Model() != wmm.WMM2025() {
		t.Error("the model of an evaluator is not its own")
	}
}
