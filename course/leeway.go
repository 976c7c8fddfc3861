package course

import (
	"fmt"

	"lubberline.example/angle"
)

// A Wind is named by the direction from which it blows. (A stream is named the
// other way; see [Stream].)
type Wind struct {
	From angle.True `json:"from"` // from which it blows
}

// A Leeway is the angle by which the wind sets a vessel to leeward of her heading,
// with the side that the wind is on. The zero value is none.
type Leeway struct {
	Angle  angle.Angle `json:"angle"`  // from 0 to 45°
	WindOn angle.Side  `json:"windOn"` // the weather side: she is set to the other
}

// MostLeeway is the largest leeway that is taken for one.
const MostLeeway = 45 * angle.Degree

// A LeewayError reports a leeway that can't be applied.
type LeewayError struct {
	Leeway angle.Angle    // the one given
	Wind   angle.Relative // from the bow
	Reason string         // why, and what is accepted
}

// Error says why and what is accepted.
func (e *LeewayError) Error() string { return fmt.Sprintf("course: leeway %v: %s", e.Leeway, e.Reason) }

// LeewayOn returns the leeway of a vessel that heads so, on the side that the wind
// blows from. A wind right ahead or astern is on no side: it is refused with a
// [*LeewayError] unless the leeway is nought, as are leeways below 0 or over 45°.
func LeewayOn(heading angle.True, leeway angle.Angle, wind Wind) (Leeway, error) {
	relative := wind.From.Relative(heading)
	if leeway < 0 || leeway > MostLeeway {
		return Leeway{}, &LeewayError{leeway, relative, "want 0 to 45°; the side follows from the wind"}
	}
	off := wind.From.Sub(heading)
	if leeway != 0 && (off == 0 || off == angle.Turn/2) {
		return Leeway{}, &LeewayError{leeway, relative, "the wind is right ahead or astern and sets to neither side"}
	}
	side := angle.Starboard
	if off < 0 {
		side = angle.Port
	}
	return Leeway{leeway, side}, nil
}

// Deflection is what the leeway turns the vessel's way by: clockwise, positive,
// with the wind on the port side (port tack), the other way on starboard. Added to
// a heading, of whichever north, it gives the course through the water; taken from
// a course through the water, the heading that makes it.
func (l Leeway) Deflection() angle.Angle {
	if l.WindOn == angle.Port {
		return l.Angle
	}
	return -l.Angle
}

// String returns the leeway as 5°00′ to port: the side toward which she is set.
func (l Leeway) String() string {
	to := "port"
	if l.WindOn == angle.Port {
		to = "starboard"
	}
	return l.Angle.String() + " to " + to
}
