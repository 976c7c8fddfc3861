// Command worksheet makes a sheet of exercises and a sheet with their answers. It marks the
// answers of learners: right, or wrong with the slip that explains it.
//
// Without flags it prints an invented sheet and marks the invented answers beside it.
//
//	go run ./examples/worksheet
//	go run ./examples/worksheet -h # how to give it your own
//
// It shows packages [lubberline.example/conformance/slip] and
// [lubberline.example/angle/working].
package main

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"lubberline.example/angle/page"
	"lubberline.example/angle/working"
	"lubberline.example/conformance/exercise"
	"lubberline.example/conformance/slip"
	"lubberline.example/deviation"
)

// The invented compass, and the invented learner's answers.
var (
	//go:embed deviation.csv
	inventedCard []byte
	//go:embed answers.csv
	inventedAnswers []byte
)

const about = `Usage: worksheet [flags]

Prints a sheet of exercises and marks answers to them. In one version of this program the
same seed always makes the same sheet. To mark answers later, give the same seed, difficulty,
number and topics.

The answers are CSV, with a first line that names the columns: question,answer
  1,4°05′W      2,232       6,13.4       7,47°12.3′N      8,51.3′E
For several learners add a column "name". Semicolons may replace commas.

All figures are invented, and so is the deviation card; the coast does not exist.

`

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the program. It returns the exit status: 1 for a fault in the files, 2 for a fault in
// the flags.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("worksheet", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() {
		fmt.Fprint(stderr, about)
		flags.PrintDefaults()
	}
	seed := flags.Uint64("seed", 1, "seed of the sheet")
	difficulty := flags.String("difficulty", string(slip.Medium), "easy, medium or hard")
	each := flags.Int("each", 1, "exercises of each topic")
	topics := flags.String("topics", strings.Join(slip.Topics()[:8], ","), "topics, separated by commas")
	out := flags.String("out", "", "directory for the questions and answers, as HTML and Markdown; it is created if missing")
	answers := flags.String("answers", "", "file of answers to mark (default: the invented ones, for the sheet without flags)")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return 0
	} else if err != nil {
		return 2
	}
	if flags.NArg() > 0 {
		fmt.Fprintf(stderr, "worksheet: %q: give flags only\n", flags.Arg(0))
		return 2
	}
	card, err := deviation.ReadTable(bytes.NewReader(inventedCard))
	if err != nil {
		fmt.Fprintln(stderr, "worksheet:", err)
		return 1
	}
	var problems []slip.Problem
	for topic := range strings.SplitSeq(*topics, ",") {
		set, err := slip.Exercises(strings.TrimSpace(topic), slip.Difficulty(*difficulty), *each, *seed, card)
		if err != nil {
			fmt.Fprintln(stderr, "worksheet:", err)
			return 2
		}
		problems = append(problems, set...)
	}
	same := true // as the sheet without flags
	flags.Visit(func(f *flag.Flag) { same = same && f.Name == "out" })
	if err := work(stdout, problems, card, *out, *answers, same); err != nil {
		fmt.Fprintln(stderr, "worksheet:", err)
		return 1
	}
	return 0
}

// work prints the sheet, writes its pages and marks the answers, if any.
func work(w io.Writer, problems []slip.Problem, card *deviation.Table, out, path string, invented bool) error {
	paper := exercise.Paper{Title: "Exercises: the figures are invented", Problems: problems, Tables: []page.Table{exercise.CardTable(card)}}
	var b bytes.Buffer
	fmt.Fprintf(&b, "Exercises. Figures, compass and coast are invented.\n\n")
	for i, p := range problems {
		fmt.Fprintf(&b, "%d. %s\n   %s\n", i+1, p.Topic, p.Question)
	}
	if out != "" {
		for name, doc := range map[string]page.Page{"questions": paper.Questions(), "key": paper.Key(), "answers": paper.Workings()} {
			if err := write(out, name, doc); err != nil {
				return err
			}
		}
	}
	text := inventedAnswers
	if path != "" {
		var err error
		if text, err = readAnswers(path); err != nil {
			return err
		}
	} else if !invented {
		text = nil
	}
	if text != nil {
		if err := mark(&b, problems, text); err != nil {
			return err
		}
	}
	fmt.Fprintf(&b, "\n%s\n", working.Caution)
	_, err := w.Write(b.Bytes())
	return err
}

// write writes a page into a directory, as HTML and as Markdown.
func write(directory, name string, doc page.Page) error {
	var html bytes.Buffer
	if err := page.Write(&html, doc); err != nil {
		return err
	}
	if err := os.MkdirAll(directory, 0o755); err != nil {
		return err
	}
	path := filepath.Join(directory, name)
	if err := os.WriteFile(path+".html", html.Bytes(), 0o644); err != nil {
		return err
	}
	return os.WriteFile(path+".md", []byte(doc.Markdown()), 0o644)
}

