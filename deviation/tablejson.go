package deviation

import (
	"bytes"
	"encoding/json"
	"errors"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
)

// MarshalJSON returns the table exactly, as the array that [ReadTable] reads, with the
// uncertainties of the rows if stated. A smooth table is an object, {"smooth":true,"rows":[…]}. The
// zero value, which has no rows, is null.
func (t Table) MarshalJSON() ([]byte, error) {
	if len(t.rows) == 0 {
		return []byte("null"), nil
	}
	type line struct {
		Compass     *angle.Compass    `json:"compass,omitempty"`
		Magnetic    *angle.Magnetic   `json:"magnetic,omitempty"`
		Deviation   Deviation         `json:"deviation"`
		Uncertainty angle.Uncertainty `json:"uncertainty,omitzero"`
	}
	rows := make([]line, len(t.rows))
	for i, e := range t.rows {
		rows[i] = line{Deviation: e.deviation.WithUncertainty(angle.Uncertainty{}), Uncertainty: e.deviation.Uncertainty()}
		if t.by == ByMagnetic {
			rows[i].Magnetic = new(angle.MagneticFrom(e.heading))
		} else {
			rows[i].Compass = new(angle.CompassFrom(e.heading))
		}
	}
	if t.IsSmooth() {
		return json.Marshal(struct {
			Smooth bool   `json:"smooth"`
			Rows   []line `json:"rows"`
		}{true, rows})
	}
	return json.Marshal(rows)
}

// UnmarshalJSON reads all JSON that [ReadTable] reads; null changes nothing. Its errors are those
// of ReadTable. If the JSON is neither an array nor an object, it returns a [*record.Error].
func (t *Table) UnmarshalJSON(data []byte) error {
	if t == nil {
		return &record.Error{Err: errNilTarget}
	}
	if string(data) == "null" {
		return nil
	}
	if first := bytes.TrimLeft(data, " \t\r\n"); len(first) > 0 && first[0] != '[' && first[0] != '{' {
		return &record.Error{Err: errNotRows} // ReadTable would take it for CSV
	}
	read, err := ReadTable(bytes.NewReader(data))
	if err != nil {
		return err
	}
	*t = *read
	return nil
}

// errNilTarget refuses a nil pointer to read into.
var errNilTarget = errors.New("the pointer to read into is nil")
