package wmm

import (
	"encoding/json"
	"io"

	"lubberline.example/angle"
)

// WriteGeoJSON writes isogonics as a GeoJSON feature collection (RFC 7946): each
// a feature with a MultiLineString and the properties declination, in degrees
// east, and name, as in 4°W. Lines that cross the date line are cut there, as
// RFC 7946, section 3.1.9, asks.
func WriteGeoJSON(w io.Writer, isogonics []Isogonic) error {
	type geometry struct {
		Type        string         `json:"type"`
		Coordinates [][][2]float64 `json:"coordinates"`
	}
	type properties struct {
		Declination float64 `json:"declination"`
		Name        string  `json:"name"`
	}
	type feature struct {
		Type       string     `json:"type"`
		Geometry   geometry   `json:"geometry"`
		Properties properties `json:"properties"`
	}
	collection := struct {
		Type     string    `json:"type"`
		Features []feature `json:"features"`
	}{"FeatureCollection", []feature{}}
	for _, i := range isogonics {
		lines := [][][2]float64{}
		for _, line := range i.Lines {
			lines = append(lines, cutAtDateLine(line)...)
		}
		collection.Features = append(collection.Features, feature{
			"Feature", geometry{"MultiLineString", lines}, properties{i.D.Degrees(), i.Name()},
		})
	}
	return json.NewEncoder(w).Encode(collection)
}

// Name returns the declination as charts label its line: 4°W, 0°30′E, 0° for the
// agonic line.
func (i Isogonic) Name() string {
	size := i.D.Abs()
	name := ""
	switch {
	case i.D == angle.Turn/2:
	case i.D > 0:
		name = "E"
	case i.D < 0:
		name = "W"
	}
	if size%angle.Degree == 0 {
		return string(size.AppendDegrees(nil, 0)) + name
	}
	return size.String() + name
}

// cutAtDateLine turns a line into coordinates, longitude first, and cuts it where
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
				edge := 180.0 // the side that the line leaves by
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
