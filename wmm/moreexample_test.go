package wmm_test

import (
	"fmt"
	"log"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

// Off the Orlesk coast a compass can be trusted. Near the north magnetic pole it can't.
func ExampleField_Zone() {
	e, err := wmm.WMM2025().InYear(2026.5)
	if err != nil {
		log.Fatal(err)
	}
	for _, place := range []string{"47°06′N 019°02′W", "80°00′N 100°00′W", "85°00′N 150°00′E"} {
		field, err := e.Field(angle.MustParsePosition(place), 0)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%s: %.0f nT, %s\n", place, field.H(), field.Zone())
	}
	// Output:
	// 47°06′N 019°02′W: 22203 nT, clear
	// 80°00′N 100°00′W: 2151 nT, caution
	// 85°00′N 150°00′E: 679 nT, blackout
}

// The line of 5° west across one degree of latitude, for a map program.
func ExampleWriteGeoJSON() {
	e, err := wmm.WMM2025().InYear(2026.5)
	if err != nil {
		log.Fatal(err)
	}
	isogonics, err := e.Isogonics(wmm.Grid{
		South: angle.Must(angle.LatitudeDegrees(46)), North: angle.Must(angle.LatitudeDegrees(47)),
		West: angle.Must(angle.LongitudeDegrees(-20)), Width: 2 * angle.Degree,
		LatitudeStep: angle.Degree, LongitudeStep: 2 * angle.Degree,
	}, -5*angle.Degree)
	if err != nil {
		log.Fatal(err)
	}
	var file strings.Builder
	if err := wmm.WriteGeoJSON(&file, isogonics); err != nil {
		log.Fatal(err)
	}
	kind, _, _ := strings.Cut(file.String(), `,"coordinates"`)
	fmt.Println(kind)
	_, properties, _ := strings.Cut(file.String(), `"properties":`)
	fmt.Println(properties)
	// Output:
	// {"type":"FeatureCollection","features":[{"type":"Feature","geometry":{"type":"MultiLineString"
	// {"declination":-5,"name":"5°W"}}]}
}
