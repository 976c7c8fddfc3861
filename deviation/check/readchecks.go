package check

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/sunsight"
	"lubberline.example/variation"
)

// ReadLog reads a log of checks from CSV or JSON (see package [record]), for
// [ReviewCard]. It reads what [WriteLog] writes, and the JSON of a slice of checks.
//
// The columns are heading (by compass), deviation (as found) and uncertainty (the standard
// uncertainty of the deviation). The deviation may state its uncertainty instead: 2°E ±0°48′. A row
// with compassError may leave it out, but a card is not reviewed by such a check. Other columns may
// be left out:
//
//   - time is UTC, as in 2026-05-14T17:03:20Z.
//   - method and against say how the check was made, and what with. The columns
//     observer, remarks and variationSource are words too.
//   - variation is as applied, with its uncertainty: 5°08′W ±0°15′. Give it: checks share
//     its error, and a review without it calls a good card wrong more often.
//   - variationChange is the part of it that brought a rose up to date.
//   - bearing is by compass, and position is that of the vessel. With them, and the time,
//     a review can say what may be wrong with a check that does not agree.
//   - compassError, and true, the true bearing, must agree with the other figures
//     to 0.1°.
//   - warnings are their kinds with spaces between.
//
// A deviation of more than 90° carries a warning, [NotADeviation], one of more than 30°
// [LargeDeviation]. Errors are [*record.Error]. With an error ReadLog returns the checks
// that stand before the fault, so that a broken last line loses no other. Steps are not
// read.
//
// CSV with the column warnings, which only programs write, must end with a line end.
// Otherwise the last row may be cut short, and is not read.
func ReadLog(r io.Reader) ([]Check, error) {
	if r == nil {
		_, err := record.Read(nil, logColumns)
		return nil, err
	}
	all := whole{Reader: r}
	rows, broken := record.Read(&all, logColumns)
	if line := all.cut(); broken == nil && line > 0 {
		broken = &record.Error{Line: line, Err: errors.New("this row has no line end, so it may be cut short: complete it, and end it with a new line")}
		if last := len(rows) - 1; rows[last].Line == line {
			rows = rows[:last]
		}
	}
	var checks []Check
	if len(rows) > 0 {
		checks = make([]Check, 0, len(rows))
	}
	explained := 0
	for _, row := range rows {
		c, err := readCheck(row)
		if err != nil {
			return checks, err
		}
		if large := c.tooLarge(explained < mostExplained); len(large) > 0 {
			c.Warnings = append(c.Warnings, large...)
			explained++
		}
		checks = append(checks, c)
	}
	return checks, broken
}

// logColumns are those that a log may have.
var logColumns = record.Columns{
	Required: []string{"heading", "deviation"},
	Optional: []string{"uncertainty", "time", "method", "against", "bearing", "true", "position", "variation", "variationsource", "variationchange", "compasserror", "observer", "remarks", "warnings", "steps"},
	Nested:   []string{"warnings", "steps"},
	Partial:  true,
}

// A whole keeps what is read from a reader.
type whole struct {
	io.Reader
	data []byte
}

// Read reads, and keeps what it read.
func (w *whole) Read(p []byte) (int, error) {
	n, err := w.Reader.Read(p)
	w.data = append(w.data, p[:n]...)
	return n, err
}

// Len returns what is known of the bytes to come, for the reader that asks.
func (w *whole) Len() int {
	known, ok := w.Reader.(interface{ Len() int })
	if !ok {
		return 0
	}
	n := min(known.Len(), record.MaxBytes)
	w.data = make([]byte, 0, max(0, n))
	return n
}

// cut returns the line of the last row if that may be cut short, and 0 if it is whole.
func (w *whole) cut() int {
	start := bytes.LastIndexByte(w.data, '\n') + 1
	last := bytes.TrimSpace(w.data[start:])
	if len(last) == 0 || last[0] == '#' {
		return 0
	}
	header, err := firstRow(w.data)
	if err != nil || !slices.ContainsFunc(header, func(name string) bool { return strings.EqualFold(strings.TrimSpace(name), "warnings") }) {
		return 0
	}
	return 1 + bytes.Count(w.data[:start], []byte("\n"))
}

