package adjust

import (
	"fmt"
	"strings"
	"text/tabwriter"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/ask"
	"lubberline.example/deviation/internal/say"
)

// A Comparison is the deviation before and after adjusting, side by side.
type Comparison struct {
	Rows          []Compared  `json:"rows"`          // at equal steps of compass heading
	LargestBefore angle.Angle `json:"largestBefore"` // looked for on every whole degree, east positive
	LargestAfter  angle.Angle `json:"largestAfter"`
}

// A Compared is the deviation before and after on one heading: a row of a [Comparison].
type Compared struct {
	Compass angle.Compass       `json:"compass"`
	Before  deviation.Deviation `json:"before"`
	After   deviation.Deviation `json:"after"`
}

// Compare compares two sources of the same compass, at a step of compass heading such as 15°.
// The second may be a prediction of [After], or the swing after an adjuster's work.
//
// If the step is not from 1° to 45°, or the circle is not a multiple of it, it returns an
// [*angle.RangeError]. If a source is nil, it returns a
// [*lubberline.example/variation.MissingInputError]. Errors of a source are returned as they are.
func Compare(before, after deviation.Source, step angle.Angle) (*Comparison, error) {
	if step < angle.Degree || step > deviation.MaxGap || angle.Turn%step != 0 {
		return nil, &angle.RangeError{What: "step of a comparison in degrees", Value: step.Degrees(), Accepted: "1 to 45, a whole number of times in 360, such as 10, 15 or a point, 11°15′"}
	}
	if ask.IsNil(before) || ask.IsNil(after) {
		return nil, ask.ErrNoSource
	}
	c := &Comparison{}
	for h := angle.Angle(0); h < angle.Turn; h += step {
		on := angle.CompassFrom(h)
		b, err := before.OnCompass(on)
		if err != nil {
			return nil, err
		}
		a, err := after.OnCompass(on)
		if err != nil {
			return nil, err
		}
		c.Rows = append(c.Rows, Compared{on, b, a})
	}
	for _, of := range []struct {
		source deviation.Source
		to     *angle.Angle
	}{{before, &c.LargestBefore}, {after, &c.LargestAfter}} {
		d, _, err := largest(of.source)
		if err != nil {
			return nil, err
		}
		*of.to = d.Angle()
	}
	return c, nil
}

// largest returns the largest deviation of a source, looked for on every whole degree.
func largest(source deviation.Source) (most deviation.Deviation, on angle.Compass, err error) {
	for h := angle.Angle(0); h < angle.Turn; h += angle.Degree {
		c := angle.CompassFrom(h)
		d, err := source.OnCompass(c)
		if err != nil {
			return most, on, err
		}
		if d.Angle().Abs() > most.Angle().Abs() {
			most, on = d, c
		}
	}
	return most, on, nil
}

// String returns the comparison as a table, with [deviation.AdjusterCaution].
func (c *Comparison) String() string {
	if c == nil {
		c = &Comparison{}
	}
	var b strings.Builder
	b.WriteString("Before and after\n")
	var rows strings.Builder
	w := tabwriter.NewWriter(&rows, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(w, "\ncompass\tbefore\tafter\tchange\t\n")
	for _, r := range c.Rows {
		// The change is that of the printed figures, so that the row adds up.
		change := r.After.Angle().Round(angle.Degree/10) - r.Before.Angle().Round(angle.Degree/10)
		fmt.Fprintf(w, "%v\t%s\t%s\t%s\t\n", r.Compass, say.Tenths(r.Before.EastWest), say.Tenths(r.After.EastWest), say.Tenths(deviation.East(change).EastWest))
	}
	w.Flush() // a strings.Builder takes everything
	for line := range strings.Lines(rows.String()) {
		b.WriteString(strings.TrimRight(line, " \n") + "\n")
	}
	fmt.Fprintf(&b, "\nLargest: %s before, %s after\n%s\n", strings.TrimSpace(say.Tenths(deviation.East(c.LargestBefore).EastWest)), strings.TrimSpace(say.Tenths(deviation.East(c.LargestAfter).EastWest)), deviation.AdjusterCaution)
	return b.String()
}
