// Command suncheck checks the compass by one bearing: of the Sun, of the rising or setting
// Sun (its amplitude), of a star, the Moon or a planet, or of two marks in line. It prints the true bearing, the compass
// error, the deviation in it, and whether the deviation card still holds by this and the
// earlier checks.
//
// Without flags it makes an invented check, with the invented card and log in the files
// beside it.
//
//	go run ./examples/suncheck
//	go run ./examples/suncheck -h # how to give it your own
//
// It shows packages [lubberline.example/deviation] and
// [lubberline.example/deviation/sky].
package main

import (
	"bytes"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/check"
	"lubberline.example/examples/internal/help"
	"lubberline.example/wmm"
)

// The invented card and log.
var (
	//go:embed deviation.csv
	inventedCard []byte
	//go:embed checks.csv
	inventedLog []byte
)

// about is the help text.
const about = `Usage: suncheck [flags]

Checks the compass by one bearing of the Sun or another body, by its amplitude or by a
transit, and the card by all checks. Without flags it makes an invented check by the Sun:

  -by azimuth      a bearing of the Sun (this is the default)
  -by amplitude    a bearing of the rising or setting Sun: -event, -horizon, -height
  -by body         a bearing of a star: -body Vega; or of the Moon or a planet by the
                   figures of an almanac: -body "the Moon" -gha 331°05′ -declination 12°34′S
  -by transit      two charted marks in line: -direction
  -well            no check: lists what stands well for one at -time from -position

The files are CSV, with a line of column names, or JSON arrays of objects:

  card    compass (or magnetic), deviation[, uncertainty]
  log     heading, deviation, uncertainty[, variation, time, against, bearing, position, …]

Never look at the Sun without a proper shade.

`

// main runs the program.
func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run runs the program and returns its exit status: 1 for an error in the files or the
// check, 2 for an error in the flags.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("suncheck", flag.ContinueOnError)
	var a asked
	a.define(flags)
	if status, goOn := help.Parse(flags, about, args, stderr); !goOn {
		return status
	}
	fail := func(status int, err error) int {
		fmt.Fprintln(stderr, "suncheck:", err)
		return status
	}
	r, c, err := a.read(flags)
	if err != nil {
		return fail(2, err)
	}
	if a.well {
		if err := listWellPlaced(stdout, c.position, r.Time); err != nil {
			return fail(1, err)
		}
		return 0
	}
	if a.form != "text" && a.form != "json" {
		return fail(2, fmt.Errorf("-format %.40q: give text or json", a.form))
	}
	if a.adding && (a.log == "" || a.log == noLog) {
		return fail(2, errors.New("-append: give the file of your log with -log too"))
	}
	if name := missing(flags); name != "" {
		return fail(2, fmt.Errorf("-%s missing: give it with your own card, log or method", name))
	}
	if r.Variation, err = variationOf(a.legend, r.Time, a.decimal); err != nil {
		return fail(2, fmt.Errorf("-rose: %w", err))
	}
	if err := work(stdout, r, c, a.card, a.log); err != nil {
		return fail(1, err)
	}
	return 0
}

// asked is what the flags say.
type asked struct {
	by, at, from, swung, heading, bearing, reading, legend         string
	event, horizon, body, hourAngle, declination, direction, chart string
	card, log, form                                                string
	height                                                         float64
	well, adding, decimal                                          bool
}

