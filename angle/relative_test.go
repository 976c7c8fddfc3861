package angle_test

import (
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

func TestRightAheadIsTheZeroValue(t *testing.T) {
	var zero angle.Relative
	if zero != angle.RelativeFrom(0) || zero.SideString() != "ahead" {
		t.Error("the zero value is not right ahead")
	}
}

func TestRelativeBearingLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRelative().Draw(t, "r")
		switch {
		case !r.Equal(r) || r.Equal(angle.RelativeFrom(r.FromBow()+1)):
			t.Fatal("Equal is the operator")
		case r.Degrees() != r.FromBow().Degrees() || r.Degrees() >= 360:
			t.Fatal("degrees are those from the bow, under 360")
		}
	})
}
