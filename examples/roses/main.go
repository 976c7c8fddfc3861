// Command roses checks the compass roses of a chart against models of the earth's magnetic
// field. It compares the variation and the annual change of each rose, in the rose's own year
// and at a date.
//
// Without flags it checks invented roses, from the file beside it.
//
//	go run ./examples/roses
//	go run ./examples/roses -h # how to check your own roses
//
// It shows packages [lubberline.example/variation] and [lubberline.example/wmm].
package main

import (
	_ "embed"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"text/tabwriter"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/examples/internal/help"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

//go:embed roses.csv
var invented string

const about = `Usage: roses [flags]

Checks the compass roses of a chart against models of the earth's magnetic field.
The file of the roses is CSV, with a line of column names, or a JSON array of objects:

  name,position,legend
  Bay rose,47°06′N 019°02′W,7°20′W 2015 (12′E)

A column language names the language of a legend that is not in English: fr, de or es.

The models are valid from 1900 to 2030: the World Magnetic Model from 2015, and the
International Geomagnetic Reference Field before.

`

// main runs the program.
func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run runs the program and returns its exit status: 1 for an error in a file, 2 for an error
// in the flags.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("roses", flag.ContinueOnError)
	path := flags.String("roses", "", "`file` of the roses (default: invented roses)")
	dateText := flags.String("date", "", "`date` of the check (default 2026-07-02; with a file of your own, today)")
	format := flags.String("format", "text", "output `format`: text or json")
	if status, goOn := help.Parse(flags, about, args, stderr); !goOn {
		return status
	}
	if *dateText == "" {
		*dateText = "2026-07-02"
		if *path != "" {
			*dateText = time.Now().UTC().Format(time.DateOnly)
		}
	}
	date, err := time.Parse(time.DateOnly, *dateText)
	switch {
	case err != nil:
		err = fmt.Errorf("-date: %q is not a date; write it as 2026-07-02", *dateText)
	case flags.NArg() > 0:
		err = fmt.Errorf("%q: give the file with -roses, and no other words; -h explains the flags", flags.Arg(0))
	case *format != "text" && *format != "json":
		err = fmt.Errorf("-format %q: give text or json", *format)
	}
	if err != nil {
		fmt.Fprintln(stderr, "roses:", err)
		return 2
	}
	if err := check(*path, date, *format, stdout); err != nil {
		fmt.Fprintln(stderr, "roses:", err)
		return 1
	}
	return 0
}

// A finding is the result for one rose.
type finding struct {
	Name     string            `json:"name"`
	Legend   string            `json:"legend"`
	Verdict  variation.Verdict `json:"verdict"`
	Working  working.Sheet     `json:"working"`
	audit    variation.Audit
	warnings []working.Warning
}

// check audits each rose of a file, or of the invented roses, and prints the findings.
func check(path string, date time.Time, format string, w io.Writer) error {
	text, source := invented, "roses.csv"
	if path != "" {
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		text, source = string(data), path
	}
	chart, err := variation.ReadChart("", strings.NewReader(text))
	if err != nil {
		return fmt.Errorf("%s: %w", source, err)
	}
	models := wmm.Models()
	var findings []finding
	for _, r := range chart.Roses() {
		a, err := r.Rose.Audit(models, r.Position, date)
		if err != nil {
			return fmt.Errorf("%s: rose %q: %w", source, r.Name, err)
		}
		f := finding{Name: r.Name, Legend: r.Rose.String(), Verdict: a.Verdict, Working: a.Working(), audit: a}
		if e, err := variation.Explain(models, r.Position, date); err == nil {
			f.warnings = e.Warnings
			f.Working.Warnings = append(f.Working.Warnings, e.Warnings...)
		}
		f.Working.Title = r.Name + ": " + f.Working.Title
		findings = append(findings, f)
	}
	if format == "json" {
		e := json.NewEncoder(w)
		e.SetIndent("", "  ")
		e.SetEscapeHTML(false)
		return e.Encode(findings)
	}
	return printText(w, path == "", date, findings)
}

// printText prints a table of all roses, and the working of each.
func printText(w io.Writer, isInvented bool, date time.Time, findings []finding) error {
	var b strings.Builder
	fmt.Fprintf(&b, "Compass roses against the models of the magnetic field, %s.\n", date.Format("2 January 2006"))
	if isInvented {
		fmt.Fprintln(&b, "The roses are invented.")
	}
	fmt.Fprintln(&b)
	t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "  rose\tlegend\tvariation now\tmodel\tdifference\tverdict")
	for _, f := range findings {
		model, difference := "-", "-"
		if f.audit.Now.Err == nil {
			model = fmt.Sprintf("%.0v", f.audit.Now.Source)
			difference = fmt.Sprintf("%.0v", angle.EastWestFrom(f.audit.Now.Difference))
		}
		fmt.Fprintf(t, "  %s\t%s\t%.0v\t%s\t%s\t%s\n", working.OneLine(f.Name), f.Legend, f.audit.Now.Rose, model, difference, strings.ReplaceAll(string(f.Verdict), "-", " "))
	}
	t.Flush()
	for _, f := range findings {
		fmt.Fprintf(&b, "\n%s", f.Working)
	}
	fmt.Fprintf(&b, "\nA model leaves out local anomalies, but a rose may include one. Use the corrected chart first, and the model as a check.\n%s\n", working.Caution)
	_, err := io.WriteString(w, b.String())
	return err
}