// define defines the flags.
func (a *asked) define(flags *flag.FlagSet) {
	flags.StringVar(&a.by, "by", "azimuth", "what the compass is checked against: azimuth, amplitude, body or transit")
	flags.StringVar(&a.at, "time", "2026-07-02T18:20:00Z", "time of the bearing, UTC")
	flags.StringVar(&a.from, "position", "46°52.8′N 019°24.5′W", "position of the vessel; not for a transit")
	flags.StringVar(&a.swung, "swung", "", "where the compass was swung, to warn of a card that was carried far; not for a transit")
	flags.StringVar(&a.heading, "heading", "226°C", "the vessel's heading by compass")
	flags.StringVar(&a.bearing, "bearing", "280.5°C", "bearing of the Sun or body (its centre), or of the transit, by compass")
	flags.StringVar(&a.reading, "uncertainty", "0.7°", "standard uncertainty of the bearing")
	flags.StringVar(&a.legend, "rose", "7°55′W 2012 (9′E)", "legend of the chart's rose, or the variation now: 5°49′W ±0°15′")
	flags.StringVar(&a.event, "event", "", "of an amplitude: rise or set")
	flags.StringVar(&a.horizon, "horizon", "celestial", "of an amplitude: celestial (Sun's lower limb two thirds of its diameter above the visible horizon) or visible")
	flags.Float64Var(&a.height, "height", 0, "of an amplitude on the visible horizon: height of eye in metres")
	flags.StringVar(&a.body, "body", "", "of a body: its name, such as Vega, Polaris or the Moon")
	flags.StringVar(&a.hourAngle, "gha", "", "of the Moon or a planet: its Greenwich hour angle by an almanac, such as 331°05′")
	flags.StringVar(&a.declination, "declination", "", "of the Moon or a planet: its declination by an almanac, such as 12°34′S")
	flags.BoolVar(&a.well, "well", false, "list the bodies that stand well for a check at -time from -position")
	flags.StringVar(&a.direction, "direction", "", "of a transit: its true direction by the chart, from the vessel, such as 062°T")
	flags.StringVar(&a.chart, "direction-uncertainty", "0.2°", "of a transit: standard uncertainty of its direction")
	flags.StringVar(&a.card, "card", "", "file of the deviation card (default: the invented one)")
	flags.StringVar(&a.log, "log", "", "file of earlier checks, or none (default: the invented ones, or none with your own card)")
	flags.StringVar(&a.form, "format", "text", "output: text or json; -log reads the checks in it")
	flags.BoolVar(&a.adding, "append", false, "append the check to the file of -log, which is begun if it does not exist")
	flags.BoolVar(&a.decimal, "decimal", false, "count the rose's change in decimal years, to the day, not in whole years")
}

// read reads the reading and what it is checked against. Its error names the flag.
func (a *asked) read(flags *flag.FlagSet) (r check.Reading, c checkWith, err error) {
	set := func(name string, fault error) {
		if err == nil && fault != nil {
			err = fmt.Errorf("-%s: %w", name, fault)
		}
	}
	c = checkWith{by: a.by, height: a.height, append: a.adding, json: a.form == "json", own: isOwn(flags)}
	set("by", c.refuse(flags))
	var fault error
	c.position, fault = angle.ParsePosition(a.from)
	set("position", fault)
	if a.swung != "" {
		place, fault := angle.ParsePosition(a.swung)
		set("swung", fault)
		c.swung = &place
	}
	if r.Time, fault = time.Parse(time.RFC3339, a.at); fault != nil {
		fault = fmt.Errorf("%.60q is not a time; write it as 2026-05-14T17:03:20Z", a.at)
	}
	set("time", fault)
	steered, fault := angle.ParseCompass(a.heading)
	set("heading", fault)
	read, fault := angle.ParseCompass(a.bearing)
	set("bearing", fault)
	r.Heading, r.Bearing = &steered, &read
	set("uncertainty", r.Uncertainty.UnmarshalText([]byte(a.reading)))
	set("body", c.readBody(a.body, a.hourAngle, a.declination, r.Time))
	set("event", c.readEvent(a.event))
	set("horizon", c.readHorizon(a.horizon))
	if c.by == "transit" {
		c.direction, fault = angle.ParseTrue(a.direction)
		set("direction", fault)
		set("direction-uncertainty", c.directionKnown.UnmarshalText([]byte(a.chart)))
	}
	if flags.NArg() > 0 {
		err = fmt.Errorf("%q: everything is given with flags; -h explains", flags.Arg(0))
	}
	return r, c, err
}

