package exercise

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"lubberline.example/angle/page"
	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/conformance/slip"
)

// Marking says how [Paper.Mark] marks a class. The zero value is good.
type Marking struct {
	// CSV is the writer of the marks, with a row for each figure. Mark writes them while it
	// reads the answers. If nil, it writes none. A cell that a spreadsheet would read as a
	// formula gets an apostrophe before it; see [record.Cell] and [Results.Escaped].
	CSV io.Writer

	// Mark calls Progress after each row of answers with the number of rows so far, unless it is
	// nil.
	Progress func(rows int)

	// Scheme are the tolerances. If nil, each problem has its own; see
	// [slip.Problem.MarkedBy].
	Scheme *slip.Scheme
}

// Results are the marks of a class.
type Results struct {
	Title     string      `json:"title"` // of the paper
	Rows      int         `json:"rows"`  // of answers, blank ones too
	Learners  []Score     `json:"learners"`
	Questions []Score     `json:"questions"` // named by their topics
	Slips     []Frequency `json:"slips"`     // what to teach again, the most frequent first

	// Escaped is the number of cells in [Marking.CSV] that got an apostrophe, since they begin with
	// = + - @, a tab or a carriage return. A spreadsheet would have read them as formulas.
	Escaped int `json:"escaped"`
}

// A Score counts the answers of a learner, or those to a question.
type Score struct {
	Name      string `json:"name"` // of the learner, or the topic of the question
	Answered  int    `json:"answered"`
	Right     int    `json:"right"`     // also by another convention, or rounded further than asked
	CarriedOn int    `json:"carriedOn"` // not right, but follows correctly from a wrong figure before

	// Verdicts are those on the answers of a learner, one for each question. It is empty for a
	// question without an answer. Verdicts is nil in the score of a question.
	Verdicts []slip.Verdict `json:"verdicts,omitempty"`
}

// A Frequency says how often a slip explains a wrong figure.
type Frequency struct {
	Slip     slip.Kind `json:"slip"`
	Times    int       `json:"times"`    // where it is the likeliest slip
	Certain  int       `json:"certain"`  // where it is certain; see [slip.Diagnosis.Certain]
	Learners int       `json:"learners"` // who may have made it
}

// header are the columns of the marks.
var header = []string{"name", "question", "topic", "figure", "given", "verdict", "right", "diagnosis"}

// Mark marks the answers of a class, row by row. The answers are CSV with a first line that names
// the columns: name, question and answer, and further figures by their keys:
//
//	name,question,variation,answer
//	Ada,1,,4°05′W
//	Ada,2,4°05′W,232
//
// The columns stand in any order. Commas, semicolons or tabs separate the cells. Without a column
// name, all answers are of one learner. Keys are those of [slip.Problem.Figures]. A blank cell is
// not marked, and an answer that can't be read has the verdict [slip.NotRead].
//
// Mark reads at most [record.MaxRows] rows and [record.MaxRowBytes] a row. For a fault in a line it
// returns a [*record.Error]. The marks up to that line are then written, and are in the results. It
// returns errors of the writer unchanged.
func (p Paper) Mark(answers io.Reader, m Marking) (Results, error) {
	if m.Scheme != nil {
		p.Problems = slices.Clone(p.Problems)
		for i := range p.Problems {
			p.Problems[i] = p.Problems[i].MarkedBy(*m.Scheme)
		}
	}
	k := &marker{paper: p, done: map[string][]slip.Mark{}, learner: map[string]int{}, slips: map[slip.Kind]*Frequency{}, made: map[madeSlip]bool{}}
	k.Title = p.Title
	for _, q := range p.Problems {
		k.Questions = append(k.Questions, Score{Name: q.Topic})
	}
	if m.CSV != nil {
		k.csv = csv.NewWriter(m.CSV)
		k.csv.Write(header)
	}
	err := k.all(answers, m.Progress)
	k.count()
	return k.Results, err
}

