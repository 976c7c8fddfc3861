package course_test

import (
	"fmt"
	"iter"
	"log"
	"slices"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/wmm"
)

// trueHeadings turns the degrees of a heading sensor, by the vessel's compass, into true
// headings. What the sensor can't have meant is passed on as an error.
func trueHeadings(degrees iter.Seq[float64], with course.With) iter.Seq2[angle.True, error] {
	return func(yield func(angle.True, error) bool) {
		for d := range degrees {
			c, err := angle.CompassDegrees(d)
			var h course.Heading
			if err == nil {
				h, err = course.FromCompass(c, with)
			}
			if !yield(h.True(), err) {
				return
			}
		}
	}
}

// A heading sensor gives a stream of degrees by compass. The card gives the deviation, and
// the field model the variation: it is asked once, since it hardly changes over a day's sail.
func Example_headingSensor() {
	off := angle.MustParsePosition("47°02′N 019°06′W")
	today := time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC)
	v, err := wmm.Models().VariationAt(off, today)
	if err != nil {
		log.Fatal(err)
	}
	with := course.With{Variation: v, Deviation: cardOfQuillon}
	for heading, err := range trueHeadings(slices.Values([]float64{118.4, 118.9, 119.3, 720}), with) {
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%.1f\n", heading)
	}
	// Output:
	// 116.3°T
	// 116.8°T
	// 117.2°T
	// direction 720 is invalid; give 0° to 360°
}

// The stream of Example_headingSensor allocates nothing for a value.
func TestHeadingSensorAllocatesNothing(t *testing.T) {
	with := course.With{Variation: angle.Must(wmm.Models().VariationAt(angle.MustParsePosition("47°02′N 019°06′W"), time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC))), Deviation: cardOfQuillon}
	degrees := make([]float64, 1000)
	for i := range degrees {
		degrees[i] = float64(i) * 0.36
	}
	perRun := testing.AllocsPerRun(10, func() {
		for _, err := range trueHeadings(slices.Values(degrees), with) {
			if err != nil {
				t.Fatal(err)
			}
		}
	})
	if perRun > 5 { // for the iterators, not for the values
		t.Errorf("%v allocations for 1000 values", perRun)
	}
}
