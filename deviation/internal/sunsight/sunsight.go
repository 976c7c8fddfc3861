// Package sunsight judges bearings of the Sun and other bodies for swings and checks, and reads the times of records.
package sunsight

import (
	"errors"
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/sky"
)

// ParseTime reads a date and time as records give it.
func ParseTime(text string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return time.Time{}, fmt.Errorf("%.60q is not a date and time; write it as 2026-05-14T17:03:20Z", text)
	}
	return t, nil
}

// ErrDown is the error of a body that cannot have been seen.
var ErrDown = errors.New("below the horizon: check date, time (UTC) and position")

// ErrOverhead is the error of a body in the zenith.
var ErrOverhead = errors.New("overhead and has no bearing")

// The bounds of altitudes.
const (
	down = -angle.Degree - 30*angle.Minute // refraction, semi-diameter and some dip raise the upper limb by less
	high = 45 * angle.Degree               // above it a tilt of the card by 1° is an error of 1° or more
)

// HighBody warns of a body so high that a tilt spoils its bearing.
const HighBody working.WarningKind = "high-body"

// IsUp reports whether a body may be seen: neither below the horizon nor without a bearing.
func IsUp(sight sky.Sight) bool { return !isDown(sight) && sight.Defined() }

// isDown reports whether a body is too low to be seen.
func isDown(sight sky.Sight) bool {
	return sight.Altitude-angle.Must(sight.Body.HorizontalParallax.Scale(sight.Altitude.Cos())) < down
}

// At is the Sun's true bearing with what warns of it.
func At(t time.Time, p angle.Position) (sky.Sight, []working.Warning, error) {
	s, err := sky.Sun(t)
	if err != nil {
		return sky.Sight{}, nil, err
	}
	sight := s.From(p)
	warnings, err := Judge(sight)
	if err != nil {
		return sky.Sight{}, nil, err
	}
	return sight, warnings, nil
}

// Judge returns what warns of a body's bearing. If the body cannot have been seen, it returns
// [ErrDown]; in the zenith, [ErrOverhead].
func Judge(sight sky.Sight) ([]working.Warning, error) {
	switch {
	case isDown(sight):
		return nil, fmt.Errorf("%s was %w; it stood %.1f° below", sight.Body.Name, ErrDown, -sight.Altitude.Degrees())
	case !sight.Defined():
		return nil, fmt.Errorf("%s was %w", sight.Body.Name, ErrOverhead)
	case sight.Altitude > high:
		return []working.Warning{working.Warn(HighBody, "high-body", "%s was %.0f° high: a tilt of the card or the sight spoils the bearing; observe it low", sight.Body.Name, sight.Altitude.Degrees())}, nil
	}
	return nil, nil
}
