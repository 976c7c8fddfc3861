package sailing_test

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"pgregory.net/rapid"
)

func TestEllipseCoverage(t *testing.T) {
	random := rand.New(rand.NewPCG(47, 19))
	for _, c := range []struct {
		direction     float64
		along, across sailing.Distance
	}{{0, 300, 100}, {35, 800, 200}, {120, 50, 400}, {90, 70, 70}} {
		direction := course(c.direction)
		for _, probability := range []float64{0.5, 0.95} {
			e, err := sailing.Oriented(direction, c.along, c.across).Ellipse(probability)
			if err != nil {
				t.Fatal(err)
			}
			const n = 20000
			inside := 0
			for range n {
				a, b := random.NormFloat64()*float64(c.along), random.NormFloat64()*float64(c.across)
				s, k := direction.FromNorth().SinCos()
				north, east := a*k-b*s, a*s+b*k
				s, k = e.MajorAxis.FromNorth().SinCos()
				x, y := (north*k+east*s)/float64(e.SemiMajor), (east*k-north*s)/float64(e.SemiMinor)
				if x*x+y*y <= 1 {
					inside++
				}
			}
			// Four standard deviations of the count.
			if off := math.Abs(float64(inside)/n - probability); off > 4*math.Sqrt(probability*(1-probability)/n) {
				t.Errorf("%v: %d of %d are inside, want %v", c, inside, n, probability)
			}
		}
	}
}

// toward is a standard uncertainty that is stated, or NaN.
func toward(c sailing.Covariance, direction angle.True) sailing.Distance {
	sigma, stated := c.Along(direction).Sigma()
	if !stated {
		return sailing.Distance(math.NaN())
	}
	return sigma
}

func drawCovariance(t *rapid.T) (sailing.Covariance, angle.True, sailing.Distance, sailing.Distance) {
	direction := drawCourse(t)
	along := sailing.Distance(rapid.Float64Range(0, 1000).Draw(t, "along"))
	across := sailing.Distance(rapid.Float64Range(0, 1000).Draw(t, "across"))
	return sailing.Oriented(direction, along, across), direction, along, across
}

func TestOrientedSizes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, direction, along, across := drawCovariance(t)
		// The root of a difference of 1e6 m² that is good to 1e-10.
		if got := toward(c, direction); !near(got, along, 1e-4) {
			t.Fatalf("along %v m, want %v", got.Metres(), along.Metres())
		}
		if got := toward(c, angle.TrueFrom(direction.FromNorth()+90*deg)); !near(got, across, 1e-4) {
			t.Fatalf("across %v m, want %v", got.Metres(), across.Metres())
		}
		e, err := c.Ellipse(1 - math.Exp(-0.5))                                                                         // one standard deviation
		if err != nil || !near(e.SemiMajor, max(along, across), 1e-4) || !near(e.SemiMinor, min(along, across), 1e-4) { // likewise
			t.Fatalf("%+v, %v", e, err)
		}
		if e.MajorAxis.FromNorth() >= 180*deg {
			t.Fatalf("major axis %v", e.MajorAxis)
		}
		if got := toward(c, e.MajorAxis); !near(got, e.SemiMajor, 1e-4) { // likewise
			t.Fatalf("along the major axis %v, want %v", got, e.SemiMajor)
		}
	})
}

func TestCovarianceTurns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, direction, along, across := drawCovariance(t)
		by, look := drawAngle(0, 360*deg).Draw(t, "by"), drawCourse(t)
		d := sailing.Oriented(angle.TrueFrom(direction.FromNorth()+by), along, across)
		if a, b := toward(c, look), toward(d, angle.TrueFrom(look.FromNorth()+by)); !near(a, b, 1e-4) { // as above
			t.Fatalf("%v m and %v m", a.Metres(), b.Metres())
		}
		if a, b := sailing.Oriented(direction.Reciprocal(), along, across), c; math.Abs(a.Both-b.Both) > 1e-9 || math.Abs(a.North-b.North) > 1e-9 { // units of float64
			t.Fatalf("reversed %v, want %v", a, b)
		}
	})
}

