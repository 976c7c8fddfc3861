package sky_test

import (
	"errors"
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/sky"
)

// The vessel Quillon and the Orlesk coast are invented.

// Where the Sun stands from off Orlesk Head on a May evening.
func Example() {
	s, err := sky.Sun(time.Date(2026, time.May, 14, 19, 40, 0, 0, time.UTC))
	if err != nil {
		fmt.Println(err)
		return
	}
	sight := s.From(angle.MustParsePosition("47°08.4′N 019°00.0′W"))
	fmt.Printf("%.1v at %v\n", sight.Azimuth, sight.Altitude)
	fmt.Println("as azimuth tables name it:", sight.NamedAzimuth())
	// Output:
	// 287°50.5′T at 9°06.7′
	// as azimuth tables name it: N 72°09′ W
}

func ExampleSun() {
	s, err := sky.Sun(time.Date(2026, time.May, 14, 8, 30, 0, 0, time.UTC))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("declination %v, GHA %v, semi-diameter %.1v\n", s.Declination, s.GreenwichHourAngle, s.SemiDiameter)
	equation, err := sky.EquationOfTime(s.Time)
	fmt.Println("equation of time", equation.Round(time.Second), err)
	// Output:
	// declination 18°39.9′, GHA 308°25.1′, semi-diameter 0°15.8′
	// equation of time 3m41s <nil>
}

// Off Orlesk, in 47°00′N 019°10′W, the Quillon takes the bearing of the Sun on the
// morning of 14 May 2026, at 08:30 UTC: 097.5° by standard compass.
func ExampleBody_From() {
	s := angle.Must(sky.Sun(time.Date(2026, time.May, 14, 8, 30, 0, 0, time.UTC)))
	sight := s.From(angle.MustParsePosition("47°00′N 019°10′W"))
	fmt.Print(sight.Working())
	byCompass := angle.MustParseCompass("097.5°C")
	fmt.Println("compass error", (sight.Azimuth.FromNorth() - byCompass.FromNorth()).Round(angle.Degree/10).EastWestString())
	fmt.Println(working.Caution)
	// Output:
	// Declination                 18°39.9′N  of the Sun at 2026-05-14T08:30:00Z
	// Greenwich hour angle        308°25.1′  of the Sun at 2026-05-14T08:30:00Z
	// Longitude                     19°10′W  given; east is added, west subtracted
	// Local hour angle            289°15.1′  Greenwich hour angle and longitude
	// Latitude                      47°00′N  given
	// Altitude                     26°33.5′  sin altitude = sin lat sin dec + cos lat cos dec cos LHA; centre, no refraction
	// True bearing               090°39.2′T  tan azimuth = −cos dec sin LHA / (cos lat sin dec − sin lat cos dec cos LHA)
	// As azimuth tables name it  N 90°39′ E  north latitude: from north; east of the meridian: toward east
	// compass error 6°48′W
	// An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first.
}

func ExampleSight_Apparent() {
	s := angle.Must(sky.Sun(time.Date(2026, time.May, 14, 8, 30, 0, 0, time.UTC)))
	sight := s.From(angle.MustParsePosition("47°00′N 019°10′W"))
	dip := angle.Must(sky.AlmanacDip(9))
	fmt.Println("lower limb above the visible horizon", sight.Apparent(sky.LowerLimb, sky.Atmosphere{})+dip)
	// Output:
	// lower limb above the visible horizon 26°24.8′
}

func ExampleAzimuth() {
	latitude := angle.Must(angle.ParseLatitude("47°00′N"))
	azimuth, altitude, err := sky.Azimuth(latitude, 18*angle.Degree, -51*angle.Degree)
	fmt.Printf("%.1v at %v %v\n", azimuth, altitude, err)
	// Output:
	// 107°04.3′T at 39°21.6′ <nil>
}

