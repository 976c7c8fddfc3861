package check

import (
	"lubberline.example/angle/working"
)

// The kinds of [working.Warning] of a [Check], and ChecksDisagree of a [Combined]. A check
// by a body may have [lubberline.example/deviation/swing.HighBody] too. Checks also pass on those of their source of variation,
// such as [lubberline.example/variation.OldRose].
const (
	SunElsewhere   working.WarningKind = "sun-elsewhere"   // not rising or setting at the time given
	InDaylight     working.WarningKind = "in-daylight"     // a star by day: check the time and the body
	OtherHorizon   working.WarningKind = "other-horizon"   // by the time, the Sun was on the other horizon
	HighLatitude   working.WarningKind = "high-latitude"   // above 60°: amplitudes are poor
	LargeDeviation working.WarningKind = "large-deviation" // above 30°: unusual, something may have been misread
	NotADeviation  working.WarningKind = "not-a-deviation" // above 90°: something was misread or misnamed
	ChecksDisagree working.WarningKind = "checks-disagree" // one of them is wrong
)
