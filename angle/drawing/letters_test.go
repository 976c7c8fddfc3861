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

// The widths are those in DejaVu Sans 2.37, regular and bold, as a browser measures them.
func TestTextsAreNoWiderThanReckoned(t *testing.T) {
	for text, want := range map[string][2]float64{
		"Minnow Ledge beacon": {11.17, 12.55}, "Orlesk Head light": {8.66, 9.82}, "049°T 1030": {5.88, 6.40},
		"R FIX 1115": {5.43, 6.08}, "4°15′W 2026 (12′E)": {9.72, 10.69}, "C 049 S 5.5": {5.79, 6.36}, "WWWW": {3.96, 4.41},
		"Set 120°T, drift 2.5 kn": {11.10, 12.39}, "46°58.0′N 019°17.8′W": {11.14, 12.23}, "NLT 035°T": {5.12, 5.61},
		"Ægir Ærø Ünïcödé": {8.99, 10.14}, "Оконечность маяка": {10.35, 11.29}, "Щитовой маяк Ж": {9.07, 10.05},
		"Φάρος του ακρωτηρίου": {11.83, 13.03}, "羅針盤": {1.80, 1.80}, "منارة الرأس": {5.10, 5.98},
		"प्रकाश स्तंभ": {6.92, 6.95}, "ประภาคาร": {4.80, 4.80}, "השלט של הים": {6.03, 6.47}, "등대": {1.20, 1.20},
	} {
		if got := drawing.TextWidth(text); got < want[0] || got > 1.4*want[0] && text[0] < 0xd6 || 1.12*got < want[1] {
			t.Errorf("%q: %.2f, want %.2f or a little more, and %.2f in bold", text, got, want[0], want[1])
		}
	}
	if got := drawing.TextWidth(""); got != 0 {
		t.Errorf("empty: %v", got)
	}
	if a, b := drawing.TextWidth("e"), drawing.TextWidth("e\u0301"); a != b { // a mark over the letter takes no room
		t.Errorf("e %v, é %v", a, b)
	}
}

func TestShortened(t *testing.T) {
	for _, test := range []struct {
		text  string
		width float64
		want  string
	}{
		{"", 0, ""},
		{"aaaaa", 3.2, "aaaaa"},
		{"aaaaaa", 3.2, "aaa…"},
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
