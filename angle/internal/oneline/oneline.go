// Package oneline shows text from outside, a name in a file, on one line and as it is.
package oneline

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Of returns a text on one line. Spaces of all kinds become one space, but those that do
// not break stay. Control characters and those that change the direction of writing are
// shown escaped, as \x1b and \u202e, so that a name cannot hide what stands beside it or
// steer a terminal. What is not UTF-8 becomes the replacement character.
func Of(text string) string {
	if isPlain(text) {
		return text
	}
	var b strings.Builder
	space := false
	for _, r := range strings.ToValidUTF8(text, string(utf8.RuneError)) {
		switch {
		case r != '\u00a0' && r != '\u202f' && unicode.IsSpace(r): // those two keep figures to their units
			space = b.Len() > 0
			continue
		case r == 0xFFFE || r == 0xFFFF: // not characters, and not allowed in XML
			r = utf8.RuneError
		}
		if space {
			b.WriteByte(' ')
			space = false
		}
		if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) {
			b.WriteString(strings.Trim(strconv.QuoteRuneToASCII(r), "'"))
			continue
		}
		b.WriteRune(r)
	}
	return b.String()
}

// isPlain reports whether a text is of letters, figures and signs with single spaces between
// words, which most are. It may report false for others that need no change.
func isPlain(text string) bool {
	before := ' '
	for _, r := range text {
		switch {
		case r == ' ' && before == ' ', r < ' ', r > '~' && r < 0xA1: // U+00A0 does not break
			return false
		case r <= 0x37F: // Latin and Greek letters, °, ±, ×, ½
		case r >= 0x2030 && r <= 0x205E, r >= 0x2070 && r <= 0x2FFF: // ′, ″, −, arrows: no space, no mark of direction
		default:
			return false
		}
		before = r
	}
	return text == "" || before != ' '
}

// marks are what means something within a line of CommonMark, and of the usual additions
// to it: strikethrough (~) and formulas ($).
var marks = strings.NewReplacer(
	`\`, `\\`, "`", "\\`", `*`, `\*`, `_`, `\_`, `[`, `\[`, `]`, `\]`, `<`, `\<`, `>`, `\>`,
	`&`, `\&`, `#`, `\#`, `|`, `\|`, `~`, `\~`, `$`, `\$`,
)

// Markdown returns a text on one line for a place within a line of Markdown, with all marks
// escaped.
func Markdown(text string) string { return marks.Replace(Of(text)) }