// isOwn reports whether the reading is the user's own. For other methods than the azimuth, missing
// asks for the rest of it.
func isOwn(flags *flag.FlagSet) bool {
	given := givenFlags(flags)
	if flags.Lookup("by").Value.String() != "azimuth" {
		return given["bearing"]
	}
	return firstMissing(given, "time", "position", "heading", "bearing", "rose") == ""
}

// whatIsInvented says what is invented in a check by the invented card.
func whatIsInvented(own bool, logPath string) string {
	switch {
	case !own:
		return "Vessel, coast and figures are invented."
	case logPath == "":
		return "The deviation card and the earlier checks are the invented ones: give those of your compass with -card and -log."
	}
	return "The deviation card is the invented one: give that of your compass with -card."
}

// missing is a flag that was not given, and must be with your own card or log:
// the invented reading was not taken with them.
func missing(flags *flag.FlagSet) string {
	given := givenFlags(flags)
	switch flags.Lookup("by").Value.String() {
	case "amplitude":
		if flags.Lookup("horizon").Value.String() == "visible" && !given["height"] {
			return "height"
		}
		return firstMissing(given, "time", "position", "heading", "bearing", "rose", "event")
	case "body":
		return firstMissing(given, "time", "position", "heading", "bearing", "rose", "body")
	case "transit":
		return firstMissing(given, "time", "heading", "bearing", "rose", "direction")
	}
	if given["card"] || given["log"] && flags.Lookup("log").Value.String() != noLog {
		return firstMissing(given, "time", "position", "heading", "bearing", "rose")
	}
	return ""
}

// work makes the check and reviews the card.
func work(w io.Writer, r check.Reading, c checkWith, cardPath, logPath string) error {
	earlierPath := logPath
	if _, err := os.Stat(logPath); c.append && errors.Is(err, os.ErrNotExist) {
		earlierPath = noLog // it is begun
	}
	table, earlier, invented, err := read(cardPath, earlierPath)
	if err != nil {
		return err
	}
	found, err := c.check(r)
	if err != nil {
		return err
	}
	on, err := deviation.Explain(table, *r.Heading)
	if err != nil {
		return err
	}
	var far []working.Warning
	if c.swung != nil {
		if far, err = carriedFar(table, *c.swung, c.position, r.Time); err != nil {
			return err
		}
	}
	review, err := judge(table, append(earlier, found))
	if err != nil {
		return err
	}
	found.Method = c.by
	if c.append {
		if err := check.AppendLog(logPath, found); err != nil {
			return fmt.Errorf("log %s: %w", logPath, err)
		}
	}
	var b bytes.Buffer
	if c.json {
		if err := writeJSON(&b, table, earlier, answer{invented, found, on.Deviation, review.Verdict, append(review.Reasons, far...), working.Caution}); err != nil {
			return err
		}
		_, err = w.Write(b.Bytes())
		return err
	}
	if invented {
		fmt.Fprintln(&b, whatIsInvented(c.own, logPath))
	}
	sheet := found.Working()
	sheet.Caution = "" // it stands at the end
	fmt.Fprintf(&b, "%s\n", sheet)
	fmt.Fprintf(&b, "Deviation found       %v (%s)\n", found.Deviation, known(found.Deviation))
	fmt.Fprintf(&b, "Deviation by the card %v (%s)\n\n", on.Deviation, on.Working[0].How)
	fmt.Fprintf(&b, "The card: %s\n", strings.ReplaceAll(string(review.Verdict), "-", " "))
	for _, reason := range review.Reasons {
		fmt.Fprintf(&b, "  %s\n", reason)
	}
	for _, w := range far {
		fmt.Fprintf(&b, "Warning: %s\n", w)
	}
	fmt.Fprintf(&b, "%s\n%s\n", deviation.AdjusterCaution, working.Caution)
	_, err = w.Write(b.Bytes())
	return err
}

