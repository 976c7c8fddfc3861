package variation

import (
	"encoding/json"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A projectionData is a projection as JSON holds it.
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

// MarshalJSON gives the projection as data: the rose, how and to when the years
// were counted, the change (east positive), the variation with its uncertainty and the
// parts of that, and the steps. All but the steps, which can be made again, reads back exactly.
func (p Projection) MarshalJSON() ([]byte, error) {
	return json.Marshal(projectionData{
		p.Rose, p.Count, p.date, p.Years, p.Change, p.Variation,
		p.Rounding, p.Drift, p.Source, p.where.nanotesla, p.where.by, p.Working(),
	})
}

// UnmarshalJSON reads what [Projection.MarshalJSON] writes, as it stands; it does
// not work the projection again. A date outside 1500 to 2500 is refused with a
// [*YearError].
func (p *Projection) UnmarshalJSON(data []byte) error {
	var d projectionData
	if err := json.Unmarshal(data, &d); err != nil {
		return err
	}
	if !d.Date.IsZero() {
		if err := checkYear(d.Date.UTC().Year(), "date"); err != nil {
			return err
		}
	}
	*p = Projection{
		d.Rose, d.Count, d.Years, d.Change, d.Variation,
		d.Rounding, d.Drift, d.Source, d.Date.UTC(), intensity{d.Intensity, d.By},
	}
	return nil
}
