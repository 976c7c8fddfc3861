package angle

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A RangeError reports a number outside the range that is accepted. Every package of
// this module uses it for such a number.
type RangeError struct {
	What     string  // what the number was to be: "latitude", "height of eye"
	Value    float64 // the number given, in the unit of Accepted
	Accepted string  // what would do, in words, with the unit
}

// Error says what was wrong and what is accepted.
func (e *RangeError) Error() string {
	return e.What + " " + strconv.FormatFloat(e.Value, 'g', -1, 64) + ": want " + e.Accepted
}

// An ErrorKind says, in a word that programs can compare, why a text was
// refused.
type ErrorKind string

// The reasons for refusing a text.
const (
	Empty             ErrorKind = "empty"
	NoNumber          ErrorKind = "no-number"            // a figure was expected
	BadSeparator      ErrorKind = "bad-separator"        // something between figures that separates nothing
	FractionNotLast   ErrorKind = "fraction-not-last"    // 4°15.5′30″
	MinutesOutOfRange ErrorKind = "minutes-out-of-range" // 61′
	SecondsOutOfRange ErrorKind = "seconds-out-of-range" // 61″
	UnitsOutOfOrder   ErrorKind = "units-out-of-order"   // 4′15°
	OutOfRange        ErrorKind = "out-of-range"         // 400° as a direction, N 95° E, 91°N
	SignNotAllowed    ErrorKind = "sign-not-allowed"     // −10 as a direction
	SignAndName       ErrorKind = "sign-and-name"        // −4°W
	TwoNames          ErrorKind = "two-names"            // E4°W
	WrongName         ErrorKind = "wrong-name"           // N where E or W belongs
	MissingName       ErrorKind = "missing-name"         // 4°15′ without E or W
	WrongNorth        ErrorKind = "wrong-north"          // 035°M as a true direction
	MissingNorth      ErrorKind = "missing-north"        // 035° in data that must say which north
	UnknownPoint      ErrorKind = "unknown-point"        // no point of the compass has this name
	UnknownWord       ErrorKind = "unknown-word"         // neither starboard nor port, and the like
	TrailingText      ErrorKind = "trailing-text"
)

// A ParseError reports a text that was refused. The parsers of this package return no
// other error. The other packages of this module use it too.
type ParseError struct {
	What   string    // what the text was to be: "true direction", "speed"
	Input  string    // the whole text
	Offset int       // where in Input the trouble is, in bytes
	Kind   ErrorKind // why it was refused
	Want   string    // what would do, in words
}

// Error says what was refused, why, at which word, and what is accepted. Of a text of
// more than 80 bytes it shows what stands around the offset, with … for the rest.
func (e *ParseError) Error() string {
	return fmt.Sprintf("%s %s: %s%s: want %s", cmp.Or(e.What, "text"), quoted(e.Input, e.Offset), e.Kind, e.place(), e.Want)
}

// place says at which word of the text the trouble is, unless it is the first.
func (e *ParseError) place() string {
	if e.Offset <= 0 || e.Offset > len(e.Input) || isBlank(e.Input[:e.Offset]) {
		return ""
	}
	word, _, _ := strings.Cut(strings.TrimSpace(e.Input[e.Offset:]), " ")
	switch {
	case word == "":
		return " at the end"
	case len(word) > maxWord:
		end := maxWord
		for end > 0 && !utf8.RuneStart(word[end]) {
			end--
		}
		return " at " + strconv.Quote(word[:end]) + "…"
	}
	return " at " + strconv.Quote(word)
}

// maxWord is how many bytes of a word a message repeats.
const maxWord = 20

// maxQuoted is how many bytes of a text a message shows: more would bury the rest.
const maxQuoted = 80

// quoted is a text in quotes, or of a long one what stands around an offset.
func quoted(text string, at int) string {
	if len(text) <= maxQuoted {
		return strconv.Quote(text)
	}
	start := max(min(at, len(text))-maxQuoted/2, 0)
	end := min(start+maxQuoted, len(text))
	for start > 0 && start < end && !utf8.RuneStart(text[start]) {
		start++
	}
	for end > start && end < len(text) && !utf8.RuneStart(text[end]) {
		end--
	}
	shown := strconv.Quote(text[start:end])
	if start > 0 {
		shown = "…" + shown
	}
	if end < len(text) {
		shown += "…"
	}
	return shown
}

// Must returns v and panics if err is not nil. It is for constants written in a
// program, as in
//
//	var leeway = angle.Must(angle.Degrees(7.5))
func Must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