// A marker marks the answers of a class.
type marker struct {
	Results
	paper   Paper
	csv     *csv.Writer            // nil if the marks are not written
	done    map[string][]slip.Mark // of the same answers before
	learner map[string]int         // the place in Learners
	slips   map[slip.Kind]*Frequency
	made    map[madeSlip]bool
}

// A madeSlip is a slip of a learner.
type madeSlip struct {
	learner int
	slip    slip.Kind
}

// maxDone is the greatest number of answers whose marks are kept.
const maxDone = 50_000

// all marks all rows.
func (k *marker) all(answers io.Reader, progress func(int)) error {
	rows, err := newAnswerReader(k.paper, answers)
	for err == nil {
		var g given
		if g, err = rows.next(); err != nil {
			break
		}
		k.Rows++
		if err = k.row(g); err == nil && progress != nil {
			progress(k.Rows)
		}
	}
	if k.csv != nil {
		k.csv.Flush()
		if fault := k.csv.Error(); fault != nil {
			return fault
		}
	}
	if errors.Is(err, io.EOF) {
		return nil
	}
	return err
}

// row marks a row of answers.
func (k *marker) row(g given) error {
	at, known := k.learner[g.name]
	if !known {
		at = len(k.Learners)
		k.learner[g.name] = at
		k.Learners = append(k.Learners, Score{Name: g.name, Verdicts: make([]slip.Verdict, len(k.paper.Problems))})
	}
	if len(g.entries) == 0 {
		return nil
	}
	marks, err := k.marks(g)
	if err != nil {
		return err
	}
	for _, m := range marks {
		k.diagnosed(at, m)
		if err := k.write(g, m); err != nil {
			return err
		}
	}
	last := marks[len(marks)-1]
	learner, question := &k.Learners[at], &k.Questions[g.question-1]
	if last.Figure.Key != "answer" {
		return nil // the answer is missing
	}
	learner.Verdicts[g.question-1] = last.Verdict
	for _, s := range []*Score{learner, question} {
		s.Answered++
		switch last.Verdict {
		case slip.RightFigure, slip.RightConvention, slip.RoundedFigure:
			s.Right++
		case slip.CarriedOn:
			s.CarriedOn++
		}
	}
	return nil
}

// marks marks the figures of a row. The same figures have the same marks.
func (k *marker) marks(g given) ([]slip.Mark, error) {
	key := fmt.Sprint(g.question, g.entries)
	if marks, done := k.done[key]; done {
		return marks, nil
	}
	marks, err := k.paper.Problems[g.question-1].Mark(g.entries)
	if err == nil && len(k.done) < maxDone {
		k.done[key] = marks
	}
	return marks, err
}

// diagnosed counts the slips of a figure.
func (k *marker) diagnosed(learner int, m slip.Mark) {
	if m.Verdict != slip.WrongFigure {
		return
	}
	for i, c := range m.Diagnosis.Causes {
		for _, s := range c.Slips {
			if len(c.Slips) > 1 && ofFigures(s) {
				continue // rounding beside another slip
			}
			f := k.slips[s]
			if f == nil {
				f = &Frequency{Slip: s}
				k.slips[s] = f
			}
			if i == 0 {
				f.Times++
			}
			if m.Diagnosis.Certain() {
				f.Certain++
			}
			if one := (madeSlip{learner, s}); !k.made[one] {
				k.made[one] = true
				f.Learners++
			}
		}
	}
}

// write writes the mark of a figure.
func (k *marker) write(g given, m slip.Mark) error {
	if k.csv == nil {
		return nil
	}
	cells := []string{g.name, strconv.Itoa(g.question), k.paper.Problems[g.question-1].Topic, m.Figure.Key, m.Text, string(m.Verdict), withNorth(m.Figure.Print(m.Right), m.Figure.North), m.String()}
	for i, text := range cells {
		text = working.OneLine(text)
		cells[i] = record.Cell(text)
		if cells[i] != text {
			k.Escaped++
		}
	}
	return k.csv.Write(cells)
}

