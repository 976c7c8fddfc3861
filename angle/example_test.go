package angle_test

import (
	"encoding/json"
	"errors"
	"fmt"

	"lubberline.example/angle"
)

// The fictional vessel Quillon off the fictional coast of Orlesk; the figures
// here and below are invented.
func Example() {
	heading := angle.MustParseTrue("350°")
	ledge := angle.Must(angle.ParseRelative("green 30")) // Minnow Ledge, 30° on the starboard bow
	bearing := heading.Bearing(ledge)
	fmt.Println("Minnow Ledge bears", bearing)
	fmt.Println("alter", bearing.Sub(heading), "to starboard to head for it")
	fmt.Println("and", bearing.Reciprocal(), "to leave it astern")
	// Output:
	// Minnow Ledge bears 020°T
	// alter 30°00′ to starboard to head for it
	// and 200°T to leave it astern
}

func ExampleAngle() {
	a := 3*angle.Degree + 50*angle.Minute + 25*angle.Minute
	fmt.Println(a, a == 4*angle.Degree+15*angle.Minute)
	fmt.Println(a.Degrees(), a.EastWestString(), (-a).EastWestString())
	fmt.Println(a.Round(angle.Degree/2), a.Round(angle.Degree))
	// Output:
	// 4°15′ true
	// 4.25 4°15′E 4°15′W
	// 4°30′ 4°00′
}

