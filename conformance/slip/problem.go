package slip

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/plot"
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
)

// A Problem is a question with its working and a figure as the answer. Make one with
// [NewToSteer] and the like, or with [Exercises]. The zero value has neither question nor
// working, and its answer is NaN.
//
// Its JSON is what the learner sees. A Problem read from JSON has no working, and its answer
// is NaN.
type Problem struct {
	Topic    string `json:"topic"`    // one of [Topics]
	Question string `json:"question"` // with all its figures, except those of a card or a chart
	Form     Form   `json:"form"`     // of the answer

	// Rounding is the usual rounding of the answer, in the unit of its form: 1 for whole
	// degrees.
	Rounding float64 `json:"rounding"`

	work func(*calculation) float64

	// minor are slips that need not show for the problem to be clear. They often change the
	// answer by less than the rounding, or are rare.
	minor []Kind

	north rune      // of a direction: T, M or C
	drawn converted // nil if there is nothing to draw
}

// A converted is a conversion that can be drawn: a [course.Heading] or a [course.Bearing].
type converted interface{ Working() working.Sheet }

// A calculation works a problem once, right or with slips.
type calculation struct {
	slips [2]applied
	asked []ask
	steps *working.Steps // nil if not needed
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
	known := false
	for _, a := range c.asked {
		known = known || a.kind == k
	}
	if !known {
		c.asked = append(c.asked, ask{k, variants})
	}
	for _, s := range c.slips {
		if s.kind == k {
			return s.variant, true
		}
	}
	return 0, false
}

// step records steps of the right working.
func (c *calculation) step(s ...working.Step) {
	if c.steps != nil {
		*c.steps = append(*c.steps, s...)
	}
}

// run works the problem with slips, including those that any problem can have.
func (p Problem) run(c *calculation) float64 {
	c.asked = c.asked[:0]
	if p.work == nil {
		return math.NaN() // the zero Problem
	}
	answer := p.work(c)
	if p.Form == Direction {
		// The working may ask for it too, for intermediate figures.
		if v, does := c.way(RoundedOnTheWay, 2); does && v < 2 {
			answer += []float64{1, -1}[v]
		}
		if v, does := c.way(TensMisread, 2); does {
			answer += []float64{10, -10}[v]
		}
	}
	steps := p.coarser()
	if v, does := c.way(RoundedTooFar, len(steps)); does && v < len(steps) {
		answer = math.Round(answer/steps[v]) * steps[v]
	}
	figures := p.figures(answer)
	if v, does := c.way(FiguresTransposed, 4); does {
		answer = p.transposed(answer, figures, v)
	}
	return p.normal(answer)
}

// coarser returns the steps beyond [Problem.Rounding] to which an answer is sometimes rounded,
// in the unit of the form. A direction has none: rounding to five degrees would explain too
// many answers.
func (p Problem) coarser() []float64 {
	switch p.Form {
	case EastWest:
		return []float64{5.0 / 60, 0.1, 0.25, 0.5, 1}
	case NorthSouth:
		return []float64{0.5 / 60, 1.0 / 60, 1}
	case Miles, MinutesEastWest:
		return []float64{0.5, 1}
	}
	return nil
}

// normal brings an answer into its range.
func (p Problem) normal(x float64) float64 {
	if p.Form == Direction {
		if x = math.Mod(x, 360); x < 0 {
			x += 360
		}
	}
	return x
}

