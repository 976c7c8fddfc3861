package sky

import (
	"fmt"
	"strings"
	"time"

	"lubberline.example/angle"
)

// An ErrorKind says why a question about the sky has no answer.
type ErrorKind string

// The kinds of errors.
const (
	OutsideYears ErrorKind = "outside-years" // the time is not in the years 1950 to 2100, or is zero
	NoBearing    ErrorKind = "no-bearing"    // the body is in the zenith or the nadir, or on the horizon all day
	StaysAbove   ErrorKind = "stays-above"   // the Sun does not rise or set: it stays above the horizon
	StaysBelow   ErrorKind = "stays-below"   // the Sun does not rise or set: it stays below the horizon
)

// An Error reports a question about the sky that has no answer.
type Error struct {
	Kind     ErrorKind
	Time     time.Time   // the time asked for, in UTC, if Kind is OutsideYears
	Altitude angle.Angle // of the body's centre, if Kind is NoBearing
	What     string      // what was looked for, in words, if the Sun stays above or below
}

// Error says what was wrong and what is accepted.
func (e *Error) Error() string {
	switch e.Kind {
	case OutsideYears:
		if e.Time.IsZero() {
			return "sky: no time given: give a time in UTC in the years 1950 to 2100"
		}
		return "sky: " + e.Time.Format(time.RFC3339) + ": give a time in the years 1950 to 2100, UTC"
	case NoBearing:
		return fmt.Sprintf("sky: at altitude %v the body has no bearing: it must not be in the zenith, in the nadir, or on the horizon all day", e.Altitude)
	}
	side, _ := strings.CutPrefix(string(e.Kind), "stays-")
	return "sky: no " + e.What + ": the Sun stays " + side + " the horizon; give a latitude or a date at which it crosses the horizon"
}

// checkDeclination refuses an angle that cannot be a declination.
func checkDeclination(declination angle.Angle) error {
	if declination < -90*angle.Degree || declination > 90*angle.Degree {
		return &angle.RangeError{What: "declination", Value: declination.Degrees(), Accepted: "−90 to 90 degrees"}
	}
	return nil
}

// words returns a kebab-case word as text.
func words[W ~string](w W) string { return strings.ReplaceAll(string(w), "-", " ") }
