// Package working holds the steps of an answer, as a navigator writes them down: the
// quantity, its value, and the rule or the source. Programs can read the steps as data or
// print them as aligned text.
//
//	with := course.With{Variation: variation.MustParse("5°08′W"), Deviation: deviation.None()}
//	h, err := course.FromTrue(angle.MustParseTrue("112°"), with)
//	if err != nil {
//		log.Fatal(err)
//	}
//	sheet := h.Working() // a working.Sheet
//	fmt.Print(sheet)     // as aligned text
//	if step, ok := sheet.Steps.Find("variation"); ok {
//		fmt.Println(step.Number, step.Unit) // as data
//	}
//
// # Where to begin
//
// Most programs get a [Sheet] from a method named Working, in package
// [lubberline.example/course] and others. Then:
//
//   - print it, or call [Sheet.Markdown];
//   - find one figure with [Steps.Find];
//   - encode it as JSON;
//   - put several sheets on one page with package [lubberline.example/angle/page].
//
// To make your own steps, use [Direction], [EastWest] and [Step.Because].
//
// # Other languages
//
// The English texts are one rendering of a working. A program can make another from the
// data. A step has a Key, a Number and a Unit. Each [Reason] of a step has a key and
// arguments. The file reasons.json beside this package has the English format of every
// key.
//
// A working that a vessel may be navigated by has [Caution] below it. If your program prints the
// steps alone, print Caution too.
package working

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"lubberline.example/angle"
	"lubberline.example/angle/internal/oneline"
)

// A Step is one line of a working.
type Step struct {
	// Key names the step for programs: "variation", "magnetic course". It is the same in
	// every case.
	Key string `json:"key"`

	// What is the quantity in words.
	What string `json:"what"`

	// Value is the value as a navigator writes it: 4°15′W, 108.5°M, 12 years.
	Value string `json:"value"`

	// Number is the value as a number in Unit, unrounded.
	Number float64 `json:"number"`

	// Unit is the unit of Number and its positive side: [DegreesEast],
	// [DegreesFromNorth], "years". It is empty if the step has no number.
	Unit string `json:"unit,omitempty"`

	// How is the source of the value, or the rule that was applied, in English.
	How string `json:"how,omitempty"`

	// Reasons says the same as How for programs that print another language, in the same
	// order. [Step.Because] sets both.
	Reasons []Reason `json:"reasons,omitempty"`
}

// The most common units of steps.
const (
	DegreesEast      = "degrees, east positive"
	DegreesFromNorth = "degrees clockwise from north"
)

// EastWest returns a step whose value is an angle east or west.
func EastWest(key, what string, east angle.Angle) Step {
	return Step{Key: key, What: what, Value: east.EastWestString(), Number: east.Degrees(), Unit: DegreesEast}
}

// Direction returns a step whose value is a direction. A whole degree has three figures.
// Any other direction has degrees and minutes, as angles east and west have, so that a
// reader can add them. They are rounded to a tenth of a minute.
func Direction[R angle.North](key, what string, d angle.Direction[R]) Step {
	value := d.String()
	if minutes := d.FromNorth().Round(angle.Minute / 10); minutes%angle.Degree != 0 {
		decimals := 0
		if minutes%angle.Minute != 0 {
			decimals = 1
		}
		value = fmt.Sprintf("%.*v", decimals, d)
	}
	return Step{Key: key, What: what, Value: value, Number: d.Degrees(), Unit: DegreesFromNorth}
}

// Because returns the step with one more reason, which has the key. It formats the reason as
// fmt.Sprintf does, and adds it to How, after a semicolon if How has a text already.
func (s Step) Because(key, format string, arguments ...any) Step {
	text, r := because(key, format, arguments...)
	if s.How != "" {
		text = s.How + "; " + text
	}
	s.How = text
	s.Reasons = append(slices.Clip(s.Reasons), r)
	return s
}

// Steps are the steps of a working, in order.
type Steps []Step

// Find returns the first step with a key. It reports false if there is none.
func (s Steps) Find(key string) (Step, bool) {
	for _, step := range s {
		if step.Key == key {
			return step, true
		}
	}
	return Step{}, false
}

// String returns the steps as lines of three aligned columns: What, Value and How.
func (s Steps) String() string { return string(s.Append(nil, "")) }

// Append appends the text of [Steps.String], with an indent before each line. It applies
// [OneLine] to each column.
func (s Steps) Append(b []byte, indent string) []byte {
	type line struct {
		what, value, how      string
		whatWidth, valueWidth int
	}
	lines := make([]line, len(s)) // a name from outside may have line breaks
	what, value, size := 0, 0, 0
	for i := range s {
		l := line{what: OneLine(s[i].What), value: OneLine(s[i].Value), how: OneLine(s[i].How)}
		l.whatWidth, l.valueWidth = utf8.RuneCountInString(l.what), utf8.RuneCountInString(l.value)
		what, value = max(what, l.whatWidth), max(value, l.valueWidth)
		size += len(indent) + len(l.what) + len(l.value) + len(l.how)
		lines[i] = l
	}
	b = slices.Grow(b, size+len(lines)*(what+value))
	for i := range lines {
		l := &lines[i]
		start := len(b)
		b = append(b, indent...)
		b = append(b, l.what...)
		b = append(b, strings.Repeat(" ", what-l.whatWidth+2)...)
		// Values are aligned to the right.
		b = append(b, strings.Repeat(" ", value-l.valueWidth)...)
		b = append(b, l.value...)
		b = append(b, "  "...)
		b = append(b, l.how...)
		for len(b) > start && b[len(b)-1] == ' ' {
			b = b[:len(b)-1]
		}
		b = append(b, '\n')
	}
	return b
}

// OneLine returns a text on one line. Use it to print names from outside the program.
// Workings, pages and drawings print all texts in this way. Spaces and line breaks become
// one space; no-break spaces stay. Control characters, and those that change the direction
// of writing, are shown escaped: \x1b, \u202e.
func OneLine(text string) string { return oneline.Of(text) }
