package slip

import (
	"math"
	"strings"

	"lubberline.example/angle"
)

// A Figure is one figure of a working, which a learner may hand in: what it is and how it is
// written.
type Figure struct {
	Key  string `json:"key"`  // such as "variation"; "answer" for the answer
	What string `json:"what"` // in words, such as "Variation"
	Form Form   `json:"form"`

	// Rounding is the usual rounding, in the unit of the form: 1 for whole degrees.
	Rounding float64 `json:"rounding"`

	// North is the north of a direction: T, M or C. It is empty for other forms.
	North string `json:"north,omitempty"`
}

// Print prints a number as the figure, as [Problem.Print] does.
func (f Figure) Print(x float64) string { return f.problem().Print(x) }

// named prints a number as Print does, and a direction with its north.
func (f Figure) named(x float64) string { return strings.Replace(f.Print(x), "°", "°"+f.North, 1) }

// Read reads a number in the form of the figure, as [Problem.Read] does.
func (f Figure) Read(text string) (float64, error) { return f.problem().Read(text) }

// problem returns a problem without a question whose answer is the figure.
func (f Figure) problem() Problem {
	p := Problem{Form: f.Form, Rounding: f.Rounding}
	for _, north := range f.North {
		p.north = north
	}
	return p
}

// answerKey is the key of the answer among the figures.
const answerKey = "answer"

// answer returns the answer as a figure.
func (p *Problem) answer() Figure {
	f := Figure{Key: answerKey, What: "Answer", Form: p.Form, Rounding: p.Rounding}
	if p.north != 0 {
		f.North = string(p.north)
	}
	return f
}

// worked is a figure of a working with its number.
type worked struct {
	Figure
	value float64
}

// figure passes on a figure of the working that a learner may hand in. It returns the number to
// go on with: the learner's own, if there is one.
func (c *calculation) figure(f Figure, x float64) float64 {
	if c.figures != nil {
		*c.figures = append(*c.figures, worked{f, x})
	}
	if own, has := c.own[f.Key]; has {
		return own
	}
	return x
}

// figureAngle is figure for an angle. It keeps the angle exactly if the learner has none.
func (c *calculation) figureAngle(f Figure, a angle.Angle) angle.Angle {
	if c.figures == nil && c.own == nil {
		return a
	}
	x := c.figure(f, a.Degrees())
	if own, err := angle.Degrees(x); err == nil && x != a.Degrees() {
		return own
	}
	return a
}

// Figures returns the figures that a learner may hand in, in the order of the working. The last
// is the answer.
func (p Problem) Figures() []Figure {
	var out []Figure
	for _, w := range p.figuresWith(nil) {
		out = append(out, w.Figure)
	}
	return out
}

// figuresWith works the problem with some figures of a learner. It returns all figures.
func (p Problem) figuresWith(own map[string]float64) []worked {
	var figures []worked
	p.run(&calculation{own: own, figures: &figures})
	return figures
}

// ofFigure returns the problem whose answer is a figure of the working, worked with the
// learner's figures before it.
func (p Problem) ofFigure(f Figure, own map[string]float64) Problem {
	q := f.problem()
	q.Topic, q.plotted, q.scheme = p.Topic, p.plotted, p.scheme
	q.work = func(c *calculation) float64 {
		var figures []worked
		before, recorded, steps := c.own, c.figures, c.steps
		c.own, c.figures, c.steps = own, &figures, nil
		answer := p.work(c)
		c.own, c.figures, c.steps = before, recorded, steps
		if f.Key == answerKey {
			return answer
		}
		for _, w := range figures {
			if w.Key != f.Key {
				continue
			}
			if f.Form == EastWest && c.does(EastForWest) || f.Form == NorthSouth && c.does(NorthForSouth) {
				return -w.value
			}
			return w.value
		}
		return math.NaN()
	}
	return q
}
