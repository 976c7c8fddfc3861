package main

import (
	"slices"

	"lubberline.example/conformance"
)

// A count is how many cases of one name were asked, and how many of them passed. Cases of
// operations that are not offered are not asked.
type count struct {
	Name   string `json:"name"`
	Asked  int    `json:"asked"`
	Passed int    `json:"passed"`
}

// A tally counts the cases of a report in three ways.
type tally struct {
	Topics      []count `json:"topics"`
	Tiers       []count `json:"tiers"`       // the same answers at each tier
	Provenances []count `json:"provenances"` // by what stands behind the cases
}

// newTally counts the cases of a report.
func newTally(r conformance.Report) tally {
	var topics []string
	for _, k := range r.Results {
		if !slices.Contains(topics, k.Topic) {
			topics = append(topics, k.Topic)
		}
	}
	passed := func(k conformance.Result) bool { return k.Status == conformance.Pass }
	t := tally{Topics: []count{}, Provenances: []count{}}
	for _, name := range topics {
		if c := counted(r, name, func(k conformance.Result) bool { return k.Topic == name }, passed); c.Asked > 0 {
			t.Topics = append(t.Topics, c)
		}
	}
	for _, tier := range []conformance.Tier{conformance.TierNavigation, conformance.TierLibrary, conformance.TierFormat} {
		t.Tiers = append(t.Tiers, counted(r, string(tier),
			func(k conformance.Result) bool { _, has := k.Tiers[tier]; return has },
			func(k conformance.Result) bool { return k.Tiers[tier] }))
	}
	for _, name := range conformance.Provenances() {
		if c := counted(r, name, func(k conformance.Result) bool { return conformance.Provenance(k.Source, k.Case) == name }, passed); c.Asked > 0 {
			t.Provenances = append(t.Provenances, c)
		}
	}
	return t
}

// counted counts the cases of one name.
func counted(r conformance.Report, name string, is, passed func(conformance.Result) bool) count {
	c := count{Name: name}
	for _, k := range r.Results {
		if k.Status == conformance.NotOffered || !is(k) {
			continue
		}
		c.Asked++
		if passed(k) {
			c.Passed++
		}
	}
	return c
}