// known prints how well a deviation is known.
func known(d deviation.Deviation) string {
	if u := d.Uncertainty(); u != (angle.Uncertainty{}) {
		return "standard uncertainty " + u.String()
	}
	return "standard uncertainty not known"
}

// judge reviews the card by the checks, of which the last is today's. Without its
// uncertainty the card can't be judged by it; the check stands all the same.
func judge(table *deviation.Table, checks []check.Check) (check.Review, error) {
	today := checks[len(checks)-1]
	if _, stated := today.Deviation.Uncertainty().Sigma(); stated {
		review, err := check.ReviewCard(table, checks)
		if err == nil {
			return review, nil
		}
		return judgeUsable(table, checks)
	}
	why := working.Warn("", "suncheck-bearing-unstated", "the uncertainty of the bearing is not stated")
	if _, stated := today.Variation.Uncertainty().Sigma(); !stated {
		why = working.Warn("", "suncheck-variation-unstated", "the uncertainty of the variation is unknown: the rose has no annual change, or the figure no ±")
	}
	return check.Review{Verdict: check.NotJudged, Reasons: []working.Warning{why}}, nil
}

// judgeUsable reviews the card by the checks that can be used: one of unknown uncertainty is left
// out, with a reason.
func judgeUsable(table *deviation.Table, checks []check.Check) (check.Review, error) {
	var usable []check.Check
	var left []working.Warning
	for i, c := range checks {
		_, err := check.ReviewCard(table, []check.Check{c})
		if fault, ok := errors.AsType[*check.Error](err); ok && i < len(checks)-1 {
			left = append(left, working.Warn("", "check-not-used", "check %d, on %v, is not used: %s", i+1, c.Heading, fault.Err))
			continue
		}
		usable = append(usable, c)
	}
	review, err := check.ReviewCard(table, usable)
	review.Reasons = append(review.Reasons, left...)
	return review, err
}

// carriedFar warns if the dip has changed much since the compass was swung at another place. The
// field at both places is that of a model.
func carriedFar(card deviation.Source, swung, here angle.Position, on time.Time) ([]working.Warning, error) {
	eight, err := deviation.OnEightHeadings(card)
	if err != nil {
		return nil, err
	}
	hand, err := deviation.AnalyseByHand(eight)
	if err != nil {
		return nil, err
	}
	exact, err := hand.Coefficients.Exact()
	if err != nil {
		return nil, err
	}
	model, err := wmm.Models().On(on)
	if err != nil {
		return nil, err
	}
	before, err := model.Field(swung, 0)
	if err != nil {
		return nil, err
	}
	now, err := model.Field(here, 0)
	if err != nil {
		return nil, err
	}
	return adjust.AnotherLatitude(exact, before, now)
}

// noLog instead of the name of a log's file means no log.
const noLog = "none"

// read reads the card and the log.
func read(cardPath, logPath string) (*deviation.Table, []check.Check, bool, error) {
	card, log := io.Reader(bytes.NewReader(inventedCard)), io.Reader(bytes.NewReader(inventedLog))
	if cardPath != "" {
		file, err := os.Open(cardPath)
		if err != nil {
			return nil, nil, false, err
		}
		defer file.Close()
		card, log = file, nil
	}
	switch logPath {
	case "":
	case noLog:
		log = nil
	default:
		file, err := os.Open(logPath)
		if err != nil {
			return nil, nil, false, err
		}
		defer file.Close()
		log = file
	}
	// The readers take no more of a file than package record does.
	table, err := deviation.ReadTable(card)
	if err != nil {
		return nil, nil, false, fmt.Errorf("card %s: %w", cardPath, err)
	}
	if log == nil {
		return table, nil, cardPath == "", nil
	}
	checks, err := readLog(log)
	if err != nil {
		return nil, nil, false, fmt.Errorf("log %s: %w", logPath, err)
	}
	return table, checks, cardPath == "", nil
}
