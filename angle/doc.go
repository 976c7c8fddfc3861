// Package angle holds the quantities of compass navigation: angles, courses and
// bearings, relative bearings, and positions on the earth. A course or a bearing is
// measured from true, magnetic or compass north. The package reads and prints the
// notations that navigators and programs use.
//
//	heading := angle.MustParseTrue("350°T")
//	ledge := angle.Must(angle.ParseRelative("green 30")) // 30° on the starboard bow
//	fmt.Println(heading.Bearing(ledge))                  // 020°T
//
// # Where to begin
//
//   - A course, heading or bearing: [ParseTrue], [ParseMagnetic] and [ParseCompass]
//     read one from text. [TrueFrom], [MagneticFrom] and [CompassFrom] make one from an
//     angle. See [Direction] for its methods.
//   - A position: [ParsePosition], or [PositionDegrees] from two numbers.
//   - An angle: [Parse], [ParseEastWest], or the units, 4*[Degree] + 15*[Minute].
//   - A bearing from the bow: [ParseRelative], then [Direction.Bearing].
//   - An uncertainty: [StandardUncertainty], [Rectangular].
//
// [Must] and the functions that begin with Must panic on an error. Use them only for
// values written in a program.
//
// The other packages build on this one. Package [lubberline.example/course] converts
// directions between true, magnetic and compass. It uses the variation of package
// [lubberline.example/variation] and the deviation of package
// [lubberline.example/deviation]. Package [lubberline.example/course/sailing] computes
// courses and distances between positions.
//
// # Exact angles
//
// An [Angle] is a whole number of billionths of a second of arc, as a
// [time.Duration] is a whole number of nanoseconds. Degrees and minutes add
// without a rounding error and compare with ==. They never print as 60′:
//
//	fmt.Println(3*angle.Degree + 50*angle.Minute + 25*angle.Minute) // 4°15′
//
// The whole module rounds to the nearest, halves away from zero. Conversions from
// float64 round once. They return an error for NaN, infinities and numbers out of range.
//
// # Three norths, kept apart by the compiler
//
// The type of a [Direction] says which north it is measured from. [True], [Magnetic] and
// [Compass] are three types. Code that subtracts one from another, or converts one to
// another, does not compile. A [lubberline.example/variation.Variation] converts between
// true and magnetic. A [lubberline.example/deviation.Deviation] converts between magnetic
// and compass. A [Relative] bearing, from the bow, is a fourth type.
//
// # Signs
//
// East and north are positive, west and south negative. Clockwise turns (to starboard)
// are positive. In text the name E, W, N or S replaces the sign.
//
// # Text
//
// Parsers read what navigators write and what programs export. They do not guess: for
// any other text they return a [*ParseError] that says where and why. String rounds, and
// prints a direction in three figures and a position in degrees and decimal minutes.
// MarshalText and AppendText are exact: their text reads back to the same value. To
// choose the decimals, use the verbs and the precision of package fmt.
//
// # Data
//
// A field that is missing in JSON keeps its zero value, and zero values are valid. A
// missing course reads as 000°T, and a missing position as 0° N 0° E. If your program
// must detect a missing field, use a pointer. A missing course is nil here:
//
//	type request struct {
//		Course *angle.True `json:"course"`
//	}
//
// # Sources
//
// The names of points follow Lectures in Navigation (Officers' Material School,
// United States Navy, 1918), Week I. Positions as strings follow ISO 6709. Uncertainties
// combine by the Guide to the Expression of Uncertainty in Measurement (JCGM 100:2008).
package angle
