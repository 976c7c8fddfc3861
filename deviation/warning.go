package deviation

import (
	"fmt"

	"lubberline.example/angle/working"
)

// A Warning says why an answer is weak. The answer still stands.
type Warning = working.Warning

// A WarningKind says, in a word that programs can compare, what weakens an answer.
// Beside those of this package, checks and swings hand on those of their source of
// variation, such as [lubberline.example/variation.OldRose].
type WarningKind = working.WarningKind

// What weakens an answer.
const (
	// Of an [Analysis].
	LargeDeviations WarningKind = "large-deviations" // above 20°: the approximate coefficients no longer hold; of a Check above 30°
	LargeConstant   WarningKind = "large-constant"   // A above 3°: the lubber line or the variation rather than iron

	// Of a [Swing].
	ConstantTakenAsNought WarningKind = "constant-taken-as-nought" // by a [DistantObject]
	BearingLeftOut        WarningKind = "bearing-left-out"         // it stands apart from the others
	NoParallax            WarningKind = "no-parallax"              // none was allowed for

	// Of a card carried to another magnetic latitude: see [AnotherLatitude].
	CarriedFar WarningKind = "carried-far" // the dip differs by more than 10°

	// Of a [Check]; HighSun of a Swing too, and ChecksDisagree of a [CombinedCheck].
	HighSun        WarningKind = "high-sun"        // above 45°: any tilt spoils the bearing
	SunElsewhere   WarningKind = "sun-elsewhere"   // not rising or setting at the time given
	OtherHorizon   WarningKind = "other-horizon"   // by the time the Sun stood on the other horizon
	HighLatitude   WarningKind = "high-latitude"   // above 60°: amplitudes are poor
	NotADeviation  WarningKind = "not-a-deviation" // above 90°: something was misread or misnamed
	ChecksDisagree WarningKind = "checks-disagree" // one of them is wrong

	// Of the working of a [Fit].
	LackOfFit          WarningKind = "lack-of-fit"          // the readings show more than a curve of its order can follow
	SerialCorrelation  WarningKind = "serial-correlation"   // readings on neighbouring headings err alike
	ObservationLeftOut WarningKind = "observation-left-out" // it stands apart from the others
	SharedNotStated    WarningKind = "shared-not-stated"    // so the curve and a card of it have no uncertainty

	// Of an [Explanation], and of a Swing by a [SecondCompass].
	SwingsOut   WarningKind = "swings-out"   // a smooth table goes more than 5° beyond the rows on either side
	NotObserved WarningKind = "not-observed" // the heading lies in a sector, wider than 60°, that no observation of the fit is in
)

func warn(kind WarningKind, format string, args ...any) Warning {
	return Warning{Kind: kind, Message: fmt.Sprintf(format, args...)}
}
