package exercise_test

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"testing/iotest"

	"lubberline.example/angle/record"
	"lubberline.example/conformance/exercise"
	"lubberline.example/conformance/slip"
)

// classOf writes the answers of a class: Ada has all right, Bo makes the likeliest slip in each
// question, Cy leaves each out, and Di writes what can't be read.
func classOf(p exercise.Paper) string {
	var b strings.Builder
	w := csv.NewWriter(&b)
	w.Write([]string{"name", "question", "answer"})
	for i, q := range p.Problems {
		n := fmt.Sprint(i + 1)
		w.Write([]string{"Ada", n, q.Print(q.Answer())})
		w.Write([]string{"Bo", n, q.Print(likeliest(q).Answer)})
		w.Write([]string{"Cy", n, ""})
		w.Write([]string{"Di", n, "=SUM(A1:A9)"})
	}
	w.Flush()
	return b.String()
}

// likeliest returns the likeliest slip whose answer is marked wrong, not as rounded.
func likeliest(q slip.Problem) slip.Cause {
	for _, c := range q.Slips() {
		marks, err := q.Mark([]slip.Entry{{Key: "answer", Text: q.Print(c.Answer)}})
		if err == nil && marks[0].Verdict == slip.WrongFigure {
			return c
		}
	}
	return slip.Cause{}
}

