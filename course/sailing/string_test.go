package sailing_test

import (
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// Sailings print on one line, rounded as the trade does.
func TestStrings(t *testing.T) {
	from, to := angle.MustParsePosition("47°N 010°W"), angle.MustParsePosition("47°N 060°W")
	limited := func(latitude float64) sailing.Composite {
		return angle.Must(sailing.NewComposite(from, to, angle.Must(angle.LatitudeDegrees(latitude))))
	}
	for _, c := range []struct {
		value interface{ String() string }
		want  string
	}{
		{angle.Must(sailing.Sphere().GreatCircle(from, to)), "47°00.0′N 010°00.0′W to 47°00.0′N 060°00.0′W, 2010.2 M, 289°T becoming 251°T"},
		{sailing.GreatCircle{}, "00°00.0′N 000°00.0′E to 00°00.0′N 000°00.0′E, 0.00 M, 000°T becoming 000°T"},
		{limited(60), "47°00.0′N 010°00.0′W to 47°00.0′N 060°00.0′W within 60°00.0′N, 2010.2 M by one great circle"},
		{limited(48), "47°00.0′N 010°00.0′W to 47°00.0′N 060°00.0′W within 48°00.0′N, 2023.0 M: 613.2 M, 796.6 M along the limit, 613.2 M"},
		{sailing.Composite{}, "00°00.0′N 000°00.0′E to 00°00.0′N 000°00.0′E within 00°00.0′N, 0.00 M by one great circle"},
		{angle.Must(sailing.Circular(500).Ellipse(0.95)), "±0.66 M along 000°T, ±0.66 M across, 95 %"},
		{sailing.Ellipse{SemiMajor: 1.2 * mile, SemiMinor: 0.4 * mile, MajorAxis: angle.MustParseTrue("045"), Probability: 0.95}, "±1.2 M along 045°T, ±0.40 M across, 95 %"},
		{sailing.Ellipse{}, "±0.00 M along 000°T, ±0.00 M across, 0 %"},
	} {
		if got := c.value.String(); got != c.want {
			t.Errorf("got %s, want %s", got, c.want)
		}
	}
}
