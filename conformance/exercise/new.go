package exercise

import (
	"bytes"
	_ "embed"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/page"
	"lubberline.example/conformance/slip"
	"lubberline.example/deviation"
)

// The numbers of questions of a paper that [New] makes.
const (
	minQuestions = 6
	maxQuestions = 12
)

// Options say which paper [New] makes. The zero value is good.
type Options struct {
	// Seed draws the figures. The same options give the same paper while the version of the
	// rules is the same, which stands at the foot.
	Seed uint64

	Level     slip.Difficulty // [slip.Medium] if empty
	Topics    []string        // some of [Topics]; all if empty
	Questions int             // from 6 to 12; 8 if zero

	// Card is the deviation card of the vessel. If nil, it is an invented one.
	Card *deviation.Table
}

//go:embed deviation.csv
var inventedCard []byte

// Topics returns the topics of the questions that [New] can ask, in teaching order. They are
// some of [slip.Topics]. The caller may change the slice.
func Topics() []string {
	var out []string
	for _, topic := range slip.Topics() {
		if slices.ContainsFunc(stages, func(s stage) bool { return s.topic == topic }) {
			out = append(out, topic)
		}
	}
	return out
}

// New makes a paper: one passage off the Orlesk coast, which is invented, and questions in the
// order of the passage. It asks each topic once before it asks one again.
//
// For an unknown level or topic it returns an
// [*angle.ParseError]. For a number of questions beyond the limits, or beyond what the topics
// give, it returns an [*angle.RangeError]. If the deviations are so large that a question can't
// be made, it returns an [*Error].
func New(o Options) (Paper, error) {
	if o.Level == "" {
		o.Level = slip.Medium
	}
	if o.Questions == 0 {
		o.Questions = 8
	}
	hard := slices.Index([]slip.Difficulty{slip.Easy, slip.Medium, slip.Hard}, o.Level)
	if hard < 0 {
		return Paper{}, &angle.ParseError{What: "level", Input: string(o.Level), Kind: angle.UnknownWord, Want: "easy, medium or hard"}
	}
	if o.Questions < minQuestions || o.Questions > maxQuestions {
		return Paper{}, &angle.RangeError{What: "number of questions", Value: float64(o.Questions), Accepted: fmt.Sprintf("%d to %d", minQuestions, maxQuestions)}
	}
	for _, topic := range o.Topics {
		if !slices.Contains(Topics(), topic) {
			return Paper{}, &angle.ParseError{What: "topic", Input: topic, Kind: angle.UnknownWord, Want: strings.Join(Topics(), ", ")}
		}
	}
	if o.Card == nil {
		card, err := deviation.ReadTable(bytes.NewReader(inventedCard))
		if err != nil {
			return Paper{}, err
		}
		o.Card = card
	}
	r := rand.New(rand.NewPCG(o.Seed, uint64(hard)))
	order, err := choose(r, o.Topics, o.Questions)
	if err != nil {
		return Paper{}, err
	}
	v, err := sail(r, hard, o.Card)
	if err != nil {
		return Paper{}, err
	}
	paper := Paper{
		Title: fmt.Sprintf("Paper %d: to St Osk Road (invented)", o.Seed), Passage: v.passage(), Made: o.made(),
		Tables: []page.Table{CardTable(o.Card), streamTable(*v.chart.Tidal)},
	}
	asked := map[int]slip.Problem{}
	for _, at := range order {
		p, fault := v.ask(stages[at])
		if fault != nil {
			err = fault // another question stands in for it
			continue
		}
		if asked[at] = p; len(asked) == o.Questions {
			break
		}
	}
	if len(asked) < o.Questions {
		return Paper{}, err
	}
	for _, at := range slices.Sorted(maps.Keys(asked)) {
		paper.Problems = append(paper.Problems, asked[at])
	}
	return paper, nil
}

// made says how the paper can be made again.
func (o Options) made() string {
	topics := "all topics"
	if len(o.Topics) > 0 {
		topics = "topics " + strings.Join(o.Topics, ", ")
	}
	return fmt.Sprintf("Seed %d, level %s, %d questions, %s, version %s.", o.Seed, o.Level, o.Questions, topics, version)
}

// choose draws the order in which the stages are tried. Each topic comes once before one comes
// again.
func choose(r *rand.Rand, topics []string, n int) ([]int, error) {
	var rest []int
	for i, s := range stages {
		if len(topics) == 0 || slices.Contains(topics, s.topic) {
			rest = append(rest, i)
		}
	}
	if len(rest) < n {
		return nil, &angle.RangeError{What: "number of questions", Value: float64(n), Accepted: fmt.Sprintf("at most %d on these topics; give more topics", len(rest))}
	}
	r.Shuffle(len(rest), func(i, j int) { rest[i], rest[j] = rest[j], rest[i] })
	times, turn := map[string]int{}, make([]int, len(stages))
	for _, i := range rest {
		turn[i] = times[stages[i].topic]
		times[stages[i].topic]++
	}
	slices.SortStableFunc(rest, func(a, b int) int { return turn[a] - turn[b] })
	return rest, nil
}

// tries is how many problems are made for a question until its slips differ enough. draws is how
// often figures are drawn for them.
const (
	tries = 6
	draws = 60
)

// ask makes the problem of a stage. It draws the figures again if the answer is near where the
// rounding changes, or if two slips give the same answer.
func (v *voyage) ask(s stage) (slip.Problem, error) {
	var best slip.Problem
	var err error
	least := math.MaxInt
	for made, drawn := 0, 0; made < tries && drawn < draws; drawn++ {
		p, fault := s.ask(v)
		if fault != nil {
			err = fault
			continue
		}
		if p.Form == slip.Position { // its slips seldom meet, and take long to work
			return p, nil
		}
		made++
		if unclear := unclear(p); unclear < least {
			best, least = p, unclear
		}
		if least == 0 {
			break
		}
	}
	if least == math.MaxInt {
		return slip.Problem{}, &Error{Reason: fmt.Sprintf("no question on %q can be made: give another seed, or a card with smaller deviations", s.topic), Err: err}
	}
	return best, nil
}

// unclear counts what makes a problem teach less well: slips of different kinds that give the
// same answer, and an answer near where the rounding changes, which counts most.
func unclear(p slip.Problem) int {
	n := 0
	if first, _ := p.Pair(p.Answer()); first == p.Answer() {
		if _, part := math.Modf(math.Abs(first) / p.Rounding); math.Abs(part-0.5) < 0.1 {
			n += 100
		}
	}
	kinds := map[string]slip.Kind{}
	for _, c := range p.Slips() {
		if ofFigures(c.Slips[0]) {
			continue
		}
		answer := c.Printed
		if other, has := kinds[answer]; has && other != c.Slips[0] {
			n++
		}
		kinds[answer] = c.Slips[0]
	}
	return n
}

// An Error reports a paper that can't be made or read.
type Error struct {
	// Where is the place in a file: "problems[2].form". It is empty if there is no file.
	Where  string
	Reason string // what is wrong, and what is accepted
	Err    error  // of the value at fault, or nil
}

// Error returns the place and the reason.
func (e *Error) Error() string {
	text := "exercise: "
	if e.Where != "" {
		text += e.Where + ": "
	}
	text += e.Reason
	if e.Err != nil {
		text += fmt.Sprintf(": %.300v", e.Err)
	}
	return text
}

// Unwrap returns e.Err.
func (e *Error) Unwrap() error { return e.Err }
