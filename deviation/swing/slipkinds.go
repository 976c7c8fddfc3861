package swing

// Slips in the direction that a reading was compared with.
const (
	// VariationMisnamed: the variation was applied east for west.
	VariationMisnamed Slip = "variation-misnamed"

	// AnnualChangeWrong: the annual change of the variation was left out, or applied the wrong way.
	AnnualChangeWrong Slip = "annual-change-wrong"

	// MagneticForTrue: the direction of the object is magnetic and was taken as true.
	MagneticForTrue Slip = "magnetic-for-true"

	// ColumnsExchanged: the heading stands where the bearing belongs.
	ColumnsExchanged Slip = "columns-exchanged"

	// RelativeTaken: the bearing was counted from the bow, not from north.
	RelativeTaken Slip = "relative-taken"

	// HourOff: the time of a bearing of the Sun is wrong by whole hours, as if zone time or summer
	// time is written as UTC.
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
