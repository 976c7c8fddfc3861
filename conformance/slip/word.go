package slip

import (
	"fmt"
	"slices"
	"strings"

	"lubberline.example/angle"
)

// An enumeration is the words of a type, in the order of its values.
type enumeration struct {
	what     string // "form"
	typeName string // "Form"
	list     []string
}

// text is the word of a value.
func (e enumeration) text(value int) string {
	if value < 0 || value >= len(e.list) {
		return fmt.Sprintf("%s(%d)", e.typeName, value)
	}
	return e.list[value]
}

// append appends the word of a value, and refuses a value that has none.
func (e enumeration) append(b []byte, value int) ([]byte, error) {
	if value < 0 || value >= len(e.list) {
		return b, &angle.RangeError{What: e.what, Value: float64(value), Accepted: fmt.Sprintf("%s (0) to %s (%d)", e.list[0], e.list[len(e.list)-1], len(e.list)-1)}
	}
	return append(b, e.list[value]...), nil
}

// read returns the value of a word.
func (e enumeration) read(text []byte) (int, error) {
	if i := slices.Index(e.list, string(text)); i >= 0 {
		return i, nil
	}
	kind := angle.UnknownWord
	if len(text) == 0 {
		kind = angle.Empty
	}
	last := len(e.list) - 1
	return 0, &angle.ParseError{What: e.what, Input: string(text), Kind: kind, Want: strings.Join(e.list[:last], ", ") + " or " + e.list[last]}
}

var (
	formWords       = enumeration{"form", "Form", []string{"direction", "east-west", "north-south", "miles", "minutes-east-west"}}
	difficultyWords = enumeration{"difficulty", "Difficulty", []string{"easy", "medium", "hard"}}
)

// String returns the form in a word: "direction", "east-west", "north-south", "miles" or
// "minutes-east-west".
func (f Form) String() string { return formWords.text(int(f)) }

// AppendText appends what [Form.String] returns. It refuses what is no form with an
// *[angle.RangeError].
func (f Form) AppendText(b []byte) ([]byte, error) { return formWords.append(b, int(f)) }

// MarshalText returns the text of [Form.AppendText].
func (f Form) MarshalText() ([]byte, error) { return f.AppendText(nil) }

// UnmarshalText reads the word of a form, and refuses the rest with an
// *[angle.ParseError].
func (f *Form) UnmarshalText(text []byte) error {
	value, err := formWords.read(text)
	if err == nil {
		*f = Form(value)
	}
	return err
}

// String returns the difficulty in a word: "easy", "medium" or "hard".
func (d Difficulty) String() string { return difficultyWords.text(int(d)) }

// AppendText appends what [Difficulty.String] returns. It refuses what is no difficulty
// with an *[angle.RangeError].
func (d Difficulty) AppendText(b []byte) ([]byte, error) { return difficultyWords.append(b, int(d)) }

// MarshalText returns the text of [Difficulty.AppendText].
func (d Difficulty) MarshalText() ([]byte, error) { return d.AppendText(nil) }

// UnmarshalText reads the word of a difficulty, and refuses the rest with an
// *[angle.ParseError].
func (d *Difficulty) UnmarshalText(text []byte) error {
	value, err := difficultyWords.read(text)
	if err == nil {
		*d = Difficulty(value)
	}
	return err
}
