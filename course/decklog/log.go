package decklog

import (
	"bytes"
	"encoding"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// A Log is the rows of a deck log, in order of time.
type Log []Entry

// An Entry is one row of a deck log: a reading, and what holds from then on.
type Entry struct {
	Time time.Time
	Log  *sailing.Distance // the reading; nil if it was not read

	// Reset is the reading to which the log was set after Log was read; nil if it was not.
	Reset *sailing.Distance

	// Compass or True is the course from now on. If both are nil, the course is as before.
	Compass *angle.Compass
	True    *angle.True

	// Speed is the speed through the water until the next row. It is used only if the log was
	// not read at both ends.
	Speed *sailing.Speed

	// Leeway and WindFrom, the true direction from which the wind blows, hold from now on. If
	// nil, they are as before.
	Leeway   *angle.Angle
	WindFrom *angle.True

	// Stream is the stream until the next row. If nil, it is that of Options.Streams.
	Stream *stream.Stream

	// Fix is an observed position, with its standard uncertainty in each direction.
	Fix            *angle.Position
	FixUncertainty sailing.Uncertainty[sailing.Distance]

	Remarks string
}

// names are the columns of a log, in the order in which they are written.
var names = []string{"time", "log", "reset", "compass", "true", "speed", "leeway", "wind", "set", "rate", "fix", "fix_uncertainty", "remarks"}

// ReadLog reads a deck log from CSV or JSON; see package record. The column time is required:
//
//	time,log,compass,leeway,wind,set,rate,fix,fix_uncertainty,remarks
//	2026-07-02T06:00Z,0.0,226°C,,,,,47°07.8′N 019°01.0′W,0.1 M,off Orlesk Head
//	2026-07-02T07:00Z,5.4,,5°,290,225,1.2,,,
//
// The columns are the fields of [Entry] in lower case: wind is WindFrom, set and rate are Stream,
// and fix_uncertainty is FixUncertainty. Distances are in miles and speeds in knots unless they have
// another unit. An empty compass, true, leeway or wind repeats the row above. Set and rate hold for
// one row. Errors are a [*record.Error] with the line.
func ReadLog(r io.Reader) (Log, error) {
	rows, err := record.Read(r, record.Columns{Required: names[:1], Optional: names[1:]})
	if err != nil {
		return nil, err
	}
	entries := make(Log, len(rows))
	for i, row := range rows {
		e := &entries[i]
		if err := e.take(row); err != nil {
			return nil, err
		}
		if i > 0 && e.Time.Before(entries[i-1].Time) {
			return nil, row.Fault("time", errors.New("it is before the time of the row above: write the rows in order of time"))
		}
	}
	return entries, nil
}

// cell reads a column, if it is not empty, into a new value.
func cell[V any](row record.Row, column string, to **V, read func(string) (V, error)) error {
	if !row.Has(column) {
		return nil
	}
	v, err := read(row.Text(column))
	if err != nil {
		return row.Fault(column, err)
	}
	*to = &v
	return nil
}

// take reads one row.
func (e *Entry) take(row record.Row) error {
	var err error
	if e.Time, err = moment(row.Text("time")); err != nil {
		return row.Fault("time", err)
	}
	var set *angle.True
	var rate *sailing.Speed
	var sigma *sailing.Distance
	for _, err := range []error{
		cell(row, "log", &e.Log, miles), cell(row, "reset", &e.Reset, miles),
		cell(row, "compass", &e.Compass, angle.ParseCompass), cell(row, "true", &e.True, angle.ParseTrue),
		cell(row, "speed", &e.Speed, knots), cell(row, "leeway", &e.Leeway, angle.Parse),
		cell(row, "wind", &e.WindFrom, angle.ParseTrue), cell(row, "set", &set, angle.ParseTrue),
		cell(row, "rate", &rate, knots), cell(row, "fix", &e.Fix, angle.ParsePosition),
		cell(row, "fix_uncertainty", &sigma, miles),
	} {
		if err != nil {
			return err
		}
	}
	switch {
	case e.Compass != nil && e.True != nil:
		return row.Fault("true", errors.New("a course by compass and a true course in one row: give one of them"))
	case rate != nil && *rate == 0:
		e.Stream = &stream.Stream{}
		if set != nil {
			e.Stream.Set = *set
		}
	case (set == nil) != (rate == nil):
		return row.Fault("rate", errors.New("a stream needs both set and rate, such as 225 and 1.2; slack water is rate 0"))
	case set != nil:
		e.Stream = &stream.Stream{Set: *set, Rate: *rate}
	}
	if sigma != nil {
		if e.Fix == nil {
			return row.Fault("fix_uncertainty", errors.New("there is no fix in this row"))
		}
		if e.FixUncertainty, err = sailing.StandardUncertainty(*sigma); err != nil {
			return row.Fault("fix_uncertainty", err)
		}
	}
	e.Remarks = row.Text("remarks")
	return nil
}

// layout is a time without seconds.
const layout = "2006-01-02T15:04Z07:00"

// moment reads a time with its zone.
func moment(text string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		t, err = time.Parse(layout, text)
	}
	if err != nil || t.IsZero() {
		return t, fmt.Errorf("%.60q is not a date and time with a zone; write it as 2026-07-02T06:00Z", text)
	}
	return t, nil
}

