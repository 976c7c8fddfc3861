package main

import (
	"bytes"
	"flag"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/variation"
)

var update = flag.Bool("update", false, "write the golden file anew; read it before committing")

// golden holds the output to a file that was read by a person.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s has changed; got\n%s", name, got)
	}
}

// sextant are the flags for the invented lines of other kinds.
var sextant = []string{"-lines", "sextant.csv", "-near", "47°02.0′N 019°15.4′W"}

// TestInventedLines holds the printed workings to golden files, and checks that the plot is
// written.
func TestInventedLines(t *testing.T) {
	for name, args := range map[string][]string{"fix.golden": nil, "sextant.golden": sextant} {
		var stdout, stderr bytes.Buffer
		plot := filepath.Join(t.TempDir(), "fix.svg")
		if status := run(append([]string{"-plot", plot}, args...), &stdout, &stderr); status != 0 || stderr.Len() > 0 {
			t.Fatalf("%s: status %d: %s", name, status, &stderr)
		}
		golden(t, name, bytes.ReplaceAll(stdout.Bytes(), []byte(plot), []byte("fix.svg")))
		if svg, err := os.ReadFile(plot); err != nil || !bytes.Contains(svg, []byte("</svg>")) {
			t.Error(name, err, "no drawing")
		}
	}
}

// TestEachKindPassesThroughThePosition solves the invented lines of other kinds two at a time
// with the transit. Each pair gives the position from which the figures were computed,
// 47°02.04′N 019°15.36′W, within three standard uncertainties of the line.
func TestEachKindPassesThroughThePosition(t *testing.T) {
	rows := bytes.Split(bytes.TrimSpace(inventedSextant), []byte("\n"))
	head, lines := rows[2], rows[3:]
	truth := angle.MustParsePosition("47°02.04′N 019°15.36′W")
	for _, line := range lines[1:] {
		data := bytes.Join([][]byte{head, lines[0], line}, []byte("\n"))
		at, err := angle.ParsePosition("47°02.0′N 019°15.4′W")
		if err != nil {
			t.Fatal(err)
		}
		day := time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC)
		v, err := variation.Parse("5°49′W ±0°48′")
		if err != nil {
			t.Fatal(err)
		}
		heading, err := course.FromCompass(angle.MustParseCompass("226°C"), course.With{Variation: v, Deviation: deviation.East(0), On: day})
		if err != nil {
			t.Fatal(err)
		}
		table, err := readLines(bytes.NewReader(data), vessel{heading, day, 3})
		if err != nil {
			t.Fatal(err)
		}
		f, err := fix.Solve(table.lines, fix.Options{Near: &at})
		if err != nil {
			t.Fatalf("%s: %v", line, err)
		}
		for i, l := range table.lines {
			if r := l.Residual(truth); math.Abs(r.Ratio) > 3 {
				t.Errorf("%s: residual %v (%.1f) at the true position", table.titles[i], r, r.Ratio)
			}
		}
		if off := f.Position().ArcTo(truth); off > angle.Minute {
			t.Errorf("%s: %v off", line, off)
		}
	}
}

