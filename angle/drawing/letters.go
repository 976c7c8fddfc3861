package drawing

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// blankWidth is how wide a space is, in its sizes.
const blankWidth = 0.42

// OneLine is a text without line ends, other characters that control and those that XML
// can't hold. What was between its words is one space, where it was not one that keeps
// them together.
func OneLine(text string) string {
	text = strings.Map(func(r rune) rune {
		if r == 0xFFFE || r == 0xFFFF { // no characters, and none in XML
			return utf8.RuneError
		}
		return r
	}, strings.ToValidUTF8(text, string(utf8.RuneError)))
	return strings.Join(strings.FieldsFunc(text, func(r rune) bool {
		return r != '\u00a0' && r != '\u202f' && unicode.IsSpace(r) || unicode.IsControl(r) // figures keep to their units
	}), " ")
}

var marks = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

// escaped is a text as the content of an element.
func escaped(text string) string { return marks.Replace(OneLine(text)) }

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

// Shortened is a text as [OneLine] gives it, cut and ended with … if it is wider than
// some times its size.
func Shortened(text string, width float64) string {
	runes := []rune(OneLine(text))
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

// Wrapped breaks a text of [OneLine] between its words into lines of a width in its sizes.
// A word that is wider has a line of its own. Of an empty text there is one empty line.
func Wrapped(text string, width float64) []string {
	var lines []string
	line := ""
	for word := range strings.SplitSeq(OneLine(text), " ") {
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
