package fix

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Warning says why a fix is weak or wrong.
type Warning = working.Warning

// A WarningKind says, in a word that programs can compare, what makes a fix weak or
// wrong.
type WarningKind = working.WarningKind

// The kinds of this package: of a [Fix], and the last of a [DangerAngle].
const (
	LinesDisagree      WarningKind = "lines-disagree"      // more than chance makes them: do not use the position
	LineSuspected      WarningKind = "line-suspected"      // without it the others agree
	MeetsElsewhere     WarningKind = "meets-elsewhere"     // the lines fit another place as well
	NarrowCut          WarningKind = "narrow-cut"          // they cross under 30°
	EllipseTooSmall    WarningKind = "ellipse-too-small"   // nearly parallel lines: the position may be farther off than the ellipse says
	FarFromReckoned    WarningKind = "far-from-reckoned"   // farther from the reckoned position than the uncertainties allow
	LargeCockedHat     WarningKind = "large-cocked-hat"    // lines of unstated uncertainty miss each other by much
	TimesDiffer        WarningKind = "times-differ"        // lines of different times were not transferred
	TransitReversed    WarningKind = "transit-reversed"    // the front mark is farther off than the rear one
	UncertaintyUnknown WarningKind = "uncertainty-unknown" // a part was not stated, so that the accuracy is unknown
	UncertaintyAssumed WarningKind = "uncertainty-assumed" // usual uncertainties were taken for parts that were not stated
	LowerTide          WarningKind = "lower-tide"          // it takes the vessel to the unsafe side
)

// narrow is the cut under which a fix is weak along the lines (common practice).
const narrow = 30 * angle.Degree

// Warnings returns what makes the fix weak or wrong: lines that disagree and those that
// may be to blame ([Fix.Suspicions]), other places that they fit ([Fix.Alternatives]), a
// narrow cut, an ellipse that is too small, a fix far from the reckoned position, a large cocked hat, lines of different
// times, and a transit whose marks were exchanged. It does not warn of zero degrees of
// freedom, with which a wrong line would not show.
func (f Fix) Warnings() []Warning {
	var out []Warning
	add := func(kind WarningKind, format string, args ...any) {
		out = append(out, Warning{Kind: kind, Message: fmt.Sprintf(format, args...)})
	}
	if f.disagrees() {
		add(LinesDisagree, "the lines do not agree: one of them at least is wrong; do not use this position")
	}
	if suspicions := f.Suspicions(); suspicions != nil {
		names := namesOf(f.lines)
		for _, s := range suspicions {
			add(LineSuspected, "look again at %s%s", names.of(s.Line), s.without())
		}
	}
	why := "and nothing chose between them"
	if f.solver.options.Near != nil || f.solver.options.Prior != nil {
		why = "and the reckoned position chose between them, if it was right"
	}
	for _, other := range f.alternatives {
		add(MeetsElsewhere, "the lines also meet at %v, %s", other, why)
	}
	if cut, ok := f.BestCut(); ok && cut.Angle < narrow {
		add(NarrowCut, "the lines cut at %s only: the fix is weak along them", cut.Angle.AppendDegrees(nil, 0))
	}
	if r, bent := f.bent(); bent {
		farther := ""
		if r.farther {
			farther = "more than "
		}
		add(EllipseTooSmall, "the lines are nearly parallel for their uncertainty, so that the ellipse is too small: toward %s the position may be off by %s%v", r.toward.AppendDegrees(nil, 0), farther, r.distance)
	}
	return append(out, f.doubts()...)
}
