package tidal

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// A Table is a table of tidal streams as printed on a chart.
type Table struct {
	Port string // the standard port; may be empty

	// SpringRange and NeapRange are the mean ranges of the tide at the port. [ByHeights] needs
	// them. Both are zero if the file does not state them.
	SpringRange, NeapRange sailing.Distance

	Places []Place
}

// A Place is one lettered place of a table.
type Place struct {
	Name     string          // the letter
	Position *angle.Position // nil if not stated
	Hours    []Hour          // in order; hours may be missing
}

// An Hour is the stream of one hour at a place.
type Hour struct {
	Hour           int           // from high water at the port: -6 to 6, after it positive
	Set            angle.True    // toward which the stream flows; if both rates are 0, it has no meaning
	Springs, Neaps sailing.Speed // the rates at mean springs and at mean neaps, 0 or more
}

// maxHour is the last hour of a table.
const maxHour = 6

// columns are the columns of a table, in order.
var columns = record.Columns{
	Required: []string{"place", "hour", "springs", "neaps"},
	Optional: []string{"set", "port", "spring_range", "neap_range", "position"},
}

// ReadTable reads a table from CSV or JSON; see package record. Each row is an hour at a place:
//
//	place,hour,set,springs,neaps,position,port,spring_range,neap_range
//	A,-1,215,1.2,0.6,47°05′N 019°08′W,Orlesk Harbour,4.6 m,2.2 m
//	A,HW,220,1.6,0.8,,,,
//	A,+1,225,1.1,0.5,,,,
//
// The hour is from -6 to 6; HW, HW-3 and HW+3 are also read. Rates are in knots, and ranges in
// metres, unless they have another unit. The set is a true direction; it may be empty only if
// both rates are 0. The other columns are optional. The position stands in one row of its place,
// and the port and the ranges in one row of the table. Errors are a [*record.Error] with the line.
func ReadTable(r io.Reader) (Table, error) {
	rows, err := record.Read(r, columns)
	if err != nil {
		return Table{}, err
	}
	var t Table
	at := map[string]int{}
	for _, row := range rows {
		name := row.Text("place")
		i, ok := at[name]
		if !ok {
			i = len(t.Places)
			at[name] = i
			t.Places = append(t.Places, Place{Name: name})
		}
		if err := t.take(&t.Places[i], row); err != nil {
			return Table{}, err
		}
	}
	if err := t.check(); err != nil {
		return Table{}, &record.Error{Err: err}
	}
	return t, nil
}

// take takes one row of a place.
func (t *Table) take(p *Place, row record.Row) error {
	var h Hour
	var err error
	if h.Hour, err = parseHour(row.Text("hour")); err != nil {
		return row.Fault("hour", err)
	}
	for _, c := range []struct {
		column string
		to     *sailing.Speed
	}{{"springs", &h.Springs}, {"neaps", &h.Neaps}} {
		if *c.to, err = rate(row.Text(c.column)); err != nil {
			return row.Fault(c.column, err)
		}
	}
	if row.Has("set") {
		if h.Set, err = angle.ParseTrue(row.Text("set")); err != nil {
			return row.Fault("set", err)
		}
	} else if h.Springs != 0 || h.Neaps != 0 {
		return row.Fault("set", errors.New("no set for a stream that runs: give the true direction toward which it flows, such as 215; only slack water has none"))
	}
	i, found := slices.BinarySearchFunc(p.Hours, h.Hour, func(h Hour, n int) int { return h.Hour - n })
	if found {
		return row.Fault("hour", fmt.Errorf("place %.60q has hour %+d twice: keep one of the two rows", p.Name, h.Hour))
	}
	p.Hours = slices.Insert(p.Hours, i, h)
	if row.Has("position") {
		at, err := angle.ParsePosition(row.Text("position"))
		if err == nil && p.Position != nil && *p.Position != at {
			err = fmt.Errorf("place %.60q is at %v in a row above: give one position", p.Name, *p.Position)
		}
		if err != nil {
			return row.Fault("position", err)
		}
		p.Position = &at
	}
	return t.takeHead(row)
}

