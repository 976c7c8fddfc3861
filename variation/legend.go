package variation

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"lubberline.example/angle"
)

// ParseLegend reads what charts print at a compass rose: the variation, the year and the
// annual change, in the international form or in words:
//
//	4°15′W 2009 (8′E)
//	VAR 14°45'W (1985) ANNUAL INCREASE 8'
//	Magnetic Variation 8°40′E (1979) increasing about 2′ annually
//	Variation 9° West in 1914. Increasing 6′ per year
//	3°50′W 2014 (no annual change)
//
// In brackets the change has its own name: (8′E) moves a westerly variation toward east. In
// words an increase has the name of the variation, and a decrease the other name. A legend
// without a change is read as not stating it. Degree signs and primes may be look-alikes
// or words (deg, min).
//
// For any other legend it returns an [*Error]:
//
//   - A legend needs one year, and a variation with E or W. O does not do: it is west in some
//     languages and east in others. [ParseLegendIn] names the language.
//   - A change needs a unit, and a name or a direction. It has no sign: (-8′) may mean 8′W,
//     or a decrease.
//   - A change in whole degrees, or in seconds alone, such as 12° or 12″, is probably 12′.
//   - The name of a change must agree with its words. If the variation is zero without a
//     name, the change needs a name.
//   - Words must be of the kind that legends use.
//   - A full stop must not touch a figure if it might be a decimal point, as in Var.9°W.
func ParseLegend(text string) (Rose, error) {
	l := legend{text: text, source: text}
	return l.parse()
}

// MustParseLegend is [ParseLegend] for legends written in a program. It panics on an error.
func MustParseLegend(text string) Rose { return angle.Must(ParseLegend(text)) }

// A legend is the text of one.
type legend struct {
	text   string // in English
	source string // as given
	at     []int  // where in source each byte of text comes from; nil if they are the same
}

// origin returns where in the source an offset of the text comes from.
func (l *legend) origin(at int) int {
	if l.at == nil {
		return at
	}
	return l.at[at]
}

// fail returns the error of a legend at an offset.
func (l *legend) fail(at int, kind angle.ErrorKind, reason string) error {
	return &Error{Kind: kind, Input: l.source, Offset: l.origin(at), Reason: reason}
}

// stray returns the error of a word or a sign at an offset that no legend has there.
func (l *legend) stray(at int, what, accepted string) error {
	return l.fail(at, angle.UnknownWord, fmt.Sprintf("%.40q %s; %s", l.near(at), what, accepted))
}

// near returns the word at an offset, or the one character there.
func (l *legend) near(at int) string {
	width := len(wordAt(l.text, at))
	if width == 0 {
		_, width = utf8.DecodeRuneInString(l.text[at:])
	}
	return l.source[l.origin(at):l.origin(at+width)]
}

