package stream_test

import (
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

func TestWorkingsHaveACaution(t *testing.T) {
	s := angle.Must(stream.CourseToSteer(trueOf(30), 6*sailing.Knot, streamOf(90, 1)))
	c := angle.Must(stream.CourseToSteerAcross(offOrlesk, angle.MustParsePosition("47°10′N 019°08′W"), day, 6*sailing.Knot, streamOf(90, 1)))
	for name, sheet := range map[string]working.Sheet{"steering": s.Working(), "crossing": c.Working()} {
		if sheet.Caution != working.Caution || len(sheet.Steps) < 5 {
			t.Errorf("%s: %+v", name, sheet)
		}
	}
}
