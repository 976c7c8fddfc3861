package main

import (
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"lubberline.example/conformance"
)

// listCases lists the chosen cases: the id, the operation, and where the case stands.
func listCases(w io.Writer, topics []conformance.Topic, o conformance.Options) {
	for _, t := range topics {
		for _, c := range t.Cases {
			if o.Match(t.Topic, c.ID) {
				fmt.Fprintf(w, "%s  %s  %s, %s\n", c.ID, c.Operation, t.Sources[c.Source.ID].Title, c.Source.At)
			}
		}
	}
}

// An outline is what the cases of an operation give and ask for.
type outline struct {
	cases, worked int            // in all; those that expect an answer
	given, asked  map[string]int // in how many cases each key stands
	refused       map[string]int // the kinds of refusal
}

// listOperations says of each operation of the chosen cases how many they are, what
// they give, what they ask for, and for what reasons an input is refused. Keys that not
// every case has stand in brackets.
func listOperations(w io.Writer, topics []conformance.Topic, o conformance.Options) error {
	operations := map[string]*outline{}
	for _, t := range topics {
		for _, c := range t.Cases {
			if c.Status != "active" || !o.Match(t.Topic, c.ID) {
				continue
			}
			u := operations[c.Operation]
			if u == nil {
				u = &outline{given: map[string]int{}, asked: map[string]int{}, refused: map[string]int{}}
				operations[c.Operation] = u
			}
			if err := u.add(c); err != nil {
				return err
			}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(operations)) {
		u := operations[name]
		s := "s"
		if u.cases == 1 {
			s = ""
		}
		fmt.Fprintf(w, "%s  %d case%s\n", name, u.cases, s)
		fmt.Fprintf(w, "  given    %s\n", keys(u.given, u.cases))
		if u.worked > 0 {
			fmt.Fprintf(w, "  answer   %s\n", keys(u.asked, u.worked))
		}
		if len(u.refused) > 0 {
			fmt.Fprintf(w, "  refused  %s\n", strings.Join(slices.Sorted(maps.Keys(u.refused)), ", "))
		}
	}
	return nil
}

// add counts the keys of a case.
func (u *outline) add(c conformance.Case) error {
	var given map[string]json.RawMessage
	if err := json.Unmarshal(c.Given, &given); err != nil {
		return fmt.Errorf("%s: %w", c.ID, err)
	}
	u.cases++
	if len(c.Refused) == 0 {
		u.worked++
	}
	for key := range given {
		u.given[key]++
	}
	for key := range c.Expect {
		u.asked[key]++
	}
	for _, kind := range c.Refused {
		u.refused[kind]++
	}
	return nil
}

// keys are the keys in order, those in brackets that not all cases have.
func keys(count map[string]int, all int) string {
	list := slices.Sorted(maps.Keys(count))
	for i, key := range list {
		if count[key] < all {
			list[i] = "[" + key + "]"
		}
	}
	if len(list) == 0 {
		return "nothing"
	}
	return strings.Join(list, ", ")
}
