package swing_test

// The Quillon, Orlesk Head with its light, the marks and every figure of these
// examples are invented.

import (
	"fmt"
	"log"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/swing"
	"lubberline.example/variation"
)

// swxVariation is that off Orlesk Head in 2026, known to a quarter of a degree.
var swxVariation = variation.MustParse("5°00′W").WithUncertainty(angle.Must(angle.StandardUncertainty(15 * angle.Minute)))

// swxOrlesk is the line of Orlesk Head light and the beacon behind it.
var swxOrlesk = swing.Transit{
	Direction:   angle.MustParseTrue("062°T"),
	Uncertainty: angle.Must(angle.StandardUncertainty(0)),
	Variation:   swxVariation,
}

// swxSwing is what was read as the light and the beacon came in line.
const swxSwing = `# Quillon, steering compass, 3 May 2026
heading,bearing,bearing_by,uncertainty
000,062.5,swung,0.5
045,064.5,swung,0.5
090,070.5,swung,0.5
135,073,swung,0.5
180,068.5,swung,0.5
225,063.5,swung,0.5
270,062.5,swung,0.5
315,063,swung,0.5
`

// The Quillon crosses the line of Orlesk Head light and the beacon on the eight
// principal headings.
func ExampleReadSwing() {
	swung, err := swing.ReadSwing(strings.NewReader(swxSwing), swxOrlesk)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(swung.Steps)
	for _, o := range swung.Observations[:3] {
		fmt.Println(o.Heading, o.Deviation)
	}
	_, err = swing.ReadSwing(strings.NewReader(strings.Replace(swxSwing, "073", "0737", 1)), swxOrlesk)
	fmt.Println(err)
	// Output:
	// Transit by true       062°T  from the chart
	// Variation            5°00′W  west: magnetic is greater than true
	// Transit by magnetic   067°M
	// 000°C 4°30′E
	// 045°C 2°30′E
	// 090°C 3°30′W
	// line 6, bearing: "0737" is not a compass direction: out of range; write a direction from 0° to 360°, as in 035°C
}

func ExampleSwing_Fit() {
	swung, err := swing.ReadSwing(strings.NewReader(swxSwing), swxOrlesk)
	if err != nil {
		log.Fatal(err)
	}
	fit, err := swung.Fit(swing.FitOptions{})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(fit.Curve.Coefficients())
	d, err := fit.Curve.OnCompass(angle.MustParseCompass("112.5°C"))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("on 112.5°C: %.0v\n", d)
	// Output:
	// A +1.00°  B −3.94°  C +3.09°  D +2.00°  E +0.50°
	// on 112.5°C: 5°36′W
}

// Five headings of a swing against a gyro-compass, read into a program.
func ExampleReduce() {
	var readings []swing.Reading
	for _, r := range [][2]string{{"000", "359.5"}, {"072", "066"}, {"144", "132.5"}, {"216", "212.5"}, {"288", "288"}} {
		readings = append(readings, swing.Reading{
			Heading:     new(angle.MustParseCompass(r[0])),
			True:        new(angle.MustParseTrue(r[1])),
			Uncertainty: angle.Must(angle.StandardUncertainty(30 * angle.Minute)),
		})
	}
	swung, err := swing.Reduce(readings, swing.TrueHeadings{
		Uncertainty: angle.Must(angle.StandardUncertainty(30 * angle.Minute)), // of the gyro-compass
		Variation:   variation.MustParse("5°00′W ±0°15′"),
	})
	if err != nil {
		log.Fatal(err)
	}
	for _, o := range swung.Observations {
		fmt.Println(o.Heading, o.Deviation)
	}
	fmt.Println("shared by all:", swung.Common)
	// Output:
	// 000°C 4°30′E
	// 072°C 1°00′W
	// 144°C 6°30′W
	// 216°C 1°30′E
	// 288°C 5°00′E
	// shared by all: ±0°33.5′
}

// The curve through observations on eight headings, and how well it is known between.
func ExampleNewFit() {
	var observations []swing.Observation
	for i, d := range []string{"4½°E", "2½°E", "3½°W", "6°W", "1½°W", "3½°E", "4½°E", "4°E"} {
		observations = append(observations, swing.Observation{
			Heading:   angle.CompassFrom(angle.Angle(i) * 45 * angle.Degree),
			Deviation: deviation.MustParse(d),
		})
	}
	fit, err := swing.NewFit(observations, swing.FitOptions{})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(fit.Curve.Coefficients())
	d, err := fit.Curve.OnCompass(angle.MustParseCompass("112.5°C"))
	if err != nil {
		log.Fatal(err)
	}
	within, known := fit.Within(112*angle.Degree+30*angle.Minute, 0.95)
	fmt.Printf("on 112.5°C: %.0v, 95 times in 100 within %.1f of it (%t)\n", d, within, known)
	// Output:
	// A +1.00°  B −3.94°  C +3.09°  D +2.00°  E +0.50°
	// on 112.5°C: 5°36′W, 95 times in 100 within 0.6° of it (true)
}

// On 120° the deviation was written down with the wrong name.
func ExampleSwing_Suspicions() {
	curve, err := deviation.ReadTable(strings.NewReader(`compass,deviation
000,4½°E
045,2½°E
090,3½°W
135,6°W
180,1½°W
225,3½°E
270,4½°E
315,4°E
`))
	if err != nil {
		log.Fatal(err)
	}
	var observations []swing.Observation
	for h := angle.Angle(0); h < angle.Turn; h += 15 * angle.Degree {
		c := angle.CompassFrom(h)
		d, err := curve.OnCompass(c)
		if err != nil {
			log.Fatal(err)
		}
		if h == 120*angle.Degree {
			d = deviation.East(-d.Angle())
		}
		observations = append(observations, swing.Observation{Heading: c, Deviation: d})
	}
	for _, s := range (&swing.Swing{Observations: observations}).Suspicions() {
		fmt.Println(s)
	}
	// Output:
	// on 120°C the deviation is 5°10′E; from the other headings, expect 5°24′W. The deviation may be named the wrong way. The bearing may be misread by 10°
}
