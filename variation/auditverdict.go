package variation

import (
	"fmt"
	"strings"

	"lubberline.example/angle"
)

// A Verdict says what an audit found of a rose.
type Verdict string

// The verdicts on a rose, the gravest first.
const (
	// LikelyWrongYear: the rose's year is after the date of the audit, and it can't be
	// shown to agree in its own year. The year is misread.
	LikelyWrongYear Verdict = "likely-wrong-year"

	// LikelyWrongName: the variation disagrees, and would agree with E for W, or W for E,
	// which takes away half of the difference or more.
	LikelyWrongName Verdict = "likely-wrong-name"

	// LikelyMisplaced: it disagrees in the rose's own year, or by more than the field can
	// have changed since, and another name does not mend it. The rose belongs elsewhere, or
	// a figure is misread, or there is a local anomaly.
	LikelyMisplaced Verdict = "likely-misplaced-or-misread"

	// ChangeReversed: the annual change has the wrong name. In the rose's own year the
	// variation moved the other way.
	ChangeReversed Verdict = "annual-change-reversed"

	// Stale: brought to the date, the rose disagrees, by no more than the field can have
	// changed.
	Stale Verdict = "stale"

	// CannotBeJudged: the source has no answer for the date, or knows too little there, or
	// the variation is too small to tell its name.
	CannotBeJudged Verdict = "cannot-be-judged"

	// ChangeNoLongerHolds: the rose still agrees, but its annual change is not
	// that of the date.
	ChangeNoLongerHolds Verdict = "annual-change-no-longer-holds"

	// Agrees: value and annual change agree within what is known of them.
	Agrees Verdict = "agrees"
)

// words is a verdict as printed.
func (v Verdict) words() string { return strings.ReplaceAll(string(v), "-", " ") }

// Limits of an audit. TestAuditOfSimulatedRoses measures what they do.
const (
	// allowedChange is how far the annual changes may differ: 3′ a year is half
	// a degree in ten years. A figure chosen here.
	allowedChange = 3 * angle.Minute

	// leastReversed is how large both annual changes must be, of opposite names, for one to
	// be called reversed. Near zero a sound forecast may have either name.
	leastReversed = 5 * angle.Minute / 2

	// misreadChange is how far the annual change may lie from that of the rose's own year.
	// Beyond it the figure is misread.
	misreadChange = 8 * angle.Minute

	// judgedWithin is the largest uncertainty, twice the standard one, of a source by whose
	// word a rose is said to agree.
	judgedWithin = 48 * angle.Minute
)

// far reports whether rose and source differ by more than is allowed; or by half as much
// again if the source knows too little to judge by.
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

// judges reports whether the source knows enough for its agreement to mean something. One
// that states no uncertainty does, by what is assumed of it.
func (c Comparison) judges() bool {
	known, stated := c.Source.Uncertainty().Sigma()
	return c.Err == nil && (!stated || 2*known <= judgedWithin)
}

// renamed reports whether the rose, with the other name, agrees within a limit, and takes
// away half of the difference or more.
func (a Audit) renamed(c Comparison, within angle.Angle) bool {
	d := (c.Difference - 2*a.Rose.Variation.Angle()).NormalizedSigned().Abs()
	return d <= within && 2*d <= c.Difference.Abs()
}

// nameTold reports whether the source tells one name of the variation from the other.
func (a Audit) nameTold() bool {
	c := a.Then
	if c.Err != nil {
		c = a.Now
	}
	v := a.Rose.Variation.Angle()
	return v == 0 || v.Abs() == angle.Turn/2 || (c.Difference-2*v).NormalizedSigned().Abs() > c.Allowed
}

// future reports whether the rose's year is after the date.
func (a Audit) future() bool { return a.Rose.Year > a.Now.Date.UTC().Year() }