func TestVariancesAdd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, _, _, _ := drawCovariance(t)
		b, _, _, _ := drawCovariance(t)
		look := drawCourse(t)
		square := func(d sailing.Distance) float64 { return float64(d * d) }
		if got, want := square(toward(a.Plus(b), look)), square(toward(a, look))+square(toward(b, look)); math.Abs(got-want) > 1e-7 { // of 2e6
			t.Fatalf("%v, want %v", got, want)
		}
	})
	if got := sailing.Circular(3).Plus(sailing.Circular(4)); got != sailing.Circular(5) {
		t.Error(got)
	}
	e, err := sailing.Exactly().Ellipse(0.95)
	if err != nil || e != (sailing.Ellipse{Probability: 0.95}) {
		t.Errorf("known exactly: %+v, %v", e, err)
	}
}

func TestInvalidProbabilitiesAreRefused(t *testing.T) {
	for _, p := range []float64{0, 1, -0.5, 95, math.NaN()} {
		_, err := sailing.Circular(1).Ellipse(p)
		refused[*angle.RangeError](t, "probability", err)
	}
}

func TestInvalidCovarianceIsRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []sailing.Covariance{{North: 4, East: 4, Both: nan}, {North: 4, East: 4, Both: inf}, {North: 4, East: 4, Both: -inf}, {North: inf, East: 4}, {North: nan, East: 4}, {North: -1, East: 4}, {North: 4, East: -1}} {
		_, err := c.Ellipse(0.95)
		refused[*angle.RangeError](t, fmt.Sprint(c.North, c.East, c.Both), err)
	}
}

func TestZeroCovarianceIsStated(t *testing.T) {
	var none sailing.Covariance
	for _, c := range []sailing.Covariance{sailing.Exactly(), sailing.Circular(0), sailing.Oriented(course(30), 0, 0), sailing.Circular(0).Plus(sailing.Exactly())} {
		if !c.Stated() || c != sailing.Exactly() || !c.Equal(sailing.Exactly()) || c.Equal(none) || c.String() == none.String() {
			t.Errorf("%+v: want it stated", c)
		}
	}
	known := sailing.Circular(20)
	if none.Stated() || none.Plus(known).Stated() || known.Plus(none).Stated() || none.Plus(none).Stated() || !(sailing.Covariance{North: 4, East: 4}).Stated() {
		t.Error("not stated does not spread")
	}
	if known.Plus(sailing.Exactly()) != known {
		t.Error("exactly adds something")
	}
	if _, stated := none.Along(course(0)).Sigma(); stated {
		t.Error("stated along 000°")
	}
	_, err := none.Ellipse(0.95)
	refusedAs(t, "ellipse", sailing.NotStated, err)
	if got := none.String() + "; " + sailing.Oriented(course(0), 20, 30).String(); got != "not stated; ±0.011 M north, ±0.016 M east" {
		t.Error(got)
	}
}

func TestAlongIsNeverNaN(t *testing.T) {
	for _, c := range []sailing.Covariance{
		{North: math.NaN(), East: 1}, {North: 1, East: math.Inf(1)}, {North: 1, East: 1, Both: math.NaN()},
		{North: 1, East: 1, Both: math.Inf(-1)}, {North: -1, East: 4}, {North: math.MaxFloat64, East: math.MaxFloat64, Both: math.MaxFloat64},
	} {
		for _, degrees := range []float64{0, 45, 90, 200} {
			if sigma, stated := c.Along(course(degrees)).Sigma(); stated && !(sigma >= 0 && sigma <= math.MaxFloat64) || stated && c.North < 0 {
				t.Errorf("%+v along %v°: %v", c, degrees, sigma)
			}
		}
	}
}

func TestCovarianceJSONRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.OneOf(rapid.Just(sailing.Covariance{}), rapid.Just(sailing.Exactly()), rapid.Custom(func(t *rapid.T) sailing.Covariance {
			c, _, _, _ := drawCovariance(t)
			return c
		})).Draw(t, "c")
		data, err := json.Marshal(struct{ C sailing.Covariance }{c})
		if err != nil {
			t.Fatal(err)
		}
		back := struct{ C sailing.Covariance }{sailing.Circular(1)}
		if err := json.Unmarshal(data, &back); err != nil || back.C != c {
			t.Fatalf("%s: %+v, %v; want %+v", data, back, err, c)
		}
	})
	var c sailing.Covariance
	refused[*angle.ParseError](t, "half of one", json.Unmarshal([]byte(`{"northSquareMetres":1}`), &c))
	if err := json.Unmarshal([]byte(`[1]`), &c); err == nil {
		t.Error("read an array")
	}
}
