// Package gpx reads and writes waypoints and routes in the GPX Exchange Format,
// version 1.1 (the open schema http://www.topografix.com/GPX/1/1).
//
// Positions are read to the last unit of [angle.Angle] and written so that they
// read back to the same. Tracks, extensions and what else a file may contain are
// passed over and not kept: read a file to get its waypoints and routes, do not
// write it back in place of the original.
package gpx
