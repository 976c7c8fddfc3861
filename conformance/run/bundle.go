package main

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"

	"lubberline.example/conformance"
	"lubberline.example/conformance/internal/protocol"
	"lubberline.example/conformance/internal/schema"
)

//go:embed licence.txt
var licence string // the terms of the file LICENSE of this module

// bundleFile and indexFile are the names of the two files of a bundle.
const bundleFile, indexFile = "lubberline-cases.json", "index.html"

// A bundle is the whole corpus in one file.
type bundle struct {
	Name     string `json:"name"`
	About    string `json:"about"`
	Corpus   string `json:"corpus"`   // the version
	Protocol int    `json:"protocol"` // the version of the protocol of the command
	Licence  string `json:"licence"`

	Tiers       []named                    `json:"tiers"`
	Provenances []named                    `json:"provenances"`
	Topics      []bundleTopic              `json:"topics"`
	Operations  json.RawMessage            `json:"operations"` // the schema operations-1
	Schemas     map[string]json.RawMessage `json:"schemas"`    // the others, by name
	Facts       json.RawMessage            `json:"facts"`
}

// A named is a word with its meaning.
type named struct {
	Name  string `json:"name"`
	Means string `json:"means"`
}

// A bundleTopic is one topic, as in the corpus, with more about each case.
type bundleTopic struct {
	Topic   string                        `json:"topic"`
	Sources map[string]conformance.Source `json:"sources"`
	Flags   map[string]conformance.Flag   `json:"flags"`
	Cases   []bundleCase                  `json:"cases"`
}

// A bundleCase is a case with what follows from the schema.
type bundleCase struct {
	conformance.Case
	Expect     map[string]bundleExpected `json:"expect,omitempty"` // instead of the case's own
	Convention bool                      `json:"convention"`       // whether others may hold the answer otherwise
	Tiers      []conformance.Tier        `json:"tiers"`            // those that compare it
	Provenance string                    `json:"provenance"`       // a name of Provenances: the standing, with the kind of the source
}

// A bundleExpected is an expected value with both tolerances and the unit.
type bundleExpected struct {
	conformance.Expected
	Navigation float64 `json:"navigation"` // the tolerance at the tier navigation
	Unit       string  `json:"unit,omitempty"`
	Circle     bool    `json:"circle,omitempty"`
	Spelling   bool    `json:"spelling,omitempty"`
}

const bundleAbout = "Worked examples of compass navigation, as data. Each case has what is given, what is expected, its tolerances and its source. " +
	"A case passes if each expected value is within its tolerance: within at the tier library, navigation at the tier navigation. " +
	"Where circle is true, a difference is taken the shorter way round 360°. A value with spelling is compared letter by letter, at the tier format only. " +
	"A case with refused passes if the program refuses the input. Do not run a case whose status is withdrawn. " +
	"Where convention is true, the answer follows the conventions of its operation, or the one in its notes, and others may hold it otherwise. " +
	"Operations describes each operation. Keep the source of each case that you reuse."

// tierMeanings say what each tier compares.
var tierMeanings = []named{
	{string(conformance.TierNavigation), "Figures and names, with at least the tolerance that the trade needs. A case has this tier if it asks for one, or expects a refusal."},
	{string(conformance.TierLibrary), "The same, within the tolerance of the case. A case has this tier if it has navigation."},
	{string(conformance.TierFormat), "Spellings, letter by letter. A case has this tier if it asks for one."},
}

// provenanceMeanings say what each word of conformance.Provenances means.
var provenanceMeanings = map[string]string{
	"worked example":    "the source’s own example, its figures read in a copy",
	"table":             "a figure of a published table",
	"fact":              "a figure that a published source states",
	"answer recomputed": "a published question; the answer is worked by us, the key was not read",
	"rule applied":      "a published rule; the figures are ours",
	"model row":         "a test value published with a field model",
	"from memory":       "a published source, its figures not checked against a copy",
	"common practice":   "a rule of the trade without a source; the figures are ours",
	"teaching page":     "public teaching material that is not a published manual",
	"generated":         "worked by a program apart from this module, which the source names",
}

// newBundle gathers the corpus.
func newBundle() (bundle, schema.Schema, error) {
	b := bundle{
		Name: "lubberline cases", About: bundleAbout, Corpus: conformance.Version, Protocol: protocol.Version,
		Licence: licence, Tiers: tierMeanings, Schemas: map[string]json.RawMessage{},
	}
	for _, p := range conformance.Provenances() {
		b.Provenances = append(b.Provenances, named{p, provenanceMeanings[p]})
	}
	files := conformance.Files()
	names, err := fs.Glob(files, "schema/*.json")
	if err != nil {
		return b, schema.Schema{}, err
	}
	for _, name := range append(names, "facts.json") {
		data, err := fs.ReadFile(files, name)
		switch {
		case err != nil:
			return b, schema.Schema{}, err
		case name == schema.File:
			b.Operations = data
		case name == "facts.json":
			b.Facts = data
		default:
			b.Schemas[path.Base(name[:len(name)-len(".json")])] = data
		}
	}
	s, err := schema.Parse(b.Operations)
	if err != nil {
		return b, s, err
	}
	topics, err := conformance.Load()
	for _, t := range topics {
		out := bundleTopic{Topic: t.Topic, Sources: t.Sources, Flags: t.Flags}
		for _, c := range t.Cases {
			out.Cases = append(out.Cases, newBundleCase(s, t, c))
		}
		b.Topics = append(b.Topics, out)
	}
	return b, s, err
}

// newBundleCase adds to a case what follows from the schema.
func newBundleCase(s schema.Schema, t conformance.Topic, c conformance.Case) bundleCase {
	out := bundleCase{Case: c, Provenance: conformance.Provenance(t.Sources[c.Source.ID], c)}
	out.Convention = len(s.Operations[c.Operation].Conventions) > 0 || slices.Contains(c.Flags, "convention")
	figures, spellings := c.Refused != nil, false
	if c.Expect != nil {
		out.Expect = map[string]bundleExpected{}
	}
	for key, want := range c.Expect {
		v, _ := s.Answered(c.Operation, key)
		out.Expect[key] = bundleExpected{want, max(want.Within, v.Navigation), v.Unit, v.Circle, v.Spelling}
		figures = figures || !v.Spelling
		spellings = spellings || v.Spelling
	}
	if figures {
		out.Tiers = append(out.Tiers, conformance.TierNavigation, conformance.TierLibrary)
	}
	if spellings {
		out.Tiers = append(out.Tiers, conformance.TierFormat)
	}
	return out
}

// writeBundle writes the whole corpus to one file in a directory, and an index page beside it.
// The same corpus always gives the same bytes.
func writeBundle(directory string) error {
	b, s, err := newBundle()
	if err != nil {
		return err
	}
	var data, page bytes.Buffer
	e := json.NewEncoder(&data)
	e.SetIndent("", " ")
	e.SetEscapeHTML(false)
	if err := e.Encode(b); err != nil {
		return err
	}
	if err := writeIndex(&page, b, s); err != nil {
		return err
	}
	if err := os.MkdirAll(directory, 0o755); err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(directory, bundleFile), data.Bytes(), 0o644); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(directory, indexFile), page.Bytes(), 0o644)
}
