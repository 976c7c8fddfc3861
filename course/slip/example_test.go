package slip_test

import (
	"fmt"
	"log"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/slip"
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

// What the Quillon converts with off Orlesk Head: the rose printed on the chart, and her
// card.
var offOrleskHead = course.With{
	Variation: variation.MustParseLegend("3°50′W 2014 (9′E)"),
	Deviation: cardOfQuillon,
	At:        angle.MustParsePosition("47°02′N 019°06′W"),
	On:        time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC),
}

// A learner has the variation right, but added it.
func Example() {
	p, err := slip.NewToSteer(angle.MustParseTrue("230"), course.With{
		Variation: variation.MustParseLegend("7°20′W 2015 (12′E)"),
		Deviation: deviation.East(3 * angle.Degree),
		On:        offOrleskHead.On,
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(p.Print(p.Answer()))
	fmt.Println(p.Diagnose(222))
	// Output:
	// 232°
	// wrong: the variation was applied the wrong way; or the answer is ten off: a figure misread; these explain it equally
}

// Three have worked the course to Minnow Ledge and come to 106.5°, 117.5° and 111°. Who
// went wrong, and where?
func ExampleProblem_Diagnose() {
	p, err := slip.NewToSteer(angle.MustParseTrue("112"), offOrleskHead)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(p.Diagnose(106.5))
	fmt.Println(p.Diagnose(117.5))
	fmt.Println(p.Diagnose(111))
	// Output:
	// wrong: the variation was applied the wrong way
	// wrong: the deviation was applied the wrong way
	// right
}
