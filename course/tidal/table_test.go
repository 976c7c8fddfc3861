package tidal_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/course/tidal"
)

// TestNearestPlace takes the nearer of two places.
func TestNearestPlace(t *testing.T) {
	table := invented(t)
	for p, want := range map[string]string{"47°06′N 019°00′W": "A", "46°50′N 019°10′W": "B"} {
		if got, err := table.Nearest(angle.MustParsePosition(p)); err != nil || got != want {
			t.Errorf("%s: %q, %v; want %s", p, got, err, want)
		}
	}
	for i := range table.Places {
		table.Places[i].Position = nil
	}
	if _, err := table.Nearest(angle.Position{}); err == nil {
		t.Error("a place without positions is found")
	}
}

// TestTableIsReadBack writes and reads CSV and JSON.
func TestTableIsReadBack(t *testing.T) {
	readBack(t, invented(t))
}

// readBack checks that a table is written and read back.
func readBack(t *testing.T, want tidal.Table) {
	t.Helper()
	var file bytes.Buffer
	if err := want.WriteCSV(&file); err != nil {
		t.Fatal(err)
	}
	got, err := tidal.ReadTable(&file)
	if d := cmp.Diff(want, got); err != nil || d != "" {
		t.Fatal(err, d)
	}
	text, err := json.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	got = tidal.Table{}
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Fatal(d)
	}
}

// TestFaultsInTable holds each fault to its line and column.
func TestFaultsInTable(t *testing.T) {
	const head = "place,hour,set,springs,neaps,position,port,spring_range,neap_range\n"
	for _, test := range []struct {
		text, column string
		line         int
	}{
		{head + "A,-7,215,1,0.5\n", "hour", 2},
		{head + "A,half,215,1,0.5\n", "hour", 2},
		{head + "A,HW3,215,1,0.5\n", "hour", 2},
		{head + "A,1,215,1,0.5\nA,+1,215,1,0.5\n", "hour", 3},
		{head + "A,1,,1,0.5\n", "set", 2},
		{head + "A,1,twelve,1,0.5\n", "set", 2},
		{head + "A,1,215,-1,0.5\n", "springs", 2},
		{head + "A,1,215,NaN,0.5\n", "springs", 2},
		{head + "A,1,215,1,50\n", "neaps", 2},
		{head + "A,1,215,1,\n", "neaps", 2},
		{head + ",1,215,1,1\n", "place", 2},
		{head + "A,1,215,1,0.5,here\n", "position", 2},
		{head + "A,1,215,1,0.5,47°N 019°W\nA,2,215,1,0.5,48°N 019°W\n", "position", 3},
		{head + "A,1,215,1,0.5,,P\nA,2,215,1,0.5,,Q\n", "port", 3},
		{head + "A,1,215,1,0.5,,P,40,2\n", "spring_range", 2},
		{head + "A,1,215,1,0.5,,P,30,2\n", "spring_range", 2}, // below 30 m is accepted
		{head + "A,1,215,1,0.5,,P,4,0\n", "neap_range", 2},
		{head + "A,1,215,1,0.5,,P,4,2\nA,2,215,1,0.5,,P,4,3\n", "neap_range", 3},
		{head + "A,1,215,1,0.5,,P,2,4\n", "", 0},
		{head + "A,1,215,1,0.5,,P,2\n", "", 0},
		{"place,hour,set,rate\n", "", 1},
		{"", "", 0},
		{"[]", "", 0},
	} {
		rows := strings.Split(test.text, "\n")
		for i, row := range rows {
			if row != "" && strings.HasPrefix(test.text, head) { // fill up with empty fields
				rows[i] += strings.Repeat(",", 8-strings.Count(row, ","))
			}
		}
		_, err := tidal.ReadTable(strings.NewReader(strings.Join(rows, "\n")))
		if e, ok := errors.AsType[*record.Error](err); !ok || e.Line != test.line || e.Column != test.column {
			t.Errorf("%q: %v; want line %d, column %q", test.text, err, test.line, test.column)
		}
	}
	if _, err := tidal.ReadTable(nil); err == nil {
		t.Error("nil is read")
	}
}
