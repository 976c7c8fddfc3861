// Command passage does a navigator's compass work for a passage: it works the plan
// leg by leg, from the track through the tidal stream, the leeway, the variation of
// the chart's rose and the compass's deviation to the course to steer and the time
// of arrival; then it turns a round of bearings taken under way into true bearings
// to plot. Every step is shown.
//
// Without flags it works the invented passage whose files lie beside it.
//
//	go run ./examples/passage
//	go run ./examples/passage -h # how to give it your own
//
// It shows packages [lubberline.example/course/passage] and
// [lubberline.example/course].
package main

import (
	"bytes"
	"embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

//go:embed roses.csv deviation.csv waypoints.csv streams.csv bearings.csv
var invented embed.FS

const about = `Usage: passage [flags]

Works a passage leg by leg from the chart to the helm, and turns bearings taken
under way into true bearings. Without flags it works an invented passage.

The files are CSV, with a line of column names, or JSON arrays of objects:

  roses      name, position, legend       Bay rose,47°06′N 019°02′W,7°20′W 2015 (12′E)
  deviation  compass (or magnetic), deviation[, uncertainty]       015,2°30′E,0.5°
  waypoints  position[, name, speed, sailing]       47°03.2′N 019°11.0′W,Ledge
  streams    set, rate: one line an hour from departure            225,1.2
  bearings   object, bearing, head, at    Head light,054.5°C,226°C,46°58′N 019°18′W

A stream sets toward its direction; a wind blows from its own. In place of the
waypoints, -gpx reads the first route of a GPX 1.1 file. Bearings end in C (the
steering compass), M (a hand-bearing compass clear of iron), T, or R (from the bow;
also: 35° to port). A cell with a comma in it stands in double quotes.

`

// tables are the files that the program reads.
var tables = []string{"roses", "deviation", "waypoints", "streams", "bearings"}

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// options are the flags as they were given.
type options struct {
	files                                          map[string]*string
	gpx, depart, wind, leeway, method, years, form string
	speed                                          float64
}

// run does the program's work and returns its exit status: 1 for a fault in the
// files, 2 for a fault in the flags.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("passage", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() {
		fmt.Fprint(stderr, about)
		flags.PrintDefaults()
	}
	o := options{files: map[string]*string{}}
	for _, name := range tables {
		leave := ""
		if name == "streams" || name == "bearings" {
			leave = "; none to leave them out"
		}
		o.files[name] = flags.String(name, "", "file of the "+name+" (default: the invented one"+leave+")")
	}
	flags.StringVar(&o.gpx, "gpx", "", "GPX 1.1 file whose first route gives the waypoints")
	flags.StringVar(&o.depart, "depart", "", "departure, UTC, as 2026-07-02T06:00:00Z (default: that one; with files of your own, the next full hour)")
	flags.Float64Var(&o.speed, "speed", 5.5, "speed through the water, in knots")
	flags.StringVar(&o.wind, "wind", "", "direction that the wind blows from, for leeway")
	flags.StringVar(&o.leeway, "leeway", "", "leeway, with -wind (default: 5° with a wind)")
	flags.StringVar(&o.method, "method", "nearest", "which rose: nearest, or blended between roses")
	flags.StringVar(&o.years, "years", "whole", "how to count the years since a rose: whole, or decimal")
	flags.StringVar(&o.form, "format", "text", "output: text, json, csv, geojson or gpx")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "passage: %q: files are given with flags; -h explains\n", flags.Arg(0))
		return 2
	}
	plan, chart, err := o.plan()
	if err == nil && writers[o.form] == nil {
		err = fmt.Errorf("-format %q: want text, json, csv, geojson or gpx", o.form)
	}
	if err != nil {
		fmt.Fprintln(stderr, "passage:", err)
		return 2
	}
	w := work{plan: plan}
	if err = o.read(&w, chart); err == nil {
		err = w.do()
	}
	if err == nil {
		err = writers[o.form](&w, stdout)
	}
	if err == nil && o.own() && len(w.Invented) > 0 {
		fmt.Fprintf(stderr, "passage: used with your own files, from this invented example: %s\n", strings.Join(w.Invented, ", "))
	}
	if err != nil {
		for line := range strings.Lines(err.Error() + "\n") {
			line = strings.TrimPrefix(strings.TrimSpace(line), "passage: ") // a PlanError begins so
			if line != "" {
				fmt.Fprintln(stderr, "passage:", line)
			}
		}
		return 1
	}
	return 0
}

