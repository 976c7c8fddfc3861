package check

import (
	"io"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/sunsight"
	"lubberline.example/variation"
)

// ReadLog reads a log of checks from CSV or JSON (see package [record]), for [ReviewCard]. The
// columns are heading (by compass), deviation (as found) and uncertainty (its standard uncertainty,
// with that of the variation). The columns time (UTC, as in 2026-05-14T17:03:20Z), against (in
// words), variation, bearing (by compass) and position may follow. Give the variation as applied,
// with its uncertainty: 5°08′W ±0°15′. Checks share its error, and a review without it condemns a
// good card more often. With bearing, time and position, a review can say what may be wrong with a
// check by the Sun or a star. A deviation of more than 90° has the warning [NotADeviation], and one
// of more than 30° has [LargeDeviation]. Errors are a [*record.Error].
func ReadLog(r io.Reader) ([]Check, error) {
	rows, err := record.Read(r, record.Columns{
		Required: []string{"heading", "deviation", "uncertainty"},
		Optional: []string{"time", "against", "variation", "bearing", "position"},
	})
	if err != nil {
		return nil, err
	}
	checks, explained := make([]Check, len(rows)), 0
	for i, row := range rows {
		c := &checks[i]
		c.Against = row.Text("against")
		if c.Heading, err = angle.ParseCompass(row.Text("heading")); err != nil {
			return nil, row.Fault("heading", err)
		}
		if c.Deviation, err = deviation.Parse(row.Text("deviation")); err != nil {
			return nil, row.Fault("deviation", err)
		}
		var u angle.Uncertainty
		if err = u.UnmarshalText([]byte(row.Text("uncertainty"))); err != nil {
			return nil, row.Fault("uncertainty", err)
		}
		c.Deviation = c.Deviation.WithUncertainty(u)
		if row.Has("variation") {
			if c.Variation, err = variation.Parse(row.Text("variation")); err != nil {
				return nil, row.Fault("variation", err)
			}
			own, err := ownPart(u, c.Variation.Uncertainty())
			if err != nil {
				return nil, row.Fault("uncertainty", err)
			}
			c.Error = c.Variation.Plus(c.Deviation.EastWest).WithUncertainty(harmonic.Sigma(own))
		}
		if row.Has("time") {
			if c.Time, err = sunsight.ParseTime(row.Text("time")); err != nil {
				return nil, row.Fault("time", err)
			}
		}
		if row.Has("bearing") {
			bearing, err := angle.ParseCompass(row.Text("bearing"))
			if err != nil {
				return nil, row.Fault("bearing", err)
			}
			c.Bearing = &bearing
		}
		if row.Has("position") {
			position, err := angle.ParsePosition(row.Text("position"))
			if err != nil {
				return nil, row.Fault("position", err)
			}
			c.Position = &position
		}
		if c.Warnings = c.tooLarge(explained < mostExplained); len(c.Warnings) > 0 {
			explained++
		}
	}
	return checks, nil
}
