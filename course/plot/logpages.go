package plot

import (
	"fmt"
	"math"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/course/decklog"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
)

// Measures of a page of A4 lying, mm.
const (
	pageWidth   = 270.0
	narrowWidth = 91.4
	pageLine    = 8.0 // the height of a line
	pageEdge    = 0.3 // so that no line is cut
)

// A form is a page ruled to be written on.
type form struct {
	title, about string
	labels       []string // of the blanks at the head
	blanks       []string
	wide         []float64 // the widths of the blanks
	columns      []string
	widths       []float64
	rows         [][]string
	least        int      // number of lines, with the blank ones
	rules        []string // at the foot
	below        []string // labels of boxes below the table, to write in
	boxes        []float64
}

// draw draws a form. If it is narrow, the tables stand as blocks.
func (f form) draw(narrow bool) *drawing.Sheet {
	width, deep := pageWidth, 26.0 // of the boxes below
	if narrow {
		width, deep, f.least = narrowWidth, pageLine, 0
	}
	var described []string
	for _, row := range f.rows {
		if text := strings.Join(strings.Fields(strings.Join(row, " ")), " "); text != "" {
			described = append(described, text)
		}
	}
	s := drawing.New(width+2*pageEdge, 0, f.title, fmt.Sprintf("%s, ruled, with these columns: %s. Lines filled in: %d. %s",
		f.about, strings.Join(f.columns, ", "), len(f.rows), strings.Join(described, "; ")))
	s.Caution(working.Caution)
	table := append([][]string{f.columns}, f.rows...)
	for len(table) < 1+max(f.least, 1) {
		table = append(table, nil)
	}
	head := s.Ruled(drawing.At(pageEdge, pageEdge), pageLine, f.wide, f.labels, f.blanks)
	bottom := s.Ruled(drawing.At(pageEdge, head.Bottom+3), pageLine, f.widths, table...).Bottom
	if len(f.below) > 0 {
		bottom = s.Ruled(drawing.At(pageEdge, bottom+2.5), deep, f.boxes, f.below, nil).Bottom
	}
	for _, line := range f.rules {
		for _, part := range drawing.Wrapped(line, width/drawing.Letters) {
			bottom += 4
			s.Text(drawing.At(pageEdge, bottom), "", part)
		}
	}
	s.SetHeight(bottom + 1)
	return s
}

// A Page says how [DeckLog] and [PassagePlan] draw a page to write on. The zero value is good.
type Page struct {
	Vessel string // its name; may be empty

	// Narrow makes the drawing 92 mm wide, so that a figure can be read on a small screen. Each
	// row is then a block, without what is blank. If false, the paper is A4 or larger.
	Narrow bool
}

// DeckLog draws a page of a deck log, ruled to be written on by hand, and fills in the rows of a
// reckoning. Without rows the page is blank. A page of A4 has room for 16 rows; with more rows the
// paper is larger.
func DeckLog(r decklog.Reckoning, page Page) *drawing.Sheet {
	f := form{
		title: "Deck log", about: "A page of a deck log",
		labels: []string{"Vessel", "Date", "From", "To", "Deviation card of", "Page"},
		wide:   []float64{60, 40, 55, 55, 40, 20},
		columns: []string{"Time, UTC", "Log", "Course by compass", "Compass error", "Course true", "Wind, from", "Leeway", "Run through water, M",
			"Stream: set, rate kn", "EP, or DR", "95 %, M", "Fix", "Remarks"},
		widths: []float64{16, 13, 18, 16, 15, 14, 14, 17, 20, 27, 15, 33, 52},
		least:  16,
		rules: []string{
			"A course holds from its time on; a run and a stream are those of the time before. Wind is named by where it comes from, a stream by where it flows to.",
			"Common practice: write at each change of course or speed, and at least once an hour.",
		},
	}
	date := ""
	for i, p := range r.Points {
		if t := p.Time.UTC(); i == 0 && !p.Time.IsZero() {
			date = t.Format("2 January 2006")
		}
		before := p.Time
		if i > 0 {
			before = r.Points[i-1].Time
		}
		var next *decklog.Point
		if i+1 < len(r.Points) {
			next = &r.Points[i+1]
		}
		f.rows = append(f.rows, deckRow(p, next, before))
	}
	if factor := factorOf(r.Points); factor != 1 {
		f.rules[1] += fmt.Sprintf(" Run through water: difference of the log × %.3f, the factor of the log.", factor)
	}
	f.blanks = []string{working.OneLine(page.Vessel), date, "", "", "", ""}
	if vessel := drawing.Shortened(page.Vessel, 40); vessel != "" {
		f.title += ", " + vessel
	}
	return f.draw(page.Narrow)
}

