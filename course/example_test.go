package course_test

import (
	"fmt"
	"log"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// The vessel Quillon, the Orlesk coast and every figure here are invented.

// The deviation card of the Quillon's steering compass.
var cardOfQuillon = angle.Must(deviation.ReadTable(strings.NewReader(`compass,deviation
000,2°W
030,1°E
060,3°30′E
090,4°E
120,3°E
150,2°30′E
180,2°E
210,1°30′E
240,0°
270,2°W
300,4°W
330,4°W
`)))

// What the Quillon converts with off Orlesk Head on a summer morning: the rose
// printed on the chart, and her card.
var offOrleskHead = course.With{
	Variation: variation.MustParseLegend("3°50′W 2014 (9′E)"),
	Deviation: cardOfQuillon,
	At:        angle.MustParsePosition("47°02′N 019°06′W"),
	On:        time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC),
}

// From off Orlesk Head the course to Minnow Ledge is 112° by the chart. What
// does the Quillon steer?
func Example() {
	h, err := course.FromTrue(angle.MustParseTrue("112"), offOrleskHead)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(h.Working())
	// Output:
	// True course               112°T  given
	// Variation in 2014        3°50′W  printed at the rose, annual change 9′E
	// Years, 2014 to 2026    12 years  counted in whole years
	// Change                   1°48′E  12 years × 9′E
	// Variation in 2026        2°02′W  change east, variation west: it decreases
	// Magnetic course        114°02′M  variation is west: magnetic is greater than true
	// Deviation              3°18.6′E  on the compass course that results: table, linearly between 4°00′E on 090°C and 3°00′E on 120°C
	// Compass course       110°43.4′C  deviation is east: compass is less than magnetic
	// Total compass error    1°16.6′E  variation and deviation of contrary names: their difference, named as the greater
	// Steer by compass          111°C  to the nearest whole degree
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}