// count lists the slips, the most frequent first.
func (k *marker) count() {
	for _, f := range k.slips {
		if f.Times > 0 {
			k.Slips = append(k.Slips, *f)
		}
	}
	slices.SortFunc(k.Slips, func(a, b Frequency) int {
		if a.Times != b.Times {
			return b.Times - a.Times
		}
		return strings.Compare(string(a.Slip), string(b.Slip))
	})
}

// maxListed is the greatest number of learners on the page of results. The CSV has all.
const maxListed = 500

// signs are the verdicts in the table of learners.
var signs = map[slip.Verdict]string{
	"": "–", slip.RightFigure: "✓", slip.RightConvention: "✓", slip.RoundedFigure: "✓",
	slip.CarriedOn: "c", slip.WrongFigure: "✗", slip.NotRead: "?",
}

// Page returns the results as a page: the slips by frequency, the questions, and the learners.
func (r Results) Page() page.Page {
	doc := page.Page{Title: strings.TrimSpace("Results. " + r.Title), Compact: true, Caution: working.Caution}
	again := page.Table{Caption: "Slips by frequency", Columns: []string{"Slip that would give the answer", "Times", "Alone", "Learners"}}
	for _, f := range r.Slips {
		again.Rows = append(again.Rows, []string{f.Slip.String(), strconv.Itoa(f.Times), strconv.Itoa(f.Certain), strconv.Itoa(f.Learners)})
	}
	teach := page.Part{Heading: "What to teach again", Text: []string{"No wrong answer was explained by a slip."}}
	if len(again.Rows) > 0 {
		teach.Text = []string{"Times counts the figures for which the slip is the likeliest, alone those that no other slip explains. A slip would give the figure; only the learner's working shows whether it was made."}
		teach.Tables = []page.Table{again}
	}
	questions := page.Table{Caption: "Questions", Columns: []string{"Question", "Topic", "Answered", "Right", "Carried on"}}
	for i, s := range r.Questions {
		questions.Rows = append(questions.Rows, append([]string{strconv.Itoa(i + 1), s.Name}, s.counts()...))
	}
	doc.Parts = []page.Part{
		{Text: []string{fmt.Sprintf("%d learners, %d rows of answers.", len(r.Learners), r.Rows)}},
		teach,
		{Heading: "Questions", Tables: []page.Table{questions}},
		r.learners(),
	}
	if r.Escaped > 0 {
		doc.Foot = fmt.Sprintf("Cells in the CSV of the marks with an apostrophe before them, since a spreadsheet would have read them as formulas: %d.", r.Escaped)
	}
	return doc
}

// learners returns the part with the table of learners.
func (r Results) learners() page.Part {
	part := page.Part{Heading: "Learners", Text: []string{"✓ right, c carried on rightly from a wrong figure, ✗ wrong, ? not read, – not answered."}}
	t := page.Table{Caption: "Learners", Columns: []string{"Name"}}
	for i := range r.Questions {
		t.Columns = append(t.Columns, strconv.Itoa(i+1))
	}
	t.Columns = append(t.Columns, "Answered", "Right", "Carried on")
	for _, s := range r.Learners[:min(len(r.Learners), maxListed)] {
		row := []string{s.Name}
		if row[0] == "" {
			row[0] = "(no name)"
		}
		for _, v := range s.Verdicts {
			row = append(row, signs[v])
		}
		t.Rows = append(t.Rows, append(row, s.counts()...))
	}
	if len(r.Learners) > maxListed {
		part.Text = append(part.Text, fmt.Sprintf("The first %d of %d learners; the CSV has all.", maxListed, len(r.Learners)))
	}
	part.Tables = []page.Table{t}
	return part
}

// counts returns the cells of a score.
func (s Score) counts() []string {
	return []string{strconv.Itoa(s.Answered), strconv.Itoa(s.Right), strconv.Itoa(s.CarriedOn)}
}