// factorOf returns the factor of the log of a reckoning, to a thousandth: the ratio of the longest
// run to the difference of its readings. It is 1 if no run is by log.
func factorOf(points []decklog.Point) float64 {
	factor, longest := 1.0, sailing.Distance(0)
	for i := 1; i < len(points); i++ {
		begin, end := points[i-1].Entry.Log, points[i].Entry.Log
		if reset := points[i-1].Entry.Reset; reset != nil {
			begin = reset
		}
		if begin == nil || end == nil {
			continue
		}
		if by := *end - *begin; by > longest {
			longest, factor = by, math.Round(1000*float64(points[i].Distance/by))/1000
		}
	}
	return factor
}

// deckRow returns the row of a point, after a time before. The course that holds from it on is that
// of the next run.
func deckRow(p decklog.Point, next *decklog.Point, before time.Time) []string {
	e := p.Entry
	var log, compass, compassError, direction, wind, leeway, run, flow, position, ellipse, fix string
	if e.Log != nil {
		log = fmt.Sprintf("%.1f", e.Log.NauticalMiles())
	}
	if e.Reset != nil {
		log += fmt.Sprintf(" set to %.1f", e.Reset.NauticalMiles())
	}
	if e.Compass != nil {
		compass = fmt.Sprintf("%.0f", *e.Compass)
	}
	if e.True != nil {
		direction = fmt.Sprintf("%.0f", *e.True)
	}
	if next != nil && next.Run != nil {
		direction = fmt.Sprintf("%.1f", next.Run.Heading)
		if e.Compass != nil {
			compassError = angle.EastWestFrom((next.Run.Heading.FromNorth() - e.Compass.FromNorth()).Round(angle.Degree / 10)).String()
		}
	}
	if e.WindFrom != nil {
		wind = fmt.Sprintf("%.0f", *e.WindFrom)
	}
	if e.Leeway != nil {
		leeway = fmt.Sprintf("%.0f", *e.Leeway)
	}
	if p.Run != nil {
		run = fmt.Sprintf("%.1f", p.Distance.NauticalMiles())
		if s := p.Run.Stream; s.Rate > 0 {
			flow = fmt.Sprintf("%.0f %.1f", s.Set, s.Rate.Knots())
		}
		position = fmt.Sprintf("%.1v", p.EP.Position)
		if e, err := p.EP.Covariance.Ellipse(0.95); err == nil {
			ellipse = fmt.Sprintf("±%.1f", e.SemiMajor.NauticalMiles())
		}
	}
	if e.Fix != nil {
		fix = fmt.Sprintf("%.1v", *e.Fix)
		if d := p.SetAndDrift; d != nil && d.Drift.Distance > 0 {
			fix += fmt.Sprintf("; set %.0f %.1f kn", d.Stream.Set, d.Stream.Rate.Knots())
		}
	}
	return []string{clockAfter(before, p.Time), log, compass, compassError, direction, wind, leeway, run, flow, position, ellipse, fix, e.Remarks}
}

// clockAfter returns a time in four figures, with its date if that is another than a time before.
func clockAfter(before, t time.Time) string {
	const day = "2 Jan"
	switch {
	case t.IsZero():
		return ""
	case before.UTC().Round(time.Minute).Format(day) != t.UTC().Round(time.Minute).Format(day):
		return t.UTC().Round(time.Minute).Format(day) + " " + clock(t)
	}
	return clock(t)
}

