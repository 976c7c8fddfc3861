package deviation_test

// The Quillon and every figure of these examples are invented.

import (
	"fmt"
	"io"
	"log"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// The curve of the coefficients on the Quillon's card.
func ExampleCurve() {
	k := deviation.Coefficients{A: angle.MustParse("1°"), B: angle.MustParse("-4°"), C: angle.MustParse("3°"), D: angle.MustParse("2°"), E: angle.MustParse("0.5°")}
	curve, err := k.Curve(deviation.ByCompass)
	if err != nil {
		log.Fatal(err)
	}
	for _, heading := range []string{"037°M", "112°M"} {
		m := angle.MustParseMagnetic(heading)
		d, err := curve.OnMagnetic(m)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%v: deviation %.0v, steer %.1v\n", m, d, d.Compass(m))
	}
	_, err = deviation.Coefficients{B: 95 * angle.Degree}.Curve(deviation.ByCompass)
	fmt.Println(err)
	// Output:
	// 037°M: deviation 3°19′E, steer 033°41.0′C
	// 112°M: deviation 5°52′W, steer 117°52.4′C
	// deviation: curve: on 071.5°C the deviation is 90.1°: at most 90°
}

// With large deviations the approximate formula goes astray; the exact one holds.
func ExampleExactCoefficients() {
	k := deviation.ExactCoefficients{B: -0.35, C: 0.2, D: 0.06}
	approximate, err := k.Approximate()
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(approximate)
	for _, heading := range []string{"000°C", "090°C", "225°C"} {
		c := angle.MustParseCompass(heading)
		d, err := k.OnCompass(c)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%v: %.0v, by the approximate %.0v\n", c, d, approximate.At(c.FromNorth()))
	}
	// Output:
	// A +0.00°  B −19.87°  C +12.07°  D +3.44°  E +0.00°
	// 000°C: 12°17′E, by the approximate 12°04′E
	// 090°C: 19°17′W, by the approximate 19°52′W
	// 225°C: 9°31′E, by the approximate 8°57′E
}

// Bound for high latitudes, where the horizontal field is weak, the Quillon's
// permanent magnetism turns her compass further.
func ExampleForces_At() {
	here := deviation.ExactCoefficients{B: -0.070, C: 0.052, D: 0.035}
	forces, err := deviation.AllPermanent(here, swxField{23_000, 62 * angle.Degree})
	if err != nil {
		log.Fatal(err)
	}
	there, err := forces.At(swxField{12_000, 77 * angle.Degree})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("here ", here)
	fmt.Println("there", there)
	// Output:
	// here  A +0.0000  B -0.0700  C +0.0520  D +0.0350  E +0.0000
	// there A +0.0000  B -0.1342  C +0.0997  D +0.0350  E +0.0000
}

// The Quillon, upright on 000° at 4°30′ E, showed 7°30′ E when she heeled 10° with
// her port side high. What does a heel of 15° to the same side add on 045°?
func ExampleHeeling() {
	j, err := deviation.HeelingFrom(deviation.MustParse("3°E"), angle.MustParseCompass("000°C"), 10*angle.Degree, angle.Port)
	if err != nil {
		log.Fatal(err)
	}
	added, err := j.Adds(angle.MustParseCompass("045°C"), 15*angle.Degree, angle.Port)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("J %+.2f for each degree, adds %.0v\n", float64(j), added)
	// Output:
	// J -0.30 for each degree, adds 3°11′E
}

// Two objects at once on 090°: the Sun, and the beacons in line.
func ExampleCombineChecks() {
	check := func(what, direction, bearing, uncertainty string) deviation.Check {
		r := deviation.CheckReading{Heading: angle.MustParseCompass("090°C"), Bearing: angle.MustParseCompass(bearing), Variation: swxVariation}
		if err := r.Uncertainty.UnmarshalText([]byte(uncertainty)); err != nil {
			log.Fatal(err)
		}
		c, err := r.Against(what, angle.MustParseTrue(direction), angle.Must(angle.StandardUncertainty(0)))
		if err != nil {
			log.Fatal(err)
		}
		return c
	}
	both, err := deviation.CombineChecks(check("the Sun", "287°50′T", "296°C", "0.5°"), check("the beacons", "062°T", "070.7°C", "1°"))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("compass error %.0v, deviation %.0v, known to %v; warnings %d\n", both.Error, both.Deviation, both.Deviation.Uncertainty(), len(both.Warnings))
	fmt.Print(both.Steps)
	// Output:
	// compass error 8°16′W, deviation 3°16′W, known to ±0°30.7′; warnings 0
	// Error by the Sun        8°10′W  ±0°30′
	// Error by the beacons    8°42′W  ±1°00′
	// Compass error         8°16.4′W  weighted mean
	// Variation               5°00′W  taken from the error
	// Deviation             3°16.4′W  on heading 090°C
}

// Napier's diagram of the Quillon's card, for the chart table.
func ExampleDiagram() {
	card, err := deviation.NewTable(quillon)
	if err != nil {
		log.Fatal(err)
	}
	diagram := deviation.Diagram{Details: deviation.Details{Vessel: "Quillon (invented)"}, Source: card.Smooth()}
	if err := diagram.WriteNapier(io.Discard); err != nil { // or a file, napier.svg
		log.Fatal(err)
	}
	fmt.Println(deviation.Diagram{}.WriteCurve(io.Discard))
	// Output:
	// deviation: diagram: no source: want a table, a curve or a deviation
}
