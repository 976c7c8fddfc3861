// Command passage does a navigator's compass work for a passage: for each leg
// it picks the chart's rose, brings its variation to the date, and works the
// course through magnetic to compass; then it turns a round of bearings taken
// under way into true bearings to plot. Every step is shown.
//
// Without flags it works the invented passage whose files lie beside it.
package main

import (
	"bytes"
	"embed"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

//go:embed roses.csv deviation.csv legs.csv bearings.csv
var invented embed.FS

const about = `Usage: passage [flags]

Works the compass courses of a passage, leg by leg, and turns bearings taken
under way into true bearings. Without flags it works an invented passage.

The files are CSV, with a line of column names, or JSON arrays of objects:

  roses      name, position, legend       Bay rose,47°06′N 019°02′W,7°20′W 2015 (12′E)
  deviation  compass (or magnetic), deviation[, uncertainty]       015,2°30′E,0.5°
  legs       leg, at, course              Head to Ledge,47°05.5′N 019°06.0′W,236°T
  bearings   object, bearing, head, at    Head light,054.5°C,226°C,46°58′N 019°18′W

Courses end in T (true), M (magnetic) or C (compass). Bearings end in C (the
steering compass), M (a hand-bearing compass clear of iron), T, or R (from the
bow; also: 35° to port). A cell with a comma in it stands in double quotes.

`

// tables are the files that the program reads.
var tables = []string{"roses", "deviation", "legs", "bearings"}

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run does the program's work and returns its exit status: 1 for a fault in the
// files, 2 for a fault in the flags.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("passage", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() {
		fmt.Fprint(stderr, about)
		flags.PrintDefaults()
	}
	files := map[string]*string{}
	for _, name := range tables {
		files[name] = flags.String(name, "", "file of the "+name+" (default: the invented one)")
	}
	dateText := flags.String("date", "", "date of the passage, as 2026-07-02 (default: that day; with files of your own, today)")
	method := flags.String("method", "nearest", "which rose: nearest, or blended between roses")
	count := flags.String("years", "whole", "how to count the years since a rose: whole, or decimal")
	format := flags.String("format", "text", "output: text or json")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	usage := func(message string) int {
		fmt.Fprintln(stderr, "passage:", message)
		return 2
	}
	if flags.NArg() > 0 {
		return usage(fmt.Sprintf("%q: files are given with flags; -h explains", flags.Arg(0)))
	}
	var p passage
	for _, name := range tables {
		if *files[name] == "" {
			p.Invented = append(p.Invented, name)
		}
	}
	if *dateText == "" {
		*dateText = "2026-07-02"
		if len(p.Invented) < len(tables) {
			*dateText = time.Now().UTC().Format(time.DateOnly)
		}
	}
	date, err := time.Parse(time.DateOnly, *dateText)
	if err != nil {
		return usage(fmt.Sprintf("-date %q: want a date such as 2026-07-02", *dateText))
	}
	p.Date, p.Caution = date, working.Caution
	methods := map[string]variation.Method{"nearest": variation.Nearest, "blended": variation.Blended}
	counts := map[string]variation.YearCount{"whole": variation.WholeYears, "decimal": variation.DecimalYears}
	m, ok := methods[*method]
	if !ok {
		return usage(fmt.Sprintf("-method %q: want nearest or blended", *method))
	}
	c, ok := counts[*count]
	if !ok {
		return usage(fmt.Sprintf("-years %q: want whole or decimal", *count))
	}
	if *format != "text" && *format != "json" {
		return usage(fmt.Sprintf("-format %q: want text or json", *format))
	}

	read := func(name string, reader func(io.Reader) error) error {
		data, err := open(name, *files[name])
		if err != nil {
			return err
		}
		if err := reader(bytes.NewReader(data)); err != nil {
			path := *files[name]
			if path == "" {
				path = name + ".csv"
			}
			return fmt.Errorf("%s: %w", path, err)
		}
		return nil
	}
	err = errors.Join(
		read("roses", func(r io.Reader) (err error) {
			if p.chart, err = variation.ReadChart("the chart", r); err == nil {
				p.chart.Method, p.chart.Count = m, c
			}
			return err
		}),
		read("deviation", func(r io.Reader) (err error) {
			p.deviation, err = deviation.ReadTable(r)
			return err
		}),
	)
	if err == nil {
		err = errors.Join(read("legs", p.readLegs), read("bearings", p.readBearings))
	}
	if err == nil {
		err = print(stdout, &p, *format)
	}
	if err != nil {
		for line := range strings.Lines(err.Error() + "\n") {
			if line = strings.TrimSpace(line); line != "" {
				fmt.Fprintln(stderr, "passage:", line)
			}
		}
		return 1
	}
	return 0
}

// open reads the reader's own file, or the invented one.
func open(name, path string) ([]byte, error) {
	if path == "" {
		return invented.ReadFile(name + ".csv")
	}
	return os.ReadFile(path)
}

func print(w io.Writer, p *passage, format string) error {
	if format == "text" {
		return p.printText(w)
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(p)
}
