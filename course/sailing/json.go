package sailing

import (
	"encoding/json"

	"lubberline.example/angle"
)

// MarshalJSON gives the ends, the courses and the distance, exactly. They are not read
// back: make the circle again, with [NewGreatCircle] or [FollowGreatCircle].
func (g GreatCircle) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		From     angle.Position `json:"from"`
		To       angle.Position `json:"to"`
		Initial  angle.True     `json:"initial"`
		Final    angle.True     `json:"final"`
		Distance Distance       `json:"distance"`
	}{g.from, g.to, g.initial, g.final, g.distance})
}

// MarshalJSON gives the parts, exactly. They are not read back: make the sailing again,
// with [NewComposite].
func (c Composite) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		From     angle.Position `json:"from"`
		To       angle.Position `json:"to"`
		Limit    angle.Latitude `json:"limit"`
		Distance Distance       `json:"distance"`
		First    GreatCircle    `json:"first"`
		Parallel Run            `json:"parallel"`
		Last     GreatCircle    `json:"last"`
	}{c.from, c.to, c.limit, c.distance, c.first, c.parallel, c.last})
}

// plainWorked is a sailing without its methods.
type plainWorked Worked

// workedData is a sailing as it is written: its figure by name, and what was given.
type workedData struct {
	plainWorked
	Figure *string `json:"figure,omitempty"`
	Given  string  `json:"given"`
}

// What a sailing was worked from.
const (
	givenPositions = "positions"
	givenRun       = "run"
)

// MarshalJSON gives the sailing exactly, its figure of the earth by the text of
// [Ellipsoid.AppendText].
func (w Worked) MarshalJSON() ([]byte, error) {
	data := workedData{plainWorked: plainWorked(w), Given: givenPositions}
	if w.direct {
		data.Given = givenRun
	}
	if w.Figure != nil {
		text, err := w.Figure.MarshalText()
		if err != nil {
			return nil, err
		}
		name := string(text)
		data.Figure = &name
	}
	return json.Marshal(data)
}

// UnmarshalJSON reads what [Worked.MarshalJSON] writes. Errors are those of
// encoding/json, and an [*angle.ParseError] for an invalid text.
func (w *Worked) UnmarshalJSON(text []byte) error {
	var data workedData
	if err := json.Unmarshal(text, &data); err != nil {
		return err
	}
	read := Worked(data.plainWorked)
	switch data.Given {
	case givenPositions:
	case givenRun:
		read.direct = true
	default:
		return &angle.ParseError{What: "given", Input: data.Given, Kind: angle.UnknownWord, Want: "positions or run"}
	}
	if data.Figure != nil {
		var err error
		if read.Figure, err = ParseEllipsoid(*data.Figure); err != nil {
			return err
		}
	}
	*w = read
	return nil
}
