package main

import (
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"lubberline.example/conformance"
)

// writers are the forms of the report.
var writers = map[string]func(io.Writer, conformance.Report, bool) error{
	"text": writeText, "json": writeJSON, "junit": writeJUnit,
}

// writeText prints the cases that did not pass, or every case, then counts and the summary.
func writeText(w io.Writer, r conformance.Report, all bool) error {
	var b strings.Builder
	for _, result := range r.Results {
		if all || result.Status != conformance.Pass && result.Status != conformance.NotOffered {
			fmt.Fprintln(&b, result)
		}
	}
	t := newTally(r)
	for _, group := range []struct {
		name   string
		counts []count
	}{{"by topic", t.Topics}, {"by provenance", t.Provenances}, {"by tier", t.Tiers}} {
		fmt.Fprintln(&b, group.name)
		for _, c := range group.counts {
			fmt.Fprintf(&b, "  %-18s %4d of %4d passed\n", c.Name, c.Passed, c.Asked)
		}
	}
	fmt.Fprintf(&b, "%s %s, corpus %s, tier %s: %s\n", r.Subject, r.Version, r.Corpus, r.Tier, r.Summary())
	_, err := io.WriteString(w, b.String())
	return err
}

// A result is a case in the JSON report.
type result struct {
	ID           string                    `json:"id"`
	Topic        string                    `json:"topic"`
	Operation    string                    `json:"operation"`
	Status       conformance.Status        `json:"status"`
	Given        json.RawMessage           `json:"given"`
	Expected     expected                  `json:"expected"`
	Got          *got                      `json:"got,omitempty"` // nothing if not offered
	Problems     []string                  `json:"problems,omitempty"`
	Conventions  []string                  `json:"conventions,omitempty"` // that others may hold otherwise
	Tiers        map[conformance.Tier]bool `json:"tiers,omitempty"`       // whether it passes at each
	Milliseconds float64                   `json:"milliseconds"`
	Source       string                    `json:"source"`
	Standing     conformance.Standing      `json:"standing"`
	Provenance   string                    `json:"provenance"` // the standing, with the kind of the source
}

// An expected is what a case expects at the tier of the run.
type expected struct {
	Answer  map[string]conformance.Expected `json:"answer,omitempty"`
	Refused []string                        `json:"refused,omitempty"` // kinds, any of which passes
}

// A got is what the program answered.
type got struct {
	Answer  conformance.Answer `json:"answer,omitempty"`
	Refused *string            `json:"refused,omitempty"` // the kind, which may be empty
	Error   string             `json:"error,omitempty"`
}

// gotOf is what a result has of the program.
func gotOf(k conformance.Result) *got {
	if k.Status == conformance.NotOffered {
		return nil
	}
	g := &got{Answer: k.Answer}
	if e, ok := k.Err.(*conformance.Error); ok && e.Status == conformance.Refused {
		g.Refused = &e.Kind
		g.Error = e.Reason
	} else if k.Err != nil {
		g.Error = k.Err.Error()
	}
	return g
}

// writeJSON writes every case with its status.
func writeJSON(w io.Writer, r conformance.Report, _ bool) error {
	data := struct {
		Subject string                     `json:"subject"`
		Version string                     `json:"version"`
		Corpus  string                     `json:"corpus"`
		Tier    conformance.Tier           `json:"tier"`
		Good    bool                       `json:"good"`
		Summary string                     `json:"summary"`
		Counts  map[conformance.Status]int `json:"counts"`
		tally
		Results []result `json:"results"`
	}{r.Subject, r.Version, r.Corpus, r.Tier, r.Good(), r.Summary(), r.Counts(), newTally(r), []result{}}
	for _, k := range r.Results {
		data.Results = append(data.Results, result{
			ID: k.Case.ID, Topic: k.Topic, Operation: k.Case.Operation, Status: k.Status,
			Given: k.Case.Given, Expected: expected{k.Expect, k.Case.Refused}, Got: gotOf(k), Problems: k.Problems, Conventions: k.Conventions, Tiers: k.Tiers,
			Milliseconds: float64(k.Took.Microseconds()) / 1000,
			Source:       k.Source.Title + ", " + k.Case.Source.At, Standing: k.Case.Standing,
			Provenance: conformance.Provenance(k.Source, k.Case),
		})
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(data)
}

// writeJUnit writes the form that continuous integration reads.
func writeJUnit(w io.Writer, r conformance.Report, _ bool) error {
	type message struct {
		Message string `xml:"message,attr"`
		Text    string `xml:",chardata"`
	}
	type testCase struct {
		Name    string   `xml:"name,attr"`
		Class   string   `xml:"classname,attr"`
		Time    string   `xml:"time,attr"`
		Failure *message `xml:"failure,omitempty"`
		Error   *message `xml:"error,omitempty"`
		Skipped *message `xml:"skipped,omitempty"`
	}
	type property struct {
		Name  string `xml:"name,attr"`
		Value string `xml:"value,attr"`
	}
	suite := struct {
		XMLName    xml.Name   `xml:"testsuite"`
		Name       string     `xml:"name,attr"`
		Tests      int        `xml:"tests,attr"`
		Failures   int        `xml:"failures,attr"`
		Errors     int        `xml:"errors,attr"`
		Skipped    int        `xml:"skipped,attr"`
		Properties []property `xml:"properties>property"`
		Cases      []testCase `xml:"testcase"`
	}{Name: r.Subject, Tests: len(r.Results)}
	add := func(name, value string) { suite.Properties = append(suite.Properties, property{name, value}) }
	add("version", r.Version)
	add("corpus", r.Corpus)
	add("tier", string(r.Tier))
	t := newTally(r)
	for group, counts := range [][]count{t.Topics, t.Provenances, t.Tiers} {
		for _, c := range counts {
			add([]string{"topic ", "provenance ", "tier "}[group]+c.Name, fmt.Sprintf("%d of %d passed", c.Passed, c.Asked))
		}
	}
	for _, k := range r.Results {
		c := testCase{Name: k.Case.ID, Class: k.Case.Operation, Time: fmt.Sprintf("%.6f", k.Took.Seconds())}
		m := &message{string(k.Status), strings.Join(k.Problems, "\n")}
		switch k.Status {
		case conformance.Pass:
		case conformance.Fail, conformance.KnownPasses, conformance.Declined:
			c.Failure = m
			suite.Failures++
		case conformance.NotOffered, conformance.KnownFail:
			c.Skipped = m
			suite.Skipped++
		default:
			c.Error = m
			suite.Errors++
		}
		suite.Cases = append(suite.Cases, c)
	}
	data, err := xml.MarshalIndent(suite, "", "  ")
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(w, "%s%s\n", xml.Header, data)
	return err
}
