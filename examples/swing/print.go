package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"text/tabwriter"

	"lubberline.example/angle"
	"lubberline.example/deviation/swing"
)

// printSwing prints the swing, the suspect readings and the fit.
func printSwing(w io.Writer, swung *swing.Swing, fit *swing.Fit) {
	fmt.Fprintf(w, "Swing by %s\n", swung.Method)
	w.Write(swung.Steps.Append(nil, "  ")) // into a buffer
	for _, s := range swung.Suspicions() {
		fmt.Fprintf(w, "Check this reading: %s\n", s)
	}
	printTable(w, swung, fit)
	fmt.Fprintln(w)
	for _, warning := range slices.Concat(swung.Warnings, fit.Working().Warnings) {
		fmt.Fprintf(w, "Warning: %s\n", warning)
	}
	fmt.Fprintf(w, "Coefficients               %v\n", fit.Curve.Coefficients())
	line := "Standard uncertainty       "
	for i := range 5 {
		u := "unknown"
		if v, known := fit.Covariance(i, i); known {
			u = fmt.Sprintf("±%.2f°", math.Sqrt(v))
		}
		line += fmt.Sprintf("  %-7s ", u)
	}
	fmt.Fprintln(w, strings.TrimRight(line, " "))
	for _, step := range fit.Working().Steps {
		switch step.Key {
		case "form", "order", "scatter", "degrees of freedom", "harmonics", "serial correlation", "chi-square":
			fmt.Fprintf(w, "%-25s  %s (%s)\n", step.What, step.Value, step.How)
		}
	}
}

// printTable prints a row for each reading: what was read, the deviation, and the curve. It
// leaves out the columns that the method does not have, and one that repeats the heading.
func printTable(w io.Writer, swung *swing.Swing, fit *swing.Fit) {
	read := func(o swing.Observation, key string) string { // from the working of the observation, or of the swing
		step, ok := o.Working.Find(key)
		if !ok {
			step, _ = swung.Steps.Find(key)
		}
		return step.Value
	}
	head := []string{"heading"}
	var keys []string
	for _, column := range [][2]string{{"shore", "from ashore"}, {"other", "second compass"}, {"true", "true"}, {"magnetic", "magnetic"}, {"compass", "compass"}} {
		if slices.ContainsFunc(fit.Residuals, func(r swing.Residual) bool {
			return !slices.Contains([]string{"", r.Heading.String()}, read(r.Observation, column[0]))
		}) {
			keys, head = append(keys, column[0]), append(head, column[1])
		}
	}
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintf(table, "\n%s\tdeviation\tcurve\tresidual\t\n", strings.Join(head, "\t"))
	minutes := func(a angle.Angle) string { return a.Round(angle.Minute).EastWestString() }
	for _, r := range fit.Residuals {
		note := ""
		if r.LeftOut {
			note = "  left out"
		}
		on, _ := fit.Curve.OnCompass(r.Heading) // a curve by compass has an answer on every heading
		fmt.Fprintf(table, "%v\t", r.Heading)
		for _, key := range keys {
			fmt.Fprintf(table, "%s\t", read(r.Observation, key))
		}
		fmt.Fprintf(table, "%v\t%v\t%v\t%s\n", minutes(r.Deviation.Angle()), minutes(on.Angle()), minutes(r.Residual), note)
	}
	table.Flush()
}