// parse reads the whole legend.
func (l *legend) parse() (Rose, error) {
	yearAt := l.year(0)
	if yearAt < 0 {
		return Rose{}, l.fail(len(l.text), NoYear, "no year; write its four figures after the variation, such as 4°15′W 2009")
	}
	if again := l.year(yearAt + 4); again >= 0 {
		return Rose{}, l.fail(again, TwoYears, "two years; give the year of the rose only")
	}
	year, err := strconv.Atoi(l.text[yearAt : yearAt+4])
	if err != nil || year < firstYear || year > lastYear {
		return Rose{}, l.fail(yearAt, NoYear, fmt.Sprintf("the year must be from %d to %d", firstYear, lastYear))
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

// year finds four figures that stand alone, without a figure, a point or a mark of a unit
// next to them. It returns their offset, or -1.
func (l *legend) year(from int) int {
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

// unitMarks are the signs of degrees, minutes and seconds and their look-alikes, as package
// angle reads them.
const (
	unitMarks   = "°º˚∘⁰ᵒ゜" + "'`′’‘‛ʹʼ´＇" + secondMarks
	secondMarks = "\"″”“‟ʺ˝＂〃"
)

// isDigit reports whether a character is a digit of ASCII.
func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// value reads the variation before the year. It returns the name, 'E' or 'W', or 0 for a
// zero without a name.
func (l *legend) value(r *Rose, end int) (name byte, err error) {
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
		return 0, l.fail(start, BadFigure, "no variation before the year; write it first, such as 4°15′W 2009")
	}
	if ambiguous {
		// The full stop of the abbreviation is clear if it cannot be a decimal
		// point, as in VAR.14°45′W.
		if _, err := angle.ParsePrinted("." + figure); err == nil {
			return 0, l.fail(start-1, BadFigure, wantBlank)
		}
	}
	p, err := angle.ParsePrinted(figure)
	if err != nil {
		return 0, l.badFigure(start, stop, err)
	}
	if p.Angle.Abs() > angle.Turn/2 {
		return 0, l.fail(start, BadFigure, "the variation must be from 180° W to 180° E")
	}
	// A program may leave out the name; a rose always has it.
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

const (
	wantName  = "the variation has no name; write E or W after it, such as 4°15′W"
	wantBlank = "a full stop touches a figure; write a blank after the full stop, or 0 before a decimal point"
)

// badFigure makes the error of the figure from start to end one of the legend.
func (l *legend) badFigure(start, end int, err error) error {
	p, ok := errors.AsType[*angle.ParseError](err)
	if !ok { // unreachable: the parsers of package angle return no other
		return err
	}
	at := l.origin(start + min(p.Offset, end-start))
	start, end = l.origin(start), l.origin(end)
	p = &angle.ParseError{What: p.What, Input: l.source[start:end], Offset: at - start, Kind: p.Kind, Want: p.Want}
	if p.Kind == angle.MissingName {
		return &Error{Kind: NoName, Input: l.source, Offset: at, Reason: wantName, Err: p}
	}
	return &Error{Kind: BadFigure, Input: l.source, Offset: at, Reason: p.Error(), Err: p}
}

// A changeReading is what the text of an annual change says.
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

// change reads what follows the variation and the year. The argument of is the name of the
// variation.
func (l *legend) change(r *Rose, start int, of byte) error {
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
			return l.fail(at, BadFigure, wantBlank)
		}
	}
	switch {
	case c.figureEnd == 0 && c.nothing:
		r.Change = NoChange()
		return nil
	case c.figureEnd == 0 && (c.sense != 0 || c.side != 0):
		return l.fail(c.lastWord, BadFigure, "no figure of the annual change; write it, such as (8′E)")
	case c.figureEnd == 0:
		if first := skipFiller(l.text, start); first < len(l.text) {
			return l.fail(first, BadFigure, "no figure of the annual change; write it, such as (8′E)")
		}
		return nil
	case c.nothing:
		return l.fail(c.nothingAt, Contradiction, "it says both that there is no change and how much")
	}
	return l.setChange(r, c, of)
}

// changeMark reads one character that belongs to no word: one of a figure, or the stroke of
// 8′/year.
func (l *legend) changeMark(c *changeReading, at int) (width int, err error) {
	mark, width := utf8.DecodeRuneInString(l.text[at:])
	if mark == '/' && at+1 < len(l.text) && isLetter(l.text[at+1]) {
		return width, nil
	}
	switch {
	case c.figureEnd == 0:
		if !strings.ContainsRune("0123456789."+fractionMarks, mark) {
			if strings.ContainsRune(signs, mark) {
				return 0, l.stray(at, "may mean W, or a decrease", "write E or W, or increase or decrease")
			}
			return 0, l.stray(at, notChange, wantChange)
		}
		c.figureAt = at
	case c.complete:
		return 0, l.fail(at, BadFigure, "two annual changes; give one")
	}
	c.united = c.united || strings.ContainsRune(unitMarks, mark)
	c.figureEnd = at + width
	return width, nil
}

const (
	notChange  = "is not part of an annual change"
	wantChange = "write it as (8′E), or as increasing 8′ annually"
)

// changeWord reads one word.
func (l *legend) changeWord(c *changeReading, word string, at int) error {
	word = strings.ToLower(word)
	if unitWords[word] && c.figureEnd != 0 && !c.complete {
		c.united, c.figureEnd = true, at+len(word)
		return nil
	}
	c.complete = c.figureEnd != 0
	if sense, ok := senses[word]; ok {
		if c.sense == -sense {
			return l.fail(at, Contradiction, "it says both increase and decrease")
		}
		c.sense, c.lastWord = sense, at
		return nil
	}
	if side, ok := sides[word]; ok {
		if c.side != 0 && c.side != side {
			return l.fail(at, Contradiction, "the annual change has both names, E and W")
		}
		c.side, c.lastWord = side, at
		return nil
	}
	if nothingWords[word] {
		c.nothing, c.nothingAt = true, at
		return nil
	}
	if word == "o" {
		return l.stray(at, isO, wantEW)
	}
	if !plainWords[word] {
		return l.stray(at, notChange, wantChange)
	}
	return nil
}

// setChange sets the annual change from its figure, name and sense and from the name of the
// variation.
func (l *legend) setChange(r *Rose, c changeReading, of byte) error {
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
		return l.fail(c.figureAt, ChangeWithoutUnit, "the annual change has no unit; write it as (8′E)")
	}
	if p.Angle >= maxChange {
		return l.fail(c.figureAt, BadFigure, "an annual change must be less than 5°; charts print it in minutes, such as 12′")
	}
	if p.Step == angle.Degree {
		figure, _ := soleFigure(text)
		return l.fail(c.figureAt, BadFigure, fmt.Sprintf("an annual change of %s° is probably %s′; if degrees are meant, write %s°00′", figure, figure, figure))
	}
	if p.Step < angle.Minute { // or it has no seconds
		if figure, unit := soleFigure(text); unit == seconds {
			return l.fail(c.figureAt, BadFigure, fmt.Sprintf("an annual change of %s″ is probably %s′; if seconds are meant, write 0′%s″", figure, figure, figure))
		}
	}
	west := c.side == 'W'
	switch {
	case c.sense != 0 && of != 0:
		west = (of == 'W') == (c.sense > 0)
		if c.side != 0 && (c.side == 'W') != west {
			return l.fail(c.figureAt, Contradiction, "the name of the change contradicts increase or decrease")
		}
	case c.sense != 0 && c.side == 0:
		return l.fail(c.figureEnd, ChangeWithoutSide, "a variation of zero may change to either side; write E or W with the annual change")
	case c.side == 0:
		return l.fail(c.figureEnd, ChangeWithoutSide, "the annual change has no name; write it as (8′E), or as increasing 8′ annually")
	}
	r.Change, r.ChangeStep = Eastward(p.Angle), p.Step
	if west {
		r.Change = Westward(p.Angle)
	}
	return nil
}

// maxChange is more than any annual change of a chart. Between 1900 and 2030, where the
// horizontal intensity is more than 6,000 nT and a compass is of use, the variation changes
// by less than 2° a year (IGRF-14).
const maxChange = 5 * angle.Degree

const seconds = '″'

// soleFigure returns the figure and the unit of an annual change that has one figure, such as
// 12 and ″. It returns "" and 0 for several figures, and 0 for a unit other than seconds.
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
