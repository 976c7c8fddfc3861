package deviation

import (
	"strconv"

	"lubberline.example/angle"
)

// A By says by which heading a table or a curve is kept.
type By int

// The two kinds of heading.
const (
	ByCompass  By = iota // deviation against compass heading
	ByMagnetic           // deviation against magnetic heading
)

// String returns "compass" or "magnetic".
func (b By) String() string {
	switch b {
	case ByCompass:
		return "compass"
	case ByMagnetic:
		return "magnetic"
	}
	return "By(" + strconv.Itoa(int(b)) + ")"
}

// AppendText appends what [By.String] returns. It refuses what is neither kind with a
// [*angle.RangeError].
func (b By) AppendText(text []byte) ([]byte, error) {
	if b != ByCompass && b != ByMagnetic {
		return text, &angle.RangeError{What: "kind of heading", Value: float64(b), Accepted: "ByCompass (0) or ByMagnetic (1)"}
	}
	return append(text, b.String()...), nil
}

// MarshalText returns the text of [By.AppendText].
func (b By) MarshalText() ([]byte, error) { return b.AppendText(nil) }

// UnmarshalText reads "compass" or "magnetic", and refuses the rest with a
// [*angle.ParseError].
func (b *By) UnmarshalText(text []byte) error {
	if b == nil {
		return &angle.ParseError{What: "kind of compass", Input: string(text), Kind: angle.UnknownWord, Want: "a pointer that is not nil"}
	}
	for _, by := range []By{ByCompass, ByMagnetic} {
		if string(text) == by.String() {
			*b = by
			return nil
		}
	}
	kind := angle.UnknownWord
	if len(text) == 0 {
		kind = angle.Empty
	}
	return &angle.ParseError{What: "kind of compass", Input: string(text), Kind: kind, Want: "compass or magnetic"}
}
