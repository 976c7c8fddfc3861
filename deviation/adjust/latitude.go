package adjust

import (
	"fmt"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/say"
)

// changedDip is by how much the dip changes before a card is doubted for it. A judgement of
// this package: with B of 10° and half of it induced, 10° of dip in middle latitudes is some
// 2° of deviation.
const changedDip = 10 * angle.Degree

// AnotherLatitude warns that a card was carried to another magnetic latitude, if the dip
// there differs by more than 10° from that of the place where the compass was swung. The
// warning, of kind [CarriedFar], says what B and C would be there if all of them came of
// permanent magnetism, and if all came of vertical soft iron. The truth may be either, or
// of both; [Separate] tells them apart by swings at two places. The coefficients are those
// of the swing: see [FitExact] and [lubberline.example/deviation.Coefficients.Exact].
//
// It returns no warning where the dip is about the same. The errors are those of
// [AllPermanent] and [Forces.At].
func AnotherLatitude(k deviation.ExactCoefficients, swung, there EarthField) ([]working.Warning, error) {
	permanent, err := AllPermanent(k, swung)
	if err != nil {
		return nil, err
	}
	p, err := permanent.At(there)
	if err != nil {
		return nil, err
	}
	before, err := swung.I()
	if err != nil {
		return nil, &FieldError{fmt.Sprintf("no inclination: %v", err), err}
	}
	now, err := there.I()
	if err != nil {
		return nil, &FieldError{fmt.Sprintf("no inclination: %v", err), err}
	}
	if (now - before).Abs() <= changedDip {
		return nil, nil
	}
	text := fmt.Sprintf("the dip was %s where the compass was swung and is %s here: by permanent magnetism alone B goes from %s to %s and C from %s to %s",
		wholeDegrees(before), wholeDegrees(now), arc(k.B), arc(p.B), arc(k.C), arc(p.C))
	if induced, err := AllInduced(k, swung); err == nil {
		if i, err := induced.At(there); err == nil {
			text += fmt.Sprintf("; by vertical soft iron alone B goes to %s and C to %s", arc(i.B), arc(i.C))
		}
	}
	return []working.Warning{say.Warn(CarriedFar, "%s: check on east and west and on north and south, and swing the compass when you can", text)}, nil
}

// arc prints an exact coefficient, the sine of a deviation, as degrees.
func arc(x float64) string {
	return strings.Replace(fmt.Sprintf("%+.1f°", x*harmonic.Radian/float64(angle.Degree)), "-", "−", 1)
}

// wholeDegrees prints a dip, positive down.
func wholeDegrees(a angle.Angle) string {
	return strings.Replace(fmt.Sprintf("%.0f°", a.Degrees()), "-", "−", 1)
}
