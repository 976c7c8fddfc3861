package swing_test

import (
	"fmt"
	"log"
	"slices"
	"strings"
	"testing"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// The Quillon's swing off Orlesk Head, as it stands on the page. Every figure is
// invented.
func ExampleSwing_Working() {
	swung, err := swing.ReadSwing(strings.NewReader(swxSwing), swxOrlesk)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(swung.Working())
	// Output:
	// Swing by a transit of known direction
	//   Transit by true       062°T  from the chart
	//   Variation            5°00′W  west: magnetic is greater than true
	//   Transit by magnetic   067°M
	//   Deviation on 000°C   4°30′E  standard uncertainty ±0°30′ of this reading alone
	//   Deviation on 045°C   2°30′E  standard uncertainty ±0°30′ of this reading alone
	//   Deviation on 090°C   3°30′W  standard uncertainty ±0°30′ of this reading alone
	//   Deviation on 135°C   6°00′W  standard uncertainty ±0°30′ of this reading alone
	//   Deviation on 180°C   1°30′W  standard uncertainty ±0°30′ of this reading alone
	//   Deviation on 225°C   3°30′E  standard uncertainty ±0°30′ of this reading alone
	//   Deviation on 270°C   4°30′E  standard uncertainty ±0°30′ of this reading alone
	//   Deviation on 315°C   4°00′E  standard uncertainty ±0°30′ of this reading alone
	//   An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

// The curve through the Quillon's swing, as it stands on the page. Every figure is
// invented.
func ExampleFit_Working() {
	swung, err := swing.ReadSwing(strings.NewReader(swxSwing), swxOrlesk)
	if err != nil {
		log.Fatal(err)
	}
	fit, err := swung.Fit(swing.FitOptions{})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(fit.Working())
	// Output:
	// Deviation curve by compass heading, fitted to 8 observations
	//   Coefficient A                  +1.00°  ±0.29°
	//   Coefficient B                  −3.94°  ±0.15°
	//   Coefficient C                  +3.09°  ±0.12°
	//   Coefficient D                  +2.00°  ±0.16°
	//   Coefficient E                  +0.50°  ±0.13°
	//   Degrees of freedom                  3  observations minus coefficients
	//   Order                               2  so few readings support no higher order
	//   Harmonics                        to 3  these headings cannot show harmonics of order 4 and above
	//   Scatter                         0.12°  standard deviation of one observation about the curve
	//   Correlation of neighbours  not tested  the readings are too few or too coarse
	//   Chi-square                        0.2  against the stated uncertainties; probability by chance alone 98 %
	//   An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

// What a fit left out, and where it has nothing, is a warning of its working.
func TestTheWorkingOfAFitWarns(t *testing.T) {
	var headings []angle.Angle
	for h := 90 * devtest.Deg; h <= 350*devtest.Deg; h += 10 * devtest.Deg {
		headings = append(headings, h)
	}
	swung := devtest.Swing(headings, devtest.Usual)
	swung[3].Deviation = deviation.East(40 * devtest.Deg)
	sheet := angle.Must(swing.NewFit(swung, swing.FitOptions{Robust: true})).Working()
	if w := sheet.Warnings; len(w) != 2 || w[0].Kind != swing.ObservationLeftOut || w[0].Message != "the observation on 120°C, deviation 40°00′E, does not agree with the others and was left out" || w[1].Kind != deviation.NotObserved || !strings.Contains(w[1].Message, "there is no observation from 350°C to 090°C") {
		t.Errorf("%v", w)
	}
	// Where what the readings share is not stated, it says why a card has no ±.
	for _, v := range []variation.Variation{variation.West(5 * devtest.Deg), variation.West(5 * devtest.Deg).WithUncertainty(devtest.Sigma(devtest.Deg / 4))} {
		readings, transit := devtest.TransitSwing(16, devtest.Sigma(devtest.Deg/4), devtest.Sigma(0), v)
		fit := angle.Must(angle.Must(swing.Reduce(readings, transit)).Fit(swing.FitOptions{}))
		card := angle.Must(deviation.NewCard(fit.Curve, 15*devtest.Deg, deviation.Details{})).String()
		warns := slices.ContainsFunc(fit.Working().Warnings, func(w working.Warning) bool { return w.Kind == swing.SharedNotStated })
		if warns == strings.Contains(card, "±") {
			t.Errorf("%v: %v\n%s", v, fit.Working().Warnings, card)
		}
	}
	// Without degrees of freedom the uncertainties are unknown.
	sheet = angle.Must(swing.NewFit(devtest.Swing(devtest.Even(5, 0), devtest.Usual), swing.FitOptions{})).Working()
	if s, _ := sheet.Steps.Find("A"); s.How != "uncertainty unknown" {
		t.Errorf("%+v", s)
	}
	if _, ok := sheet.Steps.Find("scatter"); ok {
		t.Error("a scatter of nothing")
	}
	var noFit *swing.Fit
	var noSwing *swing.Swing
	for name, s := range map[string]working.Sheet{"nil fit": noFit.Working(), "zero fit": new(swing.Fit).Working(), "nil swing": noSwing.Working()} {
		if s.Title != "" || len(s.Steps) != 0 {
			t.Errorf("%s: %v", name, s)
		}
	}
}

// A second compass's table is warned of on the heading on which it swings out.
func TestASwingWarnsOfTheSecondCompass(t *testing.T) {
	var rows []deviation.Row[angle.Compass]
	for h := 0.0; h < 360; h += 45 {
		rows = append(rows, devtest.RowOf(h, 2))
	}
	smooth := devtest.MustTable(t, append(rows, devtest.RowOf(5, 8))).Smooth()
	swung, err := swing.Reduce([]swing.Reading{{Heading: new(angle.MustParseCompass("024")), Other: new(angle.MustParseCompass("020"))}}, swing.SecondCompass{Deviation: smooth})
	if err != nil || !devtest.Warned(swung.Warnings, deviation.SwingsOut) || !strings.HasPrefix(swung.Warnings[0].Message, "the smooth curve swings to ") || swung.Warnings[1].Message != "the warning above is about the second compass, on heading 024°C" {
		t.Errorf("%+v, %v", swung, err)
	}
}
