package slip

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Form is the kind of figure of an answer, and the unit of its number.
type Form string

// The forms.
const (
	Direction       Form = "direction"         // degrees clockwise from north, compared on the circle
	EastWest        Form = "east-west"         // degrees, east positive
	NorthSouth      Form = "north-south"       // degrees, north positive
	Miles           Form = "miles"             // nautical miles
	MinutesEastWest Form = "minutes-east-west" // minutes of arc, east positive
	Knots           Form = "knots"             // nautical miles an hour
	Angle           Form = "angle"             // degrees, without a name
	Clock           Form = "clock"             // minutes after midnight

	// Of two figures, the number holds both. [Problem.Pair] returns them.
	Position          Form = "position"            // latitude and longitude
	CourseAndDistance Form = "course-and-distance" // degrees from north, nautical miles
	CourseAndSpeed    Form = "course-and-speed"    // degrees from north, knots
)

// A Problem is a question with its working and a figure as the answer. Each New function makes
// the problem that asks for one thing, from figures of your own; [Exercises] draws the figures.
// The zero value has neither question nor working, and its answer is NaN.
//
// Its JSON is what the learner sees. A Problem read from JSON has no working, and its answer
// is NaN. To keep a problem with its answer, use [State].
type Problem struct {
	Topic    string `json:"topic"`    // one of [Topics]
	Question string `json:"question"` // with all its figures, except those of a card or a chart
	Form     Form   `json:"form"`     // of the answer

	// Rounding is the usual rounding of the answer, in the unit of its form: 1 for whole
	// degrees. That of a position is in minutes. If a direction has a distance or a speed with
	// it, that one is rounded to a tenth.
	Rounding float64 `json:"rounding"`

	work func(*calculation) float64

	// minor are slips that need not show for the problem to be clear. They often change the
	// answer by less than the rounding, or are rare.
	minor []Kind

	north   rune    // of a direction: T, M or C
	plotted plotted // whether the answer is read from a chart
	scheme  *Scheme // nil for the usual one

	stated []StatedSlip // of a stated problem; nil of one that this package works
}

// A converted is a conversion: a [course.Heading] or a [course.Bearing].
type converted interface{ Working() working.Sheet }

// A calculation works a problem once, right or with slips.
type calculation struct {
	slips [2]applied
	asked []ask
	raw   float64        // the answer before it is written down
	knows bool           // what is asked is known, and is not recorded
	steps *working.Steps // nil if not needed

	own     map[string]float64 // the learner's own figures by key, which replace those worked; may be nil
	figures *[]worked          // the figures worked, in their order; nil if not needed
}

// applied is a slip that is made in this calculation. An empty kind is no slip.
type applied struct {
	kind    Kind
	variant int
}

// ask is a slip that can be made, with the number of its variants.
type ask struct {
	kind     Kind
	variants int
}

// does reports whether a slip is made here. The working of a problem calls it.
func (c *calculation) does(k Kind) bool {
	_, does := c.way(k, 1)
	return does
}

// way reports whether a slip is made here, and which of its variants.
func (c *calculation) way(k Kind, variants int) (variant int, does bool) {
	if !c.knows {
		c.record(k, variants)
	}
	for i := range c.slips {
		if s := &c.slips[i]; s.kind == k {
			return s.variant, true
		}
	}
	return 0, false
}

// record notes that a slip can be made here.
func (c *calculation) record(k Kind, variants int) {
	for i := range c.asked {
		if a := &c.asked[i]; a.kind == k {
			a.variants = max(variants, a.variants)
			return
		}
	}
	c.asked = append(c.asked, ask{k, variants})
}

// step records steps of the right working.
func (c *calculation) step(s ...working.Step) {
	if c.steps != nil {
		*c.steps = append(*c.steps, s...)
	}
}

// run works the problem with slips, including those that any problem can have.
func (p *Problem) run(c *calculation) float64 {
	c.asked = c.asked[:0]
	if p.work == nil {
		return math.NaN() // the zero Problem
	}
	c.raw = p.work(c)
	answer := p.written(c, c.raw)
	if c.figures != nil {
		*c.figures = append(*c.figures, worked{p.answer(), answer})
	}
	return answer
}

