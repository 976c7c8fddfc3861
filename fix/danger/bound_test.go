package danger_test

import (
	"encoding/json"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/fix/danger"
	"lubberline.example/fix/internal/fixtest"
)

func TestInvalidPassIsRefused(t *testing.T) {
	for _, pass := range []danger.Pass{"", "through"} {
		_, err := danger.VerticalAngle(50, mile, pass)
		fixtest.Refused[*angle.ParseError](t, "vertical", err)
		_, err = danger.HorizontalAngle(orlesk, minnow, here, 200, pass)
		fixtest.Refused[*angle.ParseError](t, "horizontal", err)
	}
}

func TestInvalidBoundIsNeverClear(t *testing.T) {
	for _, bound := range []danger.Bound{"", "about"} {
		if (danger.Angle{Limit: angle.Degree, Bound: bound}).Clear(angle.Degree) || (danger.ClearingBearing{Bound: bound}).Clear(angle.True{}) {
			t.Errorf("%q is clear", bound)
		}
	}
}

func TestImpossibleAngleIsNotClear(t *testing.T) {
	for _, bound := range []danger.Bound{danger.NotLessThan, danger.NotMoreThan} {
		for _, a := range []angle.Angle{-1, -angle.Degree, angle.Turn/2 + 1, 400 * angle.Degree} {
			if (danger.Angle{Limit: angle.Degree, Bound: bound}).Clear(a) {
				t.Errorf("%v is %s", a, bound)
			}
		}
	}
}

func TestLimitsAsJSON(t *testing.T) {
	for _, c := range []struct {
		value any
		want  string
	}{
		{danger.Angle{Limit: 40 * angle.Minute, Bound: danger.NotMoreThan}, `{"limit":"0°40′","bound":"not-more-than"}`},
		{danger.AnchorWatch{Anchor: here, Radius: 90}, `{"anchor":"47°05′N 019°05′W","radius":"90 m"}`},
		{danger.ClearingBearing{Mark: orlesk, Limit: fixtest.True(12), Bound: danger.NotLessThan}, `{"mark":{"name":"Orlesk Head light","position":"47°08.4′N 019°00′W"},"limit":"012°T","bound":"not-less-than"}`},
	} {
		if got, err := json.Marshal(c.value); err != nil || string(got) != c.want {
			t.Errorf("%s, %v, want %s", got, err, c.want)
		}
	}
}
