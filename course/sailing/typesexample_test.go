package sailing_test

import (
	"encoding/json"
	"fmt"
	"log"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// A passage of the Quillon, invented, to the west: where to be after each 600 miles,
// and on which course.
func ExampleGreatCircle() {
	g, err := sailing.Sphere().GreatCircle(angle.MustParsePosition("47°00′N 019°00′W"), angle.MustParsePosition("41°00′N 070°00′W"))
	if err != nil {
		log.Fatal(err)
	}
	for d := sailing.Distance(0); d < g.Distance; d += 600 * sailing.NauticalMile {
		p, c := g.At(d)
		fmt.Println(d, p, c)
	}
	fmt.Println(g.Distance, g.To, g.Final)
	// Output:
	// 0.00 M 47°00.0′N 019°00.0′W 279.7°T
	// 600.0 M 47°44.7′N 033°44.9′W 268.8°T
	// 1200.0 M 46°35.5′N 048°22.9′W 258°T
	// 1800.0 M 43°41.2′N 061°58.1′W 248.4°T
	// 2190.7 M 41°00.0′N 070°00.0′W 243°T
}

// Not beyond 47°30′N: a great circle to the limit, along it, and another away from it.
func ExampleComposite() {
	limit := angle.Must(angle.ParseLatitude("47°30′N"))
	c, err := sailing.NewComposite(angle.MustParsePosition("47°00′N 019°00′W"), angle.MustParsePosition("41°00′N 070°00′W"), limit)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(c.First.Initial, c.First.Distance, "to", c.First.To)
	fmt.Println(c.Parallel, "to", c.Last.From)
	fmt.Println(c.Last.Initial, c.Last.Distance, "to", c.Last.To)
	fmt.Println("together", c.Distance)
	// Output:
	// 277.9°T 436.1 M to 47°30.0′N 029°41.4′W
	// 270°T 126.2 M to 47°30.0′N 032°48.1′W
	// 270°T 1628.8 M to 41°00.0′N 070°00.0′W
	// together 2191.0 M
}

// Distances and speeds in text have their unit, and are read back to the same number.
func ExampleParseDistance() {
	for _, text := range []string{"12.5 M", "4 cables", "1852.3 m", "12.5"} {
		d, err := sailing.ParseDistance(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		data, err := json.Marshal(d)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Println(d, string(data))
	}
	// Output:
	// 12.5 M "12.5 M"
	// 0.40 M "740.8 m"
	// 1.0 M "1852.3 m"
	// "12.5" is not a distance: missing unit at the end; write a unit: M, nm or miles (nautical), cables, km, m, yd, ft or fathoms
}

// The uncertainty of a log is 0.2 knots. A stated 0 claims that a charted position has
// no error. The zero value is not stated.
func ExampleCovariance() {
	logged := angle.Must(sailing.StandardUncertainty(0.2 * sailing.Knot))
	var unknown sailing.Covariance
	fmt.Println(logged)
	fmt.Println(sailing.Circular(20 * sailing.Metre).Plus(sailing.Exactly()))
	fmt.Println(sailing.Circular(20 * sailing.Metre).Plus(unknown))
	// Output:
	// ±0.2 kn
	// ±0.011 M north, ±0.011 M east
	// not stated
}
