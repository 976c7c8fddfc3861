package check_test

import (
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/check"
	"lubberline.example/deviation/internal/devtest"
)

// Four of five checks agree that the compass has turned by 2.5° on all headings, and one is 7.5°
// off the other way: A has changed, and that one is left out.
func TestOneCheckAstrayDoesNotHideTheChange(t *testing.T) {
	var checks []check.Check
	for i, heading := range []int64{20, 155, 290, 65, 200} {
		off := 5 * devtest.Deg / 2
		if i == 2 {
			off = -15 * devtest.Deg / 2
		}
		d := deviation.East(off).WithUncertainty(devtest.Sigma(devtest.Deg / 2))
		checks = append(checks, check.Check{Heading: angle.CompassFrom(angle.Angle(heading) * devtest.Deg), Deviation: d})
	}
	r, err := check.ReviewCard(deviation.None(), checks)
	if err != nil {
		t.Fatal(err)
	}
	if a := r.Change.A; r.Verdict != check.SwingAgain || (a-5*devtest.Deg/2).Abs() > devtest.Deg/10 || r.Change.B != 0 || r.Change.C != 0 || !r.Differences[2].LeftOut {
		t.Errorf("%v, changed by %+v, left out %+v", r.Verdict, r.Change, r.Differences)
	}
}

// A check on 100° that is 8° off says nothing of north and south. Two such checks do not say that
// the deviation changed by 48° on north.
func TestChecksOnOneHeadingShowNoChangeOnAnother(t *testing.T) {
	var checks []check.Check
	for i := range 6 {
		d := deviation.East(8 * devtest.Deg).WithUncertainty(devtest.Sigma(devtest.Deg / 2))
		checks = append(checks, check.Check{Heading: angle.CompassFrom(angle.Angle(96+i) * devtest.Deg), Deviation: d})
		r, err := check.ReviewCard(deviation.None(), checks)
		if err != nil {
			t.Fatal(err)
		}
		if c := r.Change; c.C != 0 || c.A.Abs() > 9*devtest.Deg || c.B.Abs() > 9*devtest.Deg || i == 0 && c != (deviation.Coefficients{}) {
			t.Errorf("%d checks: changed by %+v", len(checks), c)
		}
	}
}
