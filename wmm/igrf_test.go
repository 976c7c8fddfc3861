package wmm_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

const (
	igrfHead = "# 14th Generation\n# in nT\nc/s deg ord IGRF IGRF SV\ng/h n m 2015.0 2020.0 2020-25\n"
	i10      = "g 1 0 -29441.5 -29403.4 12.6\n"
	i11      = "g 1 1 -1501.8 -1451.4 10.0\n"
	h11      = "h 1 1 4796.0 4653.4 -21.5\n"
	i20      = "g 2 0 -2445.9 -2500.0 -11.2\n"
	i21      = "g 2 1 3012.2 2982.0 -5.3\n"
)

func TestReadIGRFRefuses(t *testing.T) {
	for _, tt := range []refused{
		{"empty", "", 0, wmm.Truncated, "no line of epochs"},
		{"comments only", "#\n# 14th\n", 2, wmm.Truncated, "no line of epochs"},
		{"other text", "# x\nhello\n", 2, wmm.BadHeader, "c/s"},
		{"no names", "g/h 2015.0 2020.0 2020-25 x\n", 1, wmm.BadHeader, "g/h n m"},
		{"no epochs", "g/h n m 2020-25\n", 1, wmm.BadHeader, "g/h n m"},
		{"epoch no number", "g/h n m x 2020-25\n", 1, wmm.BadHeader, `"x"`},
		{"epoch far off", "g/h n m 999 2020-25\n", 1, wmm.BadHeader, "999"},
		{"epochs out of order", "g/h n m 2020 2015 2020-25\n", 1, wmm.BadHeader, "after"},
		{"epoch twice", "g/h n m 2020 2020 2020-25\n", 1, wmm.BadHeader, "after"},
		{"no rate", "g/h n m 2015.0 2020.0\n", 1, wmm.BadHeader, "last column"},
		{"no rows", igrfHead, 4, wmm.Truncated, "g of degree 1, order 0"},
		{"cut after g", igrfHead + i10, 5, wmm.Truncated, "g of degree 1, order 1"},
		{"cut before h", igrfHead + i10 + i11, 6, wmm.Truncated, "h of degree 1, order 1"},
		{"cut in degree 2", igrfHead + i10 + i11 + h11 + i20, 8, wmm.Truncated, "g of degree 2, order 1"},
		{"h missing", igrfHead + i10 + i11 + i20, 7, wmm.MissingRow, "degree 1, order 1"},
		{"g missing", igrfHead + i10 + h11, 6, wmm.WrongOrder, "stands where g must come"},
		{"row missing", igrfHead + i11 + h11, 5, wmm.MissingRow, "degree 1, order 0"},
		{"g twice", igrfHead + i10 + i10, 6, wmm.DuplicateRow, "order 0 occurs twice"},
		{"g twice before h", igrfHead + i10 + i11 + i11, 7, wmm.DuplicateRow, "g of degree 1, order 1 occurs twice"},
		{"h twice", igrfHead + i10 + i11 + h11 + h11, 8, wmm.DuplicateRow, "order 1 occurs twice"},
		{"out of order", igrfHead + i21, 5, wmm.WrongOrder, "must come"},
		{"neither g nor h", igrfHead + "q 1 0 0 0 0\n", 5, wmm.WrongOrder, `"q"`},
		{"h of order 0", igrfHead + "h 1 0 0 0 0\n", 5, wmm.WrongOrder, "stands where g must come"},
		{"too few", igrfHead + "g 1 0 0 0\n", 5, wmm.BadNumber, "write 6"},
		{"too many", igrfHead + "g 1 0 0 0 0 0\n", 5, wmm.BadNumber, "write 6"},
		{"NaN", igrfHead + "g 1 0 NaN 0 0\n", 5, wmm.BadNumber, "NaN"},
		{"infinite", igrfHead + "g 1 0 0 +Inf 0\n", 5, wmm.BadNumber, "Inf"},
		{"huge", igrfHead + "g 1 0 0 0 -1e7\n", 5, wmm.BadNumber, "-1e7"},
		{"order no number", igrfHead + "g 1 o 0 0 0\n", 5, wmm.BadNumber, "whole numbers"},
		{"long line", igrfHead + i10 + strings.Repeat("2", 1<<20+1), 6, wmm.BadNumber, "million"},
		{"long first line", strings.Repeat("#", 1<<20+1), 1, wmm.BadNumber, "million"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s, err := wmm.ReadIGRF(strings.NewReader(tt.text))
			if s != nil {
				t.Errorf("read as %v", s.Models())
			}
			tt.check(t, err)
		})
	}
	t.Run("degree", func(t *testing.T) {
		var b strings.Builder
		b.WriteString("g/h n m 2020.0 2020-25\n")
		for n := 1; n <= wmm.MaxDegree; n++ {
			for m := 0; m <= n; m++ {
				fmt.Fprintf(&b, "g %d %d 0 0\n", n, m)
				if m > 0 {
					fmt.Fprintf(&b, "h %d %d 0 0\n", n, m)
				}
			}
		}
		_, err := wmm.ReadIGRF(strings.NewReader(b.String() + "g 801 0 0 0\n"))
		refused{line: 2 + 800*802, kind: wmm.TooLarge, reason: "800"}.check(t, err)
	})
}

