package working_test

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"lubberline.example/angle/working"
)

func TestSheetText(t *testing.T) {
	s := working.Sheet{Title: "Orlesk Head to Minnow Ledge", Steps: leg()[:2], Warnings: []working.Warning{{Kind: "old-rose", Message: "the rose is old"}, {Message: "no deviation"}}, Caution: "Look out."}
	want := `Orlesk Head to Minnow Ledge
  True course  104°15′T  from the chart
  Variation      4°15′W  rose off Orlesk Head
  Warning: the rose is old
  Warning: no deviation
  Look out.
`
	if got := s.String(); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	// Without a title nothing stands under one.
	s.Title, s.Warnings = "", nil
	if got := s.String(); got != leg()[:2].String()+"Look out.\n" {
		t.Errorf("%s", got)
	}
	if got := (working.Sheet{}).String(); got != "" {
		t.Errorf("an empty sheet: %q", got)
	}
	data, err := json.Marshal(working.Sheet{Steps: working.Steps{}})
	if err != nil || string(data) != `{"steps":[]}` {
		t.Errorf("%s, %v", data, err)
	}
}

// A program finds a warning by its kind, and the sheet reads back.
func TestSheetJSON(t *testing.T) {
	s := working.Sheet{Title: "Check", Steps: leg(), Warnings: []working.Warning{{Kind: "old-rose", Message: "the rose is old"}}, Caution: working.Caution}
	data, err := json.Marshal(s)
	if want := `"warnings":[{"kind":"old-rose","message":"the rose is old"}]`; err != nil || !strings.Contains(string(data), want) {
		t.Errorf("%s, %v, want %s", data, err, want)
	}
	var back working.Sheet
	if err := json.Unmarshal(data, &back); err != nil || !reflect.DeepEqual(back, s) {
		t.Errorf("%+v, %v, want %+v", back, err, s)
	}
}

// What it is not, and what comes first.
func TestCautionSaysWhatItIsNot(t *testing.T) {
	for _, word := range []string{"aid for checking", "charts", "notices", "lookout", "navigator", "local rules"} {
		if !strings.Contains(working.Caution, word) {
			t.Errorf("the caution does not mention %s", word)
		}
	}
}
