package gpx_test

import (
	"errors"
	"fmt"
	"log"
	"os"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/course/gpx"
)

// The coast of Orlesk and everything on it are invented.
func Example() {
	const file = `<?xml version="1.0"?>
<gpx version="1.1" creator="by hand" xmlns="http://www.topografix.com/GPX/1/1">
  <wpt lat="47.14" lon="-19"><name>Orlesk Head</name></wpt>
  <rte>
    <name>Out</name>
    <rtept lat="47.14" lon="-19"><name>Orlesk Head</name></rtept>
    <rtept lat="47.06" lon="-19.19333333"><name>Minnow Ledge</name></rtept>
  </rte>
</gpx>`
	d, err := gpx.Read(strings.NewReader(file))
	if err != nil {
		log.Fatal(err)
	}
	for _, p := range d.Waypoints {
		fmt.Println("waypoint", p.Name, p.Position)
	}
	for _, r := range d.Routes {
		fmt.Println("route", r.Name)
		for _, p := range r.Points {
			fmt.Println("  by", p.Name, p.Position)
		}
	}
	// Output:
	// waypoint Orlesk Head 47°08.4′N 019°00.0′W
	// route Out
	//   by Orlesk Head 47°08.4′N 019°00.0′W
	//   by Minnow Ledge 47°03.6′N 019°11.6′W
}

func ExampleWrite() {
	d := &gpx.Document{
		Name:      "Orlesk Bay",
		Waypoints: []gpx.Point{{Position: angle.MustParsePosition("47°08.4′N 019°00.0′W"), Name: "Orlesk Head"}},
	}
	if err := gpx.Write(os.Stdout, d); err != nil {
		log.Fatal(err)
	}
	// Output:
	// <?xml version="1.0" encoding="UTF-8"?>
	// <gpx version="1.1" creator="lubberline" xmlns="http://www.topografix.com/GPX/1/1">
	//   <metadata>
	//     <name>Orlesk Bay</name>
	//   </metadata>
	//   <wpt lat="47.14" lon="-19">
	//     <name>Orlesk Head</name>
	//   </wpt>
	// </gpx>
}

// The error says where the fault is.
func ExampleError() {
	const file = `<gpx version="1.1" creator="by hand" xmlns="http://www.topografix.com/GPX/1/1">
  <wpt lat="97.14" lon="-19"><name>Orlesk Head</name></wpt>
</gpx>`
	_, err := gpx.Read(strings.NewReader(file))
	if e, ok := errors.AsType[*gpx.Error](err); ok {
		fmt.Println("line", e.Line, "element", e.Element)
	}
	// Output:
	// line 2 element wpt
}

// The error names the line.
func ExampleRead() {
	const file = `<gpx version="1.1" creator="by hand" xmlns="http://www.topografix.com/GPX/1/1">
  <rte><name>Out</name>
    <rtept lat="47.14" lon="-19"><name>Orlesk Head</name></rtept>
    <rtept lat="97" lon="-19.1933"><name>Minnow Ledge</name></rtept>
  </rte>
</gpx>`
	_, err := gpx.Read(strings.NewReader(file))
	fmt.Println(err)

	d, err := gpx.Read(strings.NewReader(strings.Replace(file, "97", "47.06", 1)))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(d.Routes[0].Name, d.Routes[0].Points[1].Name, d.Routes[0].Points[1].Position)
	// Output:
	// gpx: line 4, element rtept: attribute lat: "97" is not a latitude: out of range; write a latitude from 90° S to 90° N, as in 47°08.4′N
	// Out Minnow Ledge 47°03.6′N 019°11.6′W
}

// Read counts tracks; ReadWithTracks reads them.
func ExampleReadWithTracks() {
	const file = `<gpx version="1.0" creator="by hand" xmlns="http://www.topografix.com/GPX/1/0">
  <trk><name>Back</name><trkseg>
    <trkpt lat="47.06" lon="-19.1933"><time>2026-07-02T09:00:00Z</time></trkpt>
    <trkpt lat="47.14" lon="-19"><time>2026-07-02T10:40:00Z</time></trkpt>
  </trkseg></trk>
</gpx>`
	d, err := gpx.Read(strings.NewReader(file))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(len(d.Routes), "routes; passed over:", d.PassedOver)
	if d, err = gpx.ReadWithTracks(strings.NewReader(file)); err != nil {
		log.Fatal(err)
	}
	for _, p := range d.Tracks[0].Segments[0] {
		fmt.Println(p.Position, p.Time.Format("15:04 UTC"))
	}
	// Output:
	// 0 routes; passed over: map[trk:1 trkpt:2]
	// 47°03.6′N 019°11.6′W 09:00 UTC
	// 47°08.4′N 019°00.0′W 10:40 UTC
}
