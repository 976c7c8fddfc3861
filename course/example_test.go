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

// What the Quillon converts with in Orlesk Bay on a summer morning: the rose printed
// on the chart, and her card.
var inOrleskBay = course.With{
	Variation: variation.MustParseLegend("7°20′W 2015 (12′E)"),
	Deviation: cardOfQuillon,
	At:        angle.MustParsePosition("47°02′N 019°06′W"),
	On:        time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC),
}

// Out of Orlesk Bay the course is 112° by the chart. What does the Quillon steer?
func Example() {
	h, err := course.FromTrue(angle.MustParseTrue("112"), inOrleskBay)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(h.Working())
	// Output:
	// True course               112°T  given
	// Variation in 2015        7°20′W  printed at the rose, annual change 12′E
	// Years, 2015 to 2026    11 years  counted in whole years
	// Change                   2°12′E  11 years × 12′E
	// Variation in 2026        5°08′W  change east, variation west: it decreases
	// Magnetic course        117°08′M  variation is west: magnetic is greater than true
	// Deviation              3°12.1′E  on the compass course that results: table, linearly between 4°00′E on 090°C and 3°00′E on 120°C
	// Compass course       113°55.9′C  deviation is east: compass is less than magnetic
	// Total compass error    1°55.9′W  variation and deviation of contrary names: their difference, named as the greater
	// Steer by compass          114°C  to the nearest whole degree
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}