// figures returns the digits of an answer as written. The last digits of an angle are
// minutes.
func (p Problem) figures(answer float64) []byte {
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
func (p Problem) minutes() (per float64, width int) {
	switch p.Form {
	case EastWest:
		return 60, 2
	case NorthSouth:
		return 600, 3
	}
	return 0, 0
}

// transposed returns the answer with two neighbouring figures exchanged, or NaN if the result
// is not a valid figure.
func (p Problem) transposed(answer float64, figures []byte, at int) float64 {
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
func (p Problem) off(a, b float64) float64 {
	if p.Form == Direction {
		return math.Abs(math.Remainder(a-b, 360))
	}
	return math.Abs(a - b)
}

// within returns the maximum difference between a figure and its rounded value.
func (p Problem) within() float64 { return p.Rounding*0.5 + 1e-9 }

// Answer returns the right answer, not rounded, in the unit of the form.
func (p Problem) Answer() float64 { return p.run(&calculation{}) }

// rounded returns an answer with the usual rounding.
func (p Problem) rounded(x float64) float64 {
	return p.normal(math.Round(x/p.Rounding) * p.Rounding)
}

// Working returns the steps of the right working.
func (p Problem) Working() working.Steps {
	var steps working.Steps
	p.run(&calculation{steps: &steps})
	return steps
}

// dial returns the drawing of a conversion as SVG, with its description in words. Both are
// empty for other problems.
func (p Problem) dial() (svg, text string) {
	var b strings.Builder
	var err error // none: a builder takes everything
	switch d := p.drawn.(type) {
	case course.Heading:
		text, err = plot.HeadingDialText(d), plot.WriteHeadingDial(&b, d)
	case course.Bearing:
		text, err = plot.BearingDialText(d), plot.WriteBearingDial(&b, d)
	}
	if err != nil {
		return "", ""
	}
	return b.String(), text
}

// Print prints an answer in the form of the problem, with the usual rounding: 045°, 7°20′W,
// 47°06.5′N, 12.5 M, 12.5′W.
func (p Problem) Print(answer float64) string {
	switch p.Form {
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
		if p.Form == EastWest {
			return a.Round(angle.Minute).EastWest()
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

// Read reads an answer in the form of the problem:
//
//   - A direction has the letter of its own north, or none.
//   - East and west, at most 180°, and north and south, at most 90°, always have a name. A
//     figure without a name is refused.
//   - A difference of longitude is in minutes, 59.0′E, or in degrees and minutes, 1°01.0′W,
//     with its name.
//   - A distance is in nautical miles, with or without the unit.
//
// For other text it returns an [*angle.ParseError] whose Input is the text.
func (p Problem) Read(text string) (float64, error) {
	whole := text
	text = strings.TrimSpace(text)
	switch p.Form {
	case Direction:
		return p.readDirection(whole)
	case EastWest:
		a, err := angle.ParseEastWest(whole)
		if err == nil && (!isNamed(text, "E", "W", "EAST", "WEST") || a.Abs() > 180*angle.Degree) {
			return 0, refused(whole, "an angle with its name, E or W, of at most 180°, such as 7°20′W")
		}
		return a.Degrees(), err
	case NorthSouth:
		l, err := angle.ParseLatitude(whole)
		if err == nil && !isNamed(text, "N", "S", "NORTH", "SOUTH") {
			return 0, refused(whole, "an angle with its name, N or S, of at most 90°, such as 47°06.5′N")
		}
		return l.Degrees(), err
	case MinutesEastWest:
		return readMinutes(whole)
	}
	x, err := readDecimal(withoutMiles(text))
	if err != nil || !(x >= 0) || math.IsInf(x, 0) {
		return 0, refused(whole, "nautical miles, such as 12.5 or 12.5 M")
	}
	return x, nil
}

// readDirection reads a direction from the north of the problem.
func (p Problem) readDirection(text string) (float64, error) {
	upper := strings.ToUpper(strings.TrimSpace(text))
	if strings.ContainsAny(strings.TrimSuffix(upper, string(p.north)), "TMC") {
		return 0, refused(text, fmt.Sprintf("a direction such as 045°, with %c or without a letter", p.north))
	}
	switch p.north {
	case 'M':
		d, err := angle.ParseMagnetic(text)
		return d.Degrees(), err
	case 'C':
		d, err := angle.ParseCompass(text)
		return d.Degrees(), err
	}
	d, err := angle.ParseTrue(text)
	return d.Degrees(), err
}

// isNamed reports whether the text of an angle contains one of the names.
func isNamed(text string, names ...string) bool {
	words := strings.FieldsFunc(strings.ToUpper(text), func(r rune) bool { return r < 'A' || r > 'Z' })
	return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(names, w) })
}

// readDecimal reads a decimal number. It refuses the forms of Go alone: 0x1p3, 1_000.
func readDecimal(text string) (float64, error) {
	if strings.ContainsAny(text, "xX_") {
		return 0, strconv.ErrSyntax
	}
	return strconv.ParseFloat(text, 64)
}

// withoutMiles returns the text without nautical miles at its end.
func withoutMiles(text string) string {
	if number, ok := strings.CutSuffix(text, "M"); ok && !strings.HasSuffix(strings.ToUpper(number), "N") {
		return strings.TrimSpace(number) // m is metres
	}
	for _, unit := range []string{"nautical miles", "miles", "n.m.", "nm"} {
		if at := len(text) - len(unit); at > 0 && strings.EqualFold(text[at:], unit) {
			return strings.TrimSpace(text[:at])
		}
	}
	return text
}

// readMinutes reads minutes of longitude with their name, as minutes, 61.0′W, or with
// degrees, 1°01.0′W. A figure without a unit is minutes.
func readMinutes(text string) (float64, error) {
	refused := refused(text, "minutes of longitude with their name, such as 61.0′W or 1°01.0′W")
	upper := strings.ToUpper(strings.TrimSpace(text))
	for _, side := range []struct {
		name string
		sign float64
	}{{"EAST", 1}, {"E", 1}, {"WEST", -1}, {"W", -1}} {
		number, ok := strings.CutSuffix(upper, side.name)
		if !ok {
			continue
		}
		x, err := readDecimal(strings.TrimRight(number, " ′'"))
		if err != nil { // with degrees
			var a angle.Angle
			a, err = angle.Parse(number)
			x = a.Minutes()
		}
		if err != nil || !(x >= 0 && x <= 180*60) {
			return 0, refused
		}
		return side.sign * x, nil
	}
	return 0, refused
}

// refused is the error for an answer that cannot be read.
func refused(text, want string) error {
	kind := angle.TrailingText
	if strings.TrimSpace(text) == "" {
		kind = angle.Empty
	}
	return &angle.ParseError{What: "answer", Input: text, Kind: kind, Want: want}
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
