package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// printSwing prints what was reduced, what looks like a slip, and the fit.
func printSwing(w io.Writer, swing *deviation.Swing, fit *deviation.Fit) {
	fmt.Fprintf(w, "Swing by %s\n", swing.Method)
	w.Write(swing.Steps.Append(nil, "  ")) // into a buffer
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(table, "\nheading\tdeviation\tcurve\tleft over\t\n")
	for _, r := range fit.Residuals {
		note := ""
		if r.Rejected {
			note = "  left out"
		}
		on, _ := fit.Curve.OnCompass(r.Heading) // a curve by compass answers on all
		fmt.Fprintf(table, "%v\t%v\t%s\t%s\t%s\n", r.Heading, r.Deviation, on.Angle().Round(angle.Minute).EastWest(), r.Residual.Round(angle.Minute).EastWest(), note)
	}
	table.Flush()
	fmt.Fprintln(w)
	for _, s := range swing.Suspicions() {
		fmt.Fprintf(w, "Look again: %s\n", s)
	}
	for _, warning := range swing.Warnings {
		fmt.Fprintf(w, "Note: %s\n", warning)
	}
	if _, stated := swing.Common.Sigma(); !stated {
		fmt.Fprintln(w, "Note: the card has no ±: what all readings share, such as the variation, has no stated uncertainty (-variation \"5°08′W ±0°15′\" states it)")
	}
	fmt.Fprintf(w, "Coefficients          %v\n", fit.Coefficients())
	if se, known := fit.StandardErrors(); known {
		line := "Standard uncertainty  "
		for _, u := range []angle.Angle{se.A, se.B, se.C, se.D, se.E} {
			line += fmt.Sprintf("  ±%.2f°  ", u.Degrees())
		}
		fmt.Fprintln(w, strings.TrimRight(line, " "))
	}
	fmt.Fprintf(w, "One observation scatters about the curve by %.2f°, %d more observations than coefficients.\n", fit.StandardDeviation.Degrees(), fit.DegreesOfFreedom)
	if fit.ChiSquareProbability > 0 {
		fmt.Fprintf(w, "Chi-square against the stated uncertainties %.1f: chance exceeds it in %.0f cases in 100.\n", fit.ChiSquare, 100*fit.ChiSquareProbability)
	}
}
