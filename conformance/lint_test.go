package conformance_test

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"lubberline.example/conformance"
	"lubberline.example/conformance/lubberline"
)

// TestCorpusIsSound checks what a schema can't: that ids are unique, sources and
// flags declared and used, sources complete, and named slips wrong enough to
// tell from the truth.
func TestCorpusIsSound(t *testing.T) {
	ids := map[string]bool{}
	for _, topic := range load(t) {
		if topic.Schema != "cases-1" {
			t.Errorf("%s: schema %q", topic.Topic, topic.Schema)
		}
		usedSources, usedFlags := map[string]bool{}, map[string]bool{}
		for _, c := range topic.Cases {
			if ids[c.ID] {
				t.Errorf("%s: twice", c.ID)
			}
			ids[c.ID] = true
			if !strings.HasPrefix(c.ID, topic.Topic+"/") {
				t.Errorf("%s: does not begin with its topic, %s", c.ID, topic.Topic)
			}
			if (c.Expect == nil) == (c.Refused == nil) {
				t.Errorf("%s: wants either an answer or a refusal", c.ID)
			}
			if c.Expect != nil && c.WithinBecause == "" {
				t.Errorf("%s: does not say why its tolerances", c.ID)
			}
			if _, ok := topic.Sources[c.Source.ID]; !ok || c.Source.At == "" {
				t.Errorf("%s: source %q at %q is not complete", c.ID, c.Source.ID, c.Source.At)
			}
			usedSources[c.Source.ID] = true
			for _, f := range c.Flags {
				usedFlags[f] = true
				if _, ok := topic.Flags[f]; !ok {
					t.Errorf("%s: flag %q is not declared", c.ID, f)
				}
			}
			if slices.Contains(c.Flags, "convention") && c.Notes == "" {
				t.Errorf("%s: its notes must state the convention", c.ID)
			}
			for _, slip := range c.Slips {
				checkSlip(t, c, slip)
			}
		}
		for id, s := range topic.Sources {
			complete := s.Title != "" && (s.Kind == conformance.CommonPractice || s.Edition != "" && (s.Year != 0 || s.Kind == conformance.TeachingPage && strings.Contains(s.Edition, "undated")))
			if !complete || !usedSources[id] {
				t.Errorf("%s: source %s is not complete, or not used", topic.Topic, id)
			}
			if (s.Kind == conformance.FromMemory || s.Kind == conformance.TeachingPage) && s.Why == "" {
				t.Errorf("%s: source %s was not read, and does not say why it is believed", topic.Topic, id)
			}
		}
		for f := range topic.Flags {
			if !usedFlags[f] {
				t.Errorf("%s: flag %s is not used", topic.Topic, f)
			}
		}
	}
	if len(ids) < 100 {
		t.Errorf("only %d cases", len(ids))
	}
}

// checkSlip checks that a slip is an answer of the case, and plainly wrong.
func checkSlip(t *testing.T, c conformance.Case, slip map[string]any) {
	t.Helper()
	if name, _ := slip["name"].(string); name == "" {
		t.Errorf("%s: a slip without a name", c.ID)
	}
	for key, wrong := range slip {
		if key == "name" {
			continue
		}
		right, ok := c.Expect[key]
		w, isNumber := wrong.(float64)
		r, _ := right.Value.(float64)
		if !ok || !isNumber || math.Abs(onCircle(w-r)) <= 2*right.Within {
			t.Errorf("%s: slip %v can't be told from the truth", c.ID, slip)
		}
	}
}

// TestSchemaKnowsTheOperations keeps the schema's list of operations and the
// subject's the same.
func TestSchemaKnowsTheOperations(t *testing.T) {
	data, err := fs.ReadFile(conformance.Files(), "schema/cases-1.json")
	if err != nil {
		t.Fatal(err)
	}
	var schema struct {
		Defs struct {
			Case struct {
				Properties struct {
					Operation struct{ Enum []string }
				}
			}
		} `json:"$defs"`
	}
	if err := json.Unmarshal(data, &schema); err != nil {
		t.Fatal(err)
	}
	listed := schema.Defs.Case.Properties.Operation.Enum
	operations := lubberline.Subject().Operations
	for name := range operations {
		if !slices.Contains(listed, name) {
			t.Errorf("the schema does not list %s", name)
		}
	}
	// An operation may stay whose cases are all withdrawn: they are kept.
	active := map[string]bool{}
	for _, topic := range load(t) {
		for _, c := range topic.Cases {
			active[c.Operation] = active[c.Operation] || c.Status == "active"
		}
	}
	for _, name := range listed {
		if _, offered := operations[name]; !offered && active[name] {
			t.Errorf("the subject does not offer %s", name)
		}
	}
}

