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
	k := deviation.Coefficients{A: angle.Must(angle.Parse("1°")), B: angle.Must(angle.Parse("-4°")), C: angle.Must(angle.Parse("3°")), D: angle.Must(angle.Parse("2°")), E: angle.Must(angle.Parse("0.5°"))}
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
	// deviation: curve: on 071.5°C the deviation is 90.1°; a compass has at most 90°
}
