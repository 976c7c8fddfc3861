package slip

// A Kind is a slip, in a word that programs can compare. [Kind.String] describes it in a
// sentence. The empty Kind is no slip.
type Kind string

// The slips, the likeliest first. The order is a judgement, not a count. Causes are listed in
// it.
const (
	VariationWrongWay   Kind = "variation-wrong-way"
	DeviationWrongWay   Kind = "deviation-wrong-way"
	DeviationOfBearing  Kind = "deviation-of-the-bearing"
	DeviationOnMagnetic Kind = "deviation-on-the-magnetic-heading"
	DeviationOnTrue     Kind = "deviation-on-the-true-heading"
	ChangeLeftOut       Kind = "change-left-out"
	ChangeWrongWay      Kind = "change-wrong-way"
	ChangeForVariation  Kind = "change-for-variation"
	NameKept            Kind = "name-kept-through-zero"
	StreamWrongWay      Kind = "stream-from"
	SpeedAlongTrack     Kind = "speed-along-the-track"
	LeewayWrongSide     Kind = "leeway-wrong-side"
	ReciprocalForgotten Kind = "reciprocal-forgotten"
	ReciprocalTaken     Kind = "reciprocal-taken"
	RoundedOnTheWay     Kind = "rounded-on-the-way"
	RoundedTooFar       Kind = "rounded-too-far"
	VariationLeftOut    Kind = "variation-left-out"
	DeviationLeftOut    Kind = "deviation-left-out"
	VariationTwice      Kind = "variation-twice"
	DeviationTwice      Kind = "deviation-twice"
	YearsMiscounted     Kind = "years-miscounted"
	MinutesAtHundred    Kind = "minutes-at-a-hundred"
	MinutesAsDecimals   Kind = "minutes-as-decimals"
	CosineLeftOut       Kind = "cosine-left-out"
	CosineWrongWay      Kind = "cosine-wrong-way"
	SineForCosine       Kind = "sine-for-cosine"
	NorthForSouth       Kind = "north-for-south"
	EastForWest         Kind = "east-for-west"
	KnotsTimesMinutes   Kind = "knots-times-minutes"
	StatuteForNautical  Kind = "statute-for-nautical"
	StreamLeftOut       Kind = "stream-left-out"
	LeewayLeftOut       Kind = "leeway-left-out"
	TensMisread         Kind = "tens-misread"
	FiguresTransposed   Kind = "figures-transposed"
)

// kinds are all slips with their descriptions, the likeliest first.
var kinds = []struct {
	kind Kind
	says string
}{
	{VariationWrongWay, "the variation was applied the wrong way"},
	{DeviationWrongWay, "the deviation was applied the wrong way"},
	{DeviationOfBearing, "the deviation was looked up for the bearing, not for the ship's head"},
	{DeviationOnMagnetic, "the deviation was looked up with the magnetic heading, not by compass"},
	{DeviationOnTrue, "the deviation was looked up with the true heading"},
	{ChangeLeftOut, "the variation was not brought up to date"},
	{ChangeWrongWay, "the annual change was applied the wrong way"},
	{ChangeForVariation, "the change was given in place of the variation"},
	{NameKept, "the name of the variation was kept, though it passed through zero"},
	{StreamWrongWay, "the stream was drawn from its direction, not toward it"},
	{SpeedAlongTrack, "the speed was drawn along the track, not along the course to steer"},
	{LeewayWrongSide, "the leeway was applied to the wrong side"},
	{ReciprocalForgotten, "the reciprocal was forgotten"},
	{ReciprocalTaken, "the reciprocal was taken"},
	{RoundedOnTheWay, "intermediate figures were rounded"},
	{RoundedTooFar, "the answer was rounded too far"},
	{VariationLeftOut, "the variation was left out"},
	{DeviationLeftOut, "the deviation was left out"},
	{VariationTwice, "the variation was applied twice"},
	{DeviationTwice, "the deviation was applied twice"},
	{YearsMiscounted, "the years were miscounted"},
	{MinutesAtHundred, "minutes were carried at 100, not at 60"},
	{MinutesAsDecimals, "minutes were taken as decimals"},
	{CosineLeftOut, "the cosine of the latitude was left out: departure is not difference of longitude"},
	{CosineWrongWay, "the cosine of the latitude was applied the wrong way"},
	{SineForCosine, "the sine was used instead of the cosine"},
	{NorthForSouth, "north and south were exchanged"},
	{EastForWest, "east and west were exchanged"},
	{KnotsTimesMinutes, "knots were multiplied by minutes, without dividing by 60"},
	{StatuteForNautical, "statute miles were taken for nautical miles"},
	{StreamLeftOut, "the stream was left out"},
	{LeewayLeftOut, "the leeway was left out"},
	{TensMisread, "the answer is 10° off: a figure was misread"},
	{FiguresTransposed, "two figures were exchanged"},
}

// String describes the slip in words. For an unknown kind it returns the kind itself.
func (k Kind) String() string {
	for _, entry := range kinds {
		if entry.kind == k {
			return entry.says
		}
	}
	return string(k)
}

// ways describe the variants of a slip, for the slips where that helps.
var ways = map[Kind][]string{
	RoundedOnTheWay:    {"one degree more", "one degree less", "to the whole degree", "to the half degree"},
	YearsMiscounted:    {"one year too many", "one year too few", "ten years too many", "ten years too few"},
	NorthForSouth:      {"in the difference", "in the answer"},
	StatuteForNautical: {"multiplied by 0.869", "divided by 0.869"},
}

// rank is the place of a slip in the order of likelihood.
func (k Kind) rank() int {
	for i, entry := range kinds {
		if entry.kind == k {
			return i
		}
	}
	return len(kinds)
}

// Kinds returns all slips, the likeliest first.
func Kinds() []Kind {
	out := make([]Kind, len(kinds))
	for i, entry := range kinds {
		out[i] = entry.kind
	}
	return out
}

// ofFigures reports whether the slip concerns figures only and can happen in any problem.
func (k Kind) ofFigures() bool {
	return k == RoundedOnTheWay || k == RoundedTooFar || k == TensMisread || k == FiguresTransposed
}
