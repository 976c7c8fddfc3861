// Package passage works a passage plan leg by leg: the track and the distance, the
// stream and the leeway allowed for, the course to steer by true, by magnetic and
// by compass, the time of arrival, and what is weak about the answer.
//
// A [Plan] is what is wanted: waypoints, a departure and a speed, and sources of
// variation, deviation and streams. [New] works it into a [Passage], which is
// printed, written as JSON or CSV, put on a map as GeoJSON, or made into a route
// of package gpx. [ReadWaypoints] reads waypoints from CSV or JSON.
//
// Legs are rhumb lines on WGS84, or great circles on the sphere where asked.
//
// # Cautions
//
// A plan is arithmetic. It knows no depths, dangers, traffic, weather or limits of
// the vessel, and streams and variation are forecasts. The standing caution of
// package working comes with each.
package passage
