// Package sailing finds courses and distances between positions, and the position that a
// run leads to.
//
//	from := angle.MustParsePosition("47°08.4′N 019°00.0′W") // Orlesk Head light
//	to := angle.MustParsePosition("47°03.6′N 019°11.6′W")   // Minnow Ledge beacon
//	run := sailing.WGS84().Rhumb(from, to)
//	fmt.Println(run, run.Distance.NauticalMiles()) // 238.8°T 9.3 M, and the miles as a number
//
// # Where to begin
//
//   - The course and distance between two charted places: [Ellipsoid.Rhumb] of [WGS84].
//   - The dead reckoning (DR) position after a run: [Ellipsoid.Follow]. For a run with
//     leeway and a tidal stream use [lubberline.example/course/stream].
//   - A great circle across an ocean: [Ellipsoid.GreatCircle] of [WGS84].
//   - A great circle with a limiting latitude: [NewComposite].
//   - To check or to teach what a book does: [Plane], [NewTraverse], [MidLatitude], [Mercator]
//     and the great circle of [Sphere], with their working step by step. [MidLatitude] and
//     [Mercator] work positions in the same latitude by parallel sailing. The functions whose
//     names begin with Follow lead from a run to a position.
//
// A [Distance] and a [Speed] are types with units, never bare numbers, in text and JSON too;
// see [ParseDistance]. An [Ellipsoid] is a figure of the earth. A [Covariance] holds the
// uncertainty of a position, and [Covariance.Ellipse] gives its 95 % ellipse. An
// [Uncertainty] is that of a distance or a speed.
//
// # Which miles
//
// Never compare a distance on the sphere with one on the ellipsoid. A great circle may then
// seem longer than the rhumb line.
//
// On the ellipsoid distances are true metres: [Ellipsoid.Rhumb], [Ellipsoid.Follow],
// [Ellipsoid.GreatCircle] and [Ellipsoid.FollowGreatCircle]. These may be compared.
//
// The sailings of the books count a minute of latitude as a nautical mile. [Sphere] is the
// figure on which that holds, and [NewComposite] is on it. [Mercator] takes the meridional
// parts of the ellipsoid and the miles of the sphere, as tables do. A minute of latitude on
// WGS84 is 1843 m at the equator and 1862 m at the poles. So these distances differ from the
// true ones by up to about 0.5 %.
//
// # Signs
//
// North and east are positive: latitudes and longitudes, differences of them, departures and
// meridional parts. In text the name N, S, E or W stands for the sign. Courses are clockwise
// from true north.
//
// # Formulas
//
// The meridian arc and its inverse are Krüger's series in the third flattening, to the sixth
// power: L. Krüger, Konforme Abbildung des Erdellipsoids in der Ebene, 1912, as in J. P. Snyder,
// Map Projections, a Working Manual (U.S. Geological Survey Professional Paper 1395, 1987),
// equations 3-20 to 3-26. Both are cited from memory, and checked against the reference below.
// With ψ the isometric latitude (meridional parts) and m the meridian arc, a rhumb line has
//
//	tan course = Δλ / Δψ    distance = Δm / cos course
//
// Both differences are taken in a form that loses no digits near east and west.
//
// Geodesics are solved on the auxiliary sphere of the reduced latitude, as in C. F. F. Karney,
// Algorithms for geodesics (Journal of Geodesy 87, 2013; from memory). Bessel's integrals are
// Fourier series found by our own computation. Antipodes and poles have answers too.
//
// The sailings of the books are the formulas of The American Practical Navigator (Bowditch, Pub.
// No. 9).
//
// # Accuracy
//
// Against 1,000 rhumb lines and 300 runs on WGS84 computed with GeographicLib, the largest
// difference of distance is 0.000025 m. It occurs on lines that end within metres of a pole,
// since an [angle.Angle] holds positions to 31 nanometres. Elsewhere distances and positions are
// good to about 0.0000001 m. On the flattest ellipsoid that [NewEllipsoid] accepts, 1/50, the
// error is 0.00002 m on lines half round the earth.
//
// Against 500 geodesics computed with GeographicLib, some of them antipodal, distances are
// good to 0.00000004 m. Courses are good to 0.000015 m sideways at the other end. Following a
// geodesic leads to its other end within 0.00000003 m.
//
// A position at sea is good to metres at best. So many digits let sums and round trips hold.
//
// # Speed
//
// [Ellipsoid.Rhumb] takes 104 ns and [Ellipsoid.Follow] 159 ns on the machine where they were
// measured. [Ellipsoid.GreatCircle] takes about 13 times as long as a rhumb line. None of them
// allocates memory.
//
// The standing caution of the module, [working.Caution], applies.
package sailing
