package angle

import (
	"cmp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A RangeError reports a number outside the accepted range. Every package of this module
// returns it for such a number.
type RangeError struct {
	What     string  // the quantity in English, a key for other languages: "latitude", "height of eye"
	Value    float64 // the number that was refused, in the unit of Accepted
	Accepted string  // the accepted range in words, with the unit
}

// Error returns the quantity, the number and the accepted range, as in
// "latitude 95 is invalid; give 90° S to 90° N".
func (e *RangeError) Error() string {
	return e.What + " " + strconv.FormatFloat(e.Value, 'g', -1, 64) + " is invalid; give " + e.Accepted
}

// An ErrorKind says why a text was refused. Programs can compare it.
type ErrorKind string

// The reasons for refusing a text.
const (
	Empty             ErrorKind = "empty"
	NoNumber          ErrorKind = "no-number"            // a figure is missing
	BadSeparator      ErrorKind = "bad-separator"        // not a separator between figures
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
	MissingNorth      ErrorKind = "missing-north"        // 035° in data, where the letter of the north is required
	UnknownPoint      ErrorKind = "unknown-point"        // no point of the compass has this name
	UnknownWord       ErrorKind = "unknown-word"         // not a word that is accepted there
	TrailingText      ErrorKind = "trailing-text"        // something after the end
)

// A ParseError reports a text that was refused. The parsers of this package return no
// other type of error. Other packages of this module return it too.
type ParseError struct {
	What   string    // the quantity: "true direction", "speed"
	Input  string    // the whole text
	Offset int       // where the fault is in Input, in bytes
	Kind   ErrorKind // why the text was refused
	Want   string    // what is accepted there, in words
}

// Error says what was wrong, at which word, and what to write instead:
//
//	"4°61′W" is not an angle east or west: minutes out of range at "61′W"; write less than 60, as in 4°15.5′W
//
// If the text has more than 80 bytes, Error shows only the part around Offset, and … for
// the rest.
func (e *ParseError) Error() string {
	place := e.place()
	fault := ": " + strings.ReplaceAll(string(e.Kind), "-", " ") + place
	if place == "" && (e.Kind == NoNumber || e.Kind == Empty) {
		fault = "" // clear from the text itself
	}
	example := ""
	if known := examples[e.What]; known != "" && !strings.Contains(e.Want, "such as") && !strings.Contains(e.Want, ": ") {
		example = ", as in " + known
	}
	return quoted(e.Input, e.Offset) + " is not " + withArticle(cmp.Or(e.What, "valid")) + fault + "; write " + e.Want + example
}

// examples are texts of quantities, for messages that name no example.
var examples = map[string]string{
	"angle":                "4°15.5′",
	"angle east or west":   "4°15.5′W",
	"variation":            "4°15′W",
	"deviation":            "2°30′E",
	"latitude":             "47°08.4′N",
	"longitude":            "019°00.0′W",
	"position":             "47°08.4′N 019°00.0′W",
	"true direction":       "035°T",
	"magnetic direction":   "035°M",
	"compass direction":    "035°C",
	"relative bearing":     "325°R or 35° to port",
	"standard uncertainty": "0°30′",
}

// withArticle puts a or an before the name of a quantity.
func withArticle(what string) string {
	switch {
	case what == "valid":
		return what
	case strings.HasPrefix(what, "us"): // usage
	case strings.ContainsRune("aeiou", rune(what[0])), strings.HasPrefix(what, "hour"):
		return "an " + what
	}
	return "a " + what
}

// place names the word of the text that is wrong. It is empty for the first word.
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

// maxWord is the maximum number of bytes of a word that a message repeats.
const maxWord = 20

// maxQuoted is the maximum number of bytes of a text that a message shows.
const maxQuoted = 80

// quoted returns a text in quotes. It shortens a long text to the part around an offset.
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

// Must returns v. It panics if err is not nil. It is for values written in a program:
//
//	var leeway = angle.Must(angle.Degrees(7.5))
func Must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
