package record_test

import (
	"errors"
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"
	"testing/iotest"

	"lubberline.example/angle/record"
)

// repeating gives a text, and then another over and over, for ever.
type repeating struct {
	first, text string
	read        int
}

func (r *repeating) Read(p []byte) (int, error) {
	n := 0
	if r.read < len(r.first) {
		n = copy(p, r.first[r.read:])
	}
	for ; n < len(p); n++ {
		p[n] = r.text[(r.read+n-len(r.first))%len(r.text)]
	}
	r.read += n
	return n, nil
}

// refused checks that an error is typed and short, and says what it must.
func refused(t *testing.T, name string, rows []record.Row, err error, line int, want string) {
	t.Helper()
	e, ok := errors.AsType[*record.Error](err)
	if !ok || rows != nil || e.Line != line || !strings.Contains(err.Error(), want) {
		t.Errorf("%s: %d rows, %.300v; want line %d, %s", name, len(rows), err, line, want)
		return
	}
	if n := len(err.Error()); n > 400 {
		t.Errorf("%s: a message of %d bytes", name, n)
	}
}

const header = "heading,deviation\n"

// A file that does not end is given up at a stated limit, and not much beyond it.
func TestEndlessFiles(t *testing.T) {
	if testing.Short() {
		t.Skip("reads 16 MiB, some times over")
	}
	for _, c := range []struct{ name, first, text string }{
		{"no line end", "", "x"},
		{"blanks", "", " "},
		{"comments", "", "# more\n"},
		{"rows", header, "000,1\n"},
		{"an open quote", header + "000,\"", "x\n"},
		{"commas", header, ","},
		{"objects", "[", `{"heading":0,"deviation":1},`},
		{"brackets", "", "["},
		{"a string", `[{"heading":"`, "0"},
		{"a number", `[{"heading":`, "0"},
		{"NULs", "", "\x00"},
	} {
		r := &repeating{first: c.first, text: c.text}
		rows, err := record.Read(r, card)
		refused(t, c.name, rows, err, 0, "more than 16 MiB")
		if r.read > record.MaxBytes+1<<20 {
			t.Errorf("%s: %d bytes read", c.name, r.read)
		}
	}
}

// silent brings nothing, and says nothing of it.
type silent struct{}

func (silent) Read([]byte) (int, error) { return 0, nil }

func TestReadersThatFail(t *testing.T) {
	wet := errors.New("wet")
	whole := header + "000,1\n045,2\n"
	for name, c := range map[string]struct {
		r    io.Reader
		want error
		line int
	}{
		"at once":    {iotest.ErrReader(wet), wet, 1},
		"midway":     {io.MultiReader(strings.NewReader(whole+"09"), iotest.ErrReader(wet)), wet, 4},
		"JSON":       {io.MultiReader(strings.NewReader("[{\n"), iotest.ErrReader(wet)), wet, 2},
		"a time-out": {iotest.TimeoutReader(iotest.OneByteReader(strings.NewReader(whole))), iotest.ErrTimeout, 1},
		"silent":     {silent{}, io.ErrNoProgress, 1},
	} {
		rows, err := record.Read(c.r, card)
		refused(t, name, rows, err, c.line, c.want.Error())
		if !errors.Is(err, c.want) {
			t.Errorf("%s: %v does not wrap %v", name, err, c.want)
		}
	}
	for name, r := range map[string]io.Reader{
		"byte by byte":          iotest.OneByteReader(strings.NewReader(whole)),
		"by halves":             iotest.HalfReader(strings.NewReader(whole)),
		"the end with the data": iotest.DataErrReader(strings.NewReader(whole)),
	} {
		if rows, err := record.Read(r, card); err != nil || len(rows) != 2 || rows[1].Text("deviation") != "2" {
			t.Errorf("%s: %v, %v", name, rows, err)
		}
	}
}

// What is no text in UTF-8 is refused with its line, in CSV and in JSON alike.
func TestFilesThatAreNoText(t *testing.T) {
	for _, c := range []struct {
		name, text string
		line       int
		want       string
	}{
		{"empty", "", 0, "empty"},
		{"a mark only", "\ufeff", 0, "empty"},
		{"one NUL", "\x00", 1, "unknown column"},
		{"a NUL in JSON", "[\n{\"heading\": \"0\x00\"}]", 2, "invalid character"},
		{"Latin 1", header + "000,2\xb0E\n", 2, "0xb0"},
		{"Latin 1 in JSON", "[{\"heading\": \"0\xb0\"}]", 1, "not UTF-8"},
		{"cut off in a character", header + "000,2\xe2\x80", 2, "not UTF-8"},
		{"UTF-16", "\xff\xfeh\x00e\x00", 1, "UTF-16"},
		{"UTF-16, high bytes first", "\xfe\xff\x00h\x00e", 1, "UTF-16"},
		{"UTF-16 without a mark", "h\x00e\x00", 1, "unknown column"},
		{"two marks", "\ufeff\ufeff" + header, 1, "unknown column"},
	} {
		rows, err := record.Read(strings.NewReader(c.text), card)
		refused(t, c.name, rows, err, c.line, c.want)
	}
}

