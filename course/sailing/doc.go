// Package sailing finds courses and distances between positions, and the positions
// that runs lead to.
//
//	from := angle.MustParsePosition("47°08.4′N 019°00.0′W") // Orlesk Head light
//	to := angle.MustParsePosition("47°03.6′N 019°11.6′W")   // Minnow Ledge beacon
//	run := sailing.WGS84().Rhumb(from, to)
//	fmt.Println(run, run.Distance.NauticalMiles()) // 238.8°T 9.3 M, and the miles as a number
//
// # Where to begin
//
// For the course and distance between two charted places use [Ellipsoid.Rhumb] of
// [WGS84], and [Ellipsoid.Follow] for the way back from a run to a position. To cross an
// ocean use [Ellipsoid.Geodesic], the great circle in true metres. Use the others to
// check or to teach what a book does.
//
// There are two earths:
//
//   - On the ellipsoid, in true metres: [Ellipsoid.Rhumb] and [Ellipsoid.Follow], the
//     line of constant course; [Ellipsoid.Geodesic] and [Ellipsoid.FollowGeodesic], the
//     shortest line. Their distances may be compared.
//   - On the sphere whose minute of arc is a nautical mile, as in the books:
//     [NewGreatCircle], and [NewComposite], a great circle with a limiting latitude.
//   - [Plane], [NewTraverse], [Parallel], [MidLatitude] and [Mercator] are the
//     sailings of the books, with their working step by step; those whose names
//     begin with Follow lead from a run to a position.
//
// A [Distance] and a [Speed] are types with units, never bare numbers, in text and JSON
// too; see [ParseDistance]. An [Ellipsoid] is a figure of the earth. A [Covariance] says
// how well a position is known, an [Uncertainty] a distance or a speed, and
// [Covariance.Ellipse] draws the region that holds the position.
//
// # Signs
//
// North and east are positive: latitudes and longitudes, differences of them,
// departures and meridional parts. In text the name N, S, E or W stands for the
// sign. Courses are clockwise from true north.
//
// # Which miles
//
// The sailings of the books count a minute of latitude as a nautical mile,
// whatever the figure of the earth: [Mercator] takes the meridional parts of the
// ellipsoid and the miles of the sphere, as tables do. A minute of latitude on
// WGS84 is 1843 m at the equator and 1862 m at the poles, so that such a distance
// differs from the true one by up to about 0.5 %. [Ellipsoid.Rhumb] gives
// true metres. Great circles on the sphere differ from the shortest lines on the
// ellipsoid by as much. So never compare the distance of [NewGreatCircle] with that of
// [Ellipsoid.Rhumb]: a great circle may then seem longer than the rhumb line.
//
// # Formulas
//
// The meridian arc and its inverse are Krüger's series in the third flattening, to
// the sixth power (L. Krüger, Konforme Abbildung des Erdellipsoids in der Ebene,
// 1912), as in J. P. Snyder, Map Projections, a Working Manual (U.S. Geological
// Survey Professional Paper 1395, 1987), equations 3-20 to 3-26; both cited from
// memory, and checked against the reference below. With ψ the isometric latitude
// (meridional parts) and m the meridian arc, a rhumb line has
//
//	tan course = Δλ / Δψ    distance = Δm / cos course
//
// where both differences are taken in a form that loses no digits near east and
// west. Geodesics are solved on the auxiliary sphere of the reduced latitude, as in
// C. F. F. Karney, Algorithms for geodesics (Journal of Geodesy 87, 2013; from memory),
// with Bessel's integrals as Fourier series found by our own computation. Antipodes and
// poles are no exception. The sailings of the books are the formulas of The American Practical
// Navigator (Bowditch, Pub. No. 9).
//
// # Accuracy
//
// Against 1,000 rhumb lines and 300 runs on WGS84 computed with GeographicLib, the
// largest difference of distance is 0.000025 m, on lines that end within metres of a
// pole: an [angle.Angle] holds positions to 31 nanometres, which is much of so
// small a polar distance. Elsewhere distances and positions are good to about
// 0.0000001 m. On a figure as flat as [NewEllipsoid] takes, 1/50, what the series
// leave out comes to 0.00002 m on lines half round the earth.
//
// Against 500 geodesics computed with GeographicLib, antipodal ones among them, distances are
// good to 0.00000004 m and courses to 0.000015 m sideways at the other end. Following
// a geodesic leads to its other end within 0.00000003 m.
//
// A position at sea is good to metres at best; so many digits are there so that
// sums and round trips hold.
//
// # Speed
//
// [Ellipsoid.Rhumb] takes 104 ns and [Ellipsoid.Follow] 159 ns on the machine where
// they were measured. [Ellipsoid.Geodesic] takes about 13 times as long as a rhumb line. None
// of them allocates memory.
//
// # Goes with
//
// Package [lubberline.example/course] takes a course on through the stream and the
// leeway to the compass, [lubberline.example/course/passage] works a plan leg by leg.
//
// The standing caution of the module, [working.Caution], applies.
package sailing
