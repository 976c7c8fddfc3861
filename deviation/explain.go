package deviation

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// ExplainDeviation returns the deviation on a compass heading and says from
// which rows it comes. It errs as OnCompass does.
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
		how = fmt.Sprintf("table, on %s", headingText(t.by, from.Heading))
	default:
		way := "linearly"
		if t.IsSmooth() {
			way = "by a smooth curve"
		}
		how = fmt.Sprintf("table, %s between %s on %s and %s on %s", way,
			from.Deviation, headingText(t.by, from.Heading), to.Deviation, headingText(t.by, to.Heading))
	}
	return Explanation{d, working.Steps{working.EastWest("deviation", "Deviation", d.Angle(), how)}}, nil
}
