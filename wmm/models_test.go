package wmm_test

import (
	"bufio"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"lubberline.example/wmm"
)

func TestModelsThatComeWithThePackage(t *testing.T) {
	for _, tt := range []struct {
		model        *wmm.Model
		name, text   string
		epoch, until float64
	}{
		{wmm.WMM2025(), "WMM-2025", "WMM-2025, degree 12, 2025.0 to 2030.0", 2025, 2030},
		{wmm.WMM2020(), "WMM-2020", "WMM-2020, degree 12, 2020.0 to 2025.0", 2020, 2025},
		{wmm.WMM2015v2(), "WMM-2015v2", "WMM-2015v2, degree 12, 2015.0 to 2020.0", 2015, 2020},
	} {
		t.Run(tt.name, func(t *testing.T) {
			m := tt.model
			from, until := m.Valid()
			if m.Name() != tt.name || m.String() != tt.text || from != tt.epoch || until != tt.until || m.Degree() != 12 {
				t.Errorf("%q, %v, %v to %v", m.Name(), m, from, until)
			}
			if m.Uncertainty() == (wmm.UncertaintyModel{}) {
				t.Error("no published uncertainty")
			}
		})
	}
}

// rowsOf are the rows of a file of coefficients, each in its fields, the header
// first.
func rowsOf(t *testing.T, r *bufio.Scanner) (rows [][]string) {
	t.Helper()
	for r.Scan() {
		if line := strings.TrimSpace(r.Text()); line != "" && !strings.HasPrefix(line, "999999") {
			rows = append(rows, strings.Fields(line))
		}
	}
	return rows
}

// unsigned is a row without the sign of its zeros.
func unsigned(row []string) string {
	var fields []string
	for _, f := range row {
		if f == "-0.0" {
			f = "0.0"
		}
		fields = append(fields, f)
	}
	return strings.Join(fields, " ")
}

// The embedded coefficients are those published, row by row.
func TestEmbeddedCoefficientsAreAsPublished(t *testing.T) {
	for _, name := range []string{"WMM2025", "WMM2020", "WMM2015v2"} {
		t.Run(name, func(t *testing.T) {
			f, err := os.Open(filepath.Join("coefficients", name+".COF"))
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			here := rowsOf(t, bufio.NewScanner(f))
			there := rowsOf(t, bufio.NewScanner(openShared(t, name+".COF")))
			if len(here) != 91 || len(there) != 91 {
				t.Fatalf("%d and %d rows: want 91", len(here), len(there))
			}
			for i := range here {
				// The sign of zero does not count.
				a, b := unsigned(here[i]), unsigned(there[i])
				if a != b {
					t.Errorf("row %d: %q, want %q", i, a, b)
				}
			}
		})
	}
}

// Of two models valid at a date, the set prefers the one released last.
func TestModelForDate(t *testing.T) {
	s := wmm.Models()
	for _, tt := range []struct {
		year float64
		want string
	}{
		{1899.9, ""}, {1900, "IGRF-14 1900.0"}, {2014.9, "IGRF-14 2010.0"}, {math.Nextafter(2015, 0), "IGRF-14 2010.0"}, {2015, "WMM-2015v2"}, {2019.99, "WMM-2015v2"}, {2020, "WMM-2020"}, {2024.99, "WMM-2020"},
		{2025, "WMM-2025"}, {2030, "WMM-2025"}, {math.Nextafter(2030, 3000), ""}, {2030.01, ""}, {math.NaN(), ""}, {math.Inf(1), ""}, {math.Inf(-1), ""},
	} {
		e, err := s.InYear(tt.year)
		m := e.Model()
		if tt.want == "" {
			if !isOutside(err, "the set of WMM-2025, WMM-2020, WMM-2015v2, IGRF-14 ", "from 1900.0 to 2030.0") {
				t.Errorf("%v: %v, %v", tt.year, m, err)
			}
			continue
		}
		if err != nil || m.Name() != tt.want || e.Year() != tt.year {
			t.Errorf("%v: %v, %v: want %s", tt.year, m, err, tt.want)
		}
	}
	on, err := s.On(time.Date(2022, time.July, 2, 12, 0, 0, 0, time.UTC))
	if err != nil || on.Year() != 2022.5 || on.Model() != wmm.WMM2020() {
		t.Errorf("%v, %v", on, err)
	}
	if _, err := s.On(time.Date(2031, time.July, 2, 12, 0, 0, 0, time.UTC)); err == nil {
		t.Error("2031 is answered")
	}
}

