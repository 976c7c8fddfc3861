package slip

// Slips that concern a card, the years of a rose, or figures, and two other conventions.
const (
	DecimalYears       Kind = "decimal-years" // a convention, as NearestRow is
	AdjacentRow        Kind = "adjacent-row"
	SumOff             Kind = "sum-off"
	PointMisplaced     Kind = "point-misplaced"
	PartLeftOut        Kind = "part-left-out"
	MadeGoodForSteered Kind = "made-good-for-steered"
)

// isConvention reports whether a slip is another convention, which is not wrong. In a
// conversion, to round the variation or the deviation to half a degree is one.
func (a applied) isConvention() bool {
	return a.kind == NearestRow || a.kind == DecimalYears || a.kind == RoundedOnTheWay && (a.variant == 3 || a.variant == 5 || a.variant == 7)
}

// rounds reports whether a kind is rounding, which is a habit.
func (k Kind) rounds() bool { return k == RoundedOnTheWay || k == RoundedTooFar }
