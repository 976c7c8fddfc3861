package wmm_test

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"lubberline.example/wmm"
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

var coefficientReaders = map[string]func(io.Reader) error{
	"COF":  func(r io.Reader) error { _, err := wmm.ReadCOF(r); return err },
	"IGRF": func(r io.Reader) error { _, err := wmm.ReadIGRF(r); return err },
}

const (
	hostileHead = "2025.0 X 11/13/2024\n"
	hostileRows = hostileHead + "1 0 1 0 0 0\n1 1 1 1 0 0\n"
)

// A file that does not end is given up at a limit.
func TestEndlessCoefficients(t *testing.T) {
	for _, c := range []struct {
		name, first, text string
		most              int
	}{
		{"NULs", "", "\x00", 1 << 20},
		{"no line end", "", "9", 1 << 20},
		{"blank lines", "", strings.Repeat(" ", 2000) + "\n", 32 << 20},
		{"comments", "", "#" + strings.Repeat(" ", 2000) + "\n", 32 << 20},
		{"nines", hostileRows, strings.Repeat("9", 2000) + "\n", 32 << 20},
		{"epochs", "g/h n m", " 2020", 1 << 20},
	} {
		for form, read := range coefficientReaders {
			r := &endless{text: c.text}
			err := read(io.MultiReader(strings.NewReader(c.first), r))
			if _, ok := errors.AsType[*wmm.Error](err); !ok || len(err.Error()) > 400 {
				t.Errorf("%s, %s: %.300v", form, c.name, err)
			}
			if r.read > c.most+1<<20 {
				t.Errorf("%s, %s: %d bytes read", form, c.name, r.read)
			}
		}
	}
}

func TestHostileCoefficients(t *testing.T) {
	long := strings.Repeat("x", 500_000)
	texts := []string{"", "\x00", "\ufeff" + hostileRows + "999999\n", "\xff\xfe2\x00", "\xff\n", "g/h n m " + long + " 2020-25\n", "g/h n m 2020 " + long + "\n",
		igrfHead + long + " 1 0 0 0 0\n", long + " X\n", "2025 X " + long + "\n", "2025 X 11/13/2024 " + long + "\n", hostileHead + long + " 0 0 0 0 0\n"}
	for _, number := range []string{"1e308", "-1e308", "NaN", "Inf", "0x1p3", "1_000", "1\x00", "\xff", long, strings.Repeat("9", 500_000)} {
		texts = append(texts, hostileHead+"1 0 "+number+" 0 0 0\n", number+" X\n", igrfHead+"g 1 0 "+number+" 0 0\n"+i11+h11, hostileHead+"1 0 "+number+" 0 0 0\n1 1 1 1 0 0\n999999\n", "g/h n m "+number+" 2020-25\n")
	}
	// The 64-bit index of this degree overflows to the index of the expected row. The
	// row was once read as degree 1, order 0.
	for _, degree := range []string{"1000000000", "4294967296", "9223372036854775807", "4611686018427387905", "99999999999999999999"} {
		for _, order := range []string{"0", "1", degree} {
			texts = append(texts, hostileHead+degree+" "+order+" 0 0 0 0\n999999\n", igrfHead+"g "+degree+" "+order+" 0 0 0\n")
		}
	}
	wrapping := int64(3<<61 + 1) // n(n+1)/2 is negative by overflow, and m makes 1 of the sum
	texts = append(texts, fmt.Sprintf("%s%d %d 7 0 0 0\n1 1 1 1 0 0\n999999\n", hostileHead, wrapping, 1-wrapping*(wrapping+1)/2))
	for _, text := range texts {
		for form, read := range coefficientReaders {
			err := read(strings.NewReader(text))
			if _, ok := errors.AsType[*wmm.Error](err); !ok || len(err.Error()) > 500 {
				t.Errorf("%s: %.60q…: %.300v", form, text, err)
			}
		}
	}
}

// Every epoch is a model: their number is bounded, and that of all figures.
func TestTablesOfTooMany(t *testing.T) {
	var head strings.Builder
	head.WriteString("g/h n m")
	for i := range 201 {
		fmt.Fprintf(&head, " %d", 1500+i)
		if i == 199 {
			head200 := head.String() + " 1700-05\n"
			_, err := wmm.ReadIGRF(io.MultiReader(strings.NewReader(head200), noughtRows(201, 101)))
			if e, ok := errors.AsType[*wmm.Error](err); (!ok || e.Kind != wmm.TooLarge) && !testing.Short() {
				t.Errorf("numbers: %.300v", err)
			}
		}
	}
	_, err := wmm.ReadIGRF(strings.NewReader(head.String() + " 1701-05\n"))
	if e, ok := errors.AsType[*wmm.Error](err); !ok || e.Kind != wmm.TooLarge {
		t.Errorf("epochs: %.300v", err)
	}
}

// noughtRows are the rows of a table of zero.
func noughtRows(columns, degree int) io.Reader {
	var b strings.Builder
	zeros := strings.Repeat(" 0", columns) + "\n"
	for n := 1; n <= degree; n++ {
		for m := 0; m <= n; m++ {
			fmt.Fprintf(&b, "g %d %d%s", n, m, zeros)
			if m > 0 {
				fmt.Fprintf(&b, "h %d %d%s", n, m, zeros)
			}
		}
	}
	return strings.NewReader(b.String())
}

func TestCoefficientsFromReadersThatFail(t *testing.T) {
	wet := errors.New("wet")
	for form, read := range coefficientReaders {
		if err := read(iotest.ErrReader(wet)); !errors.Is(err, wet) {
			t.Errorf("%s: %v", form, err)
		}
		first := map[string]string{"COF": hostileRows, "IGRF": igrfHead + i10}[form]
		if err := read(io.MultiReader(strings.NewReader(first), iotest.ErrReader(wet))); !errors.Is(err, wet) {
			t.Errorf("%s, midway: %v", form, err)
		}
		if err := read(iotest.TimeoutReader(iotest.OneByteReader(strings.NewReader(first)))); !errors.Is(err, iotest.ErrTimeout) {
			t.Errorf("%s, a time-out: %v", form, err)
		}
		whole := map[string]string{"COF": hostileRows + "999999\n", "IGRF": igrfHead + i10 + i11 + h11}[form]
		if err := read(iotest.DataErrReader(iotest.OneByteReader(strings.NewReader(whole)))); err != nil {
			t.Errorf("%s, in pieces: %v", form, err)
		}
	}
}
