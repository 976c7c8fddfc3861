package wmm

import (
	"strconv"

	"lubberline.example/angle"
)

// A Zone says how far a compass is to be trusted, by the horizontal intensity. The
// zero value is ClearZone.
type Zone int

// The zones of the World Magnetic Model (technical report for 2020-2025).
const (
	ClearZone    Zone = iota // 6,000 nT and over
	CautionZone              // from 2,000 to under 6,000 nT: the compass may be sluggish and wrong
	BlackoutZone             // under 2,000 nT: the compass is not to be relied upon
)

// String returns "clear", "caution" or "blackout".
func (z Zone) String() string {
	switch z {
	case ClearZone:
		return "clear"
	case CautionZone:
		return "caution"
	case BlackoutZone:
		return "blackout"
	}
	return "Zone(" + strconv.Itoa(int(z)) + ")"
}

// AppendText appends what [Zone.String] returns. It refuses what is no zone with an
// [*angle.RangeError].
func (z Zone) AppendText(b []byte) ([]byte, error) {
	if z < ClearZone || z > BlackoutZone {
		return b, &angle.RangeError{What: "zone", Value: float64(z), Accepted: "ClearZone (0), CautionZone (1) or BlackoutZone (2)"}
	}
	return append(b, z.String()...), nil
}

// MarshalText returns the text of [Zone.AppendText].
func (z Zone) MarshalText() ([]byte, error) { return z.AppendText(nil) }

// UnmarshalText reads "clear", "caution" or "blackout", and refuses the rest with an
// [*angle.ParseError].
func (z *Zone) UnmarshalText(text []byte) error {
	for zone := ClearZone; zone <= BlackoutZone; zone++ {
		if string(text) == zone.String() {
			*z = zone
			return nil
		}
	}
	kind := angle.UnknownWord
	if len(text) == 0 {
		kind = angle.Empty
	}
	return &angle.ParseError{What: "zone", Input: string(text), Kind: kind, Want: "clear, caution or blackout"}
}

// Zone returns the zone that the field belongs to; BlackoutZone if it is NaN.
func (f Field) Zone() Zone {
	switch h := f.H(); {
	case !(h >= 2000):
		return BlackoutZone
	case h < 6000:
		return CautionZone
	}
	return ClearZone
}
