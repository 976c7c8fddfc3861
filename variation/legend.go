package variation

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"lubberline.example/angle"
)

// A LegendErrorKind says, in a word that programs can compare, why the legend
// of a rose was refused.
type LegendErrorKind string

// The reasons for refusing a legend. Faults of the figures themselves carry
// [BadFigure] and wrap an [*angle.ParseError].
const (
	NoYear            LegendErrorKind = "no-year"
	TwoYears          LegendErrorKind = "two-years"
	BadFigure         LegendErrorKind = "bad-figure"
	NoName            LegendErrorKind = "no-name"             // 4°15′ without E or W
	UnknownWord       LegendErrorKind = "unknown-word"        // a word that legends do not use
	ChangeWithoutSide LegendErrorKind = "change-without-side" // (8′): which way?
	ChangeWithoutUnit LegendErrorKind = "change-without-unit" // (8E): minutes or degrees?
	Contradiction     LegendErrorKind = "contradiction"       // decreasing 8′W for a westerly variation
)

// A LegendError reports the legend of a rose that was refused.
type LegendError struct {
	Input  string          // the whole legend
	Offset int             // where in Input the trouble is, in bytes
	Kind   LegendErrorKind // why it was refused
	Want   string          // what would do, in words
	Err    error           // the refusal of a figure, if that is the trouble
}

// Error says what was refused, where, why, and what is accepted.
func (e *LegendError) Error() string {
	if e.Err != nil {
		return fmt.Sprintf("variation: legend %q: %s at byte %d: %v", e.Input, e.Kind, e.Offset, e.Err)
	}
	return fmt.Sprintf("variation: legend %q: %s at byte %d: want %s", e.Input, e.Kind, e.Offset, e.Want)
}

// Unwrap returns the refusal of a figure, or nil.
func (e *LegendError) Unwrap() error { return e.Err }

// ParseLegend reads what charts print at a compass rose: the variation, the
// year, and the annual change, in the international form or in words:
//
//	4°15′W 2009 (8′E)
//	VAR 14°45'W (1985) ANNUAL INCREASE 8'
//	Magnetic Variation 8°40′E (1979) increasing about 2′ annually
//	Variation 9° West in 1914. Increasing 6′ per year
//	3°50′W 2014 (no annual change)
//
// In brackets the change has its own name: (8′E) takes westerly variation
// toward east. In words an increase is of the name that the variation has, and
// a decrease against it. A legend without any change is read as not stating it.
//
// Degree signs and primes may be look-alikes or words (deg, min). Refused, with
// a [*LegendError]: a legend without a year or with two; a variation without
// its name; a change without a name or a direction, or without a unit; an
// increase or decrease of a nought that has no name; a change whose name
// contradicts its words, or that has two names or senses; words that legends do
// not use; and a full stop close before a figure, as in Var.9°W, which might as
// well be a decimal point.
func ParseLegend(text string) (Rose, error) {
	l := legend{text: text}
	return l.parse()
}

// MustParseLegend is [ParseLegend] for legends written in a program; it panics
// on an error.
func MustParseLegend(text string) Rose { return angle.Must(ParseLegend(text)) }

type legend struct{ text string }

func (l legend) fail(at int, kind LegendErrorKind, want string) error {
	return &LegendError{Input: l.text, Offset: at, Kind: kind, Want: want}
}

func (l legend) parse() (Rose, error) {
	yearAt := l.year(0)
	if yearAt < 0 {
		return Rose{}, l.fail(len(l.text), NoYear, "the year of the rose, four figures, after the variation")
	}
	if again := l.year(yearAt + 4); again >= 0 {
		return Rose{}, l.fail(again, TwoYears, "one year")
	}
	year, err := strconv.Atoi(l.text[yearAt : yearAt+4])
	if err != nil || year < firstYear || year > lastYear {
		return Rose{}, l.fail(yearAt, NoYear, fmt.Sprintf("a year from %d to %d", firstYear, lastYear))
	}
	r := Rose{Year: year}
	name, err := l.value(&r, yearAt)
	if err != nil {
		return Rose{}, err
	}
	if err := l.change(&r, yearAt+4, name); err != nil {
		return Rose{}, err
	}
	return r, nil
}

// year finds four figures that stand alone: no figure, point or unit mark next
// to them.
func (l legend) year(from int) int {
	for i := from; i < len(l.text); i++ {
		if !isDigit(l.text[i]) {
			continue
		}
		end := i
		for end < len(l.text) && isDigit(l.text[end]) {
			end++
		}
		before := byte(' ')
		if i > 0 {
			before = l.text[i-1]
		}
		after, _ := utf8.DecodeRuneInString(l.text[end:])
		decimal := after == '.' && end+1 < len(l.text) && isDigit(l.text[end+1])
		if end-i == 4 && before != '.' && !decimal && !strings.ContainsRune(unitMarks, after) {
			return i
		}
		i = end
	}
	return -1
}