// miles reads a distance of zero or more; a bare number is in nautical miles. A sign ± before
// it is read too.
func miles(text string) (sailing.Distance, error) {
	text = strings.TrimPrefix(text, "±")
	d, err := sailing.ParseDistance(text)
	if p, ok := errors.AsType[*angle.ParseError](err); ok && p.Kind == sailing.MissingUnit {
		d, err = sailing.ParseDistance(text + " M")
	}
	if err == nil && !(d >= 0 && d < 1e6*sailing.NauticalMile) {
		err = &angle.RangeError{What: "distance", Value: d.NauticalMiles(), Accepted: "miles from 0, below 1,000,000"}
	}
	return d, err
}

// knots reads a speed; a bare number is in knots.
func knots(text string) (sailing.Speed, error) {
	s, err := sailing.ParseSpeed(text)
	if p, ok := errors.AsType[*angle.ParseError](err); ok && p.Kind == sailing.MissingUnit {
		s, err = sailing.ParseSpeed(text + " kn")
	}
	if err == nil && !(s >= 0 && s < maxSpeed) {
		err = &angle.RangeError{What: "speed", Value: s.Knots(), Accepted: "knots from 0, below 100"}
	}
	return s, err
}

// maxSpeed is the limit of a speed; a larger one is a slip in a reading or a time.
const maxSpeed = 100 * sailing.Knot

// cells returns an entry as the cells of a row.
func (e Entry) cells() ([]string, error) {
	var failed error
	text := func(v encoding.TextMarshaler) string {
		b, err := v.MarshalText()
		failed = errors.Join(failed, err)
		return string(b)
	}
	row := make([]string, len(names))
	row[0] = e.Time.Format(time.RFC3339Nano)
	if e.Log != nil {
		row[1] = text(*e.Log)
	}
	if e.Reset != nil {
		row[2] = text(*e.Reset)
	}
	if e.Compass != nil {
		row[3] = text(*e.Compass)
	}
	if e.True != nil {
		row[4] = text(*e.True)
	}
	if e.Speed != nil {
		row[5] = text(*e.Speed)
	}
	if e.Leeway != nil {
		row[6] = text(*e.Leeway)
	}
	if e.WindFrom != nil {
		row[7] = text(*e.WindFrom)
	}
	if e.Stream != nil {
		row[8], row[9] = text(e.Stream.Set), text(e.Stream.Rate)
	}
	if e.Fix != nil {
		row[10], row[11] = text(*e.Fix), text(e.FixUncertainty)
	}
	row[12] = strings.Join(strings.Fields(e.Remarks), " ")
	return row, failed
}

// WriteCSV writes the log, exactly. [ReadLog] reads it back. If w is nil, it returns a
// [*fs.PathError]; it returns the writer's error unchanged.
func (l Log) WriteCSV(w io.Writer) error {
	if w == nil {
		return &fs.PathError{Op: "write", Path: "a deck log to a nil writer", Err: fs.ErrInvalid}
	}
	var b bytes.Buffer
	out := csv.NewWriter(&b)
	out.Write(names) // a bytes.Buffer takes everything
	for _, e := range l {
		row, err := e.cells()
		if err != nil {
			return err
		}
		row[12] = record.Cell(row[12])
		out.Write(row)
	}
	out.Flush()
	_, err := w.Write(b.Bytes())
	return err
}

// MarshalJSON returns the log as an array of rows with the columns of [ReadLog], exactly.
func (l Log) MarshalJSON() ([]byte, error) {
	out := make([]map[string]string, len(l))
	for i, e := range l {
		row, err := e.cells()
		if err != nil {
			return nil, err
		}
		out[i] = map[string]string{}
		for j, text := range row {
			if text != "" {
				out[i][names[j]] = text
			}
		}
	}
	return json.Marshal(out)
}

// UnmarshalJSON reads the JSON of [Log.MarshalJSON], with the errors of [ReadLog].
func (l *Log) UnmarshalJSON(text []byte) error {
	read, err := ReadLog(bytes.NewReader(text))
	if err == nil {
		*l = read
	}
	return err
}
