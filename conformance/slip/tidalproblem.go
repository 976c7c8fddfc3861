package slip

import (
	"fmt"
	"math"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/tidal"
)

// NewTidalRate asks for the rate of the tidal stream at a place of a table at a time, to a tenth
// of a knot. highWater is the nearest high water at the standard port. high and low are the
// heights of high and low water there. The question has the rows of the place. Errors are those
// of [tidal.Table.Streams].
func NewTidalRate(table tidal.Table, place string, highWater time.Time, high, low sailing.Distance, at time.Time) (Problem, error) {
	streams, err := table.Streams(tidal.Options{Tides: []tidal.Tide{tidal.ByHeights(highWater, high, low)}, Place: place})
	if err != nil {
		return Problem{}, err
	}
	if _, err := streams.StreamAt(angle.Position{}, at); err != nil {
		return Problem{}, err
	}
	rows := map[int]tidal.Hour{}
	var said []string
	for _, p := range table.Places {
		for _, h := range p.Hours {
			if p.Name == place {
				rows[h.Hour] = h
				said = append(said, fmt.Sprintf("%s %s, %.1f and %.1f", hourName(h.Hour), exact(h.Set), h.Springs.Knots(), h.Neaps.Knots()))
			}
		}
	}
	hour := int(math.Round(at.Sub(highWater).Hours()))
	return made(Problem{
		Topic: "tidal stream",
		Question: fmt.Sprintf("High water at %s is at %s, %.1f m, and low water %.1f m. The mean ranges are %.1f m at springs and %.1f m at neaps. At %s the stream (set, rate at springs and at neaps in knots) is: %s. What is its rate at %s, to a tenth of a knot?",
			table.Port, highWater.UTC().Format("1504"), high.Metres(), low.Metres(), table.SpringRange.Metres(), table.NeapRange.Metres(),
			place, strings.Join(said, "; "), at.UTC().Format("1504")),
		Form: Knots, Rounding: 0.1, minor: []Kind{RateOfDay, HourWrongWay, OtherHour, HeightLeftOut},
	}, func() working.Steps {
		sheet, err := streams.Working(angle.Position{}, at)
		if err != nil {
			return nil
		}
		return upTo(sheet.Steps, "rate")
	}, func(c *calculation) (float64, error) {
		h, part := hour, c.figure(Figure{Key: "range", What: "Range of the day in metres", Form: Miles, Rounding: 0.1}, (high-low).Metres())
		if c.does(HourWrongWay) {
			h = -h
		}
		if v, does := c.way(OtherHour, 2); does {
			h += []int{1, -1}[v]
		}
		if v, does := c.way(HeightLeftOut, 3); does && v == 2 { // that of low water
			part = high.Metres()
		}
		part = off(c, SumOff, 2, part, 1)
		row, has := rows[h]
		if !has {
			return math.NaN(), nil
		}
		part = (part - table.NeapRange.Metres()) / (table.SpringRange - table.NeapRange).Metres()
		springs, neaps := row.Springs.Knots(), row.Neaps.Knots()
		if v, does := c.way(RateOfDay, 4); does {
			part = []float64{1, 0, 0.5, 1 - part}[v]
		}
		return max(0, neaps+(springs-neaps)*part), nil
	})
}

// hourName names an hour by high water.
func hourName(hour int) string {
	if hour == 0 {
		return "HW"
	}
	return strings.Replace(fmt.Sprintf("HW%+d", hour), "-", "−", 1)
}