// The forms in which navigators write a direction.
func ExampleParseTrue() {
	for _, text := range []string{"035", "035.5°T", "35 deg 30 min true", "N 35½° E", "NE by N", "035°M"} {
		d, err := angle.ParseTrue(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(d)
	}
	// Output:
	// 035°T
	// 035.5°T
	// 035.5°T
	// 035.5°T
	// 033.8°T
	// "035°M" is not a true direction: wrong north at "M"; write a true direction, as in 035°T
}

func ExampleParse() {
	for _, text := range []string{"4°15.5′", "4-15.5", "4:15:30", "-4.25", "2 points"} {
		fmt.Println(angle.Must(angle.Parse(text)))
	}
	// Output:
	// 4°15.5′
	// 4°15.5′
	// 4°15.5′
	// -4°15′
	// 22°30′
}

// A turn across north.
func ExampleDirection() {
	from, to := angle.TrueFrom(350*angle.Degree), angle.TrueFrom(20*angle.Degree)
	fmt.Println("the shortest turn:", to.Sub(from))
	fmt.Println("to port, the long way:", from.Sub(to).Normalized())
	fmt.Println("30° further:", from.Add(30*angle.Degree) == to)
	// Output:
	// the shortest turn: 30°00′
	// to port, the long way: 330°00′
	// 30° further: true
}

func ExampleDirection_Format() {
	course := angle.MustParseTrue("104°15′")
	fmt.Printf("%v  %.0f  %.2f  %.0v  |%10.1v|%-10v|\n", course, course, course, course, course, course)
	fmt.Printf("%q, %.1q\n", course, course)
	// Output:
	// 104.3°T  104°T  104.25°T  104°15′T  |104°15.0′T|104.3°T   |
	// S 76° E, S 75.7° E
}

func ExampleRelative() {
	heading := angle.MustParseCompass("N 10° W")
	point := angle.MustParseCompass("305°C") // Braddle Point
	r := point.Relative(heading)
	fmt.Println(r, "or", r.SideString())
	fmt.Println(heading.Bearing(r))
	// Output:
	// 315°R or 45° to port
	// 305°C
}

func ExampleMean() {
	// Three bearings of Orlesk Head, either side of north.
	mean, spread, err := angle.Mean(angle.MustParseMagnetic("359"), angle.MustParseMagnetic("001"), angle.MustParseMagnetic("000.5"))
	fmt.Printf("%v, spread %v, %v\n", mean, spread, err)
	_, _, err = angle.Mean(angle.MustParseTrue("000"), angle.MustParseTrue("180"))
	fmt.Println(err)
	// Output:
	// 000.2°M, spread 0°51′, <nil>
	// length of the mean vector 0 is invalid; give directions that do not cancel, as two opposite ones do
}

// From one side of the date line to the other it is two degrees, not 358.
func ExampleLongitude_Sub() {
	from, to := angle.Must(angle.ParseLongitude("179°E")), angle.Must(angle.ParseLongitude("179°W"))
	fmt.Println("difference of longitude:", to.Sub(from).EastWestString())
	fmt.Println("two degrees on from 179°E:", from.Add(2*angle.Degree))
	// Output:
	// difference of longitude: 2°00′E
	// two degrees on from 179°E: 179°00.0′W
}

// A variation is printed to half a degree, and the standard uncertainty of a
// deviation is half a degree. The total error of the compass has the combined
// uncertainty.
func ExampleUncertainty() {
	variation := angle.Rectangular(angle.Degree / 2)
	deviation := angle.Must(angle.StandardUncertainty(30 * angle.Minute))
	fmt.Println(variation, deviation, variation.Combined(deviation))
	fmt.Println(deviation.Combined(angle.Uncertainty{})) // the zero value is not stated
	// Output:
	// ±0°08.7′ ±0°30′ ±0°31.2′
	// not stated
}

func ExampleQuarterPoint() {
	q := angle.MustParseTrue("037").NearestQuarterPoint()
	fmt.Println(q, "·", q.Name(), "·", q.Angle())
	fmt.Println(angle.MustParseTrue("037").NearestPoint())
	back, err := angle.ParseTrue("North-east 3/4 north")
	fmt.Println(back.NearestQuarterPoint() == q, err)
	// Output:
	// NE ¾ N · north-east ¾ north · 36°33.8′
	// NEbN
	// true <nil>
}

func ExamplePosition() {
	p := angle.MustParsePosition("46-58.0N, 19-17.8W") // where the Quillon is reckoned to be
	fmt.Println(p)
	fmt.Printf("%.3v   %.5f\n", p, p)
	fmt.Println(p.ISO6709(5))
	fmt.Println(p == angle.MustParsePosition("+4658.0-01917.8/"))
	ledge := angle.MustParsePosition("47°03.6′N 019°11.6′W")
	fmt.Printf("Minnow Ledge beacon lies some %.1f miles off\n", p.ArcTo(ledge).Minutes())
	// Output:
	// 46°58.0′N 019°17.8′W
	// 46°58.000′N 019°17.800′W   46.96667°, -19.29667°
	// +46.96667-019.29667/
	// true
	// Minnow Ledge beacon lies some 7.0 miles off
}

func ExampleParseError() {
	_, err := angle.ParseEastWest("4°61′W")
	var refused *angle.ParseError
	if errors.As(err, &refused) {
		fmt.Println(refused.Kind, "at byte", refused.Offset)
		fmt.Println("want", refused.Want)
	}
	fmt.Println(err)
	// Output:
	// minutes-out-of-range at byte 3
	// want less than 60
	// "4°61′W" is not an angle east or west: minutes out of range at "61′W"; write less than 60, as in 4°15.5′W
}

func ExampleEastWest() {
	variation := angle.EastWestFrom(-(4*angle.Degree + 15*angle.Minute)).WithUncertainty(angle.Rectangular(angle.Degree / 2))
	deviation := angle.EastWestFrom(3 * angle.Degree)
	fmt.Println(variation, variation.Uncertainty())
	total := variation.Plus(deviation)
	fmt.Println(total, total.Uncertainty())
	// Output:
	// 4°15′W ±0°08.7′
	// 1°15′W not stated
}

// The text says which north, so that a file can't be read as another.
func ExampleDirection_UnmarshalText() {
	var log struct{ Course angle.True }
	fmt.Println(json.Unmarshal([]byte(`{"Course": "104.25°T"}`), &log), log.Course.Degrees())
	fmt.Println(json.Unmarshal([]byte(`{"Course": "104.25°M"}`), &log))
	// Output:
	// <nil> 104.25
	// "104.25°M" is not a true direction: wrong north at "M"; write a true direction, as in 035°T
}
