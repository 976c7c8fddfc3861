package variation

import (
	"strconv"

	"lubberline.example/angle"
)

// Legend returns the rose in the international form: 4°15′W 2009 (8′E). The
// figures are printed as finely as the rose gives them. A change not stated is
// left out.
func (r Rose) Legend() string {
	b := r.appendValue(nil)
	b = append(b, ' ')
	b = strconv.AppendInt(b, int64(r.Year), 10)
	switch perYear, stated := r.Change.PerYear(); {
	case !stated:
	case perYear == 0:
		b = append(b, " (no annual change)"...)
	default:
		b = append(b, " ("...)
		b = appendChange(b, perYear.Abs(), r.ChangeStep)
		b = append(b, nameOf(perYear)...)
		b = append(b, ')')
	}
	return string(b)
}

// LegendInWords returns the rose in the form with words: 4°15′W (2009), annual
// decrease 8′. An increase is of the name that the variation has; if the
// variation is nought it is given the name of its change.
func (r Rose) LegendInWords() string {
	b := r.appendValue(nil)
	b = append(b, " ("...)
	b = strconv.AppendInt(b, int64(r.Year), 10)
	b = append(b, ')')
	switch perYear, stated := r.Change.PerYear(); {
	case !stated:
	case perYear == 0:
		b = append(b, ", no annual change"...)
	default:
		word := ", annual increase "
		if name := r.Variation.Name(); name != "" && name != nameOf(perYear) {
			word = ", annual decrease "
		}
		b = appendChange(append(b, word...), perYear.Abs(), r.ChangeStep)
	}
	return string(b)
}

// appendValue prints the variation as finely as the rose gives it.
func (r Rose) appendValue(b []byte) []byte {
	east := r.Variation.Angle()
	name := r.Variation.Name()
	if name == "" {
		perYear, _ := r.Change.PerYear()
		if name = nameOf(perYear); name == "" {
			name = "E"
		}
	}
	size := east.Abs()
	switch step := r.Step; {
	case step == angle.Degree/2 && size%step == 0, step == angle.Degree/4 && size%step == 0:
		b = strconv.AppendInt(b, int64(size/angle.Degree), 10)
		b = append(b, [...]string{"", "¼", "½", "¾"}[size%angle.Degree/(angle.Degree/4)]...)
		b = append(b, "°"...)
	case step >= angle.Minute && angle.Degree%step == 0 && isPowerOfTen(angle.Degree/step):
		b = size.AppendDegrees(b, decimals(angle.Degree, step))
	case step > 0 && step <= angle.Second && angle.Second%step == 0:
		b = size.AppendSeconds(b, decimals(angle.Second, step))
	case step == 0:
		b, _ = size.AppendText(b) // never fails
	default:
		b = size.AppendMinutes(b, decimals(angle.Minute, step))
	}
	return append(b, name...)
}

func isPowerOfTen(n angle.Angle) bool {
	for n > 1 && n%10 == 0 {
		n /= 10
	}
	return n == 1
}

// String returns the rose in the international form; see [Rose.Legend].
func (r Rose) String() string { return r.Legend() }
