package conformance_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"lubberline.example/conformance"
)

// fewestExamples is how many published worked examples the corpus has at least, and
// fewestCases how many cases an operation has, unless fewer says why.
const fewestExamples, fewestCases = 110, 8

// fewer are the operations that need fewer cases, with the reason.
var fewer = map[string]string{
	"angle.compassCard": "one case asks for all 32 points",
}

// TestReadmeCountsTheCases holds the table in the README to the cases.
func TestReadmeCountsTheCases(t *testing.T) {
	kinds := conformance.Provenances()
	table := "| topic | " + strings.Join(kinds, " | ") + " | all |\n|" + strings.Repeat(" --- |", len(kinds)+2) + "\n"
	total, operations := map[string]int{}, map[string]int{}
	added := 0
	row := func(name string, n map[string]int) {
		all := 0
		table += "| " + name + " |"
		for _, k := range kinds {
			all += n[k]
			table += fmt.Sprintf(" %d |", n[k])
		}
		table += fmt.Sprintf(" %d |\n", all)
	}
	for _, topic := range load(t) {
		n := map[string]int{}
		for _, c := range topic.Cases {
			if c.Status != "active" {
				continue
			}
			k := conformance.Provenance(topic.Sources[c.Source.ID], c)
			if !slices.Contains(kinds, k) {
				t.Errorf("%s: %q", c.ID, k)
			}
			n[k]++
			total[k]++
			operations[c.Operation]++
			if c.Since == conformance.Version {
				added++
			}
		}
		row(topic.Topic, n)
	}
	row("all", total)
	readme, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(readme), table) {
		t.Errorf("README.md: the table of counts must be\n%s", table)
	}
	if want := fmt.Sprintf("### %s\n\n- %d cases more", conformance.Version, added); !strings.Contains(string(readme), want) {
		t.Errorf("README.md: the changes must have\n%s", want)
	}
	if n := total["worked example"]; n < fewestExamples {
		t.Errorf("%d published worked examples, want %d", n, fewestExamples)
	}
	for operation, n := range operations {
		if n < fewestCases && fewer[operation] == "" {
			t.Errorf("%s has %d cases, want %d or a reason", operation, n, fewestCases)
		}
	}
}
