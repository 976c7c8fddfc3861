package check_test

import (
	"bytes"
	"fmt"
	"log"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/check"
	"lubberline.example/deviation/sky"
	"lubberline.example/variation"
)

// Two checks on one heading, by the Sun and by a transit, taken together.
func ExampleCombine() {
	reading := check.Reading{
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
	both, err := check.Combine(bySun, byTransit)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.0v and %.0v: %.0v, standard uncertainty %v\n", bySun.Deviation, byTransit.Deviation, both.Deviation, both.Deviation.Uncertainty())
	fmt.Printf("chance alone makes them differ so much in %.0f of 100 cases\n", 100*both.Probability)
	// Output:
	// 3°09′W and 4°00′W: 3°35′W, standard uncertainty ±0°26.1′
	// chance alone makes them differ so much in 24 of 100 cases
}

// Since an engine was fitted the Quillon's checks differ from its card.
func ExampleReviewCard() {
	card, err := deviation.ReadTable(strings.NewReader(`compass,deviation
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
	checks, err := check.ReadLog(strings.NewReader(`heading,deviation,uncertainty,against
090,2°30′W,0.5,the Sun
180,1°30′E,0.5,the leading marks
270,5°30′E,0.5,the Sun
`))
	if err != nil {
		log.Fatal(err)
	}
	review, err := check.ReviewCard(card.WithUncertainty(angle.Must(angle.StandardUncertainty(20*angle.Minute))), checks)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println("the card:", review.Verdict)
	for _, reason := range review.Reasons {
		fmt.Println("-", reason)
	}
	// Output:
	// the card: swing-again
	// - 3 checks differ from the card by 1°40′E in the mean, ±0°29′ (probability by chance alone <0.1 %)
	// - chi-square 19.4 for 3 checks (probability by chance alone <0.1 %)
	// - the deviation seems to have changed by 2°36′W on north, and the other way on south (iron or a magnet to one side)
	// - on 180°C the check found 1°30′E and the card has 1°30′W
}

// The low Sun of a May evening off Orlesk Head checks the compass on 090°.
func ExampleReading_AgainstSun() {
	reading := check.Reading{
		Time:        time.Date(2026, 5, 14, 19, 40, 0, 0, time.UTC),
		Heading:     new(angle.MustParseCompass("090°C")),
		Bearing:     new(angle.MustParseCompass("296°C")),
		Uncertainty: angle.Must(angle.StandardUncertainty(30 * angle.Minute)),
		Variation:   variation.West(5 * angle.Degree).WithUncertainty(angle.Must(angle.StandardUncertainty(15 * angle.Minute))),
	}
	checked, err := reading.AgainstSun(angle.MustParsePosition("47°08.4′N 019°00.0′W"))
	if err != nil {
		log.Fatal(err)
	}
	for _, key := range []string{"azimuth", "compass", "compass error", "variation", "deviation"} {
		step, _ := checked.Steps.Find(key)
		fmt.Println(step.What+":", step.Value)
	}
	fmt.Println("known to", checked.Deviation.Uncertainty())
	// Output:
	// True bearing: 287°50.5′T
	// The Sun by compass: 296°C
	// Compass error: 8°09.5′W
	// Variation: 5°00′W
	// Deviation: 3°09.5′W
	// known to ±0°33.9′
}

// In the night the Quillon lists what stands well for a check, and takes the bearing of the
// brightest star.
func ExampleReading_AgainstBody() {
	now := time.Date(2026, 11, 28, 2, 0, 0, 0, time.UTC)
	here := angle.MustParsePosition("47°00′N 019°10′W")
	well, err := sky.WellPlaced(here, now)
	if err != nil {
		log.Fatal(err)
	}
	body := well[0].Body
	reading := check.Reading{
		Time:      now,
		Heading:   new(angle.MustParseCompass("090°C")),
		Bearing:   new(angle.MustParseCompass("162°C")),
		Variation: variation.West(5 * angle.Degree),
	}
	checked, err := reading.AgainstBody(body, here)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(checked.Against, "error", checked.Error, "deviation", checked.Deviation)

	// A planet is taken from an almanac. These figures are invented.
	planet := sky.Body{Name: "Jupiter", Declination: 12*angle.Degree + 21*angle.Minute, GreenwichHourAngle: 310*angle.Degree + 48*angle.Minute}
	reading.Bearing = new(angle.MustParseCompass("104°C"))
	if checked, err = reading.AgainstBody(planet, here); err != nil {
		log.Fatal(err)
	}
	fmt.Println(checked.Against, "error", checked.Error, "deviation", checked.Deviation)
	// Output:
	// Sirius error 6°44.2′W deviation 1°44.2′W
	// Jupiter error 6°37.6′W deviation 1°37.6′W
}

// The Sun sets on the celestial horizon: its amplitude checks the compass. The check is kept in a
// log and read back. Every figure is invented.
func ExampleReading_AgainstAmplitude() {
	reading := check.Reading{
		Time:      time.Date(2026, time.May, 14, 20, 40, 0, 0, time.UTC),
		Heading:   new(angle.MustParseCompass("270°C")),
		Bearing:   new(angle.MustParseCompass("301°C")),
		Variation: variation.West(5 * angle.Degree),
	}
	c, err := reading.AgainstAmplitude(sky.Set, sky.CelestialHorizon, angle.MustParsePosition("47°08.4′N 019°00.0′W"), 3)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Print(c.Working())
	var file bytes.Buffer // or a file; AppendLog adds to one
	if err := check.WriteLog(&file, check.CSV, c); err != nil {
		log.Fatal(err)
	}
	checks, err := check.ReadLog(&file)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(len(checks), checks[0].Deviation)
	columns, rows := check.RecordBook(checks...)
	fmt.Println(len(columns), rows[0])
	// Output:
	// Compass checked against the Sun's amplitude, 14 May 2026 20:40:00 UTC
	//   Declination             18°47′N  of the Sun at the time
	//   Latitude              47°08.4′N  of the position
	//   Amplitude             W 28.3° N  with the centre on the celestial horizon
	//   The Sun by true      298°15.4′T  amplitude from east at rising, from west at setting
	//   Bearing uncertainty      ±0.20°  centre on the horizon to ±10′ (assumed); latitude ±1′ (assumed)
	//   The Sun by compass        301°C  read on heading 270°C
	//   Compass error          2°44.6′W  compass best: error west
	//   Variation                5°00′W  subtracted from the error
	//   Deviation              2°15.4′E  on heading 270°C
	//   An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
	// 1 2°15.4′E
	// 13 [2026-05-14 2040  270°C  the Sun's amplitude 301°C 298.3°T 2.7°W 5.0°W  2.3°E  ]
}
