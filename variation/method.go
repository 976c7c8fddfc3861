package variation

import (
	"fmt"

	"lubberline.example/angle"
)

// A Method says how a chart's roses answer for a position between them. The empty method is
// Nearest.
type Method string

const (
	// Nearest takes the rose nearest by great circle, as navigators do.
	Nearest Method = "nearest"

	// Blended interpolates between the roses around the position, linearly in latitude
	// and longitude; see [Chart].
	Blended Method = "blended"
)

// A YearCount says how the years from a rose to a date are counted. The empty count is
// WholeYears.
type YearCount string

const (
	// WholeYears counts calendar years, as navigators do: any day of 2026 is 12 years
	// after 2014.
	WholeYears YearCount = "whole-years"

	// DecimalYears counts from the beginning of the rose's year to the date: the middle
	// of 2 July 2026 is about 12.5 years after 2014.
	DecimalYears YearCount = "decimal-years"
)

// orDefault returns the method, or Nearest if it is empty. It returns an
// [*angle.ParseError] if the method is unknown.
func (m Method) orDefault() (Method, error) {
	return known("method of a chart", m, Nearest, Blended)
}

// orDefault returns the count, or WholeYears if it is empty. It returns an
// [*angle.ParseError] if the count is unknown.
func (c YearCount) orDefault() (YearCount, error) {
	return known("count of years", c, WholeYears, DecimalYears)
}

// known returns a value that is one of two, or the first of them if it is empty.
func known[T ~string](what string, value, first, second T) (T, error) {
	switch value {
	case "", first:
		return first, nil
	case second:
		return second, nil
	}
	return "", &angle.ParseError{What: what, Input: string(value), Kind: angle.UnknownWord, Want: fmt.Sprintf("%s or %s", first, second)}
}
