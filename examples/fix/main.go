// Command fix finds the vessel's position from a file of position lines: bearings, distances
// off, transits, sextant angles, depths, latitudes and longitudes. It prints the working of
// each line, the position, its accuracy, and which line may be wrong, and draws a plot.
//
// Without flags it solves the invented round of bearings in lines.csv. The file sextant.csv has
// invented lines of other kinds.
//
//	go run ./examples/fix
//	go run ./examples/fix -lines examples/fix/sextant.csv -near "47°02.0′N 019°15.4′W"
//	go run ./examples/fix -h # how to give it your own
//
// It shows packages [lubberline.example/fix], [lubberline.example/fix/plot] and
// [lubberline.example/angle/record].
package main

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
	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/examples/internal/help"
	"lubberline.example/fix"
	"lubberline.example/fix/plot"
	"lubberline.example/variation"
)

// The invented round of bearings, the invented lines of other kinds, and the invented card.
var (
	//go:embed lines.csv
	inventedLines []byte
	//go:embed sextant.csv
	inventedSextant []byte
	//go:embed deviation.csv
	inventedCard []byte
)

const about = `Usage: fix [flags]

Finds a position from position lines. The file is CSV, with a line of column names, or a
JSON array of objects:

  kind, object, position, observed, uncertainty, time
  bearing,Head light,47°08.4′N 019°00.0′W,054.5°C,1.5°,10:40
  distance,St Osk church,46°57.0′N 019°03.0′W,10.1 M,0.1 M,10:41

Each line says its kind. Besides kind, these columns must have text:

  bearing           object, position, observed: 054.5°C
  distance          object, position, observed: 12.3 M (nautical miles), 4 cables
  transit           object, position (of the front mark), second, second_position (of the rear)
  horizontal-angle  object, position (of the left mark), second, second_position (of the
                    right), observed: the sextant angle between them, 25°07.0′
  vertical-angle    object, position, height (of its top above the water: 24 m), observed:
                    the sextant angle from its water line to its top, 0°14.8′; see -eye
  depth             object (name of the slope), position, depth (charted there: 30 m),
                    second_position, second_depth (the nearest place that has another
                    charted depth), observed: the depth less the height of the tide, 45 m
  latitude          object (such as noon Sun), observed: 47°02.0′N
  longitude         object, observed: 019°15.4′W

A bearing ends in C (the steering compass, on the heading given), M (a hand-bearing compass
clear of iron), T, or R (from the bow; also: 35° to port). Correct sextant angles for index
error first. The depth is taken to change evenly from the first place to the second.

The columns uncertainty and time (UTC, 10:40) may be left out. An uncertainty is a standard
uncertainty: an angle for bearings, transits and sextant angles, otherwise a length.

With your own bearings that end in C, M or R give -rose, -date, -head and -card too, and
-near with lines that meet twice: those of the program are invented.

-format json writes the inputs and the results as JSON. -lines reads that output again: its
inputs take the place of the defaults, and a flag that you give takes the place of both.

`

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// options are the flags.
type options struct {
	lines, card, rose, date, head, near, eye, plot, format string
	compassError, usual                                    bool

	places map[string]string // of flags that a file of inputs has: where it has them
}

