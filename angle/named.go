package angle

// appendExactEastWest appends the exact angle with its name, E or W.
func (a Angle) appendExactEastWest(b []byte) []byte {
	return append(appendExact(b, magnitude(a), 1), nameOf(a, magnitude(a), eastWest))
}

// EastWestString returns the angle in degrees and minutes with its name, E or W. It is rounded
// to a tenth of a minute, and a tenth of zero is left out: 4°15.5′W, 4°15′W.
func (a Angle) EastWestString() string {
	return string(a.appendNamed(make([]byte, 0, longText), eastWest, Minute, 1, tenthsNeeded(a, Minute)))
}

// appendNamed appends an angle with its name: 4°15.5′W. Zero is east, and north.
func (a Angle) appendNamed(b []byte, x axis, unit Angle, width, decimals int) []byte {
	u := roundedSize(magnitude(a), unitOf(unit, decimals))
	return append(appendSize(b, u, unit, width, decimals), nameOf(a, u, x))
}

// nameOf returns the letter of an angle whose printed size is u.
func nameOf(a Angle, u uint64, x axis) byte {
	if a < 0 && u != 0 {
		return x.letters[1]
	}
	return x.letters[0]
}
