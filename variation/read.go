package variation

import (
	"cmp"
	"io"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
)

// ReadChart reads a chart's roses from CSV or JSON; see package [record]. The columns are
// position and legend, and optionally name and language. The language is that of the
// legend, en, fr, de or es, as for [ParseLegendIn]; English if empty.
//
//	name,position,legend
//	Outer rose,47°05′N 019°10′W,3°50′W 2014 (9′E)
//
// For a bad line it returns a [*record.Error] with the line. For roses that make no chart it
// returns an [*Error] of kind [BadChart].
func ReadChart(name string, r io.Reader) (*Chart, error) {
	rows, err := record.Read(r, record.Columns{Required: []string{"position", "legend"}, Optional: []string{"name", "language"}})
	if err != nil {
		return nil, err
	}
	roses := make([]ChartRose, len(rows))
	for i, row := range rows {
		position, err := angle.ParsePosition(row.Text("position"))
		if err != nil {
			return nil, row.Fault("position", err)
		}
		rose, err := ParseLegendIn(row.Text("legend"), cmp.Or(Language(row.Text("language")), English))
		if err != nil {
			return nil, row.Fault("legend", err)
		}
		roses[i] = ChartRose{Name: row.Text("name"), Position: position, Rose: rose}
	}
	return NewChart(name, roses...)
}
