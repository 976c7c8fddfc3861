package conformance

import (
	"bytes"
	_ "embed"
	"encoding/json"
)

//go:embed facts.json
var factsFile []byte

// A Statement is something that a manual or the trade states and that is no worked example:
// a definition, a convention, a rule of use.
type Statement struct {
	ID     string          `json:"id"`   // never changes
	Item   string          `json:"item"` // what it is of
	Says   map[string]any  `json:"says"` // what is stated, by key
	Source StatementSource `json:"source"`

	// Held names the part of this module that holds to it, such as course.Stream; it is
	// empty where nothing does.
	Held string `json:"held,omitempty"`
}

// A StatementSource is where a statement stands.
type StatementSource struct {
	Kind    SourceKind `json:"kind"`
	Title   string     `json:"title"`
	Edition string     `json:"edition,omitempty"`
	At      string     `json:"at,omitempty"` // page, article or table
}

// Facts returns the facts of the corpus. Like [Load] it refuses fields that it does not
// know.
func Facts() ([]Statement, error) {
	var file struct{ Facts []Statement }
	d := json.NewDecoder(bytes.NewReader(factsFile))
	d.DisallowUnknownFields()
	err := d.Decode(&file)
	return file.Facts, err
}
