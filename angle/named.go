package angle

// AppendEastWest appends an angle that is east or west in degrees and decimal
// minutes with its name: 4°15.5′W. Nought is east.
func (a Angle) AppendEastWest(b []byte, decimals int) []byte {
	return a.appendNamed(b, eastWest, 1, decimals)
}

// AppendEastWestDegrees is [Angle.AppendEastWest] in decimal degrees: 4.25°W.
func (a Angle) AppendEastWestDegrees(b []byte, decimals int) []byte {
	u := roundedSize(magnitude(a), unitOf(Degree, decimals, mostDegreeDecimals))
	return append(appendDegrees(b, u, 1, decimals), nameOf(a, u, eastWest))
}

// appendExactEastWest appends an angle that is east or west with its name,
// exactly, as [Angle.AppendText] does.
func (a Angle) appendExactEastWest(b []byte) []byte {
	return append(appendExact(b, magnitude(a), 1), nameOf(a, magnitude(a), eastWest))
}

// EastWest returns an angle that is east or west in degrees and minutes with
// its name, to a tenth of a minute, the tenth left out when it is nought:
// 4°15′W.
func (a Angle) EastWest() string {
	return string(a.AppendEastWest(nil, tenthsNeeded(a, Minute)))
}

func (a Angle) appendNamed(b []byte, x axis, width, decimals int) []byte {
	u := roundedSize(magnitude(a), unitOf(Minute, decimals, mostMinuteDecimals))
	return append(appendMinutes(b, u, width, decimals), nameOf(a, u, x))
}

// nameOf is the letter of an angle whose printed size is u.
func nameOf(a Angle, u uint64, x axis) byte {
	if a < 0 && u != 0 {
		return x.letters[1]
	}
	return x.letters[0]
}