func TestReadIGRFAccepts(t *testing.T) {
	for name, text := range map[string]string{
		"as published": igrfHead + i10 + i11 + h11,
		"CRLF":         strings.ReplaceAll(igrfHead+i10+i11+h11, "\n", "\r\n"),
		"blank lines":  strings.ReplaceAll(igrfHead+i10+i11+h11, "\n", "\n\n"),
		"no comments":  strings.TrimPrefix(igrfHead, "# 14th Generation\n# in nT\n") + i10 + i11 + h11,
	} {
		t.Run(name, func(t *testing.T) {
			s := must(wmm.ReadIGRF(strings.NewReader(text)))(t)
			generation := "IGRF-14"
			if name == "no comments" {
				generation = "IGRF"
			}
			var got []string
			for _, m := range s.Models() {
				got = append(got, m.String())
			}
			want := []string{generation + " 2020.0, degree 1, 2020.0 to 2025.0", generation + " 2015.0, degree 1, 2015.0 to 2020.0"}
			if fmt.Sprint(got) != fmt.Sprint(want) {
				t.Errorf("%q, want %q", got, want)
			}
			for _, year := range []float64{2014.9, 2025.1} {
				if _, err := s.InYear(year); !isOutside(err, "from 2015.0 to 2025.0") {
					t.Errorf("%v: %v", year, err)
				}
			}
		})
	}
}

// fieldIn is the field off Orlesk by a set.
func fieldIn(t *testing.T, s *wmm.Set, year float64) wmm.Field {
	t.Helper()
	return must(must(s.InYear(year))(t).Field(at(47, -19), 0))(t)
}

// Between epochs the field goes linearly; after the last by its rate.
func TestIGRFGoesLinearly(t *testing.T) {
	s := must(wmm.ReadIGRF(strings.NewReader(igrfHead + i10 + i11 + h11)))(t)
	a, b := fieldIn(t, s, 2015), fieldIn(t, s, 2020)
	_, rates, _ := must(s.InYear(2020))(t).FieldAndRates(at(47, -19), 0)
	for _, years := range []float64{0, 0.5, 1, 2.75, 5} {
		between := wmm.Field{X: a.X + (b.X-a.X)*years/5, Y: a.Y + (b.Y-a.Y)*years/5, Z: a.Z + (b.Z-a.Z)*years/5}
		if got := fieldIn(t, s, 2015+years); !nearField(got, between, 1e-8) {
			t.Errorf("%v years on: %v, want %v", years, got, between)
		}
		after := wmm.Field{X: b.X + rates.X*years, Y: b.Y + rates.Y*years, Z: b.Z + rates.Z*years}
		if got := fieldIn(t, s, 2020+years); !nearField(got, after, 1e-8) {
			t.Errorf("%v years after the last: %v, want %v", years, got, after)
		}
	}
}

