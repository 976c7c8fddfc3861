package deviation_test

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/iotest"

	"lubberline.example/deviation/internal/devtest"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/deviation"
)

// csvTable is a table by compass of eight rows: line 1 names the columns, row n
// stands on line n + 2.
var csvTable = []string{
	"compass,deviation",
	"000,2°E", "045,3°30′E", "090,-1.5", "135,2½°W", "180,0", "225,W1", "270,1.5", "315,1°30′E",
}

// sameTable is that table in other forms.
var sameTable = map[string]string{
	"CSV":                    strings.Join(csvTable, "\n"),
	"a final newline":        strings.Join(csvTable, "\n") + "\n",
	"line ends of a PC":      strings.Join(csvTable, "\r\n") + "\r\n",
	"a byte order mark":      "\ufeff" + strings.Join(csvTable, "\n"),
	"comments, blank lines":  "# invented\n\n" + strings.Join(csvTable, "\n\n# more\n"),
	"blanks, quotes":         "\n  \"Compass\", \"DEVIATION\"\n\"000\", \"2°E\"\n045 , 3°30′E \n 090,-1.5\n135,2½°W\n180,0\n225,W1\n270,1.5\n315,1°30′E\n",
	"other columns' order":   "deviation,compass\n2°E,000\n3°30′E,045\n-1.5,090\n2½°W,135\n0,180\nW1,225\n1.5,270\n1°30′E,315\n",
	"other rows' order":      "compass,deviation\n315,1°30′E\n270,1.5\n225,W1\n180,0\n135,2½°W\n090,-1.5\n045,3°30′E\n000,2°E\n",
	"a closing row":          strings.Join(csvTable, "\n") + "\n360,2°E\n",
	"a closing row, decimal": strings.Join(csvTable, "\n") + "\n360.0°C,2.0\n",
	"360 instead of 000":     "compass,deviation\n045,3°30′E\n090,-1.5\n135,2½°W\n180,0\n225,W1\n270,1.5\n315,1°30′E\n360,2°E\n",
	"points":                 "compass,deviation\nN,2°E\nNE,3°30′E\nE,-1.5\nSE,2½°W\nS,0\nSW,W1\nW,1.5\nNW,1°30′E\n",
	"an empty column":        "compass,deviation,uncertainty\n000,2°E,\n045,3°30′E,\n090,-1.5,\n135,2½°W,\n180,0,\n225,W1,\n270,1.5,\n315,1°30′E,\n",
	"JSON": `[{"compass": "000", "deviation": "2°E"}, {"compass": "045", "deviation": "3°30′E"},
		{"compass": 90, "deviation": -1.5}, {"deviation": "2½°W", "compass": "135"},
		{"compass": 180, "deviation": 0}, {"compass": "225°C", "deviation": "W1"},
		{"compass": 270.0, "deviation": 1.5, "uncertainty": null}, {"Compass": "315", "Deviation": "1°30′E"}]`,
}

func TestReadTable(t *testing.T) {
	want := devtest.MustTable(t, by45(2, 3.5, -1.5, -2.5, 0, -1, 1.5, 1.5)).Entries()
	wantMagnetic := devtest.MustTable(t, devtest.AsMagnetic(by45(2, 3.5, -1.5, -2.5, 0, -1, 1.5, 1.5))).Entries()
	for form, text := range sameTable {
		table, err := deviation.ReadTable(strings.NewReader(text))
		if err != nil {
			t.Errorf("%s: %v", form, err)
			continue
		}
		if table.By() != deviation.ByCompass || table.IsSmooth() || !slices.Equal(table.Entries(), want) {
			t.Errorf("%s: by %v, %v\nwant %v", form, table.By(), table.Entries(), want)
		}
		// The same file by magnetic heading.
		text = strings.NewReplacer("compass", "magnetic", "Compass", "Magnetic", "°C", "°M").Replace(text)
		if table, err = deviation.ReadTable(strings.NewReader(text)); err != nil || table.By() != deviation.ByMagnetic || !slices.Equal(table.Entries(), wantMagnetic) {
			t.Errorf("%s, by magnetic: %v", form, err)
		}
	}
}

func TestReadTableWithUncertainties(t *testing.T) {
	table, err := deviation.ReadTable(strings.NewReader("magnetic,deviation,uncertainty\n" +
		"000,2°E,0°30′\n045,2°E ±1°,0.5\n090,0,±0°30′\n135,0,30′\n180,0,0.5\n225,0,0.5\n270,0,0.5\n315,0,0\n360,2°E,0.5\n"))
	if err != nil {
		t.Fatal(err)
	}
	for i, e := range table.Entries() {
		want := 30 * devtest.Minute
		if i == 7 {
			want = 0
		}
		if s, stated := e.Deviation.Uncertainty().Sigma(); s != want || !stated {
			t.Errorf("on %v: %v, %v", e.Magnetic, s, stated)
		}
	}
}

func TestTheRepositorysTables(t *testing.T) {
	for _, file := range []string{"testdata/quillon.csv", "testdata/quillon.json"} {
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		table, err := deviation.ReadTable(f)
		f.Close()
		if err != nil || len(table.Entries()) != 24 || !table.Ordered() {
			t.Errorf("%s: %v", file, err)
		}
	}
}

