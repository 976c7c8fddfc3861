package angle_test

import (
	"testing"

	"lubberline.example/angle"
)

// What is read from any north; the letter is added in the tests.
var directionReadings = []reading{
	{"035", 35 * deg}, {"035°", 35 * deg}, {"035.5°", 35*deg + 30*minute}, {"35 ", 35 * deg}, {"104°15′", 104*deg + 15*minute}, {"104 15.3", 104*deg + 15*minute + 18*second}, {"360", 0},
	{"N35E", 35 * deg}, {"N 35° E", 35 * deg}, {"N 35°30′ E", 35*deg + 30*minute}, {"S 2 points E", 157*deg + 30*minute}, {"E 14° N", 76 * deg},
	{"NNE", 2 * angle.Point}, {"N by E", angle.Point}, {"NbE", angle.Point}, {"north-east by north", 3 * angle.Point}, {"NE ¾ E", 4*angle.Point + 3*angle.Point/4}, {"NW 3/4 W", 28*angle.Point - 3*angle.Point/4},

	{"0", 0}, {"000", 0}, {"5", 5 * deg}, {"0.5", 30 * minute}, {"360°00′00″", 0}, {"359°59′59.9999999999″", 0}, {"359.99999999999", turn - 36}, {" 035 ", 35 * deg}, {"35-30", 35*deg + 30*minute}, {"104:15:30", 104*deg + 15*minute + 30*second}, {"35½°", 35*deg + 30*minute}, {"327½", 327*deg + 30*minute}, {"327 1/2", 327*deg + 30*minute}, {"004½", 4*deg + 30*minute}, {"33½", 33*deg + 30*minute},
	{"N", 0}, {"e", 90 * deg}, {"Due west", 270 * deg}, {"due N.", 0}, {"South", 180 * deg}, {"WEST", 270 * deg}, {"n.n.e.", 2 * angle.Point}, {"N.E. by N.", 3 * angle.Point}, {"N E", 4 * angle.Point}, {"NxE", angle.Point}, {"nbye", angle.Point}, {"southwest", 20 * angle.Point}, {"south-south-west", 18 * angle.Point}, {"South west by west", 21 * angle.Point}, {"WNW ", 26 * angle.Point},
	{"N 0 E", 0}, {"S 0 W", 180 * deg}, {"N 90° E", 90 * deg}, {"N 90 W", 270 * deg}, {"S45W", 225 * deg}, {"S 12.5 W", 192*deg + 30*minute}, {"N. 35° E.", 35 * deg}, {"W 20 S", 250 * deg}, {"N ½° E", 30 * minute}, {"N .5 E", 30 * minute}, {"north 35 east", 35 * deg},
	{"N ½ E", angle.Point / 2}, {"N½E", angle.Point / 2}, {"N 1/2 E", angle.Point / 2}, {"N 1½ points E", 3 * angle.Point / 2}, {"N 1 1/2 E", 3 * angle.Point / 2}, {"S 7½ W", 16*angle.Point + 15*angle.Point/2}, {"E2¼S", 8*angle.Point + 9*angle.Point/4}, {"S 7½° W", 187*deg + 30*angle.Minute}, {"NE 1½ N", 4*angle.Point - 3*angle.Point/2}, {"N 1 pt W", 31 * angle.Point}, {"N 2.5 points E", 5 * angle.Point / 2}, {"NE 2 points N", 2 * angle.Point}, {"NE by E ½ E", 5*angle.Point + angle.Point/2}, {"WNW 1⁄2 W", 26*angle.Point - angle.Point/2}, {"E by S ¼ S", 9*angle.Point + angle.Point/4}, {"N ⅛ E", angle.Point / 8}, {"S 7/8 W", 16*angle.Point + 7*angle.Point/8}, {"north by east ½ east", 3 * angle.Point / 2},
}