// rows reads the CSV of marks.
func rows(t testing.TB, text string) [][]string {
	t.Helper()
	out, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// A class is marked for each learner and each question, and its slips are counted.
func TestClassIsMarked(t *testing.T) {
	p := made(t, exercise.Options{Seed: 7})
	var out bytes.Buffer
	steps := 0
	r, err := p.Mark(strings.NewReader(classOf(p)), exercise.Marking{CSV: &out, Progress: func(n int) {
		if steps++; n != steps {
			t.Errorf("progress %d after %d rows", n, steps)
		}
	}})
	if err != nil {
		t.Fatal(err)
	}
	n := len(p.Problems)
	if r.Rows != 4*n || steps != 4*n || len(r.Learners) != 4 {
		t.Errorf("%d rows, %d steps, %d learners", r.Rows, steps, len(r.Learners))
	}
	for i, want := range []exercise.Score{{Name: "Ada", Answered: n, Right: n}, {Name: "Bo", Answered: n}, {Name: "Cy"}, {Name: "Di", Answered: n}} {
		got := r.Learners[i]
		if got.Name != want.Name || got.Answered != want.Answered || got.Right != want.Right {
			t.Errorf("%+v, want %+v", got, want)
		}
	}
	for i, q := range r.Questions {
		if q.Answered != 3 || q.Right != 1 {
			t.Errorf("question %d: %+v", i+1, q)
		}
	}
	times := 0
	for i, f := range r.Slips {
		times += f.Times
		if f.Times == 0 || f.Learners != 1 || i > 0 && f.Times > r.Slips[i-1].Times {
			t.Errorf("%+v", f)
		}
	}
	if times < n {
		t.Errorf("%d slips in %d wrong answers", times, n)
	}
	marks := rows(t, out.String())
	if len(marks) != 1+3*n {
		t.Errorf("%d rows of marks", len(marks))
	}
	if r.Escaped != n || !slices.ContainsFunc(marks, func(row []string) bool { return row[4] == "'=SUM(A1:A9)" && row[5] == "not-read" }) {
		t.Errorf("%d harmless cells", r.Escaped)
	}
	if doc := r.Page().Markdown(); !strings.Contains(doc, "| Bo |") || !strings.Contains(doc, fmt.Sprintf("as formulas: %d", n)) {
		t.Error(doc)
	}
	html(t, r.Page())
}

// One slip is charged once: what follows from it is carried on.
func TestFiguresAreCarriedOn(t *testing.T) {
	p := made(t, exercise.Options{Seed: 7, Topics: []string{"course to steer", "true course", "position line", "variation"}, Questions: 6})
	at := slices.IndexFunc(p.Problems, func(q slip.Problem) bool { return len(q.Figures()) > 2 })
	if at < 0 {
		t.Skip("no problem with figures on the way")
	}
	q := p.Problems[at]
	right, err := q.Mark([]slip.Entry{{Key: "variation", Text: "9°00′W"}})
	if err != nil || len(right) != 1 {
		t.Fatalf("%v, %v: %+v", q.Topic, err, q.Figures())
	}
	text := fmt.Sprintf("question;variation;answer\n%d;9°00′W;001\n", at+1)
	var out bytes.Buffer
	if _, err := p.Mark(strings.NewReader(text), exercise.Marking{CSV: &out}); err != nil {
		t.Fatal(err)
	}
	if marks := rows(t, out.String()); len(marks) != 3 || marks[1][3] != "variation" || marks[1][5] != string(slip.WrongFigure) || marks[2][3] != "answer" {
		t.Errorf("%v", marks)
	}
}

// A scheme of tolerances counts for all answers.
func TestSchemeCounts(t *testing.T) {
	p := made(t, exercise.Options{Seed: 7, Questions: 6, Topics: []string{"variation", "course to steer", "distance run", "position line"}})
	at := slices.IndexFunc(p.Problems, func(q slip.Problem) bool { return q.Form == slip.Miles })
	off := p.Problems[at].Print(p.Problems[at].Answer() + 0.7)
	text := fmt.Sprintf("question,answer\n%d,%s\n", at+1, off)
	for tolerance, right := range map[float64]int{0.1: 0, 1: 1} {
		r, err := p.Mark(strings.NewReader(text), exercise.Marking{Scheme: &slip.Scheme{Name: "ours", Distance: tolerance}})
		if err != nil || r.Learners[0].Right != right {
			t.Errorf("within %v: %+v, %v", tolerance, r.Learners, err)
		}
	}
}

// Faults of a file have their line; the marks before them are kept.
func TestFaultsOfAnswersAreNamed(t *testing.T) {
	p := made(t, exercise.Options{Seed: 7})
	for text, want := range map[string]string{
		"":                          "is empty",
		"1,2\n":                     "the columns are",
		"question\n1\n":             "name,question,answer",
		"question,answer,answer\n":  "twice",
		"question,answer\n1,2,3\n":  "line 2",
		"question,answer\n\n9,2\n":  "line 3, question: question \"9\": write a number from 1 to 8",
		"question,answer\n1e0,2\n":  "from 1 to 8",
		"question,answer\n2,\n2,\n": "stands twice",
		"name,question,answer\nAda,2,\nBo,2,\nAda,2,\n":                     "line 4",
		"question,answer\n1,\"" + strings.Repeat("x\n", record.MaxRowBytes): "longer than",
		"question,answer\n1,\"2\n":                                          "line 2",
		strings.Repeat(",", 1<<17):                                          "longer than",
		"question,answer\n1,2\"\n":                                          "line 2",
		"\xff\xfeq\x00u\x00":                                                "the columns are",
		strings.Repeat("# a comment\n", 1<<14):                              "longer than",
		"question,answer,magnetic course\n1,,2\n":                           "leave the cell empty|the columns are",
	} {
		_, err := p.Mark(strings.NewReader(text), exercise.Marking{})
		_, ok := errors.AsType[*record.Error](err)
		found := false
		for _, w := range strings.Split(want, "|") {
			found = found || err != nil && strings.Contains(err.Error(), w)
		}
		if !ok || !found || len(err.Error()) > 2000 {
			t.Errorf("%.60q: %v, want %q", text, err, want)
		}
	}
	r, err := p.Mark(strings.NewReader("question,answer\n1,x\n2,y\n2,z\n"), exercise.Marking{})
	if err == nil || r.Rows != 2 || r.Learners[0].Answered != 2 {
		t.Errorf("%+v, %v", r, err)
	}
	if _, err := p.Mark(nil, exercise.Marking{}); err == nil {
		t.Error("a nil reader is read")
	}
	if _, err := p.Mark(iotest.ErrReader(io.ErrClosedPipe), exercise.Marking{}); !errors.Is(err, io.ErrClosedPipe) {
		t.Error(err)
	}
	full := iotest.TruncateWriter(io.Discard, 0)
	if _, err := p.Mark(strings.NewReader("question,answer\n1,x\n"), exercise.Marking{CSV: full}); err != nil {
		t.Error(err) // it takes all and keeps nothing
	}
	if _, err := p.Mark(strings.NewReader("question,answer\n1,x\n"), exercise.Marking{CSV: broken{}}); err != io.ErrShortWrite {
		t.Error(err)
	}
}

// broken is a writer that fails.
type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

// No cell of the marks is a formula, for any names and answers.
func FuzzMark(f *testing.F) {
	p := made(f, exercise.Options{Seed: 7, Questions: 12})
	f.Add(classOf(p))
	for _, text := range []string{"", "question,answer\n1,2\n", "\ufeffname;question;answer\r\n=1+1;1;+2\r\n", "name\tquestion\tanswer\n@a\t1\t-2\n", "question,answer\n1,\"\t=2\"\n2,\"\r=2\"\n", "# c\n\nname,question,answer\n'=a,1,'-1\n"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		var out bytes.Buffer
		r, err := p.Mark(strings.NewReader(text), exercise.Marking{CSV: &out})
		if err != nil {
			if _, ok := errors.AsType[*record.Error](err); !ok {
				t.Fatalf("%#v", err)
			}
		}
		if out.Len() == 0 {
			return
		}
		for _, row := range rows(t, out.String()) {
			for _, cell := range row {
				if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
					t.Fatalf("the cell %q is a formula", cell)
				}
			}
		}
		html(t, r.Page())
	})
}
