package angle_test

import (
	"errors"
	"strings"
	"testing"

	"lubberline.example/angle"
)

// parsers are all that read a text.
var parsers = map[string]func(string) error{
	"Parse":          func(s string) error { _, err := angle.Parse(s); return err },
	"ParsePrinted":   func(s string) error { _, err := angle.ParsePrinted(s); return err },
	"ParseEastWest":  func(s string) error { _, err := angle.ParseEastWest(s); return err },
	"ParseTrue":      func(s string) error { _, err := angle.ParseTrue(s); return err },
	"ParseMagnetic":  func(s string) error { _, err := angle.ParseMagnetic(s); return err },
	"ParseCompass":   func(s string) error { _, err := angle.ParseCompass(s); return err },
	"ParseRelative":  func(s string) error { _, err := angle.ParseRelative(s); return err },
	"ParseLatitude":  func(s string) error { _, err := angle.ParseLatitude(s); return err },
	"ParseLongitude": func(s string) error { _, err := angle.ParseLongitude(s); return err },
	"ParsePosition":  func(s string) error { _, err := angle.ParsePosition(s); return err },
	"EastWest":       func(s string) error { return new(angle.EastWest).UnmarshalText([]byte(s)) },
	"Uncertainty":    func(s string) error { return new(angle.Uncertainty).UnmarshalText([]byte(s)) },
}

// refusedBriefly checks that a refusal is typed, keeps the text, points into it, and
// says it in few words.
func refusedBriefly(t *testing.T, name, text string, err error) {
	t.Helper()
	e, ok := errors.AsType[*angle.ParseError](err)
	if !ok {
		t.Errorf("%s of %.20q…: %v", name, text, err)
		return
	}
	if e.Input != text || e.Offset < 0 || e.Offset > len(text) {
		t.Errorf("%s of %.20q…: byte %d of %d", name, text, e.Offset, len(e.Input))
	}
	if n := len(err.Error()); n > 700 {
		t.Errorf("%s of %.20q…: a message of %d bytes", name, text, n)
	}
}

// Texts that no navigator writes are refused by every parser.
func TestHostileTextsAreRefused(t *testing.T) {
	for _, text := range []string{
		"", "\x00", "4\x00", "\x004", "N\x00E", "\xff", "4°\xff15′", "\xff\xfe4\x00", "\ufeff", "\ufeff4",
		"NaN", "Inf", "-Inf", "infinity", "1e308", "-1e308", "1e-320", "0x1p3", "1_000", "99999999999999999999",
		"\u202e4°", "٤°", "４", strings.Repeat("°", 1000), strings.Repeat("±", 1000),
	} {
		for name, parse := range parsers {
			if name == "Uncertainty" && text == "" {
				continue // not stated
			}
			refusedBriefly(t, name, text, parse(text))
		}
	}
}

// A text of megabytes takes time as its length and its refusal does not repeat it. If
// a long text is read, the value is that of its first figures.
func TestLongTexts(t *testing.T) {
	size := 10 << 20
	if testing.Short() {
		size = 1 << 20
	}
	for _, c := range []struct{ before, unit, after string }{
		{"", "\x00", ""}, {"", "\xff", ""}, {"", "9", ""}, {"", "x", ""}, {"", "N", ""}, {"", "N ", ""}, {"N", "-", "4"},
		{"", "'", ""}, {"4", "°", ""}, {"4 ", "½", ""}, {"", "±", ""}, {"4:", ":4", ""}, {"", "4,", ""}, {"", "4-", ""},
		{"", "-", "4"}, {"4°", "\u202f", "x"}, {"p.s.c.", "(", ""}, {"N 4", "\u00a0", "x"}, {"", "NNE by ", ""},
		{"47N", " ", "19"}, {"+47-0", "0", "/"}, {"4.", "0", "x"}, {"", "0", "x"}, {"4 ", "日本", ""},
	} {
		text := c.before + strings.Repeat(c.unit, size/8/len(c.unit)) + c.after
		for name, parse := range parsers {
			refusedBriefly(t, name, text, parse(text))
		}
	}
	text := strings.Repeat(" ", size) + "4°" + strings.Repeat("\u00a0", size/2) + "x"
	refusedBriefly(t, "Parse", text, parsers["Parse"](text))
	for _, good := range []string{strings.Repeat(" ", size) + "4", strings.Repeat("0", size) + "4", "4." + strings.Repeat("0", size)} {
		if a, err := angle.Parse(good); err != nil || a != 4*deg {
			t.Errorf("%.10q… is %v, %v", good, a, err)
		}
	}
}

// The message shows what stands around the fault, whole characters of it.
func TestErrorsOfLongTexts(t *testing.T) {
	far := strings.Repeat(" ", 100)
	for text, want := range map[string]string{
		"4" + far + "x":                `…"` + far[:40] + `x" is not an angle: trailing text at "x"; write nothing after the angle, as in 4°15.5′`,
		"4" + far + "日" + far:          `…"` + far[:40] + `日` + far[:37] + `"… is not an angle: trailing text at "日"; write nothing after the angle, as in 4°15.5′`,
		"4" + strings.Repeat("日", 100): `"4` + strings.Repeat("日", 26) + `"… is not an angle: trailing text at "日日日日日日"…; write nothing after the angle, as in 4°15.5′`,
	} {
		if _, err := angle.Parse(text); err != nil && err.Error() != want {
			t.Errorf("%s\nwant %s", err, want)
		}
	}
}
