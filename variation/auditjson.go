package variation

import (
	"cmp"
	"encoding/json"
	"errors"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// MarshalJSON gives the comparison as data. If there is none its reason stands under
// "error", and what the source did not say is left out.
func (c Comparison) MarshalJSON() ([]byte, error) {
	type fields Comparison // without the methods
	d := struct {
		fields
		Source     *Variation   `json:"source,omitempty"`
		Difference *angle.Angle `json:"difference,omitempty"`
		Allowed    *angle.Angle `json:"allowed,omitempty"`
		Error      string       `json:"error,omitempty"`
	}{fields: fields(c), Error: textOf(c.Err)}
	if c.Err == nil || c.Source != (Variation{}) || c.Difference != 0 || c.Allowed != 0 {
		d.Source, d.Difference, d.Allowed = &c.Source, &c.Difference, &c.Allowed
	}
	return json.Marshal(d)
}

// UnmarshalJSON reads what [Comparison.MarshalJSON] writes. Of an error its text
// reads back and its type is lost.
func (c *Comparison) UnmarshalJSON(data []byte) error {
	type fields Comparison
	var d struct {
		fields
		Error string `json:"error"`
	}
	if err := json.Unmarshal(data, &d); err != nil {
		return err
	}
	*c = Comparison(d.fields)
	c.Err = errorOf(d.Error)
	return nil
}

// MarshalJSON gives the audit as data: the fields, without the annual changes that
// are not known; the reason why the source has none, under "sourceChangeError"; and
// the working, which does not read back, as it can be made again.
func (a Audit) MarshalJSON() ([]byte, error) {
	type fields Audit
	d := struct {
		fields
		RoseChange   *angle.Angle  `json:"roseChange,omitempty"`
		SourceChange *angle.Angle  `json:"sourceChange,omitempty"`
		Error        string        `json:"sourceChangeError,omitempty"`
		Working      working.Sheet `json:"working"`
	}{fields: fields(a), Error: textOf(a.SourceChangeErr), Working: a.Working()}
	if a.changeStated || a.RoseChange != 0 {
		d.RoseChange = &a.RoseChange
	}
	if a.SourceChangeErr == nil || a.SourceChange != 0 {
		d.SourceChange = &a.SourceChange
	}
	return json.Marshal(d)
}

// UnmarshalJSON reads what [Audit.MarshalJSON] writes. Errors read back as by
// [Comparison.UnmarshalJSON].
func (a *Audit) UnmarshalJSON(data []byte) error {
	type fields Audit
	var d struct {
		fields
		Error string `json:"sourceChangeError"`
	}
	if err := json.Unmarshal(data, &d); err != nil {
		return err
	}
	*a = Audit(d.fields)
	a.SourceChangeErr = errorOf(d.Error)
	_, a.changeStated = a.Rose.Change.PerYear()
	return nil
}

// textOf is what an error says; "" of none.
func textOf(err error) string {
	if err == nil {
		return ""
	}
	return cmp.Or(err.Error(), "no reason given")
}

// errorOf is an error that says a text; none of "".
func errorOf(text string) error {
	if text == "" {
		return nil
	}
	return errors.New(text)
}
