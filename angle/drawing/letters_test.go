package drawing_test

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"lubberline.example/angle/drawing"
	"lubberline.example/angle/internal/oneline"
)

func TestTextWidth(t *testing.T) {
	for text, want := range map[string]float64{
		"":        0,
		"M":       0.98,
		"A":       0.75,
		"a":       0.6,
		"i":       0.42,
		" ":       0.42,
		"4°15′W":  3*0.6 + 2*0.42 + 0.98,
		"羅針":      2,
		"e\u0301": 0.6, // a mark over the letter takes no room
	} {
		if got := drawing.TextWidth(text); math.Abs(got-want) > 1e-12 { // sums of binary fractions
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
}

func TestTextBox(t *testing.T) {
	got := drawing.TextBox(drawing.At(10, 20), "aaaaa", 2)
	want := drawing.Box{Left: 10, Top: 18.4, Right: 16, Bottom: 20.52}
	for i, d := range []float64{got.Left - want.Left, got.Top - want.Top, got.Right - want.Right, got.Bottom - want.Bottom} {
		if math.Abs(d) > 1e-12 { // sums of binary fractions
			t.Errorf("edge %d: %+v, want %+v", i, got, want)
		}
	}
}

func TestShortened(t *testing.T) {
	for _, test := range []struct {
		text  string
		width float64
		want  string
	}{
		{"", 0, ""},
		{"aaaaa", 3, "aaaaa"},
		{"aaaaaa", 3, "aaa…"},
		{"aaa aaaaaa", 3.5, "aaa…"}, // no blank before the …
		{"two\nlines", 100, "two lines"},
		{"W", 0, "…"},
		{"W", math.NaN(), "…"},
	} {
		if got := drawing.Shortened(test.text, test.width); got != test.want {
			t.Errorf("%q in %v: %q, want %q", test.text, test.width, got, test.want)
		}
	}
}

// A shortened text fits, is the text if that fits, and else is its beginning.
func TestAShortenedTextFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, width := rapid.String().Draw(t, "text"), rapid.Float64Range(1, 40).Draw(t, "width")
		got, whole := drawing.Shortened(text, width), oneline.Of(text)
		if w := drawing.TextWidth(got); w > width+1e-9 { // sums of binary fractions
			t.Fatalf("%q is %v wide", got, w)
		}
		if begin, cut := strings.CutSuffix(got, "…"); got != whole && (!cut || !strings.HasPrefix(whole, begin)) {
			t.Fatalf("%q is not the beginning of %q", got, whole)
		}
		if drawing.TextWidth(whole) <= width && got != whole {
			t.Fatalf("%q fits, and became %q", whole, got)
		}
	})
}

func TestWrapped(t *testing.T) {
	for text, want := range map[string][]string{
		"":                    {""},
		"aa":                  {"aa"},
		"aa aa aa":            {"aa aa", "aa"},
		"aaaaaaaaaa a":        {"aaaaaaaaaa", "a"},
		"a\n\na":              {"a a"},
		"a\u00a0a a\u00a0a a": {"a\u00a0a", "a\u00a0a a"},
	} {
		if got := drawing.Wrapped(text, 3); strings.Join(got, "|") != strings.Join(want, "|") {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// Wrapped loses no word, and goes over the width with single words alone.
func TestWrappedTextsFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, width := rapid.String().Draw(t, "text"), rapid.Float64Range(0, 20).Draw(t, "width")
		lines := drawing.Wrapped(text, width)
		if got := strings.Join(lines, " "); got != oneline.Of(text) {
			t.Fatalf("%q became %q", text, got)
		}
		for _, l := range lines {
			if drawing.TextWidth(l) > width+1e-9 && strings.ContainsRune(l, ' ') && utf8.RuneCountInString(l) > 1 { // sums of binary fractions
				t.Fatalf("%q is wider than %v", l, width)
			}
		}
	})
}
