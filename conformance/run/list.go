package main

import (
	"fmt"
	"io"

	"lubberline.example/conformance"
)

// listCases lists the chosen cases: the id, the operation and the place in the source.
func listCases(w io.Writer, topics []conformance.Topic, o conformance.Options) {
	for _, t := range topics {
		for _, c := range t.Cases {
			if c.Status == "active" && o.Match(t.Topic, c) {
				fmt.Fprintf(w, "%s  %s  %s, %s\n", c.ID, c.Operation, t.Sources[c.Source.ID].Title, c.Source.At)
			}
		}
	}
}
