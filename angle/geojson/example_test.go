package geojson_test

import (
	"log"
	"os"

	"lubberline.example/angle"
	"lubberline.example/angle/geojson"
)

// A mark of the Orlesk coast, which is invented, and a line that crosses the date
// line and is cut there.
func Example() {
	features := []geojson.Feature{
		{
			Point:      angle.MustParsePosition("47°03.6′N 019°12.0′W"),
			Properties: map[string]string{"name": "off Minnow Ledge (invented)"},
		},
		{
			Lines: [][]angle.Position{{angle.MustParsePosition("10°N 179°E"), angle.MustParsePosition("12°N 179°W")}},
		},
	}
	if err := geojson.Write(os.Stdout, features); err != nil {
		log.Fatal(err)
	}
	// Output:
	// {"type":"FeatureCollection","features":[{"type":"Feature","geometry":{"type":"Point","coordinates":[-19.2,47.06]},"properties":{"name":"off Minnow Ledge (invented)"}},{"type":"Feature","geometry":{"type":"MultiLineString","coordinates":[[[179,10],[180,11]],[[-180,11],[-179,12]]]},"properties":null}]}
}
