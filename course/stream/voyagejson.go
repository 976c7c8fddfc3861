package stream

import (
	"encoding/json"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// A span is a time that is written as 1h30m0s.
type span time.Duration

// MarshalText returns the time as 1h30m0s.
func (s span) MarshalText() ([]byte, error) { return []byte(time.Duration(s).String()), nil }

// UnmarshalText reads a time such as 1h30m0s.
func (s *span) UnmarshalText(text []byte) error {
	d, err := time.ParseDuration(string(text))
	if err != nil {
		return &angle.ParseError{What: "time", Input: string(text), Kind: angle.NoNumber, Want: "a time such as 1h30m0s"}
	}
	*s = span(d)
	return nil
}

// The structs without their methods, with the times as text.
type (
	plainHour     CrossingHour
	plainCrossing Crossing
	plainRun      ReckonedRun
	plainHourly   Hourly

	hourData struct {
		plainHour
		Ground Motion `json:"ground"`
		Lasts  span   `json:"lasts"`
	}
	crossingData struct {
		From   angle.Position `json:"from"`
		To     angle.Position `json:"to"`
		Depart time.Time      `json:"depart"`
		Run    sailing.Run    `json:"run"`
		plainCrossing
		Drift sailing.Run `json:"drift"`
		Lasts span        `json:"lasts"`
		Hours []hourData  `json:"hours"`
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

// MarshalJSON returns the crossing as JSON, exactly, with its ends, its track and the drift of
// all streams. Its times have the form 2h5m0s.
func (c Crossing) MarshalJSON() ([]byte, error) {
	hours := make([]hourData, len(c.Hours))
	for i, h := range c.Hours {
		hours[i] = hourData{plainHour(h), h.ground, span(h.Lasts)}
	}
	return json.Marshal(crossingData{c.from, c.to, c.depart, c.run, plainCrossing(c), c.drift, span(c.Lasts), hours})
}

// MarshalJSON returns the run as JSON, exactly. Lasts has the form 1h30m0s. Unset
// uncertainties are absent.
func (r ReckonedRun) MarshalJSON() ([]byte, error) {
	return json.Marshal(runData{plainRun(r), span(r.Lasts)})
}

// UnmarshalJSON reads the JSON of [ReckonedRun.MarshalJSON]. It returns the errors of
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

// MarshalJSON returns the streams as JSON, exactly. Period has the form 1h0m0s and is absent
// if zero.
func (h Hourly) MarshalJSON() ([]byte, error) {
	return json.Marshal(hourlyData{plainHourly(h), span(h.Period)})
}

// UnmarshalJSON reads the JSON of [Hourly.MarshalJSON]. It returns the errors of
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
