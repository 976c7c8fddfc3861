package angle

import "strconv"

// A Side is a side of the vessel, or the direction of a turn. The zero value is
// [Starboard].
type Side int8

// The two sides, for someone who faces the bow.
const (
	Starboard Side = iota // right, clockwise
	Port                  // left, anticlockwise
)

// String returns "starboard" or "port".
func (s Side) String() string {
	switch s {
	case Starboard:
		return "starboard"
	case Port:
		return "port"
	}
	return "Side(" + strconv.Itoa(int(s)) + ")"
}

// AppendText appends the text of [Side.String]. If s is neither Starboard nor Port, it
// returns a [*RangeError].
func (s Side) AppendText(b []byte) ([]byte, error) {
	if s != Starboard && s != Port {
		return b, &RangeError{"side", float64(s), "Starboard (0) or Port (1)"}
	}
	return append(b, s.String()...), nil
}

// MarshalText returns the text of [Side.AppendText].
func (s Side) MarshalText() ([]byte, error) { return s.AppendText(nil) }

// UnmarshalText reads "starboard" or "port". For any other text it returns a
// [*ParseError].
func (s *Side) UnmarshalText(text []byte) error {
	for _, side := range []Side{Starboard, Port} {
		if string(text) == side.String() {
			*s = side
			return nil
		}
	}
	kind := UnknownWord
	if len(text) == 0 {
		kind = Empty
	}
	return &ParseError{What: "side", Input: string(text), Kind: kind, Want: "starboard or port"}
}
