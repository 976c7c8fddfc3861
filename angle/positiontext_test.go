package angle_test

import (
	"testing"

	"lubberline.example/angle"
)

// A place off Orlesk, an invented coast.
const (
	orleskNorth = 47*deg + 12*minute + 24*second
	orleskWest  = 19*deg + 33*minute + 6*second
)

var orlesk = angle.Position{
	Latitude:  angle.Must(angle.LatitudeFrom(orleskNorth)),
	Longitude: angle.LongitudeFrom(-orleskWest),
}

var latitudeRefusals = []refusal{
	{"91°N", angle.OutOfRange, 0}, {" 91N", angle.OutOfRange, 1}, {"90°00.0000000001′S", angle.OutOfRange, 0}, {"-90.00000000001", angle.OutOfRange, 0}, {"2562047N", angle.OutOfRange, 0}, {"99999999999999999999N", angle.OutOfRange, 0}, {"N99999999999999999999", angle.OutOfRange, 1},
	{"47E", angle.WrongName, 2}, {"E47", angle.WrongName, 0}, {"47 12.4", angle.MissingName, 7}, {"-47N", angle.SignAndName, 3}, {"N47S", angle.TwoNames, 3},
	{"47 12.4 N 19 33 W", angle.TrailingText, 10}, {"N47 W19", angle.TrailingText, 4}, {"47N/", angle.TrailingText, 3},
	{"", angle.Empty, 0}, {"N", angle.NoNumber, 1}, {"47 60N", angle.MinutesOutOfRange, 3},
	{"Lat.47N", angle.BadSeparator, 3}, {"Long. 47 N", angle.NoNumber, 0}, {"Lat.", angle.NoNumber, 4}, {"Lat. Lat. 47N", angle.NoNumber, 5}, {"λ 47N", angle.NoNumber, 0}, {"3h 8m N", angle.TrailingText, 1}, {"lath 47N", angle.NoNumber, 0}, {"\xff", angle.NoNumber, 0},
}

func TestParseLatitude(t *testing.T) {
	for _, r := range []reading{
		{"47°12.4′N", orleskNorth}, {"47-12.4N", orleskNorth}, {"N47 12.4", orleskNorth}, {"47°12′24″N", orleskNorth}, {"47.20667", orleskNorth + 12_000_000}, {"-33.9", -33*deg - 54*minute},
		{"90N", 90 * deg}, {"S 90°00.0′", -90 * deg}, {"-90", -90 * deg}, {"0", 0}, {"0°00.0′", 0}, {"0S", 0}, {"-0°30′", -30 * minute},
		{"Lat. 47° 12.4′ N.", orleskNorth}, {"lat 47-12.4N", orleskNorth}, {"Latitude: N47 12.4", orleskNorth}, {"L = 47°12′24″N", orleskNorth}, {"φ 47°12.4′N", orleskNorth}, {"Lat -33.9", -33*deg - 54*minute},
	} {
		if got, err := angle.ParseLatitude(r.text); err != nil || got.Angle() != r.want {
			t.Errorf("%q: %d, %v; want %d", r.text, int64(got.Angle()), err, int64(r.want))
		}
	}
	for _, r := range latitudeRefusals {
		_, err := angle.ParseLatitude(r.text)
		checkRefusal(t, r, err)
		l := orlesk.Latitude
		checkRefusal(t, r, l.UnmarshalText([]byte(r.text)))
		if l != orlesk.Latitude {
			t.Errorf("%q: refused, but the latitude is now %v", r.text, l)
		}
	}
}

