package adjust

import (
	"fmt"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
)

// changedDip is the change of dip above which a card is in doubt. It is a judgement of this
// package. With B of 10°, half of it induced, 10° of dip change the deviation by about 2° in middle
// latitudes.
const changedDip = 10 * angle.Degree

// AnotherLatitude warns if a card was carried to another magnetic latitude. It compares the dip
// there with the dip where the compass was swung, and warns of a difference of more than 10°. The
// warnings have the kind [CarriedFar]. They say what B and C would be from permanent magnetism
// alone, and from vertical soft iron alone. Usually both act. [Separate] finds the parts from
// swings at two places. The coefficients are those of the swing: see [FitExact] and
// [lubberline.example/deviation.Coefficients.Exact].
//
// If the dip is about the same, there is no warning. The errors are those of
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
	warnings := []working.Warning{working.Warn(CarriedFar, "carried-far", "the dip was %s where the compass was swung and is %s here: check on east and west and on north and south, and swing the compass when you can",
		wholeDegrees(before), wholeDegrees(now)),
		working.Warn(CarriedFar, "carried-far-permanent", "if B and C come from permanent magnetism alone, B changes from %s to %s and C from %s to %s", arc(k.B), arc(p.B), arc(k.C), arc(p.C))}
	if induced, err := AllInduced(k, swung); err == nil {
		if i, err := induced.At(there); err == nil {
			warnings = append(warnings, working.Warn(CarriedFar, "carried-far-induced", "if they come from vertical soft iron alone, B changes to %s and C to %s", arc(i.B), arc(i.C)))
		}
	}
	return warnings, nil
}

// arc prints an exact coefficient, the sine of a deviation, as degrees.
func arc(x float64) string {
	return strings.Replace(fmt.Sprintf("%+.1f°", x*harmonic.Radian/float64(angle.Degree)), "-", "−", 1)
}

// wholeDegrees prints a dip, positive down.
func wholeDegrees(a angle.Angle) string {
	return strings.Replace(fmt.Sprintf("%.0f°", a.Degrees()), "-", "−", 1)
}
