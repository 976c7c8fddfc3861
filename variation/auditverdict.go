package variation

import (
	"fmt"
	"strings"

	"lubberline.example/angle"
)

// A Verdict says what an audit found.
type Verdict string

// The verdicts on a rose, the gravest first.
const (
	// LikelyWrongYear: the rose's year is after the date of the audit, and the rose does
	// not agree in its own year, as far as the source can tell. The year is misread.
	LikelyWrongYear Verdict = "likely-wrong-year"

	// LikelyWrongName: the variation disagrees. With E for W, or W for E, it would agree,
	// with at most half the difference.
	LikelyWrongName Verdict = "likely-wrong-name"

	// LikelyMisplaced: the variation disagrees in the rose's own year, or by more than the
	// field can have changed since, and the other name does not agree. The rose belongs to
	// another place, or a figure is misread, or there is a local anomaly.
	LikelyMisplaced Verdict = "likely-misplaced-or-misread"

	// ChangeReversed: the annual change has the wrong name. In the rose's own year the
	// variation changed the other way.
	ChangeReversed Verdict = "annual-change-reversed"

	// Stale: brought to the date, the rose disagrees, by at most what the field can have
	// changed.
	Stale Verdict = "stale"

	// CannotBeJudged: the source has no answer for the date, or is too uncertain there, or
	// the variation is too small to tell its name.
	CannotBeJudged Verdict = "cannot-be-judged"

	// ChangeNoLongerHolds: the rose still agrees, but its annual change differs from that
	// at the date.
	ChangeNoLongerHolds Verdict = "annual-change-no-longer-holds"

	// Agrees: value and annual change agree within their uncertainties.
	Agrees Verdict = "agrees"
)

// words returns the verdict as printed.
func (v Verdict) words() string { return strings.ReplaceAll(string(v), "-", " ") }

// Limits of an audit. TestAuditOfSimulatedRoses measures their effect.
const (
	// allowedChange is the largest difference of the annual changes that is accepted: 3′ a
	// year is half a degree in ten years. It is a figure chosen here.
	allowedChange = 3 * angle.Minute

	// minReversed is the smallest annual change that can be reversed: both changes, of
	// opposite names, must be as large. Near zero a sound forecast may have either name.
	minReversed = 5 * angle.Minute / 2

	// misreadChange is the largest difference of the annual change from that of the rose's
	// own year. Beyond it the figure is misread.
	misreadChange = 8 * angle.Minute

	// judgedWithin is the largest uncertainty of a source, twice the standard one, with
	// which a rose can be found to agree.
	judgedWithin = 48 * angle.Minute
)

// far reports whether rose and source differ by more than Allowed, or by more than 1.5 times
// that if the source is too uncertain to judge.
func (c Comparison) far() bool {
	if c.Err != nil {
		return false
	}
	allowed := c.Allowed
	if !c.judges() {
		allowed += allowed / 2
	}
	return c.Difference.Abs() > allowed
}

// judges reports whether the source is certain enough for its agreement to mean something. A
// source that states no uncertainty is, since one is assumed.
func (c Comparison) judges() bool {
	known, stated := c.Source.Uncertainty().Sigma()
	return c.Err == nil && (!stated || 2*known <= judgedWithin)
}

// renamed reports whether the rose with the other name agrees within a limit, and with at
// most half the difference.
func (a Audit) renamed(c Comparison, within angle.Angle) bool {
	d := (c.Difference - 2*a.Rose.Variation.Angle()).NormalizedSigned().Abs()
	return d <= within && 2*d <= c.Difference.Abs()
}

// nameKnown reports whether the source can tell which name of the variation is right.
func (a Audit) nameKnown() bool {
	c := a.Then
	if c.Err != nil {
		c = a.Now
	}
	v := a.Rose.Variation.Angle()
	return v == 0 || v.Abs() == angle.Turn/2 || (c.Difference-2*v).NormalizedSigned().Abs() > c.Allowed
}

// future reports whether the rose's year is after the date.
func (a Audit) future() bool { return a.Rose.Year > a.Now.Date.UTC().Year() }

// changeMisread reports whether the annual change cannot be that of the rose's year.
func (a Audit) changeMisread() bool {
	change, stated := a.change()
	return stated && a.FirstChange != nil && (change-*a.FirstChange).Abs() > misreadChange
}

