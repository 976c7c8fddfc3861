package check_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"lubberline.example/deviation/check"
	"lubberline.example/deviation/internal/devtest"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

const (
	rdcCSV = `# checks of the Quillon's compass, invented
heading,deviation,uncertainty,time,against
090,3½°W,0.5,2026-05-14T17:03:20Z,the Sun
# in harbour
180,-1.5,30′,,
`
	rdcJSON = `[{"heading": "090", "deviation": "3½°W", "uncertainty": "±0.5°", "time": "2026-05-14T17:03:20Z", "against": "the Sun"},
{"heading": 180, "deviation": -1.5, "uncertainty": 0.5}]`
)

func TestALogOfChecksIsReadFromEitherForm(t *testing.T) {
	for _, text := range []string{rdcCSV, rdcJSON} {
		checks, err := check.ReadLog(strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		if len(checks) != 2 {
			t.Fatalf("%d checks", len(checks))
		}
		a, b := checks[0], checks[1]
		if a.Heading != angle.MustParseCompass("090") || a.Deviation != deviation.West(3*devtest.Deg+30*devtest.Minute).WithUncertainty(devtest.Sigma(devtest.Deg/2)) ||
			a.Against != "the Sun" || !a.Time.Equal(time.Date(2026, 5, 14, 17, 3, 20, 0, time.UTC)) {
			t.Errorf("%+v", a)
		}
		if b.Heading != angle.MustParseCompass("180") || b.Deviation != deviation.West(devtest.Deg+30*devtest.Minute).WithUncertainty(devtest.Sigma(devtest.Deg/2)) || b.Against != "" || !b.Time.IsZero() {
			t.Errorf("%+v", b)
		}
	}
}

// TestTheVariationOfACheckIsRead reads the variation that was applied. The compass error
// found is the sum of both, and its own uncertainty what is left of the whole without
// the variation's, by the squares: 40′ with 30′ make 50′.
func TestTheVariationOfACheckIsRead(t *testing.T) {
	checks, err := check.ReadLog(strings.NewReader("heading,deviation,uncertainty,variation\n090,3°W,0°50′,5°08′W ±0°30′\n"))
	if err != nil {
		t.Fatal(err)
	}
	want := variation.West(5*devtest.Deg + 8*devtest.Minute).WithUncertainty(devtest.Sigma(30 * devtest.Minute))
	if got := checks[0].Variation; got != want {
		t.Errorf("variation %v, want %v", got, want)
	}
	own, stated := checks[0].Error.Uncertainty().Sigma()
	if got := checks[0].Error.Angle(); got != -8*devtest.Deg-8*devtest.Minute || !stated || (own-40*devtest.Minute).Abs() > angle.Second {
		t.Errorf("compass error %v ± %v", got, own)
	}
}

func TestAFaultInALogOfChecksIsFoundByItsLine(t *testing.T) {
	for _, c := range []struct {
		name, text string
		line       int
		column     string
		says       string
	}{
		{"empty", "", 0, "", "empty"},
		{"no uncertainty", "heading,deviation\n090,1\n", 2, "uncertainty", "every row needs a value"},
		{"no uncertainty in a row", "heading,deviation,uncertainty\n090,1,1\n000,1,\n", 3, "uncertainty", "every row needs a value"},
		{"an invalid heading", "# c\nheading,deviation,uncertainty\n\n090T,1,1\n", 4, "heading", ""},
		{"an invalid deviation", "heading,deviation,uncertainty\n090,east,1\n", 2, "deviation", ""},
		{"an uncertainty that is negative", "heading,deviation,uncertainty\n090,1,-1\n", 2, "uncertainty", "sign"},
		{"an invalid variation", "heading,deviation,uncertainty,variation\n090,1,1,west\n", 2, "variation", ""},
		{"a variation less certain than all together", "heading,deviation,uncertainty,variation\n090,1,0.2,5°W ±0°30′\n", 2, "uncertainty", ""},
		{"an invalid time", "heading,deviation,uncertainty,time\n090,1,1,noon\n", 2, "time", `"noon" is not a date and time`},
	} {
		_, err := check.ReadLog(strings.NewReader(c.text))
		e, ok := errors.AsType[*record.Error](err)
		if !ok || e.Line != c.line || e.Column != c.column || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	_, err := check.ReadLog(strings.NewReader("heading,deviation,uncertainty\n400,1,1\n"))
	if _, ok := errors.AsType[*angle.ParseError](err); !ok {
		t.Errorf("no *angle.ParseError in %v", err)
	}
}

func FuzzReadChecks(f *testing.F) {
	f.Add(rdcCSV)
	f.Add(rdcJSON)
	f.Add("heading,deviation,uncertainty,time\n090,1,1,noon\n")
	f.Add(`[{"time":"2026-05-03T18:00:00Z","heading":"090°C","against":"a transit","bearing":"250°C","compassError":"172°00′E","variation":"5°00′W ±0°15′","deviation":"177°00′E","steps":[{"key":"x"}],"warnings":[{"kind":"sun-elsewhere","message":"m"}]}]`)
	f.Add("time,heading,bearing,true,compassError,variation,deviation,remarks,warnings\n,090°C,080°C,077°T,3°00′W ±0°42′,5°00′W ±0°15′,2°00′E ±0°45′,'=clear,high-body\n,090°C,08")
	card := deviation.East(devtest.Deg)
	f.Fuzz(func(t *testing.T, text string) {
		checks, err := check.ReadLog(strings.NewReader(text))
		if err != nil {
			e, ok := errors.AsType[*record.Error](err)
			if !ok || e.Err == nil || e.Line < 0 || e.Line > 1+strings.Count(text, "\n")+strings.Count(text, "\r") {
				t.Fatalf("%#v", err)
			}
			// The checks are those of the lines before the fault, no more and no fewer.
			before := linesBefore(text, e.Line)
			if strings.HasPrefix(strings.TrimLeft(strings.TrimPrefix(text, "\ufeff"), " \t\r\n"), "[") {
				// It is unknown where the row of the fault begins, and how many share the line.
				if n := strings.Count(linesBefore(text, e.Line+1), "{"); len(checks) > n {
					t.Fatalf("%d checks of %d objects: %v", len(checks), n, err)
				}
			} else if kept, _ := check.ReadLog(strings.NewReader(before)); len(kept) != len(checks) {
				t.Fatalf("%d checks before line %d, and %d: %v", len(kept), e.Line, len(checks), err)
			}
			return
		}
		review, err := check.ReviewCard(card, checks)
		if err != nil {
			if _, ok := errors.AsType[*check.Error](err); !ok {
				t.Fatalf("%#v", err)
			}
		} else if len(review.Differences) != len(checks) || len(review.Reasons) == 0 {
			t.Fatalf("%+v", review)
		}
	})
}

// linesBefore returns the text before a line, counted from 1; nothing for line 0.
func linesBefore(text string, line int) string {
	at := 0
	for ; line > 1; line-- {
		next := strings.IndexByte(text[at:], '\n')
		if next < 0 {
			return text
		}
		at += next + 1
	}
	return text[:at]
}
