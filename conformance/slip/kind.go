package slip

// A Kind is a slip, in a word that programs can compare. [Kind.String] describes it in a
// sentence. The empty Kind is no slip.
type Kind string

// The slips, the likeliest first. The order is a judgement, not a count. Causes are listed in
// it.
const (
	VariationWrongWay    Kind = "variation-wrong-way"
	DeviationWrongWay    Kind = "deviation-wrong-way"
	DeviationOfBearing   Kind = "deviation-of-the-bearing"
	DeviationOnMagnetic  Kind = "deviation-on-the-magnetic-heading"
	DeviationOnTrue      Kind = "deviation-on-the-true-heading"
	ChangeLeftOut        Kind = "change-left-out"
	ChangeWrongWay       Kind = "change-wrong-way"
	ChangeForVariation   Kind = "change-for-variation"
	NameKept             Kind = "name-kept-through-zero"
	StreamWrongWay       Kind = "stream-from"
	SpeedAlongTrack      Kind = "speed-along-the-track"
	LeewayWrongSide      Kind = "leeway-wrong-side"
	MovedByCourse        Kind = "moved-by-the-course"
	MovedByLog           Kind = "moved-by-the-log"
	MovedWrongWay        Kind = "moved-the-wrong-way"
	SecondMoved          Kind = "second-line-moved"
	NotMoved             Kind = "line-not-moved"
	LongitudeScale       Kind = "longitude-scale"
	MarkMistaken         Kind = "mark-mistaken"
	NearestRow           Kind = "nearest-row"
	NamesIgnored         Kind = "names-ignored"
	OtherHeading         Kind = "other-heading"
	MeanOfSome           Kind = "mean-of-some"
	OtherCoefficient     Kind = "other-coefficient"
	HourAngleWrongWay    Kind = "hour-angle-wrong-way"
	LatitudeIgnored      Kind = "latitude-ignored"
	DeclinationContrary  Kind = "declination-contrary"
	CountedWrongWay      Kind = "counted-the-wrong-way"
	FixToReckoning       Kind = "from-fix-to-reckoning"
	LegLeftOut           Kind = "leg-left-out"
	DistancesAdded       Kind = "distances-added"
	FirstLatitude        Kind = "latitude-from-for-middle"
	LatitudesForParts    Kind = "latitudes-for-meridional-parts"
	RhumbForGreatCircle  Kind = "rhumb-for-great-circle"
	FinalForInitial      Kind = "final-for-initial"
	HourWrongWay         Kind = "hour-wrong-way"
	OtherHour            Kind = "other-hour"
	RateOfDay            Kind = "rate-of-the-day"
	MarginWrongSide      Kind = "margin-wrong-side"
	MarginLeftOut        Kind = "margin-left-out"
	OtherDistance        Kind = "other-distance"
	RunForDistance       Kind = "run-for-distance"
	IndexError           Kind = "index-error"
	HeightLeftOut        Kind = "height-left-out"
	HeightsAdded         Kind = "heights-added"
	ReciprocalForgotten  Kind = "reciprocal-forgotten"
	ReciprocalTaken      Kind = "reciprocal-taken"
	RoundedOnTheWay      Kind = "rounded-on-the-way"
	RoundedTooFar        Kind = "rounded-too-far"
	VariationLeftOut     Kind = "variation-left-out"
	DeviationLeftOut     Kind = "deviation-left-out"
	VariationTwice       Kind = "variation-twice"
	DeviationTwice       Kind = "deviation-twice"
	YearsMiscounted      Kind = "years-miscounted"
	MinutesAtHundred     Kind = "minutes-at-a-hundred"
	MinutesAsDecimals    Kind = "minutes-as-decimals"
	NotDivided           Kind = "not-divided"
	DividedForMultiplied Kind = "divided-for-multiplied"
	FeetForMetres        Kind = "feet-for-metres"
	BearingMisread       Kind = "bearing-misread"
	CosineLeftOut        Kind = "cosine-left-out"
	CosineWrongWay       Kind = "cosine-wrong-way"
	SineForCosine        Kind = "sine-for-cosine"
	NorthForSouth        Kind = "north-for-south"
	EastForWest          Kind = "east-for-west"
	KnotsTimesMinutes    Kind = "knots-times-minutes"
	StatuteForNautical   Kind = "statute-for-nautical"
	StreamLeftOut        Kind = "stream-left-out"
	LeewayLeftOut        Kind = "leeway-left-out"
	TensMisread          Kind = "tens-misread"
	FiguresTransposed    Kind = "figures-transposed"
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
	{RoundedOnTheWay, "intermediate figures were rounded"},
	{RoundedTooFar, "the answer was rounded too far"},
	{NearestRow, "the nearest row of the card was taken, without interpolation"},
	{DecimalYears, "the years were counted to the middle of the year"},
	{HalfDegreeFirst, "the variation or the deviation was rounded to half a degree first"},
	{ChangeLeftOut, "the variation was not brought up to date"},
	{ChangeWrongWay, "the annual change was applied the wrong way"},
	{ChangeForVariation, "the change was taken instead of the variation"},
	{NameKept, "the name of the variation was kept, though it passed through zero"},
	{StreamWrongWay, "the stream was drawn from its direction, not toward it"},
	{SpeedAlongTrack, "the speed was drawn along the track, not along the course to steer"},
	{MadeGoodForSteered, "the course made good on the track was found, not the course to steer"},
	{LeewayWrongSide, "the leeway was applied to the wrong side"},
	{MovedByCourse, "the line was moved by the course steered, not by the course made good"},
	{MovedByLog, "the line was moved by the distance through the water, not over the ground"},
	{MovedWrongWay, "the line was moved the wrong way"},
	{SecondMoved, "the second line was moved, not the first"},
	{NotMoved, "the first line was not moved"},
	{LongitudeScale, "the distance was taken from the longitude scale"},
	{MarkMistaken, "one mark was taken for another"},
	{NamesIgnored, "the figures were used as if all had the same name"},
	{OtherHeading, "the bearing on another heading was taken"},
	{MeanOfSome, "the mean of the cardinal headings was taken, not of all"},
	{OtherCoefficient, "the headings of another coefficient were used"},
	{HourAngleWrongWay, "the longitude was applied to the hour angle the wrong way"},
	{LatitudeIgnored, "the latitude was left out (the amplitude is not the declination)"},
	{DeclinationContrary, "the declination was given the contrary name"},
	{CountedWrongWay, "the azimuth or the amplitude was counted from the wrong side, east or west"},
	{FixToReckoning, "the set was drawn from the fix to the dead reckoning position"},
	{LegLeftOut, "a leg was left out"},
	{DistancesAdded, "the distances or the speeds were added, as if they had one direction"},
	{FirstLatitude, "the latitude from was used, not the middle latitude"},
	{LatitudesForParts, "the difference of latitude was used, not that of the meridional parts"},
	{RhumbForGreatCircle, "the rhumb line was taken for the great circle"},
	{FinalForInitial, "the final course was given, not the initial one"},
	{HourWrongWay, "hours before high water were taken for hours after it, or the other way"},
	{OtherHour, "the stream of another hour was taken"},
	{RateOfDay, "the rate was not found for the day between springs and neaps"},
	{MarginWrongSide, "the margin was laid off on the wrong side of the danger"},
	{MarginLeftOut, "the margin was left out"},
	{OtherDistance, "the distance abeam and that at the second bearing were exchanged"},
	{RunForDistance, "the run was taken for the distance off, as if the angle was doubled"},
	{IndexError, "the index error was not applied as it should be"},
	{HeightLeftOut, "a height was left out"},
	{HeightsAdded, "the heights were added before the root was taken"},
	{ReciprocalForgotten, "the reciprocal was forgotten"},
	{ReciprocalTaken, "the reciprocal was taken"},
	{AdjacentRow, "the deviation of an adjacent row of the card was taken"},
	{VariationLeftOut, "the variation was left out"},
	{DeviationLeftOut, "the deviation was left out"},
	{VariationTwice, "the variation was applied twice"},
	{DeviationTwice, "the deviation was applied twice"},
	{YearsMiscounted, "the years were miscounted"},
	{MinutesAtHundred, "minutes were carried at 100, not at 60"},
	{MinutesAsDecimals, "minutes were taken as decimals"},
	{NotDivided, "a division was forgotten (by the hours, by the number of figures, or by 2)"},
	{DividedForMultiplied, "multiplication and division were exchanged"},
	{FeetForMetres, "metres were taken for feet, or feet for metres"},
	{BearingMisread, "a bearing was misread by 10°"},
	{CosineLeftOut, "the cosine was left out (departure is not difference of longitude, nor distance difference of latitude)"},
	{CosineWrongWay, "the cosine of the latitude was applied the wrong way"},
	{SineForCosine, "sine and cosine were exchanged"},
	{NorthForSouth, "north and south were exchanged"},
	{EastForWest, "east and west were exchanged"},
	{KnotsTimesMinutes, "knots were multiplied by minutes, without dividing by 60"},
	{StatuteForNautical, "statute miles were taken for nautical miles"},
	{StreamLeftOut, "the stream was left out"},
	{LeewayLeftOut, "the leeway was left out"},
	{PartLeftOut, "a part of the time was left out"},
	{TensMisread, "a figure was misread by ten"},
	{FiguresTransposed, "two figures were exchanged"},
	{SumOff, "a sum was off by one"},
	{PointMisplaced, "the decimal point was misplaced"},
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

// oneName is a way to ignore names: that of one heading of a swing.
const oneName = "that of one heading"

// ways describe the variants of a slip, for the slips where that helps.
var ways = map[Kind][]string{
	RoundedOnTheWay:    {"one more in the last figure", "one less in the last figure"},
	YearsMiscounted:    {"one year too many", "one year too few", "ten years too many", "ten years too few", "one year only"},
	NorthForSouth:      {"in the difference", "in the answer"},
	StatuteForNautical: {"multiplied by 0.869", "divided by 0.869"},
	OtherHeading:       {"the next one", "the one before", "the opposite one"},
	OtherHour:          {"the hour after", "the hour before"},
	RateOfDay:          {"that of springs was taken", "that of neaps was taken", "the mean was taken", "springs and neaps were exchanged"},
	IndexError:         {"it was applied the wrong way", "it was left out"},
	HeightLeftOut:      {"that of the eye", "that of the light"},
	MinutesAsDecimals:  {"in the answer", "on the way", "the other way round", "", "in the latitude", "in the longitude"},
	MinutesAtHundred:   {"in the sum", "in the change"},
	LatitudesForParts:  {"", "the other way about, in the distance"},
	NamesIgnored:       {"", "of the longitudes", "of the latitudes", oneName, oneName, oneName, oneName, oneName, oneName, oneName, oneName},
	AdjacentRow:        {"the one on the other side", "the next below", "the next above"},
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
	return k.rounds() || k == TensMisread || k == FiguresTransposed || k == SumOff || k == PointMisplaced
}
