package deviation_test

// The Quillon, the Orlesk coast and every figure of these examples are invented.

import (
	"bytes"
	"errors"
	"fmt"
	"log"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/variation"
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

// What a large coefficient B comes from, and what acts on it.
func ExampleAnalyse() {
	analysis := deviation.Analyse(deviation.Coefficients{B: -4 * angle.Degree, C: 3 * angle.Degree})
	b := analysis.Findings[1]
	fmt.Printf("%s %v: greatest %s\n", b.Letter, b.Value.EastWest(), b.Greatest)
	fmt.Println("cause:", b.Cause)
	fmt.Println("corrector:", b.Corrector)
	// Output:
	// B 4°00′W: greatest on east and west
	// cause: permanent magnetism fore and aft, and vertical soft iron before or abaft the compass
	// corrector: fore-and-aft magnets for the permanent part; a vertical soft-iron bar (Flinders bar) for the induced part
}

// The largest deviation of a compass, and what a flag state allows.
func ExampleLimit_Remark() {
	curve, err := deviation.Coefficients{B: -4 * angle.Degree, D: 3 * angle.Degree}.Curve(deviation.ByCompass)
	if err != nil {
		log.Fatal(err)
	}
	remark, err := deviation.FlagStateLimit().Remark(curve)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(remark.What, remark.Value)
	fmt.Println(remark.How)
	// Output:
	// Largest deviation 6.1°W
	// on 124°C; MORE than the 5° allowed on any heading (Republic of the Marshall Islands, Marine Notice 2-011-32 (June 2009), 2.1; other flag states may differ)
}

// exField is the earth's field at a place; a Field of package wmm is one too.
type exField struct {
	horizontal float64 // nanotesla
	dip        angle.Angle
}

func (f exField) H() float64              { return f.horizontal }
func (f exField) I() (angle.Angle, error) { return f.dip, nil }

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

// Heading 010° by compass and heeled 15° to port, so that the starboard side is high,
// the Quillon's compass deviates 3° more to the east than upright.
func ExampleHeelingFrom() {
	j, err := deviation.HeelingFrom(deviation.MustParse("3°E"), angle.MustParseCompass("010°C"), 15*angle.Degree, angle.Starboard)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("J %+.2f\n", float64(j))
	added, err := j.Adds(angle.MustParseCompass("060°C"), 10*angle.Degree, angle.Starboard)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("on 060°C, heeled 10°: %.0v more\n", added)
	// Output:
	// J +0.20
	// on 060°C, heeled 10°: 1°01′E more
}

// Five headings of a swing against a gyro-compass, read into a program.
func ExampleReduce() {
	var readings []deviation.Reading
	for _, r := range [][2]string{{"000", "359.5"}, {"072", "066"}, {"144", "132.5"}, {"216", "212.5"}, {"288", "288"}} {
		readings = append(readings, deviation.Reading{
			Heading:     new(angle.MustParseCompass(r[0])),
			True:        new(angle.MustParseTrue(r[1])),
			Uncertainty: angle.Must(angle.StandardUncertainty(30 * angle.Minute)),
		})
	}
	swing, err := deviation.Reduce(readings, deviation.TrueHeadings{
		Uncertainty: angle.Must(angle.StandardUncertainty(30 * angle.Minute)), // of the gyro-compass
		Variation:   variation.MustParse("5°00′W ±0°15′"),
	})
	if err != nil {
		log.Fatal(err)
	}
	for _, o := range swing.Observations {
		fmt.Println(o.Heading, o.Deviation)
	}
	fmt.Println("shared by all:", swing.Common)
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
	var observations []deviation.Observation
	for i, d := range []string{"4½°E", "2½°E", "3½°W", "6°W", "1½°W", "3½°E", "4½°E", "4°E"} {
		observations = append(observations, deviation.Observation{
			Heading:   angle.CompassFrom(angle.Angle(i) * 45 * angle.Degree),
			Deviation: deviation.MustParse(d),
		})
	}
	fit, err := deviation.NewFit(observations, deviation.FitOptions{})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(fit.Coefficients())
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

// Two checks on one heading, by the Sun and by a transit, taken together.
func ExampleCombineChecks() {
	reading := deviation.CheckReading{
		Heading:     new(angle.MustParseCompass("090°C")),
		Bearing:     new(angle.MustParseCompass("296°C")),
		Uncertainty: angle.Must(angle.StandardUncertainty(30 * angle.Minute)),
		Variation:   variation.MustParse("5°00′W ±0°15′"),
		Time:        time.Date(2026, time.May, 14, 19, 40, 0, 0, time.UTC),
	}
	bySun, err := reading.AgainstSun(angle.MustParsePosition("47°08.4′N 019°00.0′W"))
	if err != nil {
		log.Fatal(err)
	}
	reading.Bearing = new(angle.MustParseCompass("071°C"))
	byTransit, err := reading.Against("the leading marks", angle.MustParseTrue("062°T"), angle.Must(angle.StandardUncertainty(0)))
	if err != nil {
		log.Fatal(err)
	}
	both, err := deviation.CombineChecks(bySun, byTransit)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.0v and %.0v: %.0v, known to %v\n", bySun.Deviation, byTransit.Deviation, both.Deviation, both.Deviation.Uncertainty())
	fmt.Printf("chance alone makes them differ so much in %.0f of 100 cases\n", 100*both.Probability)
	// Output:
	// 3°09′W and 4°00′W: 3°35′W, known to ±0°26.1′
	// chance alone makes them differ so much in 24 of 100 cases
}

// The curve as a drawing, to be kept beside the card.
func ExampleDiagram() {
	curve, err := deviation.Coefficients{B: -4 * angle.Degree, C: 3 * angle.Degree, D: 2 * angle.Degree}.Curve(deviation.ByCompass)
	if err != nil {
		log.Fatal(err)
	}
	diagram := deviation.Diagram{Details: deviation.Details{Vessel: "Quillon (invented)"}, Source: curve}
	var svg bytes.Buffer // or a file
	if err := diagram.WriteCurve(&svg); err != nil {
		log.Fatal(err)
	}
	fmt.Println(bytes.HasPrefix(svg.Bytes(), []byte("<svg")))
	// Output:
	// true
}

// What is wrong with the rows of a table, for a program that lets them be mended.
func ExampleTableError() {
	_, err := deviation.NewTable([]deviation.Row[angle.Compass]{
		{Heading: angle.MustParseCompass("000"), Deviation: deviation.MustParse("2°E")},
		{Heading: angle.MustParseCompass("045"), Deviation: deviation.MustParse("3°E")},
		{Heading: angle.MustParseCompass("045"), Deviation: deviation.MustParse("4°E")},
	})
	if e, ok := errors.AsType[*deviation.TableError](err); ok {
		fmt.Println(e.Kind, "at row", e.Row, "on", angle.CompassFrom(e.Heading))
	}
	// Output:
	// duplicate-heading at row 2 on 045°C
}
