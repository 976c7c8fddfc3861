package sailing_test

import (
	"errors"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

func TestEveryAnswerHasItsCaution(t *testing.T) {
	from, to := place(47*deg, -19*deg), place(48*deg, -21*deg)
	for name, s := range map[string]working.Sheet{
		"great circle": angle.Must(sailing.NewGreatCircle(from, to)).Working(),
		"composite":    angle.Must(sailing.NewComposite(from, to, lat(60*deg))).Working(),
		"plane":        angle.Must(sailing.Plane(run(235, mile))).Working(),
		"traverse":     angle.Must(sailing.NewTraverse(run(235, mile))).Working(),
		"Mercator":     angle.Must(sailing.Mercator(from, to, nil)).Working(),
		"follow":       angle.Must(sailing.FollowMidLatitude(from, run(235, mile))).Working(),
	} {
		if s.Caution != working.Caution || len(s.Steps) < 4 {
			t.Errorf("%s: %+v", name, s)
		}
	}
}

func TestATraverseTellsWhichRunIsNone(t *testing.T) {
	_, err := sailing.NewTraverse(run(10, mile), run(20, -mile))
	e, is := errors.AsType[*sailing.TraverseError](err)
	if !is || e.Run != 2 || err.Error() != "sailing: traverse, run 2: distance -1: want nautical miles from 0 to 21600" {
		t.Fatal(err)
	}
	refused[*angle.RangeError](t, "why", err)
}
