package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
)

// readLines reads position lines taken on a heading, on a day.
func readLines(r io.Reader, heading course.Heading, day time.Time) ([]fix.Line, error) {
	rows, err := record.Read(r, record.Columns{Required: []string{"kind", "object", "position", "observed"}, Optional: []string{"uncertainty", "time"}})
	if err != nil {
		return nil, err
	}
	var lines []fix.Line
	for _, row := range rows {
		mark := fix.Mark{Name: row.Text("object")}
		if mark.Position, err = angle.ParsePosition(row.Text("position")); err != nil {
			return nil, row.Fault("position", fmt.Errorf("%q is not a position; write it as 47°08.4′N 019°00.0′W", row.Text("position")))
		}
		// The kind decides: 045 M is a magnetic bearing or a distance of 45 miles.
		var read func(mark fix.Mark, observed, uncertainty string, h course.Heading) (line fix.Line, column string, err error)
		switch kind := row.Text("kind"); kind {
		case "bearing":
			read = bearing
		case "distance":
			read = distance
		default:
			return nil, row.Fault("kind", fmt.Errorf("%q is not a kind of line; write bearing or distance", kind))
		}
		line, column, err := read(mark, row.Text("observed"), row.Text("uncertainty"), heading)
		if err != nil {
			return nil, row.Fault(column, err)
		}
		if text := row.Text("time"); text != "" {
			t, err := time.Parse("15:04", text)
			if err != nil {
				return nil, row.Fault("time", fmt.Errorf("%q is not a time; write hours and minutes in UTC, such as 10:40", text))
			}
			line = line.WithTime(day.Add(t.Sub(t.Truncate(24 * time.Hour))))
		}
		lines = append(lines, line)
	}
	return lines, nil
}

// distance reads a distance off. With an error it returns the column that is wrong.
func distance(mark fix.Mark, observed, uncertainty string, _ course.Heading) (fix.Line, string, error) {
	d, err := sailing.ParseDistance(observed)
	if err != nil {
		return fix.Line{}, "observed", fmt.Errorf("%q is not a distance; write it as 12.3 M or 4 cables", observed)
	}
	var known sailing.Distance
	if uncertainty != "" {
		if known, err = sailing.ParseDistance(strings.TrimPrefix(uncertainty, "±")); err != nil {
			return fix.Line{}, "uncertainty", fmt.Errorf("%q is not a distance; write it as 0.1 M, or leave it empty", uncertainty)
		}
	}
	line, err := fix.Range(mark, d, known)
	return line, "observed", err
}

// bearing reads a bearing and its uncertainty.
func bearing(mark fix.Mark, observed, uncertainty string, h course.Heading) (fix.Line, string, error) {
	var u angle.Uncertainty
	if err := u.UnmarshalText([]byte(uncertainty)); err != nil {
		return fix.Line{}, "uncertainty", fmt.Errorf("%q is not an uncertainty; write degrees such as 1.5°, or leave it empty", uncertainty)
	}
	line, err := direction(mark, observed, h, u)
	return line, "observed", err
}

// direction reads a bearing: true, magnetic, compass, or relative to the bow.
func direction(mark fix.Mark, text string, h course.Heading, u angle.Uncertainty) (fix.Line, error) {
	none := fmt.Errorf("%q is not a bearing; write 000 to 360 with C, M, T or R, such as 054.5°C, or a side: 35° to port", text)
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

// title returns the heading over the working of a line.
func title(l fix.Line) string {
	if l.Kind() == fix.KindRange {
		return "Line: distance off " + l.Name()
	}
	return "Line: bearing of " + l.Name()
}

// print prints the working of each line, then that of the fix.
func print(w io.Writer, f fix.Fix) {
	for _, l := range f.Lines() {
		fmt.Fprintf(w, "\n%s", working.Sheet{Title: title(l), Steps: l.Working()})
	}
	fmt.Fprintf(w, "\n%s", f.Working())
}
