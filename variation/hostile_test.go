package variation_test

import (
	"errors"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/variation"
)

// A legend or a variation of megabytes takes time as its length, and its refusal is
// typed and does not repeat it.
func TestHostileTexts(t *testing.T) {
	size := 10 << 20
	if testing.Short() {
		size = 1 << 20
	}
	texts := []string{"", "\x00", "\xff", "4°15′W\x00 2009", "\xff\xfe4\x00", "\ufeff4°15′W 2009", "1e308", "NaN", "Inf W 2009",
		"0x1p3W 2009", "1_000", "4°15′W 2009 (1e308E)", "4°15′W 2009 (1e-320′E)", "4°15′W 99999999999999999999", "4°W 20090000"}
	for _, unit := range []string{"\x00", "\xff", "9", "x", "in ", "var ", "2009 ", "200 ", "(", ".", "°", "4°15′W ", "日"} {
		long := strings.Repeat(unit, size/8/len(unit))
		texts = append(texts, long, "4°15′W 2009 "+long, long+" 2009", "4°15′W "+long+" 2009", "Var."+long+" 2009 (8′E)")
	}
	for _, text := range texts {
		_, err := variation.ParseLegend(text)
		if e, ok := errors.AsType[*variation.Error](err); err != nil && (!ok || e.Input != text || e.Offset < 0 || e.Offset > len(text)) {
			t.Errorf("legend %.30q…: %.200v", text, err)
		}
		if err != nil && len(err.Error()) > 1500 {
			t.Errorf("legend %.30q…: a message of %d bytes", text, len(err.Error()))
		}
		_, err = variation.Parse(text)
		if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Input != text || len(err.Error()) > 700 {
			t.Errorf("variation %.30q…: %.200v", text, err)
		}
	}
}

// Words may fill as much room as they like between the figures.
func TestALegendAmongBlanks(t *testing.T) {
	blanks := strings.Repeat(" ", 1<<20)
	r, err := variation.ParseLegend(blanks + "4°15′W" + blanks + "2009" + blanks + "(8′E)" + blanks)
	if err != nil || r != variation.MustParseLegend("4°15′W 2009 (8′E)") {
		t.Errorf("%+v, %.300v", r, err)
	}
}

// repeating gives a text over and over, for ever.
type repeating struct {
	text string
	read int
}

func (r *repeating) Read(p []byte) (int, error) {
	for n := range p {
		p[n] = r.text[(r.read+n)%len(r.text)]
	}
	r.read += len(p)
	return len(p), nil
}

// A chart without an end is given up at a limit; more roses than a chart may have are
// refused.
func TestEndlessCharts(t *testing.T) {
	for _, text := range []string{"x"} { // package record is held to more
		r := &repeating{text: text}
		_, err := variation.ReadChart("", r)
		if _, ok := errors.AsType[*record.Error](err); !ok || r.read > record.MaxBytes+1<<20 || len(err.Error()) > 500 {
			t.Errorf("%q: %d bytes, %.300v", text, r.read, err)
		}
	}
	_, err := variation.ReadChart("", strings.NewReader("position,legend\n"+strings.Repeat("47N 19W,3°50′W 2014\n", 101)))
	if _, ok := errors.AsType[*variation.Error](err); !ok {
		t.Errorf("%.300v", err)
	}
}
