package adjust_test

import (
	"fmt"
	"log"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/swing"
)

// The deviations of the Quillon, before its compass was adjusted, are so large that approximate
// coefficients do not describe them.
func ExampleFitExact() {
	var observations []swing.Observation
	for i, east := range []float64{21.5, 31, 17, -12.5, -21.5, -14.5, -17, -7} {
		observations = append(observations, swing.Observation{
			Heading:   angle.CompassFrom(angle.Angle(i) * 45 * angle.Degree),
			Deviation: deviation.East(angle.Must(angle.Degrees(east))),
		})
	}
	k, err := adjust.FitExact(observations)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(k)
	d, err := k.OnMagnetic(angle.MustParseMagnetic("030°M"))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("to make 030°M, steer %.0f\n", d.Compass(angle.MustParseMagnetic("030°M")))
	// Output:
	// A -0.0056  B +0.2907  C +0.3118  D +0.1519  E +0.0088
	// to make 030°M, steer 005°C
}

// The Quillon was swung where the dip is 62° down. Far to the south, where the dip is 46° up, its
// card may be wrong: B depends on what causes it.
func ExampleAnotherLatitude() {
	k, err := deviation.Coefficients{B: -4 * angle.Degree, C: 3 * angle.Degree, D: 2 * angle.Degree}.Exact()
	if err != nil {
		log.Fatal(err)
	}
	swung, there := swxField{23_000, 62 * angle.Degree}, swxField{20_000, -46 * angle.Degree}
	warnings, err := adjust.AnotherLatitude(k, swung, there)
	if err != nil {
		log.Fatal(err)
	}
	for _, w := range warnings {
		fmt.Println(w.Kind)
		fmt.Println(w)
	}
	// Output:
	// carried-far
	// the dip was 62° where the compass was swung and is −46° here: check on east and west and on north and south, and swing the compass when you can
	// carried-far
	// if B and C come from permanent magnetism alone, B changes from −4.1° to −4.7° and C from +2.9° to +3.4°
	// carried-far
	// if they come from vertical soft iron alone, B changes to +2.2° and C to −1.6°
}

// An adjuster sets magnets for half of B. After predicts what is left.
func ExampleAfter() {
	before, err := deviation.Coefficients{B: -6 * angle.Degree, D: 2 * angle.Degree}.Curve(deviation.ByCompass)
	if err != nil {
		log.Fatal(err)
	}
	after, err := adjust.After(before, adjust.Correction{
		Corrector: adjust.ForeAndAftMagnets,
		Way:       adjust.RedAft, // adds easterly B
		Amount:    3 * angle.Degree,
	})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("before", before.Coefficients())
	fmt.Println("after ", after.Coefficients())
	// Output:
	// before A +0.00°  B −6.00°  C +0.00°  D +2.00°  E +0.00°
	// after  A +0.00°  B −3.00°  C +0.00°  D +2.00°  E +0.00°
}
