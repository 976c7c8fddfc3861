package angle_test

import (
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"strconv"
	"strings"
	"testing"

	"lubberline.example/angle"
)

func TestErrorsSayWhatIsAccepted(t *testing.T) {
	_, err := angle.ParseTrue("  400°")
	if got, want := err.Error(), `"  400°" is not a true direction: out of range; write a direction from 0° to 360°, as in 035°T`; got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	_, err = angle.LatitudeDegrees(91.5)
	if got, want := err.Error(), "latitude 91.5 is invalid; give −90° to 90°, north positive"; got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	_, err = angle.Degrees(math.NaN())
	if got := err.Error(); !strings.Contains(got, "degrees NaN") {
		t.Error(got)
	}
	_, err = angle.LongitudeDegrees(-200)
	var r *angle.RangeError
	if !errors.As(err, &r) || r.Value != -200 || r.What != "longitude" {
		t.Errorf("%#v", err)
	}
}

// An error names the quantity, and for an empty text gives an example: a file of many
// quantities does not show it otherwise.
func TestErrorsNameTheQuantity(t *testing.T) {
	var u angle.Uncertainty
	var e angle.EastWest
	text := func(f func([]byte) error) func(string) error { return func(s string) error { return f([]byte(s)) } }
	for _, c := range []struct {
		what, example string
		read          func(string) error
	}{
		{"angle", "4°15′", func(s string) error { _, err := angle.Parse(s); return err }},
		{"angle east or west", "4°15′W", func(s string) error { _, err := angle.ParseEastWest(s); return err }},
		{"angle east or west", "4°15′W", func(s string) error { _, err := angle.ParsePrinted(s); return err }},
		{"angle east or west", "4°15′W", text(e.UnmarshalText)},
		{"latitude", "47°08.4′N", func(s string) error { _, err := angle.ParseLatitude(s); return err }},
		{"longitude", "019°00.0′W", func(s string) error { _, err := angle.ParseLongitude(s); return err }},
		{"position", "47°08.4′N 019°00.0′W", func(s string) error { _, err := angle.ParsePosition(s); return err }},
		{"true direction", "035°", func(s string) error { _, err := angle.ParseTrue(s); return err }},
		{"magnetic direction", "035°", func(s string) error { _, err := angle.ParseMagnetic(s); return err }},
		{"compass direction", "035°", func(s string) error { _, err := angle.ParseCompass(s); return err }},
		{"relative bearing", "35° to port", func(s string) error { _, err := angle.ParseRelative(s); return err }},
		{"standard uncertainty", "", text(u.UnmarshalText)}, // an empty one is not stated
	} {
		for _, s := range []string{"", "x"} {
			if s == "" && c.example == "" {
				continue
			}
			err := c.read(s)
			p, ok := errors.AsType[*angle.ParseError](err)
			if !ok || p.What != c.what || !strings.HasPrefix(p.Error(), strconv.Quote(s)+" is not a") || !strings.Contains(p.Error(), " "+c.what) {
				t.Errorf("%q as %s: %v", s, c.what, err)
			} else if s == "" && !strings.Contains(p.Want, c.example) {
				t.Errorf("%q as %s: %v, want %s", s, c.what, err, c.example)
			}
		}
	}
	// Half a position, and data of two quantities.
	if _, err := angle.ParsePosition("47N x"); err == nil || !strings.Contains(err.Error(), "write a longitude") {
		t.Error(err)
	}
	var d struct {
		Course   angle.True     `json:"course"`
		Position angle.Position `json:"position"`
	}
	err := json.Unmarshal([]byte(`{"course":"035°T","position":"035°T"}`), &d)
	if p, ok := errors.AsType[*angle.ParseError](err); !ok || p.What != "position" {
		t.Error(err)
	}
	if got := (&angle.ParseError{Input: "x", Kind: angle.NoNumber, Want: "y"}).Error(); got != `"x" is not valid; write y` {
		t.Error(got)
	}
}

// The number in a refusal is the one asked for, in degrees where it was an
// angle.
func TestRangeErrorsCarryTheNumber(t *testing.T) {
	far := 7000 * turn
	for name, c := range map[string]struct {
		refuse func() error
		want   float64
	}{
		"Scale":               {func() error { _, err := far.Scale(1.5); return err }, 1.5 * 7000 * 360},
		"Degrees":             {func() error { _, err := angle.Degrees(1e10); return err }, 1e10},
		"Radians":             {func() error { _, err := angle.Radians(1e10); return err }, 1e10},
		"DegreesMinutes":      {func() error { _, err := angle.DegreesMinutes(4, 61.5); return err }, 61.5},
		"LatitudeFrom":        {func() error { _, err := angle.LatitudeFrom(91 * deg); return err }, 91},
		"TrueDegrees":         {func() error { _, err := angle.TrueDegrees(-10); return err }, -10},
		"Atan2":               {func() error { _, err := angle.Atan2(0, 0); return err }, 0},
		"StandardUncertainty": {func() error { _, err := angle.StandardUncertainty(-deg); return err }, -1},
	} {
		var r *angle.RangeError
		if err := c.refuse(); !errors.As(err, &r) || r.Value != c.want {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
	}
}

func TestMust(t *testing.T) {
	if got := angle.Must(angle.Degrees(7.5)); got != 7*deg+30*minute {
		t.Error(got)
	}
	defer func() {
		if _, ok := recover().(*angle.RangeError); !ok {
			t.Error("no panic with the error")
		}
	}()
	angle.Must(angle.Degrees(math.Inf(1)))
}

// Every reason for refusing a text is given for at least one text.
func TestEveryErrorKindHasACase(t *testing.T) {
	tested := map[angle.ErrorKind]bool{angle.MissingNorth: true, angle.WrongNorth: true, angle.UnknownWord: true} // in directiontext_test.go, relative_test.go
	for _, table := range [][]refusal{angleRefusals, eastWestRefusals, directionRefusals, relativeRefusals, latitudeRefusals, longitudeRefusals, positionRefusals, isoRefusals, eastWestTextRefusals, uncertaintyRefusals} {
		for _, r := range table {
			tested[r.kind] = true
		}
	}
	file, err := parser.ParseFile(token.NewFileSet(), "errors.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	kinds := 0
	ast.Inspect(file, func(n ast.Node) bool {
		v, ok := n.(*ast.ValueSpec)
		if !ok {
			return true
		}
		if name, ok := v.Type.(*ast.Ident); ok && name.Name == "ErrorKind" {
			kind, _ := strconv.Unquote(v.Values[0].(*ast.BasicLit).Value)
			kinds++
			if !tested[angle.ErrorKind(kind)] {
				t.Errorf("no text is refused as %s", kind)
			}
		}
		return true
	})
	if kinds < 17 {
		t.Errorf("only %d kinds found", kinds)
	}
}

func TestArticleBySound(t *testing.T) {
	for what, want := range map[string]string{"hour": "an hour", "usage of signs": "a usage of signs", "event": "an event", "star": "a star"} {
		if got := (&angle.ParseError{What: what}).Error(); !strings.Contains(got, " is not "+want) {
			t.Errorf("%s", got)
		}
	}
}
