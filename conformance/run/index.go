package main

import (
	"bytes"
	"cmp"
	_ "embed"
	"encoding/json"
	"fmt"
	"html/template"
	"io"
	"maps"
	"slices"
	"strings"

	"lubberline.example/conformance"
	"lubberline.example/conformance/internal/schema"
)

//go:embed index.html.tmpl
var indexTemplate string

// An index is what the page shows.
type index struct {
	bundle
	File       string // of the cases
	Cases      int    // that are active
	Operations []*indexOperation
	Topics     []indexTopic
	Sources    []*indexSource
	Coverage   []coverage
	Total      coverage
}

// An indexOperation is one operation with its cases.
type indexOperation struct {
	schema.Operation
	Name          string
	Given, Answer []schema.Row
	Cases         []indexCase
}

// An indexCase is one case as text.
type indexCase struct {
	bundleCase
	Topic, Source, Given string
	Wanted               []string // the expected values with their tolerances
	Flagged              []string // the flags with their meanings
	TierNames            []string
}

// An indexTopic is one topic with its operations.
type indexTopic struct {
	Name       string
	Cases      int
	Operations []named // name, and the number of cases
}

// An indexSource is one source with its cases.
type indexSource struct {
	conformance.Source
	IDs []string
}

// A coverage is the number of cases of an operation by standing and tier.
type coverage struct {
	Name   string
	Counts []int // in the order of conformance.Provenances, then of the tiers
	All    int
}

// newIndex arranges a bundle for the page.
func newIndex(b bundle, s schema.Schema) index {
	x := index{bundle: b, File: bundleFile, Total: coverage{Name: "all"}}
	operations := map[string]*indexOperation{}
	rows := map[string]*coverage{}
	sources := map[string]*indexSource{}
	columns := len(conformance.Provenances()) + len(tierMeanings)
	x.Total.Counts = make([]int, columns)
	for _, name := range s.Names() {
		o := s.Operations[name]
		operations[name] = &indexOperation{Operation: o, Name: name, Given: s.Rows(o.Given), Answer: s.Rows(o.Answer)}
		rows[name] = &coverage{Name: name, Counts: make([]int, columns)}
	}
	for _, t := range b.Topics {
		topic := indexTopic{Name: t.Topic}
		counts := map[string]int{}
		for _, c := range t.Cases {
			if c.Status != "active" {
				continue
			}
			x.Cases++
			topic.Cases++
			counts[c.Operation]++
			o := operations[c.Operation]
			o.Cases = append(o.Cases, newIndexCase(t, c))
			rows[c.Operation].add(c)
			x.Total.add(c)
			source := t.Sources[c.Source.ID]
			key := source.Title + "\n" + source.Edition
			if sources[key] == nil {
				sources[key] = &indexSource{Source: source}
			}
			sources[key].IDs = append(sources[key].IDs, c.ID)
		}
		for _, name := range slices.Sorted(maps.Keys(counts)) {
			topic.Operations = append(topic.Operations, named{name, fmt.Sprint(counts[name])})
		}
		x.Topics = append(x.Topics, topic)
	}
	for _, name := range s.Names() {
		x.Operations = append(x.Operations, operations[name])
		x.Coverage = append(x.Coverage, *rows[name])
	}
	for _, key := range slices.SortedFunc(maps.Keys(sources), func(a, b string) int { return cmp.Compare(strings.ToLower(a), strings.ToLower(b)) }) {
		x.Sources = append(x.Sources, sources[key])
	}
	return x
}

// add counts a case.
func (c *coverage) add(k bundleCase) {
	c.All++
	provenances := conformance.Provenances()
	c.Counts[slices.Index(provenances, k.Provenance)]++
	for i, tier := range tierMeanings {
		if slices.Contains(k.Tiers, conformance.Tier(tier.Name)) {
			c.Counts[len(provenances)+i]++
		}
	}
}

// newIndexCase says in text what a case has.
func newIndexCase(t bundleTopic, c bundleCase) indexCase {
	out := indexCase{bundleCase: c, Topic: t.Topic}
	source := t.Sources[c.Case.Source.ID]
	out.Source = source.Title
	if source.Edition != "" {
		out.Source += ", " + source.Edition
	}
	out.Source += "; " + c.Case.Source.At
	var given bytes.Buffer
	if err := json.Indent(&given, c.Given, "", " "); err != nil {
		given.Write(c.Given)
	}
	out.Given = given.String()
	for _, key := range slices.Sorted(maps.Keys(c.Expect)) {
		out.Wanted = append(out.Wanted, key+": "+c.Expect[key].String())
	}
	for _, tier := range c.Tiers {
		out.TierNames = append(out.TierNames, string(tier))
	}
	for _, name := range c.Flags {
		out.Flagged = append(out.Flagged, strings.ReplaceAll(name, "-", " ")+": "+t.Flags[name].Means)
	}
	return out
}

// String returns an expected value with its tolerances.
func (e bundleExpected) String() string {
	value, err := json.Marshal(e.Value)
	text := string(value)
	if s, ok := e.Value.(string); ok || err != nil {
		return "“" + s + "”"
	}
	text += e.Unit + " ± " + fmt.Sprint(e.Within) + e.Unit
	if e.Navigation > e.Within {
		text += fmt.Sprintf(" (navigation: ± %v%s)", e.Navigation, e.Unit)
	}
	if e.Printed != "" {
		text += "; printed: " + e.Printed
	}
	return text
}

// writeIndex writes the page.
func writeIndex(w io.Writer, b bundle, s schema.Schema) error {
	t, err := template.New("index").Funcs(template.FuncMap{
		"join": strings.Join,
		// An id has letters, figures, hyphens and slashes, which need no escape in a fragment.
		"fragment": func(id string) template.URL { return template.URL("#" + id) },
	}).Parse(indexTemplate)
	if err != nil {
		return err
	}
	return t.Execute(w, newIndex(b, s))
}
