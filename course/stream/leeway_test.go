package stream_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

func TestCorrectedCoursesAsPublished(t *testing.T) {
	// Each is rounded once, at the end, to a whole degree.
	const source = draper + "Week I, Tuesday lecture, table of corrected courses: "
	for _, c := range []struct {
		compass, wind string
		points        float64
		deviation     string
		variation     string
		want          float64
	}{
		{"NbE", "NW", 0.5, "5°E", "10°W", 12},
		{"S67°E", "S", 1, "3°W", "5°E", 104},
		{"WbN", "NW", 1.5, "1°E", "15°E", 280},
	} {
		h := angle.Must(course.FromCompass(angle.MustParseCompass(c.compass), course.With{Variation: variation.MustParse(c.variation), Deviation: deviation.MustParse(c.deviation)}))
		l, _, err := stream.LeewayOn(h.True(), angle.Must(angle.Point.Scale(c.points)), angle.MustParseTrue(c.wind))
		if err != nil {
			t.Errorf("%s%s: %v", source, c.compass, err)
			continue
		}
		if got := h.True().Add(l.Deflection()); math.Abs(got.Degrees()-c.want) > 0.5 { // half a unit of the last figure printed
			t.Errorf("%s%s, wind %s: %v, want %v", source, c.compass, c.wind, got.Degrees(), c.want)
		}
	}
}

func TestLeewayToTheLeftAsPublished(t *testing.T) {
	const source = "Proceedings of the Marine Safety and Security Council, Winter 2015-2016, nautical queries, deck answer 3: "
	heading := trueOf(125 - 1) // by gyro, error 1° W
	got := heading.Add(stream.Leeway{Angle: 3 * deg, WindSide: angle.Starboard}.Deflection())
	if math.Abs(got.Degrees()-121) > 0.01 { // whole degrees, exactly
		t.Errorf("%s%v, want 121°", source, got)
	}
}

// Questions of the US Coast Guard's public examination bank, gyro and leeway
// problems 1-7, of which the official key was not read: these are no worked
// examples of a book. The answers are recomputed, and each is one of the choices
// printed there.
func TestHeadingsOfExaminationQuestions(t *testing.T) {
	for _, c := range []struct {
		track, wind, leeway, gyroError float64
		side                           angle.Side
		gyro                           float64
	}{
		{57, 337.5, 1, 3, angle.Port, 53},
		{119, 202.5, 4, 3, angle.Starboard, 120},
		{220, 337.5, 1, 1, angle.Starboard, 220},
		{312, 258.75, 4, -3, angle.Port, 311},
	} {
		l, _, err := stream.LeewayOn(trueOf(c.track), angle.Must(angle.Degrees(c.leeway)), trueOf(c.wind))
		if err != nil || l.WindSide != c.side {
			t.Errorf("track %v, wind %v: %v, %v", c.track, c.wind, l, err)
			continue
		}
		if got := trueOf(c.track).Add(-l.Deflection()).Degrees() - c.gyroError; math.Abs(got-c.gyro) > 0.01 { // whole degrees, exactly
			t.Errorf("track %v, wind %v: %v by gyro, want %v", c.track, c.wind, got, c.gyro)
		}
	}
}

// On the way toward true, leeway is added with the wind on the port side (port
// tack), and subtracted with the wind on the starboard side. (Lectures in
// Navigation, 1918, Week I, Tuesday lecture.)
func TestSideOfLeeway(t *testing.T) {
	for _, c := range []struct {
		heading, wind float64
		side          angle.Side
		text          string
	}{
		{0, 45, angle.Starboard, "5°00′, wind on the starboard side"},
		{0, 135, angle.Starboard, "5°00′, wind on the starboard side"},
		{0, 225, angle.Port, "5°00′, wind on the port side"},
		{0, 315, angle.Port, "5°00′, wind on the port side"},
		{350, 10, angle.Starboard, "5°00′, wind on the starboard side"},
		{10, 350, angle.Port, "5°00′, wind on the port side"},
		{90, 0, angle.Port, "5°00′, wind on the port side"},
		{270, 0, angle.Starboard, "5°00′, wind on the starboard side"},
		{180, 270, angle.Starboard, "5°00′, wind on the starboard side"},
		{180, 90, angle.Port, "5°00′, wind on the port side"},
		{200, 26, angle.Port, "5°00′, wind on the port side"},
		{200, 14, angle.Starboard, "5°00′, wind on the starboard side"},
		{112, 112.001, angle.Starboard, "5°00′, wind on the starboard side"},
		{112, 111.999, angle.Port, "5°00′, wind on the port side"},
	} {
		l, _, err := stream.LeewayOn(trueOf(c.heading), 5*deg, trueOf(c.wind))
		if err != nil || l != (stream.Leeway{Angle: 5 * deg, WindSide: c.side}) || l.String() != c.text {
			t.Errorf("heading %v, wind %v: %v, %v; want %s", c.heading, c.wind, l, err, c.text)
		}
		want := -5 * deg
		if c.side == angle.Port {
			want = 5 * deg
		}
		if l.Deflection() != want {
			t.Errorf("heading %v, wind %v: turned by %v", c.heading, c.wind, l.Deflection())
		}
	}
}

