package wmm_test

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"
	"testing/iotest"

	"lubberline.example/wmm"
)

const nines = "999999999999999999999999\n"

// dipole is a file of degree 1 under a header.
func dipole(header string) string {
	return header + "\n1 0 -29351.8 0.0 12.0 0.0\n1 1 -1410.8 4545.4 9.7 -21.5\n" + nines
}

// A refused file, and on which line for what reason.
type refused struct {
	name, text string
	line       int
	kind       wmm.ErrorKind
	reason     string
}

func (r refused) check(t *testing.T, err error) {
	t.Helper()
	var fe *wmm.Error
	if !errors.As(err, &fe) {
		t.Fatalf("error %v: want a *Error", err)
	}
	if fe.Line != r.line || fe.Kind != r.kind || !strings.Contains(fe.Reason, r.reason) {
		t.Errorf("%v: want line %d, %s, %q", fe, r.line, r.kind, r.reason)
	}
}

const (
	head = "2025.0 WMM-2025 11/13/2024\n"
	r10  = "1 0 -29351.8 0.0 12.0 0.0\n"
	r11  = "1 1 -1410.8 4545.4 9.7 -21.5\n"
	r20  = "2 0 -2556.6 0.0 -11.6 0.0\n"
	r21  = "2 1 2951.1 -3133.6 -5.2 -27.7\n"
	r22  = "2 2 1649.3 -815.1 -8.0 -12.1\n"
)

func TestReadCOFRefuses(t *testing.T) {
	long := strings.Repeat("1", 1<<20+1)
	for _, tt := range []refused{
		{"empty", "", 0, wmm.Truncated, "empty"},
		{"blank", "\n \t\n\n", 3, wmm.Truncated, "empty"},
		{"header of one field", "2025.0\n" + r10, 1, wmm.BadHeader, "epoch"},
		{"no epoch", "WMM-2025 2025.0\n" + r10, 1, wmm.BadHeader, "epoch"},
		{"epoch before 1000", dipole("999.9 X"), 1, wmm.BadHeader, "epoch"},
		{"epoch after 3000", dipole("3000.1 X"), 1, wmm.BadHeader, "epoch"},
		{"epoch NaN", dipole("NaN X"), 1, wmm.BadHeader, "epoch"},
		{"day of release in another order", dipole("2025.0 X 2024-11-13"), 1, wmm.BadHeader, "month/day/year"},
		{"thirteenth month", dipole("2025.0 X 13/11/2024"), 1, wmm.BadHeader, "month/day/year"},
		{"radius of another sphere", dipole("2025.0 X 11/13/2024 6371.0"), 1, wmm.BadHeader, "6371.2"},
		{"radius no number", dipole("2025.0 X 11/13/2024 km"), 1, wmm.BadHeader, "6371.2"},
		{"header only", head, 1, wmm.Truncated, "line of nines"},
		{"no nines", head + r10 + r11, 3, wmm.Truncated, "line of nines"},
		{"cut in a degree", head + r10 + r11 + r20, 4, wmm.Truncated, "degree 2"},
		{"no rows", head + nines, 2, wmm.MissingRow, "degree 1, order 0"},
		{"nines within a degree", head + r10 + r11 + r20 + nines, 5, wmm.MissingRow, "degree 2, order 1"},
		{"nines within the first", head + r10 + nines, 3, wmm.MissingRow, "degree 1, order 1"},
		{"first row missing", head + r11 + nines, 2, wmm.MissingRow, "degree 1, order 0 is missing"},
		{"row missing", head + r10 + r11 + r20 + r22 + nines, 5, wmm.MissingRow, "degree 2, order 1 is missing"},
		{"last of a degree missing", head + r10 + r20 + nines, 3, wmm.MissingRow, "degree 1, order 1 is missing"},
		{"degree missing", head + r20 + r21 + r22 + nines, 2, wmm.MissingRow, "degree 1, order 0 is missing"},
		{"far ahead", head + r10 + r22 + nines, 3, wmm.WrongOrder, "where degree 1, order 1 must come"},
		{"back", head + r10 + r11 + r20 + r10 + nines, 5, wmm.WrongOrder, "where degree 2, order 1 must come"},
		{"twice", head + r10 + r10 + r11 + nines, 3, wmm.DuplicateRow, "degree 1, order 0 occurs twice"},
		{"last of a degree twice", head + r10 + r11 + r11 + nines, 4, wmm.DuplicateRow, "degree 1, order 1 occurs twice"},
		{"NaN", head + r10 + "1 1 NaN 0 0 0\n" + nines, 3, wmm.BadNumber, "NaN"},
		{"infinite", head + r10 + "1 1 0 -Inf 0 0\n" + nines, 3, wmm.BadNumber, "Inf"},
		{"huge", head + "1 0 1000001 0 0 0\n" + r11 + nines, 2, wmm.BadNumber, "1000001"},
		{"beyond float64", head + r10 + "1 1 0 0 0 1e999\n" + nines, 3, wmm.BadNumber, "1e999"},
		{"word", head + "1 0 0 0 x 0\n", 2, wmm.BadNumber, `"x"`},
		{"too few", head + "1 0 0 0 0\n", 2, wmm.BadNumber, "5 fields"},
		{"too many", head + "1 0 0 0 0 0 0\n", 2, wmm.BadNumber, "7 fields"},
		{"degree no whole number", head + "1.0 0 0 0 0 0\n", 2, wmm.BadNumber, "whole numbers"},
		{"order no number", head + "1 x 0 0 0 0\n", 2, wmm.BadNumber, "whole numbers"},
		{"order above the degree", head + "1 2 0 0 0 0\n", 2, wmm.BadNumber, "whole numbers"},
		{"order below zero", head + "1 -1 0 0 0 0\n", 2, wmm.BadNumber, "whole numbers"},
		{"degree zero", head + "0 0 0 0 0 0\n", 2, wmm.BadNumber, "whole numbers"},
		{"degree beyond int", head + "99999999999999999999 0 0 0 0 0\n", 2, wmm.BadNumber, "whole numbers"},
		{"degree whose index overflows", head + strconv.Itoa(math.MaxInt) + " 0 0 0 0 0\n", 2, wmm.WrongOrder, "must come"},
		{"h of order 0", head + "1 0 0 1 0 0\n", 2, wmm.BadNumber, "h of order 0"},
		{"rate of h of order 0", head + "1 0 0 0 0 -1\n", 2, wmm.BadNumber, "h of order 0"},
		{"text after the nines", dipole(head) + nines + "end\n", 7, wmm.WrongOrder, "after the line of nines"},
		{"long header", long, 1, wmm.BadNumber, "million"},
		{"long line", head + r10 + long, 3, wmm.BadNumber, "million"},
		{"long line after the nines", head + r10 + r11 + nines + long, 5, wmm.BadNumber, "million"},
		{"nines too few to end", head + r10 + r11 + "99999\n", 4, wmm.BadNumber, "1 fields"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			m, err := wmm.ReadCOF(strings.NewReader(tt.text))
			if m != nil {
				t.Errorf("read as %v", m)
			}
			tt.check(t, err)
		})
	}
}

