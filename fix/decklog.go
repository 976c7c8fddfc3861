package fix

import (
	"lubberline.example/angle/record"
	"lubberline.example/course/decklog"
)

// TrackOfLog returns the track of a deck log: its runs, and its fixes as observed latitudes and
// longitudes. A fix is weighted against the reckoning, whereas the reckoning of the log begins
// again there. So each fix after the first needs its uncertainty.
//
// If a fix cannot be observed, it returns a [*record.Error] whose Row is the number of the
// entry, which wraps the error of [Track.Observe].
func TrackOfLog(r decklog.Reckoning) (*Track, error) {
	if len(r.Points) == 0 {
		return nil, &Error{Kind: InvalidInput, Reason: "the log has no rows: give at least one"}
	}
	start := r.Points[0].EP
	if f := r.Points[0].Fix; f != nil {
		start = *f
	}
	t := NewTrack(start)
	for i, p := range r.Points[1:] {
		fail := func(err error) (*Track, error) { return nil, &record.Error{Row: i + 2, Err: err} }
		if p.Run != nil {
			if _, err := t.Run(*p.Run); err != nil {
				return fail(err)
			}
		}
		if p.Fix == nil {
			continue
		}
		sigma, _ := p.Entry.FixUncertainty.Sigma()
		latitude, err := Latitude(p.Fix.Position.Latitude, sigma)
		if err != nil {
			return fail(err)
		}
		longitude, err := Longitude(p.Fix.Position.Longitude, sigma)
		if err != nil {
			return fail(err)
		}
		if _, err := t.Observe(latitude.WithTime(p.Time), longitude.WithTime(p.Time)); err != nil {
			return fail(err)
		}
	}
	return t, nil
}
