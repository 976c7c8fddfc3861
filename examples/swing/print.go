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
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(table, "\nheading\ttrue\tmagnetic\tcompass\tdeviation\tcurve\tresidual\t\n")
	for _, r := range fit.Residuals {
		note := ""
		if r.Rejected {
			note = "  left out"
		}
		on, _ := fit.Curve.OnCompass(r.Heading) // a curve by compass has an answer on every heading
		read := func(key string) string {       // from the working of the observation, or of the swing
			step, ok := r.Working.Find(key)
			if !ok {
				step, _ = swung.Steps.Find(key)
			}
			return step.Value
		}
		fmt.Fprintf(table, "%v\t%s\t%s\t%s\t%v\t%s\t%s\t%s\n", r.Heading, read("true"), read("magnetic"), read("compass"), r.Deviation, on.Angle().Round(angle.Minute).EastWest(), r.Residual.Round(angle.Minute).EastWest(), note)
	}
	table.Flush()
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
