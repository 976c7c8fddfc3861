package deviation

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/say"
)

// farOut is how far a smooth curve may go beyond the rows on either side without a
// warning. A compass with B of 25° and rows 45° apart goes 2° beyond.
const farOut = 5 * angle.Degree

// ExplainDeviation returns the deviation on a compass heading and says from
// which rows it comes. Its errors are those of OnCompass.
func (t *Table) ExplainDeviation(c angle.Compass) (Explanation, error) {
	d, err := t.OnCompass(c)
	if err != nil {
		return Explanation{}, err
	}
	heading := c.FromNorth()
	if t.by == ByMagnetic {
		heading = d.Magnetic(c).FromNorth()
	}
	i, along := t.curve.segment(heading)
	from, to := t.entries[i], t.entries[t.curve.next(i)]
	var how string
	switch {
	case along == 0:
		how = fmt.Sprintf("table, on %s", say.Heading(t.by, from.Heading))
	default:
		way := "linearly"
		if t.IsSmooth() {
			way = "by a smooth curve"
		}
		how = fmt.Sprintf("table, %s between %s on %s and %s on %s", way,
			from.Deviation, say.Heading(t.by, from.Heading), to.Deviation, say.Heading(t.by, to.Heading))
	}
	e := Explanation{Deviation: d, Working: working.Steps{working.EastWest("deviation", "Deviation", d.Angle(), how)}}
	least := min(from.Deviation.Angle(), to.Deviation.Angle()) - farOut
	most := max(from.Deviation.Angle(), to.Deviation.Angle()) + farOut
	if t.IsSmooth() && (d.Angle() < least || d.Angle() > most) {
		e.Warnings = append(e.Warnings, say.Warn(SwingsOut, "the smooth curve swings to %s between %s and %s: without Smooth the table goes straight", d, from.Deviation, to.Deviation))
	}
	return e, nil
}
