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

// An auditData is an audit as written in JSON.
type auditData struct {
	Rose         Rose            `json:"rose"`
	Position     angle.Position  `json:"position"`
	Verdict      Verdict         `json:"verdict"`
	Then         Comparison      `json:"then"`
	Now          Comparison      `json:"now"`
	FirstChange  *angle.Angle    `json:"firstChange,omitempty"`
	SourceChange *angle.Angle    `json:"sourceChange,omitempty"`
	FitsAt       *angle.Position `json:"fitsAt,omitempty"`
	FitsIn       int             `json:"fitsIn,omitzero"`
	MaxDrift     angle.Angle     `json:"maxDrift"`
	RoseChange   *angle.Angle    `json:"roseChange,omitempty"`
	Working      working.Sheet   `json:"working"`
}

// MarshalJSON writes the rose and its position, the fields of the audit, and the working.
// "roseChange" is the annual change of the rose, if it is stated. "firstChange" is that of the
// source around the rose's own year. "maxDrift" is the maximum error of a sound rose at the
// date, since the annual change of the field is not steady.
func (a Audit) MarshalJSON() ([]byte, error) {
	d := auditData{
		a.rose, a.position, a.Verdict, a.Then, a.Now, a.firstChange, a.SourceChange, a.FitsAt, a.FitsIn, a.maxDrift, nil, a.Working(),
	}
	if change, stated := a.change(); stated {
		d.RoseChange = &change
	}
	return json.Marshal(d)
}
