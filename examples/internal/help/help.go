// Package help reads the flags of an example.
package help

import (
	"errors"
	"flag"
	"fmt"
	"io"
)

// Parse reads the arguments of a program. It returns the exit status, and whether the program
// goes on. With -h it prints what the program does and its flags. A fault in the flags is one
// line, so that it does not scroll away.
func Parse(flags *flag.FlagSet, about string, args []string, stderr io.Writer) (status int, goOn bool) {
	flags.SetOutput(io.Discard)
	flags.Usage = func() {}
	err := flags.Parse(args)
	if errors.Is(err, flag.ErrHelp) {
		flags.SetOutput(stderr)
		fmt.Fprint(stderr, about)
		flags.PrintDefaults()
		return 0, false
	}
	if err != nil {
		fmt.Fprintf(stderr, "%s: %v; -h explains the flags\n", flags.Name(), err)
		return 2, false
	}
	return 0, true
}
