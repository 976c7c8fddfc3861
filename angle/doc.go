// Package angle holds the quantities that compass navigation is written in:
// plane angles, directions from true, magnetic or compass north, bearings from
// the bow, and positions on the earth, with the notations used at sea and by
// software.
//
//	heading := angle.MustParseTrue("350°T")
//	ledge := angle.Must(angle.ParseRelative("green 30")) // 30° on the starboard bow
//	fmt.Println(heading.Bearing(ledge))          // 020°T
//
// # Where to begin
//
//   - A direction: [ParseTrue], [ParseMagnetic], [ParseCompass] from text, [TrueFrom]
//     and its like from an angle. Its methods are those of [Direction].
//   - A position: [ParsePosition], or [PositionDegrees] from two numbers.
//   - An angle: [Parse], [ParseEastWest], or the units, 4*[Degree] + 15*[Minute].
//   - How well any of them is known: [StandardUncertainty], [Rectangular].
//
// Functions whose names begin with Must, and [Must] itself, are for constants in a
// program: they panic where the others return an error.
//
// The other packages build on this one. Package [lubberline.example/course] turns
// directions from one north to another, with the variation of package
// [lubberline.example/variation] and the deviation of package
// [lubberline.example/deviation]; package [lubberline.example/course/sailing] finds
// courses and distances between positions.
//
// # Exact angles
//
// An [Angle] is a whole number of billionths of a second of arc, as a
// [time.Duration] is a whole number of nanoseconds. Degrees and minutes add
// without a rounding error, compare with ==, and print without 60′:
//
//	3*angle.Degree + 50*angle.Minute + 25*angle.Minute == 4*angle.Degree + 15*angle.Minute
//
// Rounding is to the nearest, halves away from zero, everywhere in the module.
// Conversions from float64 round once and refuse NaN, infinities and what is
// out of range.
//
// # Three norths, kept apart by the compiler
//
// A [Direction] knows the north it is measured from. [True], [Magnetic] and
// [Compass] are three types; subtracting one from another, or converting
// between them, does not compile. The ways across are a
// [lubberline.example/variation.Variation] and a
// [lubberline.example/deviation.Deviation]. A [Relative] bearing, from the bow, is a
// fourth type.
//
// # Signs
//
// East and north are positive, west and south negative; turns clockwise (to
// starboard) are positive. In text the name E, W, N or S stands for the sign.
//
// # Text
//
// Parsers accept what navigators write and what programs export, and refuse the
// rest with a [*ParseError] that says where and why; they do not guess. String
// prints the trade's form, rounded: a direction in three figures, a position in
// degrees and decimal minutes. MarshalText and AppendText are exact: what they
// print reads back to the same value. Package fmt's precision chooses the
// decimals.
//
// # Data
//
// In JSON a field that is missing leaves the zero value, which is good: a missing
// course is 000°T, a missing position 0° N 0° E. Where a request must tell what was left
// out from north, use pointers: after
//
//	var request struct {
//		Course *angle.True `json:"course"`
//	}
//
// a course that was left out is nil.
//
// # Sources
//
// The names of points follow Lectures in Navigation (Officers' Material School,
// United States Navy, 1918), Week I; positions as strings ISO 6709; the
// arithmetic of uncertainties the Guide to the Expression of Uncertainty in
// Measurement (JCGM 100:2008).
package angle
