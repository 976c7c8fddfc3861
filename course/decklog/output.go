package decklog

import (
	"encoding/csv"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"text/tabwriter"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// DaysWork returns the steps of the day's work: the sums from the first row to the last.
func (r Reckoning) DaysWork() working.Sheet {
	if len(r.Points) == 0 {
		return working.Sheet{}
	}
	first, last := r.Points[0], r.Points[len(r.Points)-1]
	place := func(p Point) angle.Position {
		if p.Fix != nil {
			return p.Fix.Position
		}
		return p.EP.Position
	}
	var logged sailing.Distance
	var drift *stream.SetAndDrift
	for _, p := range r.Points {
		logged += p.Distance
		if p.SetAndDrift != nil {
			drift = p.SetAndDrift
		}
	}
	lasts := last.Time.Sub(first.Time)
	made := sailing.WGS84().Rhumb(place(first), place(last))
	distance := func(key, what string, d sailing.Distance) working.Step {
		return working.Step{Key: key, What: what, Value: d.String(), Number: d.NauticalMiles(), Unit: "nautical miles"}
	}
	steps := working.Steps{
		{Key: "from", What: "Departure", Value: place(first).String()},
		{Key: "to", What: "Arrival", Value: place(last).String()},
		distance("logged", "Distance by log", logged).Because("log-with-factor", "with the factor of the log"),
	}
	if made.Distance > 0 { // a day that ends where it began has no course
		steps = append(steps, working.Direction("course made good", "Course made good", made.Course))
	}
	steps = append(steps, distance("distance made good", "Distance made good", made.Distance))
	if lasts > 0 {
		v := sailing.Speed(float64(made.Distance) / lasts.Seconds())
		steps = append(steps, working.Step{Key: "speed made good", What: "Speed made good", Value: v.String(), Number: v.Knots(), Unit: "knots"}.Because("log-in-time", "in %.1f hours", lasts.Hours()))
	}
	if drift != nil {
		steps = append(steps, working.Step{Key: "set and rate", What: "Set and rate", Value: drift.Stream.String(), Number: drift.Stream.Rate.Knots(), Unit: "knots"}.Because("log-last-fix", "at the last fix, from the reckoning without stream"))
	}
	return working.Sheet{Steps: steps, Warnings: r.Warnings, Caution: working.Caution}
}

// row returns the cells of a point.
func (p Point) row() []string {
	out := []string{p.Time.UTC().Format(layout), "", "", p.DR.String(), p.EP.Position.String(), "", "", "", p.Entry.Remarks}
	if p.Run != nil {
		out[1] = p.Distance.String()
		out[2] = fmt.Sprintf("%.1f", p.Run.Heading)
	}
	if e, err := p.EP.Covariance.Ellipse(0.95); err == nil {
		out[5] = e.String()
	}
	if p.Fix != nil {
		out[6] = p.Fix.Position.String()
	}
	if p.SetAndDrift != nil {
		out[7] = p.SetAndDrift.Stream.String()
	}
	return out
}

// columns are the columns of a reckoning as text.
var columns = []string{"time", "run", "heading", "dr", "ep", "ellipse", "fix", "set_and_rate", "remarks"}

// String returns the reckoning as a table, with the warnings and the caution. The ellipses hold
// the estimated position with a probability of 95 %.
func (r Reckoning) String() string {
	var b strings.Builder
	t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "time\trun\theading\tDR\tEP\tellipse\tfix\tset and rate\tremarks")
	for _, p := range r.Points {
		cells := p.row()
		for i := range cells {
			cells[i] = working.OneLine(cells[i])
		}
		fmt.Fprintln(t, strings.Join(cells, "\t"))
	}
	t.Flush() // a strings.Builder takes everything
	lines := strings.Split(b.String(), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	b.Reset()
	b.WriteString(strings.Join(lines, "\n"))
	for _, w := range r.Warnings {
		fmt.Fprintf(&b, "Warning: %s\n", working.OneLine(w.Message))
	}
	fmt.Fprintln(&b, working.Caution)
	return b.String()
}

// WriteCSV writes the table of the reckoning as printed. If w is nil, it returns a
// [*fs.PathError]; it returns the writer's error unchanged.
func (r Reckoning) WriteCSV(w io.Writer) error {
	if w == nil {
		return &fs.PathError{Op: "write", Path: "a reckoning to a nil writer", Err: fs.ErrInvalid}
	}
	var b strings.Builder
	out := csv.NewWriter(&b)
	out.Write(columns) // a strings.Builder takes everything
	for _, p := range r.Points {
		cells := p.row()
		cells[8] = record.Cell(cells[8])
		out.Write(cells)
	}
	out.Flush()
	_, err := io.WriteString(w, b.String())
	return err
}