// takeHead takes what a row says of the whole table.
func (t *Table) takeHead(row record.Row) error {
	if name := row.Text("port"); name != "" {
		if t.Port != "" && t.Port != name {
			return row.Fault("port", fmt.Errorf("the port is %.60q in a row above: a table has one standard port", t.Port))
		}
		t.Port = name
	}
	for _, c := range []struct {
		column string
		to     *sailing.Distance
	}{{"spring_range", &t.SpringRange}, {"neap_range", &t.NeapRange}} {
		if !row.Has(c.column) {
			continue
		}
		d, err := height(row.Text(c.column))
		if err == nil && !(d > 0 && d < maxRange) {
			err = &angle.RangeError{What: "range of the tide", Value: d.Metres(), Accepted: "metres above 0, below 30"}
		}
		if err == nil && *c.to != 0 && *c.to != d {
			err = fmt.Errorf("the range is %v m in a row above: a table has one", c.to.Metres())
		}
		if err != nil {
			return row.Fault(c.column, err)
		}
		*c.to = d
	}
	return nil
}

// maxRange is above every range of a tide on earth (common knowledge: the greatest are about
// 16 m).
const maxRange = 30 * sailing.Metre

// maxRate is the limit of a rate; a larger one is a slip.
const maxRate = 30 * sailing.Knot

// parseHour reads an hour before or after high water.
func parseHour(text string) (int, error) {
	digits := strings.Replace(strings.ToUpper(strings.ReplaceAll(text, " ", "")), "−", "-", 1)
	if rest, ok := strings.CutPrefix(digits, "HW"); ok {
		if digits = rest; rest == "" {
			return 0, nil
		}
		if rest[0] != '+' && rest[0] != '-' {
			digits = "?"
		}
	}
	n, err := strconv.Atoi(digits)
	if err != nil {
		return 0, &angle.ParseError{What: "hour", Input: text, Kind: angle.NoNumber, Want: "a whole number from -6 to 6, such as -3, or HW, HW-3, HW+3"}
	}
	if n < -maxHour || n > maxHour {
		return 0, &angle.RangeError{What: "hour", Value: float64(n), Accepted: "hours from -6 to 6 after high water"}
	}
	return n, nil
}

// rate reads a rate; a bare number is in knots.
func rate(text string) (sailing.Speed, error) {
	s, err := sailing.ParseSpeed(text)
	if p, ok := errors.AsType[*angle.ParseError](err); ok && p.Kind == sailing.MissingUnit {
		s, err = sailing.ParseSpeed(text + " kn")
	}
	if err == nil {
		err = checkRate(s)
	}
	return s, err
}

// checkRate refuses a rate that no tidal stream has.
func checkRate(s sailing.Speed) error {
	if !(s >= 0 && s < maxRate) {
		return &angle.RangeError{What: "rate", Value: s.Knots(), Accepted: "knots from 0, below 30"}
	}
	return nil
}

// height reads a height or a range of the tide; a bare number is in metres.
func height(text string) (sailing.Distance, error) {
	d, err := sailing.ParseDistance(text)
	if p, ok := errors.AsType[*angle.ParseError](err); ok && p.Kind == sailing.MissingUnit {
		d, err = sailing.ParseDistance(text + " m")
	}
	return d, err
}

// check refuses a table that cannot be used: places without names or twice, hours out of
// order, impossible rates and ranges.
func (t Table) check() error {
	if (t.SpringRange != 0 || t.NeapRange != 0) && !(t.NeapRange > 0 && t.SpringRange > t.NeapRange && t.SpringRange < maxRange) {
		return &angle.RangeError{What: "spring range of the port", Value: t.SpringRange.Metres(), Accepted: fmt.Sprintf("metres above the neap range of %v m, below 30; give both ranges or neither", t.NeapRange.Metres())}
	}
	if len(t.Places) == 0 {
		return errors.New("the table has no places: give at least one, with its hours")
	}
	if !printable(t.Port) {
		return fmt.Errorf("port %.60q: write a name on one line, without spaces around it", t.Port)
	}
	seen := map[string]bool{}
	for _, p := range t.Places {
		if p.Name == "" || seen[p.Name] || !printable(p.Name) {
			return fmt.Errorf("place %.60q: give each place another name on one line, such as A", p.Name)
		}
		seen[p.Name] = true
		if len(p.Hours) == 0 {
			return fmt.Errorf("place %.60q has no hours: give at least one", p.Name)
		}
		for i, h := range p.Hours {
			if h.Hour < -maxHour || h.Hour > maxHour || i > 0 && p.Hours[i-1].Hour >= h.Hour {
				return &angle.RangeError{What: fmt.Sprintf("hour at place %.60q", p.Name), Value: float64(h.Hour), Accepted: "hours from -6 to 6, each once, in order"}
			}
			if err := errors.Join(checkRate(h.Springs), checkRate(h.Neaps)); err != nil {
				return fmt.Errorf("place %.60q, hour %+d: %w", p.Name, h.Hour, err)
			}
		}
	}
	return nil
}

