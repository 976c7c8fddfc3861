package passage_test

import (
	"encoding/json"
	"log"
	"math"
	"os"
	"strings"
	"time"

	"lubberline.example/course/gpx"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// A route from a GPX file becomes compass courses, as JSON for a page of the program's own.
// The coast and the figures are invented.
func Example_routeForAPage() {
	file := strings.NewReader(`<gpx version="1.1" creator="Quillon"><rte><name>Out of the bay</name>
<rtept lat="47.13" lon="-19.0167"><name>Fairway</name></rtept>
<rtept lat="47.0533" lon="-19.1833"><name>Ledge</name></rtept>
<rtept lat="46.90" lon="-19.25"><name>Offing</name></rtept>
</rte></gpx>`)
	doc, err := gpx.Read(file)
	if err != nil {
		log.Fatal(err)
	}
	p, err := passage.New(passage.Plan{
		Name: doc.Routes[0].Name, Waypoints: passage.WaypointsOf(doc.Routes[0]),
		Depart: time.Date(2026, time.July, 2, 6, 0, 0, 0, time.UTC), Speed: 5.5 * sailing.Knot,
		Variation: variation.MustParse("5°08′W ±0°15′"), Deviation: deviation.MustParse("0°30′W ±0°30′"),
	})
	if err != nil {
		log.Fatal(err)
	}
	type row struct {
		To    string  `json:"to"`
		Steer string  `json:"steer"`
		Miles float64 `json:"miles"`
		ETA   string  `json:"eta"`
	}
	var rows []row
	for _, l := range p.Legs {
		rows = append(rows, row{l.To.Name, l.Heading.Steer().String(), math.Round(10*l.Distance.NauticalMiles()) / 10, l.Ends.Format("15:04")})
	}
	page := json.NewEncoder(os.Stdout)
	page.SetIndent("", "  ")
	if err := page.Encode(rows); err != nil {
		log.Fatal(err)
	}
	// Output:
	// [
	//   {
	//     "to": "Ledge",
	//     "steer": "242°C",
	//     "miles": 8.2,
	//     "eta": "07:29"
	//   },
	//   {
	//     "to": "Offing",
	//     "steer": "202°C",
	//     "miles": 9.6,
	//     "eta": "09:14"
	//   }
	// ]
}
