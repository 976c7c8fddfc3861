package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden file anew; read it before committing")

// TestInventedRound holds the whole printed working to a file that was read by a
// person, and looks that the plot is written.
func TestInventedRound(t *testing.T) {
	var stdout, stderr bytes.Buffer
	plot := filepath.Join(t.TempDir(), "fix.svg")
	if status := run([]string{"-plot", plot}, &stdout, &stderr); status != 0 || stderr.Len() > 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	got := bytes.ReplaceAll(stdout.Bytes(), []byte(plot), []byte("fix.svg"))
	golden := filepath.Join("testdata", "fix.golden")
	if *update {
		if err := os.WriteFile(golden, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("the working has changed; got\n%s", got)
	}
	if svg, err := os.ReadFile(plot); err != nil || !bytes.Contains(svg, []byte("</svg>")) {
		t.Error(err, "no drawing")
	}
}

// TestOwnLines reads lines of every kind, and names the one that is wrong.
func TestOwnLines(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	const header = "kind,object,position,observed,uncertainty\n"
	const good = header + "bearing,Head,47°08.4′N 019°00.0′W,049.6°T,1°\nbearing,Ledge,47°03.6′N 019°11.6′W,037.1T,1°\nbearing,Point,46°47.5′N 019°01.0′W,132.7T,1°\ndistance,Church,46°57.0′N 019°03.0′W,10.15 M,0.1 M\n"
	for name, test := range map[string]struct {
		text string
		args []string
		want []string
	}{
		"good":          {good, nil, []string{"Position 46°58.1′N 019°17.", "Chi-square"}},
		"one is wrong":  {strings.Replace(good, "132.7T", "147.7T", 1), nil, []string{"look again at Point"}},
		"unstated":      {strings.NewReplacer(",1°", ",", ",0.1 M", ",").Replace(good), nil, []string{"Position 46°58.1′N 019°17."}},
		"two distances": {header + "distance,A,47°00′N 019°00′W,6 M,0.1 M\ndistance,B,47°06′N 019°00′W,6 M,0.1 M\n", []string{"-near", "47°03′N 019°08′W"}, []string{"the lines also meet at"}},
		"a distance":    {good, nil, []string{"Line: distance off Church", "Distance off Church 10.15 M"}},
		"compass error": {strings.NewReplacer("049.6°T", "051.5°C", "037.1T", "039.0C", "132.7T", "134.6C", "10.15 M,0.1 M", "097.5C,1°", "distance", "bearing").Replace(good), []string{"-compass-error"}, []string{"Compass error 2°22", "Position 46°57."}},
	} {
		var stdout, stderr bytes.Buffer
		args := append([]string{"-lines", write(name+".csv", test.text), "-plot", filepath.Join(dir, "fix.svg")}, test.args...)
		if status := run(args, &stdout, &stderr); status != 0 {
			t.Errorf("%s: status %d: %s", name, status, &stderr)
		}
		for _, want := range test.want {
			if !strings.Contains(strings.Join(strings.Fields(stdout.String()), " "), want) {
				t.Errorf("%s: no %q in\n%s", name, want, &stdout)
			}
		}
	}
}

// TestKindDecidesUnit reads 045 M by its kind, however it is spaced.
func TestKindDecidesUnit(t *testing.T) {
	for text, want := range map[string]string{
		"bearing,Ledge,47°03.6′N 019°11.6′W,045 M,1°":   "Bearing of Ledge",
		"bearing,Ledge,47°03.6′N 019°11.6′W,045M,1°":    "Bearing of Ledge",
		"distance,Ledge,47°03.6′N 019°11.6′W,045 M,1 M": "Distance off Ledge 45.00 M",
	} {
		path := filepath.Join(t.TempDir(), "lines.csv")
		data := "kind,object,position,observed,uncertainty\n" + text + "\nbearing,Point,46°47.5′N 019°01.0′W,132.7T,1°\n"
		if strings.Contains(text, "1 M") {
			data = strings.Replace(data, "46°47.5′N 019°01.0′W,132.7T", "47°03.6′N 019°11.6′W,220T", 1)
		}
		if err := os.WriteFile(path, []byte(data), 0o644); err != nil {
			t.Fatal(err)
		}
		var stdout, stderr bytes.Buffer
		if status := run([]string{"-lines", path, "-plot", filepath.Join(t.TempDir(), "fix.svg")}, &stdout, &stderr); status != 0 {
			t.Errorf("%s: %s", text, &stderr)
		}
		if got := strings.Join(strings.Fields(stdout.String()), " "); !strings.Contains(got, want) {
			t.Errorf("%s: no %q in\n%s", text, want, &stdout)
		}
	}
}

// TestFaultsAreNamed gives the program bad files and flags.
func TestFaultsAreNamed(t *testing.T) {
	const header = "kind,object,position,observed,uncertainty\n"
	for _, test := range []struct {
		desc, text string
		args       []string
		status     int
		want       string
	}{
		{"a bearing without its north", header + "bearing,A,47N 19W,112,1\n", nil, 1, "line 2, observed"},
		{"no kind", "object,position,observed\nA,47N 19W,045 M\n", nil, 1, "kind"},
		{"an unknown kind", header + "range,A,47N 19W,3 M,1 M\n", nil, 1, "line 2, kind: \"range\" is not a kind of line; write bearing or distance"},
		{"an impossible time", "kind,object,position,observed,time\nbearing,A,47N 19W,112T,25:00\n", nil, 1, "line 2, time"},
		{"a distance without its unit", header + "distance,A,47N 19W,3,\n", nil, 1, "line 2, observed"},
		{"an invalid distance", header + "distance,A,47N 19W,far M,1 M\n", nil, 1, "line 2, observed"},
		{"a distance below zero", header + "distance,A,47N 19W,-3 M,1 M\n", nil, 1, "line 2, observed: A: -3.0 M cannot be a distance off"},
		{"an invalid position", header + "bearing,A,97N 19W,112T,1\n", nil, 1, "line 2, position"},
		{"an invalid uncertainty", header + "bearing,A,47N 19W,112T,some\n", nil, 1, "line 2, uncertainty"},
		{"a reciprocal", header + "bearing,Head,47°08.4′N 019°00.0′W,049.6°T,1°\nbearing,Ledge,47°03.6′N 019°11.6′W,037.1T,1°\nbearing,Point,46°47.5′N 019°01.0′W,312.7T,1°\ndistance,Church,46°57.0′N 019°03.0′W,10.15 M,0.1 M\n", nil, 1, "look again at Point: reversed, it agrees with the others, at 46°58.1′N 019°17.7′W (the bearing may be the reciprocal, 180° off)"},
		{"one line", header + "bearing,A,47N 19W,112T,1\n", nil, 1, "fix: one line cannot determine 2 unknowns: observe more lines"},
		{"a stray word", "", []string{"lines.csv"}, 2, "flags"},
		{"an invalid heading", "", []string{"-head", "400"}, 2, "-head"},
		{"an invalid day", "", []string{"-date", "02/07/2026"}, 2, "fix: -date: \"02/07/2026\" is invalid; give a date such as 2026-07-02\n"},
		{"a missing card", "", []string{"-card", "/nonexistent"}, 1, "nonexistent"},
	} {
		args := test.args
		if test.text != "" {
			path := filepath.Join(t.TempDir(), "lines.csv")
			if err := os.WriteFile(path, []byte(test.text), 0o644); err != nil {
				t.Fatal(err)
			}
			args = append([]string{"-lines", path}, args...)
		}
		var stdout, stderr bytes.Buffer
		if status := run(args, &stdout, &stderr); status != test.status || !strings.Contains(stderr.String(), test.want) || stdout.Len() > 0 {
			t.Errorf("%s: status %d: %s", test.desc, status, &stderr)
		}
	}
}
