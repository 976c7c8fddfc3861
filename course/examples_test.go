package course_test

import (
	"fmt"
	"log"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// These examples go on from the one of the package, where offOrleskHead is the
// rose of the chart and the Quillon's card. All of it is invented.

// The Quillon has been steering 270° by compass. What goes on the chart?
func ExampleFromCompass() {
	h, err := course.FromCompass(angle.MustParseCompass("270"), offOrleskHead)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%v is %v and %.0v; the compass error is %v\n", h.Compass(), h.Magnetic(), h.True(), h.CompassError())
	// Output: 270°C is 268°M and 265°58′T; the compass error is 4°02′W
}

// Heading 045° by compass the Quillon takes a bearing of Braddle Point with the
// same compass. Its deviation is that of 045°, not that of 300°, where it would
// be 4° the other way.
func ExampleHeading_BearingFromCompass() {
	h, err := course.FromCompass(angle.MustParseCompass("045"), offOrleskHead)
	if err != nil {
		log.Fatal(err)
	}
	b := h.BearingFromCompass(angle.MustParseCompass("300"))
	fmt.Printf("deviation %v, variation %v\n", h.Deviation(), h.Variation())
	fmt.Printf("Braddle Point bears %.0v, %s\n", b.True(), b.Relative().SideString())
	// Output:
	// deviation 2°15′E, variation 2°02′W
	// Braddle Point bears 300°13′T, 105° to port
}

// A tender has a hand compass held clear of iron, and takes the variation from
// the pilot book: 2° west, good to half a degree. That there is no deviation has to be said.
func ExampleWith() {
	tender := course.With{
		Variation: variation.MustParse("2°W ±0°30′"),
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
	// steer 001°C ±0°30′
	// course: no source of deviation: give one in With, or say that there is none
}
