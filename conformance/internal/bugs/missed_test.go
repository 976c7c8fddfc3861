package bugs

import "lubberline.example/conformance/slip"

// notFound are the bugs that no case finds, with the reason.
var notFound = map[string]string{
	"fix.horizontalDangerAngle/marks-exchanged": "the angle between two marks has no order, and the circle through them is the same",
	"fix.sextantAngles/near-ignored":            "the two circles meet in the middle mark and in one other place: the estimated position is a help and decides nothing",
}

const (
	finer    = "less than the trade needs: no case differs by more than 0.1°, 0.1 M or 1′"
	spelling = "a spelling, which only the tier format compares"
)

// notFoundAtNavigation are the bugs that only the tolerances of the cases find, or only a
// spelling. The tier navigation alone does not find them.
var notFoundAtNavigation = map[string]string{
	"angle.arcFromPoints/text-in-minutes":        spelling,
	"angle.minutes/60-not-carried":               spelling,
	"angle.minutes/minutes-cut":                  finer,
	"angle.minutes/rounded-too-far":              finer,
	"angle.minutes/zero-not-padded":              spelling,
	"angle.parse/tenths-of-minutes":              finer,
	"angle.parse/whole-minutes":                  finer,
	"angle.position/iso-seconds-left-out":        finer,
	"angle.position/seconds-left-out":            finer,
	"angle.position/tenths-of-minutes":           finer,
	"angle.position/whole-minutes":               finer,
	"fix.bearings/fix-whole-minutes":             finer,
	"fix.bearings/whole-degrees":                 finer,
	"fix.running/fix-whole-minutes":              finer,
	"fix.sextantAngles/whole-degrees":            finer,
	"fix.verticalAngle/rounded-too-far":          finer,
	"fix.verticalAngle/sine":                     finer,
	"fix.verticalAngle/whole-minutes":            finer,
	"fix.verticalDangerAngle/whole-minutes":      finer,
	"sailing.dLong/rounded-too-far":              finer,
	"sailing.degree/cosine-only":                 finer,
	"sailing.degree/figure-ignored":              finer,
	"sailing.distance/whole-minutes":             finer,
	"sailing.followMercator/figure-ignored":      finer,
	"sailing.followRhumb/tenths-of-minutes":      finer,
	"variation.change/seconds-left-out":          finer,
	"variation.legend/change-whole-minutes":      finer,
	"variation.legend/tenths-of-minutes-lost":    finer,
	"variation.onDate/days-of-30":                finer,
	"variation.onDate/first-of-january-is-day-1": finer,
	"variation.onDate/leap-year-forgotten":       finer,
	"variation.onDate/year-of-365.25-days":       finer,
	"variation.project/text-60-minutes":          spelling,
	"variation.project/text-always-west":         spelling,
	"variation.project/text-cut":                 spelling,
}

// chartwork is why the bank leaves out the slips of chart work.
const chartwork = "a slip of a learner at the chart or in a sum of several steps: the bugs of those operations are named for what a program does"

// notAsked are the slips that no operation can contain, with the reason.
var notAsked = map[slip.Kind]string{
	slip.DeviationOfBearing:   "the operations that correct a bearing are given the deviation, not a table",
	slip.DeviationOnTrue:      "no operation is given a table with a true heading",
	slip.MovedByCourse:        chartwork,
	slip.MovedByLog:           chartwork,
	slip.MovedWrongWay:        chartwork,
	slip.SecondMoved:          chartwork,
	slip.NotMoved:             chartwork,
	slip.LongitudeScale:       chartwork,
	slip.MarkMistaken:         chartwork,
	slip.NearestRow:           "another convention, not a bug; to take a row without interpolation is a bug of tables",
	slip.NamesIgnored:         chartwork,
	slip.DeclinationContrary:  chartwork,
	slip.OtherHour:            chartwork,
	slip.OtherHeading:         chartwork,
	slip.MeanOfSome:           chartwork,
	slip.OtherCoefficient:     chartwork,
	slip.HourAngleWrongWay:    chartwork,
	slip.LatitudeIgnored:      chartwork,
	slip.CountedWrongWay:      chartwork,
	slip.FixToReckoning:       chartwork,
	slip.LegLeftOut:           chartwork,
	slip.DistancesAdded:       chartwork,
	slip.FirstLatitude:        chartwork,
	slip.LatitudesForParts:    chartwork,
	slip.RhumbForGreatCircle:  chartwork,
	slip.FinalForInitial:      chartwork,
	slip.HourWrongWay:         chartwork,
	slip.RateOfDay:            chartwork,
	slip.MarginWrongSide:      chartwork,
	slip.MarginLeftOut:        chartwork,
	slip.OtherDistance:        chartwork,
	slip.RunForDistance:       chartwork,
	slip.IndexError:           chartwork,
	slip.HeightLeftOut:        chartwork,
	slip.HeightsAdded:         chartwork,
	slip.NotDivided:           chartwork,
	slip.DividedForMultiplied: chartwork,
	slip.FeetForMetres:        chartwork,
	slip.BearingMisread:       chartwork,
	slip.HalfDegreeFirst:      "another convention, not a bug",
	slip.DecimalYears:         "another convention, not a bug",
	slip.AdjacentRow:          "to take a row without interpolation is a bug of tables",
	slip.MadeGoodForSteered:   "the course made good is another operation",
	slip.PartLeftOut:          "no operation is given hours and minutes",
	slip.SumOff:               "a slip in writing figures",
	slip.PointMisplaced:       "a slip in writing figures",
}
