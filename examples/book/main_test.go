package main

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation/check"
)

var update = flag.Bool("update", false, "write the golden file anew; read it before committing")

// book runs the program, which must succeed.
func book(t *testing.T, args ...string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if status := run(args, &stdout, &stderr); status != 0 || stderr.Len() > 0 {
		t.Fatalf("%q: status %d: %s", args, status, &stderr)
	}
	return stdout.String()
}

// TestInventedBook holds the page, with a check by another vessel's gyro, to a file that was
// read by a person.
func TestInventedBook(t *testing.T) {
	got := book(t, "-add", "gyro")
	golden := filepath.Join("testdata", "book.golden")
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the page has changed; got\n%s", got)
	}
}

// TestEachMethodIsAppended begins a book, adds the invented readings to it one by one, and reads
// it back. The deviations of 2°32′E and so on are worked by hand: true less compass, less 5°08′W.
func TestEachMethodIsAppended(t *testing.T) {
	for _, file := range []string{"book.csv", "book.json"} {
		name := filepath.Join(t.TempDir(), file)
		for i, m := range methods {
			args := []string{"-book", name, "-card", "deviation.csv", "-add", m.name, "-observer", "mate"}
			for flag, text := range m.invented {
				args = append(args, "-"+flag, text)
			}
			text := book(t, args...)
			if !strings.Contains(text, "Added to the book:") || !strings.Contains(text, m.invented["name"]) {
				t.Errorf("%s:\n%s", m.name, text)
			}
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			checks, err := check.ReadLog(bytes.NewReader(data))
			if err != nil || len(checks) != i+1 {
				t.Fatalf("%s: %d checks, %v", m.name, len(checks), err)
			}
			want := map[string]string{"transit": "2°32′E", "object": "3°03′E", "sun": "0°47′E", "compass": "4°00′E", "gyro": "3°52′W"}[m.name]
			if last := checks[i]; last.Method != m.logged || last.Observer != "mate" || angle.EastWestFrom(last.Deviation.Angle().Round(angle.Minute)).String() != want {
				t.Errorf("%s: %+v; want deviation %s", m.name, last, want)
			}
		}
	}
}

// TestASecondCompassDoesNotNeedTheVariation finds the same deviation, with the same uncertainty, by
// another variation: it is in both headings.
func TestASecondCompassDoesNotNeedTheVariation(t *testing.T) {
	found := map[string]bool{}
	for _, rose := range []string{"5°08′W ±0°15′", "20°E ±3°", "7°20′W 2015 (12′E)"} {
		o := options{add: "compass", given: map[string]bool{}, reading: map[string]string{"rose": rose, "uncertainty": "0.7°"}}
		for name, text := range methods[3].invented {
			if name != "rose" {
				o.reading[name] = text
			}
		}
		o.given["rose"] = true
		c, err := o.check()
		if err != nil {
			t.Fatal(err)
		}
		text, err := c.Deviation.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		found[string(text)] = true
	}
	if len(found) != 1 {
		t.Errorf("%v", found)
	}
}

// TestTrueByGyro works published examples: Proceedings of the Marine Safety and Security Council,
// nautical queries, winter 2015–2016, deck answer 3 (125° by gyro, error 1° W); and American
// Practical Navigator, example of compass conversion (from memory: 214° by gyro, error 1° E).
func TestTrueByGyro(t *testing.T) {
	for _, c := range []struct {
		gyro string
		e    angle.Angle
		want string
	}{{"125", -angle.Degree, "124°T"}, {"214", angle.Degree, "215°T"}} {
		if got := trueByGyro(angle.MustParseTrue(c.gyro), angle.EastWestFrom(c.e)).String(); got != c.want {
			t.Errorf("%s by gyro is %s, want %s", c.gyro, got, c.want)
		}
	}
}

// TestOutputIsReadBack reads the output of -format json, which has the card and the vessel too.
func TestOutputIsReadBack(t *testing.T) {
	file := filepath.Join(t.TempDir(), "out.json")
	first := book(t, "-format", "json", "-vessel", "Tern")
	if err := os.WriteFile(file, []byte(first), 0o644); err != nil {
		t.Fatal(err)
	}
	if !json.Valid([]byte(first)) || book(t, "-format", "json", "-book", file) != first {
		t.Error("the output reads back otherwise")
	}
	if text := book(t, "-book", file); text != book(t, "-vessel", "Tern") {
		t.Errorf("the page is another:\n%s", text)
	}
}