// unitMarks are the signs of degrees, minutes and seconds and their look-alikes,
// those that package angle reads.
const unitMarks = "°º˚∘⁰ᵒ゜" + "'`′’‘‛ʹʼ´＇" + "\"″”“‟ʺ˝＂〃"

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// value reads the variation before the year, and returns its name, 'E' or 'W', or
// 0 for a nought without a name.
func (l legend) value(r *Rose, end int) (name byte, err error) {
	start := 0
	for start < end {
		word, at := nextWord(l.text[:end], start)
		if word == "" || at != skipFiller(l.text[:end], start) {
			break
		}
		if !isOneOf(word, "magnetic", "mag", "variation", "varn", "var", "declination", "decl", "dec") {
			break
		}
		start = at + len(word)
		if err := l.fullStop(start); err != nil {
			return 0, err
		}
	}
	start = skipFiller(l.text[:end], start)
	stop := trimFiller(l.text, start, end)
	for { // words between the variation and the year: in, for, year
		i := strings.LastIndexAny(l.text[start:stop], " \t\n(,")
		if i < 0 || !isOneOf(l.text[start+i+1:stop], "in", "for", "year", "of") {
			break
		}
		stop = trimFiller(l.text, start, start+i)
	}
	if isOneOf(lastWord(l.text[start:stop]), "easterly", "westerly") {
		stop -= len("erly")
	}
	figure := l.text[start:stop]
	if figure == "" {
		return 0, l.fail(start, BadFigure, "the variation before the year")
	}
	p, err := angle.ParsePrinted(figure)
	if err != nil {
		return 0, l.badFigure(start, stop, err)
	}
	if p.Angle.Abs() > angle.Turn/2 {
		return 0, l.fail(start, BadFigure, "a variation from 180° W to 180° E")
	}
	// Programs may leave the name out; a rose never does.
	named := strings.ContainsAny(figure, "EWew")
	if p.Angle != 0 && !named {
		return 0, l.fail(stop, NoName, wantName)
	}
	r.Variation, r.Step = East(p.Angle), p.Step
	switch {
	case !named:
		return 0, nil
	case p.West:
		return 'W', nil
	}
	return 'E', nil
}

const wantName = "E or W after the variation"

// badFigure makes a refusal of the figure from start to end one of the legend.
func (l legend) badFigure(start, end int, err error) error {
	p, ok := errors.AsType[*angle.ParseError](err)
	if !ok { // not reached: the parsers of package angle return no other
		return err
	}
	p = &angle.ParseError{Input: l.text[start:end], Offset: min(p.Offset, end-start), Kind: p.Kind, Want: p.Want}
	if p.Kind == angle.MissingName {
		return &LegendError{Input: l.text, Offset: start + p.Offset, Kind: NoName, Want: wantName, Err: p}
	}
	return &LegendError{Input: l.text, Offset: start + p.Offset, Kind: BadFigure, Want: "an angle", Err: p}
}

// fullStop refuses a full stop between a word and a figure, which might as well
// be a decimal point: Var.9°W.
func (l legend) fullStop(at int) error {
	if at+1 < len(l.text) && l.text[at] == '.' && isDigit(l.text[at+1]) {
		return l.fail(at, BadFigure, "a blank after the full stop, or a 0 before the decimal point")
	}
	return nil
}

