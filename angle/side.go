package angle

// A Side is a side of the vessel, or the direction of a turn. A function that needs a side
// returns an error for the zero value, unless it says what the zero value means.
type Side string

// The two sides, for someone who faces the bow.
const (
	Starboard Side = "starboard" // right, clockwise
	Port      Side = "port"      // left, anticlockwise
)
