package slip

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"lubberline.example/angle"
)

// Read reads an answer in the form of the problem:
//
//   - A direction has the letter of its own north, or none.
//   - East and west, at most 180°, and north and south, at most 90°, always have a name. A
//     figure without a name is refused.
//   - A difference of longitude is in minutes, 59.0′E, or in degrees and minutes, 1°01.0′W,
//     with its name.
//   - A distance is in nautical miles and a speed in knots, with or without the unit.
//   - An angle is in degrees and minutes, 0°32.4′, and a time is in four figures, 1430 or 14:30.
//   - A position has latitude and longitude. A course and a distance or speed follow each other,
//     with a space or a comma between them.
//
// For other text it returns an [*angle.ParseError] whose Input is the text.
func (p Problem) Read(text string) (float64, error) {
	whole := text
	text = strings.TrimSpace(text)
	switch p.Form {
	case Position, CourseAndDistance, CourseAndSpeed:
		return p.readPair(whole)
	case Clock:
		return readClock(whole)
	case Knots:
		x, err := readDecimal(withoutUnit(text, Knots))
		if err != nil || !(x >= 0) || math.IsInf(x, 0) {
			return 0, refused(whole, angle.NoNumber, "knots, such as 1.5 or 1.5 kn")
		}
		return x, nil
	case Angle:
		a, err := angle.Parse(whole)
		if err == nil && (a < 0 || a > 180*angle.Degree) {
			return 0, refused(whole, angle.OutOfRange, "an angle from 0° to 180°, such as 0°32.4′")
		}
		return a.Degrees(), err
	case Direction:
		return p.readDirection(whole)
	case EastWest:
		a, err := angle.ParseEastWest(whole)
		const want = "an angle with its name, E or W, of at most 180°, such as 7°20′W"
		if err == nil && !isNamed(text, "E", "W", "EAST", "WEST") {
			return 0, refused(whole, angle.MissingName, want)
		}
		if err == nil && a.Abs() > 180*angle.Degree {
			return 0, refused(whole, angle.OutOfRange, want)
		}
		return a.Degrees(), err
	case NorthSouth:
		l, err := angle.ParseLatitude(whole)
		if err == nil && !isNamed(text, "N", "S", "NORTH", "SOUTH") {
			return 0, refused(whole, angle.MissingName, "an angle with its name, N or S, of at most 90°, such as 47°06.5′N")
		}
		return l.Degrees(), err
	case MinutesEastWest:
		return readMinutes(whole)
	}
	x, err := readDecimal(withoutMiles(text))
	if err != nil || !(x >= 0) || math.IsInf(x, 0) {
		return 0, refused(whole, angle.NoNumber, "nautical miles, such as 12.5 or 12.5 M")
	}
	return x, nil
}

// readDirection reads a direction from the north of the problem.
func (p Problem) readDirection(text string) (float64, error) {
	upper := strings.ToUpper(strings.TrimSpace(text))
	if strings.ContainsAny(strings.TrimSuffix(upper, string(p.north)), "TMC") {
		return 0, refused(text, angle.WrongNorth, fmt.Sprintf("a direction such as 045°, with %c or without a letter", p.north))
	}
	switch p.north {
	case 'M':
		d, err := angle.ParseMagnetic(text)
		return d.Degrees(), err
	case 'C':
		d, err := angle.ParseCompass(text)
		return d.Degrees(), err
	}
	d, err := angle.ParseTrue(text)
	return d.Degrees(), err
}

// isNamed reports whether the text of an angle contains one of the names.
func isNamed(text string, names ...string) bool {
	words := strings.FieldsFunc(strings.ToUpper(text), func(r rune) bool { return r < 'A' || r > 'Z' })
	return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(names, w) })
}

// readDecimal reads a decimal number. It refuses the forms of Go alone: 0x1p3, 1_000.
func readDecimal(text string) (float64, error) {
	if strings.ContainsAny(text, "xX_") {
		return 0, strconv.ErrSyntax
	}
	return strconv.ParseFloat(text, 64)
}

// withoutMiles returns the text without nautical miles at its end.
func withoutMiles(text string) string {
	if number, ok := strings.CutSuffix(text, "M"); ok && !strings.HasSuffix(strings.ToUpper(number), "N") {
		return strings.TrimSpace(number) // m is metres
	}
	for _, unit := range []string{"nautical miles", "miles", "n.m.", "nm"} {
		if at := len(text) - len(unit); at > 0 && strings.EqualFold(text[at:], unit) {
			return strings.TrimSpace(text[:at])
		}
	}
	return text
}

// readMinutes reads minutes of longitude with their name, as minutes, 61.0′W, or with
// degrees, 1°01.0′W. A figure without a unit is minutes.
func readMinutes(text string) (float64, error) {
	refused := refused(text, angle.NoNumber, "minutes of longitude with their name, such as 61.0′W or 1°01.0′W")
	upper := strings.ToUpper(strings.TrimSpace(text))
	for _, side := range []struct {
		name string
		sign float64
	}{{"EAST", 1}, {"E", 1}, {"WEST", -1}, {"W", -1}} {
		number, ok := strings.CutSuffix(upper, side.name)
		if !ok {
			continue
		}
		x, err := readDecimal(strings.TrimRight(number, " ′'"))
		if err != nil { // with degrees
			var a angle.Angle
			a, err = angle.Parse(number)
			x = a.Minutes()
		}
		if err != nil || !(x >= 0 && x <= 180*60) {
			return 0, refused
		}
		return side.sign * x, nil
	}
	return 0, refused
}

// readClock reads a time of the day in four figures, 1430, or with a colon, 14:30.
func readClock(text string) (float64, error) {
	figures := strings.Replace(strings.TrimSpace(text), ":", "", 1)
	n, err := strconv.Atoi(figures)
	if err != nil || len(figures) < 3 || len(figures) > 4 || figures[0] == '-' || figures[0] == '+' || n/100 > 23 || n%100 > 59 {
		return 0, refused(text, angle.NoNumber, "a time in four figures, such as 1430")
	}
	return float64(n/100*60 + n%100), nil
}

// refused is the error for an answer that cannot be read. If it is empty, the kind says so.
func refused(text string, kind angle.ErrorKind, want string) error {
	if strings.TrimSpace(text) == "" {
		kind = angle.Empty
	}
	return &angle.ParseError{What: "answer", Input: text, Kind: kind, Want: want}
}
