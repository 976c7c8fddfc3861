package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// chart runs the program.
func chart(args ...string) (stdout, stderr string, status int) {
	var out, faults bytes.Buffer
	status = run(args, &out, &faults)
	return out.String(), faults.String(), status
}

func TestEveryKindIsDrawn(t *testing.T) {
	for _, k := range kinds {
		for _, form := range []string{"plate", "figure"} {
			for _, usage := range []string{"commonwealth", "united-states"} {
				svg, stderr, status := chart("-kind", k.name, "-form", form, "-signs", usage)
				if status != 0 || !strings.HasSuffix(svg, "</svg>\n") || strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
					t.Errorf("%s, %s, %s: status %d, %s", k.name, form, usage, status, stderr)
				}
			}
		}
	}
}

// With "narrow" a figure is at most 95 mm wide, so that letters of 2.7 mm are 9 pixels on a screen of
// 320. Kinds named for a small screen are so without it.
func TestNarrowKindsAreNarrow(t *testing.T) {
	narrow := 0
	for _, k := range kinds {
		data, err := k.data("")
		if err != nil {
			t.Fatal(err)
		}
		off := bytes.Contains(data, []byte(`"narrow": false`))
		if !off && !strings.HasSuffix(k.name, "-small") && k.name != "swing-polar" {
			continue
		}
		narrow++
		file := filepath.Join(t.TempDir(), "figures.json")
		if err := os.WriteFile(file, bytes.Replace(data, []byte(`"narrow": false`), []byte(`"narrow": true`), 1), 0o666); err != nil {
			t.Fatal(err)
		}
		svg, stderr, status := chart("-kind", k.name, "-file", file, "-form", "figure")
		width, letters := 0.0, 0.0
		if _, err := fmt.Sscanf(svg[max(strings.Index(svg, "viewBox"), 0):], `viewBox="0 0 %g`, &width); err != nil || status != 0 {
			t.Fatalf("%s: %v, %s", k.name, err, stderr)
		}
		for part := range strings.SplitSeq(svg, `font-size="`) {
			if _, err := fmt.Sscanf(part, `%g"`, &letters); err == nil && letters*320/width < 9 {
				t.Errorf("%s: letters of %v mm on %v mm", k.name, letters, width)
			}
		}
	}
	if narrow != 12 {
		t.Errorf("%d kinds have a narrow form", narrow)
	}
}

func TestAllKindsIntoDirectory(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "pictures")
	if _, stderr, status := chart("-out", folder); status != 0 {
		t.Fatal(stderr)
	}
	files, err := os.ReadDir(folder)
	if err != nil || len(files) != len(kinds) {
		t.Errorf("%d files, want %d: %v", len(files), len(kinds), err)
	}
}

func TestExampleFileIsReadBack(t *testing.T) {
	for _, k := range kinds {
		file := filepath.Join(t.TempDir(), "figures.json")
		if _, stderr, status := chart("-kind", k.name, "-example", "-o", file); status != 0 {
			t.Fatal(stderr)
		}
		own, stderr, _ := chart("-kind", k.name, "-file", file)
		if invented, _, _ := chart("-kind", k.name); own != invented {
			t.Errorf("%s: drawn otherwise from the file. %s", k.name, stderr)
		}
	}
}

