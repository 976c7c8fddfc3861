package angle_test

import (
	"errors"
	"fmt"

	"lubberline.example/angle"
)

// A latitude as books, notebooks and programs write it. One of another axis is refused.
func ExampleParseLatitude() {
	for _, text := range []string{"47°06.5′N", "47-06.5N", "N47 06.5", "47.1083", "47°06.5′E"} {
		latitude, err := angle.ParseLatitude(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%v, %.4f\n", latitude, latitude)
	}
	// Output:
	// 47°06.5′N, 47.1083°
	// 47°06.5′N, 47.1083°
	// 47°06.5′N, 47.1083°
	// 47°06.5′N, 47.1083°
	// "47°06.5′E" is not a latitude: wrong name at "E"; write N or S, as in 47°08.4′N
}

// A number out of range is refused. The error has the number and the range.
func ExampleRangeError() {
	_, err := angle.LatitudeDegrees(95)
	if e, ok := errors.AsType[*angle.RangeError](err); ok {
		fmt.Println(e.What, e.Value, e.Accepted)
	}
	fmt.Println(err)
	// Output:
	// latitude 95 −90° to 90°, north positive
	// latitude 95 is invalid; give −90° to 90°, north positive
}
