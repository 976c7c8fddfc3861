package deviation

import (
	"bytes"
	"encoding/json"
	"errors"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
)

// MarshalJSON gives the table as the array that [ReadTable] reads, exactly, with the
// rows' uncertainties where they are stated; or where the table is smooth as an object
// that says so, {"smooth":true,"rows":[…]}. The zero value, which has no rows, is
// null.
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

// UnmarshalJSON reads what MarshalJSON gives, and what else [ReadTable] reads in JSON;
// null changes nothing. Its errors are those of ReadTable; JSON that is neither an
// array nor an object is a [*record.Error].
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
