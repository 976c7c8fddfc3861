package variation

import (
	"io"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
)

// ReadChart reads a chart's roses from CSV or JSON; see package [record]. The columns are
// position and legend, and optionally name.
//
//	name,position,legend
//	Outer rose,47°05′N 019°10′W,3°50′W 2014 (9′E)
//
// For a bad line it returns a [*record.Error] with the line. For roses that make no chart it
// returns an [*Error] of kind [BadChart].
func ReadChart(name string, r io.Reader) (*Chart, error) {
	rows, err := record.Read(r, record.Columns{Required: []string{"position", "legend"}, Optional: []string{"name"}})
	if err != nil {
		return nil, err
	}
	roses := make([]ChartRose, len(rows))
	for i, row := range rows {
		position, err := angle.ParsePosition(row.Text("position"))
		if err != nil {
			return nil, row.Fault("position", err)
		}
		rose, err := ParseLegend(row.Text("legend"))
		if err != nil {
			return nil, row.Fault("legend", err)
		}
		roses[i] = ChartRose{Name: row.Text("name"), Position: position, Rose: rose}
	}
	return NewChart(name, roses...)
}