func TestFilesThatMakeNoTable(t *testing.T) {
	// with is the table with a line instead of another, or after the last.
	with := func(line int, text string) string {
		lines := append(slices.Clone(csvTable), "")
		lines[line-1] = text
		return strings.Join(lines, "\n")
	}
	for _, c := range []struct {
		name, text string
		line       int
		column     string
		want       string
	}{
		{"empty", "", 0, "", "empty"},
		{"no rows", "compass,deviation\n# nothing\n", 0, "", "no rows"},
		{"no deviation", "compass\n000\n", 1, "", `no column "deviation"`},
		{"no heading", "deviation\n2\n", 2, "", "there is no heading; give a column compass or magnetic"},
		{"by the Sun", "true,deviation\n000,2\n", 1, "", `unknown column "true"`},
		{"both columns", "compass,magnetic,deviation\n000,002,2\n", 2, "magnetic", "give the one by which the table is kept"},
		{"mixed columns", "compass,magnetic,deviation\n000,,2\n,045,2\n", 3, "compass", "every row needs its heading in the column compass"},
		{"mixed columns, both", "magnetic,compass,deviation\n000,,2\n045,043,2\n", 3, "compass", "every row needs its heading in the column magnetic"},
		{"mixed objects", "[{\"compass\": 0, \"deviation\": 2},\n{\"magnetic\": 45, \"deviation\": 2}]", 2, "compass", "every row needs its heading"},
		{"a heading missing", with(4, ",2"), 4, "compass", "every row needs its heading"},
		{"a deviation missing", with(4, "090,"), 4, "deviation", "every row needs a value"},
		{"a field missing", with(4, "090"), 4, "", "1 fields under 2 columns"},
		{"an invalid heading", with(4, "361,2"), 4, "compass", "0° to 360°"},
		{"a negative heading", with(4, "-90,2"), 4, "compass", "sign not allowed"},
		{"the other north", with(4, "090°M,2"), 4, "compass", "wrong north"},
		{"an invalid deviation", with(4, "090,2°N"), 4, "deviation", "E or W"},
		{"minutes without a name", with(4, "090,2°30′"), 4, "deviation", "missing name"},
		{"61′", with(4, "090,2°61′E"), 4, "deviation", "minutes out of range"},
		{"NaN", with(4, "090,NaN"), 4, "deviation", "is not an angle"},
		{"a decimal comma", with(4, "090,\"2,5E\""), 4, "deviation", "bad separator"},
		{"too large", with(4, "090,90.1"), 4, "deviation", "at most 90°"},
		{"beyond half a turn", with(4, "090,270"), 4, "deviation", "180° W to 180° E"},
		{"given twice", with(10, "090,-1.5"), 10, "compass", "given twice"},
		{"given twice, by 360 and 000", with(4, "360,1"), 4, "compass", "the heading is given twice, with 2°00′E and 1°00′E"},
		{"a closing row that differs", with(10, "360,1"), 10, "compass", "given twice"},
		{"a closing row that differs in its uncertainty", with(10, "360,2°E ±1°"), 10, "compass", ""},
		{"a second 000", with(10, "000,2°E"), 10, "compass", "given twice"},
		{"a closing row before the end", with(10, "360,2°E\n350,1"), 10, "compass", "given twice"},
		{"a gap", with(4, "# 090,-1.5"), 3, "compass", "the next row is on 135°C, 90°00′ away"},
		{"a gap over north", with(2, "# 000,2°E"), 9, "compass", "the next row is on 045°C, 90°00′ away"},
		{"two rows", "compass,deviation\n000,2\n180,2\n", 2, "compass", "the next row is on 180°C, 180°00′ away"},
		{"an uncertainty on one", "compass,deviation,uncertainty\n000,2,1\n045,2,\n090,2,1\n135,2,1\n180,2,1\n225,2,1\n270,2,1\n315,2,1\n", 3, "compass", "on all or on none"},
		{"a negative uncertainty", "compass,deviation,uncertainty\n000,2,-1\n", 2, "uncertainty", "0° or more"},
		{"an invalid uncertainty", "compass,deviation,uncertainty\n000,2,±\n", 2, "uncertainty", ""},
		{"JSON that is cut off", "[{\"compass\": 0,\n \"deviation\": 2},\n", 2, "", "the file ends"},
		{"JSON with a list in it", "[\n{\"compass\": 0,\n \"deviation\": [2]}]", 3, "deviation", "a string or a number"},
		{"JSON of numbers", "[1, 2]", 1, "", "an object for each row"},
		{"JSON with a bad deviation", "[\n{\"compass\": 0,\n \"deviation\": \"2N\"}]", 3, "deviation", "E or W"},
	} {
		table, err := deviation.ReadTable(strings.NewReader(c.text))
		e, ok := errors.AsType[*record.Error](err)
		if !ok || table != nil {
			t.Errorf("%s: %v, %v", c.name, table, err)
			continue
		}
		if e.Line != c.line || e.Column != c.column || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: line %d, column %q: %v; want line %d, column %q: %s", c.name, e.Line, e.Column, err, c.line, c.column, c.want)
		}
		if c.line > 0 && !strings.HasPrefix(err.Error(), fmt.Sprintf("line %d", c.line)) {
			t.Errorf("%s: the message does not say the line: %v", c.name, err)
		}
	}
}

func TestReadTableErrorsWrapTheCause(t *testing.T) {
	read := func(text string) error {
		_, err := deviation.ReadTable(strings.NewReader(text))
		return err
	}
	if e, ok := errors.AsType[*deviation.Error](read("compass,deviation\n000,2\n")); !ok || e.Kind != deviation.GapTooWide || e.Row != 0 {
		t.Errorf("%+v", e)
	}
	if p, ok := errors.AsType[*angle.ParseError](read("magnetic,deviation\n000°T,2\n")); !ok || p.Kind != angle.WrongNorth {
		t.Errorf("%+v", p)
	}
	_, err := deviation.ReadTable(iotest.ErrReader(io.ErrClosedPipe))
	if _, ok := errors.AsType[*record.Error](err); !ok || !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("a broken reader: %v", err)
	}
}
