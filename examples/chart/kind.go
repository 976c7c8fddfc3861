package main

import (
	"bytes"
	"cmp"
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"lubberline.example/angle/drawing"
	"lubberline.example/angle/record"
	"lubberline.example/course/signs"
)

// The files of all kinds. Their figures are invented.
//
//go:embed data
var invented embed.FS

// A kind is a kind of picture. Its invented figures are in data/NAME.json.
type kind struct {
	name string
	says string // what it draws, in a few words
	draw func(data []byte, usage signs.Usage) (*drawing.Sheet, error)
}

// kinds are all kinds. The file of each kind adds its own.
var kinds []kind

// register adds a kind. Call it in an init function.
func register(name, says string, draw func(data []byte, usage signs.Usage) (*drawing.Sheet, error)) {
	kinds = append(kinds, kind{name, says, draw})
}

// sorted returns the kinds by name.
func sorted() []kind {
	return slices.SortedFunc(slices.Values(kinds), func(a, b kind) int { return cmp.Compare(a.name, b.name) })
}

// list returns a line for each kind.
func list() string {
	var b strings.Builder
	for _, k := range sorted() {
		fmt.Fprintf(&b, "  %-16s %s\n", k.name, k.says)
	}
	return b.String()
}

// find returns the kind of a name.
func find(name string) (kind, error) {
	var names []string
	for _, k := range sorted() {
		if k.name == name {
			return k, nil
		}
		names = append(names, k.name)
	}
	if name == "" {
		return kind{}, fmt.Errorf("no -kind: give one of %s, or -out for all of them", strings.Join(names, ", "))
	}
	return kind{}, fmt.Errorf("-kind %q: give one of %s", name, strings.Join(names, ", "))
}

// path returns the path of the user's file, or that of the invented one.
func (k kind) path(file string) string { return cmp.Or(file, "data/"+k.name+".json") }

// data reads the user's file, or the invented one.
func (k kind) data(file string) ([]byte, error) {
	if file != "" {
		return os.ReadFile(file)
	}
	return invented.ReadFile(k.path(""))
}

// read reads a JSON file into a struct. Every field of the file must be one of the struct,
// except "note". What it needs must be in the file: left out, a direction would be taken as 000°, and
// a place as 0° N 0° E. A name with a dot is that of a field in a field, or in each of a list.
// Errors have the line; see [record.Error].
func read[T any](data []byte, needs ...string) (T, error) {
	var file struct {
		Note string `json:"note"` // for readers
		T    *T     `json:"picture"`
	}
	var into T
	file.T = &into
	d := json.NewDecoder(bytes.NewReader(bytes.TrimPrefix(data, []byte("\ufeff"))))
	d.DisallowUnknownFields()
	err := d.Decode(&file)
	if err == nil {
		if _, more := d.Token(); more != io.EOF {
			err = errors.New("something follows the end of the JSON object; remove it")
		}
	}
	if err == nil && !bytes.Contains(data, []byte(`"picture"`)) {
		err = errors.New(`there is no "picture"; chart -kind KIND -example writes a file to begin with`)
	}
	if err != nil {
		return into, fault(data, d.InputOffset(), err)
	}
	var whole struct {
		Picture any `json:"picture"`
	}
	if err := json.Unmarshal(bytes.TrimPrefix(data, []byte("\ufeff")), &whole); err != nil {
		return into, fault(data, 0, err)
	}
	for _, name := range needs {
		if !has(whole.Picture, strings.Split(name, ".")) {
			return into, fmt.Errorf("%q is missing; chart -example shows how to write it", name)
		}
	}
	return into, nil
}

// has reports whether a value of JSON has a field, or each of a list has it.
func has(value any, path []string) bool {
	switch v := value.(type) {
	case []any:
		return !slices.ContainsFunc(v, func(each any) bool { return !has(each, path) })
	case map[string]any:
		for name, each := range v {
			if strings.EqualFold(name, path[0]) && each != nil {
				return len(path) == 1 || has(each, path[1:])
			}
		}
	}
	return false
}

// fault returns an error of the JSON in plain words, with its line.
func fault(data []byte, offset int64, err error) error {
	if syntax, ok := errors.AsType[*json.SyntaxError](err); ok {
		offset, err = syntax.Offset, fmt.Errorf("this is not JSON: %w", err)
	} else if wrong, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
		offset, err = wrong.Offset, fmt.Errorf("%q has a JSON %s here, which it does not accept; chart -example shows how to write it", wrong.Field, wrong.Value)
	} else if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		offset, err = int64(len(data)), errors.New("the file ends before the JSON object does")
	} else if name, ok := strings.CutPrefix(err.Error(), "json: unknown field "); ok {
		err = fmt.Errorf("there is no input %s; chart -example shows the inputs", name)
		if at := bytes.Index(data, []byte(name)); at >= 0 {
			offset = int64(at)
		}
	}
	return &record.Error{Line: 1 + bytes.Count(data[:min(int(offset), len(data))], []byte("\n")), Err: err}
}