// TestOutputIsReadBack gives the JSON output to the program again: the output is the same. A
// flag replaces what the file states.
func TestOutputIsReadBack(t *testing.T) {
	for name, args := range map[string][]string{"bearings": {"-compass-error", "-head", "220°C"}, "sextant": append([]string{"-usual"}, sextant...)} {
		var first, again, third, stderr bytes.Buffer
		if status := run(append([]string{"-format", "json"}, args...), &first, &stderr); status != 0 {
			t.Fatalf("%s: %s", name, &stderr)
		}
		path := filepath.Join(t.TempDir(), "fix.json")
		if err := os.WriteFile(path, first.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		if status := run([]string{"-format", "json", "-lines", path}, &again, &stderr); status != 0 || !bytes.Equal(first.Bytes(), again.Bytes()) {
			t.Errorf("%s: %s%s", name, &stderr, &again)
		}
		if status := run([]string{"-format", "json", "-lines", path, "-head", "200°C"}, &third, &stderr); status != 0 || !bytes.Contains(third.Bytes(), []byte(`"head": "200°C"`)) {
			t.Errorf("%s: %s%s", name, &stderr, &third)
		}
	}
	var out, stderr bytes.Buffer
	if status := run(append([]string{"-format", "json"}, sextant...), &out, &stderr); status != 0 {
		t.Fatal(&stderr)
	}
	// The last digits of a fix differ between machines, and the unit of an exact length with them.
	rounded := regexp.MustCompile(`-?\d+\.\d+(e-?\d+)?`).ReplaceAllFunc(out.Bytes(), func(number []byte) []byte {
		f, err := strconv.ParseFloat(string(number), 64)
		if err != nil {
			t.Fatal(err)
		}
		return strconv.AppendFloat(nil, math.Round(f*1e6)/1e6+0, 'f', 6, 64) // + 0: no negative zero
	})
	golden(t, "sextant.json", regexp.MustCompile(`"semiM(aj|in)or": "[^"]*"`).ReplaceAll(rounded, []byte(`"semiM${1}or": "…"`)))
}

// compass are the flags that bearings by compass need.
var compass = []string{"-rose", "7°55′W 2012 (9′E)", "-date", "2026-07-02", "-head", "226°C", "-card", "deviation.csv"}

// TestOwnBearingsNeedTheirOwnCompass takes no card, rose, day or heading of the invented vessel for
// the user's own bearings.
func TestOwnBearingsNeedTheirOwnCompass(t *testing.T) {
	path := filepath.Join(t.TempDir(), "lines.csv")
	for _, c := range []struct {
		bearing string
		args    []string
		status  int
		want    string
	}{
		{"045T", nil, 0, ""},
		{"045M", nil, 2, "fix: -rose missing: \"045M\" needs -rose, -date of your own"},
		{"045M", compass[:2], 2, "-date missing"},
		{"045M", compass[:4], 0, ""},
		{"045M", []string{"-rose", "5°49′W ±0°15′"}, 0, ""},
		{"045C", compass[:4], 2, "-head missing"},
		{"045C", compass[:6], 2, "-card missing"},
		{"045C", compass, 0, ""},
		{"140° to port", compass[:6], 2, "-card missing"},
	} {
		text := "kind,object,position,observed\nbearing,Ledge,47°03.6′N 019°11.6′W," + c.bearing + "\nbearing,Point,46°47.5′N 019°01.0′W,132.7T\n"
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		var stdout, stderr bytes.Buffer
		args := append([]string{"-format", "json", "-lines", path}, c.args...)
		if status := run(args, &stdout, &stderr); status != c.status || !strings.Contains(stderr.String(), c.want) || status != 0 && stdout.Len() > 0 {
			t.Errorf("%s, %q: status %d: %s", c.bearing, c.args, status, &stderr)
		}
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
		"compass error": {strings.NewReplacer("049.6°T", "051.5°C", "037.1T", "039.0C", "132.7T", "134.6C", "10.15 M,0.1 M", "097.5C,1°", "distance", "bearing").Replace(good), append([]string{"-compass-error"}, compass...), []string{"Compass error 2°22", "Position 46°57."}},
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
		if status := run(append([]string{"-lines", path, "-plot", filepath.Join(t.TempDir(), "fix.svg")}, compass...), &stdout, &stderr); status != 0 {
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
	const all = "kind,object,position,depth,second,second_position,second_depth,height,observed,uncertainty\n"
	for _, test := range []struct {
		desc, text string
		args       []string
		status     int
		want       string
	}{
		{"a bearing without its north", header + "bearing,A,47N 19W,112,1\n", nil, 1, "line 2, observed"},
		{"no kind", "object,position,observed\nA,47N 19W,045 M\n", nil, 1, "kind"},
		{"an unknown kind", header + "range,A,47N 19W,3 M,1 M\n", nil, 1, "line 2, kind: \"range\" is not a kind of line; write bearing, distance, transit, horizontal-angle, vertical-angle, depth, latitude or longitude"},
		{"a transit of one mark", all + "transit,A,47N 19W,,,,,,,\n", nil, 1, "line 2, second: it is empty, and a line of kind transit needs it; write the name of the second mark"},
		{"a transit with a bearing", all + "transit,A,47N 19W,,B,47N 18W,,,045T,\n", nil, 1, "line 2, observed: \"045T\" stands here, but a line of kind transit does not use this column; leave it empty"},
		{"a transit of a mark with itself", all + "transit,A,47N 19W,,B,47N 19W,,,,\n", nil, 1, "line 2, second_position"},
		{"a bearing for a sextant angle", all + "horizontal-angle,A,47N 19W,,B,47N 18W,,,045T,\n", nil, 1, "line 2, observed: \"045T\" is not a sextant angle; write it as 25°07.0′ or 0°14.8′"},
		{"a sextant angle of 200°", all + "horizontal-angle,A,47N 19W,,B,47N 18W,,,200°,\n", nil, 1, "line 2, observed"},
		{"a sextant angle in degrees or minutes", all + "horizontal-angle,A,47N 19W,,B,47N 18W,,,14.8,\n", nil, 1, "line 2, observed: \"14.8\" may be degrees or minutes; write it as 25°07.0′ or 0°14.8′"},
		{"a height in miles", all + "vertical-angle,A,47N 19W,,,,,24 M,0°14.8′,\n", nil, 1, "line 2, height: \"24 M\" is 44448 metres; a small m means metres, M nautical miles; write it as 24 m"},
		{"a depth in miles", all + "depth,A,47N 19W,30 nm,,47N 18W,60 m,,45 m,\n", nil, 1, "line 2, depth: \"30 nm\" is 55560 metres"},
		{"an uncertainty of 400°", header + "bearing,A,47N 19W,112T,400\n", nil, 1, "line 2, uncertainty: \"400\" leaves nothing of the angle; write at most 90°"},
		{"a height of eye in miles", "", []string{"-eye", "3 M"}, 2, "-eye"},
		{"a height of eye below zero", "", []string{"-eye", "-3 m"}, 2, "-eye"},
		{"no bearing by compass", header + "distance,A,47N 19W,3 M,\nbearing,A,47N 19W,112T,\ndistance,B,47N 19°10W,3 M,\n", []string{"-compass-error"}, 1, "fix: -compass-error needs a bearing by the vessel's compass: end one in C"},
		{"a line alone", header + "distance,A,47N 19W,3 M,\n", nil, 1, "observe more lines\n"},
		{"no height", all + "vertical-angle,A,47N 19W,,,,,,0°14.8′,\n", nil, 1, "line 2, height: it is empty, and a line of kind vertical-angle needs it; write the height of the top above the water, such as 24 m"},
		{"a height without a unit", all + "vertical-angle,A,47N 19W,,,,,24,0°14.8′,\n", nil, 1, "line 2, height: \"24\" is not a height; write it as 24 m"},
		{"a vertical angle beyond the horizon", all + "vertical-angle,A,47N 19W,,,,,24 m,0°04′,\n", nil, 1, "line 2, observed: by 0°04′ the object is 11.1 M off, beyond the horizon, 3.7 M, so that its water line is not seen; check the angle, the height and the height of eye, 3 m"},
		{"a depth outside the two", all + "depth,A,47N 19W,30 m,,47N 18W,60 m,,75 m,\n", nil, 1, "line 2, observed: 75 m is not between two different charted depths, 30 m and 60 m"},
		{"depths at one place", all + "depth,A,47N 19W,30 m,,47N 19W,60 m,,45 m,\n", nil, 1, "line 2, second_position: both positions are the same"},
		{"a latitude without its name", all + "latitude,noon Sun,,,,,,,47°02′,1 M\n", nil, 1, "line 2, observed: \"47°02′\" is not a latitude; write it as 47°02.0′N"},
		{"an angle for the uncertainty of a latitude", all + "latitude,noon Sun,,,,,,,47°02′N,1°\n", nil, 1, "line 2, uncertainty: \"1°\" is not a distance; write it as 1 M, or leave it empty"},
		{"a longitude beyond 180°", all + "longitude,Sun,,,,,,,190°W,1 M\n", nil, 1, "line 2, observed"},
		{"JSON without lines", "{\n\"inputs\": {}}", nil, 1, "the JSON has no lines in its inputs"},
		{"JSON that is cut off", "{\n\"inputs\": {\n", nil, 1, "line 3: "},
		{"a bad card in JSON", "{\"inputs\": {\n\"card\": [\n{\"compass\": \"400\", \"deviation\": \"1W\"}],\n\"lines\": []}}", nil, 1, "card: line 3, compass"},
		{"an unknown input", "{\"inputs\": {\n\"heading\": \"226°C\", \"lines\": []}}", nil, 1, "line 2: there is no input \"heading\""},
		{"a bad input in JSON", "{\"inputs\": {\n\"head\": \"400\", \"lines\": []}}", nil, 1, "lines.csv: line 2, head: \"400\" is invalid; give a heading by compass such as 226°C"},
		{"a bad line in JSON", "{\"inputs\": {\n\"lines\": [\n{\"kind\": \"latitude\", \"object\": \"Sun\", \"observed\": \"91N\"}\n]}}", nil, 1, "line 3, observed"},
		{"an unknown format", "", []string{"-format", "xml"}, 2, "-format: \"xml\" is invalid; give text or json"},
		{"an invalid height of eye", "", []string{"-eye", "3"}, 2, "-eye"},
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
