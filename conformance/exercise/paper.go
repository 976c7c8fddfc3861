package exercise

import (
	"fmt"
	"strings"

	"lubberline.example/angle/page"
	"lubberline.example/angle/working"
	"lubberline.example/conformance/slip"
)

// version is the version of the rules by which [New] draws papers. It is printed at the foot
// of a paper. The same seed draws the same paper as long as version is the same.
const version = "0.2"

// A Paper is a set of questions with what a learner needs to work them. Make one with [New] or
// [Read], or fill in the fields.
type Paper struct {
	Title    string
	Passage  []string // paragraphs of text that all questions share
	Problems []slip.Problem
	Tables   []page.Table // such as [CardTable]

	// Made is the text at the foot of each sheet. A paper of New says there how to make it again.
	Made string
}

// lines are the ruled lines below each question.
const lines = 4

// Questions returns the page to hand out. It has blanks for the name and the date, the passage, the
// tables, and the questions with ruled space for the working.
func (p Paper) Questions() page.Page {
	doc := p.page("")
	doc.Fields = []string{"Name", "Date"}
	if len(p.Passage)+len(p.Tables) > 0 {
		doc.Parts = append(doc.Parts, page.Part{Text: p.Passage, Tables: p.Tables})
	}
	for i, q := range p.Problems {
		doc.Parts = append(doc.Parts, page.Part{Heading: heading(i, q), Text: []string{q.Question}, Lines: lines, Fields: []string{"Answer"}})
	}
	return doc
}

// Key returns a page with the answers alone, in one table.
func (p Paper) Key() page.Page {
	doc := p.page(": key")
	t := page.Table{Caption: "Answers", Columns: []string{"Question", "Topic", "Answer"}}
	for i, q := range p.Problems {
		t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), q.Topic, printed(q, q.Answer())})
	}
	doc.Parts = []page.Part{{Tables: []page.Table{t}}}
	return doc
}

// Workings returns a page with the working of each question, and the wrong answers that the
// usual slips would give.
func (p Paper) Workings() page.Page {
	doc := p.page(": workings")
	for i, q := range p.Problems {
		part := page.Part{Heading: heading(i, q), Text: []string{q.Question, "Answer: " + printed(q, q.Answer()) + "."}}
		if steps := withoutTrust(q.Working()); len(steps) > 0 {
			part.Sheet = &working.Sheet{Title: "Working", Steps: steps}
		}
		if t := wrong(q); len(t.Rows) > 0 {
			part.Tables = []page.Table{t}
		}
		doc.Parts = append(doc.Parts, part)
	}
	return doc
}

// page returns an empty page of the paper.
func (p Paper) page(of string) page.Page {
	title := p.Title
	if strings.TrimSpace(title) == "" {
		title = "Paper"
	}
	return page.Page{Title: title + of, Compact: true, Foot: p.Made, Caution: working.Caution}
}

// heading returns the heading of a question, from 0.
func heading(i int, q slip.Problem) string {
	if strings.TrimSpace(q.Topic) == "" {
		return fmt.Sprintf("%d", i+1)
	}
	return fmt.Sprintf("%d. %s", i+1, q.Topic)
}

// wrong returns the table of the wrong answers of a problem. Slips that give the same answer
// share a row.
func wrong(q slip.Problem) page.Table {
	t := page.Table{Caption: "Wrong answers", Columns: []string{"If the answer is", "this slip would give it"}}
	at, north := map[string]int{}, northOf(q)
	for _, c := range q.Slips() {
		if ofFigures(c.Slips[0]) {
			continue
		}
		answer := withNorth(c.Printed, north)
		if _, err := q.Read(answer); err != nil {
			continue // nobody writes a distance below zero
		}
		if i, ok := at[answer]; ok {
			t.Rows[i][1] += "; or " + c.String()
			continue
		}
		at[answer] = len(t.Rows)
		t.Rows = append(t.Rows, []string{answer, c.String()})
	}
	return t
}

// withoutTrust returns the steps of a working without those on the uncertainty of a rose, which no
// question asks for.
func withoutTrust(steps working.Steps) working.Steps {
	var out working.Steps
	for _, s := range steps {
		if s.Key != "rose drift" && s.Key != "rose source" && s.Key != "rose uncertainty" {
			out = append(out, s)
		}
	}
	return out
}

// ofFigures reports whether a slip can happen in any problem, so that a table need not list it.
func ofFigures(k slip.Kind) bool {
	switch k {
	case slip.RoundedOnTheWay, slip.RoundedTooFar, slip.TensMisread, slip.FiguresTransposed:
		return true
	}
	return false
}

// printed prints an answer with its north if it has a direction: 128°C, or 035°T, 3.7 kn.
func printed(q slip.Problem, x float64) string { return withNorth(q.Print(x), northOf(q)) }

// northOf returns the letter of the north of an answer. It is empty if there is no direction.
func northOf(q slip.Problem) string {
	if figures := q.Figures(); len(figures) > 0 {
		return figures[len(figures)-1].North
	}
	return ""
}

// withNorth adds the letter of the north to the direction in a printed answer.
func withNorth(text, north string) string { return strings.Replace(text, "°", "°"+north, 1) }