var longitudeRefusals = []refusal{
	{"181°E", angle.OutOfRange, 0}, {"341", angle.OutOfRange, 0}, {"180°00.1′W", angle.OutOfRange, 0}, {" -180.5", angle.OutOfRange, 1},
	{"19N", angle.WrongName, 2}, {"19 33", angle.MissingName, 5}, {"+19E", angle.SignAndName, 3}, {"E19W", angle.TwoNames, 3}, {"19W x", angle.TrailingText, 4}, {"", angle.Empty, 0}, {"W", angle.NoNumber, 1},
	{"Lat. 19W", angle.NoNumber, 0}, {"Long.19W", angle.BadSeparator, 4}, {"L 19W", angle.NoNumber, 0},
	{"12h 1m W", angle.OutOfRange, 0}, {"13h E", angle.OutOfRange, 0}, {"5h 60m W", angle.MinutesOutOfRange, 3}, {"5h 20m 60s W", angle.SecondsOutOfRange, 7}, {"5h 20m", angle.MissingName, 6}, {"5h 20 W", angle.UnitsOutOfOrder, 6}, {"5h 20m 16 W", angle.UnitsOutOfOrder, 10}, {"5h 20s 16m W", angle.MissingName, 7}, {"5h 5h W", angle.UnitsOutOfOrder, 4}, {"5m W", angle.TrailingText, 1}, {"5.5h 20m W", angle.TrailingText, 5}, {"5h N", angle.WrongName, 3}, {"-5h 20m W", angle.SignAndName, 8}, {"E 5h 20m W", angle.TwoNames, 9}, {"99999999999999999h E", angle.OutOfRange, 0},
}

func TestParseLongitude(t *testing.T) {
	for _, r := range []reading{
		{"019°33.1′W", -orleskWest}, {"19-33.1W", -orleskWest}, {"W19 33.1", -orleskWest}, {"-19.5", -19*deg - 30*minute}, {"0W", 0}, {"E 5", 5 * deg},
		{"180E", 180 * deg}, {"180W", 180 * deg}, {"-180", 180 * deg}, {"179°59′59″W", -180*deg + second},
		{"Long. 19° 33.1′ W.", -orleskWest}, {"long 19-33.1W", -orleskWest}, {"Lon: W19 33.1", -orleskWest}, {"Lo. 19°33.1′W", -orleskWest}, {"λ=19°33.1′W", -orleskWest},
		// In time, an hour to 15°.
		{"5h 20m W", -80 * deg}, {"Long. 5h 20m W.", -80 * deg}, {"5 h. 20 m. W.", -80 * deg}, {"W 5h20m", -80 * deg}, {"10h04m51s E", 151*deg + 12*minute + 45*second}, {"0h 16m 32.4s W", -4*deg - 8*minute - 6*second}, {"0h W", 0}, {"0h E", 0}, {"12h E", 180 * deg}, {"12h W", 180 * deg}, {"-5h 20m", -80 * deg}, {"1.5h E", 22*deg + 30*minute}, {"1h 30.5m E", 22*deg + 37*minute + 30*second}, {"1 hour 2 minutes 3 seconds E", 15*deg + 30*minute + 45*second}, {"1h 3s E", 15*deg + 45*second}, {"0h 0m 4s W", -minute},
	} {
		if got, err := angle.ParseLongitude(r.text); err != nil || got.Angle() != r.want {
			t.Errorf("%q: %v, %v; want %v", r.text, got.Angle(), err, r.want)
		}
	}
	for _, r := range longitudeRefusals {
		_, err := angle.ParseLongitude(r.text)
		checkRefusal(t, r, err)
		l := orlesk.Longitude
		checkRefusal(t, r, l.UnmarshalText([]byte(r.text)))
		if l != orlesk.Longitude {
			t.Errorf("%q: refused, but the longitude is now %v", r.text, l)
		}
	}
}

