// Package fix finds the vessel's position from position lines, and says how far to trust it. It
// solves a fix by bearings and distances off, a running fix, or an estimated position (EP). It
// examines the cocked hat, and names the line that may be wrong.
//
//	beacon := fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}
//	tower := fix.Mark{Name: "Braddle Point tower", Position: angle.MustParsePosition("46°47.5′N 019°01.0′W")}
//	known, err := angle.StandardUncertainty(1 * angle.Degree) // of each bearing
//	if err != nil {
//		log.Fatal(err)
//	}
//	f, err := fix.Solve([]fix.Line{
//		fix.Bearing(beacon, angle.MustParseTrue("037°T"), known),
//		fix.Bearing(tower, angle.MustParseTrue("132°T"), known),
//	}, fix.Options{})
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Println(f)            // 46°57.9′N 019°17.8′W, 95 %: 0.67 M along 036°T, 0.30 M across
//	fmt.Print(f.Working())    // what a second watchkeeper needs to check it
//	fmt.Println(f.Warnings()) // why it may be weak or wrong
//
// # Where to begin
//
//   - A fix from a round of bearings: convert each with package [course], by
//     [course.Heading.BearingFromCompass] or, for a hand-bearing compass,
//     [course.HandBearing]. Make a [Line] of it with [CompassBearing], and [Solve] them.
//   - A running fix: transfer the earlier position line with [Line.TransferredBy].
//   - An estimated position by one bearing and the dead reckoning: [Options.Prior].
//   - The size and the corners of the cocked hat: [Fix.Hat].
//   - A clearing bearing, a danger angle or an anchor watch: package
//     [lubberline.example/fix/danger].
//   - A drawing of the fix: package [lubberline.example/fix/plot].
//   - Distance off by two bearings, such as doubling the angle on the bow: [ByTwoBearings].
//
// Read [Fix.Warnings] before the position. If the lines do not agree, do not use it.
//
// # What there is
//
// A [Line] is a position line by a charted [Mark]:
//
//   - a bearing: [CompassBearing], or [Bearing] if it is true;
//   - a distance off: [Range], or [DippingLight] of a light that has just dipped or risen;
//   - a transit: [Transit];
//   - a sextant angle: [HorizontalAngle], [VerticalAngle];
//   - a latitude or a longitude: [Latitude], [Longitude];
//   - any function of the position, such as a depth: [LineFromFunc].
//
// [Solve] returns the most probable position as a [Fix]. It has the covariance, the residual of
// each line, and the probability that sound lines disagree as much. [Fix.Ellipse] returns the 95 %
// ellipse, and [Fix.BestCut] the best angle of cut. [Fix.Suspicions] returns the lines that may be
// wrong, and [Fix.NextBearings] the mark to observe next. A [Track] keeps a dead reckoning and its
// fixes in order of time.
//
// Without a chart, [Horizon], [GeographicRange] and [Dip] work on the horizon, and
// [DistanceByVerticalAngle] finds the distance off an object.
//
// # Geometry
//
// Everything is on the WGS84 ellipsoid. A bearing is the direction of the object at the
// observer; [Line] describes the position line that follows from it. Within 60 miles,
// distances agree with geodesics to a millimetre, and bearings to two centimetres sideways.
//
// # Trust
//
// All uncertainties are standard uncertainties. State them of all lines, or of none. If none
// is stated, the fix has a position but no ellipse, and its working says which part is
// missing. [Options.UsualUncertainties] assumes usual values. If an uncertainty is a length
// or a number, 0 means unknown.
//
// A bearing by a small vessel's compass in a seaway has an uncertainty of 2° or 3°, however
// fine its card is. Three lines through one point may share an error of the variation or the
// deviation. [CompassBearing] keeps such shared errors, and [Options.CompassError] solves
// for a constant one.
//
// # Cautions
//
// A fix is right only if each mark was identified correctly. The ellipse does not cover a misread
// bearing, a wrong mark, a buoy off its station, or the chart's datum. If lines miss each other
// near a danger, take the corner of the cocked hat nearest to the danger as the position (common
// practice). Do not rely on one means of fixing alone. Each printed working ends with the caution
// of package [working].
package fix
