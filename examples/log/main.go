// Command log reckons a deck log. It finds the factor of the log on a measured mile, takes the
// tidal streams from a printed table, and prints the DR and EP of each row with their ellipses,
// the set and rate at each fix, and the day's work.
//
// Without flags it reckons the invented log in the files of its folder.
//
//	go run ./examples/log
//	go run ./examples/log -h # how to give it your own
//
// It shows packages [lubberline.example/course/decklog] and [lubberline.example/course/tidal].
package main

import (
	"bytes"
	"cmp"
	"embed"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/course/decklog"
	"lubberline.example/course/sailing"
	"lubberline.example/course/tidal"
	"lubberline.example/deviation"
	"lubberline.example/examples/internal/help"
	"lubberline.example/examples/internal/inputs"
	"lubberline.example/variation"
)

//go:embed log.csv deviation.csv roses.csv tidal.csv mile.csv
var invented embed.FS

const about = `Usage: log [flags]

Reckons a deck log: DR and EP for each row, with the 95 % ellipse, and the set and
rate at each fix. Without flags it reckons an invented log. With your own log give
your roses and deviation too; tidal streams and the mile are then left out unless
you give them. The files are CSV, with a line of column names, or JSON arrays of
objects:

  log        time[, log, reset, compass, true, speed, leeway, wind, set, rate, fix, fix_uncertainty, remarks]
  roses      name, position, legend[, language]    Bay rose,47°06′N 019°02′W,7°20′W 2015 (12′E)
  deviation  compass (or magnetic), deviation[, uncertainty]       015,2°30′E,0.5°
  tidal      place, hour, set, springs, neaps[, position, port, spring_range, neap_range]
  mile       course, seconds, log: one line for each run over one mile, there and back

-log also reads what -format json writes, with all its files and flags.
A course, leeway, wind and stream of a row are those of the run from it to the next row.
An empty course, leeway or wind repeats the row above; an empty set and rate do not. The
wind is named by the direction from which it blows, a set by that toward which it flows.
With your own tidal table give -place, -hw and -heights too.

`

// tables are the files that the program reads.
var tables = []string{"log", "roses", "deviation", "tidal", "mile"}

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// options are the flags.
type options struct {
	files                    map[string]*string
	place, hw, heights, form string
	byVectors                bool
	given                    map[string]bool
	recalled                 map[string]json.RawMessage // files in the output of -format json
}

// An answer is what the program prints.
type answer struct {
	inputs inputsOf

	Mile      *working.Sheet    `json:"mile,omitempty"`
	Factor    decklog.Factor    `json:"factor"`
	Reckoning decklog.Reckoning `json:"reckoning"`
	DaysWork  working.Sheet     `json:"daysWork"`
	Tides     []working.Warning `json:"tides,omitempty"` // warnings about the tidal streams
}

// run does the work and returns the exit status: 1 for a fault in the files, 2 for one in the
// flags.
func run(args []string, stdout, stderr io.Writer) int {
	o := options{files: map[string]*string{}, given: map[string]bool{}}
	flags := flag.NewFlagSet("log", flag.ContinueOnError)
	for _, name := range tables {
		o.files[name] = flags.String(name, "", "`file` of the "+name+" (default: the invented one)")
	}
	flags.StringVar(&o.place, "place", "A", "place of the tidal table, or nearest")
	flags.StringVar(&o.hw, "hw", "2026-07-02T05:10Z", "`times` of high water at the standard port, separated by commas")
	flags.StringVar(&o.heights, "heights", "4.5 m, 1.1 m", "heights of high and low water of the day")
	flags.BoolVar(&o.byVectors, "by-vectors", false, "interpolate the tidal streams between the hours")
	flags.StringVar(&o.form, "format", "text", "output: text, json or csv")
	if status, goOn := help.Parse(flags, about, args, stderr); !goOn {
		return status
	}
	flags.Visit(func(f *flag.Flag) { o.given[f.Name] = true })
	if err := o.recall(); err != nil {
		fmt.Fprintln(stderr, "log:", err)
		return 1
	}
	tides, err := o.tides()
	switch {
	case err != nil:
	case flags.NArg() > 0:
		err = fmt.Errorf("%q: files are given with flags; -h explains", flags.Arg(0))
	case o.form != "text" && o.form != "json" && o.form != "csv":
		err = fmt.Errorf("-format %q: give text, json or csv", o.form)
	case *o.files["log"] != "" && o.recalled == nil && (*o.files["roses"] == "" || *o.files["deviation"] == ""):
		err = errors.New("-log: with your own log give your -roses and -deviation too; the invented ones are of another coast")
	default:
		err = o.checkTidal()
	}
	if err != nil {
		fmt.Fprintln(stderr, "log:", err)
		return 2
	}
	a, err := o.work(tides)
	if err == nil {
		err = a.print(stdout, o.form)
	}
	if err != nil {
		fmt.Fprintln(stderr, "log:", err)
		return 1
	}
	return 0
}

