package deviation

// A HeadingKind says by which heading a table or a curve is kept.
type HeadingKind string

// The kinds of heading.
const (
	ByCompass  HeadingKind = "compass"  // deviation against compass heading
	ByMagnetic HeadingKind = "magnetic" // deviation against magnetic heading
)
