package variation

import (
	"bytes"
	"cmp"
	"encoding/json"
	"strconv"
)

// A chartData is a chart as JSON holds it.
type chartData struct {
	Name   string         `json:"name,omitempty"`
	Method Method         `json:"method,omitzero"`
	Count  YearCount      `json:"count,omitzero"`
	Limits Limits         `json:"limits,omitzero"`
	Roses  []chartRoseRow `json:"roses"`
}

// A chartRoseRow is a rose of a chart, as [ReadChart] reads it.
type chartRoseRow struct {
	Name     string           `json:"name,omitempty"`
	Position *json.RawMessage `json:"position"`
	Legend   string           `json:"legend"`
	Rose     *Rose            `json:"rose,omitempty"` // where the legend does not say all
}

// MarshalJSON gives the chart as an object: under "roses" the rows that [ReadChart]
// reads, with name, position and legend, and, where they are not the defaults, the
// chart's name, method, count and limits. A rose of which its legend can't say all,
// such as an uncertainty, has that under "rose" as well; ReadChart does not read
// this. It refuses a chart without roses with a [*ChartError].
func (c Chart) MarshalJSON() ([]byte, error) {
	if len(c.roses) == 0 {
		return nil, errNoRoses()
	}
	d := chartData{c.name, c.Method, c.Count, c.Limits, make([]chartRoseRow, len(c.roses))}
	for i, r := range c.roses {
		text, err := json.Marshal(r.Position)
		if err != nil {
			return nil, err
		}
		position := json.RawMessage(text)
		row := chartRoseRow{Name: r.Name, Position: &position, Legend: r.Rose.Legend()}
		if said, err := ParseLegend(row.Legend); err != nil || said != r.Rose {
			row.Rose = &r.Rose
		}
		d.Roses[i] = row
	}
	return json.Marshal(d)
}

// UnmarshalJSON reads what [Chart.MarshalJSON] writes, exactly, or an array of the
// rows alone. Faults are a [*ChartError] that names the rose, or its number from 1 if
// it has no name, and wraps that of a position or a legend; of the array those of
// [ReadChart].
func (c *Chart) UnmarshalJSON(data []byte) error {
	if bytes.HasPrefix(bytes.TrimSpace(data), []byte("[")) {
		read, err := ReadChart("", bytes.NewReader(data))
		if err == nil {
			*c = *read
		}
		return err
	}
	var d chartData
	if err := json.Unmarshal(data, &d); err != nil {
		return err
	}
	roses := make([]ChartRose, len(d.Roses))
	for i, row := range d.Roses {
		var err error
		if roses[i], err = row.read(i + 1); err != nil {
			return err
		}
	}
	read, err := NewChart(d.Name, roses...)
	if err != nil {
		return err
	}
	read.Method, read.Count, read.Limits = d.Method, d.Count, d.Limits
	*c = *read
	return nil
}

// read returns the rose of a row, which is the nth.
func (row chartRoseRow) read(n int) (ChartRose, error) {
	r := ChartRose{Name: row.Name}
	name := cmp.Or(row.Name, strconv.Itoa(n))
	if row.Position == nil {
		return r, &ChartError{Rose: name, Reason: "no position"}
	}
	if err := json.Unmarshal(*row.Position, &r.Position); err != nil {
		return r, &ChartError{Rose: name, Reason: err.Error(), Err: err}
	}
	if row.Rose != nil {
		r.Rose = *row.Rose
		return r, nil
	}
	var err error
	if r.Rose, err = ParseLegend(row.Legend); err != nil {
		return r, &ChartError{Rose: name, Reason: err.Error(), Err: err}
	}
	return r, nil
}
