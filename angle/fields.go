package angle

// Fields is an angle taken apart the way it is written, with its sign kept
// apart from the degrees. To get the figures as they would be printed, round
// first:
//
//	f := a.Round(angle.Minute / 10).Fields()
//
// so that 60′ can't appear.
type Fields struct {
	Negative    bool  `json:"negative"`    // west, south, or to port; false for zero
	Degrees     int64 `json:"degrees"`     // whole degrees, 0 and upwards
	Minutes     int   `json:"minutes"`     // whole minutes, 0 to 59
	Seconds     int   `json:"seconds"`     // whole seconds, 0 to 59
	Nanoseconds int   `json:"nanoseconds"` // billionths of a second of arc, 0 to 999,999,999
}

// Fields returns the angle taken apart into whole degrees, minutes, seconds
// and what remains.
func (a Angle) Fields() Fields {
	f := Fields{Negative: a < 0}
	u := magnitude(a)
	f.Degrees, u = int64(u/uint64(Degree)), u%uint64(Degree)
	f.Minutes, u = int(u/uint64(Minute)), u%uint64(Minute)
	f.Seconds, u = int(u/uint64(Second)), u%uint64(Second)
	f.Nanoseconds = int(u)
	return f
}

// DecimalMinutes returns the minutes with their fraction: 15.5 for 15′30″.
func (f Fields) DecimalMinutes() float64 {
	return float64(Angle(f.Minutes)*Minute+Angle(f.Seconds)*Second+Angle(f.Nanoseconds)) / float64(Minute)
}

// magnitude is the size of any Angle, the most negative integer included.
func magnitude(a Angle) uint64 {
	if a < 0 {
		return -uint64(a)
	}
	return uint64(a)
}