func TestParsePosition(t *testing.T) {
	for _, text := range []string{
		"47°12.4′N 019°33.1′W", "47-12.4N, 19-33.1W", "N47 12.4 W19 33.1", "47 12.4 N 19 33.1 W", "47°12′24″N;19°33′06″W", "47°12.4′N/019°33.1′W", "N47°12.4′W019°33.1′",
		"47:12:24N 019:33:06W", "N 47-12.4 / W 19-33.1", "47°12.4′N019°33.1′W", "+47°12′24″, -19°33′06″", " 47 12.4 north , 19 33.1 west ", "n47 12.4,w19 33.1", "47° 12.4' N.  19° 33.1' W.", "47\u00a012.4\u00a0N\t19\u00a033.1\u00a0W\n",
		"Lat. 47° 12.4' N., Long. 19° 33.1' W.", "lat 47 12.4 N long 19 33.1 W", "φ 47°12.4′N λ 19°33.1′W", "L. 47 12.4 N Lo. 19 33.1 W", "Lat 47°12.4′N / Long 019°33.1′W", "47°12.4′N 1h 18m 12.4s W", "N47 12.4 W 1h 18m 12.4s",
		"+4712.4-01933.1/", "+471224-0193306/", "+4712.4−01933.1", "N47 12.4 19 33.1 W",
	} {
		if got, err := angle.ParsePosition(text); err != nil || got != orlesk {
			t.Errorf("%q: %v, %v; want %v", text, got, err, orlesk)
		}
	}
	for text, want := range map[string]angle.Position{
		"47.25, -19.5": place(47.25, -19.5), "47.25 -19.5": place(47.25, -19.5), "47.25 19.5": place(47.25, 19.5), "47.25,19.5": place(47.25, 19.5), "47.25;-19.5": place(47.25, -19.5), "47.25/-19.5": place(47.25, -19.5),
		"47/-19": place(47, -19), "47 / -19": place(47, -19), "1/2": place(1, 2), "47, -19": place(47, -19), "47; 19": place(47, 19), // a slash, and no fraction
		"47.25° -19.5°": place(47.25, -19.5), "47°, -19°": place(47, -19), "N47.25 W19.5": place(47.25, -19.5), "47.25N19.5W": place(47.25, -19.5), "47N19W": place(47, -19), "-47 -19": place(-47, -19), "S47,W19": place(-47, -19),
		"0 0N 0 0E": {}, "0N 180W": place(0, 180), "90N 0E": place(90, 0), "90S 179.5W": place(-90, -179.5),
	} {
		if got, err := angle.ParsePosition(text); err != nil || got != want {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	for _, r := range positionRefusals {
		_, err := angle.ParsePosition(r.text)
		checkRefusal(t, r, err)
		p := orlesk
		checkRefusal(t, r, p.UnmarshalText([]byte(r.text)))
		if p != orlesk {
			t.Errorf("%q: refused, but the position is now %v", r.text, p)
		}
	}
}

var positionRefusals = []refusal{
	{"", angle.Empty, 0}, {"  ", angle.Empty, 2}, {"47N", angle.NoNumber, 3}, {"47N,", angle.NoNumber, 4}, {"47.25", angle.NoNumber, 5}, {"47N, ", angle.NoNumber, 5}, {"47N W", angle.NoNumber, 5},
	{"19W 47N", angle.WrongName, 2}, {"W19 N47", angle.WrongName, 0}, {"47N 19N", angle.WrongName, 6}, {"N47 S19", angle.TwoNames, 4}, // the longitude first, or twice a latitude
	{"Long. 19W Lat. 47N", angle.NoNumber, 0}, {"47N 1h 18m", angle.MissingName, 10}, {"47N 19W x", angle.TrailingText, 8}, {"47N,19W,5", angle.TrailingText, 7}, {"47N//19W", angle.NoNumber, 4}, {"47N 19W 100m", angle.TrailingText, 8},
	{"91N 19W", angle.OutOfRange, 0}, {"47N 181W", angle.OutOfRange, 4}, {"91, 19", angle.OutOfRange, 0}, {"47, -181", angle.OutOfRange, 4}, {"99999999999999999999,1", angle.OutOfRange, 0},
	{"47,19", angle.BadSeparator, 2}, {"0,0", angle.BadSeparator, 1}, {"47 19", angle.MissingName, 5}, {"47 12.4 19 33.1", angle.MissingName, 8}, {"47N 19 33.1", angle.MissingName, 11}, {"50 1/2", angle.NoNumber, 6},
	{"-47N 19W", angle.SignAndName, 3}, {"47N -19W", angle.SignAndName, 7}, {"47 60N 19W", angle.MinutesOutOfRange, 3}, {"47N 19 33 60W", angle.SecondsOutOfRange, 10}, {"47.5 30N 19W", angle.WrongName, 7},
	{"NaN, NaN", angle.NoNumber, 0}, {"Inf 0", angle.NoNumber, 0}, {"47N \xff", angle.NoNumber, 4}, {"47N.5W", angle.BadSeparator, 3},
}
