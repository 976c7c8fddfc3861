package slip

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"lubberline.example/angle/working"
)

// A Stated is a problem whose answers somebody states, such as a teacher in a file. All answers are
// texts as [Problem.Read] reads them.
type Stated struct {
	Topic    string        `json:"topic"`
	Question string        `json:"question"`
	Form     Form          `json:"form"`
	North    string        `json:"north,omitempty"`    // T, M or C, of a form with a direction; T if empty
	Rounding float64       `json:"rounding,omitempty"` // of a direction, or east and west: 1, 0.5 or 0.1 degrees; 0 is usual
	Answer   string        `json:"answer"`
	Working  working.Steps `json:"working,omitempty"`
	Slips    []StatedSlip  `json:"slips,omitempty"`
}

// A StatedSlip is a wrong answer with the slip that would give it.
type StatedSlip struct {
	Slip   Kind   `json:"slip"`   // a Kind of this package, or a sentence of your own
	Answer string `json:"answer"` // the wrong answer
}

// usual are the usual roundings of the forms, in their units.
var usual = map[Form]float64{
	Direction: 1, EastWest: 1.0 / 60, NorthSouth: 0.1 / 60, Miles: 0.1, MinutesEastWest: 0.1, Knots: 0.1,
	Angle: 0.1 / 60, Clock: 1, Position: 0.1, CourseAndDistance: 1, CourseAndSpeed: 1,
}

// Problem returns the problem, with its working and its slips. A slip may have several wrong
// answers. For an unknown form, north or rounding, a question without text, and a slip that gives
// the right answer it returns an [*Error]. For an answer that can't be read it returns an
// [*Error] that wraps the [*angle.ParseError].
func (s Stated) Problem() (Problem, error) {
	p := Problem{Topic: s.Topic, Question: s.Question, Form: s.Form, Rounding: usual[s.Form]}
	directed := s.Form == Direction || s.Form == CourseAndDistance || s.Form == CourseAndSpeed
	switch {
	case p.Rounding == 0:
		return Problem{}, &Error{Reason: fmt.Sprintf("the form %.60q is unknown: give one such as direction, east-west, miles or position", s.Form)}
	case strings.TrimSpace(s.Question) == "":
		return Problem{}, &Error{Reason: "the question is empty: write it with all its figures"}
	case s.Rounding != 0 && (s.Form != Direction && s.Form != EastWest || !slices.Contains([]float64{1, 0.5, 0.1}, s.Rounding)):
		return Problem{}, &Error{Reason: fmt.Sprintf("the rounding %v: leave it out, or give 1, 0.5 or 0.1 for a direction or east and west", s.Rounding)}
	case s.North != "" && (!directed || !slices.Contains([]string{"T", "M", "C"}, s.North)):
		return Problem{}, &Error{Reason: fmt.Sprintf("the north %.60q: give T, M or C for a form with a direction, and none for another", s.North)}
	}
	if s.Rounding != 0 {
		p.Rounding = s.Rounding
	}
	if directed {
		p.north = 'T'
	}
	for _, north := range s.North {
		p.north = north
	}
	right, err := p.Read(s.Answer)
	if err != nil {
		return Problem{}, &Error{Reason: "the answer can't be read", Err: err}
	}
	wrong := map[Kind][]float64{}
	var order []Kind
	for i, w := range s.Slips {
		x, err := p.Read(w.Answer)
		switch {
		case err != nil:
			return Problem{}, &Error{Reason: fmt.Sprintf("the answer of slip %d can't be read", i+1), Err: err}
		case strings.TrimSpace(string(w.Slip)) == "":
			return Problem{}, &Error{Reason: fmt.Sprintf("slip %d is empty: name one, or describe it in a sentence", i+1)}
		case p.off(x, right) <= p.within() || p.Print(x) == p.Print(right):
			return Problem{}, &Error{Reason: fmt.Sprintf("slip %d gives the right answer, %s: give a wrong one", i+1, p.Print(right))}
		}
		if len(wrong[w.Slip]) == 0 {
			order = append(order, w.Slip)
		}
		wrong[w.Slip] = append(wrong[w.Slip], x)
	}
	p.stated = append([]StatedSlip{}, s.Slips...)
	first := p.firstWays(right)
	p.work = func(c *calculation) float64 {
		c.step(s.Working...)
		answer := right
		for _, kind := range order { // all are asked for, so that all are known
			if way, does := c.way(kind, first(kind)+len(wrong[kind])); does && way >= first(kind) && way < first(kind)+len(wrong[kind]) {
				answer = wrong[kind][way-first(kind)]
			}
		}
		return answer
	}
	return p, nil
}

// firstWays returns the number of the first way of a stated slip. Below it are the ways that have
// words in this package, and those in which the slip is made in writing an answer down.
func (p Problem) firstWays(answer float64) func(Kind) int {
	c := &calculation{}
	p.written(c, answer)
	return func(k Kind) int {
		first := len(ways[k])
		for _, a := range c.asked {
			if a.kind == k {
				first = max(first, a.variants)
			}
		}
		return first
	}
}

// State returns a problem as a file states it. It has the right answer and those of its single
// slips, but not the means to work it. Slips of figures, such as two figures exchanged, are left
// out. For a problem without an answer it returns an [*Error].
func State(p Problem) (Stated, error) {
	right := p.Answer()
	if math.IsNaN(right) {
		return Stated{}, &Error{Reason: "the problem has no answer: make it by one of the New functions"}
	}
	s := Stated{Topic: p.Topic, Question: p.Question, Form: p.Form, North: p.answer().North, Answer: p.Print(right), Working: p.Working()}
	if p.Rounding != usual[p.Form] {
		s.Rounding = p.Rounding
	}
	if p.stated != nil {
		s.Slips = append(s.Slips, p.stated...)
		return s, nil
	}
	for _, c := range p.Slips() {
		answer := c.Printed
		if _, err := p.Read(answer); err == nil && !c.Slips[0].ofFigures() { // nobody writes -5.6 M
			s.Slips = append(s.Slips, StatedSlip{c.Slips[0], answer})
		}
	}
	return s, nil
}
