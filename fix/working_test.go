package fix_test

import (
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

// TestFixWorking checks lines of the working, with single spaces, and the warnings.
func TestFixWorking(t *testing.T) {
	var unstated angle.Uncertainty
	run := sailing.Run{Course: fixtest.True(90), Distance: 2 * svMile}
	prior := stream.Estimate{Position: fixtest.From(svVessel, 120, 1500), Covariance: sailing.Circular(1000)}
	ranges := []fix.Line{
		angle.Must(fix.Range(fix.Mark{Name: "A", Position: fixtest.At(47, -19)}, 6*svMile, 100)),
		angle.Must(fix.Range(fix.Mark{Name: "B", Position: fixtest.At(47.1, -19)}, 6*svMile, 100)),
	}
	west := fixtest.At(47.05, -19.1)
	for name, test := range map[string]struct {
		lines   []fix.Line
		options fix.Options
		text    string
		want    []string
		warned  []string
		kind    working.WarningKind // of the first
	}{
		"three bearings": {svThree(), fix.Options{Near: &svVessel}, "46°58.1′N 019°17.6′W, 95 %: 0.65 M along 038°T, 0.27 M across", []string{
			"Bearing of Orlesk Head light 049.8°T ±1°; passes ", "95 % ellipse 0.65 M each way along 038°T, 0.27 M across, if the lines are as good as stated", "Best cut 84° of Minnow Ledge beacon and Braddle Point tower",
			"1 degree of freedom; sound lines reach it in ", "Position 46°58.1′N 019°17.6′W",
		}, nil, ""},
		"no degree of freedom": {svThree()[1:], fix.Options{Near: &svVessel}, "", []string{"Fix by 2 lines", "no degree of freedom: a wrong line would not show", "passes through the position"}, nil, ""},
		"one line with a prior": {svThree()[:1], fix.Options{Prior: &prior}, "", []string{
			"Estimated position by one line and the reckoning", "Reckoned position 46°57.6′N 019°16.8′W takes part; standard uncertainty ±0.54 M north, ±0.54 M east",
		}, nil, ""},
		"not stated": {[]fix.Line{fix.Bearing(svHead, fixtest.True(49.6), unstated), fix.Bearing(svLedge, fixtest.True(36.5), unstated)}, fix.Options{Near: &svVessel}, "46°58.4′N 019°17.2′W, uncertainty unknown", []string{
			"95 % ellipse unknown the uncertainty of the reading is not stated for Orlesk Head light, Minnow Ledge beacon: state it, or take usual uncertainties", "Bearing of Orlesk Head light 049.6°T passes through the position",
		}, []string{"the lines cut at only 13°: the fix is weak along them"}, fix.NarrowCut},
		"one is wrong": {svBlunder(10), fix.Options{Near: &svVessel}, svSolve(t, svBlunder(10), fix.Options{Near: &svVessel}).Position().String() + ", the lines do not agree: do not use", []string{"95 % ellipse unknown the lines do not agree, so accuracy cannot be stated"}, []string{
			"the lines do not agree: at least one of them is wrong; do not use this position", " (the bearing may be misread by 10°)",
		}, fix.LinesDisagree},
		"two places":        {ranges, fix.Options{Near: &west}, "", nil, []string{"the lines also meet at 47°03.0′N 018°52.4′W, and the reckoned position chose between them"}, fix.MeetsElsewhere},
		"two places, alike": {ranges, fix.Options{}, "", nil, []string{"and nothing chose between them"}, fix.MeetsElsewhere},
		"compass error": {[]fix.Line{svCompass(svVessel, svHead, 2, 0, 1), svCompass(svVessel, svTower, 2, 0, 1), svCompass(svVessel, svLedge, 2, 0, 1)}, fix.Options{Near: &svVessel, CompassError: true}, "", []string{
			"Compass error 2°00′E solved for, in addition to the variation and deviation applied; ±",
		}, nil, ""},
		"transferred, a latitude and a depth": {[]fix.Line{
			svBearing(svVessel, svHead, 0, 1).Transferred(run, sailing.Circular(100)),
			angle.Must(fix.Latitude(svVessel.Latitude, 100)),
			angle.Must(fix.LineFromFunc("depth", "m", func(p angle.Position) float64 { return 50 + 100*(p.Latitude.Degrees()-47) }, 46.7, 2)),
		}, fix.Options{Near: &svVessel}, "", []string{"±1°; transferred 2.00 M along 090.0°T; passes ", "Latitude 46°58.0′N ±0.05 M; passes", "Depth 46.7 m ±2 m; increases by 1.67 m in 1 M toward 000°T; passes"}, nil, ""},
	} {
		f := svSolve(t, test.lines, test.options)
		if got := f.String(); test.text != "" && got != test.text {
			t.Errorf("%s: %q, want %q", name, got, test.text)
		}
		sheet := f.Working()
		if w := f.Warnings(); len(w) > 0 && (len(w) != len(sheet.Warnings) || w[0].Kind != test.kind || !reflect.DeepEqual(w[0], sheet.Warnings[0])) {
			t.Errorf("%s: %q, want %s", name, w, test.kind)
		}
		if sheet.Caution != working.Caution {
			t.Errorf("%s: no caution", name)
		}
		text := strings.Join(strings.Fields(sheet.String()), " ")
		for _, want := range test.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: no %q in\n%s", name, want, sheet)
			}
		}
		if len(sheet.Warnings) != len(test.warned) {
			t.Errorf("%s: warnings %q, want %q", name, sheet.Warnings, test.warned)
			continue
		}
		for i, want := range test.warned {
			if !strings.Contains(sheet.Warnings[i].Message, want) {
				t.Errorf("%s: warns %q, want %q", name, sheet.Warnings[i], want)
			}
		}
		if step, ok := sheet.Steps.Find("line 1"); !ok || step.What == "" {
			t.Errorf("%s: no step of the first line", name)
		}
	}
}

