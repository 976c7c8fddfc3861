package deviation

import (
	"errors"
	"io"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
)

// ReadChecks reads a log of checks from CSV or JSON (see package record), for
// [ReviewChecks]. Its columns are heading, by compass, deviation, as found, and
// uncertainty, one standard deviation; and where wanted time (UTC, as in
// 2026-05-14T17:03:20Z) and against, in words. Errors are [*record.Error].
func ReadChecks(r io.Reader) ([]Check, error) {
	rows, err := record.Read(r, record.Columns{
		Required: []string{"heading", "deviation", "uncertainty"},
		Optional: []string{"time", "against"},
	})
	if err != nil {
		return nil, err
	}
	checks := make([]Check, len(rows))
	for i, row := range rows {
		c := &checks[i]
		c.Against = row.Text("against")
		if c.Heading, err = angle.ParseCompass(row.Text("heading")); err != nil {
			return nil, row.Fault("heading", err)
		}
		if c.Deviation, err = Parse(row.Text("deviation")); err != nil {
			return nil, row.Fault("deviation", err)
		}
		var u angle.Uncertainty
		if err = u.UnmarshalText([]byte(row.Text("uncertainty"))); err != nil {
			return nil, row.Fault("uncertainty", err)
		}
		c.Deviation = c.Deviation.WithUncertainty(u)
		if row.Has("time") {
			if c.Time, err = readTime(row.Text("time")); err != nil {
				return nil, row.Fault("time", err)
			}
		}
	}
	return checks, nil
}

// readTime reads a date and time as records give it.
func readTime(text string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return time.Time{}, errors.New("want a date and time such as 2026-05-14T17:03:20Z, got " + text)
	}
	return t, nil
}
