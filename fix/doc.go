// Package fix finds where the vessel is from position lines, and says how far to
// trust it.
//
//	known, err := angle.StandardUncertainty(1 * angle.Degree) // of each bearing
//	if err != nil {
//		log.Fatal(err)
//	}
//	f, err := fix.Solve([]fix.Line{
//		fix.Bearing(minnowLedge, angle.MustParseTrue("037°T"), known), // minnowLedge is a fix.Mark
//		fix.Bearing(braddlePoint, angle.MustParseTrue("132°T"), known),
//	}, fix.Options{})
//	if err != nil {
//		log.Fatal(err)
//	}
//	fmt.Println(f.Position) // 46°57.9′N 019°17.8′W
//
// # Where to begin
//
// Convert what the compass read with package [course], make a [Line] of each bearing with
// [CompassBearing], and [Solve] them with [Options.Near] where the
// vessel is reckoned to be. Then look at [Fix.Probability] before the position, and at
// [Fix.Ellipse] before the chart. [Fix.WritePlot] draws it all.
//
// # What there is
//
// A [Line] is what was observed of a charted [Mark]: a bearing, by [CompassBearing] or,
// given as true, by [Bearing]; a distance off, by [Range]; two marks in line, by
// [Transit]; a horizontal or a vertical angle, by [HorizontalAngle] and
// [VerticalAngle]; a dipping light; a latitude; a depth, by [LineFromFunc]. [Line.TransferredBy]
// carries a line along a run as it is logged, [Line.Transferred] along one that was
// plotted, for a running fix.
//
// [Solve] finds the most probable position. The [Fix] holds it with its covariance,
// what is left of each line, and the probability that chance makes them disagree so
// much. [Fix.Ellipse] is the region that holds the true position; [Fix.BestCut] the
// angle at which the lines cross; [Fix.Hat] the cocked hat; [Fix.Suspicions] the lines
// that may be wrong; [Fix.Next] what one more bearing would do. [Fix.Working] shows the
// most of it, and [Fix.WritePlot] draws it. An estimated position may take part as a
// prior, so that a single line improves it; [Track] keeps such a reckoning in time
// order.
//
// [ByTwoBearings] and its like are the rules for one object and a run. [ClearingBearing],
// [HorizontalDangerAngle], [VerticalDangerAngle] and [AnchorWatch] keep clear of
// dangers. [Horizon], [GeographicRange] and [Dip] tell how far is seen, and
// [DistanceByVerticalAngle] how far off an object is.
//
// # Geometry
//
// Everything is on WGS84, and a bearing is the direction of the object at the observer;
// which curve that makes of its position line, [Line] tells. Expected bearings and
// distances agree with geodesics within 60 miles: distances to a millimetre, bearings to
// two centimetres sideways.
//
// # Trust
//
// Uncertainties are standard uncertainties. A fix can only be as good as what is said
// of its lines: a bearing by a small vessel's compass in a seaway is good to 2° or 3°,
// not to what the card is divided in. Three lines that meet in a point may all be
// wrong by the same error of the variation or the deviation, which [CompassBearing]
// keeps; [Options] can solve for one of the compass.
//
// Where an uncertainty is a length or a bare number, 0 is not stated. Uncertainties are
// stated of all lines of a fix or of none; of none there is a position, and no region.
//
// # Cautions
//
// A fix tells where the vessel was, if the marks were the ones they were taken for. The
// ellipse does not know of a misread bearing, a wrong mark, a buoy off its station or a
// chart's datum. The standing caution of package [working] comes with each printed
// working; do not rely on one means of fixing alone.
package fix
