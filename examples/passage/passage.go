package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"text/tabwriter"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/gpx"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
)

// work is the plan and its results.
type work struct {
	Invented []string         // the files that are the example's own
	Passage  *passage.Passage // worked
	Bearings []sight

	plan   passage.Plan
	along  sailing.Distance // between points along a great circle, in a route
	stderr io.Writer
}

// A sight is an object's bearing.
type sight struct {
	Object  string         `json:"object"`
	At      angle.Position `json:"at"`
	Head    angle.Compass  `json:"head"`
	Bearing course.Bearing `json:"bearing"`
}

// do works the plan.
func (w *work) do() (err error) {
	w.Passage, err = passage.New(w.plan)
	return err
}

// readWaypoints reads the waypoints from their table or from a GPX file.
func (o *options) readWaypoints(w *work, file func(string, func(io.Reader) error) error) error {
	w.plan.Name = "Passage"
	if o.gpx == "" {
		return file("waypoints", func(r io.Reader) (err error) {
			w.plan.Waypoints, err = passage.ReadWaypoints(r)
			if err == nil && len(w.plan.Waypoints) < 2 {
				err = errors.New("only one waypoint: give two or more")
			}
			return err
		})
	}
	f, err := os.Open(o.gpx)
	if err != nil {
		return err
	}
	defer f.Close()
	document, err := gpx.Read(f)
	if err != nil {
		return fmt.Errorf("%s: %w", o.gpx, err)
	}
	if len(document.Routes) == 0 {
		return fmt.Errorf("%s: no route in it; it has %d waypoints outside routes and %d tracks: put the waypoints into a route, an element rte", o.gpx, len(document.Waypoints), document.PassedOver["trk"])
	}
	if n := len(document.Routes[0].Points); n < 2 {
		return fmt.Errorf("%s: the first route has fewer than two waypoints: give two or more", o.gpx)
	}
	if len(document.Routes) > 1 {
		fmt.Fprintf(w.stderr, "passage: %s: the first of %d routes is worked\n", o.gpx, len(document.Routes))
	}
	for _, warning := range document.Warnings {
		fmt.Fprintf(w.stderr, "passage: %s: %v\n", o.gpx, warning)
	}
	w.plan.Waypoints = passage.WaypointsOf(document.Routes[0])
	if name := document.Routes[0].Name; name != "" {
		w.plan.Name = name
	}
	return nil
}

// readBearings reads the bearings and converts them.
func (w *work) readBearings(r io.Reader) error {
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
		h, err := course.FromCompass(s.Head, course.With{Variation: w.plan.Variation, Deviation: w.plan.Deviation, At: &s.At, On: w.plan.Depart})
		if err != nil {
			return row.Fault("head", err)
		}
		if s.Bearing, err = bearing(row.Text("bearing"), h); err != nil {
			return row.Fault("bearing", err)
		}
		w.Bearings = append(w.Bearings, s)
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
	err := r.UnmarshalText([]byte(text))
	if err == nil {
		return h.BearingFromRelative(r), nil
	}
	if north(text) == 'R' || strings.Contains(text, " to ") {
		return course.Bearing{}, err
	}
	if north(text) == 'T' && !strings.HasSuffix(strings.ToLower(text), "port") {
		t, err := angle.ParseTrue(text)
		return h.BearingFromTrue(t), err
	}
	return course.Bearing{}, fmt.Errorf("%q is not a bearing; end it in C, M, T or R, or in a side: 35° to port", text)
}

// north is the letter at the end of a direction, or 0.
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

// writers are the forms of output.
var writers = map[string]func(*work, io.Writer) error{
	"text":    (*work).writeText,
	"json":    (*work).writeJSON,
	"csv":     func(w *work, out io.Writer) error { return w.Passage.WriteCSV(out) },
	"geojson": func(w *work, out io.Writer) error { return w.Passage.WriteGeoJSON(out) },
	"gpx":     (*work).writeGPX,
}

// writeGPX writes the route, and prints what the route can't hold.
func (w *work) writeGPX(out io.Writer) error {
	route, lost := w.Passage.Route(w.along)
	for _, warning := range lost {
		message := warning.Message
		if w.along == 0 {
			message = strings.Replace(message, "add points along it", "give -apart for points along it", 1)
		}
		fmt.Fprintln(w.stderr, "passage:", message)
	}
	return gpx.Write(out, &gpx.Document{Routes: []gpx.Route{route}})
}

// writeJSON writes the whole work as JSON.
func (w *work) writeJSON(out io.Writer) error {
	e := json.NewEncoder(out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(struct {
		Invented []string         `json:"invented,omitempty"`
		Passage  *passage.Passage `json:"passage"`
		Bearings []sight          `json:"bearings"`
		Caution  string           `json:"caution"`
	}{w.Invented, w.Passage, w.Bearings, working.Caution})
}

// writeText prints the workings one after the other, then the bearings to plot and the courses
// to steer.
func (w *work) writeText(out io.Writer) error {
	var b strings.Builder
	fmt.Fprintf(&b, "Compass work for %s.\n", w.plan.Depart.Format("2 January 2006"))
	if len(w.Invented) > 0 {
		fmt.Fprintf(&b, "Invented places and figures: %s.\n", strings.Join(w.Invented, ", "))
	}
	sheet := func(title string, s working.Sheet) {
		s.Title, s.Caution = title, "" // the caution stands once, at the end
		fmt.Fprintf(&b, "\n%s", s)
	}
	for _, l := range w.Passage.Legs {
		s := l.Working()
		sheet(s.Title, s)
	}
	for _, s := range w.Bearings {
		sheet(fmt.Sprintf("Bearing of %s, heading %s, at %s", s.Object, s.Head, s.At), s.Bearing.Working())
	}
	if len(w.Bearings) > 0 {
		fmt.Fprintf(&b, "\nTo plot\n")
		t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
		fmt.Fprintln(t, "  object\ttrue bearing\t±")
		for _, s := range w.Bearings {
			fmt.Fprintf(t, "  %s\t%.1f\t%s\n", s.Object, s.Bearing.True(), plusMinus(s.Bearing.Uncertainty()))
		}
		t.Flush() // a strings.Builder takes everything
	}
	fmt.Fprintf(&b, "\n%s", w.Passage)
	_, err := io.WriteString(out, b.String())
	return err
}

// plusMinus prints an uncertainty to a tenth of a degree.
func plusMinus(u angle.Uncertainty) string {
	sigma, stated := u.Sigma()
	if !stated {
		return "not stated"
	}
	return fmt.Sprintf("%.1f", sigma)
}
