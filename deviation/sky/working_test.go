package sky_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/sky"
)

func TestWorking(t *testing.T) {
	// The triangle of Burdwood's p. 91: latitude 38° N, declination 12° S, 9 h a.m.
	sight := sky.Body{Declination: -12 * deg, GreenwichHourAngle: 325 * deg}.From(angle.MustParsePosition("38°N 10°W"))
	want := working.Steps{
		{Key: "declination", What: "Declination", Value: "12°00′S", Number: -12, Unit: "degrees, north positive", How: "of the body as given"},
		{Key: "greenwich hour angle", What: "Greenwich hour angle", Value: "325°00′", Number: 325, Unit: "degrees westward", How: "of the body as given"},
		{Key: "longitude", What: "Longitude", Value: "10°00′W", Number: -10, Unit: working.DegreesEast, How: "given; east is added, west subtracted"},
		{Key: "local hour angle", What: "Local hour angle", Value: "315°00′", Number: 315, Unit: "degrees westward", How: "Greenwich hour angle and longitude"},
		{Key: "latitude", What: "Latitude", Value: "38°00′N", Number: 38, Unit: "degrees, north positive", How: "given"},
		{Key: "altitude", What: "Altitude", Value: sight.Altitude.String(), Number: sight.Altitude.Degrees(), Unit: "degrees above the celestial horizon", How: "sin altitude = sin lat sin dec + cos lat cos dec cos LHA; centre, no refraction"},
		{Key: "azimuth", What: "True bearing", Value: "130°26.9′T", Number: sight.Azimuth.Degrees(), Unit: working.DegreesFromNorth, How: "tan azimuth = −cos dec sin LHA / (cos lat sin dec − sin lat cos dec cos LHA)"},
		{Key: "named azimuth", What: "As azimuth tables name it", Value: "N 130°27′ E", Number: sight.Azimuth.Degrees(), Unit: "degrees from the pole named first", How: "north latitude: from north; east of the meridian: toward east"},
	}
	if diff := cmp.Diff(want, sight.Working(), cmpopts.IgnoreFields(working.Step{}, "Reasons")); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	dated := angle.Must(sky.Sun(at(t, "2026-05-14T08:30:00Z"))).From(sight.Position).Working()
	if got, want := dated[0].How, "of the Sun at 2026-05-14T08:30:00Z"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestNamedAzimuth(t *testing.T) {
	for _, c := range []struct {
		latitude, declination, hourAngle angle.Angle
		want, rule                       string
	}{
		{38 * deg, -12 * deg, 315 * deg, "N 130°27′ E", "north latitude: from north; east of the meridian: toward east"},
		{38 * deg, -12 * deg, 45 * deg, "N 130°27′ W", "north latitude: from north; west of the meridian: toward west"},
		{-38 * deg, 12 * deg, 315 * deg, "S 130°27′ E", "south latitude: from south; east of the meridian: toward east"},
		{-38 * deg, 12 * deg, 45 * deg, "S 130°27′ W", "south latitude: from south; west of the meridian: toward west"},
	} {
		sight := sky.Body{Declination: c.declination, GreenwichHourAngle: c.hourAngle}.
			From(angle.Position{Latitude: latitude(t, c.latitude)})
		step, _ := sight.Working().Find("named azimuth")
		if sight.NamedAzimuth() != c.want || step.Value != c.want || step.How != c.rule {
			t.Errorf("%s, %s; want %s, %s", sight.NamedAzimuth(), step.How, c.want, c.rule)
		}
	}
}
