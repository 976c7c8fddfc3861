package exercise

import (
	"fmt"
	"strconv"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/page"
	"lubberline.example/course/sailing"
	"lubberline.example/course/tidal"
	"lubberline.example/deviation"
)

// side is the number of rows of a card that stand below each other.
const side = 6

// CardTable returns a deviation card in columns side by side, to save space.
func CardTable(card *deviation.Table) page.Table {
	t := page.Table{Caption: "Deviation card"}
	if card == nil {
		return t
	}
	by := "Compass"
	if card.By() == deviation.ByMagnetic {
		by = "Magnetic"
	}
	entries := card.Entries()
	for i, e := range entries {
		head := e.Compass.String()
		if card.By() == deviation.ByMagnetic {
			head = e.Magnetic.String()
		}
		if i < side {
			t.Rows = append(t.Rows, nil)
		}
		if i%side == 0 {
			t.Columns = append(t.Columns, by, "Dev.")
		}
		t.Rows[i%side] = append(t.Rows[i%side], head, named(e.Deviation.Angle()))
	}
	return t
}

// named prints a deviation with its name. Zero has none.
func named(a angle.Angle) string {
	if a == 0 {
		return "0°"
	}
	return a.EastWestString()
}

// streamTable returns the tidal streams of a table, hour by hour, with the places side by side.
// The set is true; the rates are in knots, at springs and at neaps.
func streamTable(streams tidal.Table) page.Table {
	t := page.Table{Caption: "Tidal streams", Columns: []string{"Hour"}}
	if streams.Port != "" {
		t.Caption += ", hours from HW at " + streams.Port
	}
	if streams.SpringRange > 0 {
		t.Caption += fmt.Sprintf("; ranges %.1f m at springs, %.1f m at neaps", streams.SpringRange.Metres(), streams.NeapRange.Metres())
	}
	for _, place := range streams.Places {
		t.Columns = append(t.Columns, place.Name, "Sp.", "Np.")
	}
	for hour := -6; hour <= 6; hour++ {
		row, has := []string{hourName(hour)}, false
		for _, place := range streams.Places {
			cells := []string{"", "", ""}
			for _, h := range place.Hours {
				if h.Hour == hour {
					cells, has = cellsOf(h), true
				}
			}
			row = append(row, cells...)
		}
		if has {
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// cellsOf returns the set and the rates of an hour. Slack water has no set.
func cellsOf(h tidal.Hour) []string {
	if h.Springs == 0 && h.Neaps == 0 {
		return []string{"slack", "", ""}
	}
	return []string{h.Set.String(), tenth(h.Springs), tenth(h.Neaps)}
}

// tenth prints a speed in tenths of a knot.
func tenth(s sailing.Speed) string { return strconv.FormatFloat(s.Knots(), 'f', 1, 64) }

// hourName prints an hour from high water: −3, HW, +2.
func hourName(hour int) string {
	if hour == 0 {
		return "HW"
	}
	if hour < 0 {
		return fmt.Sprintf("−%d", -hour)
	}
	return fmt.Sprintf("+%d", hour)
}

// clock prints a time of the day in four figures.
func clock(t time.Time) string { return t.Format("1504") }
