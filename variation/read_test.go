package variation_test

import (
	"errors"
	"io"
	"os"
	"strings"
	"testing"
	"testing/iotest"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/variation"
)

// All these are one chart.
var sameChart = map[string]string{
	"CSV": "name,position,legend\n" +
		"Orlesk Head,47°05′N 019°10′W,3°50′W 2014 (9′E)\n" +
		"Minnow Ledge,47°25′N 018°40′W,3°30′W 2014 (9′E)\n",
	"CSV, other columns' order, comments, blank lines": "# invented\nlegend, position ,Name\n\n" +
		"3°50′W 2014 (9′E), 47°05′N 019°10′W ,Orlesk Head\n# another\n" +
		"\"3°30′W 2014 (9′E)\",\"47°25′N, 018°40′W\",Minnow Ledge\n",
	"CSV of a spreadsheet": "\ufeffname,position,legend\r\n" +
		"Orlesk Head,\"47.083333333333, -19.166666666667\",3°50′W 2014 (9′E)\r\n" +
		"Minnow Ledge,\"47.416666666667, -18.666666666667\",3°30′W 2014 (9′E)\r\n",
	"JSON": `[{"name": "Orlesk Head", "position": "47°05′N 019°10′W", "legend": "3°50′W 2014 (9′E)"},
		{"legend": "3°30′W 2014 (9′E)", "name": "Minnow Ledge", "position": "47°25′N 018°40′W"}]`,
}

func TestReadChart(t *testing.T) {
	for form, text := range sameChart {
		c, err := variation.ReadChart("Orlesk approaches", strings.NewReader(text))
		if err != nil {
			t.Errorf("%s: %v", form, err)
			continue
		}
		roses := c.Roses()
		if len(roses) != 2 || c.Name() != "Orlesk approaches" {
			t.Fatalf("%s: %d roses on %s", form, len(roses), c.Name())
		}
		for i, want := range []struct {
			name, position, legend string
		}{
			{"Orlesk Head", "47°05.0′N 019°10.0′W", "3°50′W 2014 (9′E)"},
			{"Minnow Ledge", "47°25.0′N 018°40.0′W", "3°30′W 2014 (9′E)"},
		} {
			if r := roses[i]; r.Name != want.name || r.Position.String() != want.position || r.Rose.String() != want.legend {
				t.Errorf("%s: %+v, want %+v", form, r, want)
			}
		}
	}
}

func TestReadChartWithoutNames(t *testing.T) {
	c, err := variation.ReadChart("", strings.NewReader("position,legend\n47N 19W,3°50′W 2014\n"))
	if err != nil || len(c.Roses()) != 1 || c.Roses()[0].Name != "" {
		t.Errorf("%+v, %v", c, err)
	}
}

func TestTheRepositorysChartFiles(t *testing.T) {
	for _, file := range []string{"testdata/orlesk.csv", "testdata/orlesk.json"} {
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		c, err := variation.ReadChart("", f)
		f.Close()
		if err != nil || len(c.Roses()) != 3 {
			t.Errorf("%s: %v", file, err)
		}
	}
}

func TestFilesThatMakeNoChart(t *testing.T) {
	const header = "name,position,legend\n"
	for _, c := range []struct {
		name, text string
		line       int
		column     string
		want       string
	}{
		{"empty", "", 0, "", "empty"},
		{"blank", " \n\n", 0, "", "empty"},
		{"no rows", header, 0, "", "no rows"},
		{"no rows in JSON", "[]", 0, "", "no rows"},
		{"no legend", "name,position\nx,47N 19W\n", 1, "", `no column "legend"`},
		{"a column unknown", "\n# c\nname,position,legend,scale\n", 3, "", `unknown column "scale"`},
		{"a column twice", "legend,position,legend\n", 1, "", "twice"},
		{"too few fields", header + "x,47N 19W\n", 2, "", "2 fields under 3 columns"},
		{"an open quote", header + "x,47N 19W,\"3°50′W 2014\n", 2, "", "quote"},
		{"no position", header + "x,,3°50′W 2014\n", 2, "position", "every row needs a value"},
		{"no position at all in JSON", "[{\"legend\": \"3°50′W 2014\"}]", 1, "position", "every row needs a value"},
		{"a bad position", header + "x,47N 19W,3°50′W 2014\n\ny,47N 191W,3°50′W 2014\n", 4, "position", "180° W to 180° E"},
		{"the longitude first", header + "x,19W 47N,3°50′W 2014\n", 2, "position", "N or S"},
		{"a bad legend", header + "x,47N 19W,3°50′W\n", 2, "legend", "no year"},
		{"a bad legend in JSON", "[\n {\"position\": \"47N 19W\",\n  \"legend\": \"3°61′W 2014\"}]", 3, "legend", "minutes out of range"},
		{"a number for a legend", "[{\"position\": \"47N 19W\", \"legend\": 3.5}]", 1, "legend", "no year"},
		{"a list for a legend", "[{\"position\": \"47N 19W\", \"legend\": [3]}]", 1, "legend", "a string or a number"},
		{"JSON that ends", "[{\"position\": \"47N 19W\"", 1, "", "ends"},
		{"JSON and more", "[{\"position\": \"47N 19W\", \"legend\": \"3°50′W 2014\"}]\nx", 2, "", ""},
		{"a JSON object", "{}", 1, "", ""},
	} {
		chart, err := variation.ReadChart("", strings.NewReader(c.text))
		e, ok := errors.AsType[*record.Error](err)
		if !ok || chart != nil {
			t.Errorf("%s: %v, %v", c.name, chart, err)
			continue
		}
		if e.Line != c.line || e.Column != c.column || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: line %d, column %q: %v; want line %d, column %q: %s", c.name, e.Line, e.Column, err, c.line, c.column, c.want)
		}
	}
}

func TestReadChartErrorsWrapTheCause(t *testing.T) {
	read := func(row string) error {
		_, err := variation.ReadChart("", strings.NewReader("position,legend\n"+row))
		return err
	}
	if p, ok := errors.AsType[*angle.ParseError](read("47N,3°50′W 2014\n")); !ok || p.Kind != angle.NoNumber {
		t.Errorf("a position: %v", p)
	}
	if e, ok := errors.AsType[*variation.Error](read("47N 19W,3°50′ 2014\n")); !ok || e.Kind != variation.NoName {
		t.Errorf("a legend: %v", e)
	}
	e, ok := errors.AsType[*variation.Error](read("47N 19W,3°50′W 2014\n47N 19W,3°50′W 2015\n"))
	if !ok || !strings.Contains(e.Reason, "at the same place") {
		t.Errorf("two at one place: %v", e)
	}
	_, err := variation.ReadChart("", iotest.ErrReader(io.ErrClosedPipe))
	if !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("a broken reader: %v", err)
	}
}