// own reports whether any file is the reader's own.
func (o options) own() bool {
	for _, path := range o.files {
		if *path != "" && *path != "none" {
			return true
		}
	}
	return o.gpx != ""
}

// plan reads the flags that are no files.
func (o options) plan() (passage.Plan, func(*variation.Chart), error) {
	p := passage.Plan{Speed: sailing.Speed(o.speed) * sailing.Knot}
	if o.depart == "" {
		o.depart = "2026-07-02T06:00:00Z"
		if o.own() {
			o.depart = time.Now().UTC().Truncate(time.Hour).Add(time.Hour).Format(time.RFC3339)
		}
	}
	var err error
	if p.Depart, err = time.Parse(time.RFC3339, o.depart); err != nil {
		return p, nil, fmt.Errorf("-depart %q: want a date and time such as 2026-07-02T06:00:00Z", o.depart)
	}
	if !(o.speed > 0 && o.speed < 100) {
		return p, nil, fmt.Errorf("-speed %v: want knots above 0, below 100", o.speed)
	}
	if o.gpx != "" && *o.files["waypoints"] != "" {
		return p, nil, errors.New("-gpx and -waypoints: want one of them")
	}
	if o.wind == "" && o.leeway != "" {
		return p, nil, errors.New("-leeway needs -wind, the direction that the wind blows from")
	}
	if o.wind != "" {
		if o.leeway == "" {
			o.leeway = "5°"
		}
		from, err := angle.ParseTrue(o.wind)
		if err != nil {
			return p, nil, fmt.Errorf("-wind: %w", err)
		}
		p.Wind = &course.Wind{From: from}
		if p.Leeway, err = angle.Parse(o.leeway); err != nil {
			return p, nil, fmt.Errorf("-leeway: %w", err)
		}
	}
	method, ok := map[string]variation.Method{"nearest": variation.Nearest, "blended": variation.Blended}[o.method]
	if !ok {
		return p, nil, fmt.Errorf("-method %q: want nearest or blended", o.method)
	}
	count, ok := map[string]variation.YearCount{"whole": variation.WholeYears, "decimal": variation.DecimalYears}[o.years]
	if !ok {
		return p, nil, fmt.Errorf("-years %q: want whole or decimal", o.years)
	}
	return p, func(c *variation.Chart) { c.Method, c.Count = method, count }, nil
}

// read reads the files.
func (o options) read(w *work, chart func(*variation.Chart)) error {
	for _, name := range tables {
		if *o.files[name] == "" && (name != "waypoints" || o.gpx == "") {
			w.Invented = append(w.Invented, name)
		}
	}
	file := func(name string, reader func(io.Reader) error) error {
		data, err := open(name, *o.files[name])
		if err != nil {
			return err
		}
		if err := reader(bytes.NewReader(data)); err != nil {
			path := *o.files[name]
			if path == "" {
				path = name + ".csv"
			}
			return fmt.Errorf("%s: %w", path, err)
		}
		return nil
	}
	err := errors.Join(
		file("roses", func(r io.Reader) error {
			c, err := variation.ReadChart("the chart", r)
			if err == nil {
				chart(c)
				w.plan.Variation = c
			}
			return err
		}),
		file("deviation", func(r io.Reader) (err error) {
			w.plan.Deviation, err = deviation.ReadTable(r)
			return err
		}),
		o.readWaypoints(w, file),
	)
	if *o.files["streams"] != "none" {
		err = errors.Join(err, file("streams", func(r io.Reader) error {
			s, err := passage.ReadStreams(r)
			s.Start = w.plan.Depart
			w.plan.Streams = s
			return err
		}))
	}
	if err == nil && *o.files["bearings"] != "none" {
		err = file("bearings", w.readBearings)
	}
	return err
}

// open reads the reader's own file, or the invented one.
func open(name, path string) ([]byte, error) {
	if path == "" {
		return invented.ReadFile(name + ".csv")
	}
	return os.ReadFile(path)
}
