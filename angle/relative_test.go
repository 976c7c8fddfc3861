package angle_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

func TestOnSide(t *testing.T) {
	for _, c := range []struct {
		fromBow angle.Angle
		side    angle.Side
		a       angle.Angle
	}{
		{0, angle.Starboard, 0}, // right ahead and right astern count as starboard
		{180 * deg, angle.Starboard, 180 * deg},
		{1, angle.Starboard, 1}, {turn - 1, angle.Port, 1},
		{325 * deg, angle.Port, 35 * deg}, {110 * deg, angle.Starboard, 110 * deg},
		{180*deg + 1, angle.Port, 180*deg - 1},
	} {
		side, a := angle.RelativeFrom(c.fromBow).OnSide()
		if side != c.side || a != c.a {
			t.Errorf("%v from the bow: %v to %v", c.fromBow, a, side)
		}
	}
	if angle.Port.String() != "port" || angle.Starboard.String() != "starboard" {
		t.Error("sides are named wrongly")
	}
	var zero angle.Relative
	if zero != angle.RelativeFrom(0) || zero.SideString() != "ahead" {
		t.Error("the zero value is right ahead")
	}
}

func TestRelativeOnRefusesMoreThanHalfACircle(t *testing.T) {
	for _, a := range []angle.Angle{-1, 180*deg + 1, math.MaxInt64, math.MinInt64} {
		_, err := angle.RelativeOn(angle.Port, a)
		wantRange(t, err, "RelativeOn")
	}
	if got := angle.Must(angle.RelativeOn(angle.Port, 180*deg)); got != angle.RelativeFrom(180*deg) {
		t.Errorf("180° to port: %v", got)
	}
}

func TestTheLawsOfRelativeBearings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRelative().Draw(t, "r")
		side, a := r.OnSide()
		switch {
		case angle.Must(angle.RelativeOn(side, a)) != r:
			t.Fatal("the angle on its side is another bearing")
		case a < 0 || a > turn/2:
			t.Fatal("the angle on a side is no more than half a circle")
		case !r.Equal(r) || r.Equal(angle.RelativeFrom(r.FromBow()+1)):
			t.Fatal("Equal is the operator")
		case r.Degrees() != r.FromBow().Degrees() || r.Degrees() >= 360:
			t.Fatal("degrees are those from the bow, under 360")
		}
	})
}

func TestSidesAsText(t *testing.T) {
	for side, want := range map[angle.Side]string{angle.Starboard: "starboard", angle.Port: "port"} {
		text, err := side.MarshalText()
		var back angle.Side
		if err != nil || string(text) != want || back.UnmarshalText(text) != nil || back != side {
			t.Errorf("%v: %q, %v, back %v", side, text, err, back)
		}
	}
	_, err := angle.Side(7).MarshalText()
	if e, ok := errors.AsType[*angle.RangeError](err); !ok || e.Value != 7 || angle.Side(7).String() != "Side(7)" {
		t.Errorf("%v, %v", angle.Side(7), err)
	}
	for text, kind := range map[string]angle.ErrorKind{"": angle.Empty, "larboard": angle.UnknownWord} {
		side := angle.Port
		err := side.UnmarshalText([]byte(text))
		if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Kind != kind || side != angle.Port {
			t.Errorf("%q: %v, %v", text, side, err)
		}
	}
}
