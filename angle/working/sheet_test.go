package working_test

import (
	"encoding/json"
	"strings"
	"testing"

	"lubberline.example/angle/working"
)

func TestASheetHasTitleStepsWarningsAndCaution(t *testing.T) {
	s := working.Sheet{Title: "Orlesk Head to Minnow Ledge", Steps: leg()[:2], Warnings: []string{"the rose is old", "no deviation"}, Caution: "Look out."}
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

// What it is not, and what comes first.
func TestCautionSaysWhatItIsNot(t *testing.T) {
	for _, word := range []string{"aid for checking", "charts", "notices", "lookout", "navigator", "local rules"} {
		if !strings.Contains(working.Caution, word) {
			t.Errorf("the caution does not mention %s", word)
		}
	}
}
