package record_test

import (
	"encoding/csv"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"pgregory.net/rapid"

	"lubberline.example/angle/record"
)

// A card of the fictional vessel Quillon; every figure is invented.
var card = record.Columns{Required: []string{"heading", "deviation"}, Optional: []string{"note", "sigma"}}

func TestReadCSV(t *testing.T) {
	rows, err := record.Read(strings.NewReader("\ufeff# Quillon, invented\nDeviation , Heading,note\n\n 2°W, 000 ,\n# swung off Minnow Ledge\n\"1,5\",045,\"two\nlines\"\n3E,090,late\n"), card)
	if err != nil {
		t.Fatal(err)
	}
	want := []struct {
		line                     int
		heading, deviation, note string
	}{{4, "000", "2°W", ""}, {6, "045", "1,5", "two\nlines"}, {8, "090", "3E", "late"}}
	if len(rows) != len(want) {
		t.Fatalf("%d rows, want %d", len(rows), len(want))
	}
	for i, w := range want {
		r := rows[i]
		if r.Line != w.line || r.Text("heading") != w.heading || r.Text("deviation") != w.deviation || r.Text("note") != w.note {
			t.Errorf("row %d: %+v, want %+v", i, r, w)
		}
		if r.Has("note") != (w.note != "") || !r.Has("heading") || r.Has("sigma") || r.Text("sigma") != "" || r.Has("no such column") {
			t.Errorf("row %d: has what it has not", i)
		}
	}
}

// What a spreadsheet or an editor leaves behind is no fault: a byte order mark, CRLF,
// blank lines, and rows of empty fields.
func TestReadTolerates(t *testing.T) {
	for name, text := range map[string]string{
		"a byte order mark":         "\ufeffheading,deviation\n000,1\n045,2\n",
		"CRLF":                      "heading,deviation\r\n000,1\r\n045,2\r\n",
		"trailing blank lines":      "heading,deviation\n000,1\n045,2\n\n\n",
		"trailing lines of blanks":  "heading,deviation\n000,1\n045,2\n  \n\t\n",
		"trailing rows of nothing":  "heading,deviation\n000,1\n045,2\n,\n , \n,,,,\n",
		"no line feed at the end":   "heading,deviation\n000,1\n045,2",
		"all of them":               "\ufeff\r\nheading,deviation\r\n000,1\r\n,\r\n045,2\r\n \r\n\r\n",
		"JSON of a Windows program": "\ufeff[\r\n{\"heading\":\"000\",\"deviation\":1},\r\n{\"heading\":\"045\",\"deviation\":2}]\r\n\r\n",
	} {
		rows, err := record.Read(strings.NewReader(text), card)
		if err != nil || len(rows) != 2 || rows[0].Text("heading") != "000" || rows[1].Text("heading") != "045" || rows[1].Text("deviation") != "2" {
			t.Errorf("%s: %+v, %v", name, rows, err)
		}
	}
}

func TestReadJSON(t *testing.T) {
	rows, err := record.Read(strings.NewReader("\ufeff \n[\n  {\"Heading\": 0, \"deviation\": \" 2°W \"},\n\n  {\"deviation\": -1.50,\n   \"heading\": \"045\", \"note\": null}\n]\n"), card)
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 2 || rows[0].Line != 3 || rows[1].Line != 5 {
		t.Fatalf("%+v", rows)
	}
	// Numbers are the text that was there, to the last zero.
	for column, want := range map[string]string{"heading": "045", "deviation": "-1.50", "note": "", "sigma": ""} {
		if got := rows[1].Text(column); got != want {
			t.Errorf("%s: %q, want %q", column, got, want)
		}
	}
	if rows[0].Text("heading") != "0" || rows[0].Text("deviation") != "2°W" || rows[1].Has("note") {
		t.Errorf("%+v", rows)
	}
	// A fault is on the line of its own column, where it has one.
	if f := rows[1].Fault("heading", io.ErrNoProgress); f.Line != 6 || f.Column != "heading" || !errors.Is(f, io.ErrNoProgress) {
		t.Errorf("%+v", f)
	}
	if f := rows[1].Fault("sigma", io.ErrNoProgress); f.Line != 5 {
		t.Errorf("%+v", f)
	}
}