func ExampleAmplitude() {
	latitude := angle.Must(angle.ParseLatitude("47°00′N"))
	r, err := sky.Amplitude(latitude, 18*angle.Degree+40*angle.Minute)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("rises %s, on %.1v\n", r.AmplitudeRising(), r.Rising)
	fmt.Printf("sets %s, on %.1v\n", r.AmplitudeSetting(), r.Setting)

	latitude = angle.Must(angle.ParseLatitude("75°00′N"))
	_, err = sky.Amplitude(latitude, 18*angle.Degree+40*angle.Minute)
	if none := (*sky.Error)(nil); errors.As(err, &none) {
		fmt.Println("in 75° N:", none.Kind)
	}
	// Output:
	// rises E 28.0° N, on 062°00.7′T
	// sets W 28.0° N, on 297°59.3′T
	// in 75° N: stays-above
}

func ExampleAmplitudeOnVisibleHorizon() {
	latitude := angle.Must(angle.ParseLatitude("47°00′N"))
	r := angle.Must(sky.AmplitudeOnVisibleHorizon(latitude, 18*angle.Degree+40*angle.Minute, 9))
	fmt.Printf("centre on the %v, truly at %.0v: sets on %.1v\n", r.Horizon, r.Altitude, r.Setting)
	// Output:
	// centre on the visible-horizon, truly at -0°41′: sets on 298°49.2′T
}

func ExampleNext() {
	orlesk := angle.MustParsePosition("47°00′N 019°10′W")
	morning := time.Date(2026, time.May, 14, 0, 0, 0, 0, time.UTC)
	for _, event := range []sky.Event{sky.Rise, sky.MeridianPassage, sky.Set} {
		t, err := sky.Next(event, orlesk, morning)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(event, t.Round(time.Minute).Format("15:04"))
	}
	// Output:
	// rise 05:43
	// meridian-passage 13:13
	// set 20:44
}

// Which bodies to take from off Orlesk in a November night.
func ExampleWellPlaced() {
	well, err := sky.WellPlaced(angle.MustParsePosition("47°00′N 019°10′W"), time.Date(2026, time.November, 28, 2, 0, 0, 0, time.UTC))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, sight := range well[:4] {
		fmt.Printf("%-10s %.0v at %.0v\n", sight.Body.Name, sight.Azimuth, sight.Altitude)
	}
	// Output:
	// Sirius     155°16′T at 22°46′
	// Deneb      324°56′T at 13°20′
	// Alioth     034°10′T at 25°55′
	// Menkar     222°47′T at 39°07′
}

// The Moon, by the figures of an almanac (here they are invented).
func ExampleBody() {
	moon := sky.Body{
		Name:               "the Moon",
		Declination:        -(12*angle.Degree + 34*angle.Minute),
		GreenwichHourAngle: 331*angle.Degree + 5*angle.Minute,
		SemiDiameter:       15*angle.Minute + 30*angle.Second,
		HorizontalParallax: 57 * angle.Minute,
	}
	sight := moon.From(angle.MustParsePosition("47°00′N 019°10′W"))
	fmt.Print(sight.Working())
	fmt.Println("lower limb at", sight.Apparent(sky.LowerLimb, sky.Atmosphere{}))
	// Output:
	// Declination                    12°34′S  of the Moon as given
	// Greenwich hour angle           331°05′  of the Moon as given
	// Longitude                      19°10′W  given; east is added, west subtracted
	// Local hour angle               311°55′  Greenwich hour angle and longitude
	// Latitude                       47°00′N  given
	// Altitude                      16°35.6′  sin altitude = sin lat sin dec + cos lat cos dec cos LHA; centre, no refraction
	// True bearing                130°43.5′T  tan azimuth = −cos dec sin LHA / (cos lat sin dec − sin lat cos dec cos LHA)
	// As azimuth tables name it  N 130°44′ E  north latitude: from north; east of the meridian: toward east
	// lower limb at 15°29′
}

func ExampleStar() {
	vega, err := sky.Star("Vega", time.Date(2026, time.May, 14, 23, 0, 0, 0, time.UTC))
	if err != nil {
		fmt.Println(err)
		return
	}
	sight := vega.From(angle.MustParsePosition("47°00′N 019°10′W"))
	fmt.Printf("%s bears %.1v at %v\n", vega.Name, sight.Azimuth, sight.Altitude)
	// Output:
	// Vega bears 066°18.9′T at 32°49.5′
}