// Files within the limit may still be of the worst form: the memory that reading them
// takes is bounded too.
func TestLargeFilesOfTheWorstForm(t *testing.T) {
	const most = record.MaxBytes / 4
	blanks := strings.Repeat(" ", 10_000)
	for _, c := range []struct {
		name, before, unit, after string
		line                      int
		want                      string
	}{
		{"one line", "", "x", "", 1, "more than 64 KiB in one row"},
		{"a million columns", "", "a,", "", 1, "more than 64 KiB in one row"},
		{"a row of commas", header + "000,1\n", ",", "", 3, "more than 64 KiB in one row"},
		{"an open quote", header + "000,\"", "\n", "", 2, "more than 64 KiB in one row"},
		{"quotes and commas", header, "\"\n\",,,,", "", 2, "more than 64 KiB in one row"},
		{"comments", "", "#\n", "", 1, "more than 64 KiB in one row"},
		{"rows", header, "0,1\n", "", record.MaxRows + 2, "more than 1000000 rows"},
		{"rows of JSON", "[", "{},", "", 1, "more than 1000000 rows"},
		{"deep", "", "[", "", 1, "write an object"},
		{"deep in a row", `[{"heading":`, "[", "", 1, "write a string or a number"},
		{"objects, deep", "[", `{"heading":`, "", 1, "write a string or a number"},
		{"a huge name", `[{"`, "x", `":0}]`, 1, "unknown column"},
		{"a huge string that is not closed", `[{"heading":"`, "x", "", 1, "file ends"},
	} {
		if n := len(c.unit); testing.Short() && n > 1 && c.line > 1000 {
			continue
		}
		text := c.before + strings.Repeat(c.unit, (most-len(c.before)-len(c.after))/len(c.unit)) + c.after
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		rows, err := record.Read(strings.NewReader(text), card)
		runtime.ReadMemStats(&after)
		refused(t, c.name, rows, err, c.line, c.want)
		if took := (after.TotalAlloc - before.TotalAlloc) >> 20; took > 1<<10 {
			t.Errorf("%s: %d MiB were taken", c.name, took)
		}
	}
	if rows, err := record.Read(strings.NewReader(blanks+"\n[{\"heading\": 0, \"deviation\": 1}]"), card); err != nil || len(rows) != 1 || rows[0].Line != 2 {
		t.Errorf("after a page of blanks: %v, %v", rows, err)
	}
}

// Reading takes time as the number of rows: that of JSON once went as its square.
func TestManyRows(t *testing.T) {
	n := 100_000
	if testing.Short() {
		n = 30_000
	}
	var csv, json strings.Builder
	csv.WriteString(header)
	json.WriteString("[\n")
	for i := range n {
		fmt.Fprintf(&csv, "%d,%d.5\n", i%360, i%10)
		fmt.Fprintf(&json, "{\"heading\":%d,\"deviation\":\"%d.5\"},\n", i%360, i%10)
	}
	for form, text := range map[string]string{"CSV": csv.String(), "JSON": strings.TrimSuffix(json.String(), ",\n") + "]"} {
		rows, err := record.Read(strings.NewReader(text), card)
		if err != nil || len(rows) != n {
			t.Fatalf("%s: %d rows, %v", form, len(rows), err)
		}
		if last := rows[n-1]; last.Line != n+1 || last.Text("heading") != fmt.Sprint((n-1)%360) {
			t.Errorf("%s: the last row %+v", form, last)
		}
	}
}

// A line that is no text loses no row before it, if the rows before a fault are asked for.
func TestRowsBeforeWhatIsNoText(t *testing.T) {
	partial := card
	partial.Partial = true
	for broken := 2; broken <= 6; broken++ {
		text := header
		for line := 2; line <= 6; line++ {
			degree := "°"
			if line == broken {
				degree = "\xb0"
			}
			text += fmt.Sprintf("%03d,%d%sE\n", 15*line, line, degree)
		}
		rows, err := record.Read(strings.NewReader(text), partial)
		if fault, ok := errors.AsType[*record.Error](err); !ok || fault.Line != broken || len(rows) != broken-2 {
			t.Fatalf("line %d: %d rows, %v", broken, len(rows), err)
		}
		for i, row := range rows {
			if want := fmt.Sprintf("%d°E", i+2); row.Line != i+2 || row.Text("deviation") != want {
				t.Errorf("line %d: row %d is %+v, want %s", broken, i, row, want)
			}
		}
	}
}
