package slip

import (
	"encoding/json"
	"fmt"
	"math"
)

// An Entry is a figure that a learner hands in.
type Entry struct {
	Key  string `json:"key"`  // of the figure, as in [Problem.Figures]
	Text string `json:"text"` // as written
}

// A Verdict says whether an entry is right, in a word that programs can compare.
type Verdict string

// The verdicts.
const (
	RightFigure     Verdict = "right"
	RightConvention Verdict = "right-by-convention" // right by another convention; see the diagnosis
	RoundedFigure   Verdict = "rounded"             // right, but rounded further than asked
	CarriedOn       Verdict = "carried-on"          // what follows from earlier figures, or from a slip charged before
	WrongFigure     Verdict = "wrong"
	NotRead         Verdict = "not-read"
)

// A Mark is what is said of one entry.
type Mark struct {
	Figure  Figure  `json:"figure"`
	Text    string  `json:"text"` // as written
	Verdict Verdict `json:"verdict"`
	Right   float64 `json:"right"` // the figure of the right working, not rounded

	// Own is the figure that follows from the learner's earlier figures, not rounded. It equals
	// Right if those are right.
	Own float64 `json:"own"`

	// Diagnosis says which slips explain a wrong figure. The slips are those between this entry
	// and the ones before it. If the figure is carried on, they are slips that an earlier figure
	// was charged with and that this one has too.
	Diagnosis Diagnosis `json:"diagnosis"`

	// Reason says why the entry could not be read. It is empty if it was read.
	Reason string `json:"reason,omitempty"`
}

// MarshalJSON returns the mark as JSON. The members rightPrinted and ownPrinted have Right and Own
// as [Figure.Print] prints them. If the learner's earlier figures lead to no figure, the members own
// and ownPrinted are absent.
func (m Mark) MarshalJSON() ([]byte, error) {
	type plain Mark
	d := struct {
		plain
		Right        *float64 `json:"right,omitempty"`
		RightPrinted string   `json:"rightPrinted,omitempty"`
		Own          *float64 `json:"own,omitempty"`
		OwnPrinted   string   `json:"ownPrinted,omitempty"`
	}{plain: plain(m)}
	if !math.IsNaN(m.Right) {
		d.Right, d.RightPrinted = &m.Right, m.Figure.Print(m.Right)
	}
	if !math.IsNaN(m.Own) {
		d.Own, d.OwnPrinted = &m.Own, m.Figure.Print(m.Own)
	}
	return json.Marshal(d)
}

// String returns the mark in words.
func (m Mark) String() string {
	switch m.Verdict {
	case RightFigure:
		return "right"
	case RoundedFigure:
		return "right, but rounded further than asked"
	case CarriedOn:
		if len(m.Diagnosis.Causes) > 0 {
			return "the same slip as before: " + m.Diagnosis.Causes[0].String() + "; right would be " + m.Figure.named(m.Right)
		}
		return "carried on correctly from the figures before it; right would be " + m.Figure.named(m.Right)
	case NotRead:
		return m.Reason
	}
	return m.Diagnosis.String()
}

// Mark marks the figures that a learner hands in, in the order of the working. It compares
// each with the right working and with the learner's own earlier figures. A slip is charged
// once: what follows correctly from it is carried on.
//
// For an entry whose figure the problem does not have, or a second entry for one figure, it
// returns an [*Error]. An entry without text is left out. A problem without working has no figures.
func (p Problem) Mark(entries []Entry) ([]Mark, error) {
	right := p.figuresWith(nil)
	texts := map[string]string{}
	for _, e := range entries {
		known := false
		for _, w := range right {
			known = known || w.Key == e.Key
		}
		if !known {
			return nil, &Error{Reason: fmt.Sprintf("the figure %q: the problem has %s", e.Key, keys(right))}
		}
		if _, twice := texts[e.Key]; twice {
			return nil, &Error{Reason: fmt.Sprintf("the figure %q is handed in twice: give it once", e.Key)}
		}
		texts[e.Key] = e.Text
	}
	own, charged := map[string]float64{}, map[Kind]bool{}
	var out []Mark
	for _, w := range right {
		if texts[w.Key] == "" {
			continue
		}
		m := Mark{Figure: w.Figure, Text: texts[w.Key], Right: w.value, Own: w.value}
		x, err := w.Read(m.Text)
		if err != nil {
			m.Verdict, m.Reason = NotRead, err.Error()
			out = append(out, m)
			continue
		}
		p.mark(&m, x, own)
		m.chargeOnce(charged)
		if m.Verdict == WrongFigure {
			for _, c := range m.Diagnosis.Causes {
				charged[c.Slips[0]] = charged[c.Slips[0]] || len(c.Slips) == 1 && !c.Slips[0].ofFigures()
			}
		}
		own[w.Key] = x
		out = append(out, m)
	}
	return out, nil
}

// mark marks one figure, given the learner's figures before it.
func (p Problem) mark(m *Mark, x float64, own map[string]float64) {
	given := map[string]float64{}
	for key, value := range own {
		given[key] = value
	}
	free := p.ofFigure(m.Figure, nil).solved()
	bound := free
	if len(given) > 0 {
		bound = p.ofFigure(m.Figure, given).solved()
	}
	m.Own = bound.right
	if m.Diagnosis, _ = free.rightness(x); m.Diagnosis.Right {
		if m.Verdict = RightFigure; m.Diagnosis.Convention != "" {
			m.Verdict = RightConvention
		}
		return
	}
	m.Diagnosis = bound.diagnose(x)
	switch {
	case m.Diagnosis.Right && m.Diagnosis.Convention == "":
		m.Verdict = CarriedOn
	case m.Diagnosis.Convention != "":
		m.Verdict = RightConvention
	case m.Diagnosis.onlyRounded():
		m.Verdict = RoundedFigure
	default:
		m.Verdict = WrongFigure
	}
}

// chargeOnce says that a wrong figure is carried on if one of the slips charged before explains it.
// Two figures that do not follow from each other can have the same slip: the stream reversed is in
// the difference of latitude and in that of longitude.
func (m *Mark) chargeOnce(charged map[Kind]bool) {
	if m.Verdict != WrongFigure {
		return
	}
	var same []Cause
	for _, c := range m.Diagnosis.Causes {
		if len(c.Slips) == 1 && charged[c.Slips[0]] {
			same = append(same, c)
		}
	}
	if len(same) > 0 {
		m.Verdict, m.Diagnosis.Causes = CarriedOn, same
	}
}

// keys lists the keys of figures.
func keys(figures []worked) string {
	if len(figures) == 0 {
		return "none"
	}
	text := figures[0].Key
	for _, w := range figures[1:] {
		text += ", " + w.Key
	}
	return text
}