func TestReadRefuses(t *testing.T) {
	for _, c := range []struct {
		name, text string
		line       int
		column     string
		says       string
	}{
		{"nothing", "", 0, "", "empty"},
		{"blanks", " \n\t\r\n", 0, "", "empty"},
		{"a mark and nothing", "\ufeff", 0, "", "empty"},
		{"comments only", "# nothing\n", 0, "", "no column names"},
		{"column names only", "heading,deviation\n", 0, "", "no rows"},
		{"a column too many", "heading,deviation,swell\n0,1,2\n", 1, "", `unknown column "swell"`},
		{"semicolons", "heading;deviation\n0;1\n", 1, "", "the columns are separated by semicolons: separate them by commas"},
		{"tabs", "heading\tdeviation\n0\t1\n", 1, "", "the columns are separated by tabs: separate them by commas"},
		{"a row with semicolons", "heading,deviation\n000;1\n", 2, "", "the row is separated by semicolons"},
		{"a decimal comma", "heading,deviation\n000,1,5\n", 2, "", "if a figure has a decimal comma, use a point: 7.5, not 7,5"},
		{"too many fields, no decimal comma", "heading,deviation\nx,7,-5\n", 2, "", "3 fields under 2 columns: write one field for each column"},
		{"a column twice", "heading,deviation,Heading\n0,1,2\n", 1, "", `"heading" occurs twice`},
		{"a column too few", "# x\nheading,note\n0,1\n", 2, "", `no column "deviation"; the columns are heading, deviation (optional: note, sigma)`},
		{"a row too long", "heading,deviation\n0,1\n0,1,2\n", 3, "", "3 fields under 2 columns"},
		{"a row too short", "heading,deviation\n0\n", 2, "", "1 fields under 2 columns"},
		{"nothing in a row", "heading,deviation\n000,1\n045, \n", 3, "deviation", "every row needs a value"},
		{"a quote left open", "heading,deviation\n0,\"1\n", 2, "", "quote"},
		{"a quote within", "heading,deviation\n0,1\"W\n", 2, "", "quote"},
		{"an object", "{\"heading\": 1}", 1, "", "a JSON object: write a JSON array of objects"},
		{"a page of blanks", strings.Repeat(" ", 5000) + "x", 1, "", `unknown column "x"`},

		{"an empty array", "[]", 0, "", "no rows"},
		{"an array of numbers", "[\n1]", 2, "", "write an object for each row"},
		{"an array of arrays", "[[]]", 1, "", "write an object for each row"},
		{"an unknown name", "[{\"heading\":0,\n\"swell\":1}]", 2, "", `unknown column "swell"`},
		{"a name twice", "[{\"heading\":0,\n\n\"HEADING\":1}]", 3, "", `"heading" occurs twice`},
		{"an object as value", "[{\"heading\":0,\n\"deviation\":{}}]", 2, "deviation", "write a string or a number"},
		{"an array as value", "[{\"heading\":[]}]", 1, "heading", "write a string or a number"},
		{"a boolean", "[{\"heading\":true}]", 1, "heading", "write a string or a number"},
		{"a name left out", "[{\"heading\":0,\"deviation\":1},\n{\"heading\":1}]", 2, "deviation", "every row needs a value"},
		{"null where something must be", "[{\"heading\":0,\n\"deviation\":null}]", 2, "deviation", "every row needs a value"},
		{"no end", "[{\"heading\":0,\"deviation\":1}\n", 1, "", "ends before the array ends"},
		{"no end of an object", "[{\"heading\":0", 1, "", "ends before the array ends"},
		{"no end of a name", "[{\"head", 1, "", "ends before the array ends"},
		{"no value", "[{\"heading\":", 1, "", "ends before the array ends"},
		{"no object", "[\n", 1, "", "ends before the array ends"},
		{"a comma too many", "[{\"heading\":0,\"deviation\":1},]", 1, "", "invalid character"},
		{"no comma", "[{\"heading\":0,\"deviation\":1}\n{}]", 2, "", "invalid character"},
		{"the wrong bracket", "[{\"heading\":0,\"deviation\":1]", 1, "", "invalid character"},
		{"the wrong bracket about all", "[}", 1, "", "invalid character"},
		{"no name", "[{0:1}]", 1, "", ""},
		{"a word", "[\n{\"heading\":east}]", 2, "", "invalid character"},
		{"rubbish in an array", "[x]", 1, "", "invalid character"},
		{"something after", "[{\"heading\":0,\"deviation\":1}]\n\n7", 3, "", "after the array"},
		{"rubbish after", "[{\"heading\":0,\"deviation\":1}]\n}", 2, "", "after the array"},
	} {
		rows, err := record.Read(strings.NewReader(c.text), card)
		var e *record.Error
		if rows != nil || !errors.As(err, &e) {
			t.Errorf("%s: %v, %#v", c.name, rows, err)
			continue
		}
		if e.Line != c.line || e.Column != c.column || !strings.Contains(e.Error(), c.says) {
			t.Errorf("%s: line %d, column %q: %v; want line %d, column %q: %s", c.name, e.Line, e.Column, e, c.line, c.column, c.says)
		}
	}
}

