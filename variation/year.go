package variation

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"lubberline.example/angle"
)

// DecimalYear returns a time as a year and its decimals, in UTC: the middle of
// 2 July 2025 is 2025.5. Leap years are counted as they are. It is the one
// place where the module turns a time into years.
func DecimalYear(t time.Time) float64 {
	t = t.UTC()
	year := t.Year()
	start := time.Date(year, time.January, 1, 0, 0, 0, 0, time.UTC)
	end := time.Date(year+1, time.January, 1, 0, 0, 0, 0, time.UTC)
	return float64(year) + t.Sub(start).Seconds()/end.Sub(start).Seconds()
}

// A YearCount is how the years from a rose to a date are counted. The zero value is
// WholeYears.
type YearCount int

const (
	// WholeYears counts calendar years, the way of the trade: any day of 2026
	// is 12 years after 2014.
	WholeYears YearCount = iota

	// DecimalYears counts from the beginning of the rose's year to the date:
	// the middle of 2 July 2026 is about 12.5 years after 2014.
	DecimalYears
)

// String returns "whole years" or "decimal years".
func (c YearCount) String() string {
	switch c {
	case WholeYears:
		return "whole years"
	case DecimalYears:
		return "decimal years"
	}
	return "YearCount(" + strconv.Itoa(int(c)) + ")"
}

// check refuses what is no count.
func (c YearCount) check() error {
	if c != WholeYears && c != DecimalYears {
		return &angle.RangeError{What: "count of years", Value: float64(c), Accepted: "WholeYears (0) or DecimalYears (1)"}
	}
	return nil
}

// AppendText appends what [YearCount.String] returns. It refuses what is no count
// with an [*angle.RangeError].
func (c YearCount) AppendText(b []byte) ([]byte, error) {
	if err := c.check(); err != nil {
		return b, err
	}
	return append(b, c.String()...), nil
}

// MarshalText returns the text of [YearCount.AppendText].
func (c YearCount) MarshalText() ([]byte, error) { return c.AppendText(nil) }

// UnmarshalText reads "whole years" or "decimal years", and refuses the rest with an
// [*angle.ParseError].
func (c *YearCount) UnmarshalText(text []byte) error {
	return readWord(c, text, "count of years", "whole years or decimal years", WholeYears, DecimalYears)
}

// readWord reads the word of one of some values.
func readWord[T fmt.Stringer](into *T, text []byte, what, want string, values ...T) error {
	for _, v := range values {
		if string(text) == v.String() {
			*into = v
			return nil
		}
	}
	kind := angle.UnknownWord
	if len(text) == 0 {
		kind = angle.Empty
	}
	return &angle.ParseError{What: what, Input: string(text), Kind: kind, Want: want}
}

// years counts the years from the beginning of a year to a time.
func (c YearCount) years(from int, date time.Time) float64 {
	if c == DecimalYears {
		return DecimalYear(date) - float64(from)
	}
	return float64(date.UTC().Year() - from)
}

// ageError is half of the 95 % point of the error of the count itself, in years, since a
// legend does not say for which day of its year it holds. Let that day be anywhere in the
// year. Then a count from the year's beginning is too long by 0 to 1 year, at most 0.95
// in 95 %. A count of whole years is off by the difference of two such days, at most
// 1 − √0.05 in 95 %.
func (c YearCount) ageError() float64 {
	if c == DecimalYears {
		return 0.95 / 2
	}
	return (1 - math.Sqrt(0.05)) / 2
}

// meanSquare is the mean square of the years that have passed from the unknown
// day of the legend to the date, when n are counted. With the count's error e
// they are n − e. Counted from the beginning of the year e is ½ in the mean, and e² is ⅓;
// in whole years e is 0 in the mean, and e² is ⅙.
func (c YearCount) meanSquare(n float64) float64 {
	if c == DecimalYears {
		return n*n - n + 1.0/3
	}
	return n*n + 1.0/6
}
