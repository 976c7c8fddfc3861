package oneline

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestNamesFromOutsideAreShownEscaped(t *testing.T) {
	for text, want := range map[string]string{
		"":                          "",
		"Orlesk Head":               "Orlesk Head",
		" Orlesk \t\r\n Head ":      "Orlesk Head",
		" \t\n":                     "",
		"12\u00a0M at 5\u202fkn":    "12\u00a0M at 5\u202fkn", // figures keep to their units
		"羅針 4°15′":                  "羅針 4°15′",
		"47°08.4′N":                 "47°08.4′N",
		"12\u00a0M":                 "12\u00a0M",
		"red\x1b[31m":               `red\x1b[31m`,
		"a\x00b":                    `a\x00b`,
		"light \u202edaeH":          `light \u202edaeH`,
		"\u2066x\u2069":             `\u2066x\u2069`,
		"\u200fx":                   `\u200fx`,
		"\u061cx":                   `\u061cx`,
		"\u0085x\u009by":            `x\u009by`,
		"الرأس":                     "الرأس",
		"\xff":                      "\ufffd",
		"\uffff":                    "\ufffd",
		"two\u2028lines\u2029of it": "two lines of it",
	} {
		if got := Of(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

func TestOnTheLineNothingSteers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		got := Of(text)
		if !utf8.ValidString(got) || strings.ContainsFunc(got, func(r rune) bool {
			return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)
		}) {
			t.Fatalf("%q", got)
		}
		if Of(got) != got {
			t.Fatalf("%q again: %q", got, Of(got))
		}
	})
}

// What is taken as plain is what the long way leaves as it is.
func TestPlainTextsStayAsTheyAre(t *testing.T) {
	for r := rune(0); r <= 0x3100; r++ {
		text := "a" + string(r) + "b"
		if isPlain(text) && (unicode.IsSpace(r) && r != ' ' || unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)) {
			t.Errorf("%U is taken as plain", r)
		}
	}
}
