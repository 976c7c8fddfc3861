package swing

import (
	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/variation"
)

// smallChange is the smallest change of the variation since the rose was printed that is named as a
// cause of A.
const smallChange = angle.Degree

// ofVariation returns the causes of A in the variation: named the wrong way, without the annual
// change, or with that change applied the wrong way.
func ofVariation(found variation.Explanation) []cause {
	v, change := found.Variation, found.Change
	list := []cause{{
		warning: working.Warn(LikelyCause, "swing-variation-misnamed", "A would be near zero with the variation %s", variation.East(-v.Angle())),
		by:      2 * v.Angle(),
	}}
	if change.Abs() < smallChange {
		return list
	}
	toMinute := func(a angle.Angle) angle.EastWest { return angle.EastWestFrom(a.Round(angle.Minute)) }
	return append(list,
		cause{
			warning: working.Warn(LikelyCause, "swing-without-annual-change", "A would be near zero with the variation %v, which is without the annual change of %v since the rose was printed (check its year)", toMinute(v.Angle()-change), toMinute(change)),
			by:      change,
		},
		cause{
			warning: working.Warn(LikelyCause, "swing-annual-change-misnamed", "A would be near zero with the variation %v, which has the annual change of %v since the rose was printed applied the other way (check its name)", toMinute(v.Angle()-2*change), toMinute(change)),
			by:      2 * change,
		},
	)
}

// ofDirection returns the causes of A in the direction of a transit: magnetic but taken as true, or
// misread by tens of degrees.
func ofDirection(direction angle.True, v variation.Variation) []cause {
	list := []cause{{
		warning: working.Warn(LikelyCause, "swing-transit-by-magnetic", "A would be near zero with a transit of %v, by magnetic and not by true", angle.MagneticFrom(direction.FromNorth())),
		by:      v.Angle(),
	}}
	for tens := 10; tens <= 50; tens += 10 {
		for _, by := range []angle.Angle{angle.Angle(tens) * angle.Degree, -angle.Angle(tens) * angle.Degree} {
			list = append(list, cause{
				warning: working.Warn(LikelyCause, "swing-transit-misread", "A would be near zero with a transit of %v (%d° misread)", direction.Add(by), tens),
				by:      by,
			})
		}
	}
	return list
}
