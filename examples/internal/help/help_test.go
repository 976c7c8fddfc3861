package help

import (
	"flag"
	"strings"
	"testing"
)

// TestAFaultInTheFlagsIsOneLine parses flags that are right, wrong and asked for. Only -h prints
// the help.
func TestAFaultInTheFlagsIsOneLine(t *testing.T) {
	for _, c := range []struct {
		args   []string
		status int
		goOn   bool
		says   string
	}{
		{nil, 0, true, ""},
		{[]string{"-eye", "3", "more"}, 0, true, ""},
		{[]string{"-h"}, 0, false, "Usage: watch [flags]\n\n  -eye float\n    \theight of eye in metres\n"},
		{[]string{"-eye", "high"}, 2, false, "watch: invalid value \"high\" for flag -eye: parse error; -h explains the flags\n"},
		{[]string{"-eye"}, 2, false, "watch: flag needs an argument: -eye; -h explains the flags\n"},
		{[]string{"-nose", "3"}, 2, false, "watch: flag provided but not defined: -nose; -h explains the flags\n"},
	} {
		flags := flag.NewFlagSet("watch", flag.ContinueOnError)
		flags.Float64("eye", 0, "height of eye in metres")
		var b strings.Builder
		if status, goOn := Parse(flags, "Usage: watch [flags]\n\n", c.args, &b); status != c.status || goOn != c.goOn || b.String() != c.says {
			t.Errorf("%q: %d, %v, %q", c.args, status, goOn, b.String())
		}
	}
}
