// Package deviation holds what is known of the vessel's own compass: the
// deviation on each heading, as a table.
//
// A [Deviation] is east (positive) or west, and is the only way between
// [angle.Magnetic] and [angle.Compass] directions. It belongs to the heading of
// the vessel, never to the direction of an object: package course sees to that.
//
// A [Table] is read from CSV or JSON with [ReadTable], or made with [NewTable].
// It says by which heading, compass or magnetic, it is kept, and answers for
// both: which compass heading has a given magnetic heading is solved for, not
// approximated, and where two have it an [*AmbiguousHeadingError] names them.
//
// Between its rows a table goes linearly, as navigators do, or after
// [Table.Smooth] along the periodic cubic spline through them.
//
// # Cautions
//
// A table holds for the vessel as she was when it was made: iron moved, an
// engine or a radio fitted, a lightning strike, or a passage to another magnetic
// latitude changes it. Check it often, by a transit or the Sun. Adjusting a
// compass is the work of a compass adjuster, certified where the flag state
// requires it.
package deviation
