package main

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"lubberline.example/conformance"
	"lubberline.example/conformance/internal/schema"
)

// bundled writes the bundle and returns its two files.
func bundled(t *testing.T) (cases, page []byte) {
	t.Helper()
	directory := filepath.Join(t.TempDir(), "new")
	var out, errs bytes.Buffer
	if status := run([]string{"-bundle", directory}, &out, &errs); status != 0 {
		t.Fatalf("status %d: %s", status, &errs)
	}
	read := func(name string) []byte {
		data, err := os.ReadFile(filepath.Join(directory, name))
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	return read("lubberline-cases.json"), read("index.html")
}

// The same corpus gives the same bytes.
func TestBundleIsDeterministic(t *testing.T) {
	cases, page := bundled(t)
	for range 2 {
		otherCases, otherPage := bundled(t)
		if !bytes.Equal(cases, otherCases) || !bytes.Equal(page, otherPage) {
			t.Fatal("the bundle differs from one run to the next")
		}
	}
}

// The file has every case as the corpus has it, with its source, its tiers and both tolerances,
// and the schema of its operation.
func TestBundleIsWhole(t *testing.T) {
	data, _ := bundled(t)
	var b struct {
		Corpus, Licence string
		Topics          []struct {
			Topic   string
			Sources map[string]conformance.Source
			Cases   []struct {
				ID, Operation, Provenance, Status string
				Tiers                             []string
				Given                             any
				Refused                           []string
				Expect                            map[string]struct {
					Value              any
					Within, Navigation *float64
				}
				Source struct{ ID string }
			}
		}
		Provenances []struct{ Name, Means string }
		Operations  struct {
			Operations map[string]struct{ Given, Answer map[string]any }
		}
		Schemas map[string]any
		Facts   any
	}
	if err := json.Unmarshal(data, &b); err != nil {
		t.Fatal(err)
	}
	if b.Corpus != conformance.Version || !strings.HasPrefix(b.Licence, "BSD 3-Clause") || b.Schemas["cases-1"] == nil || b.Facts == nil {
		t.Errorf("corpus %q, licence %.20q, schemas %d", b.Corpus, b.Licence, len(b.Schemas))
	}
	for _, s := range b.Provenances {
		if s.Means == "" {
			t.Errorf("provenance %s has no meaning", s.Name)
		}
	}
	topics, err := conformance.Load()
	if err != nil {
		t.Fatal(err)
	}
	if len(topics) != len(b.Topics) {
		t.Fatalf("%d topics of %d", len(b.Topics), len(topics))
	}
	for i, topic := range topics {
		if len(topic.Cases) != len(b.Topics[i].Cases) {
			t.Fatalf("%s: %d cases of %d", topic.Topic, len(b.Topics[i].Cases), len(topic.Cases))
		}
		for j, c := range topic.Cases {
			k := b.Topics[i].Cases[j]
			if k.ID != c.ID || len(k.Expect) != len(c.Expect) || len(k.Tiers) == 0 || b.Topics[i].Sources[k.Source.ID].Title == "" {
				t.Errorf("%s: %+v", c.ID, k)
			}
			if k.Status == "active" && b.Operations.Operations[k.Operation].Given == nil {
				t.Errorf("%s: no schema of %s", c.ID, k.Operation)
			}
			for key, want := range k.Expect {
				if want.Value == nil || want.Within == nil || want.Navigation == nil || *want.Navigation < *want.Within {
					t.Errorf("%s: %s: %+v", c.ID, key, want)
				}
			}
		}
	}
}

// The file follows its schema, which it contains.
func TestBundleFollowsItsSchema(t *testing.T) {
	data, _ := bundled(t)
	var file map[string]any
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	rules := file["schemas"].(map[string]any)["bundle-1"].(map[string]any)
	for _, problem := range (schema.Validator{Root: rules}).Check("bundle", rules, any(file)) {
		t.Error(problem)
	}
}

// The tiers that the bundle states are those at which a run compares the case.
func TestBundleStatesTheTiersOfARun(t *testing.T) {
	b, _, err := newBundle()
	if err != nil {
		t.Fatal(err)
	}
	stated := map[string]int{}
	for _, topic := range b.Topics {
		for _, c := range topic.Cases {
			stated[c.ID] = len(c.Tiers)
		}
	}
	report, err := conformance.Hold(idle{}, "idle", "", conformance.Options{}, func(r conformance.Result) error {
		if len(r.Tiers) != stated[r.Case.ID] {
			t.Errorf("%s: %v, %d stated", r.Case.ID, r.Tiers, stated[r.Case.ID])
		}
		return nil
	})
	if err != nil || len(report.Results) < 1000 {
		t.Errorf("%d results, %v", len(report.Results), err)
	}
}

// An idle worker offers everything and answers nothing.
type idle struct{}

func (idle) Offers(string) bool                                { return true }
func (idle) Work(conformance.Case) (conformance.Answer, error) { return conformance.Answer{}, nil }

// The page is well-formed, lets no script in, and every link on it leads somewhere.
func TestIndexPageIsSound(t *testing.T) {
	_, page := bundled(t)
	d := xml.NewDecoder(bytes.NewReader(page))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	ids, links := map[string]bool{}, map[string]bool{}
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if start.Name.Local == "script" {
			t.Error("the page has a script")
		}
		for _, a := range start.Attr {
			switch a.Name.Local {
			case "id":
				if ids[a.Value] {
					t.Errorf("id %s occurs twice", a.Value)
				}
				ids[a.Value] = true
			case "href", "aria-labelledby":
				links[a.Value] = true
			}
		}
	}
	for link := range links {
		if id := strings.TrimPrefix(link, "#"); !ids[id] && link != "lubberline-cases.json" {
			t.Fatalf("nothing at %s", link)
		}
	}
	if len(ids) < 1100 || bytes.Contains(page, []byte("ZgotmplZ")) {
		t.Errorf("%d ids", len(ids))
	}
}

// The licence is that of the module.
func TestBundleHasTheLicence(t *testing.T) {
	data, err := os.ReadFile("../../LICENSE")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(string(data), licence) || len(licence) < 1000 {
		t.Error("licence.txt is not the beginning of LICENSE")
	}
}
