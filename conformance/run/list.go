package main

import (
	"errors"
	"fmt"
	"io"

	"lubberline.example/conformance"
)

// errNoCase is the error if the flags choose no case.
var errNoCase = errors.New("no case is chosen; check -topic, -run and -skip")

// listCases lists the chosen cases: the id, the operation and the place in the source.
func listCases(w io.Writer, topics []conformance.Topic, o conformance.Options) error {
	listed := 0
	for _, t := range topics {
		for _, c := range t.Cases {
			if c.Status == "active" && o.Match(t.Topic, c) {
				listed++
				fmt.Fprintf(w, "%s  %s  %s, %s\n", c.ID, c.Operation, t.Sources[c.Source.ID].Title, c.Source.At)
			}
		}
	}
	if listed == 0 {
		return errNoCase
	}
	return nil
}
