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

// Error says what was refused, where, why, and what is accepted. Of a legend of more
// than 200 bytes it shows the beginning.
func (e *LegendError) Error() string {
	legend, more := e.Input, ""
	if len(legend) > mostQuoted {
		legend, more = strings.ToValidUTF8(legend[:mostQuoted], ""), "…" // no character in two
	}
	legend = strconv.Quote(legend) + more
	if e.Err != nil {
		return fmt.Sprintf("variation: legend %s: %s at byte %d: %v", legend, e.Kind, e.Offset, e.Err)
	}
	return fmt.Sprintf("variation: legend %s: %s at byte %d: want %s", legend, e.Kind, e.Offset, e.Want)
}

// mostQuoted is how many bytes of a legend a message shows; none is so long.
const mostQuoted = 200

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
// A change has no sign: (-8′) may mean 8′W, or a decrease. Nor is O a name: it is west
// in some languages and east in others.
//
// Degree signs and primes may be look-alikes or words (deg, min). Refused, with
// a [*LegendError]: a legend without a year or with two; a variation without
// its name; a change without a name or a direction, or without a unit; a change in
// whole degrees or in seconds alone, as 12° or 12″ for 12′; an increase or decrease of a nought that has no name; a change whose name
// contradicts its words, or that has two names or senses; words that legends do
// not use; and a full stop close before a figure that might as well be a decimal
// point, as in Var.9°W.
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
const (
	unitMarks   = "°º˚∘⁰ᵒ゜" + "'`′’‘‛ʹʼ´＇" + secondMarks
	secondMarks = "\"″”“‟ʺ˝＂〃"
)

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// value reads the variation before the year, and returns its name, 'E' or 'W', or 0 for a nought
// without a name.
func (l legend) value(r *Rose, end int) (name byte, err error) {
	start, ambiguous := skipFiller(l.text[:end], 0), false
	for start < end {
		word := wordAt(l.text[:end], start)
		if !leadingWords[strings.ToLower(word)] {
			break
		}
		start = skipFiller(l.text[:end], start+len(word))
		if start < end && l.text[start] == '.' { // Var.9°W
			start++
			ambiguous = true
		}
	}
	if err := l.foreign(start, end); err != nil {
		return 0, err
	}
	stop := trimFiller(l.text, start, end)
	for { // words between the variation and the year: in, for, year
		i := strings.LastIndexAny(l.text[start:stop], " \t\n(,")
		if i < 0 || !trailingWords[strings.ToLower(l.text[start+i+1:stop])] {
			break
		}
		stop = trimFiller(l.text, start, start+i)
	}
	if w := strings.ToLower(lastWord(l.text[start:stop])); w == "easterly" || w == "westerly" {
		stop -= len("erly")
	}
	figure := l.text[start:stop]
	if figure == "" {
		return 0, l.fail(start, BadFigure, "the variation before the year")
	}
	if ambiguous {
		// The stop of the abbreviation is plain if it can't be a decimal point,
		// as in VAR.14°45′W.
		if _, err := angle.ParsePrinted("." + figure); err == nil {
			return 0, l.fail(start-1, BadFigure, "a blank after the full stop, or a 0 before the decimal point")
		}
	}
	p, err := angle.ParsePrinted(figure)
	if err != nil {
		return 0, l.badFigure(start, stop, err)
	}
	if p.Angle.Abs() > angle.Turn/2 {
		return 0, l.fail(start, BadFigure, "a variation from 180° W to 180° E")
	}
	// Programs may leave the name out; a rose never does.
	if p.Angle != 0 && !p.Named {
		return 0, l.fail(stop, NoName, wantName)
	}
	r.Variation, r.Step = East(p.Angle), p.Step
	switch {
	case !p.Named:
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
	p = &angle.ParseError{What: p.What, Input: l.text[start:end], Offset: min(p.Offset, end-start), Kind: p.Kind, Want: p.Want}
	if p.Kind == angle.MissingName {
		return &LegendError{Input: l.text, Offset: start + p.Offset, Kind: NoName, Want: wantName, Err: p}
	}
	return &LegendError{Input: l.text, Offset: start + p.Offset, Kind: BadFigure, Want: "an angle", Err: p}
}

// A changeReading is what the text of an annual change was found to say.
type changeReading struct {
	figureAt, figureEnd int  // the figure; 0, 0 if there is none
	complete            bool // a word stands after the figure, which ends it
	united              bool // the figure has a unit
	sense               int  // +1 increasing, −1 decreasing, 0 not said
	side                byte // 'E' or 'W', 0 not said
	nothing             bool // no change
	lastWord            int  // offset of the last word that says which way
	nothingAt           int  // offset of the word that says no change
}

// change reads what follows the variation and the year; of is the variation's
// name.
func (l legend) change(r *Rose, start int, of byte) error {
	var c changeReading
	for at := skipFiller(l.text, start); at < len(l.text); at = skipFiller(l.text, at) {
		word := wordAt(l.text, at)
		if word == "" {
			width, err := l.changeMark(&c, at)
			if err != nil {
				return err
			}
			at += width
			continue
		}
		if err := l.changeWord(&c, word, at); err != nil {
			return err
		}
		if at += len(word); at+1 < len(l.text) && l.text[at] == '.' && isDigit(l.text[at+1]) {
			return l.fail(at, BadFigure, "a blank after the full stop, or a 0 before the decimal point")
		}
	}
	switch {
	case c.figureEnd == 0 && c.nothing:
		r.Change = NoChange()
		return nil
	case c.figureEnd == 0 && (c.sense != 0 || c.side != 0):
		return l.fail(c.lastWord, BadFigure, "how much it changes in a year")
	case c.figureEnd == 0:
		if first := skipFiller(l.text, start); first < len(l.text) {
			return l.fail(first, BadFigure, "how much it changes in a year")
		}
		return nil
	case c.nothing:
		return l.fail(c.nothingAt, Contradiction, "either no change or how much")
	}
	return l.setChange(r, c, of)
}

// changeMark reads one character that is not of a word: of a figure, or the
// stroke of 8′/year.
func (l legend) changeMark(c *changeReading, at int) (width int, err error) {
	mark, width := utf8.DecodeRuneInString(l.text[at:])
	if mark == '/' && at+1 < len(l.text) && isLetter(l.text[at+1]) {
		return width, nil
	}
	switch {
	case c.figureEnd == 0:
		if !strings.ContainsRune("0123456789."+fractionMarks, mark) {
			if strings.ContainsRune(signs, mark) {
				return 0, l.fail(at, UnknownWord, wantNoSign)
			}
			return 0, l.fail(at, UnknownWord, wantChange)
		}
		c.figureAt = at
	case c.complete:
		return 0, l.fail(at, BadFigure, "one annual change")
	}
	c.united = c.united || strings.ContainsRune(unitMarks, mark)
	c.figureEnd = at + width
	return width, nil
}

const wantChange = "the annual change, such as (8′E) or increasing 8′ annually"

// changeWord reads one word.
func (l legend) changeWord(c *changeReading, word string, at int) error {
	word = strings.ToLower(word)
	if unitWords[word] && c.figureEnd != 0 && !c.complete {
		c.united, c.figureEnd = true, at+len(word)
		return nil
	}
	c.complete = c.figureEnd != 0
	if sense, ok := senses[word]; ok {
		if c.sense == -sense {
			return l.fail(at, Contradiction, "either increase or decrease")
		}
		c.sense, c.lastWord = sense, at
		return nil
	}
	if side, ok := sides[word]; ok {
		if c.side != 0 && c.side != side {
			return l.fail(at, Contradiction, "either E or W")
		}
		c.side, c.lastWord = side, at
		return nil
	}
	if nothingWords[word] {
		c.nothing, c.nothingAt = true, at
		return nil
	}
	if word == "o" {
		return l.fail(at, UnknownWord, wantNoO)
	}
	if !plainWords[word] {
		return l.fail(at, UnknownWord, wantChange)
	}
	return nil
}

// setChange makes the annual change of its figure, name and sense, and the name
// of the variation.
func (l legend) setChange(r *Rose, c changeReading, of byte) error {
	text := l.text[c.figureAt:c.figureEnd]
	p, err := angle.ParsePrinted(text + " E")
	if err != nil {
		return l.badFigure(c.figureAt, c.figureEnd, err)
	}
	if p.Angle == 0 {
		if r.Change = NoChange(); c.united {
			r.ChangeStep = p.Step
		}
		return nil
	}
	if !c.united {
		return l.fail(c.figureAt, ChangeWithoutUnit, "a mark or word for minutes or degrees after the annual change")
	}
	if p.Angle >= maxChange {
		return l.fail(c.figureAt, BadFigure, "an annual change of less than 5°; charts print it in minutes, such as 12′")
	}
	switch figure, unit := soleFigure(text); {
	case p.Step == angle.Degree:
		return l.fail(c.figureAt, BadFigure, fmt.Sprintf("minutes for degrees, probably %s′; if degrees are meant, write %s°00′", figure, figure))
	case unit == seconds:
		return l.fail(c.figureAt, BadFigure, fmt.Sprintf("minutes for seconds, probably %s′; if seconds are meant, write 0′%s″", figure, figure))
	}
	west := c.side == 'W'
	switch {
	case c.sense != 0 && of != 0:
		west = (of == 'W') == (c.sense > 0)
		if c.side != 0 && (c.side == 'W') != west {
			return l.fail(c.figureAt, Contradiction, "a name of the change that agrees with increase or decrease")
		}
	case c.sense != 0 && c.side == 0:
		return l.fail(c.figureEnd, ChangeWithoutSide, "E or W: a variation of nought may go to either side")
	case c.side == 0:
		return l.fail(c.figureEnd, ChangeWithoutSide, "E or W, or increase or decrease, with the annual change")
	}
	r.Change, r.ChangeStep = Eastward(p.Angle), p.Step
	if west {
		r.Change = Westward(p.Angle)
	}
	return nil
}

// maxChange is the annual change that no chart reaches. Between 1900 and 2030, where the
// horizontal intensity is more than 6,000 nT and a compass is of use, the variation changes
// by less than 2° a year (IGRF-14).
const maxChange = 5 * angle.Degree

const seconds = '″'

// soleFigure returns the figure and the unit of an annual change that has only one figure,
// such as 12 and ″, or else "" and 0. Units other than seconds are 0.
func soleFigure(text string) (figure string, unit rune) {
	isFigure := func(r rune) bool { return strings.ContainsRune("0123456789."+fractionMarks, r) }
	end := strings.IndexFunc(text, func(r rune) bool { return !isFigure(r) })
	if end < 0 || strings.ContainsFunc(text[end:], isFigure) {
		return "", 0
	}
	mark := strings.ToLower(strings.Trim(text[end:], filler))
	switch {
	case strings.HasPrefix(mark, "sec"), strings.ContainsAny(mark, secondMarks), utf8.RuneCountInString(mark) == 2 && !isLetter(mark[0]):
		unit = seconds
	}
	return text[:end], unit
}
