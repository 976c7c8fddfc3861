package stream

import (
	"encoding/json"
	"time"

	"lubberline.example/angle"
)

// A span is a time as it is written: 1h30m0s.
type span time.Duration

func (s span) MarshalText() ([]byte, error) { return []byte(time.Duration(s).String()), nil }

func (s *span) UnmarshalText(text []byte) error {
	d, err := time.ParseDuration(string(text))
	if err != nil {
		return &angle.ParseError{What: "time", Input: string(text), Kind: angle.NoNumber, Want: "a time such as 1h30m0s"}
	}
	*s = span(d)
	return nil
}

// The structs without their methods, and with the times as text.
type (
	plainHour     CrossingHour
	plainCrossing Crossing
	plainRun      ReckonedRun
	plainHourly   Hourly

	hourData struct {
		plainHour
		Lasts span `json:"lasts"`
	}
	crossingData struct {
		plainCrossing
		Time  span       `json:"time"`
		Hours []hourData `json:"hours"`
	}
	runData struct {
		plainRun
		Lasts span `json:"lasts"`
	}
	hourlyData struct {
		plainHourly
		Period span `json:"period,omitzero"`
	}
)

// MarshalJSON gives the crossing exactly, its times as 2h5m0s.
func (c Crossing) MarshalJSON() ([]byte, error) {
	hours := make([]hourData, len(c.Hours))
	for i, h := range c.Hours {
		hours[i] = hourData{plainHour(h), span(h.Lasts)}
	}
	return json.Marshal(crossingData{plainCrossing(c), span(c.Time), hours})
}

// MarshalJSON gives the run exactly, how long it lasts as 1h30m0s. Uncertainties that
// are not stated are left out.
func (r ReckonedRun) MarshalJSON() ([]byte, error) {
	return json.Marshal(runData{plainRun(r), span(r.Lasts)})
}

// UnmarshalJSON reads what [ReckonedRun.MarshalJSON] writes. Errors are those of
// encoding/json, and an [*angle.ParseError] for an invalid text.
func (r *ReckonedRun) UnmarshalJSON(text []byte) error {
	var data runData
	if err := json.Unmarshal(text, &data); err != nil {
		return err
	}
	*r = ReckonedRun(data.plainRun)
	r.Lasts = time.Duration(data.Lasts)
	return nil
}

// MarshalJSON gives the streams exactly, a period other than zero as 1h0m0s.
func (h Hourly) MarshalJSON() ([]byte, error) {
	return json.Marshal(hourlyData{plainHourly(h), span(h.Period)})
}

// UnmarshalJSON reads what [Hourly.MarshalJSON] writes. Errors are those of
// encoding/json, and an [*angle.ParseError] for an invalid text.
func (h *Hourly) UnmarshalJSON(text []byte) error {
	var data hourlyData
	if err := json.Unmarshal(text, &data); err != nil {
		return err
	}
	*h = Hourly(data.plainHourly)
	h.Period = time.Duration(data.Period)
	return nil
}
