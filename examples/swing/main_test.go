package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation/swing"
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

// TestInventedSwings holds the printed workings to golden files, and checks that the drawings
// are written.
func TestInventedSwings(t *testing.T) {
	for _, method := range []string{"transit", "shore", "second"} {
		workInvented(t, method)
	}
}

// workInvented works one invented swing.
func workInvented(t *testing.T, method string) {
	var stdout, stderr bytes.Buffer
	out := t.TempDir()
	if status := run([]string{"-method", method, "-out", out}, &stdout, &stderr); status != 0 || stderr.Len() > 0 {
		t.Fatalf("%s: status %d: %s", method, status, &stderr)
	}
	name := map[string]string{"transit": "swing.golden", "shore": "shore.golden", "second": "second.golden"}[method]
	golden(t, name, bytes.ReplaceAll(stdout.Bytes(), []byte(out+string(filepath.Separator)), nil))
	for _, name := range []string{"card.svg", "curve.svg", "napier.svg", "polar.svg"} {
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

// TestLesson holds the adjuster's lesson to a golden file. Magnets the wrong way double B.
func TestLesson(t *testing.T) {
	var stdout, stderr bytes.Buffer
	out := t.TempDir()
	if status := run([]string{"-lesson", "-step", "45°", "-out", out}, &stdout, &stderr); status != 0 {
		t.Fatal(&stderr)
	}
	if data, err := os.ReadFile(filepath.Join(out, "before-after.svg")); err != nil || !bytes.Contains(data, []byte("PREDICTED, not swung")) {
		t.Error("the prediction is not drawn, or not marked: ", err)
	}
	_, text, _ := strings.Cut(stdout.String(), "Which corrector acts")
	text, _, _ = strings.Cut(text, "\nDrawn, to print")
	golden(t, "lesson.golden", []byte("Which corrector acts"+text))
	if wrong := oneOf(t, "-lesson", "-correct", "red-aft 3.08°"); !strings.Contains(wrong, "They should leave  A +0.46°  B +6.16°  C −1.70°") {
		t.Error(wrong)
	}
	if south := oneOf(t, "-lesson", "-position", "46°44.0′S 019°00.3′W", "-induced", "1°E", "-correct", "bar-aft 1°"); !strings.Contains(south, "(dip 61° up, ") || !strings.Contains(south, "They should leave  A +0.46°  B +4.08°") {
		t.Error("where the dip is up, a bar aft adds to an easterly B:\n" + south)
	}
}

// TestCurvesAgreeWithTheTruth fits the invented swings by a compass ashore and by a second
// compass. Their readings were computed from the coefficients below, with errors of 0.3° and
// rounded to half a degree. The fitted coefficients are within three standard uncertainties.
func TestCurvesAgreeWithTheTruth(t *testing.T) {
	truth := [5]float64{0.3, 3.1, -1.7, 0.95, -0.4}
	card, err := readCard("")
	if err != nil {
		t.Fatal(err)
	}
	for name, test := range map[string]struct {
		record []byte
		method swing.Method
	}{
		"shore":  {inventedShore, swing.ShoreCompass{Uncertainty: angle.Must(angle.StandardUncertainty(18 * angle.Minute))}},
		"second": {inventedSecond, swing.SecondCompass{Deviation: card}},
	} {
		swung, err := swing.ReadSwing(bytes.NewReader(test.record), test.method)
		if err != nil {
			t.Fatal(name, err)
		}
		fit, err := swung.Fit(swing.FitOptions{})
		if err != nil {
			t.Fatal(name, err)
		}
		c := fit.Curve.Coefficients()
		for i, got := range []float64{c.A.Degrees(), c.B.Degrees(), c.C.Degrees(), c.D.Degrees(), c.E.Degrees()} {
			v, known := fit.Covariance(i, i)
			if !known || math.Abs(got-truth[i]) > 3*math.Sqrt(v) {
				t.Errorf("%s: coefficient %c is %.2f°, computed from %.2f°; ±%.2f° %v", name, 'A'+i, got, truth[i], math.Sqrt(v), known)
			}
		}
	}
}

// TestOutputIsReadBack gives the JSON output to the program again: the output is the same. A
// flag replaces what the file states.
func TestOutputIsReadBack(t *testing.T) {
	stated := filepath.Join(t.TempDir(), "stated.csv")
	if err := os.WriteFile(stated, []byte("heading,deviation\n000,1W\n072,2E\n144,1E\n216,1E\n288,3W\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for name, args := range map[string][]string{
		"transit": {"-step", "10°", "-all"},
		"shore":   {"-method", "shore", "-adjuster", "somebody"},
		"second":  {"-method", "second"},
		"lesson":  {"-lesson", "-induced", "1°W", "-heeling", "-0.1", "-correct", "red-aft 1°, bar-forward 2°"},
		"stated":  {"-method", "stated", "-swing", stated, "-position", "46°44.0′N 019°00.3′W", "-date", "2026-05-09"},
	} {
		var first, again, third, stderr bytes.Buffer
		if status := run(append([]string{"-format", "json"}, args...), &first, &stderr); status != 0 {
			t.Fatalf("%s: %s", name, &stderr)
		}
		path := filepath.Join(t.TempDir(), "swing.json")
		if err := os.WriteFile(path, first.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		if status := run([]string{"-format", "json", "-swing", path}, &again, &stderr); status != 0 || !bytes.Equal(first.Bytes(), again.Bytes()) {
			t.Errorf("%s: %s%s", name, &stderr, &again)
		}
		if status := run([]string{"-format", "json", "-swing", path, "-compass", "standard"}, &third, &stderr); status != 0 || !bytes.Contains(third.Bytes(), []byte(`"compass": "standard"`)) {
			t.Errorf("%s: %s%s", name, &stderr, &third)
		}
	}
}

// TestJSON holds the output of six headings by a second compass to a golden file, with its
// numbers rounded to six decimals: the last digits of a fit differ between machines.
func TestJSON(t *testing.T) {
	path := filepath.Join(t.TempDir(), "six.csv")
	if err := os.WriteFile(path, []byte("heading,other\n000,358\n060,062\n120,123\n180,182.5\n240,240.5\n300,298\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	args := []string{"-swing", path, "-method", "second", "-second-card", "second-card.csv", "-position", "47°04.0′N 019°04.0′W", "-date", "2026-05-09", "-step", "45°", "-format", "json"}
	if status := run(args, &stdout, &stderr); status != 0 {
		t.Fatal(&stderr)
	}
	rounded := regexp.MustCompile(`-?\d+\.\d+(e-?\d+)?`).ReplaceAllFunc(stdout.Bytes(), func(number []byte) []byte {
		f, err := strconv.ParseFloat(string(number), 64)
		if err != nil {
			t.Fatal(err)
		}
		return strconv.AppendFloat(nil, math.Round(f*1e6)/1e6+0, 'f', 6, 64) // + 0: no negative zero
	})
	golden(t, "second.json", rounded)
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
		{"two headings", "heading,bearing\n000,1\n045,2\n", nil, 1, "needs at least 5"},
		{"no time for the Sun", "heading,bearing\n000,1\n", []string{"-method", "sun"}, 1, `"time"`},
		{"the Sun at night", "heading,bearing,time\n000,1,2026-05-09T00:00:00Z\n", []string{"-method", "sun"}, 1, "below the horizon"},
		{"no bearing from ashore", "heading,bearing\n000,1\n", []string{"-method", "shore"}, 1, `"shore"`},
		{"a true bearing from ashore", "heading,bearing,shore\n000,1,178T\n", []string{"-method", "shore"}, 1, "line 2, shore"},
		{"an invalid uncertainty ashore", "", []string{"-method", "shore", "-shore-uncertainty", "good"}, 2, "-shore-uncertainty: \"good\" is not an uncertainty; write an angle such as 0.3°"},
		{"no second compass", "heading,bearing\n000,1\n", []string{"-method", "second", "-second-card", "second-card.csv"}, 1, `"bearing"`},
		{"no card of the second compass", "heading,other\n000,1\n", []string{"-method", "second"}, 2, "-second-card missing: needed with your own record by the method second"},
		{"a card that is no card", "heading,other\n000,1\n", []string{"-method", "second", "-second-card", "second.csv"}, 1, "second.csv: line "},
		{"a card that the method ignores", "", []string{"-method", "transit", "-second-card", "second-card.csv"}, 2, "-second-card: the method transit does not use it: leave it out"},
		{"JSON without readings", "{\"inputs\": {\"method\": \"stated\"}}", []string{"-method", "stated"}, 1, "the JSON has no readings in its inputs"},
		{"an unknown input", "{\"inputs\": {\n\"metod\": \"stated\", \"readings\": []}}", []string{"-method", "stated"}, 1, "line 2: there is no input \"metod\""},
		{"a bad reading in JSON", "{\"inputs\": {\n\"readings\": [\n{\"heading\": \"361\", \"deviation\": \"1W\"}]}}", []string{"-method", "stated"}, 1, "line 3, heading"},
		{"a bad card in JSON", "{\"inputs\": {\n\"method\": \"second\", \"secondCard\": [\n{\"compass\": \"000\", \"deviation\": \"fine\"}],\n\"readings\": []}}", []string{"-method", "second"}, 1, "record.csv: secondCard: line 3, deviation"},
		{"a bad step in JSON", "{\"inputs\": {\n\"step\": \"wide\", \"readings\": []}}", []string{"-method", "stated"}, 1, "record.csv: line 2, step: "},
		{"an unknown format", "", []string{"-format", "xml"}, 2, "-format: \"xml\" is unknown: give text or json"},
		{"no swing by the Sun", "", []string{"-method", "sun"}, 2, "-swing missing: there is no invented swing by the method sun; give a file of your own"},
		{"an unknown method", "", []string{"-method", "guess"}, 2, "give transit"},
		{"a bad date", "", []string{"-date", "9 May"}, 2, "is not a date"},
		{"a bad step", "heading,deviation\n000,1\n072,2\n144,0\n216,0\n288,0\n", []string{"-method", "stated", "-step", "7°"}, 1, "step"},
		{"a direction that the method ignores", "heading,bearing,time\n000,1,2026-05-09T00:00:00Z\n", []string{"-method", "sun", "-direction", "351°48′T"}, 2, "-direction: the method sun does not use it"},
		{"a variation that the method ignores", "heading,deviation\n000,1\n", []string{"-method", "stated", "-variation", "5°W"}, 2, "-variation: the method stated does not use it"},
		{"a correction without a lesson", "", []string{"-correct", "red-aft 2°"}, 2, "-correct: it needs -lesson"},
		{"an unknown way", "", []string{"-lesson", "-correct", "red-left 2°"}, 2, "-correct: \"red-left\" is not a way; give red-forward"},
		{"a correction without an angle", "", []string{"-lesson", "-correct", "red-aft"}, 2, "-correct: red-aft: "},
		{"a correction beyond 90°", "", []string{"-lesson", "-correct", "red-aft 91°"}, 2, "-correct: "},
		{"a heeling coefficient of words", "", []string{"-lesson", "-heeling", "much"}, 2, "-heeling: \"much\" is not a heeling coefficient"},
		{"an induced part of words", "", []string{"-lesson", "-induced", "some"}, 2, "-induced: "},
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
			case !slices.ContainsFunc(args, func(arg string) bool { return arg == "stated" || arg == "shore" || arg == "second" }):
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
