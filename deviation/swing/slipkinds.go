package swing

// Slips in what a reading was compared with, beside those of the reading itself.
const (
	// VariationMisnamed: the variation was applied east for west.
	VariationMisnamed Slip = "variation-misnamed"

	// AnnualChangeWrong: the variation is without the annual change since its rose was printed, or
	// has it applied the wrong way.
	AnnualChangeWrong Slip = "annual-change-wrong"

	// MagneticForTrue: the direction of the object is by magnetic and was taken as true.
	MagneticForTrue Slip = "magnetic-for-true"

	// ColumnsExchanged: the heading stands where the bearing belongs.
	ColumnsExchanged Slip = "columns-exchanged"

	// RelativeTaken: the bearing was counted from the bow, not from north.
	RelativeTaken Slip = "relative-taken"

	// HourOff: the time of a bearing of the Sun is whole hours wrong, as where zone or
	// summer time is written as UTC.
	HourOff Slip = "hour-off"

	// WatchOff: the watch was minutes slow or fast.
	WatchOff Slip = "watch-off"

	// LongitudeMisnamed: the position was taken on the other side of Greenwich.
	LongitudeMisnamed Slip = "longitude-misnamed"

	// LatitudeMisnamed: the position was taken in the other hemisphere.
	LatitudeMisnamed Slip = "latitude-misnamed"

	// AnotherDay: the date is wrong.
	AnotherDay Slip = "another-day"
)
