package wmm_test

import (
	"bufio"
	"compress/gzip"
	"encoding/csv"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

// shared is where coefficient files that are no part of the project may be.
var shared = filepath.Join("..", "..", "shared", "reference", "wmm")

// openShared opens a file that need not be there; the test is skipped without.
func openShared(t testing.TB, name string) io.Reader {
	t.Helper()
	f, err := os.Open(filepath.Join(shared, name))
	if err != nil {
		t.Skipf("%s is no part of the project and is not beside it: skipped", name)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func sharedCOF(t testing.TB, name string) *wmm.Model {
	t.Helper()
	return must(wmm.ReadCOF(openShared(t, name)))(t)
}

// must returns what a call gave, and fails the test on its error.
func must[T any](v T, err error) func(testing.TB) T {
	return func(t testing.TB) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func degrees(d float64) angle.Angle { return angle.Must(angle.Degrees(d)) }

// at is the position of a latitude and a longitude, the latter as it comes.
func at(latitude, longitude float64) angle.Position {
	return angle.Position{
		Latitude:  angle.Must(angle.LatitudeDegrees(latitude)),
		Longitude: angle.LongitudeFrom(degrees(longitude)),
	}
}

func inYear(t testing.TB, m *wmm.Model, year float64) *wmm.Evaluator {
	t.Helper()
	return must(m.InYear(year))(t)
}

func near(a, b, within float64) bool { return math.Abs(a-b) <= within }

// nearField compares the components.
func nearField(a, b wmm.Field, within float64) bool {
	return near(a.X, b.X, within) && near(a.Y, b.Y, within) && near(a.Z, b.Z, within)
}

// A record is a line of a table, by the names of its columns.
type record map[string]string

func (r record) number(t testing.TB, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		t.Fatalf("column %s: %v", column, err)
	}
	return x
}

// halfUnit is half a unit of the last digit printed in a column.
func (r record) halfUnit(column string) float64 {
	_, decimals, _ := strings.Cut(r[column], ".")
	return 0.5 * math.Pow(10, -float64(len(decimals)))
}

func (r record) position(t testing.TB, lat, lon string) angle.Position {
	return at(r.number(t, lat), r.number(t, lon))
}

// readTable reads a table of testdata, gzipped or not.
func readTable(t testing.TB, name string) []record {
	t.Helper()
	f, err := os.Open(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var r io.Reader = f
	if strings.HasSuffix(name, ".gz") {
		if r, err = gzip.NewReader(f); err != nil {
			t.Fatal(err)
		}
	}
	c := csv.NewReader(r)
	c.Comment = '#'
	rows := must(c.ReadAll())(t)
	var records []record
	for _, row := range rows[1:] {
		records = append(records, named(rows[0], row))
	}
	return records
}

func named(columns, row []string) record {
	r := record{}
	for i, column := range columns {
		r[column] = row[i]
	}
	return r
}

// readShared reads a published table as its publisher wrote it: comments, and
// columns parted by blanks.
func readShared(t testing.TB, name string, columns []string) []record {
	t.Helper()
	var records []record
	s := bufio.NewScanner(openShared(t, name))
	for s.Scan() {
		if fields := strings.Fields(s.Text()); len(fields) == len(columns) && fields[0] != "#" {
			records = append(records, named(columns, fields))
		}
	}
	return records
}

// anyPosition draws a place, the poles and the date line among them.
func anyPosition(t *rapid.T) angle.Position {
	return at(
		rapid.OneOf(rapid.Float64Range(-90, 90), rapid.SampledFrom([]float64{-90, 0, 90})).Draw(t, "latitude"),
		rapid.OneOf(rapid.Float64Range(-180, 180), rapid.SampledFrom([]float64{-180, 0, 180})).Draw(t, "longitude"),
	)
}

// anyHeight draws a height in metres.
func anyHeight(t *rapid.T) float64 {
	return rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(-15_000, 2_000_000)).Draw(t, "height")
}

// modelIn returns the model that a set chooses for a decimal year.
func modelIn(s *wmm.Set, year float64) (*wmm.Model, error) {
	e, err := s.InYear(year)
	return e.Model(), err
}

// isOutside reports whether an error says that the models are valid in other years. The error
// must have all words.
func isOutside(err error, words ...string) bool {
	e, ok := errors.AsType[*wmm.Error](err)
	if !ok || e.Kind != wmm.OutsideYears {
		return false
	}
	for _, word := range words {
		if !strings.Contains(e.Reason, word) {
			return false
		}
	}
	return true
}