// PassagePlan draws a form for a passage plan, ruled to be written on by hand, and fills in the legs
// of a passage. If the passage is nil, the form is blank. A page of A4 has room for 12 legs; with
// more legs the paper is larger.
func PassagePlan(p *passage.Passage, page Page) *drawing.Sheet {
	f := form{
		title: "Passage plan", about: "A form for a passage plan",
		labels: []string{"Vessel", "From", "To", "Departure, UTC", "Arrival, UTC", "Distance, M"},
		wide:   []float64{55, 55, 55, 40, 40, 25},
		columns: []string{"Leg", "To", "Position", "Track", "M", "Stream: set, rate kn", "Leeway", "Heading true", "Variation", "Heading magnetic", "Deviation", "Compass course",
			"Speed made good", "Time", "ETA, UTC", "Marks, dangers, clearing lines"},
		widths: []float64{8, 28, 22, 14, 11, 19, 16, 15, 16, 17, 17, 16, 14, 13, 13, 31},
		least:  12,
		below:  []string{"Tides: high and low water, heights", "Weather and its source", "Dangers; least depth and when", "Shelter on the way, and the last time to turn back"},
		boxes:  []float64{67.5, 67.5, 67.5, 67.5},
		rules:  []string{"Variation and deviation west (W) are added to go from true to compass, east (E) subtracted. Check the plan by the latest charts, notices and tide tables."},
	}
	f.blanks = []string{working.OneLine(page.Vessel), "", "", "", "", ""}
	if p != nil && len(p.Legs) > 0 {
		first, last := p.Legs[0], p.Legs[len(p.Legs)-1]
		f.blanks = []string{working.OneLine(page.Vessel), first.From.String(), last.To.String(), first.Begins.UTC().Round(time.Minute).Format("2 Jan 2006 1504"), p.Arrive.UTC().Round(time.Minute).Format("2 Jan 2006 1504"), fmt.Sprintf("%.1f", p.Distance.NauticalMiles())}
		for i, l := range p.Legs {
			f.rows = append(f.rows, planRow(i+1, l))
		}
	}
	if vessel := drawing.Shortened(page.Vessel, 40); vessel != "" {
		f.title += ", " + vessel
	}
	return f.draw(page.Narrow)
}

// planRow returns the row of a leg.
func planRow(n int, l passage.Leg) []string {
	h := l.Heading
	leeway := ""
	if l.Leeway.Angle != 0 {
		leeway = fmt.Sprintf("%.0f wind %s", l.Leeway.Angle, l.Leeway.WindSide)
	}
	name := l.To.String()
	if l.To.Name == "" {
		name = ""
	}
	took := l.Ends.Sub(l.Begins).Round(time.Minute)
	return []string{fmt.Sprint(n), name, fmt.Sprintf("%.1v", l.To.Position), fmt.Sprintf("%.0f", l.Track), fmt.Sprintf("%.1f", l.Distance.NauticalMiles()), meanStream(l), leeway,
		fmt.Sprintf("%.1f", h.True()), angle.EastWestFrom(h.Variation().Angle().Round(angle.Minute)).String(), fmt.Sprintf("%.1f", h.Magnetic()), angle.EastWestFrom(h.Deviation().Angle().Round(angle.Minute)).String(), fmt.Sprintf("%.0f", h.Compass()),
		fmt.Sprintf("%.1f kn", l.Ground.Speed.Knots()), fmt.Sprintf("%d h %02d", int(took.Hours()), int(took.Minutes())%60), clockAfter(l.Begins, l.Ends), ""}
}

// meanStream returns the mean stream of a leg: the motion over the ground without that through the
// water. It is empty in slack water.
func meanStream(l passage.Leg) string {
	sine, cosine := l.Track.FromNorth().SinCos()
	waterSine, waterCosine := l.Water.Course.FromNorth().SinCos()
	ground, water := l.Ground.Speed.Knots(), l.Water.Speed.Knots()
	east, north := ground*sine-water*waterSine, ground*cosine-water*waterCosine
	set, err := angle.Radians(math.Atan2(east, north))
	if rate := math.Hypot(east, north); err == nil && rate >= 0.05 && l.Track == l.Final {
		return fmt.Sprintf("%.0f %.1f", angle.TrueFrom(set), rate)
	}
	return ""
}
