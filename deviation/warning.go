package deviation

import (
	"lubberline.example/angle/working"
)

// The kinds of [working.Warning] of an [Explanation].
const (
	SwingsOut   working.WarningKind = "swings-out"   // a smooth table goes more than 5° beyond the rows on either side
	NotObserved working.WarningKind = "not-observed" // the heading lies in a sector of more than 60° without an observation
)
