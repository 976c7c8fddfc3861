package variation

import "lubberline.example/angle"

// A Rose is the variation printed at a chart's compass rose: its value in a year, and its
// annual change. [ParseLegend] reads one; [Rose.InYear] and [Rose.On] bring it up to date.
//
// The zero value is not a valid rose, since its year is 0.
type Rose struct {
	// Variation is the variation in Year, east positive. If its uncertainty is stated, it
	// does not include the rounding of the printed figure, which follows from Step.
	Variation Variation `json:"variation"`

	// Year is the year printed at the rose, from 1500 to 2500.
	Year int `json:"year"`

	// Change is the annual change printed at the rose. The zero value is a change that is
	// not stated: the variation is then used unchanged, and its uncertainty in other years
	// is unknown. A rose that says there is no change has [NoChange].
	Change AnnualChange `json:"change"`

	// Step is one unit of the last figure printed: a minute for 4°15′W. If it is 0, the
	// figure is exact. Its sign has no effect.
	Step angle.Angle `json:"step"`

	// ChangeStep is the same for the annual change: a minute for 8′E. If the change is 0
	// and ChangeStep is not, the rose printed the figure 0, as in (0′E).
	ChangeStep angle.Angle `json:"changeStep"`
}

// The first and last year of a compass rose.
const (
	firstYear = 1500
	lastYear  = 2500
)

// An AnnualChange is the change of the variation in a year, east positive. The zero value is
// a change that is not stated. A change of zero is [NoChange], which equals Eastward(0).
type AnnualChange struct {
	change angle.EastWest
	stated bool
}

// NoChange returns the annual change of a rose that says there is no change.
func NoChange() AnnualChange { return AnnualChange{stated: true} }

// Eastward returns an annual change to the east: westerly variation decreases. A negative change is
// to the west, and one beyond 180° is normalized.
func Eastward(perYear angle.Angle) AnnualChange {
	return AnnualChange{angle.EastWestFrom(perYear), true}
}

// Westward returns an annual change to the west: westerly variation increases. A negative change is
// to the east, and one beyond 180° is normalized.
func Westward(perYear angle.Angle) AnnualChange { return Eastward(-perYear) }

// PerYear returns the change in a year, east positive, and whether it is stated.
func (c AnnualChange) PerYear() (angle.Angle, bool) { return c.change.Angle(), c.stated }

// Uncertainty returns the uncertainty of the change, without the rounding of the printed
// figure.
func (c AnnualChange) Uncertainty() angle.Uncertainty { return c.change.Uncertainty() }

// WithUncertainty returns the same change with another uncertainty.
func (c AnnualChange) WithUncertainty(u angle.Uncertainty) AnnualChange {
	c.change = c.change.WithUncertainty(u)
	return c
}

// Equal reports whether two changes and their uncertainties are the same, as == does.
func (c AnnualChange) Equal(d AnnualChange) bool { return c == d }

// String returns the change as charts print it, to a tenth of a minute: "8′E", "no annual
// change" or "not stated".
func (c AnnualChange) String() string {
	switch {
	case !c.stated:
		return "not stated"
	case c.change.Angle() == 0:
		return "no annual change"
	}
	return string(appendBrief(nil, c.change.Angle().Abs().Round(angle.Minute/10), 0)) + c.change.Name()
}

// AppendText appends the exact change: 0°08′E, with its uncertainty if that is stated, or
// "no annual change". If the change is not stated, it appends nothing.
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
