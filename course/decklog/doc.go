// Package decklog works a deck log. From the readings of the log it finds the dead reckoning (DR)
// and estimated positions (EP) with their ellipses, and set and drift at each fix.
//
//	file, err := os.Open("log.csv") // time, log, compass, fix and others
//	if err != nil {
//		log.Fatal(err)
//	}
//	entries, err := decklog.ReadLog(file)
//	if err != nil {
//		log.Fatal(err) // with the line
//	}
//	reckoning, err := entries.Reckon(decklog.Options{
//		Factor:    decklog.Factor{Value: 1.03},
//		Variation: variation.West(5 * angle.Degree),
//		Deviation: deviation.None(),
//	})
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Print(reckoning) // a table
//
// # Where to begin
//
// Read a [Log] with [ReadLog], and call [Log.Reckon]. Find the [Factor] of the log on a measured
// mile with [MeasuredMile]. To weight fixes against the reckoning, use
// [lubberline.example/fix.TrackOfLog]. To draw a page of the log, use
// [lubberline.example/course/plot.DeckLog].
//
// # Words
//
// A log is the book, and also the instrument that measures the distance run. A reading of the log is
// of the instrument. Its factor is the distance through the water divided by the distance by log.
//
// The DR follows from course and log alone. The EP also allows for leeway and the stream. Set and
// drift lead to the fix from a reckoning with leeway but without the stream. After a fix, all
// reckonings begin again at the fix.
//
// # Cautions
//
// A reckoning is arithmetic. The standing caution of package working is printed with it.
package decklog
