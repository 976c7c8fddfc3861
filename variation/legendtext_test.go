package variation_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// printedSteps are how finely charts print.
var printedSteps = []angle.Angle{
	deg, deg / 2, deg / 4, deg / 8, deg / 10, deg / 100,
	minute, minute / 10, minute / 2, second, second / 10,
}

// drawPrinted draws a figure of up to a limit on the grid of one step, and the
// step that its print shows: of four whole degrees a print in halves does not
// show that it is in halves.
func drawPrinted(t *rapid.T, limit angle.Angle, label string) (size, step angle.Angle) {
	step = rapid.SampledFrom(printedSteps).Draw(t, "step of the "+label)
	size = step * angle.Angle(rapid.Int64Range(0, int64(limit/step)).Draw(t, label))
	for _, unit := range []angle.Angle{deg, minute} {
		for unit%step == 0 && (unit == 2*step || unit == 4*step || unit == 8*step) && size%(2*step) == 0 {
			step *= 2
		}
	}
	return size, step
}

// drawPrintedRose draws a rose as charts print them.
func drawPrintedRose(t *rapid.T) variation.Rose {
	r := variation.Rose{Year: rapid.IntRange(1500, 2500).Draw(t, "year")}
	size, step := drawPrinted(t, 180*deg, "variation")
	r.Variation, r.Step = variation.East(size), step
	if rapid.Bool().Draw(t, "west") {
		r.Variation = variation.West(size)
	}
	switch rapid.IntRange(0, 3).Draw(t, "change") {
	case 0: // not stated
	case 1:
		r.Change = variation.NoChange()
	default:
		size, step := drawPrinted(t, 3*deg, "change")
		if step == deg && size != 0 {
			step = minute // 3°00′: a change of 3° alone is refused
		}
		r.Change, r.ChangeStep = variation.Eastward(size), step
		if rapid.Bool().Draw(t, "westward") {
			r.Change = variation.Westward(size)
		}
	}
	return r
}

func TestLegendRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawPrintedRose(t)
		for _, text := range []string{r.String(), r.LegendInWords(), r.String()} {
			back, err := variation.ParseLegend(text)
			if err != nil || back != r {
				t.Fatalf("%q reads back as %+v, %v\nwas %+v", text, back, err, r)
			}
			if again := back.String(); again != r.String() {
				t.Fatalf("%q prints again as %q", r.String(), again)
			}
		}
	})
}

// Whoever typed it in capitals, or in another alphabet's primes, means the same.
func TestLegendSpellings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawPrintedRose(t)
		for _, text := range []string{r.String(), r.LegendInWords()} {
			marks := strings.NewReplacer(
				"°", rapid.SampledFrom([]string{"º", "˚", "∘", "⁰", " deg ", " degrees "}).Draw(t, "degree sign"),
				"′", rapid.SampledFrom([]string{"'", "’", "´", "ʹ", " min ", " minutes "}).Draw(t, "prime"),
				"″", rapid.SampledFrom([]string{"\"", "''", "”", " sec "}).Draw(t, "double prime"),
			)
			text = marks.Replace(text)
			for _, text := range []string{text, strings.ToUpper(text), strings.ToLower(text)} {
				if back, err := variation.ParseLegend(text); err != nil || back != r {
					t.Fatalf("%q reads as %+v, %v\nwant %+v", text, back, err, r)
				}
			}
		}
	})
}

func TestLegendWithoutStepIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := variation.Rose{
			Variation: variation.East(drawAngle(t, 180*deg, "variation")),
			Year:      2020,
			Change:    variation.Eastward(drawAngle(t, 3*deg, "change")),
		}
		for _, text := range []string{r.String(), r.LegendInWords()} {
			back, err := variation.ParseLegend(text)
			if err != nil || back.Variation != r.Variation || back.Change != r.Change {
				t.Fatalf("%q reads back as %+v, %v; was %+v", text, back, err, r)
			}
		}
	})
}

func TestLegendKeepsPrecision(t *testing.T) {
	for _, c := range []struct {
		east, step, change, changeStep angle.Angle
		want                           string
	}{
		{-(4*deg + 15*minute), minute, 8 * minute, minute, "4°15′W 2020 (8′E)"},
		{-4 * deg, deg, -8 * minute, minute, "4°W 2020 (8′W)"},
		{-4 * deg, minute, -8 * minute, minute, "4°00′W 2020 (8′W)"},
		{-4 * deg, minute / 10, -8 * minute, minute / 10, "4°00.0′W 2020 (8.0′W)"},
		{-4 * deg, second, -8 * minute, second, "4°00′00″W 2020 (8′00″W)"},
		{-4 * deg, deg / 10, 6 * minute, deg / 10, "4.0°W 2020 (0.1°E)"},
		{-4 * deg, deg / 4, 15 * minute, deg / 4, "4°W 2020 (¼°E)"},
		{4*deg + 45*minute, deg / 4, 75 * minute, deg / 4, "4¾°E 2020 (1¼°E)"},
		{45 * minute, deg / 4, 7*minute + 30*second, minute / 2, "¾°E 2020 (7½′E)"},
		// A figure that the step does not divide is rounded, once.
		{4*deg + 59*minute + 59*second, minute, 8 * minute, minute, "5°00′E 2020 (8′E)"},
		{4*deg + 50*minute, deg / 2, 59*minute + 58*second, minute, "5°E 2020 (1°00′E)"},
		// A step that no print has leaves the figure exact.
		{4*deg + 15*minute, 7 * minute, 8 * minute, 7 * minute, "4°15′E 2020 (8′E)"},
		{4*deg + 15*minute, 0, 20 * second, 0, "4°15′E 2020 (0′20″E)"},
		{4*deg + 15*minute, -minute, 90 * second, 0, "4°15′E 2020 (1.5′E)"},
		{2 * angle.Point, angle.Point / 2, 8 * minute, minute, "2 points E 2020 (8′E)"},
		{2*angle.Point + angle.Point/2, angle.Point / 10, 8 * minute, minute, "2.5 points E 2020 (8′E)"},
	} {
		r := variation.Rose{
			Variation: variation.East(c.east), Year: 2020, Change: variation.Eastward(c.change),
			Step: c.step, ChangeStep: c.changeStep,
		}
		if got := r.String(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// The variation may have any name; the words must give the change its side.
func TestLegendInWordsIncrease(t *testing.T) {
	for _, c := range []struct {
		east   angle.Angle
		change variation.AnnualChange
		want   string
	}{
		{4 * deg, east8, "4°00′E (2020), annual increase 8′"},
		{4 * deg, west8, "4°00′E (2020), annual decrease 8′"},
		{-4 * deg, east8, "4°00′W (2020), annual decrease 8′"},
		{-4 * deg, west8, "4°00′W (2020), annual increase 8′"},
		{0, east8, "0°00′E (2020), annual increase 8′"},
		{0, west8, "0°00′W (2020), annual increase 8′"},
		{0, nil0, "0°00′E (2020), annual change 0′"},
		{-4 * deg, notStated, "4°00′W (2020)"},
	} {
		r := variation.Rose{Variation: variation.East(c.east), Year: 2020, Change: c.change, Step: minute, ChangeStep: minute}
		if got := r.LegendInWords(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
