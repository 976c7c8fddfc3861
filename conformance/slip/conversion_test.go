package slip_test

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/deviation/swing"
	"lubberline.example/variation"
)

// in2026 returns a rose and a known deviation of 9° east, to convert with in 2026.
func in2026(t testing.TB, legend string) course.With {
	t.Helper()
	return course.With{
		Variation: variation.MustParseLegend(legend), Deviation: deviation.East(9 * deg),
		At: new(angle.MustParsePosition("46°58′N 019°08′W")), On: time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC),
	}
}

// alone checks that exactly one slip is found. If want is empty, the answer must be right.
func alone(t *testing.T, name string, d slip.Diagnosis, want slip.Kind) {
	t.Helper()
	if want == "" && d.Right || len(d.Causes) == 1 && slices.Equal(d.Causes[0].Slips, []slip.Kind{want}) {
		return
	}
	t.Errorf("%s: %v, want %v", name, d, want)
}

func TestSlipsWorkedByHand(t *testing.T) {
	with := course.With{Variation: variation.West(7 * deg), Deviation: deviation.East(3 * deg)}
	toSteer := angle.Must(slip.NewToSteer(angle.MustParseTrue("100"), with)) // 107°M, 104°C
	for answer, want := range map[float64]slip.Kind{
		104: "", 104.2: "", 103.8: "",
		90: slip.VariationWrongWay, 110: slip.DeviationWrongWay, 97: slip.VariationLeftOut, 107: slip.DeviationLeftOut,
		111: slip.VariationTwice, 101: slip.DeviationTwice, 284: slip.ReciprocalTaken, 94: slip.TensMisread,
	} {
		alone(t, "to steer "+toSteer.Print(answer), toSteer.Diagnose(answer), want)
	}
	for _, answer := range []float64{103, 105} { // 105° may be rounded to 5°, 103° may be two slips
		if d := toSteer.Diagnose(answer); len(d.Causes) != 2 || d.Causes[0].Slips[0] != slip.RoundedOnTheWay {
			t.Errorf("to steer %v: %v", answer, d)
		}
	}
	trueCourse := angle.Must(slip.NewTrueCourse(angle.MustParseCompass("104"), with))
	for answer, want := range map[float64]slip.Kind{
		100: "", 114: slip.VariationWrongWay, 94: slip.DeviationWrongWay, 107: slip.VariationLeftOut, 97: slip.DeviationLeftOut,
		93: slip.VariationTwice, 103: slip.DeviationTwice, 280: slip.ReciprocalTaken, 110: slip.TensMisread,
	} {
		alone(t, "true course "+trueCourse.Print(answer), trueCourse.Diagnose(answer), want)
	}
	for answer, want := range map[float64][]slip.Kind{
		96:  {slip.VariationWrongWay, slip.DeviationWrongWay},
		117: {slip.VariationTwice, slip.DeviationWrongWay},
	} {
		d := toSteer.Diagnose(answer)
		if d.Certain() || !strings.HasPrefix(d.String(), "wrong; perhaps two slips; ") || !slices.ContainsFunc(d.Causes, func(c slip.Cause) bool {
			return len(c.Slips) == 2 && slices.Contains(c.Slips, want[0]) && slices.Contains(c.Slips, want[1])
		}) {
			t.Errorf("%v: %v, want %v among them", answer, d, want)
		}
	}
}

