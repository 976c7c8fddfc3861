package variation

import (
	"strconv"

	"lubberline.example/angle"
)

// A Method is how a chart's roses answer for a position between them. The zero
// value is Nearest.
type Method int

const (
	// Nearest takes the rose nearest by great circle, the rule of the trade.
	Nearest Method = iota

	// Blended takes the roses around the position and goes between them in
	// proportion, linearly in latitude and longitude; see [Chart].
	Blended
)

// String returns "nearest" or "blended".
func (m Method) String() string {
	switch m {
	case Nearest:
		return "nearest"
	case Blended:
		return "blended"
	}
	return "Method(" + strconv.Itoa(int(m)) + ")"
}

// check refuses what is no method.
func (m Method) check() error {
	if m != Nearest && m != Blended {
		return &angle.RangeError{What: "method of a chart", Value: float64(m), Accepted: "Nearest (0) or Blended (1)"}
	}
	return nil
}

// AppendText appends what [Method.String] returns. It refuses what is no method
// with an [*angle.RangeError].
func (m Method) AppendText(b []byte) ([]byte, error) {
	if err := m.check(); err != nil {
		return b, err
	}
	return append(b, m.String()...), nil
}

// MarshalText returns the text of [Method.AppendText].
func (m Method) MarshalText() ([]byte, error) { return m.AppendText(nil) }

// UnmarshalText reads "nearest" or "blended", and refuses the rest with an
// [*angle.ParseError].
func (m *Method) UnmarshalText(text []byte) error {
	return readWord(m, text, "method", "nearest or blended", Nearest, Blended)
}