// The vessel goes away from the wind by its leeway, and the heading comes back.
func TestLeewayRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		heading, wind := anyTrue().Draw(t, "heading"), anyTrue().Draw(t, "wind")
		leeway := between(0, stream.MaxLeeway).Draw(t, "leeway")
		off := wind.Sub(heading)
		l, warnings, err := stream.LeewayOn(heading, leeway, wind)
		if leeway != 0 && off == 0 {
			if err == nil {
				t.Fatal("a side from a wind on neither")
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		if leeway != 0 && turn/2-off.Abs() <= leeway {
			if l.Angle != 0 || len(warnings) == 0 {
				t.Fatalf("heading %v, wind %v astern: %v, %v", heading, wind, l, warnings)
			}
			return
		}
		way := heading.Add(l.Deflection())
		if off > 0 && way.Sub(heading) != -leeway || off < 0 && way.Sub(heading) != leeway {
			t.Fatalf("heading %v, wind %v: goes %v", heading, wind, way)
		}
		if back := way.Add(-l.Deflection()); back != heading {
			t.Fatalf("%v came back as %v", heading, back)
		}
	})
}

func TestInvalidLeewaysAreRefused(t *testing.T) {
	const neither, most = "to neither side", "write 0 to 45°"
	for _, c := range []struct {
		heading, wind float64
		leeway        angle.Angle
		want          string
	}{
		{112, 112, 5 * deg, neither}, {0, 0, 1, neither},
		{112, 200, -1, most}, {112, 200, 45*deg + 1, most}, {112, 112, -5 * deg, most},
	} {
		_, _, err := stream.LeewayOn(trueOf(c.heading), c.leeway, trueOf(c.wind))
		if errorOf(err, stream.InvalidLeeway) == nil || !strings.Contains(err.Error(), fmt.Sprint("leeway ", c.leeway)) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("heading %v, wind %v, leeway %v: %v", c.heading, c.wind, c.leeway, err)
		}
	}
	_, _, err := stream.LeewayOn(trueOf(112), 50*deg, trueOf(200))
	if err == nil || err.Error() != "stream: leeway 50°00′: write 0 to 45°; the side follows from the wind" {
		t.Error(err)
	}
	// No leeway is no leeway, from any wind.
	for _, wind := range []float64{112, 292, 200, 20} {
		if l, _, err := stream.LeewayOn(trueOf(112), 0, trueOf(wind)); err != nil || l.Deflection() != 0 {
			t.Errorf("no leeway, wind %v: %v, %v", wind, l, err)
		}
	}
	if l, _, err := stream.LeewayOn(trueOf(112), stream.MaxLeeway, trueOf(200)); err != nil || l.Deflection() != -45*deg {
		t.Errorf("the most: %v, %v", l, err)
	}
}

// A small shift of the wind near the stern must not change the heading by twice the
// leeway. So within the leeway of right astern there is no leeway, and a warning.
func TestWindAstern(t *testing.T) {
	track := angle.Must(angle.TrueDegrees(236.0388))
	for _, c := range []struct {
		leeway, wind float64
		want         float64 // deflection
		kind         working.WarningKind
	}{
		{5, 56, 0, stream.BeforeTheWind}, {5, 56.0388, 0, stream.BeforeTheWind}, {5, 56.08, 0, stream.BeforeTheWind},
		{5, 51.04, 0, stream.BeforeTheWind}, {5, 51.03, -5, ""}, {5, 61.03, 0, stream.BeforeTheWind}, {5, 61.04, 5, ""},
		{12, 45, 0, stream.BeforeTheWind}, {12, 43, -12, ""},
		{5, 270, -5, stream.CloseToTheWind}, {5, 197, 5, stream.CloseToTheWind}, {5, 277, -5, ""}, {5, 195, 5, ""},
		{0, 56.0388, 0, ""}, {0, 240, 0, ""},
	} {
		l, warnings, err := stream.LeewayOn(track, angle.Must(angle.Degrees(c.leeway)), trueOf(c.wind))
		kind := working.WarningKind("")
		if len(warnings) > 0 {
			kind = warnings[0].Kind
		}
		if err != nil || l.Deflection() != angle.Must(angle.Degrees(c.want)) || kind != c.kind || len(warnings) > 1 {
			t.Errorf("leeway %v°, wind %v: %v, %v, %v; want %v, %s", c.leeway, c.wind, l.Deflection(), warnings, err, c.want, c.kind)
		}
	}
}

// A leeway of a few billionths of a second is a number without its unit.
func TestLeewayWithoutUnitIsWarnedOf(t *testing.T) {
	_, warnings, err := stream.LeewayOn(trueOf(112), 5, trueOf(200))
	if err != nil || len(warnings) != 1 || warnings[0].Kind != stream.LeewayTiny || !strings.Contains(warnings[0].Message, "5*angle.Degree") {
		t.Errorf("%v, %v", warnings, err)
	}
}
