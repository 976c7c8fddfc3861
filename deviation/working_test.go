package deviation_test

import (
	"fmt"
	"log"
	"slices"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// The Quillon's swing off Orlesk Head, as it stands on the page. Every figure is
// invented.
func ExampleSwing_Working() {
	swing, err := deviation.ReadSwing(strings.NewReader(swxSwing), swxOrlesk)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(swing.Working())
	// Output:
	// Swing by a transit of known direction
	//   Transit by true       062°T  from the chart
	//   Variation            5°00′W  west: magnetic is greater than true
	//   Transit by magnetic   067°M
	//   Deviation on 000°C   4°30′E  standard uncertainty ±0°30′ of its own
	//   Deviation on 045°C   2°30′E  standard uncertainty ±0°30′ of its own
	//   Deviation on 090°C   3°30′W  standard uncertainty ±0°30′ of its own
	//   Deviation on 135°C   6°00′W  standard uncertainty ±0°30′ of its own
	//   Deviation on 180°C   1°30′W  standard uncertainty ±0°30′ of its own
	//   Deviation on 225°C   3°30′E  standard uncertainty ±0°30′ of its own
	//   Deviation on 270°C   4°30′E  standard uncertainty ±0°30′ of its own
	//   Deviation on 315°C   4°00′E  standard uncertainty ±0°30′ of its own
	//   An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

// The curve through the Quillon's swing, as it stands on the page. Every figure is
// invented.
func ExampleFit_Working() {
	swing, err := deviation.ReadSwing(strings.NewReader(swxSwing), swxOrlesk)
	if err != nil {
		log.Fatal(err)
	}
	fit, err := swing.Fit(deviation.FitOptions{})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(fit.Working())
	// Output:
	// Deviation curve by compass heading, fitted to 8 observations
	//   Coefficient A             +1.00°  ±0.29°
	//   Coefficient B             −3.94°  ±0.15°
	//   Coefficient C             +3.09°  ±0.12°
	//   Coefficient D             +2.00°  ±0.16°
	//   Coefficient E             +0.50°  ±0.13°
	//   Degrees of freedom             3  observations more than coefficients
	//   Harmonics                   to 3  these headings cannot show those of 4 and more times the heading
	//   Scatter                    0.12°  standard deviation of one observation about the curve
	//   Neighbours err alike  not tested  too few readings, or too coarse ones
	//   Chi-square                   0.2  against the stated uncertainties; chance alone reaches that in 98 cases in 100
	//   An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

// A log of the Quillon's checks against her card, as it stands on the page. Every
// figure is invented.
func ExampleReview_Working() {
	card, err := deviation.NewTable(quillon)
	if err != nil {
		log.Fatal(err)
	}
	checks, err := deviation.ReadChecks(strings.NewReader("heading,deviation,uncertainty\n090,3°10′W,0.5\n180,1°00′W,0.5\n"))
	if err != nil {
		log.Fatal(err)
	}
	review, err := deviation.ReviewChecks(card.WithUncertainty(angle.Must(angle.StandardUncertainty(20*angle.Minute))), checks)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(review.Working())
	// Output:
	// The card by the checks made since
	//   Check on 090°C   0°20′E  check 3°10′W minus card 3°30′W; uncertainty ±0°36′
	//   Check on 180°C   0°30′E  check 1°00′W minus card 1°30′W; uncertainty ±0°36′
	//   Mean difference  0°25′E  weighted, uncertainty ±0°32′; chance alone differs as much in 44 cases in 100
	//   Chi-square          0.6  for 2 checks; chance alone reaches that in 73 cases in 100
	//   The card          holds
	//   An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

func TestEveryFinalAnswerHasItsWorkingWithItsCaution(t *testing.T) {
	swing, err := deviation.ReadSwing(strings.NewReader(swxSwing), swxOrlesk)
	if err != nil {
		t.Fatal(err)
	}
	fit := angle.Must(swing.Fit(deviation.FitOptions{Order: 3}))
	one, other := cmbCheck(t, 90, -4, Sigma(deg), "the Sun"), cmbCheck(t, 90, 3, Sigma(deg), "the beacons")
	both := angle.Must(deviation.CombineChecks(one, other))
	review := angle.Must(deviation.ReviewChecks(fit.Curve, []deviation.Check{one, cmbCheck(t, 90, -5, Sigma(deg), "the beacons")}))
	for name, c := range map[string]struct {
		sheet   working.Sheet
		caution string
		title   string
		keys    []string
	}{
		"check":    {one.Working(), working.Caution, "Compass checked against the Sun", []string{"compass error", "variation", "deviation"}},
		"several":  {both.Working(), working.Caution, "Compass checked against several objects", []string{"error 1", "error 2", "compass error", "deviation"}},
		"swing":    {swing.Working(), working.Caution, "Swing by a transit of known direction", []string{"true", "variation", "magnetic", "deviation 1", "deviation 8"}},
		"fit":      {fit.Working(), working.Caution, "Deviation curve by compass heading, fitted to 8 observations", []string{"A", "B", "C", "D", "E", "sin 3z", "cos 3z", "degrees of freedom", "scatter", "chi-square"}},
		"review":   {review.Working(), working.Caution, "The card by the checks made since", []string{"difference 1", "difference 2", "mean", "chi-square", "verdict"}},
		"analysis": {deviation.Analyse(fit.Coefficients()).Working(), deviation.AdjusterCaution, "What the coefficients mean", []string{"A", "E"}},
		"by hand":  {deviation.EightHeadings{}.Analyse().Working(), deviation.AdjusterCaution, "Coefficients by hand", []string{"A", "E"}},
	} {
		if c.sheet.Caution != c.caution || c.sheet.Title != c.title {
			t.Errorf("%s: %q, %q", name, c.sheet.Title, c.sheet.Caution)
		}
		for _, key := range c.keys {
			if _, ok := c.sheet.Steps.Find(key); !ok {
				t.Errorf("%s: no step %q in\n%v", name, key, c.sheet)
			}
		}
	}
	if len(both.Working().Warnings) != 1 || both.Working().Warnings[0] != both.Warnings[0] {
		t.Errorf("%q", both.Working().Warnings)
	}
	if steps := len(swing.Steps); len(swing.Working().Steps) != steps+8 || len(swing.Steps) != steps {
		t.Errorf("the swing's own steps grew: %v", swing.Steps)
	}
}

// What a fit left out, and where it has nothing, is a warning of its working.
func TestTheWorkingOfAFitWarns(t *testing.T) {
	var headings []angle.Angle
	for h := 90 * deg; h <= 350*deg; h += 10 * deg {
		headings = append(headings, h)
	}
	swing := madeSwing(headings, usual)
	swing[3].Deviation = deviation.East(40 * deg)
	sheet := angle.Must(deviation.NewFit(swing, deviation.FitOptions{Robust: true})).Working()
	if w := sheet.Warnings; len(w) != 2 || w[0] != (working.Warning{Kind: deviation.ObservationLeftOut, Message: "the observation on 120°C, 40°00′E, stands apart and was left out"}) || w[1].Kind != deviation.NotObserved || !strings.Contains(w[1].Message, "nothing was observed from 350°C to 090°C") {
		t.Errorf("%v", w)
	}
	// Where what the readings share is not stated, it says why a card has no ±.
	for _, v := range []variation.Variation{variation.West(5 * deg), variation.West(5 * deg).WithUncertainty(Sigma(deg / 4))} {
		readings, transit := swgTransit(16, Sigma(deg/4), Sigma(0), v)
		fit := angle.Must(angle.Must(deviation.Reduce(readings, transit)).Fit(deviation.FitOptions{}))
		card := angle.Must(deviation.NewCard(fit.Curve, 15*deg, deviation.Details{})).String()
		warns := slices.ContainsFunc(fit.Working().Warnings, func(w working.Warning) bool { return w.Kind == deviation.SharedNotStated })
		if warns == strings.Contains(card, "±") {
			t.Errorf("%v: %v\n%s", v, fit.Working().Warnings, card)
		}
	}
	// With nothing to spare the uncertainties are not known.
	sheet = angle.Must(deviation.NewFit(madeSwing(madeEven(5, 0), usual), deviation.FitOptions{})).Working()
	if s, _ := sheet.Steps.Find("A"); s.How != "its uncertainty is not known" {
		t.Errorf("%+v", s)
	}
	if _, ok := sheet.Steps.Find("scatter"); ok {
		t.Error("a scatter of nothing")
	}
	var noFit *deviation.Fit
	var noSwing *deviation.Swing
	for name, s := range map[string]working.Sheet{"nil fit": noFit.Working(), "zero fit": new(deviation.Fit).Working(), "nil swing": noSwing.Working()} {
		if s.Title != "" || len(s.Steps) != 0 {
			t.Errorf("%s: %v", name, s)
		}
	}
}
