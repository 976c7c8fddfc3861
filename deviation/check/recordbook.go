package check

import (
	"fmt"
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/deviation/internal/say"
)

// RecordBook returns a page of a compass record book, for people: the names of its columns,
// and a row for each check. Angles are rounded to a tenth of a degree. What a check does
// not have is empty. The remarks end with the kinds of its warnings. To keep checks, write
// them with [WriteLog], in full.
//
// The columns are common practice: those by which each check can be worked again.
func RecordBook(checks ...Check) (columns []string, rows [][]string) {
	columns = []string{"Date, UTC", "Position", "Heading", "Method", "Object", "By compass", "True", "Error", "Variation", "Variation from", "Deviation", "Observer", "Remarks"}
	rows = make([][]string, len(checks))
	for i, c := range checks {
		rows[i] = c.bookRow()
	}
	return columns, rows
}

// bookRow returns the row of a check in a compass record book.
func (c Check) bookRow() []string {
	var when, position, bearing, direction, compassError, variation string
	if t := c.Time.UTC(); !c.Time.IsZero() {
		when = t.Format("2006-01-02 1504")
	}
	if c.Position != nil {
		position = fmt.Sprintf("%.1v", *c.Position)
	}
	if c.Bearing != nil {
		bearing, direction = onTenth(c.Bearing.FromNorth())+"C", onTenth(c.trueBearing().FromNorth())+"T"
	}
	if c.Error != (angle.EastWest{}) || c.Variation.EastWest != (angle.EastWest{}) {
		compassError, variation = tenths(c.Error.WithUncertainty(angle.Uncertainty{})), tenths(c.Variation.EastWest)
	}
	var remarks []string
	if c.Remarks != "" {
		remarks = append(remarks, c.Remarks)
	}
	for _, w := range c.Warnings {
		if kind := strings.ReplaceAll(string(w.Kind), "-", " "); kind != "" && !slices.Contains(remarks, kind) {
			remarks = append(remarks, kind)
		}
	}
	return []string{when, position, onTenth(c.Heading.FromNorth()) + "C", c.Method, c.Against, bearing, direction, compassError, variation, c.VariationSource,
		tenths(c.Deviation.EastWest), c.Observer, strings.Join(remarks, "; ")}
}

// tenths prints an angle by its name to a tenth of a degree.
func tenths(e angle.EastWest) string { return strings.Join(strings.Fields(say.Tenths(e)), " ") }

// onTenth prints a direction to a tenth of a degree, without one that is zero.
func onTenth(h angle.Angle) string {
	n := int(h.Round(angle.Degree/10).Normalized() / (angle.Degree / 10))
	return strings.Replace(fmt.Sprintf("%03d.%d°", n/10, n%10), ".0°", "°", 1)
}
