// Command worksheet makes a paper of questions on one passage, with its key and its workings. It
// marks the answers of a class: right, or wrong with the slip that would give it.
//
// Without flags it prints an invented paper and marks the invented answers beside it.
//
//	go run ./examples/worksheet
//	go run ./examples/worksheet -out DIR # the sheets, to print
//	go run ./examples/worksheet -h       # how to give it your own
//
// It shows packages [lubberline.example/conformance/exercise],
// [lubberline.example/conformance/slip] and [lubberline.example/angle/page].
package main

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"lubberline.example/angle/drawing"
	"lubberline.example/angle/page"
	"lubberline.example/angle/working"
	"lubberline.example/conformance/exercise"
	"lubberline.example/conformance/slip"
	"lubberline.example/deviation"
	"lubberline.example/examples/internal/help"
	"lubberline.example/fix/plot"
	"lubberline.example/fix/practice"
)

// inventedAnswers are the answers of invented learners.
//
//go:embed answers.csv
var inventedAnswers []byte

const about = `Usage: worksheet [flags]

Prints a paper of questions on one passage, and marks answers to it. The foot of each sheet
has the seed, level, topics and version that make the same paper again: give them to mark
answers later. In one version the same flags always make the same paper.

-out writes the sheets as HTML, to print: questions.html, key.html, workings.html,
the chart as chart.svg (A3), the paper as paper.json, and if answers are marked, marks.csv
and results.html. In marks.csv, cells that a spreadsheet would read as formulas (= + - @,
tab, carriage return) get an apostrophe before them.

-problems reads a paper of your own instead of a made one: JSON in the form of paper.json.

-answers reads the answers of a class: CSV, with a first line that names the columns.
Further figures of the working may have columns of their own, by their names; the marks
then say what was carried on rightly. Semicolons or tabs may replace commas.
  name,question,variation,answer
  Ada,1,,5°49′W
  Ada,2,5°49′W,173

All figures of made papers are invented, and so are the vessel and the coast.

`

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// settings are the flags.
type settings struct {
	options                           exercise.Options
	letter, tolerant                  bool
	out, answers, problems, deviation string
	same                              bool // as without flags, so that the invented answers fit
}

// run is the program. It returns the exit status: 1 for a fault in the files, 2 for a fault in
// the flags.
func run(args []string, stdout, stderr io.Writer) int {
	s, status := parse(args, stderr)
	if status >= 0 {
		return status
	}
	paper, err := s.paper()
	if err != nil {
		fmt.Fprintln(stderr, "worksheet:", strings.Replace(err.Error(), "exercise: ", "", 1))
		if s.problems == "" && s.deviation == "" {
			return 2
		}
		return 1
	}
	if err := s.work(paper, stdout, stderr); err != nil {
		fmt.Fprintln(stderr, "worksheet:", err)
		return 1
	}
	return 0
}

// parse reads the flags. The status is -1 if the program goes on.
func parse(args []string, stderr io.Writer) (s settings, status int) {
	flags := flag.NewFlagSet("worksheet", flag.ContinueOnError)
	flags.Uint64Var(&s.options.Seed, "seed", 1, "seed of the paper")
	level := flags.String("level", string(slip.Medium), "easy, medium or hard")
	flags.IntVar(&s.options.Questions, "questions", 8, "number of questions, 6 to 12")
	topics := flags.String("topics", "", "topics, separated by commas (default: all: "+strings.Join(exercise.Topics(), ", ")+")")
	flags.StringVar(&s.deviation, "deviation", "", "deviation card, CSV or JSON (default: an invented one)")
	flags.StringVar(&s.problems, "problems", "", "paper of your own, JSON")
	flags.StringVar(&s.out, "out", "", "directory for the sheets and the marks; it is created if missing")
	flags.BoolVar(&s.letter, "letter", false, "print on Letter paper, not A4")
	flags.BoolVar(&s.tolerant, "tolerances", false, "mark all answers by the published tolerances of chart work")
	flags.StringVar(&s.answers, "answers", "", "answers to mark, CSV (default: invented ones, for the paper without flags)")
	if status, goOn := help.Parse(flags, about, args, stderr); !goOn {
		return s, status
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "worksheet: %q: give flags only\n", flags.Arg(0))
		return s, 2
	}
	s.options.Level = slip.Difficulty(*level)
	for topic := range strings.SplitSeq(*topics, ",") {
		if topic = strings.TrimSpace(topic); topic != "" {
			s.options.Topics = append(s.options.Topics, topic)
		}
	}
	s.same = true
	unused := ""
	flags.Visit(func(f *flag.Flag) {
		if s.problems != "" && slices.Contains([]string{"seed", "level", "questions", "topics", "deviation"}, f.Name) {
			unused = f.Name
		}
		s.same = s.same && (f.Name == "out" || f.Name == "letter" || f.Name == "tolerances")
	})
	if unused != "" {
		fmt.Fprintf(stderr, "worksheet: -%s makes a paper, and -problems reads one: leave one of them out\n", unused)
		return s, 2
	}
	return s, -1
}

// paper makes or reads the paper.
func (s settings) paper() (exercise.Paper, error) {
	if s.problems != "" {
		f, err := os.Open(s.problems)
		if err != nil {
			return exercise.Paper{}, err
		}
		defer f.Close()
		p, err := exercise.Read(f)
		if err != nil {
			err = fmt.Errorf("%s: %w", s.problems, err)
		}
		return p, err
	}
	if s.deviation != "" {
		f, err := os.Open(s.deviation)
		if err != nil {
			return exercise.Paper{}, err
		}
		defer f.Close()
		if s.options.Card, err = deviation.ReadTable(f); err != nil {
			return exercise.Paper{}, fmt.Errorf("%s: %w", s.deviation, err)
		}
	}
	return exercise.New(s.options)
}

