package swing

import (
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/sunsight"
)

// The kinds of [working.Warning] of a [Swing] and of a [Fit]. A swing also passes on those of
// its source of variation, such as [lubberline.example/variation.OldRose], and those of a
// second compass.
const (
	// Of a [Swing].
	ConstantTakenAsZero     working.WarningKind = "constant-taken-as-zero"     // by a [DistantObject]
	BearingCompassNotStated working.WarningKind = "bearing-compass-not-stated" // by which compass the bearings are
	BearingLeftOut          working.WarningKind = "bearing-left-out"           // it does not agree with the others
	LikelyCause             working.WarningKind = "likely-cause"               // what would bring a large A to zero
	TrendInTime             working.WarningKind = "trend-in-time"              // the deviations change steadily in the order of the readings
	NoParallax              working.WarningKind = "no-parallax"                // none was allowed for
	HighBody                                    = sunsight.HighBody            // above 45°: any tilt spoils the bearing

	// Of the working of a [Fit].
	LackOfFit          working.WarningKind = "lack-of-fit"          // the readings show more than a curve of its order can follow
	SerialCorrelation  working.WarningKind = "serial-correlation"   // errors of neighbouring readings are correlated
	ObservationLeftOut working.WarningKind = "observation-left-out" // it does not agree with the others
	SharedNotStated    working.WarningKind = "shared-not-stated"    // so the curve and a card of it have no uncertainty
)
