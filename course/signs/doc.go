// Package signs draws what a navigator draws on a chart: tracks, courses steered, streams,
// position lines, positions, clearing lines and the wind. Packages that draw plans and fixes
// use it, so that one sign means the same on all of them.
//
//	sheet := drawing.New(120, 100, "Course to steer", "A course steered and a stream.")
//	labels := &drawing.Labels{Room: drawing.Box{Right: 120, Bottom: 100}}
//	pen := signs.Pen{Sheet: sheet, Usage: signs.Commonwealth, Labels: labels}
//	pen.Line(signs.Line{
//		Kind: signs.WaterTrack, Path: []drawing.Spot{drawing.At(20, 80), drawing.At(80, 60)},
//		Direction: "072°T", Speed: "5.5 kn",
//	})
//	pen.Mark(signs.Mark{Kind: signs.Fix, At: drawing.At(20, 80), Time: "1030"})
//	left := labels.Draw(sheet) // texts without room, for the legend
//	fmt.Println(pen.Legend(), left)
//
// # Where to begin
//
// Make a [Pen] with a sheet. Draw with [Pen.Line] and [Pen.Mark]; the kinds are [LineKind] and
// [MarkKind]. [Pen.Key] draws a key of the signs used, and [Pen.Legend] returns it as text.
//
// # Two usages
//
// Two usages stand side by side, and a drawing keeps to one. Both are common practice, not a
// standard.
//
// In the [Commonwealth] usage the number of arrowheads says what a line is: one on the course
// steered, two on the ground track, three on the stream. A position line of a bearing has one
// arrowhead at its outer end. That of a range has one at both ends, and a transferred position line
// two at both ends. Nautical science is taught so in Commonwealth countries.
//
// In the [UnitedStates] usage labels say it. C and S stand for course and speed, TR and SOA for
// the track and the speed of advance along it, SET and DRIFT for the stream. A position line has
// its time above it and its bearing below, as in the plotting conventions of The American Practical
// Navigator. SET, DRIFT, TR and SOA are from memory.
//
// An estimated position is a dot in a triangle, or in the United States in a square. A fix is a
// dot in a circle in both. Draw a fix only if there is one.
package signs
