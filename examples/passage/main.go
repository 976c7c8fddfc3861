// Command passage does a navigator's compass work for a passage. It works the plan leg by
// leg. It starts from the track, and applies the tidal stream, the leeway, the variation of the
// chart's rose and the deviation of the compass. It prints the course to steer and the time of
// arrival. Then it turns bearings taken under way into true bearings to plot. It shows every step.
//
// Without flags it works the invented passage in the files of its folder.
//
//	go run ./examples/passage
//	go run ./examples/passage -h # how to give it your own
//
// It shows packages [lubberline.example/course/passage] and
// [lubberline.example/course].
package main

import (
	"embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/passage"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/examples/internal/help"
	"lubberline.example/variation"
)

//go:embed roses.csv deviation.csv waypoints.csv streams.csv bearings.csv
var invented embed.FS

const about = `Usage: passage [flags]

Works a passage leg by leg from the chart to the helm, and turns bearings taken
under way into true bearings. Without flags it works an invented passage. With
your own waypoints give your roses and deviation too. Streams and bearings are
then left out unless you give them.

The files are CSV, with a line of column names, or JSON arrays of objects:

  roses      name, position, legend[, language]    Bay rose,47°06′N 019°02′W,7°20′W 2015 (12′E)
  deviation  compass (or magnetic), deviation[, uncertainty]       015,2°30′E,0.5°
  waypoints  position[, name, speed, sailing]       47°03.2′N 019°11.0′W,Ledge
  streams    begins, set, rate: one line an hour    2026-07-02T06:00Z,225,1.2
  bearings   object, bearing, head, at    Head light,054.5°C,226°C,46°58′N 019°18′W

The set of a stream is the direction toward which it flows. The direction of a wind is
the one from which it blows. Instead of the waypoints, -gpx reads the first route of a
GPX file. The output of -format csv can be read with -waypoints. Bearings end in C (the
steering compass), M (a hand-bearing compass away from iron), T, or R (from the bow;
also: 35° to port). Put a cell with a comma in double quotes.

`

// tables are the files that the program reads.
var tables = []string{"roses", "deviation", "waypoints", "streams", "bearings"}

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// options are the flags as they were given.
type options struct {
	files                                          map[string]*string
	gpx, depart, wind, leeway, method, years, form string
	speed, apart, streamsStart                     string

	begin time.Time // streamsStart, read
	along sailing.Distance
}

// run does the program's work and returns its exit status: 1 for a fault in the
// files, 2 for a fault in the flags.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("passage", flag.ContinueOnError)
	o := options{files: map[string]*string{}}
	for _, name := range tables {
		leave := ""
		if name == "streams" || name == "bearings" {
			leave = ", or none with your own waypoints; none leaves them out"
		}
		o.files[name] = flags.String(name, "", "`file` of the "+name+" (default: the invented one"+leave+")")
	}
	flags.StringVar(&o.gpx, "gpx", "", "GPX `file` whose first route gives the waypoints")
	flags.StringVar(&o.depart, "depart", "", "`time` of departure with its zone, as 2026-07-02T08:00+02:00 (default: 2026-07-02T06:00Z; with your own waypoints, the next full hour)")
	flags.StringVar(&o.streamsStart, "streams-start", "", "`time` when the first stream begins, if the file of the streams has no column begins")
	flags.StringVar(&o.speed, "speed", "5.5 kn", "speed through the water; a bare number is in knots")
	flags.StringVar(&o.apart, "apart", "", "with -format gpx, maximum `distance` between points along a great circle, as \"60 M\" (default: none between)")
	flags.StringVar(&o.wind, "wind", "", "`direction` that the wind blows from, for leeway, as 225 or SW")
	flags.StringVar(&o.leeway, "leeway", "", "`angle` of leeway, with -wind (default: 5° with a wind)")
	flags.StringVar(&o.method, "method", "nearest", "which rose: nearest, or blended between roses")
	flags.StringVar(&o.years, "years", "whole", "how to count the years since a rose: whole, or decimal")
	flags.StringVar(&o.form, "format", "text", "output: text, json, csv, geojson or gpx")
	if status, goOn := help.Parse(flags, about, args, stderr); !goOn {
		return status
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "passage: %q: files are given with flags; -h explains\n", flags.Arg(0))
		return 2
	}
	plan, chart, err := o.plan()
	if err == nil && writers[o.form] == nil {
		err = fmt.Errorf("-format %q: give text, json, csv, geojson or gpx", o.form)
	}
	if err != nil {
		fmt.Fprintln(stderr, "passage:", err)
		return 2
	}
	w := work{plan: plan, along: o.along, stderr: stderr}
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

// own reports whether any file is the user's own.
func (o *options) own() bool {
	for _, path := range o.files {
		if *path != "" && *path != "none" {
			return true
		}
	}
	return o.gpx != ""
}

// ownWaypoints reports whether the waypoints are the user's own. Then the program uses no
// invented streams or bearings with them.
func (o *options) ownWaypoints() bool { return *o.files["waypoints"] != "" || o.gpx != "" }

