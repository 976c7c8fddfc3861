package variation

import (
	"encoding/json"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A projectionData is a projection as written in JSON.
type projectionData struct {
	Rose      Rose        `json:"rose"`
	Count     YearCount   `json:"count"`
	Date      time.Time   `json:"date,omitzero"`
	Years     float64     `json:"years"`
	Change    angle.Angle `json:"change"`
	Variation Variation   `json:"variation"`

	Rounding  angle.Uncertainty `json:"rounding"`
	Drift     angle.Uncertainty `json:"drift"`
	Source    angle.Uncertainty `json:"source"`
	Intensity float64           `json:"intensityNanotesla"`
	By        string            `json:"intensityBy,omitempty"` // "model", "latitude", or neither

	Working working.Steps `json:"working,omitempty"`
}

// MarshalJSON writes the rose, the count and the date of the years, the change (east
// positive), and the variation. The parts of its uncertainty and the steps follow.
func (p Projection) MarshalJSON() ([]byte, error) {
	return json.Marshal(projectionData{
		p.Rose, p.Count, p.date, p.Years, p.Change, p.Variation,
		p.Rounding, p.Drift, p.Source, p.where.nanotesla, p.where.by, p.Working(),
	})
}
