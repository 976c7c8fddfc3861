package angle_test

import (
	"testing"

	"lubberline.example/angle"
)

func TestParseRelative(t *testing.T) {
	for _, r := range []reading{
		// As in the documentation.
		{"325", 325 * deg}, {"325°", 325 * deg}, {"325°R", 325 * deg}, {"325.5 rel", 325*deg + 30*minute}, {"35° to port", 325 * deg}, {"35 port", 325 * deg}, {"port 35°", 325 * deg}, {"red 35", 325 * deg},
		{"green 110", 110 * deg}, {"ahead", 0}, {"astern", 180 * deg}, {"four points on the port bow", turn - 4*angle.Point},

		// In the words of the books.
		{"right ahead", 0}, {"Dead ahead", 0}, {"right astern", 180 * deg}, {"One point on the starboard bow", angle.Point}, {"two points abaft the port beam", 270*deg - 2*angle.Point}, {"eight points to port", 270 * deg}, {"port six points", turn - 6*angle.Point},

		// The letters of red and green stand before the figures, that of relative after them.
		{"R035", 325 * deg}, {"R045", 315 * deg}, {"R 45", 315 * deg}, {"r45°", 315 * deg}, {"R. 45", 315 * deg}, {"G110", 110 * deg}, {"G045", 45 * deg}, {"g 0.5", 30 * minute}, {"R180", 180 * deg}, {"045°R", 45 * deg}, {"045R", 45 * deg}, {"45 r", 45 * deg},
		// By the parts of the vessel.
		{"2 points on the port bow", turn - 2*angle.Point}, {"2 points abaft the starboard beam", 90*deg + 2*angle.Point}, {"2 points before the port beam", 270*deg + 2*angle.Point},
		{"20° before the port beam", 290 * deg}, {"20 forward of the stbd beam", 70 * deg}, {"1 point on the port quarter", 180*deg + angle.Point}, {"1½ points on starboard bow", 3 * angle.Point / 2}, {"30° on the starboard quarter", 150 * deg}, {"0° abaft the port beam", 270 * deg}, {"90° on the port bow", 270 * deg}, {"8 pts on the port bow", 270 * deg},
		{"2 points to port", turn - 2*angle.Point}, {"port 2 points", turn - 2*angle.Point}, {"½ point to starboard", angle.Point / 2}, {"16 points to starboard", 180 * deg},
		{"abeam to port", 270 * deg}, {"Abeam to starboard", 90 * deg}, {"abeam port", 270 * deg}, {"on the port beam", 270 * deg}, {"on the starboard beam", 90 * deg}, {"broad on the port beam", 270 * deg},
		{"broad on the starboard bow", 45 * deg}, {"Broad on the port quarter", 225 * deg}, {"on the port quarter", 225 * deg}, {"on the starboard quarter", 135 * deg}, {"on the starboard bow", 45 * deg},

		{"0", 0}, {"360", 0}, {"005 relative", 5 * deg}, {" Ahead ", 0}, {"GREEN 0", 0}, {"red 0", 0}, {"red 180", 180 * deg}, {"180 to starboard", 180 * deg},
		{"P35", 325 * deg}, {"P. 35", 325 * deg}, {"port 0.5", turn - 30*minute}, {"35P", 325 * deg}, {"stbd 35", 35 * deg}, {"S 35", 35 * deg}, {"35 to S", 35 * deg}, {"35°30′ to port", 324*deg + 30*minute}, {"Red35.5", 324*deg + 30*minute}, {"35to port", 325 * deg}, {"12½° to port", 347*deg + 30*minute},
	} {
		if got, err := angle.ParseRelative(r.text); err != nil || got != angle.RelativeFrom(r.want) {
			t.Errorf("%q: %v, %v; want %v", r.text, got, err, r.want)
		}
	}
	for _, r := range relativeRefusals {
		_, err := angle.ParseRelative(r.text)
		checkRefusal(t, r, err)
	}
}

