// Command swing works a swing of the compass: it reduces the record to
// deviations, says which readings look like slips, fits the deviation curve,
// says what its coefficients mean, prints the card, and draws the curve and
// Napier's diagram.
//
// Without flags it takes the invented swing in the file beside it.
//
//	go run ./examples/swing
//	go run ./examples/swing -h # how to give it your own
//
// It shows package [lubberline.example/deviation].
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
	"slices"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/diagram"
	"lubberline.example/deviation/swing"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

//go:embed swing.csv
var invented []byte

// about is the help text.
const about = `Usage: swing [flags]

Reduces a swing of the compass. Without flags it takes an invented one. The record
is CSV, with a line of column names, or a JSON array of objects. Its columns:

  transit   heading, bearing         two marks in line; give their -direction
  distant   heading, bearing         a distant object of unknown direction
  sun       heading, bearing, time   time in UTC, such as 2026-05-09T17:03:20Z
  true      heading, true            the true heading from another source
  stated    heading, deviation       deviations that are already worked out

A column uncertainty may give the standard uncertainty of each reading. A column
relative may give bearings from the bow instead of the column bearing.

A column bearing_by may say which compass gave the bearing: swung or another. "swung" is
the compass that is checked. Bearings by another compass are refused, because they
include the deviation of that compass. Without the column, the program takes all
bearings to be by the swung compass, and prints a note.

`

// main runs the program.
func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// options holds the flags.
type options struct {
	path, method, direction, variation, position, date, step, out string
	details                                                       deviation.Details
	all                                                           bool
	given                                                         []string // names of the flags that were given
}

// run does the program's work and returns its exit status: 1 for a fault in the
// record, 2 for a fault in the flags.
func run(args []string, stdout, stderr io.Writer) int {
	var o options
	flags := flag.NewFlagSet("swing", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() {
		fmt.Fprint(stderr, about)
		flags.PrintDefaults()
	}
	flags.StringVar(&o.path, "swing", "", "file of the record (default: the invented one)")
	flags.StringVar(&o.method, "method", "transit", "what the compass was compared with: transit, distant, sun, true or stated")
	flags.StringVar(&o.direction, "direction", "", "true direction of the transit, as 351°48′T")
	flags.StringVar(&o.variation, "variation", "", "variation, with its standard uncertainty where known, as 5°08′W ±0°15′, or the legend of a rose, as 7°55′W 2012 (9′E)")
	flags.BoolVar(&o.all, "all", false, "use all readings, also those that look like slips")
	flags.StringVar(&o.position, "position", "", "where the vessel swung, as 46°44.0′N 019°00.3′W")
	flags.StringVar(&o.date, "date", "", "the day of the swing, as 2026-05-09")
	flags.StringVar(&o.step, "step", "15°", "step of the card: 10°, 15°, 22°30′, 11°15′ …")
	flags.StringVar(&o.out, "out", "", "directory for the two drawings; it is created if missing (default: a new temporary one)")
	flags.StringVar(&o.details.Vessel, "vessel", "", "name of the vessel, for the card")
	flags.StringVar(&o.details.Compass, "compass", "", "which compass, for the card")
	flags.StringVar(&o.details.Adjuster, "adjuster", "", "who swung the compass, for the card")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "swing: %q: everything is given with flags; -h explains\n", flags.Arg(0))
		return 2
	}
	flags.Visit(func(f *flag.Flag) { o.given = append(o.given, f.Name) })
	o.invent()
	job, err := o.parse()
	if err != nil {
		fmt.Fprintln(stderr, "swing:", err)
		return 2
	}
	if err := job.work(stdout, o.out); err != nil {
		fmt.Fprintln(stderr, "swing:", err)
		return 1
	}
	return 0
}

// invent fills in what belongs to the invented swing, if that is worked, where
// nothing else is given.
func (o *options) invent() {
	if o.path != "" {
		return
	}
	for to, text := range map[*string]string{
		&o.direction: "351°48′T", &o.variation: "5°08′W ±0°15′", &o.position: "46°44.0′N 019°00.3′W", &o.date: "2026-05-09",
		&o.details.Vessel: "Quillon (invented)", &o.details.Compass: "steering compass",
	} {
		if *to == "" {
			*to = text
		}
	}
}

// needs names the flags that a method can't do without, with your own record. The
// others of direction and variation it does not use, and they are refused.
var needs = map[string][]string{
	"transit": {"direction", "variation"}, "distant": nil, "sun": {"variation"}, "true": {"variation"}, "stated": nil,
}

// job is what there is to do.
type job struct {
	name     string
	record   []byte
	readErr  error
	method   swing.Method
	details  deviation.Details
	position angle.Position
	step     angle.Angle
	all      bool
	given    variation.Source // nil where the method uses none
}

