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
	log := flags.String("log", "", "file of earlier checks (default: the invented ones; with a card of your own, none)")
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
	r.Time, fault = time.Parse(time.RFC3339, *at)
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
	given := map[string]bool{}
	flags.Visit(func(f *flag.Flag) { given[f.Name] = true })
	if given["card"] || given["log"] {
		for _, name := range []string{"time", "position", "heading", "bearing", "rose"} {
			if !given[name] {
				fmt.Fprintf(stderr, "suncheck: -%s: want it, with a card or a log of your own\n", name)
				return 2
			}
		}
	}
	if err := work(stdout, r, p, rose, *card, *log); err != nil {
		fmt.Fprintln(stderr, "suncheck:", err)
		return 1
	}
	return 0
}

// work makes the check and reviews the card.
func work(w io.Writer, r deviation.CheckReading, p angle.Position, rose variation.Rose, cardPath, logPath string) error {
	table, earlier, invented, err := read(cardPath, logPath)
	if err != nil {
		return err
	}
	projection, err := rose.On(r.Time, variation.DecimalYears)
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
	review, err := deviation.ReviewChecks(table, append(earlier, check))
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
	fmt.Fprintf(&b, "Deviation found       %v (standard uncertainty %v)\n", check.Deviation, check.Deviation.Uncertainty())
	fmt.Fprintf(&b, "Deviation by the card %v (%s)\n\n", on.Deviation, on.Working[0].How)
	fmt.Fprintf(&b, "The card: %s\n", review.Verdict)
	for _, reason := range review.Reasons {
		fmt.Fprintf(&b, "  %s\n", reason)
	}
	fmt.Fprintf(&b, "%s\n%s\n", deviation.AdjusterCaution, working.Caution)
	_, err = w.Write(b.Bytes())
	return err
}

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
	if logPath != "" {
		if log, err = os.ReadFile(logPath); err != nil {
			return nil, nil, false, err
		}
	}
	table, err := deviation.ReadTable(bytes.NewReader(card))
	if err != nil {
		return nil, nil, false, fmt.Errorf("card %s: %w", cardPath, err)
	}
	if log == nil {
		return table, nil, false, nil
	}
	checks, err := deviation.ReadChecks(bytes.NewReader(log))
	if err != nil {
		return nil, nil, false, fmt.Errorf("log %s: %w", logPath, err)
	}
	return table, checks, cardPath == "", nil
}
