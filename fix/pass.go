package fix

import (
	"strconv"

	"lubberline.example/angle"
)

// A Pass says on which side of a danger a vessel passes.
type Pass int8

// The two ways.
const (
	Outside Pass = iota // farther off than the danger, which lies between the vessel and the marks
	Inside              // between the marks and the danger
)

// String returns "outside" or "inside".
func (p Pass) String() string {
	switch p {
	case Outside:
		return "outside"
	case Inside:
		return "inside"
	}
	return "Pass(" + strconv.Itoa(int(p)) + ")"
}

// check refuses what is neither.
func (p Pass) check() error {
	if p != Outside && p != Inside {
		return &angle.RangeError{What: "pass", Value: float64(p), Accepted: "Outside (0) or Inside (1)"}
	}
	return nil
}

// AppendText appends what [Pass.String] returns. It refuses what is neither way with a
// [*angle.RangeError].
func (p Pass) AppendText(b []byte) ([]byte, error) {
	if err := p.check(); err != nil {
		return b, err
	}
	return append(b, p.String()...), nil
}

// MarshalText returns the text of [Pass.AppendText].
func (p Pass) MarshalText() ([]byte, error) { return p.AppendText(nil) }

// UnmarshalText reads "outside" or "inside", and refuses the rest with a
// [*angle.ParseError].
func (p *Pass) UnmarshalText(text []byte) error {
	for _, pass := range []Pass{Outside, Inside} {
		if string(text) == pass.String() {
			*p = pass
			return nil
		}
	}
	return noWord(text, "pass", "outside or inside")
}

// noWord is the error of a text that is not one of some words.
func noWord(text []byte, what, want string) error {
	kind := angle.UnknownWord
	if len(text) == 0 {
		kind = angle.Empty
	}
	return &angle.ParseError{What: what, Input: string(text), Kind: kind, Want: want}
}
