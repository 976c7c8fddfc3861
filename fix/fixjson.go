package fix

import (
	"encoding/json"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// fixData is a fix as JSON: its lines and options, and the results.
type fixData struct {
	Lines   []Line  `json:"lines"`
	Options Options `json:"options"`

	Position         angle.Position      `json:"position"`
	Covariance       *sailing.Covariance `json:"covariance,omitempty"` // absent if unknown
	Ellipse          *sailing.Ellipse    `json:"ellipse,omitempty"`    // 95 %; absent if unknown, or if the lines do not agree
	Residuals        []Residual          `json:"residuals"`
	ChiSquare        float64             `json:"chiSquare"`
	DegreesOfFreedom int                 `json:"degreesOfFreedom"`
	Probability      float64             `json:"probability"`
	CompassError     *angle.EastWest     `json:"compassError,omitempty"` // if it was solved for
	Alternatives     []angle.Position    `json:"alternatives,omitempty"`
	Suspicions       []Suspicion         `json:"suspicions,omitempty"`
	Warnings         []working.Warning   `json:"warnings,omitempty"`
}

// MarshalJSON returns the fix as JSON: the lines and options, the results, the 95 % ellipse and
// the warnings. If the lines do not agree, there is no ellipse. Errors are those of
// [Line.MarshalJSON]. To read a fix back, solve its lines and options again: that gives the
// same fix.
func (f Fix) MarshalJSON() ([]byte, error) {
	d := fixData{
		Lines: f.Lines(), Options: f.solver.options, Position: f.position, Residuals: f.residuals, ChiSquare: f.chiSquare,
		DegreesOfFreedom: f.degreesOfFreedom, Probability: f.Probability(), Alternatives: f.alternatives, Suspicions: f.Suspicions(), Warnings: f.Warnings(),
	}
	if f.known {
		d.Covariance = &f.covariance
		if e, err := f.Ellipse(0.95); err == nil && !f.disagrees() {
			d.Ellipse = &e
		}
	}
	if f.solver.options.CompassError {
		d.CompassError = &f.compassError
	}
	return json.Marshal(d)
}

// trackData is a track as JSON.
type trackData struct {
	Start   stream.Estimate `json:"start"`
	Entries []Entry         `json:"entries"`
}

// MarshalJSON returns the track as JSON: its start and its entries. Errors are those of
// [Line.MarshalJSON]. A nil track is null.
func (t *Track) MarshalJSON() ([]byte, error) {
	if t == nil {
		return []byte("null"), nil
	}
	return json.Marshal(trackData{t.start, t.entries})
}

// UnmarshalJSON reads what [Track.MarshalJSON] writes, by [Replay]. Errors are those of
// [Replay].
func (t *Track) UnmarshalJSON(data []byte) error {
	if t == nil {
		return errNoTrack()
	}
	var d trackData
	if err := json.Unmarshal(data, &d); err != nil {
		return err
	}
	read, err := Replay(d.Start, d.Entries)
	if err != nil {
		return err
	}
	*t = *read
	return nil
}
