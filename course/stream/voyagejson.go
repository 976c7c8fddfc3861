package stream

import (
	"encoding/json"
	"slices"
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
	plainSteering Steering
	plainHour     CrossingHour
	plainCrossing Crossing
	plainRun      ReckonedRun
	plainHourly   Hourly

	steeringData struct {
		plainSteering
		Sought string `json:"sought,omitempty"`
	}
	hourData struct {
		plainHour
		Lasts span `json:"lasts"`
	}
	crossingData struct {
		plainCrossing
		Time span `json:"time"`
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

// soughts are the sides of a [Steering] that may have been unknown.
var soughts = []string{"", soughtWater, soughtGround, soughtBoth, soughtNearest, soughtLeeway}

// MarshalJSON gives the triangle exactly, and says which side of it was sought.
func (s Steering) MarshalJSON() ([]byte, error) {
	return json.Marshal(steeringData{plainSteering(s), s.sought})
}

// UnmarshalJSON reads what [Steering.MarshalJSON] writes. Errors are those of
// encoding/json, and an [*angle.ParseError] for a text that is none.
func (s *Steering) UnmarshalJSON(text []byte) error {
	var data steeringData
	if err := json.Unmarshal(text, &data); err != nil {
		return err
	}
	if !slices.Contains(soughts, data.Sought) {
		return &angle.ParseError{What: "sought", Input: data.Sought, Kind: angle.UnknownWord, Want: "water, ground, both, nearest or leeway"}
	}
	*s = Steering(data.plainSteering)
	s.sought = data.Sought
	return nil
}

// MarshalJSON gives the part of a crossing exactly, how long it lasts as 1h0m0s.
func (h CrossingHour) MarshalJSON() ([]byte, error) {
	return json.Marshal(hourData{plainHour(h), span(h.Lasts)})
}

// UnmarshalJSON reads what [CrossingHour.MarshalJSON] writes. Errors are those of
// encoding/json, and an [*angle.ParseError] for a text that is none.
func (h *CrossingHour) UnmarshalJSON(text []byte) error {
	var data hourData
	if err := json.Unmarshal(text, &data); err != nil {
		return err
	}
	*h = CrossingHour(data.plainHour)
	h.Lasts = time.Duration(data.Lasts)
	return nil
}

// MarshalJSON gives the crossing exactly, its time as 2h5m0s.
func (c Crossing) MarshalJSON() ([]byte, error) {
	return json.Marshal(crossingData{plainCrossing(c), span(c.Time)})
}

// UnmarshalJSON reads what [Crossing.MarshalJSON] writes. Errors are those of
// encoding/json, and an [*angle.ParseError] for a text that is none.
func (c *Crossing) UnmarshalJSON(text []byte) error {
	var data crossingData
	if err := json.Unmarshal(text, &data); err != nil {
		return err
	}
	*c = Crossing(data.plainCrossing)
	c.Time = time.Duration(data.Time)
	return nil
}

// MarshalJSON gives the run exactly, how long it lasts as 1h30m0s. Uncertainties that
// are not stated are left out.
func (r ReckonedRun) MarshalJSON() ([]byte, error) {
	return json.Marshal(runData{plainRun(r), span(r.Lasts)})
}

// UnmarshalJSON reads what [ReckonedRun.MarshalJSON] writes. Errors are those of
// encoding/json, and an [*angle.ParseError] for a text that is none.
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
// encoding/json, and an [*angle.ParseError] for a text that is none.
func (h *Hourly) UnmarshalJSON(text []byte) error {
	var data hourlyData
	if err := json.Unmarshal(text, &data); err != nil {
		return err
	}
	*h = Hourly(data.plainHourly)
	h.Period = time.Duration(data.Period)
	return nil
}
