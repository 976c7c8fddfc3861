// Command run tests a program, in any language, against the conformance corpus. It starts the
// program and sends the cases to its standard input, one JSON object a line. It reads the answers
// from the standard output, and reports them.
//
//	go run ./conformance/run -operations         # what each operation does, takes and answers
//	go run ./conformance/run -list -topic fix    # the cases
//	go run ./conformance/run -- PROGRAM ARGS     # test a program
//	go run ./conformance/run -bundle DIR         # write all cases to one file, with an index page
//
// The README of package [lubberline.example/conformance] has the protocol and leads to a first
// report in fifteen minutes. A program written in Go can be tested without this command, by
// that package. The flag -h lists the flags.
//
// The exit status is 0 if at least one case passed and every other case of an offered operation
// passed or is listed as known. It is 1 if a case failed or was declined. It is 2 if the
// protocol or the usage is wrong, or if the program did not start again.
package main

import (
	"bufio"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"regexp"
	"slices"
	"strings"
	"time"

	"lubberline.example/conformance"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

const about = `Usage: run [flags] -- PROGRAM [ARGS]

Tests a program against the conformance corpus over its standard input and output. See
conformance/README.md for the protocol.

`

// run does the command's work and returns its exit status.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("run", flag.ContinueOnError)
	flags.SetOutput(io.Discard) // faults are printed in one line
	flags.Usage = func() {}
	var o order
	o.define(flags)
	fail := func(err error) int {
		fmt.Fprintln(stderr, "run:", err)
		return 2
	}
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		flags.SetOutput(stderr)
		fmt.Fprint(stderr, about)
		flags.PrintDefaults()
		return 0
	} else if err != nil {
		return fail(fmt.Errorf("%w; -h explains the flags", err))
	}
	if o.write = writers[o.report]; o.write == nil {
		return fail(fmt.Errorf("-report %q is not a form; use text, json or junit", o.report))
	}
	if o.timeout <= 0 {
		return fail(fmt.Errorf("-timeout %v: use a time above zero, such as 2s", o.timeout))
	}
	if o.known != "" {
		var err error
		if o.Known, err = readKnown(o.known); err != nil {
			return fail(err)
		}
	}
	topics, err := conformance.Load()
	if err != nil {
		return fail(err)
	}
	if err := checkTopic(topics, o.Topic); err != nil {
		return fail(err)
	}
	if done, err := o.describe(stdout, topics); err != nil {
		return fail(err)
	} else if done {
		return 0
	}
	if flags.NArg() == 0 {
		return fail(errors.New("no program: write it after the flags, as in run -- python3 adapter.py; -h explains the flags"))
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

// checkTopic refuses a topic that the corpus does not have.
func checkTopic(topics []conformance.Topic, name string) error {
	var names []string
	for _, t := range topics {
		names = append(names, t.Topic)
	}
	if name == "" || slices.Contains(names, name) {
		return nil
	}
	return fmt.Errorf("-topic %q is not a topic; use one of %s", name, strings.Join(names, ", "))
}

// An order has the flags of a run.
type order struct {
	conformance.Options
	command    []string // the program and its arguments
	operations []string // of the corpus
	timeout    time.Duration
	write      func(io.Writer, conformance.Report, bool) error
	all        bool // whether the report has the cases that passed
	failFast   bool // whether the first failure ends the run

	list, outlines bool   // whether cases or operations are listed and nothing is run
	bundle         string // the directory to write all cases to, or empty
	report, known  string // the form of the report, and the file of known failures
}

// define defines the flags.
func (o *order) define(flags *flag.FlagSet) {
	flags.StringVar(&o.Topic, "topic", "", "only the cases of this `topic`")
	pattern := func(to **regexp.Regexp) func(string) error {
		return func(s string) (err error) {
			*to, err = regexp.Compile(s)
			return err
		}
	}
	flags.Func("run", "only the cases whose id or operation matches this regular `expression`", pattern(&o.Run))
	flags.Func("skip", "no case whose id or operation matches this regular `expression`", pattern(&o.Skip))
	flags.Func("tier", "how closely answers are compared: navigation, library, or format for spellings alone; library if no `tier` is given", func(s string) error {
		o.Tier = conformance.Tier(s)
		return nil
	})
	flags.BoolVar(&o.list, "list", false, "list the chosen cases with their operations, and run nothing")
	flags.BoolVar(&o.outlines, "operations", false, "describe the operations of the chosen cases, and run nothing; with -report json as JSON")
	flags.StringVar(&o.bundle, "bundle", "", "write all cases to one file in this `directory`, with an index page, and run nothing")
	flags.StringVar(&o.report, "report", "text", "`form` of the report: text, json or junit")
	flags.StringVar(&o.known, "known", "", "`file` of cases known to fail or to be declined: on each line an id, and the reason")
	flags.DurationVar(&o.timeout, "timeout", 2*time.Second, "how long a case may take")
	flags.BoolVar(&o.failFast, "fail-fast", false, "stop at the first case that fails")
	flags.BoolVar(&o.all, "all", false, "print the cases that passed too")
}

// describe writes what the flags ask for instead of a run. It reports whether they do.
func (o *order) describe(w io.Writer, topics []conformance.Topic) (bool, error) {
	switch {
	case o.list:
		return true, listCases(w, topics, o.Options)
	case o.outlines:
		return true, describeOperations(w, topics, o.Options, o.report == "json")
	case o.bundle != "":
		return true, writeBundle(o.bundle)
	}
	return false, nil
}

// errFailFast ends a run at the first failure.
var errFailFast = errors.New("stopped at the first failure")

// carryOut sends the cases to the program and writes the report. It reports whether the run was
// good.
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
		if c.lost == nil && o.failFast && !r.Status.Good() {
			return errFailFast
		}
		return c.lost
	})
	stopped := errors.Is(err, errFailFast)
	if stopped {
		fmt.Fprintf(stderr, "run: %v; later cases did not run\n", err)
		err = nil
	}
	if len(answer.Results) > 0 {
		if err := o.write(stdout, answer, o.all); err != nil {
			return false, err
		}
	}
	if err == nil && !stopped && !answer.Good() {
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
			return nil, fmt.Errorf("%s: line %d: %.60s has no reason; write it after the id", path, line, id)
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
