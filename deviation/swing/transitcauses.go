package swing

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// smallChange is how much the variation must have changed since the rose was printed to be
// named as a cause of A.
const smallChange = angle.Degree

// ofVariation are the causes of A in the variation: named the wrong way, without the annual
// change, or with that change applied the wrong way.
func ofVariation(found variation.Explanation) []cause {
	v, change := found.Variation, found.Change
	list := []cause{otherName(v)}
	if change.Abs() < smallChange {
		return list
	}
	describe := func(what string, v angle.Angle) string {
		return fmt.Sprintf("the variation %v, %s", angle.EastWestFrom(v.Round(angle.Minute)), what)
	}
	size := angle.EastWestFrom(change.Round(angle.Minute))
	return append(list,
		cause{what: describe(fmt.Sprintf("that is without the annual change of %v since the rose was printed (see its year)", size), v.Angle()-change), by: change},
		cause{what: describe(fmt.Sprintf("that is with the annual change of %v since the rose was printed applied the other way (see its name)", size), v.Angle()-2*change), by: 2 * change},
	)
}

// ofDirection are the causes of A in the direction of a transit: by magnetic and taken as true,
// or misread by tens of degrees.
func ofDirection(direction angle.True, v variation.Variation) []cause {
	list := []cause{{
		what: fmt.Sprintf("a transit of %v, by magnetic, not by true", angle.MagneticFrom(direction.FromNorth())),
		by:   v.Angle(),
	}}
	for tens := 10; tens <= 50; tens += 10 {
		for _, by := range []angle.Angle{angle.Angle(tens) * angle.Degree, -angle.Angle(tens) * angle.Degree} {
			list = append(list, cause{what: fmt.Sprintf("a transit of %v (%d° misread)", direction.Add(by), tens), by: by})
		}
	}
	return list
}