var directionRefusals = []refusal{
	{"", angle.Empty, 0}, {"  ", angle.Empty, 2},
	{"-10", angle.SignNotAllowed, 0}, {"−010°", angle.SignNotAllowed, 0}, {"+10", angle.SignNotAllowed, 0}, {" -0", angle.SignNotAllowed, 1}, {"N -5 E", angle.TrailingText, 2},
	{"400°", angle.OutOfRange, 0}, {" 360.1", angle.OutOfRange, 1}, {"360°00′01″", angle.OutOfRange, 0}, {"99999999999999999999", angle.OutOfRange, 0}, {"2562047.9", angle.OutOfRange, 0},
	{"N 95° E", angle.OutOfRange, 2}, {"S90°00′00.001″W", angle.OutOfRange, 1}, {"N 9 points E", angle.OutOfRange, 2}, {"NE 5 points N", angle.OutOfRange, 3}, {"N99999999999999999999E", angle.OutOfRange, 1},
	{"N 35", angle.UnknownPoint, 4}, {"WEST 5", angle.UnknownPoint, 6}, {"N ½", angle.UnknownPoint, 4}, {"N 35 x", angle.UnknownPoint, 5},
	{"N 35 N", angle.WrongName, 5}, {"N 35 S", angle.WrongName, 5}, {"N 35 NE", angle.WrongName, 5}, {"NE ¾ S", angle.WrongName, 6}, {"E 14 E", angle.WrongName, 5}, {"N ½ NE", angle.WrongName, 5},
	{"NE 2 N", angle.UnknownPoint, 0}, {" NNE 5° N", angle.UnknownPoint, 1},
	{"true 035", angle.UnknownPoint, 0}, {"T035", angle.UnknownPoint, 0}, {"Inf", angle.UnknownPoint, 0}, {"NEE", angle.UnknownPoint, 0}, {"N by", angle.UnknownPoint, 0}, {"NbN", angle.UnknownPoint, 0}, {"NNNNNNNNNN", angle.UnknownPoint, 0}, {"ENEbE", angle.UnknownPoint, 0}, {"by", angle.UnknownPoint, 0},
	{"NaN", angle.TrailingText, 1}, {"due", angle.UnknownPoint, 3}, {"due 90", angle.UnknownPoint, 4}, {"dueN", angle.UnknownPoint, 0}, {"nort", angle.TrailingText, 1}, {"N-", angle.TrailingText, 1}, {"N-35-E", angle.TrailingText, 1}, {"N\xff", angle.TrailingText, 1}, {"NNE 5", angle.UnknownPoint, 5}, {"NNEQ", angle.TrailingText, 3}, {"q", angle.UnknownPoint, 0}, {"NNE ¾ S", angle.WrongName, 7}, {"N ¾", angle.UnknownPoint, 4},
	{"N.35E", angle.BadSeparator, 1}, {"N.5E", angle.BadSeparator, 1}, {"N 35 E.5", angle.BadSeparator, 6},
	{"15′", angle.UnitsOutOfOrder, 0}, {"30″", angle.UnitsOutOfOrder, 0}, {"2 points", angle.UnitsOutOfOrder, 0}, {"N 15′ E", angle.UnitsOutOfOrder, 2}, {"35° 2 points", angle.UnitsOutOfOrder, 5},
	{"035 61", angle.MinutesOutOfRange, 4}, {"N 35 61 E", angle.MinutesOutOfRange, 5}, {"035 15 60", angle.SecondsOutOfRange, 7}, {"35.5 30", angle.FractionNotLast, 0}, {"35,5", angle.BadSeparator, 2},
	{"\xff", angle.NoNumber, 0}, {"½", angle.NoNumber, 2}, {"4½", angle.NoNumber, 3}, {"32½", angle.NoNumber, 4}, {"35\n35", angle.BadSeparator, 2}, {"35\r\n 35", angle.BadSeparator, 2}, {"35\n½", angle.BadSeparator, 2}, {"N 3/5 E", angle.NoNumber, 3}, {"°", angle.NoNumber, 0},
	{"035x", angle.TrailingText, 3}, {"35 N", angle.TrailingText, 3}, {"035°035°", angle.UnitsOutOfOrder, 5}, {"N 35 E 5", angle.TrailingText, 7}, {"1e2", angle.TrailingText, 1}, {"035 p.s.d.", angle.TrailingText, 4},
}

