package swing

import (
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/sunsight"
)

// The kinds of [working.Warning] of a [Swing] and of a [Fit]. A swing also passes on the warnings
// of its source of variation, such as [lubberline.example/variation.OldRose], and of a second
// compass.
const (
	// Of a [Swing].
	ConstantTakenAsZero     working.WarningKind = "constant-taken-as-zero"     // by a [DistantObject]
	BearingCompassNotStated working.WarningKind = "bearing-compass-not-stated" // by which compass the bearings are
	BearingLeftOut          working.WarningKind = "bearing-left-out"           // it does not agree with the others
	LikelyCause             working.WarningKind = "likely-cause"               // a fault that would explain a large A
	TrendInTime             working.WarningKind = "trend-in-time"              // the deviations change steadily in the order of the readings
	NoParallax              working.WarningKind = "no-parallax"                // the bearings are not corrected for parallax
	HighBody                                    = sunsight.HighBody            // above 45°: any tilt spoils the bearing

	// Of the working of a [Fit].
	LackOfFit          working.WarningKind = "lack-of-fit"          // the readings show more than a curve of its order can follow
	SerialCorrelation  working.WarningKind = "serial-correlation"   // errors of neighbouring readings are correlated
	ObservationLeftOut working.WarningKind = "observation-left-out" // it does not agree with the others
	SharedNotStated    working.WarningKind = "shared-not-stated"    // so the curve and a card of it have no uncertainty
)
