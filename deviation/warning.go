package deviation

import (
	"lubberline.example/angle/working"
)

// The kinds of [working.Warning] of this package: what weakens an answer. Checks and swings
// also pass on those of their source of variation, such as
// [lubberline.example/variation.OldRose].
const (
	// Of an [Analysis].
	LargeDeviations working.WarningKind = "large-deviations" // above 20°: the approximate coefficients no longer hold; of a Check above 30°
	LargeConstant   working.WarningKind = "large-constant"   // A above 3°: the lubber line or the variation rather than iron

	// Of a [Swing].
	ConstantTakenAsNought working.WarningKind = "constant-taken-as-nought" // by a [DistantObject]
	BearingLeftOut        working.WarningKind = "bearing-left-out"         // it stands apart from the others
	LikelyCause           working.WarningKind = "likely-cause"             // what would bring a large A to nothing
	TrendInTime           working.WarningKind = "trend-in-time"            // the deviations change steadily in the order of the readings
	NoParallax            working.WarningKind = "no-parallax"              // none was allowed for

	// Of a card carried to another magnetic latitude: see [AnotherLatitude].
	CarriedFar working.WarningKind = "carried-far" // the dip differs by more than 10°

	// Of a [Check]; HighSun of a Swing too, and ChecksDisagree of a [CombinedCheck].
	HighSun        working.WarningKind = "high-sun"        // above 45°: any tilt spoils the bearing
	SunElsewhere   working.WarningKind = "sun-elsewhere"   // not rising or setting at the time given
	OtherHorizon   working.WarningKind = "other-horizon"   // by the time the Sun stood on the other horizon
	HighLatitude   working.WarningKind = "high-latitude"   // above 60°: amplitudes are poor
	NotADeviation  working.WarningKind = "not-a-deviation" // above 90°: something was misread or misnamed
	ChecksDisagree working.WarningKind = "checks-disagree" // one of them is wrong

	// Of the working of a [Fit].
	LackOfFit          working.WarningKind = "lack-of-fit"          // the readings show more than a curve of its order can follow
	SerialCorrelation  working.WarningKind = "serial-correlation"   // readings on neighbouring headings err alike
	ObservationLeftOut working.WarningKind = "observation-left-out" // it stands apart from the others
	SharedNotStated    working.WarningKind = "shared-not-stated"    // so the curve and a card of it have no uncertainty

	// Of an [Explanation], and of a Swing by a [SecondCompass].
	SwingsOut   working.WarningKind = "swings-out"   // a smooth table goes more than 5° beyond the rows on either side
	NotObserved working.WarningKind = "not-observed" // the heading lies in a sector, wider than 60°, that no observation of the fit is in
)
