package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// A passage is the work to be done, and done.
type passage struct {
	Date     time.Time `json:"date"`
	Invented []string  `json:"invented,omitempty"` // the files that are the example's own
	Legs     []leg     `json:"legs"`
	Bearings []sight   `json:"bearings"`
	Caution  string    `json:"caution"`

	chart     *variation.Chart
	deviation *deviation.Table
}

// A leg is a course to steer.
type leg struct {
	Name   string         `json:"leg"`
	At     angle.Position `json:"at"`
	Course course.Heading `json:"course"`
}

// A sight is an object's bearing.
type sight struct {
	Object  string         `json:"object"`
	At      angle.Position `json:"at"`
	Head    angle.Compass  `json:"head"`
	Bearing course.Bearing `json:"bearing"`
}

func (p *passage) with(at angle.Position) course.With {
	return course.With{Variation: p.chart, Deviation: p.deviation, At: at, On: p.Date}
}

func (p *passage) readLegs(r io.Reader) error {
	rows, err := record.Read(r, record.Columns{Required: []string{"leg", "at", "course"}})
	if err != nil {
		return err
	}
	for _, row := range rows {
		l := leg{Name: row.Text("leg")}
		if l.At, err = angle.ParsePosition(row.Text("at")); err != nil {
			return row.Fault("at", err)
		}
		if l.Course, err = convert(row.Text("course"), p.with(l.At)); err != nil {
			return row.Fault("course", err)
		}
		p.Legs = append(p.Legs, l)
	}
	return nil
}

// convert reads a course by the north it names.
func convert(text string, w course.With) (course.Heading, error) {
	switch north(text) {
	case 'M':
		m, err := angle.ParseMagnetic(text)
		if err != nil {
			return course.Heading{}, err
		}
		return course.FromMagnetic(m, w)
	case 'C':
		c, err := angle.ParseCompass(text)
		if err != nil {
			return course.Heading{}, err
		}
		return course.FromCompass(c, w)
	case 'T':
		t, err := angle.ParseTrue(text)
		if err != nil {
			return course.Heading{}, err
		}
		return course.FromTrue(t, w)
	}
	return course.Heading{}, fmt.Errorf("%q does not say which north: want T, M or C after the figures", text)
}

// north is the letter that ends a direction, or 0.
func north(text string) byte {
	if text == "" {
		return 0
	}
	letter := text[len(text)-1] &^ 0x20
	if strings.IndexByte("TMC", letter) < 0 {
		return 0
	}
	return letter
}

func (p *passage) readBearings(r io.Reader) error {
	rows, err := record.Read(r, record.Columns{Required: []string{"object", "bearing", "head", "at"}})
	if err != nil {
		return err
	}
	for _, row := range rows {
		s := sight{Object: row.Text("object")}
		if s.At, err = angle.ParsePosition(row.Text("at")); err != nil {
			return row.Fault("at", err)
		}
		if s.Head, err = angle.ParseCompass(row.Text("head")); err != nil {
			return row.Fault("head", err)
		}
		h, err := course.FromCompass(s.Head, p.with(s.At))
		if err != nil {
			return row.Fault("head", err)
		}
		if s.Bearing, err = bearing(row.Text("bearing"), h); err != nil {
			return row.Fault("bearing", err)
		}
		p.Bearings = append(p.Bearings, s)
	}
	return nil
}

// bearing reads a bearing by the north it names, or from the bow.
func bearing(text string, h course.Heading) (course.Bearing, error) {
	switch north(text) {
	case 'C':
		c, err := angle.ParseCompass(text)
		return h.BearingFromCompass(c), err
	case 'M':
		m, err := angle.ParseMagnetic(text)
		return h.BearingFromMagnetic(m), err
	}
	var r angle.Relative
	if err := r.UnmarshalText([]byte(text)); err == nil {
		return h.BearingFromRelative(r), nil
	}
	if north(text) == 'T' && !strings.HasSuffix(strings.ToLower(text), "port") {
		t, err := angle.ParseTrue(text)
		return h.BearingFromTrue(t), err
	}
	return course.Bearing{}, fmt.Errorf("%q: want a bearing that ends in C, M, T or R, or in a side: 35° to port", text)
}

// printText prints the workings one after the other, then what to steer and
// what to plot.
func (p *passage) printText(w io.Writer) error {
	var b strings.Builder
	fmt.Fprintf(&b, "Compass work for %s.\n", p.Date.Format("2 January 2006"))
	if len(p.Invented) > 0 {
		fmt.Fprintf(&b, "Invented places and figures: %s.\n", strings.Join(p.Invented, ", "))
	}
	sheet := func(title string, s working.Sheet) {
		s.Title, s.Caution = title, "" // the caution stands once, at the end
		fmt.Fprintf(&b, "\n%s", s)
	}
	for i, l := range p.Legs {
		sheet(fmt.Sprintf("Leg %d: %s, at %s", i+1, l.Name, l.At), l.Course.Working())
	}
	for _, s := range p.Bearings {
		sheet(fmt.Sprintf("Bearing of %s, heading %s, at %s", s.Object, s.Head, s.At), s.Bearing.Working())
	}
	fmt.Fprintf(&b, "\nTo steer\n")
	t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "  leg\ttrue\tvariation\tmagnetic\tdeviation\tcompass\t±")
	for _, l := range p.Legs {
		h := l.Course
		fmt.Fprintf(t, "  %s\t%.1f\t%.0v\t%.1f\t%.0v\t%.0f\t%s\n", l.Name, h.True(), h.Variation(), h.Magnetic(), h.Deviation(), h.Compass(), plusMinus(h.Uncertainty()))
	}
	t.Flush()
	fmt.Fprintf(&b, "\nTo plot\n")
	fmt.Fprintln(t, "  object\ttrue bearing\t±")
	for _, s := range p.Bearings {
		fmt.Fprintf(t, "  %s\t%.1f\t%s\n", s.Object, s.Bearing.True(), plusMinus(s.Bearing.Uncertainty()))
	}
	t.Flush()
	fmt.Fprintf(&b, "\n± is one standard uncertainty of the conversion; it leaves out how well the helm or the eye holds.\n%s\n", working.Caution)
	_, err := io.WriteString(w, b.String())
	return err
}

func plusMinus(u angle.Uncertainty) string {
	sigma, stated := u.Sigma()
	if !stated {
		return "not stated"
	}
	return string(sigma.AppendDegrees(nil, 1))
}
