package adjust

import (
	"lubberline.example/angle/working"
)

// The kinds of [working.Warning] of an [Analysis] and of [AnotherLatitude].
const (
	LargeDeviations working.WarningKind = "large-deviations" // above 20°: use exact coefficients
	LargeConstant   working.WarningKind = "large-constant"   // A above 3°: check the lubber line and the variation first
	CarriedFar      working.WarningKind = "carried-far"      // the dip differs by more than 10° from that of the swing
)
