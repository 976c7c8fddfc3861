package angle_test

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"lubberline.example/angle"
)

func TestStrings(t *testing.T) {
	for _, c := range []struct {
		got, want string
	}{
		{(4*deg + 15*minute).String(), "4°15′"},
		{(-30*minute - 30*second).String(), "-0°30.5′"}, // a hyphen for minus, on zero too
		{angle.Angle(0).String(), "0°00′"},
		{(-2 * second).String(), "0°00′"}, // no minus left after rounding
		{(-3 * second).String(), "-0°00.1′"},
		{(5*deg - 1).String(), "5°00′"},
		{(4*deg + 15*minute + 2*second).String(), "4°15′"},
		{angle.Angle(math.MinInt64).String(), "-2562047°47.3′"},
		{angle.TrueFrom(35 * deg).String(), "035°T"},
		{angle.MagneticFrom(35*deg + 30*minute).String(), "035.5°M"},
		{angle.CompassFrom(5 * deg).String(), "005°C"},
		{angle.TrueFrom(359*deg + 58*minute).String(), "000°T"}, // 359.97°
		{angle.TrueFrom(359*deg + 54*minute).String(), "359.9°T"},
		{angle.RelativeFrom(325 * deg).String(), "325°R"},
		{angle.RelativeFrom(turn - 1).String(), "000°R"},
		{orlesk.String(), "47°12.4′N 019°33.1′W"},
		{orlesk.Latitude.String(), "47°12.4′N"},
		{orlesk.Longitude.String(), "019°33.1′W"},
		{angle.Position{}.String(), "00°00.0′N 000°00.0′E"},
		{place(-33.5, 180).String(), "33°30.0′S 180°00.0′E"},
		{place(-0.0001, -0.0001).String(), "00°00.0′N 000°00.0′E"},
		{(-4*deg - 15*minute).EastWestString(), "4°15′W"},
		{(4*deg + 15*minute + 30*second).EastWestString(), "4°15.5′E"},
		{angle.Angle(0).EastWestString(), "0°00′E"}, // zero is east
		{angle.Angle(-1).EastWestString(), "0°00′E"},
		{angle.Angle(math.MinInt64).EastWestString(), "2562047°47.3′W"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

func TestDecimalsAskedFor(t *testing.T) {
	a := -(4*deg + 15*minute + 30*second + 123_456_789)
	d := angle.TrueFrom(4*deg + 15*minute + 30*second + 123_456_789)
	r := angle.RelativeFrom(4*deg + 15*minute + 30*second + 123_456_789)
	for _, c := range []struct {
		name   string
		format string
		value  any
		want   []string // from 0 decimals on
	}{
		{"degrees", "%.*f", a, []string{"-4°", "-4.3°", "-4.26°", "-4.258°", "-4.2584°", "-4.25837°", "-4.258368°", "-4.2583676°", "-4.25836763°", "-4.258367627°", "-4.2583676269°", "-4.25836762689°"}},
		{"minutes", "%.*v", a, []string{"-4°16′", "-4°15.5′", "-4°15.50′", "-4°15.502′", "-4°15.5021′", "-4°15.50206′", "-4°15.502058′", "-4°15.5020576′", "-4°15.50205761′", "-4°15.502057613′", "-4°15.5020576132′"}},
		{"seconds", "%.*d", a, []string{"-4°15′30″", "-4°15′30.1″", "-4°15′30.12″", "-4°15′30.123″", "-4°15′30.1235″", "-4°15′30.12346″", "-4°15′30.123457″", "-4°15′30.1234568″", "-4°15′30.12345679″", "-4°15′30.123456789″"}},
		{"east or west", "%.*v", angle.EastWestFrom(a), []string{"4°16′W", "4°15.5′W"}},
		{"degrees east or west", "%.*f", angle.EastWestFrom(a), []string{"4°W", "4.3°W"}},
		{"direction", "%.*f", d, []string{"004°T", "004.3°T"}},
		{"direction in minutes", "%.*v", d, []string{"004°16′T", "004°15.5′T"}},
		{"relative", "%.*f", r, []string{"004°R", "004.3°R"}},
		{"relative in minutes", "%.*v", r, []string{"004°16′R", "004°15.5′R"}},
		{"latitude", "%.*v", orlesk.Latitude, []string{"47°12′N", "47°12.4′N", "47°12.40′N"}},
		{"longitude", "%.*v", orlesk.Longitude, []string{"019°33′W", "019°33.1′W", "019°33.10′W"}},
		{"position", "%.*v", orlesk, []string{"47°12′N 019°33′W", "47°12.4′N 019°33.1′W"}},
		{"latitude in degrees", "%.*f", orlesk.Latitude, []string{"47°", "47.2°"}},
		{"longitude in degrees", "%.*f", orlesk.Longitude, []string{"-20°", "-19.6°"}},
		{"position in degrees", "%.*f", orlesk, []string{"47°, -20°", "47.2°, -19.6°", "47.21°, -19.55°"}},
	} {
		for i, want := range c.want {
			if got := fmt.Sprintf(c.format, i, c.value); got != want {
				t.Errorf("%s to %d decimals: %q, want %q", c.name, i, got, want)
			}
		}
		// The most that an Angle holds, however many are asked for.
		if most := len(c.want) - 1; most > 8 && fmt.Sprintf(c.format, 1000, c.value) != c.want[most] {
			t.Errorf("%s: more than %d decimals print", c.name, most)
		}
	}
}

// No form prints 60′ or 60″, and none prints 360° for a direction. The test tries
// angles within one unit of every half minute and every tenth of a degree.
func TestNothingPrintsSixtyMinutes(t *testing.T) {
	var buf [64]byte
	check := func(what string, got []byte, circle bool) {
		if bytes.Contains(got, []byte("60′")) || bytes.Contains(got, []byte("60.0′")) || bytes.Contains(got, []byte("60″")) || circle && bytes.HasPrefix(got, []byte("360")) {
			t.Errorf("%s prints %s", what, got)
		}
	}
	for half := angle.Angle(0); half <= 2*21600; half++ {
		for off := angle.Angle(-1); off <= 1; off++ {
			a := half*minute/2 + off
			d, r := angle.TrueFrom(a), angle.RelativeFrom(a)
			for n := range 2 {
				check("minutes", fmt.Appendf(buf[:0], "%.*v", n, a), false)
				check("seconds", fmt.Appendf(buf[:0], "%.*d", n, a), false)
				check("direction in degrees", fmt.Appendf(buf[:0], "%.*f", n, d), true)
				check("direction in minutes", fmt.Appendf(buf[:0], "%.*v", n, d), true)
				check("relative in minutes", fmt.Appendf(buf[:0], "%.*v", n, r), true)
				check("quadrantal", fmt.Appendf(buf[:0], "%.*q", n, d), false)
			}
			exact, _ := d.AppendText(buf[:0])
			check("AppendText", exact, true)
			minutes := int64((a + minute/2) / minute)
			if whole := fmt.Appendf(buf[:0], "%.0v", a); a > 0 && string(whole) != fmt.Sprintf("%d°%02d′", minutes/60, minutes%60) {
				t.Errorf("%d units print %s", int64(a), whole)
			}
		}
	}
}

func TestFormat(t *testing.T) {
	a := 4*deg + 15*minute
	for _, c := range []struct {
		format string
		value  any
		want   string
	}{
		{"%v", a, "4°15′"}, {"%s", a, "4°15′"}, {"%.0v", a, "4°15′"}, {"%.2s", a, "4°15.00′"}, {"%.2f", a, "4.25°"}, {"%f", a, "4.3°"}, {"%F", -a, "-4.3°"}, {"%.20f", a, "4.25000000000°"},
		{"%8v|", a, "   4°15′|"}, {"%-8v|", a, "4°15′   |"}, {"%2v|", a, "4°15′|"}, {"%8.2f|", a, "   4.25°|"}, {"%-8.2f|", a, "4.25°   |"}, // columns, not bytes
		{"%+v", a, "+4°15′"}, {"%+v", -a, "-4°15′"}, {"%+.1f", a, "+4.3°"}, {"%+8v|", a, "  +4°15′|"}, {"%+v", angle.Angle(0), "+0°00′"},
		{"%+v", angle.Angle(-1), "+0°00′"}, {"%+.0f", -20 * minute, "+0°"}, {"%v", angle.Angle(-1), "0°00′"}, // always a sign, of what is printed
		{"%d", a, "4°15′00″"}, {"%.1d", -a - 30*second, "-4°15′30.0″"}, {"%+x", a, "%!x(angle.Angle=4°15′)"}, {"%24o|", a, "  %!o(angle.Angle=4°15′)|"}, {"%q", a, "%!q(angle.Angle=4°15′)"},
		{"%v", angle.TrueFrom(104*deg + 15*minute), "104.3°T"}, {"%.0v", angle.TrueFrom(104*deg + 15*minute), "104°15′T"}, {"%.0f", angle.MagneticFrom(104*deg + 15*minute), "104°M"}, {"%f", angle.CompassFrom(104 * deg), "104.0°C"},
		{"%8s|", angle.TrueFrom(35 * deg), "   035°T|"}, {"%-8s|", angle.TrueFrom(35 * deg), "035°T   |"}, {"%d", angle.TrueFrom(35 * deg), "035°00′00″T"}, {"%q", angle.TrueFrom(145 * deg), "S 35° E"}, {"%.1q", angle.TrueFrom(325 * deg), "N 35.0° W"}, {"%x", angle.TrueFrom(35 * deg), "%!x(angle.Direction=035°T)"},
		{"%v", angle.RelativeFrom(325 * deg), "325°R"}, {"%.1s", angle.RelativeFrom(325 * deg), "325°00.0′R"}, {"%.1f", angle.RelativeFrom(325 * deg), "325.0°R"}, {"%q", angle.RelativeFrom(0), "%!q(angle.Relative=000°R)"},
		{"%v", orlesk, "47°12.4′N 019°33.1′W"}, {"%.2v", orlesk, "47°12.40′N 019°33.10′W"}, {"%.5f", orlesk, "47.20667°, -19.55167°"}, {"%22v|", orlesk, "  47°12.4′N 019°33.1′W|"}, {"%.1d", orlesk, "47°12′24.0″N 019°33′06.0″W"}, {"%t", orlesk, "%!t(angle.Position=47°12.4′N 019°33.1′W)"},
		{"%v", orlesk.Latitude, "47°12.4′N"}, {"%.0s", orlesk.Latitude, "47°12′N"}, {"%.2f", orlesk.Latitude, "47.21°"}, {"%d", orlesk.Latitude, "47°12′24″N"},
		{"%v", orlesk.Longitude, "019°33.1′W"}, {"%.0s", orlesk.Longitude, "019°33′W"}, {"%.2f", orlesk.Longitude, "-19.55°"}, {"%-12v|", orlesk.Longitude, "019°33.1′W  |"}, {"%d", orlesk.Longitude, "019°33′06″W"},
		{"%v", angle.EastWestFrom(-a), "4°15′W"}, {"%.1s", angle.EastWestFrom(-a), "4°15.0′W"}, {"%.1f", angle.EastWestFrom(-a), "4.3°W"}, {"%8v|", angle.EastWestFrom(-a), "  4°15′W|"}, {"%d", angle.EastWestFrom(a), "4°15′00″E"},
		{"%v", struct{ A angle.Angle }{a}, "{4°15′}"}, {"%v", []angle.True{{}}, "[000°T]"},
	} {
		if got := fmt.Sprintf(c.format, c.value); got != c.want {
			t.Errorf("%s: %q, want %q", c.format, got, c.want)
		}
	}
}
