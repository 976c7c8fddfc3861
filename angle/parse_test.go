package angle_test

import (
	"math"
	"strings"
	"testing"

	"lubberline.example/angle"
)

// A reading is a text that a parser must read, and as what.
type reading struct {
	text string
	want angle.Angle
}

var angleReadings = []reading{
	// As in the documentation of Parse.
	{"4°15′", 4*deg + 15*minute},
	{"4° 15.5'", 4*deg + 15*minute + 30*second},
	{"4 15.0", 4*deg + 15*minute},
	{"4-15", 4*deg + 15*minute},
	{"4:15:30", 4*deg + 15*minute + 30*second},
	{"4°15′30″", 4*deg + 15*minute + 30*second},
	{"4d15'", 4*deg + 15*minute},
	{"34′", 34 * minute},
	{"30″", 30 * second},
	{"4.25", 4*deg + 15*minute},
	{"004.25", 4*deg + 15*minute},
	{"-4.25", -4*deg - 15*minute},
	{"+4°15′", 4*deg + 15*minute},
	{"4 deg 15 min", 4*deg + 15*minute},
	{"2 points", 22*deg + 30*minute},
	{"1½ points", 16*deg + 52*minute + 30*second},

	{"0", 0}, {"-0", 0}, {"000°00′00″", 0},
	{"-0°30′", -30 * minute}, // the sign is not lost on zero
	{"- 4", -4 * deg}, {"+ 4", 4 * deg}, {"-4-15", -4*deg - 15*minute},
	{".5", 30 * minute}, {"4.", 4 * deg}, {"-.5°", -30 * minute},
	{"  4  ", 4 * deg}, {"\t4\r\n", 4 * deg},
	{"4°", 4 * deg}, {"4 °", 4 * deg}, {"4deg", 4 * deg}, {"4D", 4 * deg}, {"1 Degree", deg},
	{"4 degrees 15 minutes 30 seconds", 4*deg + 15*minute + 30*second},
	{"4 deg. 15 min. 30 sec.", 4*deg + 15*minute + 30*second},
	{"4 DEGS 15 MINS 30 SECS", 4*deg + 15*minute + 30*second},
	{"4°15′.5", 4*deg + 15*minute + 30*second}, {"4°.25", 4*deg + 15*minute}, {"4°15′30″·5", 4*deg + 15*minute + 30*second + second/2}, {"4 ° 15 ′.5", 4*deg + 15*minute + 30*second}, {"-0°.5", -30 * minute}, // as almanacs print it
	{"4 15 30.5", 4*deg + 15*minute + 30*second + second/2},
	{"4°30″", 4*deg + 30*second}, {"4′30", 4*minute + 30*second}, {"15' 30''", 15*minute + 30*second},
	{"4°-15", 4*deg + 15*minute}, {"4-15-30", 4*deg + 15*minute + 30*second}, {"4 ° 15 ′", 4*deg + 15*minute},
	{"3/4 point", 3 * angle.Point / 4}, {"1 1/2 pts", 3 * angle.Point / 2}, {"1⁄2 pt", angle.Point / 2}, {"7/8 points", 7 * angle.Point / 8},
	{"⅛ points", angle.Point / 8}, {"¼ points", angle.Point / 4}, {"⅜ points", 3 * angle.Point / 8}, {"½ points", angle.Point / 2},
	{"⅝ points", 5 * angle.Point / 8}, {"¾ points", 3 * angle.Point / 4}, {"⅞ points", 7 * angle.Point / 8},
	{"½°", 30 * minute}, {"35½°", 35*deg + 30*minute}, {"2 3/4 deg", 2*deg + 45*minute}, {"12°12½′", 12*deg + 12*minute + 30*second}, {"½′", 30 * second}, {"4½ min", 4*minute + 30*second},
	{"2.5 points", 28*deg + 7*minute + 30*second},
	{"0000000000000000000000000004", 4 * deg},
	{"4.250000000000000000000000000000001", 4*deg + 15*minute},
	{"0.00000000001", 36}, {"0°0.0000000001′", 6}, {"0°0′0.000000001″", 1},
	{"0.0000000000001", 0}, {"0.00000000000014", 1}, {"-0.00000000000014", -1}, // 0.36 and 0.504 units
	{"0°0′0.0000000005″", 1}, {"-0°0′0.0000000005″", -1}, // halves away from zero
	{"0°0′0.0000000004999999999999999″", 0},
	{"4°59.999999999999′", 5 * deg}, // rounded, the carry is arithmetic
	{"400", 400 * deg}, {"-720", -2 * turn}, {"2562047", 2562047 * deg},
	{"2562047°47′16.854775807″", math.MaxInt64}, {"-2562047°47′16.854775807″", -math.MaxInt64},
}