// checkTidal refuses the invented tide with the user's own tidal table, and flags of a table that
// is not used.
func (o options) checkTidal() error {
	for _, name := range []string{"place", "hw", "heights", "by-vectors"} {
		switch {
		case o.given[name] && !o.use("tidal"):
			return fmt.Errorf("-%s is of a tidal table: give -tidal too", name)
		case *o.files["tidal"] != "" && o.recalled == nil && !o.given[name] && name != "by-vectors":
			return fmt.Errorf("-%s missing: with your own -tidal give -place, -hw and -heights too", name)
		}
	}
	return nil
}

// tides reads the high waters and the heights.
func (o options) tides() ([]tidal.Tide, error) {
	high, low, ok := strings.Cut(o.heights, ",")
	h, err1 := sailing.ParseDistance(high)
	l, err2 := sailing.ParseDistance(low)
	if !ok || err1 != nil || err2 != nil {
		return nil, fmt.Errorf("-heights %q: give high and low water with their unit, such as \"4.5 m, 1.1 m\"", o.heights)
	}
	var out []tidal.Tide
	for text := range strings.SplitSeq(o.hw, ",") {
		t, err := time.Parse("2006-01-02T15:04Z07:00", strings.TrimSpace(text))
		if err != nil {
			return nil, fmt.Errorf("-hw %q: give a time with its zone, such as 2026-07-02T05:10Z", text)
		}
		out = append(out, tidal.ByHeights(t, h, l))
	}
	return out, nil
}

// read passes a file, or the invented one, to a reader of it.
func read[V any](o options, name string, reader func(io.Reader) (V, error)) (V, error) {
	path := *o.files[name]
	data, err := invented.ReadFile(name + ".csv")
	if old := o.recalled[name]; old != nil && (path == "" || name == "log") {
		data = old
	} else if path != "" {
		data, err = os.ReadFile(path)
	}
	var v V
	if err == nil {
		if bytes.HasPrefix(data, []byte("{")) && o.recalled != nil {
			err = json.Unmarshal(data, &v)
		} else {
			v, err = reader(bytes.NewReader(data))
		}
		if err != nil {
			if path == "" {
				path = name + ".csv"
			}
			err = fmt.Errorf("%s: %w", path, err)
		}
	}
	return v, err
}

// use reports whether a file is used: if it is given, or the log is the invented one.
func (o options) use(name string) bool {
	if o.recalled != nil && *o.files[name] == "" {
		return o.recalled[name] != nil
	}
	return *o.files[name] != "" || *o.files["log"] == ""
}

