package deviation_test

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/deviation"
	"lubberline.example/deviation/check"
	"lubberline.example/deviation/swing"
)

// ceaseless gives a text over and over, for ever.
type ceaseless struct {
	text string
	read int
}

func (r *ceaseless) Read(p []byte) (int, error) {
	for n := range p {
		p[n] = r.text[(r.read+n)%len(r.text)]
	}
	r.read += len(p)
	return len(p), nil
}

// A hostileForm is a reader, with a row of good fields by column, two of them figures.
type hostileForm struct {
	columns, row []string
	read         func(io.Reader) error
}

var hostileForms = map[string]hostileForm{
	"table":  {[]string{"compass", "deviation", "uncertainty"}, []string{"000", "2", "1"}, func(r io.Reader) error { _, err := deviation.ReadTable(r); return err }},
	"checks": {[]string{"heading", "deviation", "uncertainty", "time", "variation"}, []string{"000", "2", "1", "2026-05-14T17:03:20Z", "5W"}, func(r io.Reader) error { _, err := check.ReadLog(r); return err }},
	"swing":  {[]string{"heading", "deviation", "uncertainty"}, []string{"000", "2", "1"}, func(r io.Reader) error { _, err := swing.ReadSwing(r, swing.StatedDeviations{}); return err }},
}

// In every column what is no figure is refused with its line and column.
func TestHostileFields(t *testing.T) {
	long := strings.Repeat("9", 50_000)
	for name, f := range hostileForms {
		for i, column := range f.columns {
			for _, text := range []string{"NaN", "Inf", "1e308", "-1e308", "1e-320", "0x1p3", "1_000", "\u202e1", long, "2026-05-14T17:03:20." + long + "x"} {
				row := append([]string{}, f.row...)
				row[i] = text
				err := f.read(strings.NewReader(strings.Join(f.columns, ",") + "\n" + strings.Join(row, ",") + "\n"))
				if e, ok := errors.AsType[*record.Error](err); !ok || e.Line != 2 || e.Column != column || len(err.Error()) > 700 {
					t.Errorf("%s, %s %.20q: %.300v", name, column, text, err)
				}
			}
		}
		for _, text := range []string{"x"} { // package record is held to more
			r := &ceaseless{text: text}
			err := f.read(r)
			if _, ok := errors.AsType[*record.Error](err); !ok || r.read > record.MaxBytes+1<<20 {
				t.Errorf("%s, %.10q for ever: %d bytes read, %.300v", name, text, r.read, err)
			}
		}
	}
	for _, text := range []string{`{"rows":[`, `{`, `{"smooth":   `, "{\n"} {
		r := &ceaseless{text: text}
		_, err := deviation.ReadTable(r)
		if _, ok := errors.AsType[*record.Error](err); !ok || r.read > record.MaxBytes+1<<20 {
			t.Errorf("%.10q for ever: %d bytes read, %.300v", text, r.read, err)
		}
	}
	for _, text := range []string{strings.Repeat("9", 10<<20), strings.Repeat("\x00", 10<<20), strings.Repeat("±", 5<<20)} {
		_, err := deviation.Parse(text)
		if _, ok := errors.AsType[*angle.ParseError](err); !ok || len(err.Error()) > 700 {
			t.Errorf("%.20q…: %.300v", text, err)
		}
	}
}

// Reading takes time as the number of rows.
func TestManyRowsOfDeviations(t *testing.T) {
	n := 36_000
	if testing.Short() {
		n = 3600
	}
	for name, f := range hostileForms {
		var b strings.Builder
		b.WriteString(strings.Join(f.columns, ",") + "\n")
		for i := range n {
			fmt.Fprintf(&b, "%.3f,%s\n", float64(i)*360/float64(n), strings.Join(f.row[1:], ","))
		}
		if err := f.read(strings.NewReader(b.String())); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}
