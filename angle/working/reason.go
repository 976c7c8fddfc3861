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
	if !strings.Contains(format, "%") && len(arguments) == 0 {
		return format, Reason{Key: key}
	}
	var short [200]byte
	text := short[:0]
	r := Reason{Key: key, Arguments: make([]string, 0, len(arguments))}
	left, rest := arguments, format
	for {
		before, verb, after := cutVerb(rest)
		text = append(text, before...)
		if verb == "" {
			break
		}
		rest = after
		if verb == "%%" {
			text = append(text, '%')
			continue
		}
		n := min(1+strings.Count(verb, "*"), len(left)) // a width or precision takes an argument
		argument := print(verb, left[:n])
		left = left[n:]
		text = append(text, argument...)
		r.Arguments = append(r.Arguments, argument)
	}
	if len(r.Arguments) == 0 {
		r.Arguments = nil
	}
	if len(left) > 0 { // say so as fmt does
		return fmt.Sprintf(format, arguments...), r
	}
	return string(text), r
}

// print formats what one verb takes.
func print(verb string, arguments []any) string {
	if len(arguments) == 1 && (verb == "%s" || verb == "%v") {
		if text, ok := arguments[0].(string); ok {
			return text
		}
	}
	return fmt.Sprintf(verb, arguments...)
}

// cutVerb cuts a format around its first verb, which is empty if there is none.
func cutVerb(format string) (before, verb, after string) {
	before, rest, ok := strings.Cut(format, "%")
	if !ok {
		return format, "", ""
	}
	for i, c := range []byte(rest) {
		if strings.IndexByte("+-# 0123456789.*", c) < 0 {
			end := len(before) + 1 + i + 1
			return before, format[len(before):end], format[end:]
		}
	}
	return format, "", ""
}
