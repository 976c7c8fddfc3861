package deviation

import (
	"bytes"
	"encoding/json"

	"lubberline.example/angle"
)

// MarshalJSON gives the table as the array that [ReadTable] reads, exactly, with the
// rows' uncertainties where they are stated. The zero value, which has no rows, is
// null. That the table is smooth is not in the array: use [Table.Smooth] on what was
// read back.
func (t Table) MarshalJSON() ([]byte, error) {
	if len(t.entries) == 0 {
		return []byte("null"), nil
	}
	type row struct {
		Compass     *angle.Compass    `json:"compass,omitempty"`
		Magnetic    *angle.Magnetic   `json:"magnetic,omitempty"`
		Deviation   Deviation         `json:"deviation"`
		Uncertainty angle.Uncertainty `json:"uncertainty,omitzero"`
	}
	rows := make([]row, len(t.entries))
	for i, e := range t.entries {
		rows[i] = row{Deviation: e.Deviation.WithUncertainty(angle.Uncertainty{}), Uncertainty: e.Deviation.Uncertainty()}
		if t.by == ByMagnetic {
			rows[i].Magnetic = new(angle.MagneticFrom(e.Heading))
		} else {
			rows[i].Compass = new(angle.CompassFrom(e.Heading))
		}
	}
	return json.Marshal(rows)
}

// UnmarshalJSON reads what MarshalJSON gives, and what else [ReadTable] reads in JSON;
// null changes nothing. Its errors are those of ReadTable.
func (t *Table) UnmarshalJSON(data []byte) error {
	if string(data) == "null" {
		return nil
	}
	read, err := ReadTable(bytes.NewReader(data))
	if err != nil {
		return err
	}
	*t = *read
	return nil
}