func TestSets(t *testing.T) {
	for _, models := range [][]*wmm.Model{nil, {nil}, {wmm.WMM2025(), nil}} {
		if s, err := wmm.NewSet(models...); err == nil {
			t.Errorf("%v of %v", s, models)
		}
	}
	one := must(wmm.NewSet(wmm.WMM2015v2()))(t)
	two := must(one.With(wmm.WMM2025()))(t)
	if len(one.Models()) != 1 || len(two.Models()) != 2 || two.Models()[0] != wmm.WMM2025() {
		t.Errorf("%v, %v", one.Models(), two.Models())
	}
	two.Models()[0] = nil
	if two.Models()[0] == nil {
		t.Error("a set can be changed")
	}
	// In a gap between its models, the error names the years of the gap.
	_, err := two.InYear(2022)
	if want := "wmm: the set of WMM-2025, WMM-2015v2 is not valid in 2022.0; give a date from 2015.0 to 2030.0, but not from 2020.0 to 2025.0"; !isOutside(err) || err == nil || err.Error() != want {
		t.Errorf("%v, want %s", err, want)
	}
	for _, year := range []float64{2014, 2031, math.NaN()} {
		if _, err := two.InYear(year); !isOutside(err) || isOutside(err, "but not") {
			t.Error(err)
		}
	}
	many := make([]*wmm.Model, 7)
	for i := range many {
		many[i] = must(wmm.ReadCOF(strings.NewReader(dipole(fmt.Sprintf("%d.0 M%d", 2000+i, i)))))(t)
	}
	if _, err := must(wmm.NewSet(many...))(t).InYear(1); !isOutside(err, "M6, M5, M4, M3, M2, 2 more") {
		t.Error(err)
	}
	// A model cannot occur twice.
	for name, again := range map[string]func() (*wmm.Set, error){
		"added": func() (*wmm.Set, error) { return wmm.Models().With(wmm.WMM2020()) },
		"changed, added": func() (*wmm.Set, error) {
			return wmm.Models().With(wmm.WMM2020().WithUncertainty(wmm.UncertaintyModel{X: 1}))
		},
		"two at once": func() (*wmm.Set, error) { return wmm.NewSet(wmm.WMM2025(), wmm.WMM2020(), wmm.WMM2020()) },
	} {
		s, err := again()
		if e, ok := errors.AsType[*wmm.Error](err); !ok || s != nil || e.Kind != wmm.DuplicateModel || !strings.Contains(e.Error(), `"WMM-2020" of 2020.0 occurs twice`) {
			t.Errorf("%s: %v, %v", name, s, err)
		}
	}
	// With one day of release, or unknown days, the later epoch is preferred.
	a := must(wmm.ReadCOF(strings.NewReader(dipole("2001.0 A"))))(t)
	b := must(wmm.ReadCOF(strings.NewReader(dipole("2003.0 B"))))(t)
	s := must(wmm.NewSet(a, b))(t)
	for year, want := range map[float64]*wmm.Model{2002: a, 2003: b, 2006: b} {
		if m, err := modelIn(s, year); m != want || err != nil {
			t.Errorf("%v: %v, %v", year, m, err)
		}
	}
	// With one day and one epoch, the higher degree is preferred, such as that of a
	// high-resolution model. Then the first given is preferred.
	coarse, again := must(wmm.ReadCOF(strings.NewReader(dipole("2003.0 COARSE"))))(t), must(wmm.ReadCOF(strings.NewReader(dipole("2003.0 AGAIN"))))(t)
	fine := must(wmm.ReadCOF(strings.NewReader("2003.0 FINE\n1 0 1 0 0 0\n1 1 1 1 0 0\n2 0 1 0 0 0\n2 1 1 1 0 0\n2 2 1 1 0 0\n" + nines)))(t)
	for want, models := range map[*wmm.Model][]*wmm.Model{fine: {coarse, fine}, coarse: {coarse, again}, again: {again, coarse}} {
		if m, err := modelIn(must(wmm.NewSet(models...))(t), 2004); m != want || err != nil {
			t.Errorf("%v: %v, want %v", models, m, want)
		}
	}
	if a.Uncertainty() != (wmm.UncertaintyModel{}) {
		t.Errorf("a model of unknown uncertainty: %v", a.Uncertainty())
	}
}

// Dates outside a model's years are refused, except by Extrapolate.
func TestDates(t *testing.T) {
	m := wmm.WMM2025()
	for _, year := range []float64{2024.999, 2030.001, math.NaN(), math.Inf(1), math.Inf(-1)} {
		e, err := m.InYear(year)
		if e != nil || !isOutside(err, "WMM-2025 ", "from 2025.0 to 2030.0") {
			t.Errorf("%v: %v, %v", year, e, err)
		}
	}
	if e, err := m.On(time.Date(2024, time.December, 31, 0, 0, 0, 0, time.UTC)); err == nil {
		t.Error(e)
	} else if !strings.Contains(err.Error(), "WMM-2025 is not valid in 2024.9973; give a date from 2025.0 to 2030.0") {
		t.Error(err)
	}
	for _, tt := range []struct {
		year float64
		ok   bool
	}{
		{2025, true}, {2027.5, true}, {2030, true}, {2024, true}, {2031, true},
		{1975, true}, {2080, true}, {1974, false}, {2081, false}, {math.NaN(), false},
	} {
		e, err := m.Extrapolate(tt.year)
		if !tt.ok {
			if e != nil || !isOutside(err, "from 1975.0 to 2080.0") {
				t.Errorf("%v: %v, %v", tt.year, e, err)
			}
			continue
		}
		if err != nil || e.Year() != tt.year {
			t.Errorf("%v: %v, %v", tt.year, e, err)
		}
	}
	// The rates stay the same.
	f, r, _ := inYear(t, m, 2030).FieldAndRates(at(47, -19), 0)
	beyond, _ := must(m.Extrapolate(2040))(t).Field(at(47, -19), 0)
	if want := (wmm.Field{X: f.X + 10*r.X, Y: f.Y + 10*r.Y, Z: f.Z + 10*r.Z}); !nearField(beyond, want, 1e-8) {
		t.Errorf("%v, want %v", beyond, want)
	}
}

func TestErrorText(t *testing.T) {
	for want, err := range map[string]error{
		"wmm: line 7: degree 2, order 1 is missing": &wmm.Error{Line: 7, Kind: wmm.MissingRow, Reason: "degree 2, order 1 is missing"},
		"wmm: no grid": &wmm.Error{Kind: wmm.BadGrid, Reason: "no grid"},
	} {
		if err.Error() != want {
			t.Errorf("%q, want %q", err, want)
		}
	}
}