// parse reads the flags.
func (o options) parse() (job, error) {
	j := job{name: o.path, details: o.details, all: o.all}
	fault := func(name string, err error) (job, error) { return job{}, fmt.Errorf("-%s: %w", name, err) }
	given := map[string]string{"direction": o.direction, "variation": o.variation, "position": o.position, "date": o.date}
	var missing []string
	for _, name := range append([]string{"position", "date"}, needs[o.method]...) {
		if given[name] == "" {
			missing = append(missing, "-"+name)
		}
	}
	if len(missing) > 0 {
		return job{}, fmt.Errorf("%s missing: give it with your own record by the method %s", strings.Join(missing, ", "), o.method)
	}
	if used, known := needs[o.method]; known {
		for _, name := range o.given {
			if (name == "direction" || name == "variation") && !slices.Contains(used, name) {
				return job{}, fmt.Errorf("-%s: the method %s does not use it: leave it out", name, o.method)
			}
		}
	}
	var v variation.Source
	var direction angle.True
	var err error
	if o.variation != "" {
		if v, err = parseVariation(o.variation); err != nil {
			return fault("variation", err)
		}
		if slices.Contains(needs[o.method], "variation") {
			j.given = v
		}
	}
	if o.direction != "" {
		if direction, err = angle.ParseTrue(o.direction); err != nil {
			return fault("direction", err)
		}
	}
	if j.position, err = angle.ParsePosition(o.position); err != nil {
		return fault("position", err)
	}
	if j.details.Date, err = time.Parse(time.DateOnly, o.date); err != nil {
		return job{}, fmt.Errorf("-date %q is not a date; write it as 2026-05-09", o.date)
	}
	if j.step, err = angle.Parse(o.step); err != nil {
		return fault("step", err)
	}
	known := angle.Must(angle.StandardUncertainty(0)) // a charted line is known far better than a compass reads
	methods := map[string]swing.Method{
		"transit": swing.Transit{Direction: direction, Uncertainty: known, Variation: v, At: &j.position, On: j.details.Date},
		"distant": swing.DistantObject{},
		"sun":     swing.SunAzimuths{Position: &j.position, Variation: v},
		"true":    swing.TrueHeadings{Uncertainty: known, Variation: v, At: &j.position, On: j.details.Date},
		"stated":  swing.StatedDeviations{},
	}
	var ok bool
	if j.method, ok = methods[o.method]; !ok {
		return job{}, fmt.Errorf("-method %q is unknown: give transit, distant, sun, true or stated", o.method)
	}
	j.details.Place = j.position.String()
	j.record = invented
	if o.path == "" {
		j.name = "swing.csv"
		j.details.Remarks = "Vessel, place and figures are invented."
		return j, nil
	}
	j.record, j.readErr = os.ReadFile(o.path)
	return j, nil
}

// parseVariation reads a known variation, or the legend of a rose.
func parseVariation(text string) (variation.Source, error) {
	v, err := variation.Parse(text)
	if err == nil {
		return v, nil
	}
	rose, legend := variation.ParseLegend(text)
	if legend != nil {
		return nil, fmt.Errorf("not a variation: %w; and not the legend of a rose: %w", err, legend)
	}
	return rose, nil
}

// compareVariation says by how much the variation given differs from a field model's.
func (j job) compareVariation(w io.Writer) error {
	if j.given == nil {
		return nil
	}
	asked, err := variation.Explain(j.given, j.position, j.details.Date)
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
	fmt.Fprintf(w, "The variation given is %v, by a field model %v: they differ by %s.\n", given.Angle().Round(angle.Minute).EastWest(), model.Angle().Round(angle.Minute).EastWest(), off.Abs().Round(angle.Minute).String())
	if s, stated := model.Uncertainty().Sigma(); stated && off.Abs() > 2*s+angle.Degree/2 {
		fmt.Fprintf(w, "Note: that is more than the model's uncertainty, ±%.1f°, explains: check the variation, its name and its year\n", s.Degrees())
	}
	return nil
}

// work reduces, fits, prints and draws.
func (j job) work(w io.Writer, out string) error {
	if j.readErr != nil {
		return j.readErr
	}
	swung, err := swing.ReadSwing(bytes.NewReader(j.record), j.method)
	if err != nil {
		return fmt.Errorf("%s: %w", j.name, err)
	}
	fit, err := swung.Fit(swing.FitOptions{Robust: !j.all})
	if err != nil {
		return err
	}
	var b bytes.Buffer
	printSwing(&b, swung, fit)
	if err := j.compareVariation(&b); err != nil {
		return err
	}
	analysis := adjust.Analyse(fit.Curve.Coefficients())
	fmt.Fprintf(&b, "\n%s", analysis.Working())
	if err := j.printLimit(&b, fit); err != nil {
		return err
	}
	card, err := deviation.NewCard(fit.Curve, j.step, j.details)
	if err != nil {
		return err
	}
	fmt.Fprintf(&b, "\n%s", card)
	if err := j.draw(&b, fit, out); err != nil {
		return err
	}
	_, err = w.Write(b.Bytes())
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

// draw writes the two drawings.
func (j job) draw(w io.Writer, fit *swing.Fit, out string) error {
	var err error
	if out == "" {
		out, err = os.MkdirTemp("", "swing-")
	} else {
		err = os.MkdirAll(out, 0o755)
	}
	if err != nil {
		return err
	}
	diagram := diagram.Plot{Details: j.details, Source: fit.Curve}
	for _, r := range fit.Residuals {
		if r.Rejected {
			diagram.Rejected = append(diagram.Rejected, r.Observation)
		} else {
			diagram.Observations = append(diagram.Observations, r.Observation)
		}
	}
	for name, write := range map[string]func(io.Writer) error{"curve.svg": diagram.WriteCurve, "napier.svg": diagram.WriteNapier} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(out, name), b.Bytes(), 0o644); err != nil {
			return err
		}
	}
	fmt.Fprintf(w, "\nDrawn, to print on A4: %s and %s\n", filepath.Join(out, "curve.svg"), filepath.Join(out, "napier.svg"))
	return nil
}