var angleRefusals = []refusal{
	// As in the documentation of Parse.
	{"61′", angle.MinutesOutOfRange, 0},
	{"4°15.5′30″", angle.FractionNotLast, 3},
	{"4°60′", angle.MinutesOutOfRange, 3},
	{"4′15°", angle.UnitsOutOfOrder, 4},
	{"4 - 15", angle.BadSeparator, 2},
	{"4°15′W", angle.TrailingText, 8},
	{"4,25", angle.BadSeparator, 1},
	{"4°15′x", angle.TrailingText, 8},

	{"", angle.Empty, 0}, {"   ", angle.Empty, 3}, {"\t\u00a0\n", angle.Empty, 4},
	{"-", angle.NoNumber, 1}, {"+ ", angle.NoNumber, 2}, {"--4", angle.NoNumber, 1}, {"- -4", angle.NoNumber, 2}, {"+-4", angle.NoNumber, 1},
	{".", angle.NoNumber, 0}, {"-.", angle.NoNumber, 1}, {"°", angle.NoNumber, 0}, {"′15", angle.NoNumber, 0}, {"°15′", angle.NoNumber, 0},
	{"NaN", angle.NoNumber, 0}, {"nan", angle.NoNumber, 0}, {"Inf", angle.NoNumber, 0}, {"-Inf", angle.NoNumber, 1}, {"+infinity", angle.NoNumber, 1}, {"∞", angle.NoNumber, 0},
	{"W4", angle.NoNumber, 0}, {"x", angle.NoNumber, 0},
	{"1e5", angle.TrailingText, 1}, {"0x10", angle.TrailingText, 1}, {"1_000", angle.TrailingText, 1}, {"4%", angle.TrailingText, 1},
	{"٤", angle.NoNumber, 0}, {"４", angle.NoNumber, 0}, {"④", angle.NoNumber, 0}, // figures of other scripts
	{"\xff", angle.NoNumber, 0}, {"4\xff", angle.TrailingText, 1}, {"4°\xff15′", angle.TrailingText, 3}, {"4\x00", angle.TrailingText, 1}, {"4\xc2", angle.TrailingText, 1},
	{"61″", angle.SecondsOutOfRange, 0}, {"4 60", angle.MinutesOutOfRange, 2}, {"4 15 60", angle.SecondsOutOfRange, 5}, {"4:15:99.9", angle.SecondsOutOfRange, 5},
	{"60.0′", angle.MinutesOutOfRange, 0}, {"4 99999", angle.MinutesOutOfRange, 2},
	{"4°15°", angle.UnitsOutOfOrder, 3}, {"4′15′", angle.UnitsOutOfOrder, 4}, {"4° 2 points", angle.UnitsOutOfOrder, 4},
	{"30″15′", angle.TrailingText, 5}, {"4 points 3", angle.TrailingText, 9}, {"4 15 30 20", angle.TrailingText, 8}, {"4°15′30″7", angle.TrailingText, 13},
	{"4--15", angle.BadSeparator, 1}, {"4:", angle.BadSeparator, 1}, {"4 : 15", angle.BadSeparator, 2}, {"4: 15", angle.BadSeparator, 1}, {"4-", angle.BadSeparator, 1}, {"4- 15", angle.BadSeparator, 1}, {"4::15", angle.BadSeparator, 1},
	{"4 -15", angle.TrailingText, 2}, {"4, 25", angle.TrailingText, 1}, {"4;25", angle.TrailingText, 1}, {"4°15,5′", angle.BadSeparator, 5}, {"4.5,5", angle.TrailingText, 3},
	{"4.25 15", angle.FractionNotLast, 0}, {"4.15.30", angle.FractionNotLast, 0}, {"4..5", angle.FractionNotLast, 0}, {"4 15.5 30", angle.FractionNotLast, 2}, {"½° 15′", angle.FractionNotLast, 0},
	{"½", angle.NoNumber, 2}, {"4 ½", angle.NoNumber, 4}, {"3/4", angle.NoNumber, 3}, {"1⁄2", angle.NoNumber, 5}, {"4°½", angle.NoNumber, 5},
	{"3/5 points", angle.NoNumber, 1}, {"4/4 points", angle.NoNumber, 1}, {"0/4 points", angle.NoNumber, 1}, {"11/2 points", angle.NoNumber, 2}, {"1/22 points", angle.NoNumber, 1}, {"1/ points", angle.NoNumber, 1}, {"1/", angle.NoNumber, 1}, {"/2", angle.NoNumber, 0},
	{"4½½ points", angle.NoNumber, 3}, {"1 11/2 points", angle.NoNumber, 4},
	{"99999999999999999999", angle.OutOfRange, 0}, {"-99999999999999999999999999999", angle.OutOfRange, 1}, {"9223372036854775808", angle.OutOfRange, 0}, {"18446744073709551620", angle.OutOfRange, 0},
	{"2562048", angle.OutOfRange, 0}, {"2562047.9", angle.OutOfRange, 0}, {"2562047°59′", angle.OutOfRange, 9}, {"4°99999999999999999999′", angle.OutOfRange, 3}, {"9999999 points", angle.OutOfRange, 0},
	{"2562047°47′16.854775808″", angle.OutOfRange, 14}, {"-2562047°47′16.854775808″", angle.OutOfRange, 15},
	{"4 .5", angle.BadSeparator, 2}, {"4° .5", angle.BadSeparator, 4}, {"4deg.15", angle.BadSeparator, 4}, {"4-.5", angle.BadSeparator, 1}, {"4°15 .5", angle.BadSeparator, 6}, {"4°.5′", angle.TrailingText, 5}, {"4.5°.5", angle.FractionNotLast, 0}, {"4°.5.5", angle.FractionNotLast, 0}, {"4°.5 15", angle.FractionNotLast, 0}, {"4°.", angle.TrailingText, 3}, {"61′.5", angle.MinutesOutOfRange, 0},
	{"4°15'''", angle.TrailingText, 7}, {"4°15″″", angle.TrailingText, 8},
	{"4d15m30s", angle.TrailingText, 4}, {"2pointsx", angle.TrailingText, 1},
	{"(4)", angle.NoNumber, 0}, {"4°15′ N", angle.TrailingText, 9},
}

