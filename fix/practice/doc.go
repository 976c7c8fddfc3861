// Package practice holds the chart of the demos and exercises as data. It is of the Orlesk coast,
// which is invented. The chart has land, depths, marks with their lights, dangers, compass roses,
// and a table of tidal streams.
//
//	chart := practice.Orlesk()
//	light, _ := chart.Mark("Orlesk Head light")
//	fmt.Println(light.Position, light.Light, light.Height.Metres()) // 47°08.4′N 019°00.0′W Fl(3) 15s 38
//
//	// The chart's roses are a source of variation.
//	day := time.Date(2026, time.July, 2, 0, 0, 0, 0, time.UTC)
//	v, err := chart.Roses.VariationAt(light.Position, day)
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Println(v) // 5°08′W
//	fmt.Println(chart.InWater(angle.MustParsePosition("46°58.0′N 019°17.8′W"))) // true
//
// # Where to begin
//
//   - The invented chart: [Orlesk]. Its places, streams and roses are fields of [Chart].
//   - A mark or a danger by its name: [Chart.Mark], [Chart.Danger].
//   - Whether a vessel of an exercise is afloat: [Chart.InWater].
//   - A chart of your own, from a file: [Read].
//   - The chart drawn, to print: package [lubberline.example/fix/plot].
//
// # Cautions
//
// Every chart of this package is for practice. It is not for navigation.
package practice
