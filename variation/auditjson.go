package variation

import (
	"cmp"
	"encoding/json"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// MarshalJSON writes the comparison. If the source has no answer, the reason is under
// "error", and source, difference and allowed are left out.
func (c Comparison) MarshalJSON() ([]byte, error) {
	type fields Comparison // without the methods
	d := struct {
		fields
		Source     *Variation   `json:"source,omitempty"`
		Difference *angle.Angle `json:"difference,omitempty"`
		Allowed    *angle.Angle `json:"allowed,omitempty"`
		Error      string       `json:"error,omitempty"`
	}{fields: fields(c)}
	if c.Err != nil {
		d.Error = cmp.Or(c.Err.Error(), "no reason given")
	} else {
		d.Source, d.Difference, d.Allowed = &c.Source, &c.Difference, &c.Allowed
	}
	return json.Marshal(d)
}

// MarshalJSON writes the fields of the audit, with the annual change of the rose under
// "roseChange" if it is stated, and the working.
func (a Audit) MarshalJSON() ([]byte, error) {
	type fields Audit
	d := struct {
		fields
		RoseChange *angle.Angle  `json:"roseChange,omitempty"`
		Working    working.Sheet `json:"working"`
	}{fields: fields(a), Working: a.Working()}
	if change, stated := a.change(); stated {
		d.RoseChange = &change
	}
	return json.Marshal(d)
}
