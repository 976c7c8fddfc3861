package fix_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

// vtMinutes returns an angle of some minutes of arc.
func vtMinutes(m float64) angle.Angle { return angle.Must(angle.Minutes(m)) }

// The rule of the books, the metres times 1.856 over the minutes of arc (common
// practice).
func TestVerticalAngleRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, m := rapid.Float64Range(5, 300).Draw(t, "height"), rapid.Float64Range(10, 200).Draw(t, "minutes")
		d, err := fix.DistanceByVerticalAngle(sailing.Distance(h), vtMinutes(m), 0)
		if want := 1.856 * h / m; err != nil || !fixtest.Near(d.NauticalMiles(), want, 0.0015*want) { // tan of 200′ is 0.11 % over the arc; the constant is rounded
			t.Fatalf("%v (%v), want %v", d, err, want)
		}
	})
	d, err := fix.DistanceByVerticalAngle(50, 45*angle.Degree, 3)
	if err != nil || !fixtest.Near(d.Metres(), 50, 1e-6) { // the nanosecond of arc
		t.Errorf("under 45° %v m (%v), want 50", d.Metres(), err)
	}
}

// vtExact returns the angle between the top of an object and the sea horizon, or the
// horizontal: for straight rays over the earth enlarged for refraction.
func vtExact(height, eye, distance float64, k fix.Refraction) (overHorizon, horizon float64) {
	r := hzRadius / (1 - float64(k))
	s, c := math.Sincos(distance / r)
	// (r + H) cos − (r + h), in a form without cancellation.
	up := height*c - eye - 2*r*math.Pow(math.Sin(distance/r/2), 2)
	dip := math.Atan(math.Sqrt(2*r*eye+eye*eye) / r)
	return math.Atan2(up, (r+height)*s) + dip, r * dip
}

func TestAngleAboveHorizonRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := fix.Refraction(rapid.SampledFrom([]float64{0, 0.13, 0.1728, 0.25}).Draw(t, "k"))
		eye := rapid.Float64Range(1, 40).Draw(t, "eye")
		height := eye + rapid.Float64Range(10, 1000).Draw(t, "height above the eye")
		_, near := vtExact(height, eye, 0, k)
		far := near + float64(hzHorizon(t, height, k))
		distance := near*1.002 + rapid.Float64Range(0, 1).Draw(t, "part")*(far*0.998-near*1.002)
		above, _ := vtExact(height, eye, distance, k)
		if above > 10*math.Pi/180 {
			t.Skip("steeper than is taken")
		}
		d, err := fix.DistanceByVerticalAngleBeyond(sailing.Distance(height), angle.Must(angle.Radians(above)), sailing.Distance(eye), k)
		if err != nil || !fixtest.Near(float64(d), distance, 0.001*distance) { // the formula leaves out what is of the order of d²/R²
			t.Fatalf("%v (%v), want %v", d.Metres(), err, distance)
		}
	})
}

func TestVerticalAnglesMeetAtHorizon(t *testing.T) {
	for _, eye := range []float64{2, 5, 15} {
		for _, height := range []float64{30, 100, 400} {
			_, at := vtExact(height, eye, 0, fix.HorizonTable)
			within, err := fix.DistanceByVerticalAngle(sailing.Distance(height), angle.Must(angle.Radians(math.Atan(height/(0.9999*at)))), sailing.Distance(eye))
			if err != nil {
				t.Fatal(err)
			}
			above, _ := vtExact(height, eye, 1.0001*at, fix.HorizonTable)
			beyond, err := fix.DistanceByVerticalAngleBeyond(sailing.Distance(height), angle.Must(angle.Radians(above)), sailing.Distance(eye), fix.HorizonTable)
			if err != nil {
				t.Fatal(err)
			}
			if !fixtest.Near(float64(beyond/within), 1, 0.002) { // 0.0002 between the places, and the plane of the one
				t.Errorf("%v m from %v m: %v and %v m", height, eye, within.Metres(), beyond.Metres())
			}
			// The same angle on both sides of the horizon gives one place.
			same, err := fix.DistanceByVerticalAngleBeyond(sailing.Distance(height), angle.Must(angle.Radians(math.Atan(height/(1.002*at)))), sailing.Distance(eye), fix.HorizonTable)
			if err != nil || !fixtest.Near(float64(same), 1.002*at, 0.002*at) { // the plane
				t.Errorf("%v m from %v m: %v m (%v), want %v", height, eye, same.Metres(), err, at)
			}
		}
	}
}

func TestInvalidVerticalAnglesAreRefused(t *testing.T) {
	for _, bad := range []angle.Angle{0, -angle.Minute, 90 * angle.Degree, 91 * angle.Degree} {
		_, err := fix.DistanceByVerticalAngle(50, bad, 3)
		hzRefused(t, "angle", err)
	}
	_, err := fix.DistanceByVerticalAngle(0, angle.Degree, 3)
	hzRefused(t, "no height", err)
	_, err = fix.DistanceByVerticalAngle(50, vtMinutes(10), 3)
	hzRefused(t, "beyond the horizon of 3 m", err)
	for _, bad := range []angle.Angle{-1, 10*angle.Degree + 1} {
		_, err = fix.DistanceByVerticalAngleBeyond(50, bad, 3, fix.HorizonTable)
		hzRefused(t, "angle beyond", err)
	}
	_, err = fix.DistanceByVerticalAngleBeyond(3, vtMinutes(4), 30, fix.HorizonTable)
	hzRefused(t, "too low to show there", err)
	// A beacon lower than the eye can also show over the horizon.
	if d, err := fix.DistanceByVerticalAngleBeyond(18, 0, 20, fix.HorizonTable); err != nil {
		t.Error(err)
	} else if most, err := fix.GeographicRange(18, 20, fix.HorizonTable); err != nil || (d-most).NauticalMiles() < -0.01 || (d-most).NauticalMiles() > 0.01 { // miles: level with the horizon it is at its geographic range
		t.Errorf("%v, geographic range %v, %v", d, most, err)
	}
	_, err = fix.DistanceByVerticalAngleBeyond(50, 2*angle.Degree, 3, fix.HorizonTable)
	hzRefused(t, "within the horizon", err)
}