// check refuses the user's own waypoints without roses or deviation. It leaves out streams and
// bearings that are not given.
func (o *options) check() error {
	if o.gpx != "" && *o.files["waypoints"] != "" {
		return errors.New("-gpx and -waypoints: give only one of them")
	}
	if streams := *o.files["streams"]; o.streamsStart != "" && (streams == "none" || streams == "" && o.ownWaypoints()) {
		return errors.New("-streams-start needs -streams, the file of the streams")
	}
	if !o.ownWaypoints() {
		return nil
	}
	for _, name := range tables {
		switch path := o.files[name]; {
		case *path != "" || name == "waypoints":
		case name == "streams" || name == "bearings":
			*path = "none"
		default:
			return fmt.Errorf("no -%s: with your own waypoints give your %[1]s too; the invented ones are of another coast", name)
		}
	}
	return nil
}

// moment reads a date and time with its zone.
func moment(flag, text string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		t, err = time.Parse("2006-01-02T15:04Z07:00", text)
	}
	if err != nil {
		return t, fmt.Errorf("-%s %q is not a date and time with its zone; write it as 2026-07-02T06:00Z or 2026-07-02T08:00+02:00", flag, text)
	}
	return t, nil
}

// withUnit reads a quantity. A bare number has the given unit.
func withUnit[Q any](flag, text, unit string, parse func(string) (Q, error)) (Q, error) {
	q, err := parse(text)
	if p, ok := errors.AsType[*angle.ParseError](err); ok && p.Kind == sailing.MissingUnit {
		q, err = parse(text + " " + unit)
	}
	if err != nil {
		err = fmt.Errorf("-%s: %w", flag, err)
	}
	return q, err
}

// plan reads the flags that are not files.
func (o *options) plan() (passage.Plan, func(*variation.Chart), error) {
	var p passage.Plan
	err := o.check()
	if err != nil {
		return p, nil, err
	}
	if o.depart == "" {
		o.depart = "2026-07-02T06:00:00Z"
		if o.ownWaypoints() {
			o.depart = time.Now().UTC().Truncate(time.Hour).Add(time.Hour).Format(time.RFC3339)
		}
	}
	if p.Depart, err = moment("depart", o.depart); err != nil {
		return p, nil, err
	}
	if o.streamsStart != "" {
		if o.begin, err = moment("streams-start", o.streamsStart); err != nil {
			return p, nil, err
		}
	}
	if p.Speed, err = withUnit("speed", o.speed, "kn", sailing.ParseSpeed); err != nil {
		return p, nil, err
	}
	if !(p.Speed > 0 && p.Speed < 100*sailing.Knot) {
		return p, nil, fmt.Errorf("-speed %s: give a speed above 0 and below 100 kn", o.speed)
	}
	if o.apart != "" {
		if o.along, err = withUnit("apart", o.apart, "M", sailing.ParseDistance); err != nil {
			return p, nil, err
		}
		if !(o.along >= sailing.NauticalMile) {
			return p, nil, fmt.Errorf("-apart %s: give 1 M or more", o.apart)
		}
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
		p.WindFrom = &from
		if p.Leeway, err = angle.Parse(o.leeway); err != nil {
			return p, nil, fmt.Errorf("-leeway: %w", err)
		}
		if p.Leeway < 0 || p.Leeway > 45*angle.Degree {
			return p, nil, fmt.Errorf("-leeway %s: give 0 to 45°; the side follows from the wind", o.leeway)
		}
	}
	method, ok := map[string]variation.Method{"nearest": variation.Nearest, "blended": variation.Blended}[o.method]
	if !ok {
		return p, nil, fmt.Errorf("-method %q: give nearest or blended", o.method)
	}
	count, ok := map[string]variation.YearCount{"whole": variation.WholeYears, "decimal": variation.DecimalYears}[o.years]
	if !ok {
		return p, nil, fmt.Errorf("-years %q: give whole or decimal", o.years)
	}
	return p, func(c *variation.Chart) { c.Method, c.Count = method, count }, nil
}

// read reads the files.
func (o *options) read(w *work, chart func(*variation.Chart)) error {
	for _, name := range tables {
		if *o.files[name] == "" && (name != "waypoints" || o.gpx == "") {
			w.Invented = append(w.Invented, name)
		}
	}
	file := func(name string, reader func(io.Reader) error) error {
		f, err := open(name, *o.files[name])
		if err != nil {
			return err
		}
		defer f.Close()
		if err := reader(f); err != nil {
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
			switch {
			case err != nil:
			case s.Start.IsZero() && o.begin.IsZero():
				err = errors.New("the streams have no times: add the column begins, or give -streams-start")
			case !s.Start.IsZero() && !o.begin.IsZero():
				err = errors.New("the streams have times of their own: leave -streams-start out")
			case s.Start.IsZero():
				s.Start = o.begin
			}
			w.plan.Streams = s
			return err
		}))
	}
	if err == nil && *o.files["bearings"] != "none" {
		err = file("bearings", w.readBearings)
	}
	return err
}

// open opens the user's own file, or the invented one.
func open(name, path string) (fs.File, error) {
	if path == "" {
		return invented.Open(name + ".csv")
	}
	return os.Open(path)
}
