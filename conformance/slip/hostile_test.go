package slip_test

import (
	"errors"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
)

// An answer that is not a figure of the problem's form is refused with a short typed error,
// even if the answer is long.
func TestHostileAnswers(t *testing.T) {
	texts := []string{"", "\x00", "\x001", "1\x002", "\xff", "\xff\xfe1\x00", "\ufeff1", "NaN", "Inf", "+infinity", "-1e308", "1e309", "0x1p3", "0x1p3 M", "0x_1′E", "1_000", "٤"}
	for _, unit := range []string{"\x00", "x", "T", "′", "M", " M", "N "} {
		texts = append(texts, strings.Repeat(unit, 1<<20))
	}
	for _, form := range []slip.Form{slip.Direction, slip.EastWest, slip.NorthSouth, slip.Miles, slip.MinutesEastWest, slip.Knots, slip.Angle, slip.Clock, slip.Position, slip.CourseAndDistance, slip.CourseAndSpeed} {
		p := slip.Problem{Form: form, Rounding: 1}
		for _, text := range texts {
			x, err := p.Read(text)
			_, parse := errors.AsType[*angle.ParseError](err)
			if !parse || len(err.Error()) > 700 {
				t.Errorf("form %s, %.20q: %v, %.300v", form, text, x, err)
			}
		}
	}
}