func TestTwoBearingsAsText(t *testing.T) {
	if got := tbWorked(t, tbDegrees(30), tbDegrees(60), 5*plMile); got.String() != "5.0 M off, 4.3 M abeam" || got.Working().Caution != working.Caution {
		t.Errorf("%q", got)
	}
}

// Lines of one mark have different titles: by kind, time or number.
func TestLinesOfOneName(t *testing.T) {
	ten := time.Date(2026, time.July, 2, 10, 0, 0, 0, time.UTC)
	head := func(off float64) fix.Line { return svBearing(svVessel, svHead, off, 1) }
	for name, test := range map[string]struct {
		lines []fix.Line
		want  []string // of the lines, then of the cut
	}{
		"two times":    {[]fix.Line{head(-8).WithTime(ten), head(8).WithTime(ten.Add(time.Hour))}, []string{"Bearing of Orlesk Head light at 10:00 UTC", "Bearing of Orlesk Head light at 11:00 UTC", "of Orlesk Head light at 10:00 UTC and Orlesk Head light at 11:00 UTC"}},
		"one has none": {[]fix.Line{head(-8).WithTime(ten), head(8)}, []string{"Bearing of Orlesk Head light at 10:00 UTC", "Bearing of Orlesk Head light, line 2", "of Orlesk Head light at 10:00 UTC and Orlesk Head light, line 2"}},
		"one time":     {[]fix.Line{head(-8).WithTime(ten), head(8).WithTime(ten.Add(time.Second))}, []string{"Bearing of Orlesk Head light, line 1", "Bearing of Orlesk Head light, line 2", "of Orlesk Head light, line 1 and Orlesk Head light, line 2"}},
		"two kinds":    {[]fix.Line{head(0), svRange(svVessel, svHead, 0, 100)}, []string{"Bearing of Orlesk Head light", "Distance off Orlesk Head light", "of bearing of Orlesk Head light and distance off Orlesk Head light"}},
		"two marks":    {[]fix.Line{head(0).WithTime(ten), svBearing(svVessel, svTower, 0, 1).WithTime(ten)}, []string{"Bearing of Orlesk Head light", "Bearing of Braddle Point tower", "of Orlesk Head light and Braddle Point tower"}},
	} {
		f, err := fix.Solve(test.lines, fix.Options{Prior: &stream.Estimate{Position: svVessel, Covariance: sailing.Circular(500)}})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		steps := f.Working().Steps
		for i, key := range []string{"line 1", "line 2", "cut"} {
			step, _ := steps.Find(key)
			if got := map[bool]string{true: step.How, false: step.What}[key == "cut"]; got != test.want[i] {
				t.Errorf("%s, %s: %q, want %q", name, key, got, test.want[i])
			}
		}
	}
	if at := svSolve(t, []fix.Line{head(0).WithTime(ten.Add(time.Hour)), svBearing(svVessel, svTower, 0, 1).WithTime(ten)}, fix.Options{}).Time(); !at.Equal(ten.Add(time.Hour)) {
		t.Errorf("the time of the last: %v", at)
	}
	if at := svSolve(t, svThree(), fix.Options{Near: &svVessel}).Time(); !at.IsZero() {
		t.Errorf("no time: %v", at)
	}
}

// The words for a probability are right for one case.
func TestCasesAreCounted(t *testing.T) {
	for want, off := range map[string]float64{"1 case of 100": 6.5, "2 cases of 100": 6} {
		f := svSolve(t, []fix.Line{svBearing(svVessel, svHead, 0, 1), svBearing(svVessel, svTower, 0, 1), svBearing(svVessel, svLedge, off, 1)}, fix.Options{Near: &svVessel})
		if step, _ := f.Working().Steps.Find("chi-square"); !strings.HasSuffix(step.How, "in "+want) {
			t.Errorf("%s, want %s", step.How, want)
		}
	}
}

// If it is stated, the uncertainty of a compass bearing is a number with a unit.
func TestUncertaintyStepHasNumber(t *testing.T) {
	step, _ := svByShip(svVessel, svHead, svOn(226, 0.3, 0.4), 0, 1.2).Working().Find("line")
	if math.Abs(step.Number-1.3) > 1e-9 || step.Unit != "degrees" {
		t.Errorf("%+v, want 1.3 degrees", step)
	}
	step, _ = fix.CompassBearing(svHead, svHeading().BearingFromTrue(fixtest.True(50)), angle.Uncertainty{}).Working().Find("line")
	if step.Number != 0 || step.Unit != "" || step.Value == "" {
		t.Errorf("not stated: %+v", step)
	}
}

// Lines may have any name, or none.
func TestWorkingOfOddNames(t *testing.T) {
	for name, want := range map[string]string{"": "", "été": "Été", "\xff": "\xff", "depth": "Depth"} {
		l := angle.Must(fix.LineFromFunc(name, "m", func(p angle.Position) float64 { return p.Latitude.Degrees() }, svVessel.Latitude.Degrees(), 1))
		f := svSolve(t, []fix.Line{l, svBearing(svVessel, svHead, 0, 1)}, fix.Options{Near: &svVessel})
		if step, ok := f.Working().Steps.Find("line 1"); !ok || step.What != want {
			t.Errorf("%q: %q, want %q", name, step.What, want)
		}
	}
	if got := (fix.Fix{}).Working(); got.Caution != working.Caution || (fix.Fix{}).String() == "" {
		t.Errorf("%v", got)
	}
}
