package course

import (
	"encoding/json"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// MarshalJSON returns the heading as JSON, exactly, with its working. There is no
// UnmarshalJSON, because the sources are not in it.
func (h Heading) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		True         angle.True          `json:"true"`
		Magnetic     angle.Magnetic      `json:"magnetic"`
		Compass      angle.Compass       `json:"compass"`
		Variation    variation.Variation `json:"variation"`
		Deviation    deviation.Deviation `json:"deviation"`
		CompassError angle.EastWest      `json:"compassError"`
		Uncertainty  angle.Uncertainty   `json:"uncertainty,omitzero"`
		Working      working.Sheet       `json:"working"`
	}{h.t, h.m, h.c, h.v, h.d, h.CompassError(), h.Uncertainty(), h.Working()})
}

// MarshalJSON returns the bearing as JSON, exactly, with its working. There is no
// UnmarshalJSON, because the sources of its heading are not in it. For a bearing of
// [HandBearing], the members compass and relative are absent.
func (b Bearing) MarshalJSON() ([]byte, error) {
	d := struct {
		True        angle.True        `json:"true"`
		Magnetic    angle.Magnetic    `json:"magnetic"`
		Compass     *angle.Compass    `json:"compass,omitempty"`
		Relative    *angle.Relative   `json:"relative,omitempty"`
		Uncertainty angle.Uncertainty `json:"uncertainty,omitzero"`
		Working     working.Sheet     `json:"working"`
	}{True: b.t, Magnetic: b.m, Uncertainty: b.Uncertainty(), Working: b.Working()}
	if !b.ByHand() {
		relative := b.Relative()
		d.Compass, d.Relative = &b.c, &relative
	}
	return json.Marshal(d)
}