// A rose, a chart's nearest rose and roses blended have an annual change to forget; a known
// variation does not, nor does a rose that states none.
func TestAnnualChangeSlips(t *testing.T) {
	rose := func(position, legend string) variation.ChartRose {
		return variation.ChartRose{Position: angle.MustParsePosition(position), Rose: variation.MustParseLegend(legend)}
	}
	nearest := angle.Must(variation.NewChart("the Orlesk chart", rose("47°06′N 019°02′W", "3°50′W 2014 (9′E)"), rose("46°52′N 019°31′W", "4°35′W 2014 (30′W)")))
	blended := angle.Must(variation.NewChart("the Orlesk chart", rose("46°28′N 019°08′W", "3°00′W 2014 (10′E)"), rose("47°28′N 019°08′W", "4°00′W 2014 (20′E)")))
	blended.Method = variation.Blended // 3°30′W, halfway; 15′E a year, 3° in all
	for _, test := range []struct {
		name     string
		source   variation.Source
		change   float64 // in degrees
		question string
	}{
		{"rose", variation.MustParseLegend("3°50′W 2014 (9′E)"), 1.8, "the rose says 3°50′W 2014 (9′E); the year is 2026; the deviation is 9°00′E."},
		{"nearest", nearest, 1.8, "the variation is that of the chart in 46°58.0′N 019°08.0′W on 2 July 2026; the deviation"},
		{"blended", blended, 3, "the variation is that of the chart in"},
		{"rose that does not change", variation.MustParseLegend("3°50′W 2014"), 0, "the variation is 3°50′W; the deviation"},
		{"known", variation.West(2*deg + 2*angle.Minute), 0, "the variation is 2°02′W; the deviation"},
	} {
		with := in2026(t, "3°50′W 2014 (9′E)")
		with.Variation = test.source
		p, err := slip.NewTrueCourse(angle.MustParseCompass("100"), with)
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		if !strings.Contains(p.Question, test.question) {
			t.Errorf("%s: %s", test.name, p.Question)
		}
		want := angle.Must(course.FromCompass(angle.MustParseCompass("100"), with)).True().Degrees()
		steps := p.Working()
		if last := steps[len(steps)-1]; p.Answer() != want || last.Number != want {
			t.Errorf("%s: %v, the working ends in %v; want %v", test.name, p.Answer(), last.Number, want)
		}
		for kind, off := range map[slip.Kind]float64{slip.ChangeLeftOut: -test.change, slip.ChangeWrongWay: -2 * test.change} {
			d := p.Diagnose(want + off)
			if test.change == 0 && !d.Right || test.change != 0 && !slices.ContainsFunc(d.Causes, func(c slip.Cause) bool { return slices.Equal(c.Slips, []slip.Kind{kind}) }) {
				t.Errorf("%s, %v: %v", test.name, kind, d)
			}
		}
		if test.change == 0 && slices.ContainsFunc(p.Slips(), func(c slip.Cause) bool { return c.Slips[0] == slip.ChangeLeftOut }) {
			t.Errorf("%s: there is no change to leave out", test.name)
		}
	}
}

// 112°T is 132°M by 20°W. With the variation the wrong way the vessel would head 092°M, and there
// the card has more than on the right heading: two wrong answers by one slip.
func TestDeviationOfWrongHeading(t *testing.T) {
	p := angle.Must(slip.NewToSteer(angle.MustParseTrue("112"), course.With{Variation: variation.West(20 * deg), Deviation: cardOfQuillon}))
	right := angle.Must(cardOfQuillon.OnMagnetic(angle.MagneticFrom(132 * deg))).Angle()
	wrong := angle.Must(cardOfQuillon.OnMagnetic(angle.MagneticFrom(92 * deg))).Angle()
	if (right - wrong).Abs() < deg {
		t.Fatalf("deviation %v and %v: too near to tell", right, wrong)
	}
	for _, d := range []angle.Angle{right, wrong} {
		alone(t, "deviation "+d.EastWestString(), p.Diagnose(92-d.Degrees()), slip.VariationWrongWay)
	}
	listed := 0
	for _, c := range p.Slips() {
		if c.Slips[0] == slip.VariationWrongWay {
			listed++
		}
	}
	if listed != 2 {
		t.Errorf("%d answers are listed", listed)
	}
}

// The year is that of the date in UTC, as package course counts it.
func TestRoseYearIsUTC(t *testing.T) {
	with := in2026(t, "3°50′W 2014 (9′E)")
	with.On = time.Date(2026, time.December, 31, 22, 0, 0, 0, time.FixedZone("west of UTC", -5*3600))
	p := angle.Must(slip.NewToSteer(angle.MustParseTrue("100"), with))
	want := angle.Must(course.FromTrue(angle.MustParseTrue("100"), with)).Compass().Degrees()
	if p.Answer() != want || !strings.Contains(p.Question, "the year is 2027") {
		t.Errorf("%v, want %v: %s", p.Answer(), want, p.Question)
	}
}

