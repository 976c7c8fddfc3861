// Package check compares the compass in service with the Sun, a star or a transit. From a log of
// such checks it judges whether the deviation card still holds.
//
//	reading := check.Reading{
//		Time:      time.Date(2026, time.May, 14, 19, 40, 0, 0, time.UTC),
//		Heading:   new(angle.MustParseCompass("090°C")),
//		Bearing:   new(angle.MustParseCompass("296°C")),
//		Variation: variation.West(5 * angle.Degree),
//	}
//	c, err := reading.AgainstSun(angle.MustParsePosition("47°08.4′N 019°00.0′W"))
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Println("error", c.Error, "deviation", c.Deviation)
//
// # Where to begin
//
//   - [Reading.AgainstSun] compares the compass with the azimuth of the Sun.
//     [Reading.AgainstAmplitude] takes the Sun as it rises or sets. [Reading.AgainstBody] takes a
//     star, the Moon or a planet; see package [lubberline.example/deviation/sky].
//   - [Reading.Against] compares it with a transit, a second compass, another vessel's gyro
//     or any other known true direction.
//   - [Combine] takes the mean of checks made together on one heading.
//   - [AppendLog] and [WriteLog] keep a log of checks, [ReadLog] reads it, and
//     [ReviewCard] judges the card by it. [RecordBook] prints it.
//
// # What a review says
//
// [ReviewCard] compares each check with the card, and all checks together by two tests. It
// answers [CardHolds], [CardInDoubt] (take more checks) or [SwingAgain]. One check that stands
// apart is left out and named, with the slip that may explain it. A review also says how the
// card changed, such as "C by +2°", and since when, if the log shows it.
//
// In simulated logs a sound card with one misread check is condemned in at most 2 % of cases.
// The tests of this package measure it.
//
// # Errors
//
// A reading that gives no check, and a check that cannot be reviewed, are an [*Error].
package check
