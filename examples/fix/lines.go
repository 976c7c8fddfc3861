package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"lubberline.example/angle/record"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
)

// columns are the columns of a file of lines.
var columns = record.Columns{
	Required: []string{"kind"},
	Optional: []string{"object", "position", "depth", "second", "second_position", "second_depth", "height", "observed", "uncertainty", "time"},
}

// write says what to write in each column.
var write = map[string]string{
	"object":          "the name of the mark",
	"position":        "its charted position, such as 47°08.4′N 019°00.0′W",
	"depth":           "the charted depth there, such as 30 m",
	"second":          "the name of the second mark",
	"second_position": "a second charted position, such as 47°03.6′N 019°11.6′W",
	"second_depth":    "the charted depth at the second position, such as 50 m",
	"height":          "the height of the top above the water, such as 24 m",
	"observed":        "what was observed",
}

// A kindOfLine is how the lines of one kind are read.
type kindOfLine struct {
	word  string
	title string   // over the working, before the name of the line; may be empty
	needs []string // columns
	read  func(s sight) (line fix.Line, column string, err error)
}

// kindsOfLine are the kinds that a file may have, in the order of the help.
var kindsOfLine = []kindOfLine{
	{"bearing", "bearing of", []string{"object", "position", "observed"}, sight.bearing},
	{"distance", "distance off", []string{"object", "position", "observed"}, sight.distance},
	{"transit", "transit of", []string{"object", "position", "second", "second_position"}, sight.transit},
	{"horizontal-angle", "horizontal angle,", []string{"object", "position", "second", "second_position", "observed"}, sight.horizontalAngle},
	{"vertical-angle", "distance by the vertical angle of", []string{"object", "position", "height", "observed"}, sight.verticalAngle},
	{"depth", "", []string{"object", "position", "depth", "second_position", "second_depth", "observed"}, sight.depth},
	{"latitude", "latitude by", []string{"object", "observed"}, sight.latitude},
	{"longitude", "longitude by", []string{"object", "observed"}, sight.longitude},
}

// words lists the kinds for a message.
func words() string {
	var list []string
	for _, k := range kindsOfLine {
		list = append(list, k.word)
	}
	return strings.Join(list[:len(list)-1], ", ") + " or " + list[len(list)-1]
}

// A vessel is what the lines of a file have in common.
type vessel struct {
	heading course.Heading
	day     time.Time
	eye     sailing.Distance // height of eye
}

// A table is a file of lines.
type table struct {
	rows   []record.Row
	lines  []fix.Line
	titles []string
}

// readLines reads position lines taken from a vessel.
func readLines(r io.Reader, v vessel) (t table, err error) {
	if t.rows, err = record.Read(r, columns); err != nil {
		return table{}, err
	}
	for _, row := range t.rows {
		word := row.Text("kind")
		at := slices.IndexFunc(kindsOfLine, func(k kindOfLine) bool { return k.word == word })
		if at < 0 {
			return table{}, row.Fault("kind", fmt.Errorf("%q is not a kind of line; write %s", word, words()))
		}
		kind := kindsOfLine[at]
		for _, column := range columns.Optional {
			switch needed := slices.Contains(kind.needs, column); {
			case column == "uncertainty" || column == "time":
			case needed && !row.Has(column):
				return table{}, row.Fault(column, fmt.Errorf("it is empty, and a line of kind %s needs it; write %s", word, write[column]))
			case !needed && row.Has(column):
				return table{}, row.Fault(column, fmt.Errorf("%q stands here, but a line of kind %s does not use this column; leave it empty", row.Text(column), word))
			}
		}
		line, column, err := kind.read(sight{row, v})
		if err != nil {
			var whole *record.Error
			if errors.As(err, &whole) { // it has its place already
				return table{}, err
			}
			return table{}, row.Fault(column, err)
		}
		if text := row.Text("time"); text != "" {
			at, err := time.Parse("15:04", text)
			if err != nil {
				return table{}, row.Fault("time", fmt.Errorf("%q is not a time; write hours and minutes in UTC, such as 10:40", text))
			}
			line = line.WithTime(v.day.Add(at.Sub(at.Truncate(24 * time.Hour))))
		}
		name := line.Name()
		if !slices.Contains(kind.needs, "position") {
			name = row.Text("object")
		}
		t.lines, t.titles = append(t.lines, line), append(t.titles, "Line: "+strings.TrimSpace(kind.title+" "+name))
	}
	return t, nil
}