// firstRow returns the first row of CSV: the names of its columns. It is nil for JSON.
func firstRow(data []byte) ([]string, error) {
	data = bytes.TrimSpace(bytes.TrimPrefix(data, []byte("\ufeff")))
	if bytes.HasPrefix(data, []byte("[")) {
		return nil, nil
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.Comment, r.TrimLeadingSpace = '#', true
	return r.Read()
}

// readCheck reads a row of a log.
func readCheck(row record.Row) (Check, error) {
	c := Check{
		Method: row.Text("method"), Against: row.Text("against"), VariationSource: row.Text("variationsource"),
		Observer: row.Text("observer"), Remarks: row.Text("remarks"),
	}
	var err error
	if c.Heading, err = angle.ParseCompass(row.Text("heading")); err != nil {
		return c, row.Fault("heading", err)
	}
	if row.Has("time") {
		if c.Time, err = sunsight.ParseTime(row.Text("time")); err != nil {
			return c, row.Fault("time", err)
		}
	}
	if row.Has("bearing") {
		bearing, err := angle.ParseCompass(row.Text("bearing"))
		if err != nil {
			return c, row.Fault("bearing", err)
		}
		c.Bearing = &bearing
	}
	if row.Has("position") {
		position, err := angle.ParsePosition(row.Text("position"))
		if err != nil {
			return c, row.Fault("position", err)
		}
		c.Position = &position
	}
	if err := c.readFigures(row); err != nil {
		return c, err
	}
	c.Warnings, err = readWarnings(row)
	return c, err
}

// agreeing is the largest difference between figures of a row of which one follows from
// the others. Logs kept by hand have them to a tenth of a degree or worse.
const agreeing = angle.Degree/10 + angle.Second

// readFigures reads the deviation, the variation and the compass error, and the figures
// that follow from them.
func (c *Check) readFigures(row record.Row) error {
	var err error
	if c.Deviation, err = deviation.Parse(row.Text("deviation")); err != nil {
		return row.Fault("deviation", err)
	}
	own := c.Deviation.Uncertainty()
	u := own
	if row.Has("uncertainty") {
		if err = u.UnmarshalText([]byte(row.Text("uncertainty"))); err != nil {
			return row.Fault("uncertainty", err)
		}
		if stated(own) && own != u {
			return row.Fault("uncertainty", fmt.Errorf("the deviation has %v, and this column %v: leave one of them out", own, u))
		}
	} else if !stated(u) && !row.Has("compasserror") {
		return row.Fault("uncertainty", errors.New("empty: every row needs a value in this column"))
	}
	c.Deviation = c.Deviation.WithUncertainty(u)
	if row.Has("variation") {
		if c.Variation, err = variation.Parse(row.Text("variation")); err != nil {
			return row.Fault("variation", err)
		}
		c.Error = c.Variation.Plus(c.Deviation.EastWest)
		if stated(u) {
			rest, err := ownPart(u, c.Variation.Uncertainty())
			if err != nil {
				return row.Fault("uncertainty", err)
			}
			c.Error = c.Error.WithUncertainty(harmonic.Sigma(rest))
		}
	}
	if row.Has("variationchange") {
		if c.VariationChange, err = angle.Parse(row.Text("variationchange")); err != nil {
			return row.Fault("variationchange", err)
		}
	}
	if row.Has("compasserror") {
		if !row.Has("variation") {
			return row.Fault("compasserror", errors.New("there is no variation to divide it from the deviation: give the variation that was applied"))
		}
		sum := c.Error
		if err = c.Error.UnmarshalText([]byte(row.Text("compasserror"))); err != nil {
			return row.Fault("compasserror", err)
		}
		if apart(c.Error.Angle(), sum.Angle()) {
			return row.Fault("compasserror", fmt.Errorf("%v is not the variation and the deviation together, which are %v: correct one of them", c.Error.WithUncertainty(angle.Uncertainty{}), sum.WithUncertainty(angle.Uncertainty{})))
		}
	}
	return c.readTrue(row)
}

// readTrue compares the true bearing with the other figures, from which it follows.
func (c *Check) readTrue(row record.Row) error {
	if !row.Has("true") {
		return nil
	}
	direction, err := angle.ParseTrue(row.Text("true"))
	switch {
	case err != nil:
		return row.Fault("true", err)
	case c.Bearing == nil || !row.Has("variation"):
		return row.Fault("true", errors.New("a true bearing needs the bearing by compass and the variation beside it"))
	case apart(direction.FromNorth(), c.trueBearing().FromNorth()):
		return row.Fault("true", fmt.Errorf("%v is not the bearing and the compass error together, which are %v: correct one of them", direction, *c.trueBearing()))
	}
	return nil
}

// stated reports whether an uncertainty is known.
func stated(u angle.Uncertainty) bool { _, ok := u.Sigma(); return ok }

// apart reports whether two angles differ by more than rounding.
func apart(a, b angle.Angle) bool { return angle.EastWestFrom(a-b).Angle().Abs() > agreeing }

// trueBearing returns the true bearing of what was observed; nil if the compass's is not
// known.
func (c *Check) trueBearing() *angle.True {
	if c.Bearing == nil {
		return nil
	}
	return new(angle.TrueFrom(c.Bearing.FromNorth() + c.Error.Angle()))
}

// readWarnings reads the warnings of a row, without those that its deviation gives.
func readWarnings(row record.Row) ([]working.Warning, error) {
	var list []working.Warning
	text := row.Text("warnings")
	if strings.HasPrefix(text, "[") {
		if err := json.Unmarshal([]byte(text), &list); err != nil {
			return nil, row.Fault("warnings", err)
		}
	} else {
		for kind := range strings.FieldsSeq(text) {
			list = append(list, working.Warn(working.WarningKind(kind), "check-logged", "the log has the warning %s", kind))
		}
	}
	list = slices.DeleteFunc(list, func(w working.Warning) bool { return w.Kind == NotADeviation || w.Kind == LargeDeviation })
	if len(list) == 0 {
		return nil, nil
	}
	return list, nil
}

// format returns a time as logs have it; empty if it is not known.
func format(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.UTC().Format(time.RFC3339Nano)
}
