package adjust

import (
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/ask"
	"lubberline.example/deviation/internal/say"
)

// A Limit is the residual deviation that an authority allows on any heading after a compass
// was adjusted. The vessel's own authority decides which holds; see [FlagStateLimit] for
// what several print.
//
// It is a limit on deviations, not on coefficients. Do not use the figure of 720/H degrees, with H
// the horizontal field in microtesla, as a limit on the vessel. It is the least part of B and of C
// that the correctors of a binnacle must be able to remove (ISO/DIS 25862, draft of 2006, 5.1.2 and
// 5.2.2.2).
type Limit struct {
	Max       angle.Angle `json:"max"`       // either way, above 0° and up to 90°
	Authority string      `json:"authority"` // who sets it, and where it is printed
}

// FlagStateLimit returns the limit of 5° on any heading. The Republic of the Marshall
// Islands prints it in Marine Notice 2-011-32 (June 2009), 1.1 and 2.1; Australia is
// reported to ask for an adjustment above the same figure. Both were read in copies.
func FlagStateLimit() Limit {
	return Limit{Max: 5 * angle.Degree, Authority: "Republic of the Marshall Islands, Marine Notice 2-011-32 (June 2009), 2.1; other flag states may differ"}
}

// Remark finds the largest deviation of a source, looked for on every whole degree by
// compass, and compares it with the limit. The step has the key "largest deviation"; its
// number is the deviation in degrees, east positive.
//
// If the limit is not above 0° and at most 90°, it returns an [*angle.RangeError]. If the limit
// names no authority, it returns an [*angle.ParseError]. If the source is nil, it returns a
// [*lubberline.example/variation.MissingInputError]. An error of the source is returned as it is.
func (l Limit) Remark(source deviation.Source) (working.Step, error) {
	switch {
	case l.Max <= 0 || l.Max > deviation.MaxDeviation:
		return working.Step{}, &angle.RangeError{What: "limit on deviations", Value: l.Max.Degrees(), Accepted: "above 0 to 90 degrees"}
	case strings.TrimSpace(l.Authority) == "":
		return working.Step{}, &angle.ParseError{What: "authority of a limit", Input: l.Authority, Kind: angle.Empty, Want: "who sets the limit, and where it is printed"}
	case ask.IsNil(source):
		return working.Step{}, ask.ErrNoSource
	}
	most, on, err := largest(source)
	if err != nil {
		return working.Step{}, err
	}
	step := working.Step{
		Key: "largest deviation", What: "Largest deviation", Value: say.Tenths(most.WithUncertainty(angle.Uncertainty{}).EastWest), Number: most.Angle().Degrees(), Unit: working.DegreesEast,
	}.Because("largest-deviation-on", "on %v", on)
	if most.Angle().Abs() > l.Max {
		return step.Because("limit-exceeded", "MORE than the %.3g° allowed on any heading (%s)", l.Max.Degrees(), l.Authority), nil
	}
	return step.Because("limit-held", "within the %.3g° allowed on any heading (%s)", l.Max.Degrees(), l.Authority), nil
}
