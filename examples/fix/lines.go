package main

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
)

// readLines reads position lines taken on a heading.
func readLines(r io.Reader, heading course.Heading) ([]fix.Line, error) {
	rows, err := record.Read(r, record.Columns{Required: []string{"object", "position", "observed"}, Optional: []string{"uncertainty"}})
	if err != nil {
		return nil, err
	}
	var lines []fix.Line
	for _, row := range rows {
		mark := fix.Mark{Name: row.Text("object")}
		if mark.Position, err = angle.ParsePosition(row.Text("position")); err != nil {
			return nil, row.Fault("position", fmt.Errorf("%q: want a position such as 47°08.4′N 019°00.0′W", row.Text("position")))
		}
		text, uncertainty := row.Text("observed"), row.Text("uncertainty")
		if miles, ok := strings.CutSuffix(text, " M"); ok {
			line, column, err := distanceOff(mark, miles, strings.TrimSuffix(uncertainty, " M"))
			if err != nil {
				return nil, row.Fault(column, err)
			}
			lines = append(lines, line)
			continue
		}
		var u angle.Uncertainty
		if err := u.UnmarshalText([]byte(uncertainty)); err != nil {
			return nil, row.Fault("uncertainty", fmt.Errorf("%q: want degrees such as 1.5°, or nothing", uncertainty))
		}
		line, err := bearing(mark, text, heading, u)
		if err != nil {
			return nil, row.Fault("observed", err)
		}
		lines = append(lines, line)
	}
	return lines, nil
}

// distanceOff reads a distance off in miles; it returns the column at fault with an
// error.
func distanceOff(mark fix.Mark, miles, uncertainty string) (fix.Line, string, error) {
	read := func(text string) (sailing.Distance, error) {
		if text == "" {
			return 0, nil
		}
		x, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
		return sailing.Distance(x) * sailing.NauticalMile, err
	}
	d, err := read(miles)
	if err != nil {
		return fix.Line{}, "observed", errors.New("want miles, such as 12.3 M")
	}
	known, err := read(uncertainty)
	if err != nil {
		return fix.Line{}, "uncertainty", errors.New("want miles, such as 0.1 M")
	}
	line, err := fix.Range(mark, d, known)
	return line, "observed", err
}

// bearing reads a bearing by the north it names, or from the bow.
func bearing(mark fix.Mark, text string, h course.Heading, u angle.Uncertainty) (fix.Line, error) {
	none := fmt.Errorf("%q: want a bearing from 000 to 360 that ends in C, M, T or R, or in a side: 35° to port; or miles off: 12.3 M", text)
	if text != "" {
		switch text[len(text)-1] {
		case 'C':
			if c, err := angle.ParseCompass(text); err == nil {
				return fix.CompassBearing(mark, h.BearingFromCompass(c), u), nil
			}
			return fix.Line{}, none
		case 'M':
			if m, err := angle.ParseMagnetic(text); err == nil {
				return fix.CompassBearing(mark, h.BearingFromMagnetic(m), u), nil
			}
			return fix.Line{}, none
		case 'T':
			if t, err := angle.ParseTrue(text); err == nil {
				return fix.Bearing(mark, t, u), nil
			}
			return fix.Line{}, none
		}
	}
	var r angle.Relative
	if err := r.UnmarshalText([]byte(text)); err != nil {
		return fix.Line{}, none
	}
	return fix.CompassBearing(mark, h.BearingFromRelative(r), u), nil
}

// title is what a line is.
func title(l fix.Line) string {
	if l.Kind() == fix.KindRange {
		return "Line: distance off " + l.Name()
	}
	return fmt.Sprintf("Line: %s of %s", l.Kind(), l.Name())
}

// print prints the working of each line, then that of the fix.
func print(w io.Writer, f fix.Fix) {
	for _, l := range f.Lines() {
		fmt.Fprintf(w, "\n%s", working.Sheet{Title: title(l), Steps: l.Working()})
	}
	fmt.Fprintf(w, "\n%s", f.Working())
}
