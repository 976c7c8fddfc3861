package sky

import (
	"fmt"
	"time"

	"lubberline.example/angle"
)

// An Event is a moment of the Sun's daily course.
type Event string

// The events.
const (
	// Rise is when the upper limb appears on a level horizon: the true altitude
	// of the centre rises to [RiseSetAltitude].
	Rise Event = "rise"

	// Set is when the upper limb disappears: the altitude falls below
	// RiseSetAltitude.
	Set Event = "set"

	// MeridianPassage is when the local hour angle is zero, at local apparent noon. There is one in
	// the polar night too.
	MeridianPassage Event = "meridian-passage"
)

// RiseSetAltitude is the true altitude of the Sun's centre at rising and setting by the almanacs'
// convention. It is 34′ of refraction and 16′ of semi-diameter, seen from the water's edge. From a
// height of eye, the dip makes the Sun rise earlier and set later.
const RiseSetAltitude = -50 * angle.Minute

// How far ahead events are looked for: ordinary days first, then polar days and nights.
const (
	ordinarySearch = 48 * time.Hour
	longestSearch  = 400 * 24 * time.Hour
)

// Next returns the first time strictly after an instant at which the Sun rises, sets or passes the
// meridian at a position, in UTC. It looks 48 hours ahead. If the Sun does not rise or set in that
// time, as in high latitudes, it returns an [*Error]. See [NextWithin] for other times and errors.
func Next(event Event, p angle.Position, after time.Time) (time.Time, error) {
	return NextWithin(event, p, after, ordinarySearch)
}

// NextWithin is like [Next], but looks ahead for a given time, from 0 to 400 days. At a pole the
// Sun rises once a year.
//
// The time agrees with [Sun] and [Body.From] to the millisecond. The real Sun depends on the air:
// it is often a minute early or late below latitude 65°, and a day at the poles. If the Sun rises
// or dips by less than a second of arc, the event may be missed.
//
// If there is no such event, it returns an [*Error]. Its kind is [StaysAbove] or [StaysBelow], by
// the side of the horizon on which the Sun is at the end of the search. If the search leaves the
// years of Sun, the kind is [OutsideYears]. If the event is unknown, it returns an
// [*angle.ParseError], and if within is not between 0 and 400 days, an [*angle.RangeError].
func NextWithin(event Event, p angle.Position, after time.Time, within time.Duration) (time.Time, error) {
	if within < 0 || within > longestSearch {
		return time.Time{}, &angle.RangeError{What: "days to search", Value: within.Hours() / 24, Accepted: "0 to 400 days"}
	}
	after = after.UTC()
	switch event {
	case MeridianPassage:
		return nextPassage(p, after, within)
	case Rise, Set:
		return nextCrossing(event, p, after, within)
	}
	return time.Time{}, &angle.ParseError{What: "event of the Sun", Input: string(event), Kind: angle.UnknownWord, Want: "rise, set or meridian-passage"}
}

// nextPassage looks for the meridian passage.
func nextPassage(p angle.Position, after time.Time, within time.Duration) (time.Time, error) {
	sun, err := Sun(after)
	if err != nil {
		return time.Time{}, err
	}
	t := after.Add(hours(angle.Turn - sun.From(p).LocalHourAngle))
	for {
		// The Sun gains or loses less than half a minute a day on 15° an hour. So each step reduces
		// the error to a few thousandths.
		for range 3 {
			if sun, err = Sun(t); err != nil {
				return time.Time{}, err
			}
			t = t.Add(-hours(sun.From(p).LocalHourAngle.NormalizedSigned()))
		}
		// After an instant of passage the guess may lead back to it.
		if t.Sub(after) >= time.Millisecond {
			break
		}
		t = t.Add(24 * time.Hour)
	}
	if t.Sub(after) > within {
		return time.Time{}, noEvent(MeridianPassage, p, after, within, sun)
	}
	return t, nil
}

// hours returns the time in which the mean Sun moves through an angle.
func hours(a angle.Angle) time.Duration { return time.Duration(a / 15) }

// noEvent returns the error of a search that found nothing, with the Sun at its end.
func noEvent(event Event, p angle.Position, after time.Time, within time.Duration, end Body) error {
	stays := StaysBelow
	if end.From(p).Altitude >= RiseSetAltitude {
		stays = StaysAbove
	}
	return &Error{
		What: fmt.Sprintf("%v at %v in the %v hours after %s", words(event), p, within.Hours(), after.Format(time.RFC3339)),
		Kind: stays,
	}
}
