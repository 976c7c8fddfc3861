// Package gpx reads and writes waypoints and routes in the GPX Exchange Format,
// version 1.1 (the open schema http://www.topografix.com/GPX/1/1).
//
//	document, err := gpx.Read(file)
//	if err != nil {
//		log.Fatal(err)
//	}
//	for _, route := range document.Routes { // none in a file of tracks only
//		for _, p := range route.Points {
//			fmt.Println(p.Name, p.Position)
//		}
//	}
//
// # Where to begin
//
// [Read] gives a [Document] with its waypoints and routes, [Write] writes one. To work a
// route as a passage use [lubberline.example/course/passage.WaypointsOf], and
// [lubberline.example/course/passage.Passage.Route] for the way back.
//
// Positions are read to the last unit of [angle.Angle] and written so that they
// read back to the same. Tracks, extensions and what else a file may contain are
// passed over and not kept: read a file to get its waypoints and routes, do not
// write it back in place of the original.
package gpx
