package deviation_test

// The Quillon and its compass are invented, and so is every figure of these
// examples.

import (
	"errors"
	"fmt"
	"log"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// The compass of the Quillon, on the eight principal headings.
var quillon = []deviation.Row[angle.Compass]{
	{Heading: angle.MustParseCompass("000"), Deviation: deviation.MustParse("4½°E")},
	{Heading: angle.MustParseCompass("045"), Deviation: deviation.MustParse("2½°E")},
	{Heading: angle.MustParseCompass("090"), Deviation: deviation.MustParse("3½°W")},
	{Heading: angle.MustParseCompass("135"), Deviation: deviation.MustParse("6°W")},
	{Heading: angle.MustParseCompass("180"), Deviation: deviation.MustParse("1½°W")},
	{Heading: angle.MustParseCompass("225"), Deviation: deviation.MustParse("3½°E")},
	{Heading: angle.MustParseCompass("270"), Deviation: deviation.MustParse("4½°E")},
	{Heading: angle.MustParseCompass("315"), Deviation: deviation.MustParse("4°E")},
}

// Off Orlesk Head the Quillon is to make good 037° magnetic: what must the
// helmsman steer? The deviation belongs to the compass heading, which is what
// is asked for, so that it is solved for.
func Example() {
	table, err := deviation.NewTable(quillon)
	if err != nil {
		log.Fatal(err)
	}
	course := angle.MustParseMagnetic("037°M")
	d, err := table.OnMagnetic(course)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("deviation:", d)
	fmt.Println("steer:", d.Compass(course))

	// And back: what is the magnetic heading of the Quillon when it steers 034°?
	steered := angle.MustParseCompass("034°C")
	if d, err = table.OnCompass(steered); err != nil {
		log.Fatal(err)
	}
	fmt.Printf("on %v: %v, %.1f\n", steered, d, d.Magnetic(steered))
	// Output:
	// deviation: 2°59.3′E
	// steer: 034°C
	// on 034°C: 2°59.3′E, 037.0°M
}

// A table needs no order, no even spacing and no row on north, but it must go
// all round.
func ExampleNewTable() {
	table, err := deviation.NewTable(quillon)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("kept by", table.By(), "heading,", len(table.Entries()), "rows")

	e, err := table.ExplainDeviation(angle.MustParseCompass("350°C"))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(e.Working)

	_, err = deviation.NewTable(quillon[:7])
	fmt.Println(err)
	// Output:
	// kept by compass heading, 8 rows
	// Deviation  4°23.3′E  table, linearly between 4°00′E on 315°C and 4°30′E on 000°C
	// deviation: table: on 270°C: the next row is on 000°C, 90°00′ away; rows may be at most 45° apart
}

// The table of the Quillon as a file. A slip in it is found by its line.
func ExampleReadTable() {
	const file = `# Quillon, steering compass
compass,deviation
000,4°30′E
045,2°30′E
090,-3.5
135,6W
180,1½°W
225,3°30′E
270,4°30′E
315,4°E
360,4°30′E
`
	table, err := deviation.ReadTable(strings.NewReader(file))
	if err != nil {
		log.Fatal(err)
	}
	d, err := table.OnCompass(angle.MustParseCompass("112.5°C"))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(d)

	_, err = deviation.ReadTable(strings.NewReader(strings.Replace(file, "135,6W", "135,6°61′W", 1)))
	fmt.Println(err)
	// Output:
	// 4°45′W
	// line 6, deviation: "6°61′W" is not an angle east or west: minutes out of range at "61′W"; write less than 60, as in 4°15.5′W
}

// Between rows far apart a smooth curve comes nearer to how a compass deviates
// than straight lines, which cut off its peaks.
func ExampleTable_Smooth() {
	table, err := deviation.NewTable(quillon)
	if err != nil {
		log.Fatal(err)
	}
	smooth := table.Smooth()
	for _, heading := range []string{"090", "112.5", "135"} {
		c := angle.MustParseCompass(heading)
		a, err := table.OnCompass(c)
		if err != nil {
			log.Fatal(err)
		}
		b, err := smooth.OnCompass(c)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%v: linear %.0v, smooth %.0v\n", c, a, b)
	}
	// Output:
	// 090°C: linear 3°30′W, smooth 3°30′W
	// 112.5°C: linear 4°45′W, smooth 5°37′W
	// 135°C: linear 6°00′W, smooth 6°00′W
}

// After an engine was fitted beside its compass the Quillon turns from 045° to
// 090° by it while its magnetic heading falls. On some courses three compass
// headings are equally right, and none is given.
func ExampleAmbiguousHeadingError() {
	rows := append([]deviation.Row[angle.Compass](nil), quillon...)
	rows[1].Deviation = deviation.MustParse("55°E")
	rows[2].Deviation = deviation.MustParse("55°W")
	table, err := deviation.NewTable(rows)
	if err != nil {
		log.Fatal(err)
	}
	_, err = table.OnMagnetic(angle.MustParseMagnetic("067.5°M"))
	if e, ok := errors.AsType[*deviation.AmbiguousHeadingError](err); ok {
		fmt.Println(e.Magnetic[0], "belongs to", e.Compass)
	}
	// Output:
	// 067.5°M belongs to [029.7°C 067.5°C 105.6°C]
}

// The card to be posted beside the steering compass.
func ExampleNewCard() {
	table, err := deviation.NewTable(quillon)
	if err != nil {
		log.Fatal(err)
	}
	card, err := deviation.NewCard(table, 45*angle.Degree, deviation.Details{Vessel: "Quillon (invented)", Compass: "steering compass"})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(card)
	// Output:
	// Deviation card
	//   Vessel:   Quillon (invented)
	//   Compass:  steering compass
	//
	//   compass  deviation  magnetic      magnetic  deviation  compass
	//     000°C      4.5°E   004.5°M         000°M      4.5°E  355.5°C
	//     045°C      2.5°E   047.5°M         045°M      2.6°E  042.4°C
	//     090°C      3.5°W   086.5°M         090°M      3.7°W  093.7°C
	//     135°C      6.0°W   129.0°M         135°M      5.5°W  140.5°C
	//     180°C      1.5°W   178.5°M         180°M      1.4°W  181.4°C
	//     225°C      3.5°E   228.5°M         225°M      3.2°E  221.8°C
	//     270°C      4.5°E   274.5°M         270°M      4.4°E  265.6°C
	//     315°C      4.0°E   319.0°M         315°M      4.0°E  311.0°C
	//
	// This checks a compass. Correcting it is the work of a compass adjuster, certified where the flag state requires it; after any correction the compass is swung again.
}
