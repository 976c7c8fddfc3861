// Package decklog works a deck log: runs by readings of the log, the dead reckoning (DR) and
// estimated positions (EP) with their ellipses, and the set and drift at each fix.
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
// Read a [Log] with [ReadLog], and call [Log.Reckon]. Find the [Factor] of the log on a
// measured mile with [MeasuredMile]. To weight fixes and bearings against the reckoning, run
// the runs of the points through a track of package lubberline.example/fix.
//
// # Words
//
// The DR is by course and log alone. The EP also allows for leeway and the stream. Set and
// drift are found between the fix and the reckoning with leeway, but without the stream. After a
// fix, all reckonings begin again at the fix.
//
// The factor of the log is the distance through the water divided by the distance by log.
//
// # Cautions
//
// A reckoning is arithmetic. The standing caution of package working is printed with it.
package decklog