// maxAnswers is the maximum size of a file of answers, in bytes.
const maxAnswers = 1 << 20

// readAnswers reads a file of answers, of at most 1 MiB.
func readAnswers(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, maxAnswers+1))
	if err == nil && len(text) > maxAnswers {
		err = fmt.Errorf("answers: %s has more than %d MiB; split it", path, maxAnswers>>20)
	}
	return text, err
}

// An answer is one line of a file of answers.
type answer struct {
	name     string // of the learner; "" without a column of names
	question int
	text     string
}

// readAnswerLines reads the lines of a file of answers. The columns are question and answer,
// and name for several learners, in any order, separated by commas or semicolons. Each learner
// answers a question once.
func readAnswerLines(text []byte, questions int) ([]answer, error) {
	text = bytes.TrimPrefix(text, []byte("\ufeff")) // the byte order mark of some spreadsheets
	r := csv.NewReader(bytes.NewReader(text))
	r.Comment, r.FieldsPerRecord, r.TrimLeadingSpace = '#', -1, true
	for line := range bytes.Lines(text) {
		if line = bytes.TrimSpace(line); len(line) > 0 && line[0] != '#' {
			if bytes.Contains(line, []byte(";")) {
				r.Comma = ';'
			}
			break
		}
	}
	header, err := r.Read()
	if err != nil && err != io.EOF {
		return nil, fmt.Errorf("answers: %w", err)
	}
	column := map[string]int{}
	for i, name := range header {
		column[strings.ToLower(strings.TrimSpace(name))] = i
	}
	question, hasQuestion := column["question"]
	given, hasAnswer := column["answer"]
	name, named := column["name"]
	if !hasQuestion || !hasAnswer || len(column) != len(header) || len(header) > 3 || len(header) == 3 && !named {
		return nil, errors.New("answers: the first line must name the columns: question,answer or name,question,answer")
	}
	type one struct {
		name     string
		question int
	}
	seen := map[one]bool{}
	var out []answer
	for {
		record, err := r.Read()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return nil, fmt.Errorf("answers: %w", err)
		}
		line, _ := r.FieldPos(0)
		if !slices.ContainsFunc(record, func(field string) bool { return strings.TrimSpace(field) != "" }) {
			continue
		}
		if len(record) != len(header) {
			return nil, fmt.Errorf("answers: line %d has %d fields; give %d", line, len(record), len(header))
		}
		a := answer{text: strings.TrimSpace(record[given])}
		if named {
			a.name = strings.TrimSpace(record[name])
		}
		a.question, err = strconv.Atoi(strings.TrimSpace(record[question]))
		if key := (one{a.name, a.question}); err != nil || a.question < 1 || a.question > questions || seen[key] {
			return nil, fmt.Errorf("answers: line %d: question %.60q: write a number from 1 to %d, each once for each name", line, record[question], questions)
		} else {
			seen[key] = true
		}
		out = append(out, a)
	}
}

// mark prints the marks. A blank answer counts as not answered.
func mark(b *bytes.Buffer, problems []slip.Problem, text []byte) error {
	answers, err := readAnswerLines(text, len(problems))
	if err != nil {
		return err
	}
	names, of := []string{}, map[string][]answer{} // names in the order of the file
	for _, a := range answers {
		if of[a.name] == nil {
			names = append(names, a.name)
		}
		of[a.name] = append(of[a.name], a)
	}
	if len(names) == 0 {
		names = []string{""}
	}
	fmt.Fprintf(b, "\nMarked\n")
	for _, name := range names {
		if name != "" {
			fmt.Fprintf(b, "%s\n", strings.Trim(strconv.Quote(name), `"`))
		}
		right, answered := 0, 0
		for _, a := range of[name] {
			p := problems[a.question-1]
			if a.text == "" {
				fmt.Fprintf(b, "%2d. not answered; the answer is %s\n", a.question, p.Print(p.Answer()))
				continue
			}
			answered++
			given, err := p.Read(a.text)
			if err != nil {
				fmt.Fprintf(b, "%2d. cannot be read: %v\n", a.question, err)
				continue
			}
			d := p.Diagnose(given)
			if d.Right {
				right++
				fmt.Fprintf(b, "%2d. %s: right\n", a.question, p.Print(given))
				continue
			}
			fmt.Fprintf(b, "%2d. %s: %s; the answer is %s\n", a.question, p.Print(given), d, p.Print(p.Answer()))
		}
		fmt.Fprintf(b, "%d right of %d answered, of %d exercises\n", right, answered, len(problems))
	}
	return nil
}
