package wmm

import (
	"fmt"
	"io"

	"lubberline.example/angle"
	"lubberline.example/angle/geojson"
)

// WriteGeoJSON writes isogonics as a GeoJSON feature collection (RFC 7946). Each is a
// feature with a MultiLineString and two properties: declination, in degrees east, and name,
// such as 4°W. Lines are cut at the date line, as RFC 7946, section 3.1.9, requires. Its
// errors are those of [geojson.Write].
func WriteGeoJSON(w io.Writer, isogonics []Isogonic) error {
	type properties struct {
		Declination float64 `json:"declination"`
		Name        string  `json:"name"`
	}
	features := make([]geojson.Feature, len(isogonics))
	for i, line := range isogonics {
		features[i] = geojson.Feature{Lines: line.Lines, Properties: properties{line.D.Degrees(), line.Name()}}
		if line.Lines == nil {
			features[i].Lines = [][]angle.Position{}
		}
	}
	return geojson.Write(w, features)
}

// Name returns the label of the line on charts: 4°W, 0°30′E, and 0° for the agonic line.
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
		return fmt.Sprintf("%.0f%s", size, name)
	}
	return size.String() + name
}
