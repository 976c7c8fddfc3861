package sailing_test

import (
	"errors"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

func TestEverySheetHasItsCaution(t *testing.T) {
	from, to := place(47*deg, -19*deg), place(48*deg, -21*deg)
	for name, s := range map[string]working.Sheet{
		"great circle": angle.Must(sailing.Sphere().GreatCircle(from, to)).Working(),
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

func TestTraverseNamesTheInvalidRun(t *testing.T) {
	_, err := sailing.NewTraverse(run(10, mile), run(20, -mile))
	e, is := errors.AsType[*angle.RangeError](err)
	if !is || e.What != "distance of run 2" || e.Value != -1 {
		t.Fatal(err)
	}
}
