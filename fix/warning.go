package fix

import (
	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// The kinds of [working.Warning] of a [Fix].
const (
	LinesDisagree      working.WarningKind = "lines-disagree"      // by more than chance: do not use the position
	LineSuspected      working.WarningKind = "line-suspected"      // without it the others agree
	MeetsElsewhere     working.WarningKind = "meets-elsewhere"     // the lines fit another place as well
	NarrowCut          working.WarningKind = "narrow-cut"          // they cross under 30°
	EllipseTooSmall    working.WarningKind = "ellipse-too-small"   // nearly parallel lines: the position may be farther off than the ellipse says
	FarFromReckoned    working.WarningKind = "far-from-reckoned"   // farther from the reckoned position than the uncertainties allow
	LargeCockedHat     working.WarningKind = "large-cocked-hat"    // lines of unstated uncertainty miss each other widely
	TimesDiffer        working.WarningKind = "times-differ"        // lines of different times were not transferred
	TransitReversed    working.WarningKind = "transit-reversed"    // the front mark is farther off than the rear one
	UncertaintyUnknown working.WarningKind = "uncertainty-unknown" // a part was not stated, so that the accuracy is unknown
	UncertaintyAssumed working.WarningKind = "uncertainty-assumed" // usual uncertainties were taken for parts that were not stated
)

// narrow is the cut under which a fix is weak along the lines (common practice).
const narrow = 30 * angle.Degree

// Warnings returns what makes the fix weak or wrong; [LinesDisagree] and the kinds after it say
// what. It does not warn of zero degrees of freedom, although a wrong line then does not show.
func (f Fix) Warnings() []working.Warning {
	var out []working.Warning
	if f.disagrees() {
		out = append(out, working.Warn(LinesDisagree, "lines-disagree", "the lines do not agree: at least one of them is wrong; do not use this position"))
	}
	if suspicions := f.Suspicions(); suspicions != nil {
		names := namesOf(f.lines)
		for _, s := range suspicions {
			out = append(out, s.warning(names))
		}
	}
	for _, other := range f.alternatives {
		if f.solver.chosen() {
			out = append(out, working.Warn(MeetsElsewhere, "meets-elsewhere-reckoned", "the lines also meet at %v, and the reckoned position chose between them, if it was right", other))
		} else {
			out = append(out, working.Warn(MeetsElsewhere, "meets-elsewhere", "the lines also meet at %v, and nothing chose between them", other))
		}
	}
	if a, b, cut := f.BestCut(); a != b && cut < narrow {
		out = append(out, working.Warn(NarrowCut, "narrow-cut", "the lines cut at only %.0f: the fix is weak along them", cut))
	}
	if r, bent := f.bent(); bent {
		if r.farther {
			out = append(out, working.Warn(EllipseTooSmall, "ellipse-too-small-far", "the lines are nearly parallel for their uncertainty, so that the ellipse is too small: toward %.0f the error may reach more than %v", r.toward, r.distance))
		} else {
			out = append(out, working.Warn(EllipseTooSmall, "ellipse-too-small", "the lines are nearly parallel for their uncertainty, so that the ellipse is too small: toward %.0f the error may reach %v", r.toward, r.distance))
		}
	}
	return append(out, f.doubts()...)
}
