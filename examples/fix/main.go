// Command fix finds the vessel's position from a file of bearings and distances off. It prints
// the working of each line, the position, its accuracy, and which line may be wrong, and
// draws a plot.
//
// Without flags it solves the invented round of bearings in lines.csv.
//
//	go run ./examples/fix
//	go run ./examples/fix -h # how to give it your own
//
// It shows packages [lubberline.example/fix], [lubberline.example/fix/plot] and
// [lubberline.example/angle/record].
package main

//go:generate go run . -plot fix.svg

import (
	"bytes"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/fix/plot"
	"lubberline.example/variation"
)

// The invented round and card.
var (
	//go:embed lines.csv
	inventedLines []byte
	//go:embed deviation.csv
	inventedCard []byte
)

const about = `Usage: fix [flags]

Finds a position from bearings and distances off. The file is CSV, with a line of
column names, or a JSON array of objects:

  kind, object, position, observed, uncertainty, time
  bearing,Head light,47°08.4′N 019°00.0′W,054.5°C,1.5°,10:40
  distance,St Osk church,46°57.0′N 019°03.0′W,10.1 M,0.1 M,10:41

The kind is bearing or distance. A bearing ends in C (the steering compass, on the
heading given), M (a hand-bearing compass clear of iron), T, or R (from the bow; also:
35° to port). A distance has its unit: 12.3 M (nautical miles), 4 cables. Uncertainties
are standard uncertainties, in degrees or as distances. The columns uncertainty and time
(UTC) may be left out.

`

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// options are the flags.
type options struct {
	lines, card, rose, date, head, near, plot string
	compassError, usual                       bool
}

// run runs the program and returns its exit status: 1 for an error in the files or no fix,
// 2 for an error in the flags.
func run(args []string, stdout, stderr io.Writer) int {
	var o options
	flags := flag.NewFlagSet("fix", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() {
		fmt.Fprint(stderr, about)
		flags.PrintDefaults()
	}
	flags.StringVar(&o.lines, "lines", "", "file of the bearings and distances (default: the invented one)")
	flags.StringVar(&o.card, "card", "", "file of the deviation card (default: the invented one)")
	flags.StringVar(&o.rose, "rose", "7°55′W 2012 (9′E)", "legend of the chart's rose")
	flags.StringVar(&o.date, "date", "2026-07-02", "date, for the rose")
	flags.StringVar(&o.head, "head", "226°C", "vessel's heading by compass")
	flags.StringVar(&o.near, "near", "46°58.0′N 019°17.8′W", "reckoned position: the variation is that of this place, and it chooses between two places where lines meet")
	flags.StringVar(&o.plot, "plot", "", "file for the plot, SVG (default: a new temporary one)")
	flags.BoolVar(&o.compassError, "compass-error", false, "also solve for a constant error of the compass")
	flags.BoolVar(&o.usual, "usual", false, "assume usual uncertainties if the file and the flags state none")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	job, err := o.parse(flags.Args())
	if err != nil {
		fmt.Fprintln(stderr, "fix:", err)
		return 2
	}
	if err := job.work(stdout, o.plot); err != nil {
		// The error begins with the name of the package, which is also that of this program.
		fmt.Fprintln(stderr, "fix:", strings.TrimPrefix(strings.ReplaceAll(err.Error(), ": fix: ", ": "), "fix: "))
		return 1
	}
	return 0
}

// A job is the work to do.
type job struct {
	options
	rose variation.Rose
	day  time.Time
	head angle.Compass
	near angle.Position
}

// parse reads the flags.
func (o options) parse(rest []string) (job, error) {
	j := job{options: o}
	var err error
	set := func(name, text string, fault error, want string) {
		if err == nil && fault != nil {
			err = fmt.Errorf("-%s: %q is invalid; give %s", name, text, want)
		}
	}
	var fault error
	j.rose, fault = variation.ParseLegend(o.rose)
	set("rose", o.rose, fault, "the words printed in the rose, such as 7°55′W 2012 (9′E)")
	j.day, fault = time.Parse(time.DateOnly, o.date)
	set("date", o.date, fault, "a date such as 2026-07-02")
	j.head, fault = angle.ParseCompass(o.head)
	set("head", o.head, fault, "a heading by compass such as 226°C")
	j.near, fault = angle.ParsePosition(o.near)
	set("near", o.near, fault, "a position such as 46°58.0′N 019°17.8′W")
	if len(rest) > 0 {
		err = fmt.Errorf("%q is not a flag; -h lists the flags", rest[0])
	}
	return j, err
}

// work reads, solves, prints and plots.
func (j job) work(w io.Writer, file string) error {
	card, err := open(j.card, inventedCard)
	if err != nil {
		return err
	}
	table, err := deviation.ReadTable(bytes.NewReader(card))
	if err != nil {
		return fmt.Errorf("%s: %w", name(j.card, "deviation.csv"), err)
	}
	heading, err := course.FromCompass(j.head, course.With{Variation: j.rose, Deviation: table, At: &j.near, On: j.day})
	if err != nil {
		return err
	}
	data, err := open(j.lines, inventedLines)
	if err != nil {
		return err
	}
	lines, err := readLines(bytes.NewReader(data), heading, j.day)
	if err != nil {
		return fmt.Errorf("%s: %w", name(j.lines, "lines.csv"), err)
	}
	f, err := fix.Solve(lines, fix.Options{Near: &j.near, CompassError: j.compassError, UsualUncertainties: j.usual})
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if j.lines == "" {
		fmt.Fprintln(&b, "Vessel, marks and figures are invented.")
	}
	print(&b, f)
	if file == "" {
		dir, err := os.MkdirTemp("", "fix-")
		if err != nil {
			return err
		}
		file = filepath.Join(dir, "fix.svg")
	}
	title := "Fix of " + j.day.Format("2 January 2006")
	if j.lines == "" {
		title += " (invented)"
	}
	var drawing bytes.Buffer
	if err := plot.Write(&drawing, f, plot.Options{Title: title}); err != nil {
		return err
	}
	if err := os.WriteFile(file, drawing.Bytes(), 0o644); err != nil {
		return err
	}
	fmt.Fprintf(&b, "Plotted, to print on A4: %s\n", file)
	_, err = w.Write(b.Bytes())
	return err
}

// open reads the file of the user, or the invented one.
func open(path string, invented []byte) ([]byte, error) {
	if path == "" {
		return invented, nil
	}
	return os.ReadFile(path)
}

// name returns the name of a file for a message.
func name(path, invented string) string {
	if path == "" {
		return invented
	}
	return path
}
