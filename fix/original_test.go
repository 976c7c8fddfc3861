package fix_test

import (
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
)

func TestOriginalIsTheLineBeforeItsRun(t *testing.T) {
	mark := fix.Mark{Name: "Orlesk Head light", Position: angle.MustParsePosition("47°08.4′N 019°00.0′W")}
	known := angle.Must(angle.StandardUncertainty(angle.Degree))
	line := fix.Bearing(mark, angle.MustParseTrue("049.8°T"), known)
	if _, _, ok := line.Original(); ok {
		t.Error("a line that was not transferred has an original")
	}
	one := sailing.Run{Course: angle.MustParseTrue("226°T"), Distance: 3 * sailing.NauticalMile}
	two := sailing.Run{Course: angle.MustParseTrue("136°T"), Distance: 4 * sailing.NauticalMile}
	for _, covariance := range []sailing.Covariance{sailing.Circular(100), {}} {
		original, run, ok := line.Transferred(one, covariance).Transferred(two, covariance).Original()
		if !ok || original.String() != line.String() || len(original.Working()) != len(line.Working()) {
			t.Errorf("%v, want %v", original, line)
		}
		// A run of 3 M and one of 4 M at right angles make 5 M.
		if off := run.Distance - 5*sailing.NauticalMile; off > 0.001 || off < -0.001 {
			t.Errorf("a run of %v", run.Distance)
		}
		here := angle.MustParsePosition("46°58.0′N 019°17.8′W")
		if original.Residual(here) != line.Residual(here) {
			t.Error("the original has another residual")
		}
	}
	if _, _, ok := line.Transferred(sailing.Run{}, sailing.Circular(1)).Original(); ok {
		t.Error("a run of no distance leaves an original")
	}
}

func TestObservedIsTheValue(t *testing.T) {
	a := fix.Mark{Name: "a", Position: angle.MustParsePosition("47°N 019°W")}
	b := fix.Mark{Name: "b", Position: angle.MustParsePosition("48°N 019°W")}
	var none angle.Uncertainty
	for want, l := range map[string]fix.Line{
		"049.8°T":    fix.Bearing(a, angle.MustParseTrue("049.8°T"), none),
		"5.20 M":     angle.Must(fix.Range(a, 5.2*sailing.NauticalMile, 0)),
		"000.0°T":    angle.Must(fix.Transit(a, b, none)),
		"25°04.0′":   angle.Must(fix.HorizontalAngle(a, b, 25*angle.Degree+4*angle.Minute, none)),
		"47°02.5′N":  angle.Must(fix.Latitude(angle.Must(angle.ParseLatitude("47°02.5′N")), 0)),
		"019°15.4′W": angle.Must(fix.Longitude(angle.Must(angle.ParseLongitude("019°15.4′W")), 0)),
		"45 m":       angle.Must(fix.LineFromFunc("slope", "m", func(angle.Position) float64 { return 0 }, 45, 0)),
	} {
		if got := l.Observed(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
