package check

import (
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/swing"
)

// A cause is a slip of time or place in a bearing of a body, with its correction.
type cause struct {
	namedSlip
	right func(time.Time, angle.Position) (time.Time, angle.Position)
}

// bearing returns the body's true bearing with the slip corrected. It reports false if the body was
// then below the horizon or overhead, so that the slip was not made.
func (c cause) bearing(located locator, t time.Time, p angle.Position) (angle.True, bool) {
	t, p = c.right(t, p)
	return located.up(t, p)
}

// causes returns the slips that are tried for bearings of a body from about a longitude, the
// likeliest first. It tries only hours by which clocks are set. Of all twenty-four hours, one would
// explain nearly any error of a single bearing.
func causes(longitude angle.Longitude) []cause {
	var causes []cause
	hour := func(h int, w working.Warning) {
		causes = append(causes, cause{namedSlip{swing.HourOff, w}, func(t time.Time, p angle.Position) (time.Time, angle.Position) {
			return t.Add(time.Duration(h) * time.Hour), p
		}})
	}
	hour(1, working.Warn("", "slip-hour-slow", "perhaps the time is 1 hour slow"))
	hour(-1, working.Warn("", "slip-hour-fast", "perhaps the time is 1 hour fast, as if summer or zone time was written as UTC"))
	if zone := int(longitude.Angle().Round(15*angle.Degree) / (15 * angle.Degree)); zone < -1 || zone > 1 {
		hour(-zone, working.Warn("", "slip-zone-time", "perhaps zone time, UTC%+d, was written as UTC", zone))
		hour(zone, working.Warn("", "slip-zone-misnamed", "perhaps the zone, %+d hours, was applied the wrong way", zone))
	}
	hour(12, working.Warn("", "slip-12-hours-slow", "perhaps the time is 12 hours slow"))
	hour(-12, working.Warn("", "slip-12-hours-fast", "perhaps the time is 12 hours fast"))
	causes = append(causes,
		cause{namedSlip{swing.LongitudeMisnamed, working.Warn("", "slip-longitude-misnamed", "perhaps the longitude is named the wrong way")}, func(t time.Time, p angle.Position) (time.Time, angle.Position) {
			p.Longitude = angle.LongitudeFrom(-p.Longitude.Angle())
			return t, p
		}},
		cause{namedSlip{swing.LatitudeMisnamed, working.Warn("", "slip-latitude-misnamed", "perhaps the latitude is named the wrong way")}, func(t time.Time, p angle.Position) (time.Time, angle.Position) {
			p.Latitude = angle.Must(angle.LatitudeFrom(-p.Latitude.Angle()))
			return t, p
		}},
	)
	date := func(w working.Warning, change func(time.Time) time.Time) {
		causes = append(causes, cause{namedSlip{swing.AnotherDay, w}, func(t time.Time, p angle.Position) (time.Time, angle.Position) {
			return change(t.UTC()), p
		}})
	}
	date(working.Warn("", "slip-day-and-month", "perhaps day and month are exchanged"), func(t time.Time) time.Time {
		if t.Day() > 12 {
			return t // there is no such month
		}
		return dated(t, time.Month(t.Day()), int(t.Month()))
	})
	date(working.Warn("", "slip-month-early", "perhaps the date is a month early"), func(t time.Time) time.Time { return dated(t, t.Month()+1, t.Day()) })
	date(working.Warn("", "slip-month-late", "perhaps the date is a month late"), func(t time.Time) time.Time { return dated(t, t.Month()-1, t.Day()) })
	date(working.Warn("", "slip-day-early", "perhaps the date is a day early"), func(t time.Time) time.Time { return t.AddDate(0, 0, 1) })
	date(working.Warn("", "slip-day-late", "perhaps the date is a day late"), func(t time.Time) time.Time { return t.AddDate(0, 0, -1) })
	return causes
}

// dated returns the same time of another day of the year.
func dated(t time.Time, month time.Month, day int) time.Time {
	return time.Date(t.Year(), month, day, t.Hour(), t.Minute(), t.Second(), t.Nanosecond(), time.UTC)
}

// mostWatchError is the largest error of a watch that is tried.
const mostWatchError = 30 * time.Minute

// watchError returns how much a watch was slow (positive) or fast if the body was on the bearing
// given. It reports false if no error up to half an hour explains the bearing, if the body was down
// then, or if its bearing turns back in that time.
func watchError(located locator, t time.Time, p angle.Position, wanted angle.True) (slow time.Duration, ok bool) {
	off := func(d time.Duration) (angle.Angle, bool) {
		bearing, up := located.up(t.Add(d), p)
		return bearing.Sub(wanted), up
	}
	low, high := -mostWatchError, mostWatchError
	a, _ := off(low) // the body may be down then
	b, _ := off(high)
	if (a < 0) == (b < 0) {
		return 0, false
	}
	for high-low > time.Second {
		middle := low + (high-low)/2
		if m, _ := off(middle); (m < 0) == (a < 0) {
			low = middle
		} else {
			high = middle
		}
	}
	slow = low.Round(time.Second)
	left, up := off(slow)
	return slow, up && left.Abs() <= angle.Degree // it jumps overhead and at the reciprocal
}

// watchSlip is the slip of a watch that was wrong.
func watchSlip(slow time.Duration) namedSlip {
	s := namedSlip{slip: swing.WatchOff}
	switch {
	case slow >= time.Minute:
		s.warning = working.Warn("", "slip-watch-minutes-slow", "perhaps the watch is %.0f min slow", slow.Minutes())
	case slow > 0:
		s.warning = working.Warn("", "slip-watch-seconds-slow", "perhaps the watch is %.0f s slow", slow.Seconds())
	case slow <= -time.Minute:
		s.warning = working.Warn("", "slip-watch-minutes-fast", "perhaps the watch is %.0f min fast", -slow.Minutes())
	default:
		s.warning = working.Warn("", "slip-watch-seconds-fast", "perhaps the watch is %.0f s fast", -slow.Seconds())
	}
	return s
}