// Epochs may stand other than five years apart.
func TestEpochsOtherThanFiveYearsApart(t *testing.T) {
	s := must(wmm.ReadIGRF(strings.NewReader("c/s deg ord x\ng/h n m 2012.0 2020.0 2020-25\n" + i10 + i11 + h11)))(t)
	a, b := fieldIn(t, s, 2012), fieldIn(t, s, 2020)
	for _, years := range []float64{0, 1, 4, 6.5, 8} {
		want := wmm.Field{X: a.X + (b.X-a.X)*years/8, Y: a.Y + (b.Y-a.Y)*years/8, Z: a.Z + (b.Z-a.Z)*years/8}
		if got := fieldIn(t, s, 2012+years); !nearField(got, want, 1e-8) {
			t.Errorf("%v years on: %v, want %v", years, got, want)
		}
	}
}

// A degree may be zero at an epoch and grow. Its rate counts from the first day in
// the field, in the rates and in the variation.
func TestDegreesThatGrow(t *testing.T) {
	s := must(wmm.ReadIGRF(strings.NewReader(igrfHead + i10 + i11 + h11 +
		"g 2 0 0 -2500 0\ng 2 1 0 2982 0\nh 2 1 0 -2991 0\ng 2 2 0 1677 0\nh 2 2 0 -734 0\n")))(t)
	var before wmm.Field
	for i, year := range []float64{2015, 2016, 2018} {
		e := must(s.InYear(year))(t)
		f, r, err := e.FieldAndRates(at(47, -19), 0)
		if err != nil {
			t.Fatal(err)
		}
		if g := fieldIn(t, s, year); !nearField(f, g, 1e-9) {
			t.Errorf("%v: field %v with its rates, %v without", year, f, g)
		}
		if i > 0 {
			span := year - []float64{2015, 2015, 2016}[i]
			if want := (wmm.Field{X: (f.X - before.X) / span, Y: (f.Y - before.Y) / span, Z: (f.Z - before.Z) / span}); !nearField(wmm.Field(r), want, 1e-8) {
				t.Errorf("%v: rates %v, want %v", year, r, want)
			}
		}
		before = f
		checkVariation(t, s, year, at(47, -19))
	}
}

// The published table: 26 epochs, of degree 10 until 1995 and 13 from 2000.
func TestIGRFAsPublished(t *testing.T) {
	s := wmm.IGRF14()
	models := s.Models()
	if len(models) != 26 {
		t.Fatalf("%d models", len(models))
	}
	for i, m := range models { // the last epoch first
		epoch := 2025 - 5*float64(i)
		degree := 13
		if epoch < 1995 { // from 1995 the rates reach the 13th
			degree = 10
		}
		from, until := m.Valid()
		if m.Name() != fmt.Sprintf("IGRF-14 %.1f", epoch) || m.Degree() != degree || from != epoch || until != epoch+5 {
			t.Errorf("%v: want epoch %v of degree %d", m, epoch, degree)
		}
	}
	a, b, got := fieldIn(t, s, 1985), fieldIn(t, s, 1990), fieldIn(t, s, 1987)
	want := wmm.Field{X: a.X + 0.4*(b.X-a.X), Y: a.Y + 0.4*(b.Y-a.Y), Z: a.Z + 0.4*(b.Z-a.Z)}
	if !nearField(got, want, 1e-8) {
		t.Errorf("1987: %v, want %v", got, want)
	}
	// The middle of 1997: the degrees above 10 grow from nothing.
	for _, year := range []float64{1900, 1950.5, 1987, 1995, 1997.5, 2000, 2030} {
		checkVariation(t, s, year, at(47, -19))
	}
	// By both models the variation off Orlesk in 2026 is the same within 0.1°.
	ours := must(inYear(t, wmm.WMM2025(), 2026).Field(at(47, -19), 0))(t)
	d, _ := ours.D()
	theirs, _ := fieldIn(t, s, 2026).D()
	if math.Abs((d - theirs).Degrees()) > 0.1 {
		t.Errorf("%v by the one, %v by the other", angle.Angle(d), theirs)
	}
}
