package variation

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// The words of legends, in lower case, by their meaning.
var (
	// before the variation
	leadingWords = setOf("magnetic", "mag", "magn", "variation", "varn", "var", "declination", "decl", "dec", "compass", "of", "the")

	// between the variation and the year
	trailingWords = setOf("in", "for", "year", "of", "epoch")

	// which way the variation changes
	senses = map[string]int{
		"increase": 1, "increases": 1, "increasing": 1, "incr": 1, "inc": 1,
		"decrease": -1, "decreases": -1, "decreasing": -1, "decr": -1, "dec": -1, "diminishing": -1,
	}

	// to which side it lies or changes
	sides = map[string]byte{
		"e": 'E', "east": 'E', "easterly": 'E', "eastward": 'E', "eastwards": 'E',
		"w": 'W', "west": 'W', "westerly": 'W', "westward": 'W', "westwards": 'W',
	}

	// there is no change
	nothingWords = setOf("no", "nil", "none", "negligible", "zero")

	// units of a figure
	unitWords = setOf("deg", "degs", "degree", "degrees", "d", "min", "mins", "minute", "minutes", "sec", "secs", "seconds")

	// words without further meaning
	plainWords = setOf("annual", "annually", "annum", "ann", "yearly", "year", "yr", "per", "a", "about", "abt", "approx",
		"approximately", "by", "change", "changing", "rate", "of", "the", "each", "every", "and", "is", "p", "pa", "in",
		"magnetic", "variation")
)

// The names that may stand before the figures of a variation. North and south are there so
// that the parser of angles refuses them.
var figureNames = setOf("e", "w", "n", "s", "east", "west", "north", "south")

// signs may stand before a figure: plus, minus and their look-alikes.
const signs = "+-−–—‐‑‒﹣－"

const (
	isO    = "is west in some languages and east in others"
	wantEW = "write E or W, or name the language of the legend"
)

// foreign returns an error for a word in the place of the variation that legends do not use,
// or that means east in one language and west in another.
func (l *legend) foreign(start, end int) error {
	word := strings.ToLower(wordAt(l.text[:end], start))
	first, _ := utf8.DecodeRuneInString(l.text[start+len(word) : end])
	strange := unicode.IsLetter(first) // the word goes on in letters that are not English
	switch {
	case word == "o" && !strange:
		return l.stray(start, isO, wantEW)
	case word == "" && strange, word != "" && !figureNames[word]:
		return l.stray(start, "is not a word of a legend", "write the variation before the year, such as 4°15′W 2009")
	}
	stop := trimFiller(l.text, start, end)
	if word := lastWord(l.text[start:stop]); strings.EqualFold(word, "o") {
		return l.stray(stop-len(word), isO, wantEW)
	}
	return nil
}

// setOf returns the set of some words.
func setOf(words ...string) map[string]bool {
	set := make(map[string]bool, len(words))
	for _, w := range words {
		set[w] = true
	}
	return set
}

// wordAt returns the run of letters at an offset, which may be empty. It does not look
// further on: that would take quadratic time if it were called at each character.
func wordAt(s string, at int) string {
	end := at
	for end < len(s) && isLetter(s[end]) {
		end++
	}
	return s[at:end]
}

// lastWord returns the run of letters at the end of a text.
func lastWord(s string) string {
	start := len(s)
	for start > 0 && isLetter(s[start-1]) {
		start--
	}
	return s[start:]
}

// isLetter reports whether a character is a letter of ASCII.
func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// filler may stand between the parts of a legend, without a meaning.
const filler = " \t\r\n\u00a0\u2009\u202f().,;:[]"

// skipFiller moves over filler; a point before a figure is a decimal point.
func skipFiller(s string, from int) int {
	for from < len(s) {
		r, width := utf8.DecodeRuneInString(s[from:])
		if !strings.ContainsRune(filler, r) && r != '–' && r != '—' || r == '.' && from+1 < len(s) && isDigit(s[from+1]) {
			break
		}
		from += width
	}
	return from
}

// trimFiller moves an end back over filler.
func trimFiller(s string, start, end int) int {
	for end > start {
		r, width := utf8.DecodeLastRuneInString(s[start:end])
		if !strings.ContainsRune(filler, r) && r != '–' && r != '—' {
			break
		}
		end -= width
	}
	return end
}