func TestParse(t *testing.T) {
	for _, r := range angleReadings {
		if got, err := angle.Parse(r.text); err != nil || got != r.want {
			t.Errorf("%q: %d, %v; want %d", r.text, int64(got), err, int64(r.want))
		}
	}
	for _, r := range angleRefusals {
		got, err := angle.Parse(r.text)
		checkRefusal(t, r, err)
		if got != 0 {
			t.Errorf("%q: refused and %v", r.text, got)
		}
	}
}

var eastWestReadings = []reading{
	// As in the documentation of ParseEastWest.
	{"4°15′W", -4*deg - 15*minute},
	{"4 15.0 W", -4*deg - 15*minute},
	{"4-15W", -4*deg - 15*minute},
	{"W4°15'", -4*deg - 15*minute},
	{"4.25E", 4*deg + 15*minute},
	{"4°15′ west", -4*deg - 15*minute},
	{"-4.25", -4*deg - 15*minute},

	{"4.25", 4*deg + 15*minute}, {"+4.25", 4*deg + 15*minute}, {"4", 4 * deg},
	{"-4°15′", -4*deg - 15*minute}, {"+4 15", 4*deg + 15*minute}, {"-0 30", -30 * minute}, {"-30′", -30 * minute},
	{"0°00′", 0}, {"0 0 0", 0}, {"0′", 0}, {"0W", 0},
	{"0°30′W", -30 * minute}, {"4°15′w", -4*deg - 15*minute}, {"w4", -4 * deg}, {"East 4 15", 4*deg + 15*minute}, {"W. 4° 15′", -4*deg - 15*minute}, {"4 E.", 4 * deg}, {"4E. ", 4 * deg},
	{"2 points W", -22*deg - 30*minute}, {"½°E", 30 * minute}, {"1½ points east", 16*deg + 52*minute + 30*second}, {"34′E", 34 * minute}, {"30″W", -30 * second},
	{"E 0.5", 30 * minute}, {" W 4 ", -4 * deg}, {"4.W", -4 * deg}, {"200W", -200 * deg},
}