// printable reports whether a name can be written and read back.
func printable(name string) bool {
	return name == strings.TrimSpace(name) && utf8.ValidString(name) && !strings.ContainsAny(name, "\r\n")
}

// Nearest returns the name of the place nearest to a position, of those that have a position.
// Use it as [Options.PlaceAt]. If there is none, it returns a [*stream.Error] of kind
// [stream.NoStream].
func (t Table) Nearest(p angle.Position) (string, error) {
	best, name := sailing.Distance(0), ""
	for _, place := range t.Places {
		if place.Position == nil {
			continue
		}
		if d := sailing.WGS84().Rhumb(p, *place.Position).Distance; name == "" || d < best {
			best, name = d, place.Name
		}
	}
	if name == "" {
		return "", &stream.Error{Kind: stream.NoStream, Reason: "no place of the table has a position: choose a place by its name, or give positions"}
	}
	return name, nil
}

// cells returns the table as rows of cells, in the order place, hour, set, springs, neaps,
// position, port, spring_range, neap_range. The figures are exact.
func (t Table) cells() ([][]string, error) {
	var rows [][]string
	var failed error
	text := func(v interface{ MarshalText() ([]byte, error) }) string {
		b, err := v.MarshalText()
		failed = errors.Join(failed, err)
		return string(b)
	}
	for _, p := range t.Places {
		for i, h := range p.Hours {
			row := []string{p.Name, strconv.Itoa(h.Hour), "", text(h.Springs), text(h.Neaps), "", "", "", ""}
			if h.Springs != 0 || h.Neaps != 0 || h.Set != (angle.True{}) {
				row[2] = text(h.Set)
			}
			if i == 0 && p.Position != nil {
				row[5] = text(*p.Position)
			}
			if len(rows) == 0 {
				row[6] = t.Port
				if t.SpringRange != 0 {
					row[7], row[8] = text(t.SpringRange), text(t.NeapRange)
				}
			}
			rows = append(rows, row)
		}
	}
	return rows, failed
}

// names are the columns in the order in which they are written.
var names = []string{"place", "hour", "set", "springs", "neaps", "position", "port", "spring_range", "neap_range"}

// WriteCSV writes the table, exactly. [ReadTable] reads it back. If the table is invalid, it
// writes nothing and returns a [*record.Error]. If w is nil, it returns a [*fs.PathError].
func (t Table) WriteCSV(w io.Writer) error {
	if w == nil {
		return &fs.PathError{Op: "write", Path: "a table of tidal streams to a nil writer", Err: fs.ErrInvalid}
	}
	rows, err := t.checkedCells()
	if err != nil {
		return err
	}
	var b bytes.Buffer
	out := csv.NewWriter(&b)
	out.Write(names) // a bytes.Buffer takes everything
	for _, row := range rows {
		row[0], row[6] = record.Cell(row[0]), record.Cell(row[6])
		out.Write(row)
	}
	out.Flush()
	_, err = w.Write(b.Bytes())
	return err
}

// checkedCells returns the cells of a valid table.
func (t Table) checkedCells() ([][]string, error) {
	if err := t.check(); err != nil {
		return nil, &record.Error{Err: err}
	}
	return t.cells()
}

// MarshalJSON returns the table as an array of rows with the columns of [ReadTable], exactly.
// If the table is invalid, it returns a [*record.Error].
func (t Table) MarshalJSON() ([]byte, error) {
	rows, err := t.checkedCells()
	if err != nil {
		return nil, err
	}
	out := make([]map[string]any, len(rows))
	for i, row := range rows {
		out[i] = map[string]any{}
		for j, cell := range row {
			switch {
			case cell == "":
			case names[j] == "hour":
				out[i]["hour"] = json.Number(cell)
			default:
				out[i][names[j]] = cell
			}
		}
	}
	return json.Marshal(out)
}

// UnmarshalJSON reads the JSON of [Table.MarshalJSON], with the errors of [ReadTable].
func (t *Table) UnmarshalJSON(text []byte) error {
	read, err := ReadTable(bytes.NewReader(text))
	if err == nil {
		*t = read
	}
	return err
}
