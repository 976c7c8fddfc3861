// Package working holds the steps by which an answer was reached, the way a
// navigator writes them down: what, how much, and by what rule or from where.
// They are data first, for programs that teach or check, and aligned text
// second, for the page.
//
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
// Most programs only receive a [Sheet] or [Steps], from a method named Working of
// package [lubberline.example/course] or another. Print it, or call [Sheet.Markdown];
// look a figure up with [Steps.Find]; or encode it as JSON. Package
// [lubberline.example/angle/page] puts several on one page to read or print. [Direction]
// and [EastWest] make steps of your own.
//
// [Caution] stands under every working that ends in something to steer by; a program
// that prints steps alone should print it too.
package working

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"lubberline.example/angle"
	"lubberline.example/angle/internal/oneline"
)

// A Step is one line of a working.
type Step struct {
	// Key names the step for programs, and stays the same from case to case:
	// "variation", "magnetic course".
	Key string `json:"key"`

	// What says in words what the figure is.
	What string `json:"what"`

	// Value is the figure as a navigator writes it: 4°15′W, 108.5°M, 12 years.
	Value string `json:"value"`

	// Number is the same figure, unrounded, in Unit.
	Number float64 `json:"number"`

	// Unit is the unit of Number and its positive side: [DegreesEast],
	// [DegreesFromNorth], "years". It is empty where there is no figure.
	Unit string `json:"unit,omitempty"`

	// How says where the figure comes from, what was applied, and which way.
	How string `json:"how,omitempty"`
}

// The units that steps are usually in.
const (
	DegreesEast      = "degrees, east positive"
	DegreesFromNorth = "degrees clockwise from north"
)

// EastWest returns a step whose figure is an angle east or west.
func EastWest(key, what string, east angle.Angle, how string) Step {
	return Step{Key: key, What: what, Value: east.EastWest(), Number: east.Degrees(), Unit: DegreesEast, How: how}
}

// Direction returns a step whose figure is a direction: in three figures where it
// is a whole degree, otherwise in degrees and minutes to a tenth of a minute, as
// angles east and west are, so that the figures on the page can be summed.
func Direction[R angle.North](key, what string, d angle.Direction[R], how string) Step {
	value := d.String()
	if minutes := d.FromNorth().Round(angle.Minute / 10); minutes%angle.Degree != 0 {
		decimals := 0
		if minutes%angle.Minute != 0 {
			decimals = 1
		}
		value = fmt.Sprintf("%.*v", decimals, d)
	}
	return Step{Key: key, What: what, Value: value, Number: d.Degrees(), Unit: DegreesFromNorth, How: how}
}

// Steps is a working: its steps in the order in which they were taken.
type Steps []Step

// Find returns the first step with a key, and whether there is one.
func (s Steps) Find(key string) (Step, bool) {
	for _, step := range s {
		if step.Key == key {
			return step, true
		}
	}
	return Step{}, false
}

// String returns the steps as lines of three aligned columns: what, how much,
// and how.
func (s Steps) String() string { return string(s.Append(nil, "")) }

// Append appends the steps as [Steps.String] prints them, each line after an
// indent. Each column is on one line, as by [OneLine].
func (s Steps) Append(b []byte, indent string) []byte {
	what, value := 0, 0
	lines := make(Steps, len(s)) // names from outside may hold anything
	for i, step := range s {
		lines[i] = Step{What: OneLine(step.What), Value: OneLine(step.Value), How: OneLine(step.How)}
	}
	for _, step := range lines {
		what = max(what, utf8.RuneCountInString(step.What))
		value = max(value, utf8.RuneCountInString(step.Value))
	}
	for _, step := range lines {
		start := len(b)
		b = append(b, indent...)
		b = append(b, step.What...)
		b = append(b, strings.Repeat(" ", what-utf8.RuneCountInString(step.What)+2)...)
		// Figures stand under one another to the right.
		b = append(b, strings.Repeat(" ", value-utf8.RuneCountInString(step.Value))...)
		b = append(b, step.Value...)
		b = append(b, "  "...)
		b = append(b, step.How...)
		for len(b) > start && b[len(b)-1] == ' ' {
			b = b[:len(b)-1]
		}
		b = append(b, '\n')
	}
	return b
}

// OneLine returns a text on one line, as workings, pages and drawings print it. Spaces of
// all kinds become one space, but those that do not break stay. Control characters and
// those that change the direction of writing are shown escaped, as \x1b and \u202e. Use
// it to print names that come from outside the program.
func OneLine(text string) string { return oneline.Of(text) }