var relativeRefusals = []refusal{
	{"", angle.Empty, 0}, {" ", angle.Empty, 1}, {"port", angle.NoNumber, 4}, {"x", angle.NoNumber, 0}, {"aheadx", angle.NoNumber, 0}, {"right", angle.NoNumber, 0}, {"dead abeam", angle.NoNumber, 0}, {"right ahead 5", angle.TrailingText, 12}, {"four", angle.NoNumber, 0}, {"four port", angle.NoNumber, 0}, {"nine points to port", angle.NoNumber, 0}, {"four points", angle.UnitsOutOfOrder, 0}, {"four points on the bow", angle.MissingName, 19}, {"35 to", angle.MissingName, 5}, {"35 to R", angle.MissingName, 6}, {"red 35 to", angle.MissingName, 9},
	{"-35", angle.SignNotAllowed, 0}, {"port -35", angle.SignNotAllowed, 5}, {"+35 port", angle.SignNotAllowed, 0},
	{"361", angle.OutOfRange, 0}, {"400 port", angle.OutOfRange, 0}, {"port 200", angle.OutOfRange, 5}, {"200 to port", angle.OutOfRange, 0}, {"180.1 green", angle.OutOfRange, 0}, {"99999999999999999999", angle.OutOfRange, 0},
	{"red 35 to port", angle.TwoNames, 7}, {"port 35 starboard", angle.TwoNames, 8},
	{"035T", angle.WrongNorth, 3}, {"035 magnetic", angle.WrongNorth, 4}, {"035 compass", angle.WrongNorth, 4},
	{"ahead 5", angle.TrailingText, 6}, {"35 port x", angle.TrailingText, 8}, {"35 R R", angle.TrailingText, 5}, {"red 35 R", angle.TrailingText, 7}, {"35 off", angle.TrailingText, 3},
	{"2 points", angle.UnitsOutOfOrder, 0}, {"35′ port", angle.UnitsOutOfOrder, 0}, {"35 61 port", angle.MinutesOutOfRange, 3}, {"35 15 61", angle.SecondsOutOfRange, 6}, {"35,5 port", angle.BadSeparator, 2}, {"35.5 30", angle.FractionNotLast, 0},
	{"R", angle.NoNumber, 1}, {"R200", angle.OutOfRange, 1}, {"R-45", angle.SignNotAllowed, 1}, {"R.45", angle.BadSeparator, 1}, {"R045R", angle.TrailingText, 4}, {"G045 R", angle.TrailingText, 5}, {"R45 to port", angle.TwoNames, 4}, {"RG45", angle.NoNumber, 0}, {"45G", angle.TrailingText, 2}, {"RED", angle.NoNumber, 3},
	{"2 points R", angle.UnitsOutOfOrder, 0}, {"½ to port", angle.NoNumber, 3}, {"17 points to port", angle.OutOfRange, 0}, {"9 points on the port bow", angle.OutOfRange, 0}, {"91° abaft the port beam", angle.OutOfRange, 0}, {"99999999999999999999 points to port", angle.OutOfRange, 0},
	{"abeam", angle.MissingName, 5}, {"abeam to", angle.MissingName, 8}, {"abeam to R", angle.MissingName, 9}, {"2 points abaft the beam", angle.MissingName, 19}, {"2 points on the bow", angle.MissingName, 16}, {"on the beam", angle.MissingName, 7}, {"on the red 45", angle.UnknownWord, 11}, {"on the port", angle.UnknownWord, 11},
	{"on the port side", angle.UnknownWord, 12}, {"broad", angle.UnknownWord, 5}, {"broad to port", angle.UnknownWord, 6}, {"2 points on the port beam", angle.UnknownWord, 21}, {"2 points abaft the port bow", angle.UnknownWord, 24}, {"35 forward to port", angle.MissingName, 11}, {"red 35 on the port bow", angle.TrailingText, 7}, {"2 points on the port bow 3", angle.TrailingText, 25}, {"2 points off the port bow", angle.UnitsOutOfOrder, 0}, {"abaft the port beam", angle.NoNumber, 0},
	{"\xff", angle.NoNumber, 0}, {"NaN", angle.NoNumber, 0}, {"P.35", angle.BadSeparator, 1}, {"port.5", angle.BadSeparator, 4},
}

func TestUnmarshalRelativeNeedsReference(t *testing.T) {
	var r angle.Relative
	for _, text := range []string{"325°R", "35 to port", "red 35"} {
		if err := r.UnmarshalText([]byte(text)); err != nil || r != angle.RelativeFrom(325*deg) {
			t.Errorf("%q: %v, %v", text, r, err)
		}
	}
	for _, text := range []string{"ahead", "astern"} {
		if err := r.UnmarshalText([]byte(text)); err != nil || r.SideString() != text {
			t.Errorf("%q: %v, %v", text, r, err)
		}
	}
	for _, f := range []refusal{{"325°", angle.MissingName, 5}, {"325 ", angle.MissingName, 4}, {"325T", angle.WrongNorth, 3}, {"325 x", angle.TrailingText, 4}, {"", angle.Empty, 0}} {
		checkRefusal(t, f, r.UnmarshalText([]byte(f.text)))
		if r != angle.RelativeFrom(180*deg) {
			t.Fatalf("%q: refused, but the bearing is now %v", f.text, r)
		}
	}
}

func TestSideString(t *testing.T) {
	for a, want := range map[angle.Angle]string{
		0: "ahead", 180 * deg: "astern", 325 * deg: "35° to port", 110*deg + 30*minute: "110.5° to starboard",
		2 * minute: "ahead", turn - 2*minute: "ahead", 180*deg + 2*minute: "astern", 180*deg - 2*minute: "astern", // rounded
		3 * minute: "0.1° to starboard", turn - 3*minute: "0.1° to port",
	} {
		if got := angle.RelativeFrom(a).SideString(); got != want {
			t.Errorf("%v from the bow: %q, want %q", a, got, want)
		}
	}
}