// run runs the program and returns its exit status: 1 for an error in the files or no fix,
// 2 for an error in the flags.
func run(args []string, stdout, stderr io.Writer) int {
	var o options
	flags := flag.NewFlagSet("fix", flag.ContinueOnError)
	flags.StringVar(&o.lines, "lines", "", "file of the position lines (default: the invented one)")
	flags.StringVar(&o.card, "card", "", "file of the deviation card (default: the invented one)")
	flags.StringVar(&o.rose, "rose", "7°55′W 2012 (9′E)", "legend of the chart's rose, or the variation now: 5°49′W ±0°15′")
	flags.StringVar(&o.date, "date", "2026-07-02", "date, for the rose")
	flags.StringVar(&o.head, "head", "226°C", "vessel's heading by compass")
	flags.StringVar(&o.near, "near", "46°58.0′N 019°17.8′W", "reckoned position: the variation is that of this place, and it chooses between two places where lines meet")
	flags.StringVar(&o.eye, "eye", "3 m", "height of eye above the water, for vertical angles")
	flags.StringVar(&o.plot, "plot", "", "file for the plot, SVG (default: a new temporary one; with -format json none)")
	flags.StringVar(&o.format, "format", "text", "output: text or json")
	flags.BoolVar(&o.compassError, "compass-error", false, "also solve for a constant error of the compass")
	flags.BoolVar(&o.usual, "usual", false, "assume usual uncertainties if the file and the flags state none")
	if status, goOn := help.Parse(flags, about, args, stderr); !goOn {
		return status
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "fix: %q is not a flag; -h lists the flags\n", flags.Arg(0))
		return 2
	}
	given := map[string]bool{}
	flags.Visit(func(f *flag.Flag) { given[f.Name] = true })
	if err := o.run(stdout, given); err != nil {
		// The error begins with the name of the package, which is also that of this program.
		text := strings.TrimPrefix(strings.ReplaceAll(err.Error(), ": fix: ", ": "), "fix: ")
		fmt.Fprintln(stderr, "fix:", inFlags.Replace(text))
		if errors.As(err, new(flagError)) {
			return 2
		}
		return 1
	}
	return 0
}

// inFlags says what a program in Go would do by the flags of this one.
var inFlags = strings.NewReplacer(
	", or give an estimated position as Options.Prior", "",
	"set Options.Near to the reckoned position", "give the reckoned position with -near",
	"or set Options.Near if", "or give -near if",
	"or take usual uncertainties, or state none", "or give -usual, or state none",
	"or set Options.UsualUncertainties", "or give -usual",
	"Options.CompassError needs a bearing by the vessel's compass, and no line is one: make it with CompassBearing", "-compass-error needs a bearing by the vessel's compass: end one in C",
)

// A flagError is an error in a flag, which has another exit status.
type flagError struct{ error }

// run reads the files and the flags, and does the work. given has the flags on the command line.
func (o options) run(w io.Writer, given map[string]bool) error {
	data, err := open(o.lines, inventedLines)
	if err != nil {
		return err
	}
	in, err := o.recall(data, given)
	if err != nil {
		return fmt.Errorf("%s: %w", name(o.lines, "lines.csv"), err)
	}
	if in.deviations == nil {
		if in.deviations, err = o.readCard(); err != nil {
			return err
		}
	}
	j, err := o.parse()
	if err != nil {
		return err
	}
	j.recalled, j.own = in, given
	return j.work(w)
}

// readCard reads the deviation card.
func (o options) readCard() (*deviation.Table, error) {
	data, err := open(o.card, inventedCard)
	if err != nil {
		return nil, err
	}
	card, err := deviation.ReadTable(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name(o.card, "deviation.csv"), err)
	}
	return card, nil
}

// A job is the work to do.
type job struct {
	options
	recalled
	rose variation.Source
	day  time.Time
	head angle.Compass
	near angle.Position
	eye  sailing.Distance
	own  map[string]bool // the flags that were given
}

// parse reads the flags.
func (o options) parse() (job, error) {
	j := job{options: o}
	var err error
	set := func(name, text string, fault error, want string) {
		switch place := o.places[name]; {
		case err != nil || fault == nil:
		case place != "":
			err = fmt.Errorf("%s: %q is invalid; give %s", place, text, want)
		default:
			err = flagError{fmt.Errorf("-%s: %q is invalid; give %s", name, text, want)}
		}
	}
	var fault error
	j.rose, fault = variationOf(o.rose)
	set("rose", o.rose, fault, "the words printed in the rose, such as 7°55′W 2012 (9′E), or the variation now, such as 5°49′W ±0°15′")
	j.day, fault = time.Parse(time.DateOnly, o.date)
	set("date", o.date, fault, "a date such as 2026-07-02")
	j.head, fault = angle.ParseCompass(o.head)
	set("head", o.head, fault, "a heading by compass such as 226°C")
	j.near, fault = angle.ParsePosition(o.near)
	set("near", o.near, fault, "a position such as 46°58.0′N 019°17.8′W")
	if j.eye, fault = sailing.ParseDistance(o.eye); fault == nil && (inMiles(o.eye) || j.eye < 0) {
		fault = errors.New("not a height")
	}
	set("eye", o.eye, fault, "a height such as 3 m or 10 feet")
	if o.format != "text" && o.format != "json" {
		set("format", o.format, errors.New("unknown"), "text or json")
	}
	return j, err
}