func TestParseDirections(t *testing.T) {
	for _, r := range directionReadings {
		for _, letter := range []string{"", "T", " t", " true"} {
			if got, err := angle.ParseTrue(r.text + letter); err != nil || got != angle.TrueFrom(r.want) {
				t.Errorf("%q: %v, %v; want %v", r.text+letter, got, err, r.want)
			}
		}
		for _, letter := range []string{"", "M", "mag", " mag.", " (mag.)", " Magnetic"} {
			if got, err := angle.ParseMagnetic(r.text + letter); err != nil || got != angle.MagneticFrom(r.want) {
				t.Errorf("%q: %v, %v; want %v", r.text+letter, got, err, r.want)
			}
		}
		for _, letter := range []string{"", "C", " compass", " psc", " p.s.c.", " P.S.C.", "\u00a0PSC ", " by compass", " (per compass)"} {
			if got, err := angle.ParseCompass(r.text + letter); err != nil || got != angle.CompassFrom(r.want) {
				t.Errorf("%q: %v, %v; want %v", r.text+letter, got, err, r.want)
			}
		}
	}
	for _, r := range directionRefusals {
		_, err := angle.ParseTrue(r.text)
		checkRefusal(t, r, err)
		_, err = angle.ParseMagnetic(r.text)
		checkRefusal(t, r, err)
		_, err = angle.ParseCompass(r.text)
		checkRefusal(t, r, err)
	}
}

func TestAnotherNorthIsRefused(t *testing.T) {
	for _, r := range []refusal{
		{"035°M", angle.WrongNorth, 5}, {"035 C", angle.WrongNorth, 4}, {"035 magnetic", angle.WrongNorth, 4}, {"NNE compass", angle.WrongNorth, 4}, {"N35Em", angle.WrongNorth, 4}, {"030 p.s.c.", angle.WrongNorth, 4}, {"030 by compass", angle.WrongNorth, 7}, {"030 by", angle.TrailingText, 4}, {"NE by gyro", angle.UnknownPoint, 0}, {"NEC", angle.WrongNorth, 2},
		{"035°T x", angle.TrailingText, 7}, {"035TT", angle.TrailingText, 3}, {"035°T.", angle.TrailingText, 6}, {"035 T M", angle.TrailingText, 6},
	} {
		_, err := angle.ParseTrue(r.text)
		checkRefusal(t, r, err)
	}
	_, err := angle.ParseMagnetic("035T")
	checkRefusal(t, refusal{"035T", angle.WrongNorth, 3}, err)
	_, err = angle.ParseCompass("035°M")
	checkRefusal(t, refusal{"035°M", angle.WrongNorth, 5}, err)
	// Per standard compass needs its stops, not any three letters between.
	for _, text := range []string{"090 pasacx", "090 p-s-c-", "090 p.s.c", "090 p.s c."} {
		_, err = angle.ParseCompass(text)
		checkRefusal(t, refusal{text, angle.TrailingText, 4}, err)
	}
}

// Data must say which north.
func TestUnmarshalTextNeedsTheNorth(t *testing.T) {
	var d angle.True
	for _, text := range []string{"035°T", "N 35° E true", "35 t"} {
		if err := d.UnmarshalText([]byte(text)); err != nil || d != angle.TrueFrom(35*deg) {
			t.Errorf("%q: %v, %v", text, d, err)
		}
	}
	for _, r := range []refusal{
		{"035°", angle.MissingNorth, 5}, {"035", angle.MissingNorth, 3}, {"NNE ", angle.MissingNorth, 4}, {"035°M", angle.WrongNorth, 5}, {"035 x", angle.TrailingText, 4}, {"", angle.Empty, 0}, {"400T", angle.OutOfRange, 0},
	} {
		checkRefusal(t, r, d.UnmarshalText([]byte(r.text)))
		if d != angle.TrueFrom(35*deg) {
			t.Fatalf("%q: refused, but the direction is now %v", r.text, d)
		}
	}
	var m angle.Magnetic
	if err := m.UnmarshalText([]byte("035°M")); err != nil || m != angle.MagneticFrom(35*deg) {
		t.Errorf("%v, %v", m, err)
	}
	checkRefusal(t, refusal{"035", angle.MissingNorth, 3}, m.UnmarshalText([]byte("035")))
	var c angle.Compass
	if err := c.UnmarshalText([]byte("035°C")); err != nil || c != angle.CompassFrom(35*deg) {
		t.Errorf("%v, %v", c, err)
	}
	checkRefusal(t, refusal{"NE", angle.MissingNorth, 2}, c.UnmarshalText([]byte("NE")))
}