// A card by magnetic headings may be entered with the true one as it stands.
func TestMagneticCardWithTrueHeading(t *testing.T) {
	card := angle.Must(deviation.ReadTable(strings.NewReader("magnetic,deviation\n000,8°W\n045,0°\n090,8°E\n135,0°\n180,0°\n225,0°\n270,0°\n315,8°W\n")))
	p := angle.Must(slip.NewToSteer(angle.MustParseTrue("070"), course.With{Variation: variation.West(20 * deg), Deviation: card}))
	entered := angle.Must(card.OnMagnetic(angle.MagneticFrom(70 * deg)))
	d := p.Diagnose(90 - entered.Angle().Degrees())
	alone(t, "by magnetic", d, slip.DeviationOnTrue)
}

func TestMissingSourceIsRefused(t *testing.T) {
	full := in2026(t, "3°50′W 2014 (9′E)")
	noVariation, noDeviation, noDate := full, full, full
	noVariation.Variation, noDeviation.Deviation, noDate.On = nil, nil, time.Time{}
	c := angle.MustParseCompass("100")
	for name, make := range map[string]func(course.With) (slip.Problem, error){
		"to steer":      func(w course.With) (slip.Problem, error) { return slip.NewToSteer(angle.MustParseTrue("100"), w) },
		"true course":   func(w course.With) (slip.Problem, error) { return slip.NewTrueCourse(c, w) },
		"position line": func(w course.With) (slip.Problem, error) { return slip.NewPositionLine("a light", c, c, w) },
	} {
		for quantity, with := range map[string]course.With{"variation": noVariation, "deviation": noDeviation} {
			_, err := make(with)
			if e, ok := errors.AsType[*variation.MissingInputError](err); !ok || e.What != quantity {
				t.Errorf("%s without %s: %v", name, quantity, err)
			}
		}
		if _, err := make(noDate); err == nil {
			t.Errorf("%s without a date is accepted", name)
		} else if e, ok := errors.AsType[*variation.MissingInputError](err); !ok || e.What != "date" {
			t.Errorf("%s without a date: %v", name, err)
		}
	}
}

// The slips that are made in a swing too have the same words there.
func TestSwingSlipsHaveSameWords(t *testing.T) {
	for ofSwing, kind := range map[swing.Slip]slip.Kind{
		swing.ReciprocalTaken: slip.ReciprocalTaken, swing.TensMisread: slip.TensMisread, swing.EastForWest: slip.EastForWest,
	} {
		if string(ofSwing) != string(kind) {
			t.Errorf("%q and %q", string(ofSwing), string(kind))
		}
	}
}

// A pointer to a rose or to a deviation asks the same question, with the same slips.
func TestPointerSources(t *testing.T) {
	with := in2026(t, "7°20′W 2015 (12′E)")
	with.At = nil // a rose needs no position
	rose, d := with.Variation.(variation.Rose), with.Deviation.(deviation.Deviation)
	pointers := with
	pointers.Variation, pointers.Deviation = &rose, &d
	for name, of := range map[string]func(course.With) (slip.Problem, error){
		"to steer":    func(w course.With) (slip.Problem, error) { return slip.NewToSteer(angle.MustParseTrue("210"), w) },
		"true course": func(w course.With) (slip.Problem, error) { return slip.NewTrueCourse(angle.MustParseCompass("210"), w) },
		"position line": func(w course.With) (slip.Problem, error) {
			return slip.NewPositionLine("Orlesk Head light", angle.MustParseCompass("210"), angle.MustParseCompass("100"), w)
		},
	} {
		want, got := angle.Must(of(with)), angle.Must(of(pointers))
		if got.Question != want.Question || len(got.Slips()) != len(want.Slips()) {
			t.Errorf("%s: %q, %d slips; want %q, %d", name, got.Question, len(got.Slips()), want.Question, len(want.Slips()))
		}
	}
}

func TestConversionWithoutDateIsRefused(t *testing.T) {
	with := in2026(t, "7°20′W 2015 (12′E)")
	with.On = time.Time{}
	_, err := slip.NewToSteer(angle.MustParseTrue("210"), with)
	if e, ok := errors.AsType[*variation.MissingInputError](err); !ok || e.What != "date" {
		t.Errorf("%v", err)
	}
}