// variationOf reads the legend of a rose, or the variation now.
func variationOf(text string) (variation.Source, error) {
	if rose, err := variation.ParseLegend(text); err == nil {
		return rose, nil
	}
	return variation.Parse(text)
}

// missing returns an error for bearings of the user's own that are converted by the invented card,
// rose or heading, or for the rose of another day.
func (j job) missing(t table) error {
	if j.lines == "" || j.invented {
		return nil
	}
	for i, l := range t.lines {
		text := t.rows[i].Text("observed")
		if l.Kind() != fix.KindBearing || strings.HasSuffix(text, "T") {
			continue
		}
		needs := []string{"rose"}
		if _, ok := j.rose.(variation.Rose); ok {
			needs = append(needs, "date")
		}
		if !strings.HasSuffix(text, "M") {
			needs = append(needs, "head", "card")
		}
		for _, flag := range needs {
			if !j.own[flag] && j.places[flag] == "" {
				return flagError{fmt.Errorf("-%s missing: %q needs -%s of your own; the invented ones are of another vessel", flag, text, strings.Join(needs, ", -"))}
			}
		}
	}
	return nil
}

// work solves, prints and plots.
func (j job) work(w io.Writer) error {
	heading, err := course.FromCompass(j.head, course.With{Variation: j.rose, Deviation: j.deviations, At: &j.near, On: j.day})
	if err != nil {
		return err
	}
	table, err := readLines(bytes.NewReader(j.table), vessel{heading, j.day, j.eye})
	if err != nil {
		return fmt.Errorf("%s: %w", name(j.lines, "lines.csv"), err)
	}
	if err := j.missing(table); err != nil {
		return err
	}
	f, err := fix.Solve(table.lines, fix.Options{Near: &j.near, CompassError: j.compassError, UsualUncertainties: j.usual})
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if j.format == "json" {
		if err := j.writeJSON(&b, table, f); err != nil {
			return err
		}
	} else {
		if j.invented {
			fmt.Fprintln(&b, "Vessel, marks and figures are invented.")
		}
		for _, sheet := range sheets(table, f) {
			fmt.Fprintf(&b, "\n%s", sheet)
		}
	}
	if j.format == "text" || j.plot != "" {
		file, err := j.draw(f)
		if err != nil {
			return err
		}
		if j.format == "text" {
			fmt.Fprintf(&b, "Plotted, to print on A4: %s\n", file)
		}
	}
	_, err = w.Write(b.Bytes())
	return err
}

// sheets returns the working of each line, then that of the fix.
func sheets(t table, f fix.Fix) []working.Sheet {
	var all []working.Sheet
	for i, l := range f.Lines() {
		all = append(all, working.Sheet{Title: t.titles[i], Steps: l.Working()})
	}
	return append(all, f.Working())
}

// draw writes the plot, and returns the name of its file.
func (j job) draw(f fix.Fix) (string, error) {
	file := j.plot
	if file == "" {
		dir, err := os.MkdirTemp("", "fix-")
		if err != nil {
			return "", err
		}
		file = filepath.Join(dir, "fix.svg")
	}
	title := "Fix of " + j.day.Format("2 January 2006")
	if j.invented {
		title += " (invented)"
	}
	sheet, err := plot.Fix(f, plot.Options{Title: title})
	if err != nil {
		return "", err
	}
	var b bytes.Buffer
	if err := sheet.WriteSVG(&b, drawing.Plate); err != nil {
		return "", err
	}
	return file, os.WriteFile(file, b.Bytes(), 0o644)
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
