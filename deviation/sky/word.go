package sky

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"lubberline.example/angle"
)

// A word is one of the kinds of this package that are told by a word, numbered from
// nought in the order of its words.
type word interface {
	Event | Horizon | Limb | Standing
}

// wordOf returns the word, or the type's name with the number where there is none.
func wordOf[W word](w W, words []string) string {
	if w < 0 || int(w) >= len(words) {
		name := fmt.Sprintf("%T", w)
		return name[strings.LastIndexByte(name, '.')+1:] + "(" + strconv.Itoa(int(w)) + ")"
	}
	return words[w]
}

// appendWord appends the word and refuses a number that has none.
func appendWord[W word](b []byte, what string, w W, words []string) ([]byte, error) {
	if w < 0 || int(w) >= len(words) {
		return b, &angle.RangeError{What: what, Value: float64(w), Accepted: "0 to " + strconv.Itoa(len(words)-1) + ", " + strings.Join(words, ", ")}
	}
	return append(b, words[w]...), nil
}

// readWord reads one of the words.
func readWord[W word](w *W, text []byte, what string, words []string) error {
	if w == nil {
		return &angle.ParseError{What: what, Input: string(text), Kind: angle.UnknownWord, Want: "a pointer that is not nil"}
	}
	if i := slices.Index(words, string(text)); i >= 0 {
		*w = W(i)
		return nil
	}
	kind := angle.UnknownWord
	if len(text) == 0 {
		kind = angle.Empty
	}
	return &angle.ParseError{What: what, Input: string(text), Kind: kind, Want: strings.Join(words, ", ")}
}
