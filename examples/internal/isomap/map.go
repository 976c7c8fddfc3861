// Package isomap draws maps of magnetic variation: isogonic lines and lines of equal annual
// change, on a graticule.
package isomap

import (
	"errors"
	"fmt"
	"time"
	"unicode/utf8"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/wmm"
)

// A Map is a map of an area on a date.
type Map struct {
	Area  Area           // with the spacing that was chosen
	Lines []wmm.Isogonic // the lines that occur in the area

	evaluator *wmm.Evaluator
	title     string
	date      string
	survey    survey
}

// maxTitle is the number of characters of a title that fit on the narrowest sheet.
const maxTitle = 60

// CheckTitle returns an error if a title is too long.
func CheckTitle(title string) error {
	if utf8.RuneCountInString(title) > maxTitle {
		return fmt.Errorf("the title has %d characters: write at most %d", utf8.RuneCountInString(title), maxTitle)
	}
	return nil
}

// CheckEvery returns an error if a spacing is not one of whole minutes.
func CheckEvery(every angle.Angle) error {
	if every != 0 && (every < angle.Minute || every > 90*angle.Degree || every%angle.Minute != 0) {
		return errors.New("write degrees in whole minutes, from 1′ (0.0166667) to 90°, such as 0.5, or 0")
	}
	return nil
}

// New finds the lines of an area on a date. If the title is empty, it is "Magnetic variation" with
// the date.
func New(a Area, title string, date time.Time) (*Map, error) {
	e, err := wmm.Models().On(date)
	if err != nil {
		return nil, err
	}
	m := &Map{Area: a, evaluator: e, title: title, date: date.Format("2 January 2006")}
	if title == "" {
		m.title = "Magnetic variation, " + m.date
	}
	if m.survey, err = a.look(e); err != nil {
		return nil, err
	}
	if m.Area.Every == 0 {
		m.Area.Every = m.survey.spacing()
	}
	lines, err := e.Isogonics(m.Area.grid(), m.survey.levels(m.Area.Every)...)
	if err != nil {
		return nil, err
	}
	for _, i := range lines {
		if len(i.Lines) > 0 {
			m.Lines = append(m.Lines, i)
		}
	}
	return m, nil
}

// Every returns the spacing of the lines as it is printed.
func (m *Map) Every() string { return short(m.Area.Every) }

// Draw draws the map.
func (m *Map) Draw() (*drawing.Sheet, error) {
	s := newSheet(m.Area)
	s.date, s.model, s.survey, s.title = m.date, m.evaluator.Model(), m.survey, m.title
	return s.draw(m.evaluator, m.Lines)
}
