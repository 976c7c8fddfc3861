package danger

import (
	"math"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// A Bound says on which side of a limit the vessel is safe.
type Bound string

// The bounds.
const (
	NotLessThan Bound = "not-less-than"
	NotMoreThan Bound = "not-more-than"
)

// words returns the bound as it is written in a sentence.
func (b Bound) words() string { return strings.ReplaceAll(string(b), "-", " ") }

// hand returns on which hand of the limit a mark must be seen.
func (b Bound) hand() string {
	if b == NotMoreThan {
		return "left"
	}
	return "right"
}

// safely rounds a limit to a unit, to the safe side.
func (b Bound) safely(a, unit angle.Angle) angle.Angle {
	rounded := a.Round(unit)
	switch {
	case b == NotMoreThan && rounded > a:
		return rounded - unit
	case b == NotLessThan && rounded < a:
		return rounded + unit
	}
	return rounded
}

// clear reports whether a value is on the safe side. off is the value minus the limit. If the
// bound is invalid, no value is.
func (b Bound) clear(off angle.Angle) bool {
	return b == NotLessThan && off >= 0 || b == NotMoreThan && off <= 0
}

// A Pass says on which side of a danger the vessel passes.
type Pass string

// The two sides.
const (
	Outside Pass = "outside" // farther off than the danger, which lies between the vessel and the marks
	Inside  Pass = "inside"  // between the marks and the danger
)

// bound returns on which side of a danger angle the vessel is safe.
func (p Pass) bound() (Bound, error) {
	switch p {
	case Outside:
		return NotMoreThan, nil
	case Inside:
		return NotLessThan, nil
	}
	kind := angle.UnknownWord
	if p == "" {
		kind = angle.Empty
	}
	return "", &angle.ParseError{What: "side to pass on", Input: string(p), Kind: kind, Want: "outside or inside"}
}

// checkMargin refuses a margin that is not a distance above zero.
func checkMargin(margin sailing.Distance) error {
	if !(margin > 0) || math.IsInf(float64(margin), 0) {
		return &angle.RangeError{What: "margin in nautical miles", Value: margin.NauticalMiles(), Accepted: "above 0"}
	}
	return nil
}