func TestReadCOFAccepts(t *testing.T) {
	want, _, _ := inYear(t, must(wmm.ReadCOF(strings.NewReader(head+r10+r11+nines)))(t), 2026).FieldAndRates(at(47, -19), 0)
	for name, text := range map[string]string{
		"CRLF":                   strings.ReplaceAll(head+r10+r11+nines+nines, "\n", "\r\n"),
		"blank lines and tabs":   "\n" + strings.ReplaceAll(head+"\n"+r10+r11+"\n"+nines, " ", "\t ") + "\n\n",
		"no line end":            strings.TrimSuffix(head+r10+r11+nines, "\n"),
		"no day of release":      "2025.0 WMM-2025\n" + r10 + r11 + nines,
		"its radius":             "2025.0 WMM-2025 11/13/2024 6371.2\n" + r10 + r11 + nines,
		"a further header field": "2025.0 WMM-2025 11/13/2024 6371.2 km\n" + r10 + r11 + nines,
		"signs":                  head + "+1 +0 -29351.8 -0.0 +12.0 0.0\n" + r11 + nines,
		"six nines":              head + r10 + r11 + "999999",
		"a degree 2 of zeros":    head + r10 + r11 + "2 0 0 0 0 0\n2 1 0 0 0 0\n2 2 0 0 0 0\n" + nines,
	} {
		t.Run(name, func(t *testing.T) {
			m := must(wmm.ReadCOF(strings.NewReader(text)))(t)
			from, until := m.Valid()
			if m.Name() != "WMM-2025" || from != 2025 || until != 2030 {
				t.Errorf("%v", m)
			}
			f, err := inYear(t, m, 2026).Field(at(47, -19), 0)
			if err != nil || !nearField(f, want, 1e-8) {
				t.Errorf("%v, %v: want %v", f, err, want)
			}
		})
	}
}

// A reader that fails is not taken for the end of the file.
func TestReadersPassErrorsOn(t *testing.T) {
	broken := errors.New("the disk is wet")
	for _, text := range []string{"", head, head + r10, head + r10 + r11 + nines} {
		_, err := wmm.ReadCOF(io.MultiReader(strings.NewReader(text), iotest.ErrReader(broken)))
		if !errors.Is(err, broken) {
			t.Errorf("after %q: %v", text, err)
		}
	}
	for _, text := range []string{"", igrfHead, igrfHead + i10, igrfHead + i10 + i11 + h11} {
		_, err := wmm.ReadIGRF(io.MultiReader(strings.NewReader(text), iotest.ErrReader(broken)))
		if !errors.Is(err, broken) {
			t.Errorf("after %q: %v", text, err)
		}
	}
}

// The largest degree is read and gives numbers; one more is refused.
func TestLargestDegree(t *testing.T) {
	var b strings.Builder
	b.WriteString("2025.0 FULL\n")
	for n := 1; n <= wmm.MaxDegree; n++ {
		for m := 0; m <= n; m++ {
			h := 1
			if m == 0 {
				h = 0
			}
			fmt.Fprintf(&b, "%d %d 1 %d 0 0\n", n, m, h)
		}
	}
	m := must(wmm.ReadCOF(strings.NewReader(b.String() + nines)))(t)
	if m.Degree() != wmm.MaxDegree {
		t.Fatalf("degree %d", m.Degree())
	}
	e := inYear(t, m, 2025)
	for _, lat := range []float64{-90, -89.999, -45, 0, 30, 89.9, 90} {
		f, err := e.Field(at(lat, 17), -15_000)
		checkFinite(t, f, err)
	}
	_, err := wmm.ReadCOF(strings.NewReader(b.String() + fmt.Sprintf("%d 0 1 0 0 0\n", wmm.MaxDegree+1)))
	refused{line: 2 + wmm.MaxDegree*(wmm.MaxDegree+3)/2, kind: wmm.TooLarge, reason: "800"}.check(t, err)
}
