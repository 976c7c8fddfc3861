// Package gpx reads waypoints, routes and tracks in the GPX Exchange Format and writes
// them. It reads versions 1.1 and 1.0, in their namespaces or in none, and writes 1.1
// (the open schema http://www.topografix.com/GPX/1/1).
//
//	file, err := os.Open("route.gpx")
//	if err != nil {
//		log.Fatal(err)
//	}
//	defer file.Close()
//	document, err := gpx.Read(file)
//	if err != nil {
//		log.Fatal(err)
//	}
//	for _, route := range document.Routes { // empty for a file of tracks only
//		for _, p := range route.Points {
//			fmt.Println(p.Name, p.Position)
//		}
//	}
//
// # Where to begin
//
// [Read] returns a [Document] with waypoints and routes. [ReadWithTracks] reads tracks too:
// positions with times. [Write] writes a document. To work a route as a passage use
// [lubberline.example/course/passage.WaypointsOf]. To write a passage as a route use
// [lubberline.example/course/passage.Passage.Route].
//
// # What is kept
//
// Do not write a file back over the original. Heights, links, extensions and other
// elements are not kept; [Document.PassedOver] counts them. Positions are read to the last
// unit of [angle.Angle], and read back to the same when they are written.
package gpx
