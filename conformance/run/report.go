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

// writeText prints what did not pass, and the summary; or every case.
func writeText(w io.Writer, r conformance.Report, all bool) error {
	var b strings.Builder
	for _, result := range r.Results {
		if all || result.Status != conformance.Pass && result.Status != conformance.NotOffered {
			fmt.Fprintln(&b, result)
		}
	}
	for _, c := range byProvenance(r) {
		if c.Asked > 0 {
			fmt.Fprintf(&b, "  %-18s %4d of %4d passed\n", c.Provenance, c.Passed, c.Asked)
		}
	}
	fmt.Fprintf(&b, "%s %s, corpus %s: %s\n", r.Subject, r.Version, r.Corpus, r.Summary())
	_, err := io.WriteString(w, b.String())
	return err
}

// A count is how many cases of one provenance the subject was asked, and how many passed.
type count struct {
	Provenance string `json:"provenance"`
	Asked      int    `json:"asked"`
	Passed     int    `json:"passed"`
}

// byProvenance counts the cases of operations that are offered by what stands behind them.
func byProvenance(r conformance.Report) []count {
	var counts []count
	for _, p := range conformance.Provenances() {
		c := count{Provenance: p}
		for _, k := range r.Results {
			if k.Status == conformance.NotOffered || conformance.Provenance(k.Source, k.Case) != p {
				continue
			}
			c.Asked++
			if k.Status == conformance.Pass {
				c.Passed++
			}
		}
		counts = append(counts, c)
	}
	return counts
}

// byTopic counts the same by topic.
func byTopic(r conformance.Report) map[string]map[conformance.Status]int {
	counts := map[string]map[conformance.Status]int{}
	for _, k := range r.Results {
		if counts[k.Topic] == nil {
			counts[k.Topic] = map[conformance.Status]int{}
		}
		counts[k.Topic][k.Status]++
	}
	return counts
}

// writeJSON writes every case with its status.
func writeJSON(w io.Writer, r conformance.Report, _ bool) error {
	type result struct {
		ID           string             `json:"id"`
		Operation    string             `json:"operation"`
		Status       conformance.Status `json:"status"`
		Problems     []string           `json:"problems,omitempty"`
		Milliseconds float64            `json:"milliseconds"`
		Source       string             `json:"source"`
		Provenance   string             `json:"provenance"`
	}
	data := struct {
		Subject string                                `json:"subject"`
		Version string                                `json:"version"`
		Corpus  string                                `json:"corpus"`
		Summary string                                `json:"summary"`
		Counts  map[conformance.Status]int            `json:"counts"`
		Topics  map[string]map[conformance.Status]int `json:"topics"`
		Sources []count                               `json:"provenance"`
		Results []result                              `json:"results"`
	}{r.Subject, r.Version, r.Corpus, r.Summary(), r.Counts(), byTopic(r), byProvenance(r), []result{}}
	for _, k := range r.Results {
		data.Results = append(data.Results, result{k.Case.ID, k.Case.Operation, k.Status, k.Problems, float64(k.Took.Microseconds()) / 1000, k.Source.Title + ", " + k.Case.Source.At, conformance.Provenance(k.Source, k.Case)})
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
	suite := struct {
		XMLName  xml.Name   `xml:"testsuite"`
		Name     string     `xml:"name,attr"`
		Tests    int        `xml:"tests,attr"`
		Failures int        `xml:"failures,attr"`
		Errors   int        `xml:"errors,attr"`
		Skipped  int        `xml:"skipped,attr"`
		Cases    []testCase `xml:"testcase"`
	}{Name: r.Subject, Tests: len(r.Results)}
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
