// Package sunsight computes bearings of the Sun for swings and checks, and reads the times of records.
package sunsight

import (
	"errors"
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/say"
	"lubberline.example/deviation/sky"
)

// ParseTime reads a date and time as records give it.
func ParseTime(text string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return time.Time{}, fmt.Errorf("%.60q: want a date and time such as 2026-05-14T17:03:20Z", text)
	}
	return t, nil
}

// ErrDown refuses a bearing of a Sun that can't have been seen.
var ErrDown = errors.New("the Sun was below the horizon: check date, time (UTC) and position")

// ErrOverhead refuses a bearing of a Sun in the zenith.
var ErrOverhead = errors.New("the Sun was overhead and has no bearing")

const (
	// Down is the altitude below which the Sun cannot be seen.
	Down    = -angle.Degree - 30*angle.Minute // refraction, semi-diameter and some dip raise the upper limb by less
	sunHigh = 45 * angle.Degree               // above it a tilt of the card by 1° is an error of 1° or more
)

// HighSun warns of a Sun so high that a tilt spoils its bearing.
const HighSun working.WarningKind = "high-sun"

// At is the Sun's true bearing with what warns of it.
func At(t time.Time, p angle.Position) (sky.Sight, []working.Warning, error) {
	s, err := sky.Sun(t)
	if err != nil {
		return sky.Sight{}, nil, err
	}
	sight := s.From(p)
	switch {
	case sight.Altitude < Down:
		return sky.Sight{}, nil, fmt.Errorf("%w; it stood %.1f° below", ErrDown, -sight.Altitude.Degrees())
	case !sight.Defined():
		return sky.Sight{}, nil, ErrOverhead
	case sight.Altitude > sunHigh:
		return sight, []working.Warning{say.Warn(HighSun, "the Sun was %.0f° high: a tilt of the card or the sight spoils the bearing; observe it low", sight.Altitude.Degrees())}, nil
	}
	return sight, nil, nil
}