// changeReversed reports whether the annual change has the wrong name.
func (a Audit) changeReversed() bool {
	rose, stated := a.change()
	if !stated || a.FirstChange == nil {
		return false
	}
	source := *a.FirstChange
	return (rose < 0) != (source < 0) && min(rose.Abs(), source.Abs()) >= minReversed
}

// beyondAging reports whether the rose differs by more than the field can have changed.
func (a Audit) beyondAging() bool {
	return a.Now.Err == nil && a.Now.Difference.Abs() > a.MaxDrift+a.Now.Allowed
}

func (a Audit) verdict() Verdict {
	then, now := a.Then, a.Now
	change, stated := a.change()
	switch {
	case a.future() && (then.Err != nil || then.far()):
		return LikelyWrongYear
	case then.far():
		if a.renamed(then, then.Allowed) {
			return LikelyWrongName
		}
		return LikelyMisplaced
	case then.Err != nil && a.beyondAging():
		if a.renamed(now, a.MaxDrift+now.Allowed) {
			return LikelyWrongName
		}
		return LikelyMisplaced
	case a.changeReversed():
		return ChangeReversed
	case a.changeMisread() && a.beyondAging():
		return LikelyMisplaced
	case now.far():
		return Stale
	case now.Err != nil, !now.judges(), then.Err == nil && !then.judges(), !a.nameKnown():
		return CannotBeJudged
	case stated && a.SourceChange != nil && (change-*a.SourceChange).Abs() > allowedChange:
		return ChangeNoLongerHolds
	}
	return Agrees
}

// reason says in words what led to the verdict.
func (a Audit) reason() string {
	then, now := a.Then, a.Now
	change, _ := a.change()
	switch a.Verdict {
	case LikelyWrongYear:
		reason := fmt.Sprintf("the rose's year, %d, is after the date; read it again", a.Rose.Year)
		if a.FitsIn != 0 {
			reason += fmt.Sprintf("; a rose of %d would agree", a.FitsIn)
		}
		return reason
	case LikelyWrongName:
		if then.Err == nil {
			reason := "with the other name, the rose would agree in its own year"
			if a.FitsAt != nil {
				reason += "; as printed, it" + a.fitsText()
			}
			return reason
		}
		return fmt.Sprintf("the field can have changed by at most %v; with the other name, the rose would agree", a.MaxDrift.Round(angle.Minute))
	case LikelyMisplaced:
		switch {
		case then.Err != nil:
			return fmt.Sprintf("the rose differs by %v now, and the field can have changed by at most %v; check its place and its figures", now.Difference.Abs(), a.MaxDrift.Round(angle.Minute))
		case !then.far():
			return fmt.Sprintf("the rose agrees in its own year, but its annual change differs by %v from that of the source; read it again", (change - *a.FirstChange).Abs())
		}
		return "the rose disagrees in its own year; check its place and its figures, and look for a local anomaly; its variation" + a.fitsText()
	case ChangeReversed:
		return fmt.Sprintf("in %d the variation changed to the %s; read the name of the annual change again", a.Rose.Year, sideOf(*a.FirstChange))
	case Stale:
		reason := "the rose agrees in its own year, but not now; use a newer chart"
		if then.Err != nil {
			reason = "the rose disagrees now, and cannot be checked in its own year"
			if a.renamed(now, now.Allowed) {
				reason += "; with the other name, it would agree"
			}
		}
		if a.changeMisread() {
			reason += fmt.Sprintf("; its annual change differs by %v from that of its own year", (change - *a.FirstChange).Abs())
		}
		return reason
	case ChangeNoLongerHolds:
		return fmt.Sprintf("the rose agrees, but the annual changes differ by %v", (change - *a.SourceChange).Abs())
	case CannotBeJudged:
		switch {
		case now.Err != nil:
			return "the source has no answer for the date"
		case !now.judges():
			return fmt.Sprintf("the source is too uncertain here, %v", now.Source.Uncertainty())
		case then.Err == nil && !then.judges():
			return fmt.Sprintf("the source is too uncertain here in %[2]d, %[1]v", then.Source.Uncertainty(), a.Rose.Year)
		}
		return "the variation is too close to zero or 180° to tell its name: both E and W agree"
	}
	if then.Err != nil {
		return "the rose agrees now; it cannot be checked in its own year"
	}
	return "the rose agrees in its own year and now"
}
