// Command swing works a swing of the compass: it reduces the record to
// deviations, says which readings look like slips, fits the deviation curve,
// says what its coefficients mean, prints the card, and draws the card, the
// curve, Napier's diagram and the swing about the compass.
//
// Without flags it takes the invented swing by a transit in swing.csv. There are two more: with
// a compass ashore, and with a second compass on board.
//
//	go run ./examples/swing
//	go run ./examples/swing -method shore
//	go run ./examples/swing -method second
//	go run ./examples/swing -lesson # which corrector acts, and what it should leave
//	go run ./examples/swing -h # how to give it your own
//
// It shows packages [lubberline.example/deviation] and [lubberline.example/deviation/swing].
package main

import (
	"bytes"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"regexp"
	"slices"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/swing"
	"lubberline.example/examples/internal/help"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

// The invented swings, and the card of the second compass.
var (
	//go:embed swing.csv
	invented []byte
	//go:embed shore.csv
	inventedShore []byte
	//go:embed second.csv
	inventedSecond []byte
	//go:embed second-card.csv
	inventedCard []byte
)

// about is the help text.
const about = `Usage: swing [flags]

Reduces a swing of the compass. Without -swing it takes an invented one: by a transit, or
with -method shore by a compass ashore, or with -method second by a second compass. The
record is CSV, with a line of column names, or a JSON array of objects. Its columns:

  transit   heading, bearing         two marks in line; give their -direction
  distant   heading, bearing         a distant object of unknown direction
  sun       heading, bearing, time   time in UTC, such as 2026-05-09T17:03:20Z
  true      heading, true            the true heading from another source
  shore     heading, bearing, shore  a compass ashore, clear of iron: bearing is that of the
                                     shore compass from the vessel, shore that of the vessel
                                     from the shore compass, at the same moment
  second    heading, other           the heading by a second compass on board, at the same
                                     moment; give its deviation card, -second-card
  stated    heading, deviation       deviations that are already worked out

A column uncertainty may give the standard uncertainty of each reading. A column
relative may give bearings from the bow instead of the column bearing.

A column bearing_by may say which compass gave the bearing: swung or another. "swung" is
the compass that is checked. Bearings by another compass are refused, because they
include the deviation of that compass. Without the column, the program takes all
bearings to be by the swung compass, and prints a note.

-format json writes the inputs and the results as JSON. -swing reads that output again: a
flag that you give takes the place of what it states.

`

// main runs the program.
func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// options holds the flags.
type options struct {
	path, method, direction, variation, position, date, step, out, format string
	secondCard, shore                                                     string
	lessonFlags
	details deviation.Details
	all     bool
	given   []string          // names of the flags that were given
	places  map[string]string // of inputs from a file, by flag: where they stand
}

// run does the program's work and returns its exit status: 1 for a fault in the
// record, 2 for a fault in the flags.
func run(args []string, stdout, stderr io.Writer) int {
	var o options
	flags := flag.NewFlagSet("swing", flag.ContinueOnError)
	flags.StringVar(&o.path, "swing", "", "file of the record (default: the invented one)")
	flags.StringVar(&o.method, "method", "transit", "what the compass was compared with: transit, distant, sun, true, shore, second or stated")
	flags.StringVar(&o.direction, "direction", "", "true direction of the transit, as 351°48′T")
	flags.StringVar(&o.variation, "variation", "", "variation, with its standard uncertainty where known, as 5°08′W ±0°15′, or the legend of a rose, as 7°55′W 2012 (9′E)")
	flags.BoolVar(&o.all, "all", false, "use all readings, also those that look like slips")
	flags.StringVar(&o.position, "position", "", "where the vessel swung, as 46°44.0′N 019°00.3′W")
	flags.StringVar(&o.date, "date", "", "the day of the swing, as 2026-05-09")
	flags.StringVar(&o.step, "step", "15°", "step of the card: 10°, 15°, 22°30′, 11°15′ …")
	flags.StringVar(&o.secondCard, "second-card", "", "file of the deviation card of the second compass (CSV: compass, deviation, uncertainty)")
	flags.StringVar(&o.shore, "shore-uncertainty", "", "standard uncertainty of the shore compass, the same for all its bearings, as 0.3°")
	flags.StringVar(&o.format, "format", "text", "output: text or json")
	flags.StringVar(&o.out, "out", "", "directory for the drawings; it is created if missing (default: a new temporary one; with -format json none)")
	flags.StringVar(&o.details.Vessel, "vessel", "", "name of the vessel, for the card")
	flags.StringVar(&o.details.Compass, "compass", "", "which compass, for the card")
	flags.StringVar(&o.details.Adjuster, "adjuster", "", "who swung the compass, for the card")
	o.lessonFlags.add(flags)
	if status, goOn := help.Parse(flags, about, args, stderr); !goOn {
		return status
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "swing: %q: everything is given with flags; -h explains\n", flags.Arg(0))
		return 2
	}
	flags.Visit(func(f *flag.Flag) { o.given = append(o.given, f.Name) })
	if err := o.run(stdout); err != nil {
		fmt.Fprintln(stderr, "swing:", err)
		if errors.As(err, new(flagError)) {
			return 2
		}
		return 1
	}
	return 0
}

