package check_test

import (
	"errors"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"lubberline.example/deviation/check"
	"lubberline.example/deviation/internal/devtest"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// rvwOwn is the standard uncertainty of a reading in these logs, in degrees.
const rvwOwn = 0.5

// rvwLog is a log of six checks, at equal steps of heading, of a compass with a
// deviation. Each reading has an error of chance, and the variation, which the log says
// is known to ±shared, by err for all of them.
func rvwLog(t devtest.Fails, random *rand.Rand, compass func(angle.Angle) float64, shared, err float64) []check.Check {
	v := variation.West(5 * devtest.Deg).WithUncertainty(devtest.Sigma(devtest.Degrees(shared)))
	var checks []check.Check
	for i := range angle.Angle(6) {
		h := i * 60 * devtest.Deg
		bearing := 100 + 5 - compass(h) - err - rvwOwn*random.NormFloat64()
		checks = append(checks, against(t, check.Reading{
			Heading: new(angle.CompassFrom(h)), Bearing: new(angle.CompassFrom(devtest.Degrees(bearing))), Uncertainty: devtest.Sigma(devtest.Degrees(rvwOwn)), Variation: v,
		}, "a transit", angle.MustParseTrue("100"), devtest.Sigma(0)))
	}
	return checks
}

// rvwShare is how often of n logs the verdict is to swing again.
func rvwShare(t *testing.T, n int, compass func(angle.Angle) float64, shared float64) float64 {
	t.Helper()
	table := devtest.MustTable(t, devtest.Every15(devtest.Usual)).WithUncertainty(devtest.Sigma(devtest.Deg / 100))
	random := rand.New(rand.NewPCG(1836, 1870))
	again := 0
	for range n {
		r, err := check.ReviewCard(table, rvwLog(t, random, compass, shared, shared*random.NormFloat64()))
		if err != nil {
			t.Fatal(err)
		}
		if r.Verdict == check.SwingAgain {
			again++
		}
	}
	return float64(again) / float64(n)
}

func TestGoodCardIsSeldomRejected(t *testing.T) {
	// One in a hundred is meant; 0.5 % more is two standard deviations of 2,000 logs.
	for _, shared := range []float64{0, rvwOwn / 2, rvwOwn, 2 * rvwOwn} {
		if share := rvwShare(t, 2000, devtest.Usual, shared); share > 0.015 {
			t.Errorf("variation ±%v°: %.2f %% of the logs on a true card", shared, 100*share)
		}
	}
}

func TestACardThatDoesNotHoldIsFound(t *testing.T) {
	for name, compass := range map[string]func(angle.Angle) float64{
		"a lubber line out by 3 standard deviations": func(h angle.Angle) float64 { return devtest.Usual(h) + 3*rvwOwn },
		"B changed by 3°":                            func(h angle.Angle) float64 { return devtest.Usual(h) + 3*h.Sin() },
	} {
		if share := rvwShare(t, 300, compass, 0); share < 0.9 {
			t.Errorf("%s: found in %.0f %% of the logs", name, 100*share)
		}
	}
}

// rvwStated is a check as a log has it.
func rvwStated(heading float64, east, u float64) check.Check {
	return check.Check{Heading: angle.CompassFrom(devtest.Degrees(heading)), Deviation: deviation.East(devtest.Degrees(east)).WithUncertainty(devtest.Sigma(devtest.Degrees(u)))}
}

func TestAReviewOfOneCheck(t *testing.T) {
	card := devtest.MustTable(t, devtest.Every15(devtest.Usual)).WithUncertainty(devtest.Sigma(18 * devtest.Minute))
	for _, c := range []struct {
		off     float64 // in standard uncertainties of 0.5°: √(0.3² + 0.4²)
		verdict check.Verdict
	}{{0.5, check.CardHolds}, {2.5, check.CardInDoubt}, {-2.5, check.CardInDoubt}, {4, check.CardInDoubt}} {
		r, err := check.ReviewCard(card, []check.Check{rvwStated(90, devtest.Usual(90*devtest.Deg)+c.off*0.5, 0.4)})
		if err != nil {
			t.Fatal(err)
		}
		d := r.Differences[0]
		if r.Verdict != c.verdict || !devtest.Near(float64(d.Difference)/float64(d.Uncertainty), c.off, 1e-6) || !devtest.Near(r.Mean.Degrees(), c.off*0.5, 1e-6) || !devtest.Near(r.MeanUncertainty.Degrees(), 0.5, 1e-6) { // rounding
			t.Errorf("%v: %v, %+v", c.off, r.Verdict, d)
		}
		if !devtest.Near(r.ChiSquare, c.off*c.off, 1e-6) || !devtest.Near(r.ChiSquareProbability, r.MeanProbability, 1e-6) { // of one check both tests are the same
			t.Errorf("%v: chi-square %v, probabilities %v and %v", c.off, r.ChiSquare, r.ChiSquareProbability, r.MeanProbability)
		}
		reasons := devtest.Texts(r.Reasons)
		if !strings.HasPrefix(reasons, "1 check differs from the card by ") || strings.Contains(reasons, "exact") || strings.Contains(reasons, "and the card has") != (c.off > 3) || strings.Contains(reasons, "one check is not enough to reject a card") != (r.Verdict == check.CardInDoubt) {
			t.Errorf("%v: %s", c.off, reasons)
		}
	}
}

func TestAReviewSaysWhatItRestsOn(t *testing.T) {
	card := devtest.MustTable(t, devtest.Every15(devtest.Usual)) // which states no uncertainty
	r, err := check.ReviewCard(card, []check.Check{rvwStated(0, devtest.Usual(0)+4.7, 0.5), rvwStated(90, devtest.Usual(90*devtest.Deg)+5.3, 0.5), rvwStated(180, devtest.Usual(180*devtest.Deg)+5, 0.5)})
	if err != nil {
		t.Fatal(err)
	}
	reasons := devtest.Texts(r.Reasons)
	for _, want := range []string{"3 checks differ", "chi-square", "<0.1 %", "the deviation seems to have changed by 5°00′E on all headings", "on 180°C the check found", "taken to be exact"} {
		if !strings.Contains(reasons, want) {
			t.Errorf("no %q in\n%s", want, reasons)
		}
	}
	if r.Verdict != check.SwingAgain || r.Differences[2].Card.Angle() != devtest.Degrees(devtest.Usual(180*devtest.Deg)) {
		t.Errorf("%v, %+v", r.Verdict, r.Differences)
	}
	// A difference across 180° is small.
	if r, err = check.ReviewCard(deviation.East(179*devtest.Deg), []check.Check{rvwStated(0, -180.5, 0.5)}); err != nil || r.Mean != 30*devtest.Minute {
		t.Errorf("%v, %v", r.Mean, err)
	}
}

func TestALogThatCannotBeReviewedIsRefused(t *testing.T) {
	card := devtest.MustTable(t, devtest.Every15(devtest.Usual))
	// Where the card turns back on itself no compass heading is in doubt, but a
	// card by magnetic heading has three answers for one by compass.
	rows := devtest.Every15(devtest.Usual)
	rows[6].Deviation = deviation.East(80 * devtest.Deg)
	unordered := devtest.MustTable(t, devtest.AsMagnetic(rows))
	bad := angle.CompassFrom(60 * devtest.Deg)
	for h := angle.Angle(0); h < angle.Turn; h += devtest.Deg {
		if _, err := unordered.OnCompass(angle.CompassFrom(h)); err != nil {
			bad = angle.CompassFrom(h)
			break
		}
	}
	for _, c := range []struct {
		name   string
		card   deviation.Source
		checks []check.Check
		says   string
	}{
		{"no checks", card, nil, "deviation: check against the card: there are no checks; give at least one"},
		{"unstated", card, []check.Check{rvwStated(0, 1, 1), {Heading: angle.MustParseCompass("090"), Deviation: deviation.East(devtest.Deg)}}, "check against the card, check 2 on 090°C: its uncertainty is unknown"},
		{"zero", card, []check.Check{rvwStated(45, 1, 0)}, "check 1 on 045°C: "},
		{"a card without an answer", devtest.Torn{On: angle.MustParseCompass("045")}, []check.Check{rvwStated(45, 1, 1)}, "check 1 on 045°C: the card is torn there"},
		{"an unordered card", unordered, []check.Check{rvwStated(bad.Degrees(), 1, 1)}, "check 1 on "},
	} {
		_, err := check.ReviewCard(c.card, c.checks)
		if _, ok := errors.AsType[*check.Error](err); !ok || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	_, err := check.ReviewCard(unordered, []check.Check{rvwStated(bad.Degrees(), 1, 1)})
	if _, ok := errors.AsType[*deviation.AmbiguousHeadingError](err); !ok {
		t.Errorf("an unordered card: %v", err)
	}
}

// One blunder does not condemn a good card: it is left out, and said to be.
func TestDoubtfulReadingIsLeftOut(t *testing.T) {
	card := devtest.MustTable(t, devtest.Every15(devtest.Usual)).WithUncertainty(devtest.Sigma(18 * devtest.Minute))
	v := variation.West(5 * devtest.Deg).WithUncertainty(devtest.Sigma(15 * devtest.Minute))
	log := func(more ...check.Check) []check.Check {
		return append([]check.Check{rvwStated(45, devtest.Usual(45*devtest.Deg)+0.2, 0.5), rvwStated(270, devtest.Usual(270*devtest.Deg)-0.3, 0.5)}, more...)
	}
	reading := check.Reading{
		Heading: new(angle.MustParseCompass("135")), Bearing: new(angle.CompassFrom(devtest.Degrees(100 + 5 - devtest.Usual(135*devtest.Deg) + 180))), Uncertainty: devtest.Sigma(devtest.Deg / 2), Variation: v,
	}
	reciprocal := against(t, reading, "a transit", angle.MustParseTrue("100"), devtest.Sigma(0))
	elsewhere := rvwStated(180, devtest.Usual(180*devtest.Deg)+20, 0.5)
	elsewhere.Warnings = []working.Warning{{Kind: check.SunElsewhere, Message: "the Sun was not rising"}}
	unstated := reciprocal
	unstated.Deviation = unstated.Deviation.WithUncertainty(angle.Uncertainty{})
	read := angle.Must(check.ReadLog(strings.NewReader("heading,deviation,uncertainty\n135,176W,0.5\n")))
	good := angle.Must(check.ReviewCard(card, log()))
	for name, c := range map[string]struct {
		doubtful check.Check
		says     string
	}{
		"a reciprocal":            {reciprocal, "on 135°C the reading is doubtful and was left out: take it again\n174°03′E cannot be a deviation\nperhaps the reciprocal was read"},
		"one of a log":            {read[0], "the reciprocal was read"},
		"one without uncertainty": {unstated, "the reciprocal was read"},
		"the Sun was not there":   {elsewhere, "on 180°C the reading is doubtful and was left out: take it again\nthe Sun was not rising"},
	} {
		r, err := check.ReviewCard(card, append([]check.Check{c.doubtful}, log()...))
		if err != nil {
			t.Fatal(err)
		}
		reasons := devtest.Texts(r.Reasons)
		if r.Verdict != check.CardHolds || r.Mean != good.Mean || r.ChiSquare != good.ChiSquare || r.ChiSquareProbability != good.ChiSquareProbability {
			t.Errorf("%s: %+v", name, r)
		}
		if len(r.Differences) != 3 || !r.Differences[0].LeftOut || r.Differences[1].LeftOut || !strings.HasPrefix(reasons, "2 checks differ") || !strings.Contains(reasons, c.says) {
			t.Errorf("%s: %+v\n%s", name, r.Differences, reasons)
		}
		sheet := r.Working()
		if s, _ := sheet.Steps.Find("difference 1"); !strings.HasSuffix(s.How, "left out: take it again") {
			t.Errorf("%s: %v", name, s)
		}
		if w := devtest.Texts(sheet.Warnings); !strings.HasPrefix(w, "on ") || !strings.Contains(w, "doubtful") {
			t.Errorf("%s: %v", name, w)
		}
		devtest.RoundTrips(t, r)
		// Alone it judges nothing.
		if r, err = check.ReviewCard(card, []check.Check{c.doubtful}); err != nil || r.Verdict != check.NotJudged || !strings.HasPrefix(r.Reasons[0].Message, "on ") || r.Mean != 0 {
			t.Errorf("%s: %+v, %v", name, r, err)
		}
		sheet = r.Working()
		if s, _ := sheet.Steps.Find("verdict"); len(sheet.Steps) != 2 || s.Value != "not judged" || !strings.Contains(devtest.Texts(sheet.Warnings), "doubtful") {
			t.Errorf("%s: %v", name, sheet)
		}
	}
	// Of too few checks the one that is far off can't be told from a changed compass.
	r, err := check.ReviewCard(card, log(rvwStated(180, devtest.Usual(180*devtest.Deg)+20, 0.5), reciprocal))
	if reasons := devtest.Texts(r.Reasons); err != nil || r.Verdict != check.CardInDoubt || !strings.Contains(reasons, "take it again") || !strings.Contains(reasons, "too few checks remain") {
		t.Errorf("%+v, %v", r, err)
	}
	// Two that agree with each other condemn it.
	r, err = check.ReviewCard(card, log(rvwStated(180, devtest.Usual(180*devtest.Deg)+20, 0.5), rvwStated(190, devtest.Usual(190*devtest.Deg)+19.5, 0.5)))
	if err != nil || r.Verdict != check.SwingAgain {
		t.Errorf("%+v, %v", r, err)
	}
}

// exactLog is a log of checks whose differences from the card are given in standard deviations of
// 0.5°, on headings apart, a day each. The card is taken as exact.
func exactLog(t *testing.T, off ...float64) (deviation.Source, []check.Check) {
	t.Helper()
	var checks []check.Check
	for i, z := range off {
		h := float64((i*135 + 15) % 360) // a row of the card
		c := rvwStated(h, devtest.Usual(devtest.Degrees(h))+z*0.5, 0.5)
		c.Time = time.Date(2026, 4, 1+i, 9, 0, 0, 0, time.UTC)
		checks = append(checks, c)
	}
	return devtest.MustTable(t, devtest.Every15(devtest.Usual)).WithUncertainty(devtest.Sigma(devtest.Deg / 1000)), checks
}

// One check that is far off is a misreading, not a change of the compass, even where it is the
// latest and a change since the last checks would lower chi-square too.
func TestMisreadLatestCheckShowsNoChange(t *testing.T) {
	r, err := check.ReviewCard(exactLog(t, 0, 0, 0, 0, 0, 0, 0, 6))
	if err != nil {
		t.Fatal(err)
	}
	reasons := devtest.Texts(r.Reasons)
	if r.Verdict != check.CardInDoubt || !r.Differences[7].LeftOut || r.Change != (deviation.Coefficients{}) || !r.Since.IsZero() {
		t.Errorf("%v, change %v since %v:\n%s", r.Verdict, r.Change, r.Since, reasons)
	}
	if !strings.Contains(reasons, "the latest check does not agree") || strings.Contains(reasons, "too few checks remain") || strings.Contains(reasons, "since") {
		t.Error(reasons)
	}
}

// Twenty checks have at most three outliers. The last four off by 3.3 standard deviations are a
// change by 3.3 × 0.5° since the seventeenth. The change costs 3 log 20 = 9.0. Three misread
// checks would cost 3 × 9.0, and the fourth the square 10.9.
func TestFourLatestChecksAreNotFourMisreadings(t *testing.T) {
	off := make([]float64, 20)
	for i := 16; i < 20; i++ {
		off[i] = 3.3
	}
	r, err := check.ReviewCard(exactLog(t, off...))
	if err != nil {
		t.Fatal(err)
	}
	if want := time.Date(2026, 4, 17, 9, 0, 0, 0, time.UTC); r.Verdict != check.SwingAgain || !devtest.Near(r.Change.A.Degrees(), 1.65, 0.01) || r.Change.B != 0 || r.Change.C != 0 || !r.Since.Equal(want) { // the card's own 0.001°
		t.Errorf("%v, %+v since %v:\n%s", r.Verdict, r.Change, r.Since, devtest.Texts(r.Reasons))
	}
	for i, d := range r.Differences {
		if d.LeftOut {
			t.Errorf("check %d is left out", i+1)
		}
	}
}

// A reason is given only where it holds: of four checks with the first misread three remain,
// which are too few, but the latest agrees. One check has no others to agree with.
func TestReasonsFitTheDoubt(t *testing.T) {
	const latest, few = "the latest check does not agree", "too few checks remain"
	for _, c := range []struct {
		off         []float64
		latest, few bool
	}{{[]float64{6, 0, 0, 0}, false, true}, {[]float64{0, 0, 6, 0}, false, true}, {[]float64{0, 0, 0, 6}, true, true}, {[]float64{2.5}, false, false}} {
		r, err := check.ReviewCard(exactLog(t, c.off...))
		if err != nil {
			t.Fatal(err)
		}
		reasons := devtest.Texts(r.Reasons)
		if r.Verdict != check.CardInDoubt || strings.Contains(reasons, latest) != c.latest || strings.Contains(reasons, few) != c.few {
			t.Errorf("%v: %v:\n%s", c.off, r.Verdict, reasons)
		}
	}
}

// A card is not condemned by fewer than four checks that remain when others are left out: then
// either none is left out or the verdict is in doubt.
func TestFewRemainingChecksCondemnNoCard(t *testing.T) {
	random := rand.New(rand.NewPCG(22, 2026))
	condemned := 0
	for range 1000 {
		off := make([]float64, 2+random.IntN(3))
		for i := range off {
			off[i] = 4 * random.NormFloat64()
		}
		off[random.IntN(len(off))] += 20
		r, err := check.ReviewCard(exactLog(t, off...))
		if err != nil {
			t.Fatal(err)
		}
		if r.Verdict != check.SwingAgain {
			continue
		}
		condemned++
		for i, d := range r.Differences {
			if d.LeftOut {
				t.Fatalf("%.1f: swing again by %d checks, without check %d", off, len(off)-1, i+1)
			}
		}
	}
	if condemned < 100 {
		t.Errorf("only %d logs condemn the card", condemned)
	}
}

// onEast puts the checks of a log on east, with the same differences.
func onEast(t *testing.T, off ...float64) (deviation.Source, []check.Check) {
	t.Helper()
	card, checks := exactLog(t, off...)
	for i, z := range off {
		at := checks[i].Time
		checks[i] = rvwStated(90, devtest.Usual(90*devtest.Deg)+z*0.5, 0.5)
		checks[i].Time = at
	}
	return card, checks
}

// Two checks on one heading that agree neither with the card nor with each other show no change:
// one of them alone would have to show it.
func TestTwoChecksApartShowNoChange(t *testing.T) {
	for _, off := range [][]float64{{5, 15}, {15, 5}, {-5, 15}} {
		r, err := check.ReviewCard(onEast(t, off...))
		if err != nil {
			t.Fatal(err)
		}
		if r.Verdict != check.SwingAgain || r.Change != (deviation.Coefficients{}) {
			t.Errorf("%v: %v, change %+v", off, r.Verdict, r.Change)
		}
	}
	// Two that agree do.
	r, err := check.ReviewCard(onEast(t, 5, 5))
	if err != nil || r.Verdict != check.SwingAgain || !devtest.Near(r.Change.A.Degrees(), 2.5, 0.01) {
		t.Errorf("%v, change %+v, %v", r.Verdict, r.Change, err)
	}
}

// Four checks that remain condemn the card, though a fifth does not agree.
func TestFourRemainingChecksCondemnACard(t *testing.T) {
	r, err := check.ReviewCard(exactLog(t, -15, 5, 5, 5, 5))
	if err != nil || r.Verdict != check.SwingAgain || !r.Differences[0].LeftOut || !devtest.Near(r.Change.A.Degrees(), 2.5, 0.01) {
		t.Errorf("%v, change %+v, %v:\n%s", r.Verdict, r.Change, err, devtest.Texts(r.Reasons))
	}
}

// A check that alone condemns the card is taken again, even where chance makes such a difference
// in more than one log in a hundred (2.81 standard deviations of two checks). Chi-square of both
// is 10.7 (0.5 % by chance); that of the other alone is 2.9 (9 %).
func TestCheckThatAloneCondemnsIsTakenAgain(t *testing.T) {
	r, err := check.ReviewCard(onEast(t, 2.8, -1.7))
	if err != nil || r.Verdict != check.CardInDoubt || !r.Differences[0].LeftOut || r.Differences[1].LeftOut {
		t.Errorf("%v, %v:\n%s", r.Verdict, err, devtest.Texts(r.Reasons))
	}
}