func load(t *testing.T) []conformance.Topic {
	t.Helper()
	topics, err := conformance.Load()
	if err != nil {
		t.Fatal(err)
	}
	return topics
}

// onCircle is a difference of degrees the shorter way round.
func onCircle(degrees float64) float64 { return math.Remainder(degrees, 360) }

// TestIDsStayForEver holds the ids to the list of those that were ever published, and each since
// to the version that the id is listed under.
func TestIDsStayForEver(t *testing.T) {
	data, err := os.ReadFile("ids.txt")
	if err != nil {
		t.Fatal(err)
	}
	listed, version := map[string]string{}, ""
	for line := range strings.Lines(string(data)) {
		line = strings.TrimSpace(line)
		if after, ok := strings.CutPrefix(line, "# since "); ok {
			version = after
		}
		if line == "" || line[0] == '#' {
			continue
		}
		if listed[line] != "" {
			t.Errorf("ids.txt: %s twice", line)
		}
		listed[line] = version
	}
	if version != conformance.Version {
		t.Errorf("ids.txt: the last version is %q; add a line # since %s", version, conformance.Version)
	}
	for _, topic := range load(t) {
		for _, c := range topic.Cases {
			if since := listed[c.ID]; since == "" {
				t.Errorf("%s: add it at the end of ids.txt", c.ID)
			} else if since != c.Since {
				t.Errorf("%s: since %s, but ids.txt lists it under %s", c.ID, c.Since, since)
			}
			delete(listed, c.ID)
		}
	}
	for id := range listed {
		t.Errorf("%s: published once and gone: keep it, with the status withdrawn if it is wrong", id)
	}
}

// TestFactsAreSound checks that every fact has its id, its figures and its source.
func TestFactsAreSound(t *testing.T) {
	data, err := fs.ReadFile(conformance.Files(), "facts.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Facts []struct {
			ID, Item string
			Says     map[string]any
			Held     string // the name in this module that follows the fact, or ""
			Source   struct {
				Kind               conformance.SourceKind
				Title, Edition, At string
			}
		}
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&file); err != nil {
		t.Fatal(err)
	}
	facts := file.Facts
	ids := map[string]bool{}
	for _, f := range facts {
		read := f.Source.Kind == conformance.Published || f.Source.Kind == conformance.FromMemory
		if !strings.HasPrefix(f.ID, "fact/") || ids[f.ID] || f.Item == "" || len(f.Says) == 0 || f.Source.Title == "" || read && (f.Source.Edition == "" || f.Source.At == "") {
			t.Errorf("%+v", f)
		}
		ids[f.ID] = true
	}
	if len(facts) < 60 {
		t.Errorf("only %d facts", len(facts))
	}
}

// TestAnswersAreInRange checks that the schema states a quantity for each key that a case
// expects, and that each value expected lies in the quantity's range.
func TestAnswersAreInRange(t *testing.T) {
	known := answers{}
	for _, topic := range load(t) {
		for _, c := range topic.Cases {
			known[c.ID] = conformance.Answer{}
			for key, want := range c.Expect {
				known[c.ID][key] = want.Value
			}
		}
	}
	for _, tier := range []conformance.Tier{conformance.TierLibrary, conformance.TierFormat} {
		report, err := conformance.Hold(known, "the corpus itself", "", conformance.Options{Tier: tier}, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range report.Results {
			if r.Status != conformance.Pass && r.Case.Refused == nil {
				t.Error(r)
			}
		}
	}
}

// answers is a worker that knows the answers by id.
type answers map[string]conformance.Answer

func (answers) Offers(string) bool { return true }

func (a answers) Work(c conformance.Case) (conformance.Answer, error) { return a[c.ID], nil }
