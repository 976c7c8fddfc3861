package deviation

import (
	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/say"
)

// farOut is the largest distance of a smooth curve beyond the rows on either side without a
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
	from, to := t.rows[i], t.rows[t.curve.next(i)]
	step := working.EastWest("deviation", "Deviation", d.Angle())
	start, end := say.Heading(t.by, from.heading), say.Heading(t.by, to.heading)
	switch {
	case along == 0:
		step = step.Because("table-row", "table, on %s", start)
	case t.IsSmooth():
		step = step.Because("table-smooth", "table, by a smooth curve between %s on %s and %s on %s", from.deviation, start, to.deviation, end)
	default:
		step = step.Because("table-linear", "table, linearly between %s on %s and %s on %s", from.deviation, start, to.deviation, end)
	}
	e := Explanation{Deviation: d, Working: working.Steps{step}}
	least := min(from.deviation.Angle(), to.deviation.Angle()) - farOut
	most := max(from.deviation.Angle(), to.deviation.Angle()) + farOut
	if t.IsSmooth() && (d.Angle() < least || d.Angle() > most) {
		e.Warnings = append(e.Warnings, working.Warn(SwingsOut, "swings-out", "the smooth curve swings to %s between %s and %s: without Smooth the table is linear there", d, from.deviation, to.deviation))
	}
	return e, nil
}
