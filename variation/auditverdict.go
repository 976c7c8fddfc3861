package variation

import (
	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// A Verdict says what an audit found.
type Verdict string

// The verdicts on a rose, the most serious first.
const (
	// LikelyWrongYear: the rose's year is after the date of the audit. As far as the
	// source can tell, the rose does not agree in its own year. The year is misread.
	LikelyWrongYear Verdict = "likely-wrong-year"

	// LikelyWrongName: the variation disagrees. With E for W, or W for E, it would agree,
	// with at most half the difference.
	LikelyWrongName Verdict = "likely-wrong-name"

	// LikelyMisplaced: the variation disagrees in the rose's own year, or by more than the
	// field can have changed since. With the other name it would not agree either. The
	// rose belongs to another place, or a figure is misread, or there is a local anomaly.
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

// far reports whether rose and source differ by more than Allowed. If the source is too
// uncertain to judge, the limit is 1.5 times Allowed.
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
	d := (c.Difference - 2*a.rose.Variation.Angle()).NormalizedSigned().Abs()
	return d <= within && 2*d <= c.Difference.Abs()
}

// nameKnown reports whether the source can tell which name of the variation is right.
func (a Audit) nameKnown() bool {
	c := a.Then
	if c.Err != nil {
		c = a.Now
	}
	v := a.rose.Variation.Angle()
	return v == 0 || v.Abs() == angle.Turn/2 || (c.Difference-2*v).NormalizedSigned().Abs() > c.Allowed
}

// future reports whether the rose's year is after the date.
func (a Audit) future() bool { return a.rose.Year > a.Now.Date.UTC().Year() }

// changeMisread reports whether the annual change cannot be that of the rose's year.
func (a Audit) changeMisread() bool {
	change, stated := a.change()
	return stated && a.firstChange != nil && (change-*a.firstChange).Abs() > misreadChange
}

// changeReversed reports whether the annual change has the wrong name.
func (a Audit) changeReversed() bool {
	rose, stated := a.change()
	if !stated || a.firstChange == nil {
		return false
	}
	source := *a.firstChange
	return (rose < 0) != (source < 0) && min(rose.Abs(), source.Abs()) >= minReversed
}

// beyondAging reports whether the rose differs by more than the field can have changed.
func (a Audit) beyondAging() bool {
	return a.Now.Err == nil && a.Now.Difference.Abs() > a.maxDrift+a.Now.Allowed
}

// verdict returns the most serious finding.
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
		if a.renamed(now, a.maxDrift+now.Allowed) {
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

// because adds to a step the verdict in words, and what led to it.
func (a Audit) because(s working.Step) working.Step {
	then, now := a.Then, a.Now
	change, _ := a.change()
	switch a.Verdict {
	case LikelyWrongYear:
		s = s.Because("likely-wrong-year", "likely wrong year").
			Because("rose-after-date", "the rose's year, %d, is after the date", a.rose.Year).
			Because("read-year-again", "read it again")
		if a.FitsIn != 0 {
			s = s.Because("fits-in-year", "a rose of %d would agree", a.FitsIn)
		}
		return s
	case LikelyWrongName:
		s = s.Because("likely-wrong-name", "likely wrong name")
		if then.Err != nil {
			return s.Because("max-drift", "the field can have changed by at most %v", a.maxDrift.Round(angle.Minute)).
				Because("other-name-agrees", "with the other name, the rose would agree")
		}
		s = s.Because("other-name-agreed", "with the other name, the rose would agree in its own year")
		if a.FitsAt != nil {
			s = s.Because("fits-at", "as printed, it would agree %.0f M away, at %v", a.position.ArcTo(*a.FitsAt).Minutes(), *a.FitsAt)
		}
		return s
	case LikelyMisplaced:
		return a.becauseMisplaced(s.Because("likely-misplaced", "likely misplaced or misread"), change)
	case ChangeReversed:
		s = s.Because("change-reversed", "annual change reversed")
		if *a.firstChange < 0 {
			s = s.Because("changed-to-west", "in %d the variation changed to the west", a.rose.Year)
		} else {
			s = s.Because("changed-to-east", "in %d the variation changed to the east", a.rose.Year)
		}
		return s.Because("read-change-name-again", "read the name of the annual change again")
	case Stale:
		return a.becauseStale(s.Because("stale", "stale"), change)
	case ChangeNoLongerHolds:
		return s.Because("change-no-longer-holds", "annual change no longer holds").
			Because("changes-differ", "the rose agrees, but the annual changes differ by %v", (change - *a.SourceChange).Abs())
	case CannotBeJudged:
		s = s.Because("cannot-be-judged", "cannot be judged")
		switch {
		case now.Err != nil:
			return s.Because("no-answer-for-date", "the source has no answer for the date")
		case !now.judges():
			return s.Because("source-too-uncertain", "the source is too uncertain here, %v", now.Source.Uncertainty())
		case then.Err == nil && !then.judges():
			return s.Because("source-was-too-uncertain", "the source is too uncertain here in %d, %v", a.rose.Year, then.Source.Uncertainty())
		}
		return s.Because("both-names-agree", "the variation is too close to zero or 180° to tell its name: both E and W agree")
	}
	if then.Err != nil {
		return s.Because("agrees-now", "the rose agrees now; it cannot be checked in its own year")
	}
	return s.Because("agrees-then-and-now", "the rose agrees in its own year and now")
}

// becauseMisplaced adds why a rose is likely misplaced or misread.
func (a Audit) becauseMisplaced(s working.Step, change angle.Angle) working.Step {
	switch {
	case a.Then.Err != nil:
		return s.Because("differs-beyond-drift", "the rose differs by %v now, and the field can have changed by at most %v", a.Now.Difference.Abs(), a.maxDrift.Round(angle.Minute)).
			Because("check-place-and-figures", "check its place and its figures")
	case !a.Then.far():
		return s.Because("change-differs-then", "the rose agrees in its own year, but its annual change differs by %v from that of the source", (change-*a.firstChange).Abs()).
			Because("read-change-again", "read it again")
	}
	s = s.Because("disagrees-then", "the rose disagrees in its own year").
		Because("check-place-figures-anomaly", "check its place and its figures, and look for a local anomaly")
	if a.FitsAt == nil {
		return s.Because("fits-nowhere", "its variation agrees nowhere within 600 M")
	}
	return s.Because("variation-fits-at", "its variation would agree %.0f M away, at %v", a.position.ArcTo(*a.FitsAt).Minutes(), *a.FitsAt)
}

// becauseStale adds why a rose no longer agrees.
func (a Audit) becauseStale(s working.Step, change angle.Angle) working.Step {
	if a.Then.Err == nil {
		s = s.Because("agrees-then-not-now", "the rose agrees in its own year, but not now").
			Because("use-newer-chart", "use a newer chart")
	} else {
		s = s.Because("disagrees-now", "the rose disagrees now, and cannot be checked in its own year")
		if a.renamed(a.Now, a.Now.Allowed) {
			s = s.Because("other-name-would-agree", "with the other name, it would agree")
		}
	}
	if a.changeMisread() {
		s = s.Because("change-misread", "its annual change differs by %v from that of its own year", (change - *a.firstChange).Abs())
	}
	return s
}
