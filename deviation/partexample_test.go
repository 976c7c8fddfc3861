package deviation_test

// The Quillon and every figure of these examples are invented.

import (
	"fmt"
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