// written returns an answer as written down, with the slips that any answer can have.
func (p *Problem) written(c *calculation, answer float64) float64 {
	if p.Form.isPair() {
		return p.withFigures(c, answer)
	}
	if v, does := c.way(RoundedOnTheWay, 2); does && v < 2 {
		answer += []float64{1, -1}[v] * p.Rounding
	}
	ten, sums := p.places()
	if v, does := c.way(TensMisread, 2); does && v < 2 && ten > 0 {
		answer += []float64{1, -1}[v] * ten
	}
	if v, does := c.way(SumOff, 2*len(sums)); does && v < 2*len(sums) {
		answer += []float64{1, -1}[v%2] * sums[v/2]
	}
	steps := p.coarser()
	if v, does := c.way(RoundedTooFar, 2*len(steps)); does && v < 2*len(steps) {
		if step := steps[v/2]; v%2 == 0 {
			answer = math.Round(answer/step) * step
		} else if p.Form != Direction {
			answer = math.Trunc(answer/step) * step
		}
	}
	if p.Form == Miles || p.Form == MinutesEastWest || p.Form == Knots {
		if v, does := c.way(PointMisplaced, 2); does {
			answer *= []float64{10, 0.1}[v]
		}
	}
	if answer < 0 && (p.Form == Miles || p.Form == Knots || p.Form == Angle) {
		return math.NaN()
	}
	if v, does := c.way(FiguresTransposed, 4); does && v < 4 {
		answer = p.transposed(answer, p.figures(answer), v)
	}
	return p.normal(answer)
}

// places returns by how much an answer is off if a figure is misread by ten. It also returns by how
// much it is off if a sum is off by one in another place. Both are in the unit of the form.
func (p *Problem) places() (ten float64, sums []float64) {
	switch p.Form {
	case Direction:
		return 10, []float64{100}
	case EastWest, NorthSouth, Angle:
		if p.Rounding > 1.5/60 {
			return 10, []float64{1}
		}
		return 10.0 / 60, []float64{1.0 / 60, 1, 10}
	case Clock:
		return 10, []float64{1, 60}
	case Miles, MinutesEastWest:
		return 10, []float64{1}
	}
	return 0, []float64{1}
}

// coarser returns the steps beyond [Problem.Rounding] to which an answer is sometimes rounded,
// in the unit of the form.
func (p *Problem) coarser() []float64 {
	switch p.Form {
	case Direction:
		return []float64{5, 10}
	case EastWest:
		if p.Rounding > 1.5/60 {
			return []float64{0.25, 0.5, 1}
		}
		return []float64{5.0 / 60, 0.1, 10.0 / 60, 0.25, 0.5, 1}
	case NorthSouth, Angle:
		return []float64{0.1 / 60, 0.5 / 60, 1.0 / 60, 5.0 / 60, 10.0 / 60, 0.25, 0.5, 1}
	case Miles, MinutesEastWest:
		return []float64{0.1, 0.25, 0.5, 1, 5}
	case Knots:
		return []float64{0.1, 0.25, 0.5, 1}
	case Clock:
		return []float64{5, 10, 15}
	}
	return nil
}

// normal brings an answer into its range.
func (p *Problem) normal(x float64) float64 {
	if p.Form == Direction {
		return wrapped(x, 360)
	}
	if p.Form == Clock {
		return wrapped(x, 24*60)
	}
	return x
}

// wrapped brings a figure that repeats after a turn into the range from 0.
func wrapped(x, turn float64) float64 {
	if !(math.Abs(x) < turn) {
		x = math.Mod(x, turn)
	}
	if x < 0 {
		x += turn
	}
	return x
}

// figures returns the digits of an answer as written. The last digits of an angle are
// minutes.
func (p *Problem) figures(answer float64) []byte {
	n := math.Round(math.Abs(p.normal(answer)) / p.Rounding)
	if per, width := p.minutes(); per > 0 {
		return fmt.Appendf(nil, "%.0f%0*.0f", math.Floor(n/per), width, math.Mod(n, per))
	}
	if p.Form == Direction && p.Rounding == 1 {
		return fmt.Appendf(nil, "%03.0f", math.Mod(n, 360))
	}
	return fmt.Appendf(nil, "%.0f", n)
}

// minutes returns the number of roundings in a degree, and the number of figures of the
// minutes. Both are 0 if the form has no minutes.
func (p *Problem) minutes() (per float64, width int) {
	switch p.Form {
	case EastWest:
		if p.Rounding > 1.5/60 { // in tenths of a degree
			return 0, 0
		}
		return 60, 2
	case Clock:
		return 60, 2
	case NorthSouth, Angle:
		return 600, 3
	}
	return 0, 0
}

