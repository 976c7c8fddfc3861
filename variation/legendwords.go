package variation

import (
	"strings"
	"unicode/utf8"
)

// The words of legends, in lower case, by what they say.
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

	// that it does not change
	nothingWords = setOf("no", "nil", "none", "negligible", "zero")

	// units of a figure
	unitWords = setOf("deg", "degs", "degree", "degrees", "d", "min", "mins", "minute", "minutes", "sec", "secs", "seconds")

	// words that say nothing more
	plainWords = setOf("annual", "annually", "annum", "ann", "yearly", "year", "yr", "per", "a", "about", "abt", "approx",
		"approximately", "by", "change", "changing", "rate", "of", "the", "each", "every", "and", "is", "p", "pa", "in",
		"magnetic", "variation")
)

func setOf(words ...string) map[string]bool {
	set := make(map[string]bool, len(words))
	for _, w := range words {
		set[w] = true
	}
	return set
}

// wordAt returns the run of letters at an offset, which may be empty. It does not look
// for one further on: asked at every character that would take time as the square.
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

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// filler is what stands between the parts of a legend and means nothing.
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
