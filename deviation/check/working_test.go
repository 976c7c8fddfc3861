package check_test

import (
	"fmt"
	"log"
	"reflect"
	"strings"
	"testing"

	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/check"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
)

// A log of the Quillon's checks against its card, as it stands on the page. Every
// figure is invented.
func ExampleReview_Working() {
	card, err := deviation.ReadTable(strings.NewReader(`compass,deviation
000,4½°E
045,2½°E
090,3½°W
135,6°W
180,1½°W
225,3½°E
270,4½°E
315,4°E
`))
	if err != nil {
		log.Fatal(err)
	}
	checks, err := check.ReadLog(strings.NewReader("heading,deviation,uncertainty\n090,3°10′W,0.5\n180,1°00′W,0.5\n"))
	if err != nil {
		log.Fatal(err)
	}
	review, err := check.ReviewCard(card.WithUncertainty(angle.Must(angle.StandardUncertainty(20*angle.Minute))), checks)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(review.Working())
	// Output:
	// The card by the checks made since
	//   Check on 090°C   0°20′E  check 3°10′W minus card 3°30′W; uncertainty ±0°36′
	//   Check on 180°C   0°30′E  check 1°00′W minus card 1°30′W; uncertainty ±0°36′
	//   Mean difference  0°25′E  weighted, uncertainty ±0°32′; probability by chance alone 44 %
	//   Chi-square          0.6  for 2 checks; probability by chance alone 73 %
	//   The card          holds
	//   An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

func TestWorkingsHaveCautions(t *testing.T) {
	swung, err := swing.ReadSwing(strings.NewReader(devtest.SwingRecord), devtest.Orlesk)
	if err != nil {
		t.Fatal(err)
	}
	fit := angle.Must(swung.Fit(swing.FitOptions{Order: 3}))
	one, other := cmbCheck(t, 90, -4, devtest.Sigma(devtest.Deg), "the Sun"), cmbCheck(t, 90, 3, devtest.Sigma(devtest.Deg), "the beacons")
	both := angle.Must(check.Combine(one, other))
	review := angle.Must(check.ReviewCard(fit.Curve, []check.Check{one, cmbCheck(t, 90, -5, devtest.Sigma(devtest.Deg), "the beacons")}))
	for name, c := range map[string]struct {
		sheet   working.Sheet
		caution string
		title   string
		keys    []string
	}{
		"check":    {one.Working(), working.Caution, "Compass checked against the Sun", []string{"compass error", "variation", "deviation"}},
		"several":  {both.Working(), working.Caution, "Compass checked against several objects", []string{"error 1", "error 2", "compass error", "deviation"}},
		"swing":    {swung.Working(), working.Caution, "Swing by a transit of known direction", []string{"true", "variation", "magnetic", "deviation 1", "deviation 8"}},
		"fit":      {fit.Working(), working.Caution, "Deviation curve by compass heading, fitted to 8 observations", []string{"A", "B", "C", "D", "E", "sin 3z", "cos 3z", "degrees of freedom", "scatter", "chi-square"}},
		"review":   {review.Working(), working.Caution, "The card by the checks made since", []string{"difference 1", "difference 2", "mean", "chi-square", "verdict"}},
		"analysis": {adjust.Analyse(fit.Curve.Coefficients()).Working(), deviation.AdjusterCaution, "What the coefficients mean", []string{"A", "E"}},
		"by hand":  {angle.Must(deviation.AnalyseByHand(angle.Must(deviation.OnEightHeadings(deviation.None())))).Working(), deviation.AdjusterCaution, "Coefficients by hand", []string{"A", "E"}},
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
	if len(both.Working().Warnings) != 1 || !reflect.DeepEqual(both.Working().Warnings, both.Warnings) {
		t.Errorf("%q", both.Working().Warnings)
	}
	if steps := len(swung.Steps); len(swung.Working().Steps) != steps+8 || len(swung.Steps) != steps {
		t.Errorf("the swing's own steps grew: %v", swung.Steps)
	}
}
