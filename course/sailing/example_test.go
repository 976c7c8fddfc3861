package sailing_test

import (
	"errors"
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// The vessel Quillon and the Orlesk coast are invented.

// From Orlesk Head light to Minnow Ledge beacon, and back again.
func Example() {
	head := angle.MustParsePosition("47°08.4′N 019°00.0′W")
	ledge := angle.MustParsePosition("47°03.6′N 019°11.6′W")
	run := sailing.WGS84().Rhumb(head, ledge)
	fmt.Println(run)
	took, err := run.Distance.TimeAt(5.5 * sailing.Knot)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("at 5.5 knots in", took.Round(time.Minute))
	back, err := sailing.WGS84().Follow(ledge, sailing.Run{Course: run.Course.Reciprocal(), Distance: run.Distance})
	fmt.Println(back, err)
	// Output:
	// 238.8°T 9.3 M
	// at 5.5 knots in 1h41m0s
	// 47°08.4′N 019°00.0′W <nil>
}

func ExampleEllipsoid_Rhumb() {
	from := angle.MustParsePosition("47°00′N 019°10′W")
	to := angle.MustParsePosition("47°25′N 018°30′W")
	fmt.Println(sailing.WGS84().Rhumb(from, to))
	// Output:
	// 047.5°T 37.0 M
}

func ExampleEllipsoid_Follow() {
	from := angle.MustParsePosition("47°00′N 019°10′W")
	run := sailing.Run{Course: angle.MustParseTrue("235°T"), Distance: 12.5 * sailing.NauticalMile}
	to, err := sailing.WGS84().Follow(from, run)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(to)
	// Output:
	// 46°52.8′N 019°24.9′W
}

func ExampleEllipsoid_GreatCircle() {
	from := angle.MustParsePosition("47°00′N 019°00′W")
	to := angle.MustParsePosition("41°00′N 070°00′W")
	g, err := sailing.Sphere().GreatCircle(from, to)
	if err != nil {
		fmt.Println(err)
		return
	}
	north, _, _ := g.Vertices()
	fmt.Printf("%v, %v; vertex in %v\n", g.Initial, g.Distance, north.Position)
	fmt.Print(g.Working())
	// Output:
	// 279.7°T, 2190.7 M; vertex in 47°45.4′N 032°07.9′W
	// From                     47°00.0′N 019°00.0′W  given
	// To                       41°00.0′N 070°00.0′W  given
	// Difference of latitude                360.0′S  to minus from
	// Difference of longitude              3060.0′W  to minus from, the shorter way round
	// Distance                             2190.7 M  on the sphere, where a minute of arc is a mile: cos D = sin lat₁ sin lat₂ + cos lat₁ cos lat₂ cos d.long
	// Initial course                       279°41′T  tan C = sin d.long / (cos lat₁ tan lat₂ − sin lat₁ cos d.long); N 80.3° W
	// Final course                       242°58.3′T  the same from the other end, reversed
	// Vertex                   47°45.4′N 032°07.9′W  cos lat = sin C cos lat₁; on the leg, after 534.8 M
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

func ExampleGreatCircle_WaypointsByLongitude() {
	from := angle.MustParsePosition("47°00′N 019°00′W")
	to := angle.MustParsePosition("41°00′N 070°00′W")
	g := angle.Must(sailing.Sphere().GreatCircle(from, to))
	waypoints, err := g.WaypointsByLongitude(10 * angle.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range waypoints {
		fmt.Println(p)
	}
	// Output:
	// 47°00.0′N 019°00.0′W
	// 47°06.7′N 020°00.0′W
	// 47°44.2′N 030°00.0′W
	// 47°29.2′N 040°00.0′W
	// 46°20.6′N 050°00.0′W
	// 44°13.8′N 060°00.0′W
	// 41°00.0′N 070°00.0′W
}

func ExampleNewComposite() {
	from := angle.MustParsePosition("35°00′N 140°00′E")
	to := angle.MustParsePosition("40°00′N 125°00′W")
	limit := angle.Must(angle.ParseLatitude("42°00′N"))
	c, err := sailing.NewComposite(from, to, limit)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(c.Working())
	// Output:
	// Limiting latitude             42°00.0′N  given
	// From               35°00.0′N 140°00.0′E  given
	// Initial course               065°07.4′T  great circle that touches the limit: sin C = cos limit / cos lat₁
	// To the limit                   1859.8 M  cos d.long = tan lat₁ cot limit; the limit is reached in 178°57.2′E
	// Along the limit                1550.9 M  090°T to 146°15.9′W
	// From the limit                  967.8 M  great circle away from it
	// Final course                 104°02.7′T
	// To                 40°00.0′N 125°00.0′W  given
	// Distance                       4378.5 M  the three together, on the sphere
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

func ExampleMidLatitude() {
	from := angle.MustParsePosition("47°00′N 019°10′W")
	to := angle.MustParsePosition("48°12′N 021°40′W")
	w, err := sailing.MidLatitude(from, to)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(w.Working())
	// Output:
	// From                     47°00.0′N 019°10.0′W  given
	// To                       48°12.0′N 021°40.0′W  given
	// Difference of latitude                 72.0′N  to minus from
	// Difference of longitude               150.0′W  to minus from, the shorter way round
	// Middle latitude                     47°36.0′N  half the sum of the latitudes
	// Departure                           101.1 M W  d.long × cos middle latitude
	// Course                             305°26.7′T  tan course = departure / d.lat; N 54.6° W
	// Distance                              124.2 M  d.lat / cos course
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

func ExampleMercator() {
	from := angle.MustParsePosition("47°00′N 019°10′W")
	to := angle.MustParsePosition("41°30′N 031°00′W")
	w, err := sailing.Mercator(from, to, sailing.WGS84())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(w.Working())
	// Output:
	// From                            47°00.0′N 019°10.0′W  given
	// To                              41°30.0′N 031°00.0′W  given
	// Difference of latitude                       330.0′S  to minus from
	// Difference of longitude                      710.0′W  to minus from, the shorter way round
	// Difference of meridional parts               459.6 S  of both latitudes (WGS84), to minus from
	// Course                                      237°05′T  tan course = d.long / difference of meridional parts; S 57.1° W
	// Distance                                     607.3 M  d.lat / cos course
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

func ExampleNewTraverse() {
	leg := func(course string, miles sailing.Distance) sailing.Run {
		return sailing.Run{Course: angle.MustParseTrue(course), Distance: miles * sailing.NauticalMile}
	}
	// The Quillon beats to windward off Orlesk.
	t, err := sailing.NewTraverse(leg("275", 8.2), leg("000", 6.5), leg("270", 4), leg("345", 7.4))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(t.Working())
	// Output:
	// Leg 1                   275°T 8.2 M  N 85.0° W: d.lat 0.7′N, departure 8.2 M W
	// Leg 2                   000°T 6.5 M  N: d.lat 6.5′N, departure 0.0 M
	// Leg 3                   270°T 4.0 M  W: d.lat 0.0′, departure 4.0 M W
	// Leg 4                   345°T 7.4 M  N 15.0° W: d.lat 7.1′N, departure 1.9 M W
	// Difference of latitude       14.4′N  north minus south
	// Departure                  14.1 M W  east minus west
	// Course                   315°33.7′T  made good: tan course = departure / d.lat; N 44.4° W
	// Distance                     20.1 M  made good
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

func ExampleCovariance_Ellipse() {
	// Reckoned on 060°: good to 400 m along the track and 150 m across it, from a
	// fix that was good to 50 m.
	c := sailing.Oriented(angle.MustParseTrue("060"), 400, 150).Plus(sailing.Circular(50))
	e, err := c.Ellipse(0.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v by %v, lying %v\n", e.SemiMajor, e.SemiMinor, e.MajorAxis)
	// Output:
	// 0.53 M by 0.21 M, lying 060°T
}

func ExampleDistance_TimeAt() {
	took, err := (12.5 * sailing.NauticalMile).TimeAt(5 * sailing.Knot)
	fmt.Println(took, err)
	// Output:
	// 2h30m0s <nil>
}

// The triangle of plane sailing, and the difference of longitude of its departure.
func ExamplePlane() {
	t, err := sailing.Plane(sailing.Run{Course: angle.MustParseTrue("236"), Distance: 9.2 * sailing.NauticalMile})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(t.Working())
	dlong, err := sailing.DLong(angle.Must(angle.ParseLatitude("47°06′N")), t.Departure)
	fmt.Println(dlong.EastWestString(), err)
	// Output:
	// Course                    236°T  S 56.0° W
	// Distance                  9.2 M
	// Difference of latitude    5.1′S  distance × cos course; a minute is a mile
	// Departure               7.6 M W  distance × sin course
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
	// 0°11.2′W <nil>
}

// Where a run leads to, as a book works it.
func ExampleFollowMidLatitude() {
	from := angle.MustParsePosition("47°00′N 019°10′W")
	w, err := sailing.FollowMidLatitude(from, sailing.Run{Course: angle.MustParseTrue("305"), Distance: 124 * sailing.NauticalMile})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(w.Working())
	// Output:
	// From                     47°00.0′N 019°10.0′W  given
	// Course                                  305°T  N 55.0° W
	// Distance                              124.0 M  given
	// Difference of latitude                 71.1′N  distance × cos course
	// Latitude of arrival                 48°11.1′N  starting latitude and d.lat
	// Departure                           101.6 M W  distance × sin course
	// Middle latitude                     47°35.6′N  half the sum of the latitudes
	// Difference of longitude               150.6′W  departure / cos middle latitude
	// Position of arrival      48°11.1′N 021°40.6′W  starting longitude and d.long
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

// The error says which sailing to use.
func ExampleError() {
	_, err := sailing.MidLatitude(angle.MustParsePosition("00°30′N 019°10′W"), angle.MustParsePosition("00°42′S 021°40′W"))
	if e, ok := errors.AsType[*sailing.Error](err); ok {
		fmt.Println(e.Kind)
	}
	fmt.Println(err)
	// Output:
	// unsuitable
	// sailing: mid-latitude sailing from 00°30.0′N 019°10.0′W to 00°42.0′S 021°40.0′W: the equator lies between them; use Mercator sailing
}
