// Command run holds a program, in any language, to the conformance corpus: it starts the
// program, asks it the cases over its standard input and output, one JSON object a line,
// and reports what it answered.
//
//	go run ./conformance/run -operations         # what can be asked: what is given, what answered
//	go run ./conformance/run -list -topic fix    # the cases
//	go run ./conformance/run -- PROGRAM ARGS     # ask it
//
// The protocol, and a first program in fifteen minutes, are in the README of package
// [lubberline.example/conformance], which also holds a program written in Go to the same
// cases without this command. With -h the command tells its flags. The exit status is 0 if at
// least one case passed and every other case of an offered operation passed or is listed
// as known; 1 if a case failed or was declined; 2 if the protocol or the usage is wrong,
// or if the program could not be started again.
package main

import (
	"bufio"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"lubberline.example/conformance"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

const about = `Usage: run [flags] -- PROGRAM [ARGS]

Holds a program to the conformance corpus over its standard input and output. See
conformance/README.md for the protocol.

`

// run does the command's work and returns its exit status.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("run", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() {
		fmt.Fprint(stderr, about)
		flags.PrintDefaults()
	}
	var o order
	flags.StringVar(&o.Topic, "topic", "", "only the cases of this topic")
	flags.StringVar(&o.ID, "id", "", "only the cases whose id matches this pattern or begins with it")
	flags.Func("tier", "how closely answers are compared: library (the default) or navigation", func(s string) error {
		o.Tier = conformance.Tier(s)
		return nil
	})
	list := flags.Bool("list", false, "list the chosen cases with their operations, and run nothing")
	outlines := flags.Bool("operations", false, "list the operations of the chosen cases with what is given and answered, and run nothing")
	report := flags.String("report", "text", "form of the report: text, json or junit")
	known := flags.String("known", "", "file of known failures: on each line an id, and the reason")
	flags.DurationVar(&o.timeout, "timeout", 2*time.Second, "how long a case may take")
	flags.BoolVar(&o.all, "all", false, "print the cases that passed too")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	fail := func(err error) int {
		fmt.Fprintln(stderr, "run:", err)
		return 2
	}
	if o.write = writers[*report]; o.write == nil {
		return fail(fmt.Errorf("-report %q: want text, json or junit", *report))
	}
	if o.timeout <= 0 {
		return fail(fmt.Errorf("-timeout %v: use a time above zero, such as 2s", o.timeout))
	}
	if *known != "" {
		var err error
		if o.Known, err = readKnown(*known); err != nil {
			return fail(err)
		}
	}
	topics, err := conformance.Load()
	if err != nil {
		return fail(err)
	}
	switch {
	case *list:
		listCases(stdout, topics, o.Options)
		return 0
	case *outlines:
		if err := listOperations(stdout, topics, o.Options); err != nil {
			return fail(err)
		}
		return 0
	}
	if flags.NArg() == 0 {
		flags.Usage()
		return 2
	}
	o.command, o.operations = flags.Args(), corpusOperations(topics)
	good, err := o.carryOut(stdout, stderr)
	switch {
	case err != nil:
		return fail(err)
	case !good:
		return 1
	}
	return 0
}

// An order is what the command is to do.
type order struct {
	conformance.Options
	command    []string // the program and its arguments
	operations []string // of the corpus
	timeout    time.Duration
	write      func(io.Writer, conformance.Report, bool) error
	all        bool // whether the report has the cases that passed
}

// carryOut asks the program the cases, writes the report and says whether all that was
// offered passed.
func (o order) carryOut(stdout, stderr io.Writer) (good bool, err error) {
	c := &child{command: o.command, operations: o.operations, timeout: o.timeout}
	if err := c.start(); err != nil {
		return false, err
	}
	defer c.stop()
	shown := progress(stderr)
	answer, err := conformance.Hold(c, c.name, c.version, o.Options, func(r conformance.Result) error {
		if shown != nil {
			shown(r)
		}
		return c.lost
	})
	if len(answer.Results) > 0 {
		if err := o.write(stdout, answer, o.all); err != nil {
			return false, err
		}
	}
	if err == nil && !answer.Good() {
		counts := answer.Counts()
		switch {
		case len(c.offers) == 0:
			fmt.Fprintln(stderr, "run: the program offers none of the operations")
		case counts[conformance.Pass] == 0:
			fmt.Fprintln(stderr, "run: no case passed")
		case counts[conformance.Declined] > 0:
			fmt.Fprintf(stderr, "run: %d cases were declined; list those that the program cannot work in the file of -known, with the reason\n", counts[conformance.Declined])
		}
	}
	return answer.Good(), err
}

// corpusOperations are the operations of the corpus.
func corpusOperations(topics []conformance.Topic) []string {
	var operations []string
	for _, t := range topics {
		for _, c := range t.Cases {
			operations = append(operations, c.Operation)
		}
	}
	slices.Sort(operations)
	return slices.Compact(operations)
}

// maxKnown is how many bytes a file of known failures may have: far more than the corpus
// has cases.
const maxKnown = 4 << 20

// readKnown reads known failures: an id and a reason on each line; blank lines and those
// that begin with # are passed over. A file of more than 4 MiB or a line of more than 64 KiB
// is refused.
func readKnown(path string) (map[string]string, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	known := map[string]string{}
	file := &io.LimitedReader{R: f, N: maxKnown + 1}
	scanner := bufio.NewScanner(file)
	line := 1
	for ; scanner.Scan() && scanner.Err() == nil; line++ { // with an error the line may be cut
		if file.N <= 0 {
			return nil, fmt.Errorf("%s: more than %d MiB", path, maxKnown>>20)
		}
		text := strings.TrimSpace(scanner.Text())
		if text == "" || text[0] == '#' {
			continue
		}
		id, reason, _ := strings.Cut(text, " ")
		if reason = strings.TrimSpace(reason); reason == "" {
			return nil, fmt.Errorf("%s: line %d: %.60s is listed without a reason", path, line, id)
		}
		known[id] = reason
	}
	if err := scanner.Err(); err != nil { // too long a line, if it is not the reader's
		return nil, fmt.Errorf("%s: line %d: %w", path, line, err)
	}
	return known, nil
}

// progress shows on a terminal how far the run is.
func progress(w io.Writer) func(conformance.Result) {
	f, ok := w.(*os.File)
	if !ok {
		return nil
	}
	if info, err := f.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return nil
	}
	n := 0
	return func(r conformance.Result) {
		n++
		fmt.Fprintf(f, "\r%5d  %-70.70s", n, r.Case.ID)
	}
}
