package working_test

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A leg of the fictional vessel Quillon; the figures are invented.
func leg() working.Steps {
	return working.Steps{
		working.Direction("true course", "True course", angle.TrueFrom(104*angle.Degree+15*angle.Minute)).Because("from-the-chart", "from the chart"),
		working.EastWest("variation", "Variation", -(4*angle.Degree+15*angle.Minute)).Because("from-rose", "rose off Orlesk Head"),
		working.Direction("magnetic course", "Magnetic course", angle.MagneticFrom(108*angle.Degree+30*angle.Minute)).Because("variation-west", "variation is west: magnetic is greater than true"),
	}
}

func TestSteps(t *testing.T) {
	for i, want := range []working.Step{
		{Key: "true course", What: "True course", Value: "104°15′T", Number: 104.25, Unit: working.DegreesFromNorth, How: "from the chart", Reasons: []working.Reason{{Key: "from-the-chart"}}},
		{Key: "variation", What: "Variation", Value: "4°15′W", Number: -4.25, Unit: working.DegreesEast, How: "rose off Orlesk Head", Reasons: []working.Reason{{Key: "from-rose"}}},
		{Key: "magnetic course", What: "Magnetic course", Value: "108°30′M", Number: 108.5, Unit: working.DegreesFromNorth, How: "variation is west: magnetic is greater than true", Reasons: []working.Reason{{Key: "variation-west"}}},
	} {
		if got := leg()[i]; !reflect.DeepEqual(got, want) {
			t.Errorf("%+v, want %+v", got, want)
		}
	}
}

// Whole degrees have three figures. Other directions have minutes to a tenth, so
// that a reader can add variation and deviation.
func TestDirectionExactText(t *testing.T) {
	for a, want := range map[angle.Angle]string{
		35 * angle.Degree: "035°C", 35*angle.Degree + 6*angle.Minute: "035°06′C", 35*angle.Degree + 5*angle.Minute: "035°05′C",
		35*angle.Degree + 5*angle.Minute + 6*angle.Second: "035°05.1′C", 36*angle.Degree - angle.Second: "036°C", angle.Turn - 1: "000°C",
	} {
		if got := working.Direction("k", "w", angle.CompassFrom(a)).Value; !reflect.DeepEqual(got, want) {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

func TestFind(t *testing.T) {
	steps := append(leg(), working.Step{Key: "variation", What: "a second"})
	if s, ok := steps.Find("variation"); !ok || s.What != "Variation" {
		t.Errorf("the first of two: %+v, %v", s, ok)
	}
	if s, ok := steps.Find("deviation"); ok || !reflect.DeepEqual(s, working.Step{}) {
		t.Errorf("none: %+v, %v", s, ok)
	}
}

func TestColumnsAreAligned(t *testing.T) {
	steps := append(leg(), working.Step{What: "Years", Value: "12"}, working.Step{}, working.Step{How: "a remark"})
	text := string(steps.Append([]byte("Leg\n"), "  "))
	want := `Leg
  True course      104°15′T  from the chart
  Variation          4°15′W  rose off Orlesk Head
  Magnetic course  108°30′M  variation is west: magnetic is greater than true
  Years                  12

                             a remark
`
	if text != want {
		t.Errorf("%s\nwant\n%s", text, want)
	}
	// Columns, not bytes: the figures end under one another.
	for _, line := range strings.Split(text, "\n")[1:4] {
		for _, unit := range []string{"T  ", "W  ", "M  "} {
			if i := strings.LastIndex(line, unit); i >= 0 && utf8.RuneCountInString(line[:i]) != 26 {
				t.Errorf("%q: the figure ends in column %d", line, utf8.RuneCountInString(line[:i]))
			}
		}
	}
	if got := steps.String(); got != string(steps.Append(nil, "")) || working.Steps(nil).String() != "" {
		t.Errorf("%s", got)
	}
}

func TestJSONKeysStay(t *testing.T) {
	data, err := json.Marshal(append(leg()[1:2], working.Step{Key: "rose", What: "Rose", Value: ""}))
	want := `[{"key":"variation","what":"Variation","value":"4°15′W","number":-4.25,"unit":"degrees, east positive","how":"rose off Orlesk Head","reasons":[{"key":"from-rose"}]},{"key":"rose","what":"Rose","value":"","number":0}]`
	if err != nil || string(data) != want {
		t.Errorf("%s, %v", data, err)
	}
	var back working.Steps
	if err := json.Unmarshal(data, &back); err != nil || !reflect.DeepEqual(back[0], leg()[1]) {
		t.Errorf("%+v, %v", back, err)
	}
}

// What a program that prints another language needs of a step: a key, and the arguments as
// they are printed.
func TestReasonsHoldTheirArguments(t *testing.T) {
	step := working.EastWest("variation", "Variation", angle.Must(angle.Parse("-4°15′"))).
		Because("annual-change", "%v a year for %d years", angle.Minute.EastWestString(), 12).
		Because("share", "%.*f %% of them, %-4s|", 1, 2.34, "x")
	want := []working.Reason{
		{Key: "annual-change", Arguments: []string{angle.Minute.EastWestString(), "12"}},
		{Key: "share", Arguments: []string{"2.3", "x   "}},
	}
	if step.How != angle.Minute.EastWestString()+" a year for 12 years; 2.3 % of them, x   |" || !reflect.DeepEqual(step.Reasons, want) {
		t.Errorf("%q %+v", step.How, step.Reasons)
	}
}

// A step with one more reason leaves the step that it was made from as it was.
func TestBecauseCopies(t *testing.T) {
	first := working.Step{Key: "set"}.Because("a", "a").Because("b", "b").Because("c", "c")
	left, right := first.Because("left", "left"), first.Because("right", "right")
	if left.Reasons[3].Key != "left" || right.Reasons[3].Key != "right" || len(first.Reasons) != 3 {
		t.Errorf("%v %v %v", first, left, right)
	}
}

// The text is that of fmt.Sprintf, though each verb is formatted once.
func TestReasonReadsAsFormatted(t *testing.T) {
	for _, c := range []struct {
		format    string
		arguments []any
	}{
		{"", nil}, {"plain", nil}, {"plain", []any{"extra"}}, {"100 %%", nil}, {"%s", []any{"x % y"}}, {"%v and %v", []any{angle.Minute, "e"}},
		{"%-6s|%6.2f|%+d|%q", []any{"a", 1.005, 3, "q"}}, {"%*d %.*f", []any{4, 7, 1, 2.25}}, {"a %v", nil}, {"a %d", []any{"x"}}, {"%s", []any{"x", "extra"}}, {"é %s é", []any{"°"}},
	} {
		got := working.Step{}.Because("k", c.format, c.arguments...).How
		if want := fmt.Sprintf(c.format, c.arguments...); got != want {
			t.Errorf("%q: %q, want %q", c.format, got, want)
		}
	}
}
