package sky

import (
	"fmt"
	"time"

	"lubberline.example/angle"
)

// A DateError reports an instant for which the Sun's place is not given.
type DateError struct {
	Time time.Time // the instant, in UTC; zero if it was left out
}

// Error says what was wrong and what is accepted.
func (e *DateError) Error() string {
	if e.Time.IsZero() {
		return "sun: no time given: want one of the years 1950 to 2100, UTC"
	}
	return "sun: " + e.Time.Format(time.RFC3339) + ": want the years 1950 to 2100, UTC"
}

// An UndefinedError reports a Sun that has no bearing, in the zenith or in the
// nadir, or no one bearing at rising, on the horizon all day.
type UndefinedError struct {
	Altitude angle.Angle // of the Sun's centre
}

// Error says why there is no bearing.
func (e *UndefinedError) Error() string {
	return fmt.Sprintf("sun: no bearing at altitude %v: want a Sun that is neither in the zenith nor in the nadir, nor on the horizon all day", e.Altitude)
}

// A Standing says on which side of a horizon the Sun is.
type Standing int

// The two sides of a horizon.
const (
	Above Standing = iota
	Below
)

var standingWords = []string{"above", "below"}

// String returns "above" or "below".
func (s Standing) String() string { return wordOf(s, standingWords) }

// AppendText appends what [Standing.String] returns. It refuses what is none of these
// with an [*angle.RangeError].
func (s Standing) AppendText(b []byte) ([]byte, error) {
	return appendWord(b, "standing", s, standingWords)
}

// MarshalText returns the text of [Standing.AppendText].
func (s Standing) MarshalText() ([]byte, error) { return s.AppendText(nil) }

// UnmarshalText reads what MarshalText writes, and refuses the rest with a
// [*angle.ParseError].
func (s *Standing) UnmarshalText(text []byte) error {
	return readWord(s, text, "standing", standingWords)
}

// A NoEventError reports that the Sun does not rise, set or cross an altitude,
// as in the summer and winter of high latitudes.
type NoEventError struct {
	What   string   // what was looked for, in words
	Always Standing // where the Sun stays instead, above or below the horizon in question
}

// Error says what was looked for and where the Sun stays.
func (e *NoEventError) Error() string {
	return "sun: no " + e.What + ": the Sun stays " + e.Always.String() + " the horizon; want a latitude or a date at which it crosses it"
}

// checkDeclination refuses what is no declination.
func checkDeclination(declination angle.Angle) error {
	if declination < -90*angle.Degree || declination > 90*angle.Degree {
		return &angle.RangeError{What: "declination", Value: declination.Degrees(), Accepted: "−90 to 90 degrees"}
	}
	return nil
}