// change reads what follows the year.
func (l legend) change(r *Rose, start int, of byte) error {
	var (
		sense                       int // +1 increasing, −1 decreasing
		nothing                     bool
		figureAt, figureEnd         = -1, -1
		name                        byte // 'E' or 'W' with the figure
		senseAt, nameAt, nothingAt  int
		isUnit, afterFigure, united bool
	)
	for at := skipFiller(l.text, start); at < len(l.text); at = skipFiller(l.text, at) {
		word, wordAt := nextWord(l.text, at)
		if wordAt != at || word == "" {
			// Figures and marks.
			c, width := utf8.DecodeRuneInString(l.text[at:])
			if figureAt < 0 {
				if !strings.ContainsRune("0123456789."+fractionMarks, c) {
					return l.fail(at, UnknownWord, "the annual change, such as (8′E) or increasing 8′ annually")
				}
				figureAt = at
			} else if afterFigure {
				return l.fail(at, BadFigure, "one annual change")
			}
			united = united || strings.ContainsRune(unitMarks, c)
			figureEnd = at + width
			at = figureEnd
			continue
		}
		isUnit = isOneOf(word, "deg", "degs", "degree", "degrees", "d", "min", "mins", "minute", "minutes", "sec", "secs", "seconds")
		switch {
		case isUnit && figureAt >= 0 && !afterFigure:
			united = true
			figureEnd = wordAt + len(word)
		case isOneOf(word, "increase", "increases", "increasing", "incr", "inc"):
			if sense < 0 {
				return l.fail(wordAt, Contradiction, "either increase or decrease")
			}
			sense, senseAt = 1, wordAt
		case isOneOf(word, "decrease", "decreases", "decreasing", "decr", "dec", "diminishing"):
			if sense > 0 {
				return l.fail(wordAt, Contradiction, "either increase or decrease")
			}
			sense, senseAt = -1, wordAt
		case isOneOf(word, "no", "nil", "none", "negligible", "zero"):
			nothing, nothingAt = true, wordAt
		case isOneOf(word, "e", "east", "easterly", "eastward", "eastwards"):
			if name == 'W' {
				return l.fail(wordAt, Contradiction, "either E or W")
			}
			name, nameAt = 'E', wordAt
			afterFigure = figureAt >= 0
		case isOneOf(word, "w", "west", "westerly", "westward", "westwards"):
			if name == 'E' {
				return l.fail(wordAt, Contradiction, "either E or W")
			}
			name, nameAt = 'W', wordAt
			afterFigure = figureAt >= 0
		case isOneOf(word, "annual", "annually", "annum", "yearly", "year", "yr", "per", "a", "about", "approx", "approximately", "by", "change", "changing", "rate", "of", "the", "each", "every", "and", "is", "p", "pa", "in", "magnetic", "variation"):
			afterFigure = afterFigure || figureAt >= 0
		default:
			return l.fail(wordAt, UnknownWord, "the annual change, such as (8′E) or increasing 8′ annually")
		}
		at = wordAt + len(word)
		if err := l.fullStop(at); err != nil {
			return err
		}
	}
	if figureAt < 0 {
		switch {
		case nothing:
			r.Change = NoChange() // no annual increase
		case sense != 0:
			return l.fail(senseAt, BadFigure, "how much it changes in a year")
		case name != 0:
			return l.fail(nameAt, BadFigure, "how much it changes in a year")
		case skipFiller(l.text, start) < len(l.text):
			return l.fail(skipFiller(l.text, start), BadFigure, "how much it changes in a year")
		}
		return nil
	}
	if nothing {
		return l.fail(nothingAt, Contradiction, "either no change or how much")
	}
	return l.setChange(r, figureAt, figureEnd, united, sense, name, of)
}

// setChange makes the annual change of its figure, name and sense, and the name
// of the variation.
func (l legend) setChange(r *Rose, figureAt, figureEnd int, united bool, sense int, name, of byte) error {
	text := l.text[figureAt:figureEnd]
	p, err := angle.ParsePrinted(text + " E")
	if err != nil {
		return l.badFigure(figureAt, figureEnd, err)
	}
	if p.Angle >= angle.Turn/2 {
		return l.fail(figureAt, BadFigure, "an annual change of less than 180°")
	}
	if p.Angle == 0 {
		if r.Change = NoChange(); united {
			r.ChangeStep = p.Step
		}
		return nil
	}
	if !united {
		return l.fail(figureAt, ChangeWithoutUnit, "a mark or word for minutes or degrees after the annual change")
	}
	west := name == 'W'
	switch {
	case sense != 0 && of != 0:
		west = (of == 'W') == (sense > 0)
		if name != 0 && (name == 'W') != west {
			return l.fail(figureAt, Contradiction, "a name of the change that agrees with increase or decrease")
		}
	case sense != 0 && name == 0:
		return l.fail(figureEnd, ChangeWithoutSide, "E or W: a variation of nought may go to either side")
	case name == 0:
		return l.fail(figureEnd, ChangeWithoutSide, "E or W, or increase or decrease, with the annual change")
	}
	r.Change, r.ChangeStep = Eastward(p.Angle), p.Step
	if west {
		r.Change = Westward(p.Angle)
	}
	return nil
}

// nextWord returns the first run of letters at or after from, and where it is.
func nextWord(s string, from int) (word string, at int) {
	for at = from; at < len(s) && !isLetter(s[at]); at++ {
	}
	end := at
	for end < len(s) && isLetter(s[end]) {
		end++
	}
	return s[at:end], at
}

// lastWord returns the run of letters at the end of a text.
func lastWord(s string) string {
	start := len(s)
	for start > 0 && isLetter(s[start-1]) {
		start--
	}
	return s[start:]
}

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

func isOneOf(word string, words ...string) bool {
	for _, w := range words {
		if strings.EqualFold(word, w) {
			return true
		}
	}
	return false
}

// filler is what stands between the parts of a legend and means nothing.
const filler = " \t\r\n\u00a0\u2009\u202f().,;:[]"

// skipFiller moves over filler; a point before a figure is a decimal point.
func skipFiller(s string, from int) int {
	for from < len(s) {
		r, width := utf8.DecodeRuneInString(s[from:])
		if !strings.ContainsRune(filler, r) && r != '–' && r != '—' || r == '.' && from+1 < len(s) && isDigit(s[from+1]) {
			break
		}
		from += width
	}
	return from
}

// trimFiller moves an end back over filler.
func trimFiller(s string, start, end int) int {
	for end > start {
		r, width := utf8.DecodeLastRuneInString(s[start:end])
		if !strings.ContainsRune(filler, r) && r != '–' && r != '—' {
			break
		}
		end -= width
	}
	return end
}
