package angle_test

import (
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

func TestEastWestGoesRoundTheCircle(t *testing.T) {
	for a, want := range map[angle.Angle]angle.Angle{0: 0, 180 * deg: 180 * deg, -180 * deg: 180 * deg, 190 * deg: -170 * deg, -361 * deg: -deg} {
		e := angle.EastWestFrom(a)
		if e.Angle() != want || e.Degrees() != want.Degrees() {
			t.Errorf("%v: %v, want %v", a, e.Angle(), want)
		}
	}
	for a, want := range map[angle.Angle]string{deg: "E", -1: "W", 0: ""} {
		if got := angle.EastWestFrom(a).Name(); got != want {
			t.Errorf("%v: %q, want %q", a, got, want)
		}
	}
	var zero angle.EastWest
	if _, stated := zero.Uncertainty().Sigma(); stated || zero.Angle() != 0 || zero != angle.EastWestFrom(0) {
		t.Error("the zero value is zero, with no uncertainty stated")
	}
}

func TestPlus(t *testing.T) {
	v := angle.EastWestFrom(-4*deg - 15*minute).WithUncertainty(sigma(30 * minute))
	d := angle.EastWestFrom(3 * deg).WithUncertainty(sigma(40 * minute))
	if got, want := v.Plus(d), angle.EastWestFrom(-deg-15*minute).WithUncertainty(sigma(50*minute)); got != want || !got.Equal(want) {
		t.Errorf("%v %v, want %v %v", got, got.Uncertainty(), want, want.Uncertainty())
	}
	if got := v.Plus(angle.EastWestFrom(deg)); got.Uncertainty() != (angle.Uncertainty{}) || got.Equal(v) {
		t.Errorf("with one not stated: %v", got.Uncertainty())
	}
	if got := angle.EastWestFrom(170 * deg).Plus(angle.EastWestFrom(20 * deg)); got.Angle() != -170*deg {
		t.Errorf("170° E and 20° E: %v", got)
	}
}

func TestEastWestText(t *testing.T) {
	for text, want := range map[string]angle.EastWest{
		"4°15′W":         angle.EastWestFrom(-4*deg - 15*minute),
		"-4.25":          angle.EastWestFrom(-4*deg - 15*minute),
		"4°15′W ±0°30′":  angle.EastWestFrom(-4*deg - 15*minute).WithUncertainty(sigma(30 * minute)),
		"4°15′W±0.5":     angle.EastWestFrom(-4*deg - 15*minute).WithUncertainty(sigma(30 * minute)),
		"4.25W  ± 30′ ":  angle.EastWestFrom(-4*deg - 15*minute).WithUncertainty(sigma(30 * minute)),
		"0 ±0":           angle.EastWestFrom(0).WithUncertainty(sigma(0)),
		"180W":           angle.EastWestFrom(180 * deg),
		"180°00′00.0″ E": angle.EastWestFrom(180 * deg),
	} {
		var e angle.EastWest
		if err := e.UnmarshalText([]byte(text)); err != nil || e != want {
			t.Errorf("%q: %v %v, %v; want %v %v", text, e, e.Uncertainty(), err, want, want.Uncertainty())
		}
	}
	for _, r := range eastWestTextRefusals {
		e := angle.EastWestFrom(deg)
		checkRefusal(t, r, e.UnmarshalText([]byte(r.text)))
		if e != angle.EastWestFrom(deg) {
			t.Errorf("%q: refused, but the offset is now %v", r.text, e)
		}
	}
}

var eastWestTextRefusals = []refusal{
	{"", angle.Empty, 0}, {"±1", angle.Empty, 0}, {"4°15′", angle.MissingName, 8}, {"4°15′N", angle.WrongName, 8}, {"181W", angle.OutOfRange, 0}, {"180°00′00.000000001″W ±1", angle.OutOfRange, 0},
	{"4W ±", angle.NoNumber, 5}, {"4W ± ", angle.NoNumber, 6}, {"4W ±x", angle.NoNumber, 5}, {"4W ±-1", angle.SignNotAllowed, 5}, {"4W ±1 ±1", angle.TrailingText, 7}, {"4W ±±1", angle.NoNumber, 5}, {"4W ±61′", angle.MinutesOutOfRange, 5},
}

func TestEastWestReadsBackExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := angle.EastWestFrom(smallAngle().Draw(t, "e"))
		if s := rapid.Int64Range(-1, int64(turn)).Draw(t, "sigma"); s >= 0 {
			e = e.WithUncertainty(sigma(angle.Angle(s)))
		}
		text, err := e.MarshalText()
		var back angle.EastWest
		if err2 := back.UnmarshalText(text); err != nil || err2 != nil || back != e {
			t.Fatalf("%s: %v, %v, %v", text, back, err, err2)
		}
	})
}
