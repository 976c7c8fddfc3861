package drawing

import (
	"strings"
	"unicode"

	"lubberline.example/angle/internal/oneline"
)

// blankWidth is the width of a space, as a multiple of the letter size.
const blankWidth = 0.42

var marks = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

// escaped returns a text as the content of an element.
func escaped(text string) string { return marks.Replace(oneline.Of(text)) }

// TextWidth returns the width of a text as a multiple of the letter size: 6 for a text of
// 18 mm in letters of 3 mm. It assumes a wide font, since the viewer's font is unknown.
func TextWidth(text string) float64 {
	w := 0.0
	for _, r := range text {
		w += runeWidth(r)
	}
	return w
}

// runeWidth returns about the width of a character, as a part of the size of the letters: that
// in DejaVu Sans, which is wide. For scripts without letters in that font it is a wide guess.
func runeWidth(r rune) float64 {
	switch {
	case unicode.In(r, unicode.Mn, unicode.Me):
		return 0
	case r >= 0x1f000:
		return 1.4
	case r >= 0x0900 && !(r >= 0x1e00 && r <= 0x2044 || r >= 0x2200 && r <= 0x22ff),
		strings.ContainsRune("MWmw@%—…", r):
		return 1
	case strings.ContainsRune("fijlrtI.,:;'’′!|()/ ", r):
		return blankWidth
	case strings.ContainsRune("+±=<>~#&", r), r >= 0x2200, r >= 0x0590 && r < 0x0900:
		return 0.84
	case unicode.IsUpper(r):
		return 0.79
	case r >= 0x0370 && r < 0x0590:
		return 0.7
	}
	return 0.64 // also of a figure
}

// How far the letters of tall scripts reach above and below the base line, as multiples of their
// size. A line of them needs both.
const tallUp, tallDown = 1.1, 0.4

// isTall reports whether a letter may reach higher and lower than Latin letters.
func isTall(r rune) bool {
	return r >= 0x0590 && !(r >= 0x1e00 && r <= 0x23ff) || unicode.Is(unicode.Mn, r)
}

// Shortened returns a text on one line. If it is wider than width, a multiple of the letter
// size, Shortened cuts it and adds ….
func Shortened(text string, width float64) string {
	runes := []rune(oneline.Of(text))
	used, fits := 0.0, 0 // the width used, and the runes that leave room for the …
	for i, r := range runes {
		used += runeWidth(r)
		if used <= width-1 {
			fits = i + 1
		}
	}
	if used <= width {
		return string(runes)
	}
	return strings.TrimRightFunc(string(runes[:fits]), unicode.IsSpace) + "…"
}

// Wrapped breaks a text between words into lines of at most width, a multiple of the
// letter size. A wider word has its own line. An empty text gives one empty line.
func Wrapped(text string, width float64) []string {
	var lines []string
	line := ""
	for word := range strings.SplitSeq(oneline.Of(text), " ") {
		if line != "" && TextWidth(line)+TextWidth(word)+blankWidth > width {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}
