package sailing

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
)

// A Distance is a length in metres. Multiply a number by a unit: 12.5*NauticalMile.
type Distance float64

// Units of distance. A cable is a tenth of a nautical mile.
const (
	Metre        Distance = 1
	NauticalMile Distance = 1852
	Cable        Distance = 185.2
)

// NauticalMiles returns the distance in nautical miles.
func (d Distance) NauticalMiles() float64 { return float64(d / NauticalMile) }

// Metres returns the distance in metres.
func (d Distance) Metres() float64 { return float64(d) }

// String returns the distance in nautical miles: to a tenth, 12.5 M, or below a mile to a
// hundredth, 0.42 M. M is the symbol of charts (INT 1).
func (d Distance) String() string {
	switch miles := d.NauticalMiles(); {
	case math.Abs(miles) < 0.005:
		return "0.00 M" // never -0.00
	case math.Abs(miles) < 0.995:
		return fmt.Sprintf("%.2f M", miles)
	default:
		return fmt.Sprintf("%.1f M", miles)
	}
}

// TimeAt returns the time that the distance takes at a speed. The speed must be above zero and
// below 1000 knots, the distance not below zero, and the time at most 100 years. Otherwise it
// returns an [*angle.RangeError].
func (d Distance) TimeAt(speed Speed) (time.Duration, error) {
	seconds := float64(d) / float64(speed)
	switch {
	case !(speed > 0 && speed < fastest):
		return 0, &angle.RangeError{What: "speed", Value: speed.Knots(), Accepted: "knots above 0, below 1000"}
	case !(d >= 0) || !(seconds <= longest.Seconds()):
		return 0, &angle.RangeError{What: "distance", Value: d.NauticalMiles(), Accepted: "nautical miles from 0, covered within 100 years"}
	}
	return time.Duration(math.Round(seconds * float64(time.Second))), nil
}

// fastest is a speed that no vessel reaches.
const fastest = 1000 * Knot

// longest is the longest time of a distance.
const longest = 100 * 365 * 24 * time.Hour

// A Speed is in metres per second. Multiply a number by a unit: 6*Knot.
type Speed float64

// Knot is a nautical mile per hour.
const Knot Speed = 1852.0 / 3600

// Knots returns the speed in knots.
func (s Speed) Knots() float64 { return float64(s / Knot) }

// String returns the speed in knots to a tenth: 6.0 kn.
func (s Speed) String() string {
	if math.Abs(s.Knots()) < 0.05 {
		return "0.0 kn" // never -0.0
	}
	return fmt.Sprintf("%.1f kn", s.Knots())
}

// For returns the distance covered in a time: 6 knots for 20 minutes is 2 miles.
func (s Speed) For(t time.Duration) Distance { return Distance(float64(s) * t.Seconds()) }