func TestFaults(t *testing.T) {
	bad := func(text string) string {
		file := filepath.Join(t.TempDir(), "figures.json")
		if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		return file
	}
	for _, test := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{"-kind", "dial", "-file", bad(`{"picture": {"bearing": "020°C", "variation": "5°W", "deviation": "1°E"}}`)}, 1, `"heading" is missing`},
		{[]string{"-kind", "triangle", "-file", bad(`{"picture": {"track": "112°T", "speed": "5 kn"}}`)}, 1, `"stream.set" is missing`},
		{[]string{"-kind", "triangle", "-file", bad(`{"picture": {"track": "112°T", "stream": {"set": "020°T", "rate": "1 kn"}}}`)}, 1, `"speed" is missing`},
		{[]string{"-kind", "plotting-sheet", "-file", bad(`{"picture": {"scale": 200000, "width": 190, "height": 250}}`)}, 1, `"middle" is missing`},
		{[]string{"-kind", "clearing", "-file", bad(`{"picture": {"danger": {"name": "R", "position": "41°23′S 174°26′E", "margin": "0.5 M"}, "marks": [{"name": "T", "leaveTo": "port"}]}}`)}, 1, `"marks.position" is missing`},
		{[]string{"-kind", "clearing", "-file", bad(`{"picture": {"danger": {"name": "R", "position": "41°23′S 174°26′E", "margin": "0.5 M"}, "marks": [{"name": "T", "position": "41°20′S 174°30′E", "leaveTo": "left"}]}}`)}, 1, `write port or starboard`},
		{[]string{"-kind", "rosy"}, 2, "give one of"},
		{[]string{"-kind", ""}, 2, "no -kind"},
		{[]string{"-kind", "rose", "-form", "a4"}, 2, "give plate or figure"},
		{[]string{"-kind", "rose", "-signs", "mine"}, 2, "commonwealth or united-states"},
		{[]string{"-kind", "rose", "-out", "x"}, 2, "leave out -kind"},
		{[]string{"-kind", "rose", "x.json"}, 2, "files are given with flags"},
		{[]string{"-kind", "rose", "-example", "-file", "x.json"}, 2, "leave out -file"},
		{[]string{"-kind", "rose", "-file", "missing.json"}, 1, "missing.json"},
		{[]string{"-kind", "rose", "-file", bad("")}, 1, "ends before"},
		{[]string{"-kind", "rose", "-file", bad("{\n\"picture\": {,}}")}, 1, "line 2"},
		{[]string{"-kind", "rose", "-file", bad("{\n\"picture\": {\"colour\": 1}}")}, 1, "line 2: there is no input \"colour\""},
		{[]string{"-kind", "rose", "-file", bad("{\n\"picture\": {\"legend\": 1}}")}, 1, "does not accept"},
		{[]string{"-kind", "rose", "-file", bad("{}")}, 1, `no "picture"`},
		{[]string{"-kind", "rose", "-file", bad(`{"picture": {}} x`)}, 1, "follows the end"},
		{[]string{"-kind", "rose", "-file", bad(`{"picture": {"diameter": 5}}`)}, 1, "from 40 to 500 mm"},
		{[]string{"-kind", "rose", "-file", bad(`{"picture": {"legend": "7°W"}}`)}, 1, "legend"},
		{[]string{"-kind", "plotting-sheet", "-file", bad(`{"picture": {"scale": 100000, "roses": [{}]}}`)}, 1, "rose 1: give its place"},
		{[]string{"-kind", "plotting-sheet", "-file", bad(`{"picture": {"middle": "89°N 0°E", "scale": 100000}}`)}, 1, "85°S and 85°N"},
		{[]string{"-kind", "napier", "-file", bad(`{"picture": {"narrow": true}}`)}, 1, "swing-polar"},
		{[]string{"-kind", "deviation-rose", "-file", bad(`{"picture": {"narrow": true}}`)}, 1, `"narrow" is for deviation-card`},
		{[]string{"-kind", "passage", "-file", bad(`{"picture": {}}`)}, 1, `needs "waypoints"`},
		{[]string{"-kind", "isogonic", "-file", bad(`{"picture": {"date": "July"}}`)}, 1, "write it as 2026-07-02"},
		{[]string{"-kind", "isogonic", "-file", bad(`{"picture": {"date": "2026-07-02"}}`)}, 1, "northern edge"},
		{[]string{"-kind", "signs", "-file", bad(`{"picture": {"time": "10:30", "later": "1130"}}`)}, 1, "four figures"},
	} {
		stdout, stderr, status := chart(test.args...)
		if status != test.status || !strings.Contains(stderr, test.want) || stdout != "" {
			t.Errorf("%v: status %d, %q; want %d, %q", test.args, status, stderr, test.status, test.want)
		}
	}
	if stdout, _, status := chart(); status != 0 || !strings.Contains(stdout, "rose") {
		t.Errorf("without flags: status %d, %q", status, stdout)
	}
	if _, stderr, status := chart("-h"); status != 0 || !strings.Contains(stderr, "-kind") {
		t.Errorf("-h: status %d", status)
	}
}