// work marks the answers, if any, writes the sheets and prints the paper. If the answers have a
// fault, it writes and prints nothing.
func (s settings) work(paper exercise.Paper, stdout, stderr io.Writer) error {
	var b bytes.Buffer
	printPaper(&b, paper)
	if s.out != "" {
		if err := os.MkdirAll(s.out, 0o755); err != nil {
			return err
		}
	}
	results, err := s.mark(&b, paper, stderr)
	if err != nil {
		return err
	}
	if s.out != "" {
		if err := s.write(paper); err != nil {
			return err
		}
		if results != nil {
			if err := s.writePage("results", results.Page()); err != nil {
				return err
			}
		}
	}
	fmt.Fprintf(&b, "\n%s\n", working.Caution)
	_, err = stdout.Write(b.Bytes())
	return err
}

// printPaper prints the passage and the questions.
func printPaper(w io.Writer, p exercise.Paper) {
	fmt.Fprintf(w, "%s\n", working.OneLine(p.Title))
	for _, text := range p.Passage {
		fmt.Fprintf(w, "\n%s\n", working.OneLine(text))
	}
	fmt.Fprintln(w)
	for i, q := range p.Problems {
		fmt.Fprintf(w, "%2d. %s: %s\n", i+1, working.OneLine(q.Topic), working.OneLine(q.Question))
	}
	if p.Made != "" {
		fmt.Fprintf(w, "\n%s\n", working.OneLine(p.Made))
	}
}

// write writes the sheets of a paper.
func (s settings) write(p exercise.Paper) error {
	for name, doc := range map[string]page.Page{"questions": p.Questions(), "key": p.Key(), "workings": p.Workings()} {
		if err := s.writePage(name, doc); err != nil {
			return err
		}
	}
	text, err := json.MarshalIndent(p, "", " ")
	if err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(s.out, "paper.json"), append(text, '\n'), 0o644); err != nil {
		return err
	}
	if s.problems != "" {
		return nil // the chart is that of the invented coast
	}
	chart, err := plot.PracticeChart(practice.Orlesk(), plot.PracticeOptions{})
	if err != nil {
		return err
	}
	var svg bytes.Buffer
	if err := chart.WriteSVG(&svg, drawing.Plate); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(s.out, "chart.svg"), svg.Bytes(), 0o644)
}

// writePage writes a page as HTML.
func (s settings) writePage(name string, doc page.Page) error {
	if s.letter {
		doc.Size = page.Letter
	}
	var b bytes.Buffer
	if err := page.Write(&b, doc); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(s.out, name+".html"), b.Bytes(), 0o644)
}

// mark marks the answers, and prints the marks. It returns nil if there are no answers.
func (s settings) mark(b *bytes.Buffer, paper exercise.Paper, stderr io.Writer) (*exercise.Results, error) {
	answers, file := io.Reader(bytes.NewReader(inventedAnswers)), "answers.csv"
	switch {
	case s.answers != "":
		f, err := os.Open(s.answers)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		answers, file = f, s.answers
	case !s.same:
		return nil, nil
	}
	var marks bytes.Buffer
	how := exercise.Marking{CSV: &marks, Progress: progress(stderr, time.Second)}
	if s.tolerant {
		scheme := slip.ChartWork()
		how.Scheme = &scheme
	}
	copied := "" // the marks, until all are written
	if s.out != "" {
		f, err := os.CreateTemp(s.out, ".marks.*.csv")
		if err != nil {
			return nil, err
		}
		defer f.Close()
		how.CSV, copied = f, f.Name()
		defer os.Remove(copied)
	}
	results, err := paper.Mark(answers, how)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	if copied != "" {
		if err := os.Chmod(copied, 0o644); err != nil {
			return nil, err
		}
		if err := os.Rename(copied, filepath.Join(s.out, "marks.csv")); err != nil {
			return nil, err
		}
	}
	if results.Escaped > 0 {
		fmt.Fprintf(stderr, "worksheet: cells of the marks with an apostrophe before them, since a spreadsheet would have read them as formulas: %d\n", results.Escaped)
	}
	b.WriteString("\nMarks\n")
	b.Write(marks.Bytes())
	printResults(b, results)
	return &results, nil
}

// progress returns a function that prints the number of rows, at most once in a time.
func progress(w io.Writer, each time.Duration) func(int) {
	last := time.Now()
	return func(rows int) {
		if time.Since(last) >= each {
			last = time.Now()
			fmt.Fprintf(w, "worksheet: %d rows marked\n", rows)
		}
	}
}

// maxPrinted is the greatest number of learners that are printed.
const maxPrinted = 40

// printResults prints the results of a class.
func printResults(w io.Writer, r exercise.Results) {
	fmt.Fprintf(w, "\nLearners\n")
	for _, s := range r.Learners[:min(len(r.Learners), maxPrinted)] {
		name := working.OneLine(s.Name)
		if name == "" {
			name = "(no name)"
		}
		fmt.Fprintf(w, "%-12s %2d right and %d carried on, of %d answered, of %d questions\n", name, s.Right, s.CarriedOn, s.Answered, len(r.Questions))
	}
	if len(r.Learners) > maxPrinted {
		fmt.Fprintf(w, "and %d more\n", len(r.Learners)-maxPrinted)
	}
	fmt.Fprintf(w, "\nWhat to teach again: how often each slip would give a wrong figure, and how often no other would\ntimes  alone  slip\n")
	for _, f := range r.Slips {
		fmt.Fprintf(w, "%5d  %5d  %s\n", f.Times, f.Certain, f.Slip)
	}
}
