package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"text/tabwriter"
	"unicode"
	"unicode/utf8"

	"lubberline.example/angle/page"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/check"
	"lubberline.example/examples/internal/inputs"
)

// printed is what the program prints.
type printed struct {
	vessel   string
	invented bool
	isOutput bool // the book is the output of -format json
	card     *deviation.Table
	checks   []check.Check
	added    *check.Check // the last of the checks; nil if none was added

	review  check.Review
	refused string // why the card can't be judged; otherwise empty
}

// judge judges the card by the checks. A check that cannot be used, such as one of unknown
// uncertainty, is left out with a reason; otherwise it would end the judging of the whole book.
func (p *printed) judge() {
	var err error
	if p.review, err = check.ReviewCard(p.card, p.checks); err == nil {
		return
	}
	var usable []check.Check
	var left []working.Warning
	for i, c := range p.checks {
		if _, fault := check.ReviewCard(p.card, []check.Check{c}); fault == nil {
			usable = append(usable, c)
		} else {
			left = append(left, working.Warn("", "check-not-used", "check %d, on %v, is not used: %s", i+1, c.Heading, cause(fault)))
		}
	}
	if len(usable) > 0 {
		p.review, err = check.ReviewCard(p.card, usable)
	}
	if err != nil {
		p.refused = cause(err)
	}
	p.review.Reasons = append(p.review.Reasons, left...)
}

// cause returns what is wrong with a check, without the words before it.
func cause(err error) string {
	if e, ok := errors.AsType[*check.Error](err); ok {
		err = e.Err
	}
	return err.Error()
}

// inputsOf are what the output was found from.
type inputsOf struct {
	Invented bool             `json:"invented,omitempty"`
	Vessel   string           `json:"vessel,omitempty"`
	Card     *deviation.Table `json:"card"`
	Checks   json.RawMessage  `json:"checks"` // as a log has them
}

// results are what was found.
type results struct {
	Columns []string          `json:"columns"` // of the page
	Rows    [][]string        `json:"rows"`
	Verdict check.Verdict     `json:"verdict"`
	Reasons []working.Warning `json:"reasons,omitempty"`
	Refused string            `json:"notJudgedBecause,omitempty"`
	Added   *working.Sheet    `json:"added,omitempty"` // the working of the check that was added
}

// json writes the checks and what was found, as JSON. The program reads it again.
func (p *printed) json(w io.Writer) error {
	in := inputsOf{Invented: p.invented, Vessel: p.vessel, Card: p.card}
	var log bytes.Buffer
	if err := check.WriteLog(&log, check.JSON, p.checks...); err != nil {
		return err
	}
	in.Checks = log.Bytes()
	out := results{Verdict: p.review.Verdict, Reasons: p.review.Reasons, Refused: p.refused}
	out.Columns, out.Rows = check.RecordBook(p.checks...)
	if p.refused != "" {
		out.Verdict = check.NotJudged
	}
	if p.added != nil {
		sheet := p.added.Working()
		out.Added = &sheet
	}
	return inputs.Write(w, in, out)
}

// title returns the title of the page.
func (p *printed) title() string {
	title := "Compass record book"
	if p.vessel != "" {
		title += ", " + p.vessel
	}
	if p.invented {
		title += " (invented)"
	}
	return title
}

// verdict returns the verdict in words.
func (p *printed) verdict() string {
	if p.refused != "" {
		return "not judged: " + p.refused
	}
	return strings.ReplaceAll(string(p.review.Verdict), "-", " ")
}

// figures are the columns of the page as text. The words of a check stand on a line below.
var figures = []string{"Date, UTC", "Heading", "By compass", "True", "Error", "Variation", "Deviation"}

// text writes the page as text.
func (p *printed) text(w io.Writer) {
	columns, rows := check.RecordBook(p.checks...)
	fmt.Fprintf(w, "%s\n\n", p.title())
	var b bytes.Buffer
	t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprintf(t, "No\t%s\n", strings.Join(figures, "\t"))
	for i, row := range rows {
		fmt.Fprint(t, i+1)
		for _, name := range figures {
			fmt.Fprintf(t, "\t%s", row[slices.Index(columns, name)])
		}
		fmt.Fprintln(t)
	}
	t.Flush() // a bytes.Buffer takes everything
	for i, line := range strings.Split(strings.TrimRight(b.String(), "\n"), "\n") {
		fmt.Fprintln(w, strings.TrimRight(line, " "))
		if i == 0 {
			continue
		}
		var words []string
		for j, text := range rows[i-1] {
			if text != "" && !slices.Contains(figures, columns[j]) {
				words = append(words, strings.ToLower(columns[j])+": "+text)
			}
		}
		if len(words) > 0 {
			fmt.Fprintf(w, "    %s\n", strings.Join(words, "; "))
		}
	}
	if p.added != nil {
		sheet := p.added.Working()
		sheet.Caution = "" // it stands at the end
		fmt.Fprintf(w, "\nAdded to the book:\n\n%s", sheet)
	}
	fmt.Fprintf(w, "\nThe card: %s\n", p.verdict())
	for _, reason := range p.review.Reasons {
		fmt.Fprintf(w, "  %s\n", reason)
	}
	fmt.Fprintf(w, "%s\n%s\n", deviation.AdjusterCaution, working.Caution)
}

// tables returns the page as two tables, of figures and of words, so that each is as wide as the
// paper.
func (p *printed) tables() []page.Table {
	columns, rows := check.RecordBook(p.checks...)
	inFigures := page.Table{Caption: "Checks of the compass", Columns: slices.Concat([]string{"No"}, figures)}
	inWords := page.Table{Caption: "How they were made", Columns: []string{"No"}}
	for _, name := range columns {
		if !slices.Contains(figures, name) {
			inWords.Columns = append(inWords.Columns, name)
		}
	}
	for i, row := range rows {
		for _, table := range []*page.Table{&inFigures, &inWords} {
			cells := []string{strconv.Itoa(i + 1)}
			for _, name := range table.Columns[1:] {
				cells = append(cells, row[slices.Index(columns, name)])
			}
			table.Rows = append(table.Rows, cells)
		}
	}
	return []page.Table{inFigures, inWords}
}

// html writes the page as HTML, to print.
func (p *printed) html(w io.Writer) error {
	review := page.Part{Heading: "The card by these checks", Text: []string{"The card: " + p.verdict() + "."}, Sheet: &working.Sheet{Caution: deviation.AdjusterCaution}}
	for _, reason := range p.review.Reasons { // of any verdict, so no warnings
		first, size := utf8.DecodeRuneInString(reason.Message)
		review.Text = append(review.Text, string(unicode.ToUpper(first))+reason.Message[size:]+".")
	}
	doc := page.Page{
		Title: p.title(), Compact: true, Caution: working.Caution,
		Parts: []page.Part{{Tables: p.tables()}},
	}
	if p.added != nil {
		sheet := p.added.Working()
		sheet.Caution = ""
		doc.Parts = append(doc.Parts, page.Part{Heading: "Added", Sheet: &sheet})
	}
	doc.Parts = append(doc.Parts, review)
	return page.Write(w, doc)
}