// A flagError is an error in a flag, which has another exit status.
type flagError struct{ error }

// run reads the files and the flags, and does the work.
func (o options) run(w io.Writer) error {
	r, err := o.recall()
	if err != nil {
		return err
	}
	o.invent(r.invented)
	j, err := o.parse()
	if err != nil {
		return err
	}
	j.recalled = r
	if o.method == "second" && j.card == nil {
		if j.card, err = readCard(o.secondCard); err != nil {
			return err
		}
	}
	if second, ok := j.method.(swing.SecondCompass); ok {
		second.Deviation = j.card
		j.method = second
	}
	return j.work(w)
}

// readCard reads the card of the second compass: of the user's file, or the invented one.
func readCard(path string) (*deviation.Table, error) {
	data := inventedCard
	if path == "" {
		path = "second-card.csv"
	} else {
		var err error
		if data, err = os.ReadFile(path); err != nil {
			return nil, err
		}
	}
	card, err := deviation.ReadTable(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return card, nil
}

// needs names the flags that a method can't do without, with your own record.
var needs = map[string][]string{
	"transit": {"direction", "variation"}, "distant": nil, "sun": {"variation"}, "true": {"variation"}, "shore": nil, "second": {"second-card"}, "stated": nil,
}

// uses are the other flags that a method uses. It refuses those of the rest.
var uses = map[string][]string{"shore": {"shore-uncertainty"}}

// job is what there is to do.
type job struct {
	options
	recalled
	method   swing.Method
	position angle.Position
	step     angle.Angle
	source   variation.Source // nil where the method uses none
}

// parse reads the flags.
func (o options) parse() (job, error) {
	j := job{options: o}
	fault := func(name string, err error) (job, error) {
		if place := o.places[name]; place != "" {
			return job{}, fmt.Errorf("%s: %w", place, err)
		}
		return job{}, flagError{fmt.Errorf("-%s: %w", name, err)}
	}
	if err := o.checkLesson(); err != nil {
		return job{}, err
	}
	if _, known := needs[o.method]; !known {
		return fault("method", fmt.Errorf("%q is unknown: give transit, distant, sun, true, shore, second or stated", o.method))
	}
	if o.format != "text" && o.format != "json" {
		return fault("format", fmt.Errorf("%q is unknown: give text or json", o.format))
	}
	if missing := o.missing(); len(missing) > 0 {
		return job{}, flagError{fmt.Errorf("%s missing: needed with your own record by the method %s", strings.Join(missing, ", "), o.method)}
	}
	used := slices.Concat(needs[o.method], uses[o.method])
	for _, name := range []string{"direction", "variation", "second-card", "shore-uncertainty"} {
		if slices.Contains(o.given, name) && !slices.Contains(used, name) {
			return fault(name, fmt.Errorf("the method %s does not use it: leave it out", o.method))
		}
	}
	var direction angle.True
	var ashore angle.Uncertainty
	var err error
	if slices.Contains(used, "variation") {
		if j.source, err = parseVariation(o.variation); err != nil {
			return fault("variation", err)
		}
	}
	if slices.Contains(used, "direction") {
		if direction, err = angle.ParseTrue(o.direction); err != nil {
			return fault("direction", err)
		}
	}
	if ashore.UnmarshalText([]byte(o.shore)) != nil {
		return fault("shore-uncertainty", fmt.Errorf("%q is not an uncertainty; write an angle such as 0.3°", o.shore))
	}
	if j.position, err = angle.ParsePosition(o.position); err != nil {
		return fault("position", err)
	}
	if j.details.Date, err = time.Parse(time.DateOnly, o.date); err != nil {
		return fault("date", fmt.Errorf("%q is not a date; write it as 2026-05-09", o.date))
	}
	if j.step, err = angle.Parse(o.step); err != nil {
		return fault("step", err)
	}
	j.details.Place = j.position.String()
	known := angle.Must(angle.StandardUncertainty(0)) // a charted line is known far better than a compass reads
	j.method = map[string]swing.Method{
		"transit": swing.Transit{Direction: direction, Uncertainty: known, Variation: j.source, At: &j.position, On: j.details.Date},
		"distant": swing.DistantObject{},
		"sun":     swing.SunAzimuths{Position: &j.position, Variation: j.source},
		"true":    swing.TrueHeadings{Uncertainty: known, Variation: j.source, At: &j.position, On: j.details.Date},
		"shore":   swing.ShoreCompass{Uncertainty: ashore},
		"second":  swing.SecondCompass{}, // its card follows
		"stated":  swing.StatedDeviations{},
	}[o.method]
	return j, nil
}

// missing returns the flags that the method needs and that are not given.
func (o options) missing() (names []string) {
	values := map[string]string{"direction": o.direction, "variation": o.variation, "position": o.position, "date": o.date, "second-card": o.secondCard, "shore-uncertainty": o.shore}
	if o.path == "" || o.places["secondCard"] != "" {
		values["second-card"] = "there" // the invented one, or that of the file
	}
	for _, name := range append([]string{"position", "date"}, needs[o.method]...) {
		if values[name] == "" {
			names = append(names, "-"+name)
		}
	}
	return names
}

// year is what the legend of a rose has, and a known variation has not.
var year = regexp.MustCompile(`\d{4}`)

// parseVariation reads a known variation, or the legend of a rose.
func parseVariation(text string) (variation.Source, error) {
	v, err := variation.Parse(text)
	if err == nil {
		return v, nil
	}
	rose, legend := variation.ParseLegend(text)
	switch {
	case legend == nil:
		return rose, nil
	case year.MatchString(text):
		return nil, legend
	}
	return nil, fmt.Errorf("%w, or the legend of a rose, as in 7°55′W 2012 (9′E)", err)
}

// compareVariation says by how much the variation given differs from a field model's.
func (j job) compareVariation(w io.Writer) error {
	if j.source == nil {
		return nil
	}
	asked, err := variation.Explain(j.source, j.position, j.details.Date)
	if err != nil {
		return err
	}
	answer, err := variation.Explain(wmm.Models(), j.position, j.details.Date)
	given, model := asked.Variation, answer.Variation
	if err != nil {
		fmt.Fprintf(w, "The variation given is not compared with a field model's: %v\n", err)
		return nil
	}
	off := (given.Angle() - model.Angle()).NormalizedSigned()
	fmt.Fprintf(w, "The variation given is %v, by a field model %v: they differ by %s.\n", given.Angle().Round(angle.Minute).EastWestString(), model.Angle().Round(angle.Minute).EastWestString(), off.Abs().Round(angle.Minute).String())
	if s, stated := model.Uncertainty().Sigma(); stated && off.Abs() > 2*s+angle.Degree/2 {
		fmt.Fprintf(w, "Note: that is more than the model's uncertainty, ±%.1f°, explains: check the variation, its name and its year\n", s.Degrees())
	}
	return nil
}

// work reduces, fits, prints and draws.
func (j job) work(w io.Writer) error {
	swung, err := swing.ReadSwing(bytes.NewReader(j.readings), j.method)
	if err != nil {
		return fmt.Errorf("%s: %w", j.name, err)
	}
	fit, err := swung.Fit(swing.FitOptions{Robust: !j.all})
	if err != nil {
		return err
	}
	card, err := deviation.NewCard(fit.Curve, j.step, j.details)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if j.format == "json" {
		err = j.writeJSON(&b, swung, fit, card)
	} else {
		err = j.writeText(&b, swung, fit, card)
	}
	if err != nil {
		return err
	}
	if j.format == "text" || j.out != "" {
		files, err := j.draw(fit)
		if err != nil {
			return err
		}
		if j.format == "text" {
			fmt.Fprintf(&b, "\nDrawn, to print on A4: %s\n", strings.Join(files, ", "))
		}
	}
	_, err = w.Write(b.Bytes())
	return err
}

// writeText prints all but the drawings.
func (j job) writeText(w io.Writer, swung *swing.Swing, fit *swing.Fit, card *deviation.Card) error {
	printSwing(w, swung, fit)
	if err := j.compareVariation(w); err != nil {
		return err
	}
	fmt.Fprintf(w, "\n%s", adjust.Analyse(fit.Curve.Coefficients()).Working())
	if err := j.printLimit(w, fit); err != nil {
		return err
	}
	if j.lesson {
		l, err := j.teach(fit)
		if err != nil {
			return err
		}
		return l.print(w)
	}
	_, err := fmt.Fprintf(w, "\n%s", card)
	return err
}

// printLimit remarks on the largest deviation, with the limit that several flag states
// print.
func (j job) printLimit(w io.Writer, fit *swing.Fit) error {
	remark, err := adjust.FlagStateLimit().Remark(fit.Curve)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "\n%s %s %s\n", remark.What, remark.Value, remark.How)
	return nil
}
