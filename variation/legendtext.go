package variation

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"lubberline.example/angle"
)

// String returns the legend of the rose in the international form: 4°15′W 2009 (8′E). It
// prints the figures with the precision of the rose, and leaves out a change that is not
// stated. [ParseLegend] reads it back.
func (r Rose) String() string {
	b := r.appendValue(make([]byte, 0, 32))
	b = append(b, ' ')
	b = strconv.AppendInt(b, int64(r.Year), 10)
	switch perYear, stated := r.Change.PerYear(); {
	case !stated:
	case perYear == 0 && r.ChangeStep == 0:
		b = append(b, " (no annual change)"...)
	default:
		b = append(b, " ("...)
		b = appendBrief(b, perYear.Abs(), r.ChangeStep)
		b = append(b, nameOf(perYear)...)
		b = append(b, ')')
	}
	return string(b)
}

// LegendInWords returns the legend with words: 4°15′W (2009), annual decrease 8′. An increase
// has the name of the variation. A variation of zero gets the name of its change.
func (r Rose) LegendInWords() string {
	b := r.appendValue(make([]byte, 0, 64))
	b = append(b, " ("...)
	b = strconv.AppendInt(b, int64(r.Year), 10)
	b = append(b, ')')
	switch perYear, stated := r.Change.PerYear(); {
	case !stated:
	case perYear == 0 && r.ChangeStep == 0:
		b = append(b, ", no annual change"...)
	default:
		word := ", annual increase "
		if perYear == 0 {
			word = ", annual change "
		} else if name := r.Variation.Name(); name != "" && name != nameOf(perYear) {
			word = ", annual decrease "
		}
		b = appendBrief(append(b, word...), perYear.Abs(), r.ChangeStep)
	}
	return string(b)
}

// appendValue prints the variation with the precision of the rose.
func (r Rose) appendValue(b []byte) []byte {
	name := r.Variation.Name()
	if name == "" {
		perYear, _ := r.Change.PerYear()
		if name = nameOf(perYear); name == "" {
			name = "E"
		}
	}
	return append(appendFigure(b, r.Variation.Angle().Abs(), r.Step), name...)
}

// appendFigure prints a size in the unit of which the step is a decimal, a half, a quarter
// or an eighth. If there is no such unit, it prints the exact size.
func appendFigure(b []byte, size, step angle.Angle) []byte {
	for _, u := range figureUnits {
		if step <= 0 || u.unit%step != 0 {
			continue
		}
		parts := u.unit / step
		if n, ok := powerOfTen(parts); ok {
			return u.append(b, size, n)
		}
		if parts == 2 || parts == 4 || parts == 8 {
			size = size.Round(step)
			whole := size.Truncate(u.unit)
			text := strings.TrimSuffix(string(u.append(nil, whole, 0)), u.mark)
			fraction := fractions[(size-whole)/(u.unit/8)]
			if text == "0" && fraction != "" {
				text = ""
			}
			return append(append(append(b, text...), fraction...), u.mark...)
		}
	}
	b, _ = size.AppendText(b) // never fails
	return b
}

var fractions = [8]string{"", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"}

const fractionMarks = "⅛¼⅜½⅝¾⅞"

var figureUnits = [...]struct {
	unit   angle.Angle
	mark   string
	append func(b []byte, size angle.Angle, decimals int) []byte
}{
	{angle.Degree, "°", func(b []byte, size angle.Angle, n int) []byte { return fmt.Appendf(b, "%.*f", n, size) }},
	{angle.Minute, "′", func(b []byte, size angle.Angle, n int) []byte {
		if n == 0 { // as on most charts
			b, _ = size.Round(angle.Minute).AppendText(b) // never fails
			return b
		}
		return fmt.Appendf(b, "%.*v", n, size)
	}},
	{angle.Second, "″", func(b []byte, size angle.Angle, n int) []byte { return fmt.Appendf(b, "%.*d", n, size) }},
	{angle.Point, " points ", func(b []byte, size angle.Angle, n int) []byte {
		return append(strconv.AppendFloat(b, float64(size)/float64(angle.Point), 'f', n, 64), " points "...)
	}},
}

// appendBrief prints the size of an annual change. Less than a degree is printed in
// minutes, with seconds if it is given in seconds: 8′, 8′30″, 0′30″.
func appendBrief(b []byte, size, step angle.Angle) []byte {
	if step > 0 && step%angle.Degree == 0 && size != 0 {
		step = angle.Minute // 1°00′: a change of 1° alone is refused
	}
	start := len(b)
	b = appendFigure(b, size, step)
	text := b[start:]
	if rest, ok := bytes.CutPrefix(text, []byte("0°")); ok && len(rest) > 0 {
		text = rest
	}
	for text[0] == '0' { // 08′ is 8′, and 0½′ is ½′
		if next, _ := utf8.DecodeRune(text[1:]); !strings.ContainsRune("0123456789"+fractionMarks, next) {
			break
		}
		text = text[1:]
	}
	return append(b[:start], text...)
}

// powerOfTen returns the n of 10ⁿ.
func powerOfTen(x angle.Angle) (n int, ok bool) {
	for x > 1 && x%10 == 0 {
		x /= 10
		n++
	}
	return n, x == 1
}
