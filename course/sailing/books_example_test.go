package sailing_test

import (
	"fmt"
	"log"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// The figure of an old chart's datum, by its radius and its flattening.
func ExampleNewEllipsoid() {
	e, err := sailing.NewEllipsoid("International 1924", 6_378_388, 1/297.0)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%s: %.1f m to a degree of latitude at 47°N\n", e, e.DegreeOfLatitude(angle.Must(angle.ParseLatitude("47°N"))).Metres())
	// Output:
	// International 1924: 111174.6 m to a degree of latitude at 47°N
}

// A text without a unit is refused: 5.5 could be knots or metres per second.
func ExampleParseSpeed() {
	speed, err := sailing.ParseSpeed("5.5 knots")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(speed)
	_, err = sailing.ParseSpeed("5.5")
	fmt.Println(err)
	// Output:
	// 5.5 kn
	// "5.5" is not a speed: missing unit at the end; write a unit: kn, kt or knots, m/s or km/h
}

// The course and distance of the sides of a triangle: 4.6′ south and 8 miles west.
func ExamplePlaneFromSides() {
	t, err := sailing.PlaneFromSides(-angle.Must(angle.Minutes(4.6)), -8*sailing.NauticalMile)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(t.Run)
	// Output:
	// 240.1°T 9.2 M
}
