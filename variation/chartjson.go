package variation

import (
	"bytes"
	"cmp"
	"encoding/json"
	"strconv"
)

// A chartData is a chart as written in JSON.
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
	Language Language         `json:"language,omitempty"` // of the legend; English if empty
	Rose     *Rose            `json:"rose,omitempty"`     // if the legend does not say all
}

// MarshalJSON writes the chart as an object. Under "roses" are the rows that [ReadChart]
// reads, with name, position and legend. The name, method, count and limits of the chart
// follow unless they are the defaults. If a legend cannot say all of a rose, such as an
// uncertainty, "rose" has the rest; ReadChart does not read that. For a chart without roses,
// or with an unknown method or count, it returns an error.
func (c Chart) MarshalJSON() ([]byte, error) {
	if len(c.roses) == 0 {
		return nil, errNoRoses()
	}
	_, err := c.Method.orDefault()
	_, errCount := c.Count.orDefault()
	if err := cmp.Or(err, errCount); err != nil {
		return nil, err
	}
	d := chartData{c.name, c.Method, c.Count, c.Limits, make([]chartRoseRow, len(c.roses))}
	for i, r := range c.roses {
		text, err := json.Marshal(r.Position)
		if err != nil {
			return nil, err
		}
		position := json.RawMessage(text)
		row := chartRoseRow{Name: r.Name, Position: &position, Legend: r.Rose.String()}
		if said, err := ParseLegend(row.Legend); err != nil || said != r.Rose {
			row.Rose = &r.Rose
		}
		d.Roses[i] = row
	}
	return json.Marshal(d)
}

// UnmarshalJSON reads exactly what [Chart.MarshalJSON] writes, or an array of the rows
// alone. In both, a row may have the language of its legend, as for [ReadChart];
// MarshalJSON writes legends in English. For a bad rose it returns an [*Error] with the name of the rose, or its number
// from 1. It wraps the error of the position or the legend. For a bad array it returns
// the errors of [ReadChart].
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
	if _, err := d.Method.orDefault(); err != nil {
		return err
	}
	if _, err := d.Count.orDefault(); err != nil {
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
		return r, chartError(name, nil, "no position")
	}
	if err := json.Unmarshal(*row.Position, &r.Position); err != nil {
		return r, chartError(name, err, "%v", err)
	}
	if row.Rose != nil {
		r.Rose = *row.Rose
		return r, nil
	}
	var err error
	if r.Rose, err = ParseLegendIn(row.Legend, cmp.Or(row.Language, English)); err != nil {
		return r, chartError(name, err, "%v", err)
	}
	return r, nil
}