// TestHTMLIsWellFormed reads the page as XML.
func TestHTMLIsWellFormed(t *testing.T) {
	text := book(t, "-format", "html", "-add", "object")
	for d := xml.NewDecoder(strings.NewReader(text)); ; {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
	if !strings.Contains(text, "St Osk church") || !strings.Contains(text, "<td>118°C</td>") {
		t.Error(text)
	}
}

// TestFaults gives the exit status of each fault.
func TestFaults(t *testing.T) {
	dir := t.TempDir()
	file := func(name, text string) string {
		name = filepath.Join(dir, name)
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return name
	}
	bad, own := file("bad.csv", "heading,deviation,uncertainty\n090,x,1\n"), file("own.csv", "heading,deviation,uncertainty\n090,1,1\n")
	unknown := file("unknown.csv", "time,heading,deviation,compassError,variation\n,090,1°E,4°W,5°W\n")
	for _, test := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{"x"}, 2, "flags"},
		{[]string{"-format", "xml"}, 2, "text, json or html"},
		{[]string{"-add", "moon"}, 2, "give transit, object, sun, compass or gyro"},
		{[]string{"-heading", "090"}, 2, "give -add"},
		{[]string{"-add", "sun", "-direction", "090"}, 2, "does not use -direction"},
		{[]string{"-add", "sun", "-heading", "090"}, 2, "-time missing"},
		{[]string{"-add", "sun", "-book", own, "-card", "deviation.csv"}, 2, "-time missing"},
		{[]string{"-add", "sun", "-uncertainty", "east"}, 2, "-uncertainty"},
		{[]string{"-add", "sun", "-time", "noon", "-heading", "1", "-rose", "1W", "-bearing", "2", "-position", "1°N 1°E"}, 2, "is not a time"},
		{[]string{"-add", "sun", "-time", "2026-07-02T01:00:00Z", "-heading", "1", "-rose", "1W", "-bearing", "2", "-position", "47°N 19°W"}, 2, "below the horizon"},
		{[]string{"-add", "object", "-position-uncertainty", "9 M"}, 2, "take one farther off"},
		{[]string{"-add", "object", "-time", "2026-06-15T06:05:00Z", "-heading", "180", "-rose", "5W", "-bearing", "94", "-position", "47°N 19°W", "-object", "47°N 19°E"}, 2, "too far to be seen: check both positions"},
		{[]string{"-book", filepath.Join(dir, "none.csv"), "-card", "deviation.csv"}, 1, "none.csv"},
		{[]string{"-add", "object", "-time", "2026-06-15T06:05:00Z", "-heading", "180", "-rose", "5W", "-bearing", "94", "-position", "47°N 19°W", "-object", "47°N 19°W"}, 2, "-object and -position are the same place"},
		{[]string{"-add", "transit", "-uncertainty", "400°"}, 2, "standard uncertainty of the bearing in degrees 400 is invalid; give 0 to 90"},
		{[]string{"-add", "transit", "-book", file("out.json", book(t, "-format", "json")), "-time", "2026-06-15T06:05:00Z", "-heading", "180", "-rose", "5W", "-bearing", "94", "-direction", "90"}, 1, "-add cannot add to the output of -format json: give a book in CSV"},
		{[]string{"-add", "transit", "-book", filepath.Join(dir, "folder", "b.csv"), "-card", "deviation.csv", "-time", "2026-06-15T06:05:00Z", "-heading", "180", "-rose", "5W", "-bearing", "94", "-direction", "90"}, 1, "write a file in " + filepath.Join(dir, "folder") + ": no such file"},
		{[]string{"-book", own}, 1, "-card missing"},
		{[]string{"-book", own, "-card", bad}, 1, "card " + bad},
		{[]string{"-book", bad, "-card", "deviation.csv"}, 1, "line 2, deviation"},
		{[]string{"-book", file("other.json", `{"inputs": {"sea": 1}}`)}, 1, "no input"},
	} {
		var stdout, stderr bytes.Buffer
		if status := run(test.args, &stdout, &stderr); status != test.status || !strings.Contains(stderr.String(), test.want) {
			t.Errorf("%v: status %d, %s; want %d, %q", test.args, status, &stderr, test.status, test.want)
		}
	}
	if text := book(t, "-book", unknown, "-card", "deviation.csv"); !strings.Contains(text, "The card: not judged: ") {
		t.Errorf("a check without an uncertainty was judged:\n%s", text)
	}
	mixed := file("mixed.csv", "time,heading,deviation,compassError,variation\n,045,2°48′E ±0°48′,2°20′W ±0°45′,5°08′W ±0°15′\n,090,1°E,4°W,5°W\n,225,1°E ±0°48′,4°08′W ±0°45′,5°08′W ±0°15′\n")
	for _, want := range []string{"The card: holds\n  2 checks differ", "\n  check 2, on 090°C, is not used: its uncertainty is unknown; give that of"} {
		if text := book(t, "-book", mixed, "-card", "deviation.csv"); !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	empty := file("empty.csv", "\ufeff\n")
	if text := book(t, "-add", "transit", "-book", empty, "-card", "deviation.csv", "-time", "2026-06-15T06:05:00Z", "-heading", "180", "-rose", "5W", "-bearing", "94", "-direction", "90"); !strings.Contains(text, "\n1   2026-06-15 0605  180°C") {
		t.Errorf("an empty file was not begun:\n%s", text)
	}
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-h"}, &stdout, &stderr); status != 0 || !strings.Contains(stderr.String(), "Usage: book") {
		t.Errorf("-h: status %d", status)
	}
}