// changeMisread reports whether the annual change can't have been that of the rose's year.
func (a Audit) changeMisread() bool {
	return a.changeStated && a.FirstChange != nil && (a.RoseChange-*a.FirstChange).Abs() > misreadChange
}

// changeReversed reports whether the annual change has the wrong name.
func (a Audit) changeReversed() bool {
	if !a.changeStated || a.FirstChange == nil {
		return false
	}
	rose, source := a.RoseChange, *a.FirstChange
	return (rose < 0) != (source < 0) && min(rose.Abs(), source.Abs()) >= leastReversed
}

// beyondAging reports whether the rose is out by more than the field can have changed.
func (a Audit) beyondAging() bool {
	return a.Now.Err == nil && a.Now.Difference.Abs() > a.MaxDrift+a.Now.Allowed
}

func (a Audit) verdict() Verdict {
	then, now := a.Then, a.Now
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
	case now.Err != nil, !now.judges(), then.Err == nil && !then.judges(), !a.nameTold():
		return CannotBeJudged
	case a.changeStated && a.SourceChangeErr == nil && (a.RoseChange-a.SourceChange).Abs() > allowedChange:
		return ChangeNoLongerHolds
	}
	return Agrees
}

// reason says in words what led to the verdict.
func (a Audit) reason() string {
	then, now := a.Then, a.Now
	switch a.Verdict {
	case LikelyWrongYear:
		reason := fmt.Sprintf("the rose's year, %d, is after the date; read it again", a.Rose.Year)
		if a.FitsIn != 0 {
			reason += fmt.Sprintf("; as a rose of %d it would agree", a.FitsIn)
		}
		return reason
	case LikelyWrongName:
		if then.Err == nil {
			reason := "in its own year it would agree with its name changed"
			if a.FitsAt != nil {
				reason += "; as printed it" + a.fitsText()
			}
			return reason
		}
		return fmt.Sprintf("the field can have moved it by %v at most; with its name changed it would agree", a.MaxDrift.Round(angle.Minute))
	case LikelyMisplaced:
		switch {
		case then.Err != nil:
			return fmt.Sprintf("it is out by %v now, and the field can have moved it by %v at most; check its place and its figures", now.Difference.Abs(), a.MaxDrift.Round(angle.Minute))
		case !then.far():
			return fmt.Sprintf("it agrees in its own year, but its annual change differs by %v from that of the time; read it again", (a.RoseChange - *a.FirstChange).Abs())
		}
		return "it disagrees in its own year; check its place and its figures, and look for a local anomaly; its figure" + a.fitsText()
	case ChangeReversed:
		return fmt.Sprintf("in %d the variation moved %s; read the name of the annual change again", a.Rose.Year, sideOf(*a.FirstChange))
	case Stale:
		reason := "it agreed in its own year, and does not now; use a newer chart"
		if then.Err != nil {
			reason = "it disagrees now, and could not be checked in its own year"
			if a.renamed(now, now.Allowed) {
				reason += "; with its name changed it would agree"
			}
		}
		if a.changeMisread() {
			reason += fmt.Sprintf("; its annual change differs by %v from that of its own year", (a.RoseChange - *a.FirstChange).Abs())
		}
		return reason
	case ChangeNoLongerHolds:
		return fmt.Sprintf("it agrees, but the annual changes differ by %v", (a.RoseChange - a.SourceChange).Abs())
	case CannotBeJudged:
		switch {
		case now.Err != nil:
			return "the source has no answer for the date"
		case !now.judges():
			return fmt.Sprintf("the source is uncertain by %v there; two different roses would both agree", now.Source.Uncertainty())
		case then.Err == nil && !then.judges():
			return fmt.Sprintf("the source is uncertain by %v there in %d", then.Source.Uncertainty(), a.Rose.Year)
		}
		return "the variation is too near zero, or 180°, to tell its name: it agrees east and west"
	}
	if then.Err != nil {
		return "it agrees now; it could not be checked in its own year"
	}
	return "it agrees in its own year and now"
}