// An error of rows that came from no file names the row.
func TestErrorWithoutLineNamesRow(t *testing.T) {
	for want, e := range map[string]record.Error{"row 3: EOF": {Row: 3, Err: io.EOF}, "row 3, fix: EOF": {Row: 3, Column: "fix", Err: io.EOF}, "fix: EOF": {Column: "fix", Err: io.EOF}, "EOF": {Err: io.EOF}} {
		if got := e.Error(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Where a line of JSON holds several rows it does not tell which is at fault.
func TestErrorNamesRowOfLine(t *testing.T) {
	for _, c := range []struct {
		text string
		row  int
		says string
	}{
		{`[{"heading":0,"deviation":1},{"heading":45}]`, 2, "line 1, row 2, deviation: empty: every row needs a value"},
		{`[{"heading":0},{"heading":45,"deviation":1}]`, 1, "line 1, row 1, deviation: empty: every row needs a value"},
		{`[{"heading":0,"deviation":1},{"heading":45,"deviation":1},{"swell":1}]`, 3, "line 1, row 3: unknown column"},
		{`[{"heading":0,"deviation":true},{"heading":45,"deviation":1}]`, 1, "line 1, row 1, deviation: this value is of another kind: write a string"},
		{`[{"heading":0,"deviation":1},{"heading":east}]`, 2, "line 1, row 2: invalid character"},
		{"[{\"heading\":0,\"deviation\":1},\n{\"heading\":0}]", 0, "line 2, deviation: empty: every row needs a value"},
		{"[{\"heading\":0,\"deviation\":1},{\"heading\":0,\"deviation\":1},\n{\"heading\":0},{\"heading\":0}]", 3, "line 2, row 3, deviation: empty: every row needs a value"},
		{`[{"heading":0}]`, 0, "line 1, deviation: empty: every row needs a value"},
		{"heading,deviation\n0,\n", 0, "line 2, deviation: empty: every row needs a value"},
	} {
		_, err := record.Read(strings.NewReader(c.text), card)
		e, ok := errors.AsType[*record.Error](err)
		if !ok || e.Row != c.row || !strings.HasPrefix(e.Error(), c.says) {
			t.Errorf("%s: %v, want %s", c.text, err, c.says)
		}
	}
	rows, err := record.Read(strings.NewReader(`[{"heading":0,"deviation":1},{"heading":45,"deviation":"x"}]`), card)
	if err != nil || rows[1].Fault("deviation", io.ErrNoProgress).Row != 2 {
		t.Errorf("%v, %v", rows, err)
	}
}

func TestAReaderThatFails(t *testing.T) {
	broken := iotest.ErrReader(io.ErrClosedPipe)
	for _, before := range []string{"", "h", "[", "[{\"heading\":0,", "heading,deviation\n0,1\n", "# a comment and more\n"} {
		_, err := record.Read(io.MultiReader(strings.NewReader(before), broken), card)
		var e *record.Error
		if !errors.As(err, &e) || !errors.Is(err, io.ErrClosedPipe) {
			t.Errorf("after %q: %v", before, err)
		}
	}
	// A byte at a time is as good.
	rows, err := record.Read(iotest.OneByteReader(strings.NewReader("\ufeffheading,deviation\n0,1\n")), card)
	if err != nil || len(rows) != 1 {
		t.Errorf("%v, %v", rows, err)
	}
}

func TestErrorsSayWhere(t *testing.T) {
	for want, e := range map[string]*record.Error{
		"line 7, deviation: EOF": {Line: 7, Column: "deviation", Err: io.EOF},
		"line 7: EOF":            {Line: 7, Err: io.EOF},
		"deviation: EOF":         {Column: "deviation", Err: io.EOF},
		"EOF":                    {Err: io.EOF},
	} {
		if e.Error() != want || e.Unwrap() != io.EOF {
			t.Errorf("%q, want %q", e.Error(), want)
		}
	}
}

func TestColumnsAreListed(t *testing.T) {
	for want, c := range map[string]record.Columns{
		"heading, deviation (optional: note, sigma)": card,
		"heading": {Required: []string{"heading"}},
	} {
		if c.String() != want {
			t.Errorf("%q, want %q", c, want)
		}
	}
}

func FuzzRecord(f *testing.F) {
	for _, text := range []string{
		"", "heading,deviation\n000,2°W\n", "\ufeff[{\"heading\":0,\"deviation\":\"2°W\"}]", "# x\nheading,deviation,note\n1,2,\"3\n4\"\n", "[{\"heading\":0,\"deviation\":1},]", "[[{]}", "[\n\n{\"heading\"\n:\n1e9,\"deviation\":null}]", "heading;deviation", "\"", "[\xff", "[{\"\\u0000\":0}]", "[}",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		rows, err := record.Read(strings.NewReader(text), card)
		lines := 1 + strings.Count(text, "\n") + strings.Count(text, "\r")
		if err != nil {
			var e *record.Error
			if !errors.As(err, &e) || e.Err == nil || e.Line < 0 || e.Line > lines || rows != nil {
				t.Fatalf("%q: %v, %#v", text, rows, err)
			}
			_ = e.Error()
			return
		}
		last := 0
		for _, r := range rows {
			if r.Line < last || r.Line > lines || !r.Has("heading") || !r.Has("deviation") {
				t.Fatalf("%q: %+v", text, r)
			}
			last = r.Line
			for _, column := range []string{"heading", "deviation", "note", "sigma"} {
				if s := r.Text(column); s != strings.TrimSpace(s) || r.Has(column) != (s != "") {
					t.Fatalf("%q: %s %q", text, column, s)
				}
				if at := r.Fault(column, io.EOF).Line; at < r.Line || at > lines {
					t.Fatalf("%q: %s on line %d", text, column, at)
				}
			}
		}
	})
}

// A name that a spreadsheet would run as a formula is written so that it does not, and
// reads back as it was.
func TestCellIsNoFormula(t *testing.T) {
	for text, want := range map[string]string{
		"Orlesk Head": "Orlesk Head", "": "", "'t Hooft": "'t Hooft",
		"=HYPERLINK(\"x\")": "'=HYPERLINK(\"x\")", "+1": "'+1", "-1+2": "'-1+2", "@SUM(A1)": "'@SUM(A1)",
		"'=1": "''=1", "\t=1": "'=1",
	} {
		if got := record.Cell(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		text := strings.TrimSpace(rapid.StringMatching(`['=+@ a-]{0,6}`).Draw(t, "name"))
		if text == "" {
			return
		}
		cell := record.Cell(text)
		if strings.ContainsAny(cell[:1], "=+-@\t\r") {
			t.Fatalf("%q is written as %q", text, cell)
		}
		var b strings.Builder
		w := csv.NewWriter(&b)
		w.WriteAll([][]string{{"heading", "deviation", "note"}, {"000", "1", cell}})
		rows, err := record.Read(strings.NewReader(b.String()), card)
		if err != nil || rows[0].Text("note") != text {
			t.Fatalf("%q comes back as %v, %v", text, rows, err)
		}
	})
}
