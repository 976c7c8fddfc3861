// Command suncheck checks the compass by one bearing of the Sun: the Sun's true
// bearing, the compass error, the deviation in it, and whether the deviation
// card still holds by this and the earlier checks.
//
// Without flags it works an invented check, with the invented card and log whose
// files lie beside it.
//
//	go run ./examples/suncheck
//	go run ./examples/suncheck -h # how to give it your own
//
// It shows packages [lubberline.example/deviation] and
// [lubberline.example/deviation/sun].
package main

import (
	"bytes"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// The invented card and log.
var (
	//go:embed deviation.csv
	inventedCard []byte
	//go:embed checks.csv
	inventedLog []byte
)

const about = `Usage: suncheck [flags]

Checks the compass by one bearing of the Sun, and the card by all checks.
Without flags it works an invented check. The files are CSV, with a line of column
names, or JSON arrays of objects:

  card    compass (or magnetic), deviation[, uncertainty]
  log     heading, deviation, uncertainty[, variation, time, against]

Never look at the Sun without a proper shade.

`

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run does the program's work and returns its exit status: 1 for a fault in the
// files or the check, 2 for a fault in the flags.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("suncheck", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() {
		fmt.Fprint(stderr, about)
		flags.PrintDefaults()
	}
	at := flags.String("time", "2026-07-02T18:20:00Z", "time of the bearing, UTC")
	from := flags.String("position", "46°52.8′N 019°24.5′W", "where the vessel was")
	heading := flags.String("heading", "226°C", "her heading by compass")
	bearing := flags.String("bearing", "280.5°C", "bearing of the Sun's centre by compass")
	reading := flags.String("uncertainty", "0.7°", "standard uncertainty of the bearing")
	legend := flags.String("rose", "7°55′W 2012 (9′E)", "legend of the chart's rose")
	card := flags.String("card", "", "file of the deviation card (default: the invented one)")
	log := flags.String("log", "", "file of earlier checks, or none (default: the invented ones; with a card of your own, none)")
	decimal := flags.Bool("decimal", false, "count the rose's change in decimal years, to the day, in place of whole ones")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	var r deviation.CheckReading
	var err error
	set := func(name string, fault error) {
		if err == nil && fault != nil {
			err = fmt.Errorf("-%s: %w", name, fault)
		}
	}
	p, fault := angle.ParsePosition(*from)
	set("position", fault)
	if r.Time, fault = time.Parse(time.RFC3339, *at); fault != nil {
		fault = fmt.Errorf("%.60q: want a time such as 2026-05-14T17:03:20Z", *at)
	}
	set("time", fault)
	r.Heading, fault = angle.ParseCompass(*heading)
	set("heading", fault)
	r.Bearing, fault = angle.ParseCompass(*bearing)
	set("bearing", fault)
	set("uncertainty", r.Uncertainty.UnmarshalText([]byte(*reading)))
	rose, fault := variation.ParseLegend(*legend)
	set("rose", fault)
	if flags.NArg() > 0 {
		err = fmt.Errorf("%q: everything is given with flags; -h explains", flags.Arg(0))
	}
	if err != nil {
		fmt.Fprintln(stderr, "suncheck:", err)
		return 2
	}
	if name := missing(flags); name != "" {
		fmt.Fprintf(stderr, "suncheck: -%s: want it, with a card or a log of your own\n", name)
		return 2
	}
	count := variation.WholeYears
	if *decimal {
		count = variation.DecimalYears
	}
	projection, err := rose.On(r.Time, count)
	if err == nil {
		err = work(stdout, r, p, projection, *card, *log)
	}
	if err != nil {
		fmt.Fprintln(stderr, "suncheck:", err)
		return 1
	}
	return 0
}

// missing is a flag that was not given, and must be with a card or a log of one's own:
// the invented reading was not taken with them.
func missing(flags *flag.FlagSet) string {
	given := map[string]bool{}
	flags.Visit(func(f *flag.Flag) { given[f.Name] = true })
	if given["card"] || given["log"] && flags.Lookup("log").Value.String() != noLog {
		for _, name := range []string{"time", "position", "heading", "bearing", "rose"} {
			if !given[name] {
				return name
			}
		}
	}
	return ""
}

// work makes the check and reviews the card.
func work(w io.Writer, r deviation.CheckReading, p angle.Position, projection variation.Projection, cardPath, logPath string) error {
	table, earlier, invented, err := read(cardPath, logPath)
	if err != nil {
		return err
	}
	r.Variation = projection.Variation
	check, err := r.AgainstSun(p)
	if err != nil {
		return err
	}
	on, err := deviation.Explain(table, r.Heading)
	if err != nil {
		return err
	}
	review, err := judge(table, append(earlier, check))
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if invented {
		fmt.Fprintln(&b, "Vessel, coast and figures are invented.")
	}
	sheet := working.Sheet{
		Title: "Compass checked by the Sun, " + r.Time.UTC().Format("2 January 2006 15:04:05 UTC"),
		Steps: append(projection.Working(), check.Steps...),
	}
	sheet.Warnings = append(check.Warnings, projection.Warnings(variation.Limits{})...)
	fmt.Fprintf(&b, "%s\n", sheet)
	fmt.Fprintf(&b, "Deviation found       %v (%s)\n", check.Deviation, known(check.Deviation))
	fmt.Fprintf(&b, "Deviation by the card %v (%s)\n\n", on.Deviation, on.Working[0].How)
	fmt.Fprintf(&b, "The card: %s\n", review.Verdict)
	for _, reason := range review.Reasons {
		fmt.Fprintf(&b, "  %s\n", reason)
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
func judge(table *deviation.Table, checks []deviation.Check) (deviation.Review, error) {
	today := checks[len(checks)-1]
	if _, stated := today.Deviation.Uncertainty().Sigma(); stated {
		return deviation.ReviewChecks(table, checks)
	}
	why := "the uncertainty of the bearing is not stated"
	if _, stated := today.Variation.Uncertainty().Sigma(); !stated {
		why = "the rose states no annual change, and so not how well the variation is known"
	}
	return deviation.Review{Verdict: deviation.NotJudged, Reasons: []string{why}}, nil
}

// noLog in place of a log's file is none.
const noLog = "none"

// read reads the card and the log.
func read(cardPath, logPath string) (*deviation.Table, []deviation.Check, bool, error) {
	card, log := inventedCard, inventedLog
	var err error
	if cardPath != "" {
		log = nil
		if card, err = os.ReadFile(cardPath); err != nil {
			return nil, nil, false, err
		}
	}
	switch logPath {
	case "":
	case noLog:
		log = nil
	default:
		if log, err = os.ReadFile(logPath); err != nil {
			return nil, nil, false, err
		}
	}
	table, err := deviation.ReadTable(bytes.NewReader(card))
	if err != nil {
		return nil, nil, false, fmt.Errorf("card %s: %w", cardPath, err)
	}
	if log == nil {
		return table, nil, cardPath == "", nil
	}
	checks, err := deviation.ReadChecks(bytes.NewReader(log))
	if err != nil {
		return nil, nil, false, fmt.Errorf("log %s: %w", logPath, err)
	}
	return table, checks, cardPath == "", nil
}
