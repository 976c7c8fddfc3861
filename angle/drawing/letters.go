package drawing

import (
	"strings"
	"unicode"

	"lubberline.example/angle/internal/oneline"
)

// blankWidth is how wide a space is, in its sizes.
const blankWidth = 0.42

var marks = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

// escaped is a text as the content of an element.
func escaped(text string) string { return marks.Replace(oneline.Of(text)) }

// TextWidth is how wide a text is, in its sizes: 6 for one that takes 18 mm in letters of
// 3 mm. As the fonts of the reader or the printer are not known, it reckons with wide ones.
func TextWidth(text string) float64 {
	w := 0.0
	for _, r := range text {
		w += runeWidth(r)
	}
	return w
}

func runeWidth(r rune) float64 {
	switch {
	case unicode.Is(unicode.Mn, r):
		return 0
	case r >= 0x1100 && !(r >= 0x2010 && r <= 0x2044):
		return 1
	case strings.ContainsRune("MWmw@%—", r):
		return 0.98
	case strings.ContainsRune("fijlrtI.,:;'’′°!|()/ ", r):
		return blankWidth
	case unicode.IsUpper(r):
		return 0.75
	}
	return 0.6
}

// TextBox is what a text takes up that begins at a spot on its base line, in letters of a
// size in millimetres.
func TextBox(at Spot, text string, size float64) Box {
	return Box{at.X, at.Y - 0.8*size, at.X + size*TextWidth(text), at.Y + 0.26*size}
}

// Shortened is a text on one line, cut and ended with … if it is wider than
// some times its size.
func Shortened(text string, width float64) string {
	runes := []rune(oneline.Of(text))
	used, fits := 0.0, 0 // in sizes, and in runes with room for the …
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

// Wrapped breaks a text, made one line, between its words into lines of a width in its sizes.
// A word that is wider has a line of its own. Of an empty text there is one empty line.
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
