package deviation_test

// The Quillon, the Orlesk coast and every figure of these examples are invented.

import (
	"errors"
	"fmt"
	"log"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// A deviation that is known already, on one heading.
func ExampleDeviation() {
	d, err := deviation.Parse("3°30′W ±0°30′")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("steer %.1f, and back %.1f; known to %v\n",
		d.Compass(angle.MustParseMagnetic("106.5°M")), d.Magnetic(angle.MustParseCompass("110°C")), d.Uncertainty())
	fmt.Println(deviation.Between(angle.MustParseMagnetic("106.5°M"), angle.MustParseCompass("110°C")))
	// Output:
	// steer 110.0°C, and back 106.5°M; known to ±0°30′
	// 3°30′W
}

// The coefficients that an adjuster left with the Quillon make a curve, which answers
// on every heading.
func ExampleCoefficients() {
	k := deviation.Coefficients{A: 60 * angle.Minute, B: -4 * angle.Degree, C: 3 * angle.Degree, D: 2 * angle.Degree, E: 30 * angle.Minute}
	curve, err := k.Curve(deviation.ByCompass)
	if err != nil {
		log.Fatal(err)
	}
	for _, heading := range []string{"000°C", "112.5°C", "236°C"} {
		d, err := curve.OnCompass(angle.MustParseCompass(heading))
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("on %s: %.0v\n", heading, d)
	}
	// Output:
	// on 000°C: 4°30′E
	// on 112.5°C: 5°37′W
	// on 236°C: 4°18′E
}

// With deviations of 20° and more the exact coefficients hold where the approximate
// ones do not.
func ExampleExactCoefficients() {
	k, err := deviation.Coefficients{B: -20 * angle.Degree, C: 10 * angle.Degree, D: 5 * angle.Degree}.Exact()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(k)
	d, err := k.OnMagnetic(angle.MustParseMagnetic("236°M"))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("on 236°M: %.0v\n", d)
	// Output:
	// A +0.0001  B -0.3575  C +0.1643  D +0.0843  E -0.0005
	// on 236°M: 12°14′E
}

// What is wrong with the rows of a table, for a program that lets them be mended.
func ExampleError() {
	_, err := deviation.NewTable([]deviation.Row[angle.Compass]{
		{Heading: angle.MustParseCompass("000"), Deviation: deviation.MustParse("2°E")},
		{Heading: angle.MustParseCompass("045"), Deviation: deviation.MustParse("3°E")},
		{Heading: angle.MustParseCompass("045"), Deviation: deviation.MustParse("4°E")},
	})
	if e, ok := errors.AsType[*deviation.Error](err); ok {
		fmt.Println(e.Kind, "at row", e.Row, "on", angle.CompassFrom(e.Heading))
	}
	// Output:
	// duplicate-heading at row 2 on 045°C
}

// The coefficients of the Quillon by hand.
func ExampleAnalyseByHand() {
	hand, err := deviation.AnalyseByHand(map[string]angle.Angle{
		"N": 4*angle.Degree + 30*angle.Minute, "NE": 2*angle.Degree + 30*angle.Minute, "E": -3*angle.Degree - 30*angle.Minute, "SE": -6 * angle.Degree,
		"S": -angle.Degree - 30*angle.Minute, "SW": 3*angle.Degree + 30*angle.Minute, "W": 4*angle.Degree + 30*angle.Minute, "NW": 4 * angle.Degree,
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(hand.Coefficients)
	fmt.Print(hand.Steps)
	// Output:
	// A +1.00°  B −4.00°  C +3.00°  D +2.00°  E +0.50°
	// Coefficient A  +1.00°  mean of the eight: N +4.50°, NE +2.50°, E −3.50°, SE −6.00°, S −1.50°, SW +3.50°, W +4.50°, NW +4.00°
	// Coefficient B  −4.00°  half of E less W: E −3.50°, less W +4.50°
	// Coefficient C  +3.00°  half of N less S: N +4.50°, less S −1.50°
	// Coefficient D  +2.00°  quarter of NE and SW, less SE and NW: NE +2.50°, SW +3.50°, less SE −6.00°, less NW +4.00°
	// Coefficient E  +0.50°  quarter of N and S, less E and W: N +4.50°, S −1.50°, less E −3.50°, less W +4.50°
}
