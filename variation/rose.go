package variation

import "lubberline.example/angle"

// A Rose is what a chart's compass rose says of the variation: how much it was
// in a year, and how it changes. [ParseLegend] reads one; [Rose.InYear] and
// [Rose.On] bring it up to date.
//
// The zero value is no rose: its year, 0, is refused with a [*YearError].
type Rose struct {
	// Variation is the variation in Year, east positive; the zero value is
	// nought. If its uncertainty is stated, that is how well the figure itself
	// was known; the rounding of the print comes on top, from Step.
	Variation Variation `json:"variation"`

	// Year is the year printed at the rose, from 1500 to 2500.
	Year int `json:"year"`

	// Change is the annual change printed at the rose. The zero value is a
	// change that is not stated, which is not one of nought: the variation is
	// then used as it stands, its uncertainty not stated in other years. A rose
	// that says there is no change has [NoChange].
	Change AnnualChange `json:"change"`

	// Step is one unit of the last figure printed: a minute for 4°15′W. It is
	// 0 where that is not known, and then counts as exact. Its sign does not
	// matter.
	Step angle.Angle `json:"step"`

	// ChangeStep is the same for the annual change: a minute for 8′E. Where the
	// change is 0 and ChangeStep is not, the rose printed a figure of nought
	// (0′E), and is known so well.
	ChangeStep angle.Angle `json:"changeStep"`
}

// The years in which a compass rose can have been printed.
const (
	firstYear = 1500
	lastYear  = 2500
)

// An AnnualChange is how the variation moves in a year, east positive, or the
// fact that it is not stated, which is the zero value. A change of nought is
// [NoChange]: the same as Eastward(0), a claim with no error but the print's.
type AnnualChange struct {
	change angle.EastWest
	stated bool
}

// NoChange returns the annual change of a rose that says there is none.
func NoChange() AnnualChange { return AnnualChange{stated: true} }

// Eastward returns an annual change to the east: westerly variation decreases.
func Eastward(perYear angle.Angle) AnnualChange {
	return AnnualChange{angle.EastWestFrom(perYear), true}
}

// Westward returns an annual change to the west: westerly variation increases.
func Westward(perYear angle.Angle) AnnualChange { return Eastward(-perYear) }

// PerYear returns the change in a year, east positive, and whether it is stated.
func (c AnnualChange) PerYear() (angle.Angle, bool) { return c.change.Angle(), c.stated }

// Uncertainty returns how well the change itself is known, apart from the
// rounding of the print.
func (c AnnualChange) Uncertainty() angle.Uncertainty { return c.change.Uncertainty() }

// WithUncertainty returns the same change, known as well as given.
func (c AnnualChange) WithUncertainty(u angle.Uncertainty) AnnualChange {
	c.change = c.change.WithUncertainty(u)
	return c
}

// Equal reports whether two changes are the same; it is the same as ==.
func (c AnnualChange) Equal(d AnnualChange) bool { return c == d }

// String returns the change as charts print it, to a tenth of a minute: 8′E, no
// annual change. A change not stated is "not stated".
func (c AnnualChange) String() string {
	switch {
	case !c.stated:
		return "not stated"
	case c.change.Angle() == 0:
		return "no annual change"
	}
	return string(appendBrief(nil, c.change.Angle().Abs().Round(angle.Minute/10), 0)) + c.change.Name()
}

// AppendText appends the exact change: 0°08′E, with its uncertainty if that is
// stated, or "no annual change", or nothing if the change is not stated.
func (c AnnualChange) AppendText(b []byte) ([]byte, error) {
	switch {
	case !c.stated:
		return b, nil
	case c == NoChange():
		return append(b, "no annual change"...), nil
	}
	return c.change.AppendText(b)
}

// MarshalText returns the exact text of [AnnualChange.AppendText].
func (c AnnualChange) MarshalText() ([]byte, error) { return c.AppendText(nil) }

// UnmarshalText reads what [AnnualChange.MarshalText] writes.
func (c *AnnualChange) UnmarshalText(text []byte) error {
	switch string(text) {
	case "":
		*c = AnnualChange{}
		return nil
	case "no annual change":
		*c = NoChange()
		return nil
	}
	var d AnnualChange
	err := d.change.UnmarshalText(text)
	if err == nil {
		d.stated = true
		*c = d
	}
	return err
}
