// Command book keeps a compass record book: a log of checks of the compass. It adds a check by a
// transit, a charted object, the Sun, a second compass or another vessel's gyro compass. It prints
// the page of the book, and whether the deviation card still holds by all checks in it.
//
// Without flags it prints an invented book, which is in the files of its folder.
//
//	go run ./examples/book
//	go run ./examples/book -add transit
//	go run ./examples/book -h # how to keep your own
//
// It shows package [lubberline.example/deviation/check].
package main

import (
	"bytes"
	"cmp"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/check"
	"lubberline.example/examples/internal/help"
	"lubberline.example/examples/internal/inputs"
)

// The invented book, and the card of its compass.
var (
	//go:embed book.csv
	inventedBook []byte
	//go:embed deviation.csv
	inventedCard []byte
)

const about = `Usage: book [flags]

Prints a page of a compass record book, and judges the deviation card by it. Without
flags the book is invented. To keep your own, give -book and -card. A -book that
does not exist is begun with the first check.

-add works a check and adds it to the book. Nothing in the book is lost if the program
is stopped. Without -book the readings are invented too, and nothing is kept. All
methods take -time, -heading by the compass that is checked, and -rose. These are added
to them:

  -add transit  two charted marks in line:        -bearing, -direction
  -add object   a charted object:                 -bearing, -position, -object
  -add sun      the Sun:                          -bearing, -position
  -add compass  the heading by a second compass:  -other, -other-deviation
  -add gyro     another vessel's gyro compass.    -bearing, of that vessel; and -gyro, its
                bearing of you at the same time,  and -gyro-error

The files are CSV, with a line of column names, or JSON arrays of objects. -book also
reads what -format json writes:

  book    time, heading, method, against, bearing, true, position, compassError, variation,
          variationSource, variationChange, deviation, observer, remarks, warnings
  card    compass (or magnetic), deviation[, uncertainty]

Never look at the Sun without a proper shade.

`

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// options are the flags.
type options struct {
	book, card, vessel, form string
	add                      string
	given                    map[string]bool
	reading                  map[string]string // the flags of a reading, or their invented values
}

// forms are those of the output.
var forms = []string{"text", "json", "html"}

// run does the work and returns the exit status: 1 for a fault in the files or in a check, 2 for
// one in the flags.
func run(args []string, stdout, stderr io.Writer) int {
	o := options{given: map[string]bool{}, reading: map[string]string{}}
	flags := flag.NewFlagSet("book", flag.ContinueOnError)
	flags.StringVar(&o.book, "book", "", "`file` of the book (default: the invented one)")
	flags.StringVar(&o.card, "card", "", "`file` of the deviation card (default: the invented one)")
	flags.StringVar(&o.vessel, "vessel", "", "name of the vessel, for the page")
	flags.StringVar(&o.form, "format", "text", "output: text, json or html")
	flags.StringVar(&o.add, "add", "", "add a check by this `method`: transit, object, sun, compass or gyro")
	for _, f := range readingFlags {
		flags.String(f.name, f.usual, f.says)
	}
	if status, goOn := help.Parse(flags, about, args, stderr); !goOn {
		return status
	}
	flags.Visit(func(f *flag.Flag) { o.given[f.Name] = true })
	for _, f := range readingFlags {
		o.reading[f.name] = flags.Lookup(f.name).Value.String()
	}
	check, err := o.check()
	switch {
	case err != nil:
	case flags.NArg() > 0:
		err = fmt.Errorf("%q: everything is given with flags; -h explains", flags.Arg(0))
	case !slices.Contains(forms, o.form):
		err = fmt.Errorf("-format %.40q: give text, json or html", o.form)
	}
	if err != nil {
		fmt.Fprintln(stderr, "book:", err)
		return 2
	}
	if err := o.work(check, stdout); err != nil {
		fmt.Fprintln(stderr, "book:", err)
		return 1
	}
	return 0
}

// work reads the files, adds the check, and prints the page.
func (o *options) work(c *check.Check, stdout io.Writer) error {
	p := printed{vessel: o.vessel, added: c}
	data, err := o.readBook()
	begun := c != nil && (errors.Is(err, os.ErrNotExist) || err == nil && len(bytes.TrimSpace(bytes.TrimPrefix(data, []byte("\ufeff")))) == 0)
	if err != nil && !begun {
		return err
	}
	if !begun {
		if err := p.read(data); err != nil {
			return fmt.Errorf("%s: %w", o.name(), err)
		}
		if c != nil && p.isOutput {
			return fmt.Errorf("%s: -add cannot add to the output of -format json: give a book in CSV, or a JSON array of checks", o.name())
		}
	}
	if err := o.readCard(&p); err != nil {
		return err
	}
	if c != nil {
		p.checks = append(p.checks, *c)
		if o.book != "" {
			if err := check.AppendLog(o.book, *c); err != nil {
				return fmt.Errorf("%s: %w", o.book, err)
			}
		}
	}
	p.judge()
	var b bytes.Buffer
	switch o.form {
	case "json":
		err = p.json(&b)
	case "html":
		err = p.html(&b)
	default:
		err = nil
		p.text(&b)
	}
	if err != nil {
		return err
	}
	_, err = stdout.Write(b.Bytes())
	return err
}

// name returns the name of the book's file.
func (o *options) name() string { return cmp.Or(o.book, "book.csv") }

// readBook returns what the book's file holds.
func (o *options) readBook() ([]byte, error) {
	if o.book == "" {
		return inventedBook, nil
	}
	return os.ReadFile(o.book)
}

// readCard reads the deviation card. Without -card it is the one in the output of -format json,
// or that of the invented book.
func (o *options) readCard(p *printed) error {
	data, err := inventedCard, error(nil)
	switch {
	case o.card != "":
		data, err = os.ReadFile(o.card)
	case p.card != nil:
		return nil
	case o.book != "":
		err = errors.New("-card missing: with your own book give the card of its compass too; the invented one is of another")
	}
	if err != nil {
		return err
	}
	if p.card, err = deviation.ReadTable(bytes.NewReader(data)); err != nil {
		return fmt.Errorf("card %s: %w", o.card, err)
	}
	return nil
}

// read reads a book, or the output of -format json.
func (p *printed) read(data []byte) error {
	p.invented = bytes.Equal(data, inventedBook)
	var in inputsOf
	isOutput, err := inputs.Read(data, &in)
	if err != nil {
		return err
	}
	p.isOutput = isOutput
	if isOutput {
		data, p.invented, p.card, p.vessel = inputs.Rows(data, in.Checks), in.Invented, in.Card, cmp.Or(p.vessel, in.Vessel)
	}
	if p.invented {
		p.vessel = cmp.Or(p.vessel, "Quillon")
	}
	p.checks, err = check.ReadLog(bytes.NewReader(data))
	return err
}

// parseTime reads a time in UTC.
func parseTime(text string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return t, fmt.Errorf("%.60q is not a time; write it as 2026-05-14T17:03:20Z", text)
	}
	return t, nil
}

// hasYear reports whether a text has four figures together, as the legend of a rose has.
func hasYear(text string) bool {
	run := 0
	return strings.ContainsFunc(text, func(r rune) bool {
		if r < '0' || r > '9' {
			run = 0
		} else {
			run++
		}
		return run == 4
	})
}

// known returns a standard uncertainty.
func known(text string) (angle.Uncertainty, error) {
	var u angle.Uncertainty
	err := u.UnmarshalText([]byte(text))
	return u, err
}
