package adjust

import (
	"lubberline.example/angle/working"
)

// The kinds of [working.Warning] of an [Analysis] and of [AnotherLatitude].
const (
	LargeDeviations working.WarningKind = "large-deviations" // above 20°: the approximate coefficients no longer hold
	LargeConstant   working.WarningKind = "large-constant"   // A above 3°: the lubber line or the variation rather than iron
	CarriedFar      working.WarningKind = "carried-far"      // the dip differs by more than 10° from that of the swing
)
