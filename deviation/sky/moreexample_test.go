package sky_test

import (
	"fmt"
	"log"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
)

// The Sun's lower limb on a cold day, above the visible horizon from a height of eye of 2.5 m.
func ExampleNewAtmosphere() {
	sun, err := sky.Sun(time.Date(2026, time.January, 14, 15, 30, 0, 0, time.UTC))
	if err != nil {
		log.Fatal(err)
	}
	cold, err := sky.NewAtmosphere(1035, -10)
	if err != nil {
		log.Fatal(err)
	}
	dip, err := sky.AlmanacDip(2.5)
	if err != nil {
		log.Fatal(err)
	}
	sight := sun.From(angle.MustParsePosition("47°06′N 019°02′W"))
	fmt.Printf("true altitude of the centre %.1v\n", sight.Altitude)
	fmt.Printf("seen: the lower limb at %.1v\n", sight.Apparent(sky.LowerLimb, cold)+dip)
	// Output:
	// true altitude of the centre 16°07.0′
	// seen: the lower limb at 15°57.3′
}

// In early November a sundial is 16 minutes ahead of the clock.
func ExampleEquationOfTime() {
	e, err := sky.EquationOfTime(time.Date(2026, time.November, 3, 12, 0, 0, 0, time.UTC))
	if err != nil {
		log.Fatal(err)
	}
	fmt.Println(e.Round(time.Second))
	// Output:
	// 16m27s
}
