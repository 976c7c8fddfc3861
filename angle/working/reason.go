package working

import (
	"fmt"
	"strings"
)

//go:generate go run ../../.ci/reasons.go

// A Reason is a sentence of a working as data, so that a program can write it in another
// language. Its English text stands in [Step.How] or [Warning.Message].
type Reason struct {
	// Key names the sentence, in kebab-case: "annual-change". One key always has the same
	// English format; reasons.json lists them.
	Key string `json:"key"`

	// Arguments are the figures and names in the sentence, as printed, in the order of the
	// English text.
	Arguments []string `json:"arguments,omitempty"`
}

// because formats a reason as fmt.Sprintf does, and keeps each argument as it is printed.
func because(key, format string, arguments ...any) (string, Reason) {
	r := Reason{Key: key}
	left := arguments
	for _, verb := range verbs(format) {
		n := min(1+strings.Count(verb, "*"), len(left)) // a width or precision takes an argument
		r.Arguments = append(r.Arguments, fmt.Sprintf(verb, left[:n]...))
		left = left[n:]
	}
	return fmt.Sprintf(format, arguments...), r
}

// verbs returns the verbs of a format in their order, without %%.
func verbs(format string) []string {
	var found []string
	for {
		_, rest, ok := strings.Cut(format, "%")
		if !ok {
			return found
		}
		end := strings.IndexFunc(rest, func(r rune) bool { return !strings.ContainsRune("+-# 0123456789.*", r) })
		if end < 0 {
			return found
		}
		if rest[end] != '%' {
			found = append(found, "%"+rest[:end+1])
		}
		format = rest[end+1:]
	}
}