// transposed returns the answer with two neighbouring figures exchanged, or NaN if the result
// is not a valid figure.
func (p *Problem) transposed(answer float64, figures []byte, at int) float64 {
	if at+1 >= len(figures) || figures[at] == figures[at+1] {
		return math.NaN()
	}
	figures[at], figures[at+1] = figures[at+1], figures[at]
	n := 0.0
	for _, f := range figures {
		n = 10*n + float64(f-'0')
	}
	if per, width := p.minutes(); per > 0 {
		written := math.Pow10(width)
		if math.Mod(n, written) >= per {
			return math.NaN()
		}
		n = per*math.Floor(n/written) + math.Mod(n, written)
	}
	if p.Form == Direction && n*p.Rounding >= 360 {
		return math.NaN()
	}
	return math.Copysign(n*p.Rounding, answer)
}

// off returns the difference of two answers.
func (p *Problem) off(a, b float64) float64 {
	if p.Form == Direction {
		return apart(a, b, 360)
	}
	if p.Form == Clock {
		return apart(a, b, 24*60)
	}
	if p.Form.isPair() {
		return p.pairOff(a, b)
	}
	return math.Abs(a - b)
}

// apart returns the difference of two figures that repeat after a turn, the shorter way.
func apart(a, b, turn float64) float64 {
	d := math.Abs(a - b)
	switch {
	case d <= turn/2:
		return d
	case d <= turn:
		return turn - d
	}
	return math.Abs(math.Remainder(d, turn))
}

// within returns the maximum difference between a figure and its rounded value.
func (p *Problem) within() float64 { return p.Rounding*0.5 + 1e-9 }

// Answer returns the right answer, not rounded, in the unit of the form.
func (p Problem) Answer() float64 { return p.run(&calculation{}) }

// rounded returns an answer with the usual rounding.
func (p *Problem) rounded(x float64) float64 {
	if p.Form.isPair() {
		return p.pairRounded(x)
	}
	return p.normal(math.Round(x/p.Rounding) * p.Rounding)
}

// Working returns the steps of the right working.
func (p Problem) Working() working.Steps {
	var steps working.Steps
	p.run(&calculation{steps: &steps})
	return steps
}

// Print prints an answer in the form of the problem, with the usual rounding:
//
//	045°   7°20′W   47°06.5′N   12.5 M   12.5′W   1.5 kn   0°32.4′   1430
//	47°03.6′N 019°11.6′W   035°, 12.5 M
func (p Problem) Print(answer float64) string {
	switch p.Form {
	case Position, CourseAndDistance, CourseAndSpeed:
		return p.printPair(answer)
	case Knots:
		return fmt.Sprintf("%.1f kn", answer)
	case Clock:
		n := int64(p.normal(math.Round(p.normal(answer))))
		return fmt.Sprintf("%02d%02d", n/60, n%60)
	case Angle:
		a, err := angle.Degrees(answer)
		if err != nil {
			return fmt.Sprint(answer)
		}
		return fmt.Sprintf("%.1v", a.Round(angle.Minute/10))
	case Direction:
		n := math.Mod(math.Round(p.normal(answer)/p.Rounding)*p.Rounding, 360)
		if p.Rounding >= 1 {
			return fmt.Sprintf("%03.0f°", n)
		}
		return fmt.Sprintf("%05.1f°", n)
	case EastWest, NorthSouth:
		a, err := angle.Degrees(answer)
		if err != nil {
			return fmt.Sprint(answer)
		}
		if p.Form == EastWest && p.Rounding > 1.5/60 {
			return tenths(answer)
		}
		if p.Form == EastWest {
			return a.Round(angle.Minute).EastWestString()
		}
		name := "N"
		if a < 0 {
			name = "S"
		}
		return fmt.Sprintf("%.1v%s", a.Abs().Round(angle.Minute/10), name)
	case MinutesEastWest:
		name := "E"
		if answer < 0 {
			name = "W"
		}
		return fmt.Sprintf("%.1f′%s", math.Abs(answer), name)
	}
	return fmt.Sprintf("%.1f M", answer)
}

// tenths prints an angle east or west in tenths of a degree: 2.5°W.
func tenths(degrees float64) string {
	x := math.Round(degrees * 10)
	if x < 0 {
		return fmt.Sprintf("%.1f°W", -x/10)
	}
	return fmt.Sprintf("%.1f°E", x/10)
}

// An Error reports figures that make no problem.
type Error struct {
	Reason string // what was wrong, and what is accepted
	Err    error  // the error of the figure, or nil
}

// Error says why the figures make no problem.
func (e *Error) Error() string {
	if e.Err != nil {
		return "slip: " + e.Reason + ": " + e.Err.Error()
	}
	return "slip: " + e.Reason
}

// Unwrap returns the error of the figure.
func (e *Error) Unwrap() error { return e.Err }