// work reads the files and reckons.
func (o options) work(tides []tidal.Tide) (answer, error) {
	var a answer
	l, err := read(o, "log", decklog.ReadLog)
	if err != nil {
		return a, err
	}
	a.inputs = inputsOf{Place: o.place, HighWaters: o.hw, Heights: o.heights, ByVectors: o.byVectors, Log: l}
	var with decklog.Options
	chart, err := read(o, "roses", func(r io.Reader) (*variation.Chart, error) { return variation.ReadChart("chart", r) })
	if err != nil {
		return a, err
	}
	card, err := read(o, "deviation", deviation.ReadTable)
	if err != nil {
		return a, err
	}
	with.Variation, with.Deviation = chart, card
	a.inputs.Roses, a.inputs.Deviation = chart, card
	if o.use("mile") {
		mile, err := read(o, "mile", readMile)
		if err != nil {
			return a, err
		}
		if with.Factor, err = mile.Factor(); err != nil {
			return a, err
		}
		sheet, err := mile.Working()
		if err != nil {
			return a, err
		}
		a.Mile, a.Factor, a.inputs.Mile = &sheet, with.Factor, rowsOf(mile)
	}
	if o.use("tidal") {
		table, err := read(o, "tidal", tidal.ReadTable)
		if err != nil {
			return a, err
		}
		u := tidal.Options{Tides: tides, Place: o.place, ByVectors: o.byVectors}
		if o.place == "nearest" {
			u.Place, u.PlaceAt = "", table.Nearest
		}
		streams, err := table.Streams(u)
		if err != nil {
			return a, err
		}
		with.Streams, a.Tides, a.inputs.Tidal = streams, streams.Warnings(), table
	}
	// Usual figures: a stream is known to 0.2 kn, a course is steered within 2° (common practice).
	if with.StreamUncertainty, err = sailing.StandardUncertainty(0.2 * sailing.Knot); err != nil {
		return a, err
	}
	if with.HeadingScatter, err = angle.StandardUncertainty(2 * angle.Degree); err != nil {
		return a, err
	}
	if a.Reckoning, err = l.Reckon(with); err != nil {
		return a, o.placed(err, l)
	}
	a.DaysWork = a.Reckoning.DaysWork()
	return a, nil
}

// placed adds the file and the time of the row to an error of the reckoning.
func (o options) placed(err error, l decklog.Log) error {
	file := cmp.Or(*o.files["log"], "log.csv")
	if row, ok := errors.AsType[*record.Error](err); ok && row.Row >= 1 && row.Row <= len(l) {
		return fmt.Errorf("%s: row %d, of %s, or the run to it: %w", file, row.Row, l[row.Row-1].Time.Format("2006-01-02T15:04Z07:00"), row.Err)
	}
	if _, ok := errors.AsType[*variation.MissingInputError](err); ok && len(l) > 0 && l[0].Fix == nil {
		return fmt.Errorf("%s: no position where the log begins: give a fix in its first row", file)
	}
	return fmt.Errorf("%s: %w", file, err)
}

// readMile reads the runs over one mile. The time of a run is good to a second, and its
// distance by log to 0.01 M.
func readMile(r io.Reader) (decklog.MeasuredMile, error) {
	m := decklog.MeasuredMile{Length: sailing.NauticalMile, TimeUncertainty: time.Second, LogUncertainty: 0.01 * sailing.NauticalMile}
	rows, err := record.Read(r, record.Columns{Required: []string{"course", "seconds", "log"}})
	for _, row := range rows {
		var run decklog.MileRun
		if run.Course, err = angle.ParseTrue(row.Text("course")); err != nil {
			return m, row.Fault("course", err)
		}
		seconds, err := strconv.ParseFloat(row.Text("seconds"), 64)
		if err != nil || !(seconds > 0 && seconds < 1e6) {
			return m, row.Fault("seconds", errors.New("give the time of the run in seconds, such as 553"))
		}
		run.Lasts = time.Duration(seconds * float64(time.Second))
		if run.Log, err = sailing.ParseDistance(row.Text("log") + " M"); err != nil {
			return m, row.Fault("log", err)
		}
		m.Runs = append(m.Runs, run)
	}
	return m, err
}

// print writes the answer.
func (a answer) print(w io.Writer, form string) error {
	switch form {
	case "csv":
		return a.Reckoning.WriteCSV(w)
	case "json":
		return inputs.Write(w, a.inputs, a)
	}
	var b strings.Builder
	if a.Mile != nil {
		fmt.Fprintf(&b, "Measured mile\n%v\n", a.Mile)
	}
	for _, warning := range a.Tides {
		fmt.Fprintf(&b, "Warning: tidal streams: %v\n", warning)
	}
	fmt.Fprintf(&b, "Reckoning\n%v\n", a.Reckoning)
	if a.Mile == nil {
		fmt.Fprintln(&b, "Without a measured mile (-mile) the log is taken to be right. How well it is known is not stated, so the EPs after a run have no ellipse.")
		fmt.Fprintln(&b)
	}
	fmt.Fprintf(&b, "The day's work\n%v", a.DaysWork.Steps)
	_, err := io.WriteString(w, b.String())
	return err
}
