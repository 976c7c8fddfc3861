package slip

// Slips that concern a card, the years of a rose, or figures, and two other conventions.
const (
	DecimalYears       Kind = "decimal-years"     // a convention, as NearestRow is
	HalfDegreeFirst    Kind = "half-degree-first" // a convention
	AdjacentRow        Kind = "adjacent-row"
	SumOff             Kind = "sum-off"
	PointMisplaced     Kind = "point-misplaced"
	PartLeftOut        Kind = "part-left-out"
	MadeGoodForSteered Kind = "made-good-for-steered"
)

// isConvention reports whether a slip is another convention, which is not wrong.
func (a applied) isConvention() bool {
	return a.kind == NearestRow || a.kind == DecimalYears || a.kind == HalfDegreeFirst
}

// rounds reports whether a kind is rounding, which is a habit.
func (k Kind) rounds() bool { return k == RoundedOnTheWay || k == RoundedTooFar }
