package passage_test

import (
	"errors"
	"io"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/course/passage"
)

// endless gives a text over and over, for ever.
type endless struct {
	text string
	read int
}

func (r *endless) Read(p []byte) (int, error) {
	for n := range p {
		p[n] = r.text[(r.read+n)%len(r.text)]
	}
	r.read += len(p)
	return len(p), nil
}

// In every column an invalid figure is refused with its line and column. A file
// without an end is refused at a limit.
func TestHostileRecords(t *testing.T) {
	long := strings.Repeat("9", 50_000)
	for name, f := range map[string]struct {
		columns, row []string
		read         func(io.Reader) error
	}{
		"waypoints": {[]string{"position", "speed", "sailing"}, []string{"47N 19W", "5", "rhumb"}, func(r io.Reader) error { _, err := passage.ReadWaypoints(r); return err }},
		"streams":   {[]string{"set", "rate"}, []string{"045", "1.5"}, func(r io.Reader) error { _, err := passage.ReadStreams(r); return err }},
	} {
		for i, column := range f.columns {
			for _, text := range []string{"NaN", "Inf", "infinity", "1e308", "-1e308", "0x1p3", "0x_1p3", "0X8p0kn", "1_000", "1_0", "-1", "\u202e1", long} {
				row := append([]string{}, f.row...)
				row[i] = text
				err := f.read(strings.NewReader(strings.Join(f.columns, ",") + "\n" + strings.Join(row, ",") + "\n"))
				if e, ok := errors.AsType[*record.Error](err); !ok || e.Line != 2 || e.Column != column || len(err.Error()) > 700 {
					t.Errorf("%s, %s %.20q: %.300v", name, column, text, err)
				}
			}
		}
		if err := f.read(strings.NewReader(strings.Join(f.columns, ",") + "\n" + strings.Repeat(strings.Join(f.row, ",")+"\n", 50_000))); err != nil {
			t.Errorf("many %s: %v", name, err)
		}
		for _, text := range []string{"x"} { // package record is held to more
			r := &endless{text: text}
			err := f.read(r)
			if _, ok := errors.AsType[*record.Error](err); !ok || r.read > record.MaxBytes+1<<20 {
				t.Errorf("%s, %.10q for ever: %d bytes read, %.300v", name, text, r.read, err)
			}
		}
	}
}

// At a speed of 1e18 a leg would take no time, and the speed over the ground be infinite.
func TestAbsurdSpeedIsRefused(t *testing.T) {
	p := plan("47°00′N 019°00′W", "47°12′N 019°30′W")
	for _, greatCircle := range []bool{false, true} {
		p.Speed, p.Waypoints[1].GreatCircle = 1e18, greatCircle
		_, err := passage.New(p)
		if _, is := errors.AsType[*angle.RangeError](err); !is {
			t.Errorf("great circle %v: %v", greatCircle, err)
		}
	}
}
