// Package danger keeps a vessel clear of a charted danger, by a clearing bearing or by a horizontal
// or vertical danger angle. For a vessel at anchor it watches the swinging circle.
//
//	// The rock is left to starboard, three cables off, on the way to the beacon.
//	beacon := fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}
//	rock := angle.MustParsePosition("47°04.6′N 019°09.0′W")
//	c, err := danger.NewClearingBearing(beacon, rock, 3*sailing.Cable, angle.Starboard)
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Println(c) // Minnow Ledge beacon bears not less than 249.1°T, that is, to the right of it
//	fmt.Println(c.Clear(angle.MustParseTrue("235°T"))) // false: the rock is too near
//
// [ClearingBearing.Working] gives the same by compass on a heading, step by step.
//
// # Where to begin
//
//   - A vessel that heads for a mark, or away from it: [NewClearingBearing], in the United
//     States also called a danger bearing.
//   - A vessel that passes a danger by the sextant angle between two marks:
//     [HorizontalAngle], the horizontal danger angle.
//   - A vessel that keeps its distance from an object of known height: [VerticalAngle], the
//     vertical danger angle.
//   - A vessel at anchor: [NewAnchorWatch].
//
// A limit is rounded to the safe side wherever it is printed. Each has a working with the
// steps and the rule in words.
//
// # Cautions
//
// A limit is exact for the charted positions. It does not contain the uncertainty of the
// compass or the sextant: choose a margin that does. Charted heights are above high water:
// see [VerticalAngle]. Make sure that the mark is the right one.
package danger

// An Error reports a danger that no limit keeps clear of with the given marks and margin.
// Other marks, or a smaller margin, may do.
type Error struct {
	Reason string // why, and what to change
}

// Error returns the reason.
func (e *Error) Error() string { return "danger: " + e.Reason }
