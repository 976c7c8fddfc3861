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
// on the chart, and its card.
var inOrleskBay = course.With{
	Variation: variation.MustParseLegend("7°20′W 2015 (12′E)"),
	Deviation: cardOfQuillon,
	At:        new(angle.MustParsePosition("47°02′N 019°06′W")),
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
	// Change error             ±0°30′  the annual change is not steady over 11 years, at this latitude
	// Source                   ±0°25′  the error of the forecast on the chart, at this latitude; local anomalies are not included
	// Uncertainty              ±0°39′  standard: change error, source and rounding (±0°05′) together
	// Variation in 2026        5°08′W  change east, variation west: it decreases
	// Magnetic course        117°08′M  variation is west: magnetic is greater than true
	// Deviation              3°12.1′E  table, linearly between 4°00′E on 090°C and 3°00′E on 120°C; on the compass course that results
	// Compass course       113°55.9′C  deviation is east: compass is less than magnetic
	// Total compass error    1°55.9′W  variation and deviation have opposite names: the difference, named as the greater
	// Steer by compass          114°C  to the nearest whole degree
	// Warning: the rose of 2015 gives 5°08′W ±0°39′ for 2026, beyond the limit of ±0°30′: use a newer chart or a field model
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

// The Quillon has been steering 270° by compass. What goes on the chart?
func ExampleFromCompass() {
	h, err := course.FromCompass(angle.MustParseCompass("270"), inOrleskBay)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%v is %v and %.0v; the compass error is %v\n", h.Compass(), h.Magnetic(), h.True(), h.CompassError())
	// Output:
	// 270°C is 268°M and 262°52′T; the compass error is 7°08′W
}

// Heading 045° by compass the Quillon takes a bearing of Braddle Point with the
// same compass. Its deviation is that of 045°, not that of 300°, where it would
// be 4° the other way.
func ExampleHeading_BearingFromCompass() {
	h, err := course.FromCompass(angle.MustParseCompass("045"), inOrleskBay)
	if err != nil {
		log.Fatal(err)
	}
	b := h.BearingFromCompass(angle.MustParseCompass("300"))
	fmt.Printf("deviation %v, variation %v\n", h.Deviation(), h.Variation())
	fmt.Printf("Braddle Point bears %.0v, %s\n", b.True(), b.Relative().SideString())
	// Output:
	// deviation 2°15′E, variation 5°08′W
	// Braddle Point bears 297°07′T, 105° to port
}

// A tender has a hand compass held clear of iron, and takes the variation from the
// pilot book: 5° west, good to half a degree. The program must say that there is no
// deviation.
func ExampleWith() {
	tender := course.With{
		Variation: variation.MustParse("5°W ±0°30′"),
		Deviation: deviation.None(),
	}
	h, err := course.FromTrue(angle.MustParseTrue("359"), tender)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("steer", h.Compass(), h.Uncertainty())

	_, err = course.FromTrue(angle.MustParseTrue("359"), course.With{Variation: tender.Variation})
	fmt.Println(err)
	// Output:
	// steer 004°C ±0°30′
	// no source of deviation: give a table, a curve or a known deviation; deviation.None() for a compass without deviation
}

// A bearing by hand-bearing compass needs the variation alone; the steering compass
// reads another figure, by the deviation of the ship's head.
func ExampleBearing() {
	h, err := course.FromCompass(angle.MustParseCompass("045"), inOrleskBay)
	if err != nil {
		log.Fatal(err)
	}
	b := h.BearingFromMagnetic(angle.MustParseMagnetic("302"))
	fmt.Printf("%.0v to plot; the steering compass reads %.0v; from the bow %v\n", b.True(), b.Compass(), b.Relative())
	fmt.Print(b.Working())
	// Output:
	// 296°52′T to plot; the steering compass reads 299°45′C; from the bow 254.8°R
	// Magnetic bearing         302°M  given
	// Variation in 2015       7°20′W  printed at the rose, annual change 12′E
	// Years, 2015 to 2026   11 years  counted in whole years
	// Change                  2°12′E  11 years × 12′E
	// Change error            ±0°30′  the annual change is not steady over 11 years, at this latitude
	// Source                  ±0°25′  the error of the forecast on the chart, at this latitude; local anomalies are not included
	// Uncertainty             ±0°39′  standard: change error, source and rounding (±0°05′) together
	// Variation in 2026       5°08′W  change east, variation west: it decreases
	// True bearing          296°52′T  variation is west: true is less than magnetic
	// Standard uncertainty    ±0°39′  of variation
	// Warning: the rose of 2015 gives 5°08′W ±0°39′ for 2026, beyond the limit of ±0°30′: use a newer chart or a field model
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}
