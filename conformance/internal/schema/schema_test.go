package schema

import (
	"encoding/json"
	"strings"
	"testing"
)

const example = `{
	"$defs": {
		"direction": {"description": "A direction.", "type": "number", "minimum": 0, "maximum": 360, "unit": "°", "circle": true},
		"position": {"type": "object", "additionalProperties": false, "required": ["x"], "properties": {"x": {"$ref": "#/$defs/direction"}}}
	},
	"operations": {"a.b": {
		"about": "An example.",
		"given": {"type": "object", "additionalProperties": false, "required": ["side", "from"], "properties": {
			"from": {"$ref": "#/$defs/position", "description": "Where from."},
			"side": {"type": "string", "enum": ["port", "starboard"]},
			"angle": {"type": "number", "exclusiveMinimum": 0, "exclusiveMaximum": 180},
			"on": {"type": "string", "format": "date-time"}
		}},
		"answer": {"type": "object", "properties": {"all": {"type": "array", "minItems": 2, "items": {"$ref": "#/$defs/direction"}}}}
	}}
}`

func TestRowsDescribeKeys(t *testing.T) {
	s, err := Parse([]byte(example))
	if err != nil {
		t.Fatal(err)
	}
	o := s.Operations["a.b"]
	var lines []string
	for _, r := range append(s.Rows(o.Given), s.Rows(o.Answer)...) {
		line := r.Key + ": " + r.Kind + ": " + r.About
		if r.Optional {
			line = "optional " + line
		}
		if r.Circle {
			line += " circle"
		}
		lines = append(lines, line)
	}
	want := `from: object: Where from.
from.x: number, °, from 0 to 360: A direction. circle
side: string, port or starboard: 
optional angle: number, above 0, below 180: 
optional on: string: 
optional all: list of number, °, from 0 to 360; at least 2: A direction. circle`
	if got := strings.Join(lines, "\n"); got != want {
		t.Errorf("rows\n%s\nwant\n%s", got, want)
	}
	if v, ok := s.Answered("a.b", "all"); !ok || !v.Circle || v.Unit != "°" {
		t.Errorf("%+v, %v", v, ok)
	}
	if _, ok := s.Answered("a.b", "none"); ok {
		t.Error("an unknown key is answered")
	}
	if _, err := Parse([]byte("{")); err == nil {
		t.Error("half a schema is read")
	}
}

func TestValidatorFindsWhatIsWrong(t *testing.T) {
	var root map[string]any
	if err := json.Unmarshal([]byte(example), &root); err != nil {
		t.Fatal(err)
	}
	given := root["operations"].(map[string]any)["a.b"].(map[string]any)["given"].(map[string]any)
	for text, problems := range map[string]int{
		`{"side": "port", "from": {"x": 1}}`:                                0,
		`{"side": "port", "from": {"x": 1}, "on": "2026-01-01T00:00:00Z"}`:  0,
		`{"side": "port", "from": {"x": 361}}`:                              1,
		`{"side": "aft", "from": {"x": -1}}`:                                2,
		`{"side": "port", "from": {}}`:                                      1,
		`{"side": "port", "from": {"x": 1, "y": 1}}`:                        1,
		`{"side": 1, "from": {"x": "1"}}`:                                   3,
		`{"side": "port", "from": {"x": 1}, "angle": 0, "on": "yesterday"}`: 2,
		`{"side": "port", "from": {"x": 1}, "angle": 180, "more": 1}`:       2,
		`[]`: 3,
	} {
		var value any
		if err := json.Unmarshal([]byte(text), &value); err != nil {
			t.Fatal(err)
		}
		if found := (Validator{Root: root}).Check("given", given, value); len(found) != problems {
			t.Errorf("%s: %d problems, want %d: %q", text, len(found), problems, found)
		}
	}
}
