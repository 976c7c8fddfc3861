package slip

import (
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle"
)

// isPair reports whether an answer of the form is two figures.
func (f Form) isPair() bool {
	return f == Position || f == CourseAndDistance || f == CourseAndSpeed
}

// shift is what the first figure of a pair is multiplied by.
const shift = 1 << 27

// quanta returns how many units of a pair's number are in a degree, and in the unit of the second
// figure. A position is kept to 0.0005′, a direction and a distance to a thousandth.
func (f Form) quanta() (first, second float64) {
	if f == Position {
		return 120_000, 120_000
	}
	return 1000, 1000
}

// pair returns the number of an answer with two figures. If they are out of range, it is NaN.
func (f Form) pair(first, second float64) float64 {
	if f == Position {
		second = math.Remainder(second, 360)
	} else if first = math.Mod(first, 360); first < 0 {
		first += 360
	}
	q, r := f.quanta()
	a, b := math.Round(first*q), math.Round(second*r)
	if !(math.Abs(a) < 1<<25 && math.Abs(b) < 1<<26) || f == Position && math.Abs(first) > 90 {
		return math.NaN()
	}
	return a*shift + b
}

// Pair returns the two figures of an answer: latitude and longitude in degrees, or degrees from
// north and nautical miles or knots. If the form has one figure, the first is that figure and the
// second is 0.
func (p Problem) Pair(answer float64) (first, second float64) {
	if !p.Form.isPair() {
		return answer, 0
	}
	a := math.Round(answer / shift)
	q, r := p.Form.quanta()
	return a / q, (answer - a*shift) / r
}

// roundings returns the usual rounding of the two figures of a pair, in their units.
func (p *Problem) roundings() (first, second float64) {
	if p.Form == Position {
		return p.Rounding / 60, p.Rounding / 60
	}
	return p.Rounding, 0.1
}

// pairOff returns the difference of two pairs: the greater of the two, where the rounding of either
// figure counts as the problem's.
func (p *Problem) pairOff(a, b float64) float64 {
	a1, a2 := p.Pair(a)
	b1, b2 := p.Pair(b)
	r1, r2 := p.roundings()
	second := math.Abs(a2 - b2)
	if p.Form == Position {
		second = apart(a2, b2, 360)
	}
	return p.Rounding * max(apart(a1, b1, 360)/r1, second/r2)
}

// pairRounded returns a pair with the usual rounding.
func (p *Problem) pairRounded(x float64) float64 {
	first, second := p.Pair(x)
	r1, r2 := p.roundings()
	return p.Form.pair(math.Round(first/r1)*r1, math.Round(second/r2)*r2)
}

// decimalsOnTheWay reports whether minutes of a figure on the way are taken as hundredths.
func decimalsOnTheWay(c *calculation) bool {
	v, does := c.way(MinutesAsDecimals, 6)
	return does && v == 1
}

// asDecimals returns degrees whose minutes are taken as hundredths.
func asDecimals(degrees float64) float64 {
	whole, part := math.Modf(degrees)
	return whole + part*60/100
}

// printPair prints a pair: 47°03.6′N 019°11.6′W, or 035°, 12.5 M.
func (p *Problem) printPair(answer float64) string {
	first, second := p.Pair(answer)
	if p.Form == Position {
		at, err := angle.PositionDegrees(first, second)
		if err != nil {
			return fmt.Sprint(answer)
		}
		return at.String()
	}
	unit := "M"
	if p.Form == CourseAndSpeed {
		unit = "kn"
	}
	return fmt.Sprintf("%s, %.1f %s", Problem{Form: Direction, Rounding: p.Rounding}.Print(first), second, unit)
}

// readPair reads a pair: a position, or a direction and then miles or knots.
func (p Problem) readPair(text string) (float64, error) {
	if p.Form == Position {
		at, err := angle.ParsePosition(text)
		if err != nil {
			return 0, err
		}
		return p.Form.pair(at.Latitude.Degrees(), at.Longitude.Degrees()), nil
	}
	refused := refused(text, angle.NoNumber, "a direction and a distance, such as 035° 12.5 M")
	if p.Form == CourseAndSpeed {
		refused = refusedRate(text)
	}
	fields := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == ';' || r == '\t' })
	if len(fields) < 2 || len(fields) > 6 {
		return 0, refused
	}
	for at := 1; at < len(fields); at++ {
		first, err := p.readDirection(strings.Join(fields[:at], " "))
		if err != nil {
			continue
		}
		second, err := readDecimal(withoutUnit(strings.Join(fields[at:], " "), p.Form))
		if err != nil || !(second >= 0 && second < 50_000) {
			continue
		}
		return p.Form.pair(first, second), nil
	}
	return 0, refused
}

// refusedRate is the error for a direction and a rate that cannot be read.
func refusedRate(text string) error {
	return refused(text, angle.NoNumber, "a direction and a speed, such as 035° 1.5 kn")
}

// withoutUnit returns the text without the unit of a form at its end.
func withoutUnit(text string, form Form) string {
	if form == CourseAndDistance {
		return withoutMiles(text)
	}
	for _, unit := range []string{"knots", "kn", "kts", "kt"} {
		if at := len(text) - len(unit); at > 0 && strings.EqualFold(text[at:], unit) {
			return strings.TrimSpace(text[:at])
		}
	}
	return text
}
