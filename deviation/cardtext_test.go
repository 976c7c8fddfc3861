package deviation_test

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"lubberline.example/deviation/internal/devtest"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

var update = flag.Bool("update", false, "write the card to testdata as it is now; then look at it")

// crdCard is a card known to be made.
func crdCard(t devtest.Fails, source deviation.Source, step angle.Angle, details deviation.Details) *deviation.Card {
	t.Helper()
	card, err := deviation.NewCard(source, step, details)
	if err != nil {
		t.Fatal(err)
	}
	return card
}

func TestTheCardAsItIsPosted(t *testing.T) {
	got := crdCard(t, crdQuillon(t).WithUncertainty(devtest.Sigma(devtest.Deg/2)), 15*devtest.Deg, crdDetails).String()
	path := filepath.Join("testdata", "card-quillon.txt")
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the card is not as in %s:\n%s", path, got)
	}
}

func TestACardWrittenIsReadBackExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := devtest.MustTable(t, devtest.DrawOrdered(t, 15*devtest.Deg, 20*devtest.Deg))
		if rapid.Bool().Draw(t, "stated") {
			table = table.WithUncertainty(devtest.Sigma(devtest.DrawBetween(t, 0, devtest.Deg, "uncertainty")))
		}
		step := rapid.SampledFrom([]angle.Angle{10 * devtest.Deg, angle.Point, 45 * devtest.Deg, angle.Point / 2}).Draw(t, "step")
		details := deviation.Details{
			Vessel: rapid.String().Draw(t, "vessel"), Remarks: rapid.StringOf(rapid.SampledFrom([]rune("ab#,\"\n\r\u0085\u2028\t "))).Draw(t, "remarks"),
			Date: crdDetails.Date,
		}
		card := crdCard(t, table, step, details)
		var b strings.Builder
		if err := card.WriteCSV(&b); err != nil {
			t.Fatal(err)
		}
		again, err := deviation.ReadTable(strings.NewReader(b.String()))
		if err != nil {
			t.Fatalf("%v in\n%s", err, b.String())
		}
		entries := again.Entries()
		if again.By() != deviation.ByCompass || len(entries) != len(card.ByCompass) {
			t.Fatalf("%d rows by %v", len(entries), again.By())
		}
		for i, row := range card.ByCompass {
			if entries[i] != row {
				t.Fatalf("row %d: %v became %v", i, row, entries[i])
			}
		}
	})
}

func TestACardThatCannotBeWrittenSaysSo(t *testing.T) {
	full := errors.New("the disk is full")
	card := crdCard(t, deviation.East(devtest.Deg), 45*devtest.Deg, crdDetails)
	if err := card.WriteCSV(crdFullDisk{full}); !errors.Is(err, full) {
		t.Errorf("%v", err)
	}
	var b strings.Builder
	if err := card.WriteCSV(iotest.TruncateWriter(&b, 10)); err != nil || b.Len() != 10 {
		t.Errorf("%v, %d bytes", err, b.Len())
	}
}

// crdFullDisk takes nothing.
type crdFullDisk struct{ err error }

func (w crdFullDisk) Write([]byte) (int, error) { return 0, w.err }

func TestDetailsStayInTheirLines(t *testing.T) {
	hostile := deviation.Details{Vessel: "Qui\nllon\r\n000,9E", Compass: " \t\n", Remarks: "\u2028one\u2028two"}
	card := crdCard(t, deviation.East(devtest.Deg), 45*devtest.Deg, hostile)
	text := card.String()
	if !strings.HasPrefix(text, "Deviation card\n  Vessel:   Qui llon 000,9E\n  Remarks:  one two\n") || strings.Contains(text, "Compass:") || strings.Contains(text, "Date:") {
		t.Errorf("%s", text)
	}
	var b strings.Builder
	if err := card.WriteCSV(&b); err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(b.String(), "# Vessel:   Qui llon 000,9E\n# Remarks:  one two\ncompass,deviation\n") {
		t.Errorf("%s", b.String())
	}
	card = crdCard(t, deviation.East(devtest.Deg), 45*devtest.Deg, deviation.Details{Date: time.Date(2026, 5, 3, 0, 0, 0, 0, time.UTC)})
	if !strings.HasPrefix(card.String(), "Deviation card\n  Date:     3 May 2026\n\n") {
		t.Errorf("%s", card)
	}
}

func TestDeviationsArePrintedToATenth(t *testing.T) {
	for _, c := range []struct {
		east float64
		want string
	}{
		{0, `\b0\.0°  `}, {0.049, `\b0\.0°  `}, {-0.049, `\b0\.0°  `}, {0.05, `\b0\.1°E`}, {-0.05, `\b0\.1°W`},
		{9.95, `\b10\.0°E`}, {-9.95, `\b10\.0°W`}, {9.949, `\b9\.9°E`}, {-0.96, `\b1\.0°W`},
	} {
		text := crdCard(t, deviation.East(devtest.Degrees(c.east)), 45*devtest.Deg, deviation.Details{}).String()
		if !regexp.MustCompile(c.want).MatchString(text) || strings.Contains(text, "±") {
			t.Errorf("%v:\n%s", c.east, text)
		}
	}
	// North is 000.0°, not 360.0°.
	text := crdCard(t, deviation.West(devtest.Deg/50), 45*devtest.Deg, deviation.Details{}).String()
	if strings.Contains(text, "360.0") || !strings.Contains(text, "000.0°M") {
		t.Errorf("%s", text)
	}
	text = crdCard(t, deviation.East(devtest.Deg).WithUncertainty(devtest.Sigma(27*devtest.Minute)), angle.Point, deviation.Details{}).String()
	for _, want := range []string{"1.0°E ±0.5°", "011°15′C", "348°45′M", "± is one standard uncertainty.\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	if empty := new(deviation.Card).String(); strings.Contains(empty, "±") || !strings.HasSuffix(empty, deviation.AdjusterCaution+"\n") {
		t.Errorf("%s", empty)
	}
}