var eastWestRefusals = []refusal{
	{"4°15′", angle.MissingName, 8}, {"4 15", angle.MissingName, 4}, {"34′", angle.MissingName, 5}, {"30″", angle.MissingName, 5}, {"2 points", angle.MissingName, 8}, {"0°00.1′", angle.MissingName, 10},
	{"-4°W", angle.SignAndName, 4}, {"+4W", angle.SignAndName, 2}, {"W-4", angle.SignAndName, 0}, {" E -4", angle.SignAndName, 1},
	{"E4°W", angle.TwoNames, 4}, {"E 4 E", angle.TwoNames, 4}, {"E4°N", angle.TwoNames, 4}, {"east 4 15 west", angle.TwoNames, 10},
	{"4°N", angle.WrongName, 3}, {"N4", angle.WrongName, 0}, {"north 4", angle.WrongName, 0}, {"4 15 S", angle.WrongName, 5},
	{"", angle.Empty, 0}, {" ", angle.Empty, 1}, {"W", angle.NoNumber, 1}, {"West", angle.NoNumber, 4}, {"W ", angle.NoNumber, 2}, {"NaN", angle.NoNumber, 0}, {"E NaN", angle.NoNumber, 2}, {"Inf", angle.NoNumber, 0}, {"WW4", angle.NoNumber, 0},
	// A decimal or an abbreviation: half a degree or five.
	{"W.5", angle.BadSeparator, 1}, {"E·5", angle.BadSeparator, 1}, {"4W.5", angle.BadSeparator, 2},
	{"4°15′W x", angle.TrailingText, 10}, {"4WE", angle.TrailingText, 1}, {"4°15′WE", angle.MissingName, 8}, {"4°15′W4", angle.TrailingText, 9}, {"1e5", angle.TrailingText, 2}, {"4 miles E", angle.TrailingText, 2}, {"W4 E5", angle.TwoNames, 3}, {"W4 N5", angle.TrailingText, 3},
	{"61′W", angle.MinutesOutOfRange, 0}, {"4°61″W", angle.SecondsOutOfRange, 3}, {"4,25W", angle.BadSeparator, 1}, {"4 -15W", angle.TrailingText, 2}, {"4.5°15′W", angle.FractionNotLast, 0},
	{"99999999999999999999W", angle.OutOfRange, 0}, {"\xffW", angle.NoNumber, 0}, {"4\xffW", angle.TrailingText, 1},
}

func TestParseEastWest(t *testing.T) {
	for _, r := range eastWestReadings {
		if got, err := angle.ParseEastWest(r.text); err != nil || got != r.want {
			t.Errorf("%q: %v, %v; want %v", r.text, got, err, r.want)
		}
	}
	for _, r := range eastWestRefusals {
		_, err := angle.ParseEastWest(r.text)
		checkRefusal(t, r, err)
	}
}

// How finely an angle was written, and 0° W told from 0° E.
func TestParsePrinted(t *testing.T) {
	for text, want := range map[string]angle.Printed{
		"4°15′W":          {Angle: -4*deg - 15*minute, Step: minute, West: true},
		"4.3°W":           {Angle: -4*deg - 18*minute, Step: 6 * minute, West: true},
		"2¾°W":            {Angle: -2*deg - 45*minute, Step: 15 * minute, West: true},
		"2½°E":            {Angle: 2*deg + 30*minute, Step: 30 * minute},
		"2⅜°E":            {Angle: 2*deg + 22*minute + 30*second, Step: deg / 8},
		"4°15.50′E":       {Angle: 4*deg + 15*minute + 30*second, Step: minute / 100},
		"4°15′30″E":       {Angle: 4*deg + 15*minute + 30*second, Step: second},
		"-4.25":           {Angle: -4*deg - 15*minute, Step: deg / 100, West: true},
		"4":               {Angle: 4 * deg, Step: deg},
		"0°W":             {Step: deg, West: true},
		"0°E":             {Step: deg},
		"-0.0":            {Step: deg / 10, West: true},
		"4 deg":           {Angle: 4 * deg, Step: deg}, // the e of deg is no name
		"4°15′.5W":        {Angle: -4*deg - 15*minute - 30*second, Step: minute / 10, West: true},
		"E 0.0000000001″": {Step: 1}, // finer than the unit
		"E 1 point":       {Angle: angle.Point, Step: angle.Point},
	} {
		want.Named = strings.ContainsAny(text, "EW")
		if got, err := angle.ParsePrinted(text); err != nil || got != want {
			t.Errorf("%q: %+v, %v; want %+v", text, got, err, want)
		}
	}
	for _, r := range eastWestRefusals {
		got, err := angle.ParsePrinted(r.text)
		checkRefusal(t, r, err)
		if got != (angle.Printed{}) {
			t.Errorf("%q: refused and %+v", r.text, got)
		}
	}
}

func TestMustPanicsOnlyOnAnError(t *testing.T) {
	if got := angle.Must(angle.Parse("4°15′")); got != 4*deg+15*minute {
		t.Error(got)
	}
	for name, parse := range map[string]func(){
		"MustParse":         func() { angle.Must(angle.Parse("61′")) },
		"MustParseTrue":     func() { angle.MustParseTrue("400") },
		"MustParseMagnetic": func() { angle.MustParseMagnetic("035T") },
		"MustParseCompass":  func() { angle.MustParseCompass("") },
		"MustParsePosition": func() { angle.MustParsePosition("91N 0E") },
	} {
		func() {
			defer func() {
				if _, ok := recover().(*angle.ParseError); !ok {
					t.Errorf("%s: no panic with a *ParseError", name)
				}
			}()
			parse()
		}()
	}
}
