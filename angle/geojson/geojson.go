// Package geojson writes points and lines on the earth as GeoJSON (RFC 7946), the format
// that map programs read.
//
//	beacon := geojson.Feature{
//		Point:      angle.MustParsePosition("47°03.6′N 019°11.6′W"),
//		Properties: map[string]string{"name": "Minnow Ledge beacon"},
//	}
//	if err := geojson.Write(os.Stdout, []geojson.Feature{beacon}); err != nil {
//		log.Fatal(err)
//	}
//
// # Where to begin
//
// Make a [Feature] for each point or set of lines, and pass them all to [Write]. For a
// passage plan, call [lubberline.example/course/passage.Passage.WriteGeoJSON] instead. For
// lines of equal variation, call [lubberline.example/wmm.WriteGeoJSON].
//
// Coordinates are degrees, longitude first, north and east positive, as the format
// requires. They are exact to the last unit of [angle.Angle].
package geojson

import (
	"encoding/json"
	"io"
	"io/fs"

	"lubberline.example/angle"
)

// A Feature is a point or some lines, with their properties. The zero value
// is a point at 0° N 0° E without properties.
type Feature struct {
	// Point is written if Lines is nil.
	Point angle.Position

	// Lines are cut where they cross the date line, as RFC 7946, section 3.1.9,
	// requires. Between two positions a line takes the shorter way in longitude.
	Lines [][]angle.Position

	// Properties is a struct or a map that encodes as JSON.
	Properties any
}

type geometry struct {
	Type        string `json:"type"`
	Coordinates any    `json:"coordinates"`
}

type feature struct {
	Type       string   `json:"type"`
	Geometry   geometry `json:"geometry"`
	Properties any      `json:"properties"`
}

// Write writes a feature collection: points as Point, lines as MultiLineString. It leaves
// out lines of fewer than two positions.
//
// If the properties can't be encoded, Write writes nothing and returns the
// [*json.UnsupportedTypeError], [*json.UnsupportedValueError] or [*json.MarshalerError]. It
// returns the writer's error unchanged. If w is nil, it returns a [*fs.PathError] for
// [fs.ErrInvalid].
func Write(w io.Writer, features []Feature) error {
	if w == nil {
		return &fs.PathError{Op: "write", Path: "GeoJSON to a nil writer", Err: fs.ErrInvalid}
	}
	collection := struct {
		Type     string    `json:"type"`
		Features []feature `json:"features"`
	}{"FeatureCollection", []feature{}}
	for _, f := range features {
		g := geometry{}
		if f.Lines == nil {
			latitude, longitude := f.Point.Degrees()
			g = geometry{"Point", [2]float64{longitude, latitude}}
		} else {
			lines := [][][2]float64{}
			for _, line := range f.Lines {
				lines = append(lines, cutAtDateLine(line)...)
			}
			g = geometry{"MultiLineString", lines}
		}
		collection.Features = append(collection.Features, feature{"Feature", g, f.Properties})
	}
	return json.NewEncoder(w).Encode(collection)
}

// cutAtDateLine returns the coordinates of a line, longitude first. It cuts the line where
// it crosses the meridian of 180°.
func cutAtDateLine(line []angle.Position) [][][2]float64 {
	var pieces [][][2]float64
	var piece [][2]float64
	end := func() {
		if len(piece) > 1 {
			pieces = append(pieces, piece)
		}
		piece = nil
	}
	for i, p := range line {
		lat, lon := p.Degrees()
		if i > 0 {
			beforeLat, beforeLon := line[i-1].Degrees()
			switch step := lon - beforeLon; {
			case step > 180 || step < -180:
				edge := 180.0 // the side where the line leaves
				if beforeLon < 0 {
					edge = -180
				}
				toEdge, whole := edge-beforeLon, p.Longitude.Sub(line[i-1].Longitude).Degrees()
				cutLat := lat
				if whole != 0 {
					cutLat = beforeLat + (lat-beforeLat)*toEdge/whole
				}
				if beforeLon != edge {
					piece = append(piece, [2]float64{edge, cutLat})
				}
				end()
				if lon != -edge {
					piece = append(piece, [2]float64{-edge, cutLat})
				}
			}
		}
		piece = append(piece, [2]float64{lon, lat})
	}
	end()
	return pieces
}
