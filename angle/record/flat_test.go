package record

import (
	"reflect"
	"strings"
	"testing"
)

// FuzzFlat reads tables with the fast reader and with the decoder. Where the fast one answers, both
// find the same rows.
func FuzzFlat(f *testing.F) {
	columns := Columns{Required: []string{"heading"}, Optional: []string{"deviation", "note", "steps"}, Nested: []string{"steps"}}
	for _, text := range []string{
		`[]`, `[{}]`, " [ {\"heading\": 0, \"Deviation\":\"2°W\"},\n{\"heading\":-1.5e3,\"note\":null}]\n", `[{"heading":"a\u00e9\"b","steps":[{"key":"x}]"}]},{"steps":"no"}]`,
		`[{"heading":01}]`, `[{"heading":1,}]`, `[{"heading":1}{}]`, `[{"heading":tru}]`, `[{"heading":true}]`, `[{"steps":true},{"steps":{"a":[1,2,{}]}}]`, "[{\"heading\":\"\x01\"}]", `[{"heading":1,"HEADING":2}]`, `[{"swell":1}]`,
		"[\n{\"heading\"\n:\n1,\n\"note\": \" two { \"},\n\n{}]", `[{"heading":1}] 7`, `[{"heading":"1`, `[{"heading":"\`, `[{"steps":[}]`, `[{"heading":NaN}]`, `[,{}]`, `[{,"heading":1}]`, `[{"\u0068eading":1}]`, `[{"heading":"\ud800"}]`,
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		data := []byte(text)
		if checkText(data) != nil || !strings.HasPrefix(strings.TrimLeft(text, " \t\r\n"), "[") {
			return
		}
		rows, ok := readFlat(data, columns)
		want, err := readJSON(data, columns)
		if !ok {
			return
		}
		if err != nil || len(rows) != len(want) {
			t.Fatalf("%q: %d rows, and the decoder %d: %v", text, len(rows), len(want), err)
		}
		for i := range rows {
			if len(rows[i].fields) == 0 && len(want[i].fields) == 0 {
				rows[i].fields, want[i].fields = nil, nil
			}
			if !reflect.DeepEqual(rows[i], want[i]) {
				t.Fatalf("%q: row %d\n%+v\n%+v", text, i, rows[i], want[i])
			}
		}
	})
}

// TestTablesAreFlat reads what the tables of this module look like with the fast reader.
func TestTablesAreFlat(t *testing.T) {
	columns := Columns{Required: []string{"heading"}, Optional: []string{"note", "steps"}, Nested: []string{"steps"}}
	for _, text := range []string{"[\n{\"heading\": \"090°C\", \"note\": \"a \\\"low\\\" Sun\"},\n{\"heading\": 90, \"steps\": [{\"key\": \"x\"}]}\n]\n", "[]"} {
		if _, ok := readFlat([]byte(text), columns); !ok {
			t.Errorf("%s is left to the decoder", text)
		}
	}
}
