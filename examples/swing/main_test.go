package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden file anew; read it before committing")

// TestInventedSwing holds the whole printed working to a file that was read by a
// person, and looks that both drawings are written.
func TestInventedSwing(t *testing.T) {
	var stdout, stderr bytes.Buffer
	out := t.TempDir()
	if status := run([]string{"-out", out}, &stdout, &stderr); status != 0 || stderr.Len() > 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	got := bytes.ReplaceAll(stdout.Bytes(), []byte(out+string(filepath.Separator)), nil)
	golden := filepath.Join("testdata", "swing.golden")
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
	for _, name := range []string{"curve.svg", "napier.svg"} {
		data, err := os.ReadFile(filepath.Join(out, name))
		if err != nil {
			t.Fatal(err)
		}
		for d := xml.NewDecoder(bytes.NewReader(data)); ; {
			if _, err := d.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatal(name, err)
			}
		}
	}
}

// TestFaultsAreNamed gives the program bad records and bad flags.
func TestFaultsAreNamed(t *testing.T) {
	for _, test := range []struct {
		desc, record string
		args         []string
		status       int
		want         string
	}{
		{"a heading beyond 360°", "heading,bearing\n000,1\n361,2\n", nil, 1, "line 3, heading"},
		{"two headings", "heading,bearing\n000,1\n045,2\n", nil, 1, "need at least 5"},
		{"no time for the Sun", "heading,bearing\n000,1\n", []string{"-method", "sun"}, 1, `"time"`},
		{"the Sun at night", "heading,bearing,time\n000,1,2026-05-09T00:00:00Z\n", []string{"-method", "sun"}, 1, "below the horizon"},
		{"an unknown method", "", []string{"-method", "guess"}, 2, "give transit"},
		{"a bad date", "", []string{"-date", "9 May"}, 2, "is not a date"},
		{"a bad step", "heading,deviation\n000,1\n072,2\n144,0\n216,0\n288,0\n", []string{"-method", "stated", "-step", "7°"}, 1, "step"},
		{"a direction that the method ignores", "heading,bearing,time\n000,1,2026-05-09T00:00:00Z\n", []string{"-method", "sun", "-direction", "351°48′T"}, 2, "-direction: the method sun does not use it"},
		{"a variation that the method ignores", "heading,deviation\n000,1\n", []string{"-method", "stated", "-variation", "5°W"}, 2, "-variation: the method stated does not use it"},
		{"a stray word", "", []string{"swing.csv"}, 2, "flags"},
	} {
		args := test.args
		if test.record != "" {
			path := filepath.Join(t.TempDir(), "record.csv")
			if err := os.WriteFile(path, []byte(test.record), 0o644); err != nil {
				t.Fatal(err)
			}
			own := []string{"-swing", path, "-position", "46°44.0′N 019°00.3′W", "-date", "2026-05-09"}
			switch { // only what the method uses
			case slices.Contains(args, "sun"):
				own = append(own, "-variation", "5°08′W")
			case !slices.Contains(args, "stated"):
				own = append(own, "-direction", "351°48′T", "-variation", "5°08′W")
			}
			args = append(own, args...)
		}
		var stdout, stderr bytes.Buffer
		if status := run(args, &stdout, &stderr); status != test.status || !strings.Contains(stderr.String(), test.want) || stdout.Len() > 0 {
			t.Errorf("%s: status %d, %s", test.desc, status, &stderr)
		}
	}
}

// TestOwnRecordTakesNoInventedFigures leaves out flags that have a default in the invented swing.
func TestOwnRecordTakesNoInventedFigures(t *testing.T) {
	path := filepath.Join(t.TempDir(), "record.csv")
	if err := os.WriteFile(path, []byte("heading,bearing\n000,1\n072,1\n144,1\n216,1\n288,1\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	if status := run([]string{"-swing", path, "-position", "46°44.0′N 019°00.3′W", "-date", "2026-05-09"}, &stdout, &stderr); status != 2 || !strings.Contains(stderr.String(), "-direction, -variation missing") {
		t.Errorf("status %d: %s", status, &stderr)
	}
	stderr.Reset()
	if status := run([]string{"-swing", path}, &stdout, &stderr); status != 2 || !strings.Contains(stderr.String(), "-position, -date, -direction, -variation missing") {
		t.Errorf("status %d: %s", status, &stderr)
	}
	if !strings.Contains(oneOf(t, "-variation", "5°08′W"), "Warning: the curve and its card have no ±") || strings.Contains(oneOf(t), "have no ±") {
		t.Error("nothing says why the card has no ±, or that is said where it has")
	}
	stderr.Reset()
	out := filepath.Join(t.TempDir(), "drawings", "of the swing") // not there yet
	if status := run([]string{"-swing", path, "-position", "46°44.0′N 019°00.3′W", "-date", "2026-05-09", "-method", "distant", "-out", out}, &stdout, &stderr); status != 0 || strings.Contains(stdout.String(), "Quillon") {
		t.Errorf("status %d: %s%s", status, &stderr, &stdout)
	}
}

// oneOf is what a swing prints, of the invented one but for some flags.
func oneOf(t *testing.T, args ...string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if status := run(append(args, "-out", t.TempDir()), &stdout, &stderr); status != 0 {
		t.Fatalf("status %d: %s", status, &stderr)
	}
	return stdout.String()
}

// TestAReciprocalIsDrawnAsLeftOut reads one bearing of the invented swing the wrong
// way: all is printed and drawn, the curve without it.
func TestAReciprocalIsDrawnAsLeftOut(t *testing.T) {
	record := bytes.Replace(invented, []byte("\n090,353.5,"), []byte("\n090,173.5,"), 1)
	path, out := filepath.Join(t.TempDir(), "record.csv"), t.TempDir()
	if err := os.WriteFile(path, record, 0o644); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	args := []string{"-swing", path, "-direction", "351°48′T", "-variation", "5°08′W ±0°15′", "-position", "46°44.0′N 019°00.3′W", "-date", "2026-05-09", "-out", out}
	if status := run(args, &stdout, &stderr); status != 0 || !strings.Contains(stdout.String(), "Check this reading: ") {
		t.Fatalf("status %d: %s%s", status, &stderr, &stdout)
	}
	for _, name := range []string{"curve.svg", "napier.svg"} {
		if data, err := os.ReadFile(filepath.Join(out, name)); err != nil || !bytes.Contains(data, []byte("observations: 22; left out: 2.")) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestWarningsOfTheFitArePrinted fits five headings, 72° apart.
func TestWarningsOfTheFitArePrinted(t *testing.T) {
	path := filepath.Join(t.TempDir(), "record.csv")
	if err := os.WriteFile(path, []byte("heading,bearing\n000,358\n072,353\n144,354.5\n216,355.5\n288,359.5\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	got := oneOf(t, "-swing", path, "-direction", "351°48′T", "-variation", "5°08′W ±0°15′", "-position", "46°44.0′N 019°00.3′W", "-date", "2026-05-09")
	if !strings.Contains(got, "Warning: there is no observation from 000°C to 072°C") || strings.Contains(got, "0.00° (standard deviation") {
		t.Error(got)
	}
}

// TestVariationByALegendAndAllReadings gives the variation as a rose's legend, and uses every reading.
func TestVariationByALegendAndAllReadings(t *testing.T) {
	got := oneOf(t, "-variation", "7°20′W 2015 (12′E)", "-all")
	if strings.Contains(got, "left out") || !strings.Contains(got, "The variation given is 5°08′W, by a field model ") || !strings.Contains(got, "Check this reading: on 210°C") {
		t.Error(got)
	}
}
