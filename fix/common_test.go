package fix_test

import (
	"math"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
	"lubberline.example/variation"
)

// Helpers of the tests of solving begin with sv.

const svMile = sailing.NauticalMile

// svBearing returns the bearing of a mark from a place, wrong by some degrees.
func svBearing(from angle.Position, m fix.Mark, off, sigma float64) fix.Line {
	return fix.Bearing(m, fixtest.True(fixtest.Azimuth(from, m.Position)+off), fixtest.Sigma(sigma))
}

// svRange returns the distance off of a mark from a place, wrong by some metres.
func svRange(from angle.Position, m fix.Mark, off, sigma float64) fix.Line {
	return angle.Must(fix.Range(m, sailing.Distance(fixtest.Apart(from, m.Position)+off), sailing.Distance(sigma)))
}

// svAngle returns the horizontal angle between two marks; a is the left one.
func svAngle(from angle.Position, a, b fix.Mark, sigma float64) fix.Line {
	d := math.Remainder(fixtest.Azimuth(from, b.Position)-fixtest.Azimuth(from, a.Position), 360)
	return angle.Must(fix.HorizontalAngle(a, b, angle.Must(angle.Degrees(d)), fixtest.Sigma(sigma)))
}

// svHeading returns a heading of the Quillon with a variation that is exact.
func svHeading() course.Heading {
	return angle.Must(course.FromCompass(angle.MustParseCompass("226°C"), course.With{
		Variation: variation.West(5*angle.Degree + 8*angle.Minute).WithUncertainty(fixtest.Sigma(0)),
		Deviation: deviation.East(angle.Degree).WithUncertainty(fixtest.Sigma(0)),
	}))
}

// svCompass returns a bearing by a compass with an error that was not applied.
func svCompass(from angle.Position, m fix.Mark, compassError, off, sigma float64) fix.Line {
	h := svHeading()
	c := h.BearingFromTrue(fixtest.True(fixtest.Azimuth(from, m.Position) + off)).Compass()
	// With an error to the east the compass reads less.
	c = c.Add(-angle.Must(angle.Degrees(compassError)))
	return fix.CompassBearing(m, h.BearingFromCompass(c), fixtest.Sigma(sigma))
}

// svRing returns marks about a place.
func svRing(p angle.Position, metres float64, degrees ...float64) []fix.Mark {
	marks := make([]fix.Mark, len(degrees))
	for i, d := range degrees {
		marks[i] = fix.Mark{Name: string(rune('A' + i)), Position: fixtest.From(p, d, metres*(1+0.1*float64(i)))}
	}
	return marks
}

// svDraw draws a position within a latitude, near the date line often.
func svDraw(t *rapid.T, within float64) angle.Position {
	latitude := rapid.Float64Range(-within, within).Draw(t, "latitude")
	longitude := rapid.OneOf(rapid.Float64Range(-180, 180), rapid.Float64Range(179.9, 180)).Draw(t, "longitude")
	return fixtest.At(latitude, longitude)
}

// svDrawMarks draws marks spread about a place.
func svDrawMarks(t *rapid.T, p angle.Position, count int) []fix.Mark {
	base := rapid.Float64Range(0, 360).Draw(t, "base")
	marks := make([]fix.Mark, count)
	for i := range marks {
		d := base + float64(i)*150/float64(count) + rapid.Float64Range(-8, 8).Draw(t, "off")
		marks[i] = fix.Mark{Name: string(rune('A' + i)), Position: fixtest.From(p, d, rapid.Float64Range(3000, 15_000).Draw(t, "metres"))}
	}
	return marks
}

// svSolve returns the fix by some lines. If there is none, the test fails.
func svSolve(t interface {
	Helper()
	Fatalf(string, ...any)
}, lines []fix.Line, o fix.Options) fix.Fix {
	t.Helper()
	f, err := fix.Solve(lines, o)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return f
}

// svKnown returns the covariance of a fix by lines of stated uncertainty.
func svKnown(f fix.Fix) sailing.Covariance {
	c, known := f.Covariance()
	if !known {
		panic("the covariance is not known")
	}
	return c
}

// The coast of Orlesk, its marks and the Quillon's figures are invented.
var (
	plOrlesk = fix.Mark{Name: "Orlesk Head light", Position: angle.MustParsePosition("47°08.4′N 019°00.0′W")}
	plChapel = fix.Mark{Name: "Chapel spire", Position: angle.MustParsePosition("47°10.1′N 019°09.5′W")}
	plMinnow = fix.Mark{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")}
	plHere   = angle.MustParsePosition("47°05.0′N 019°05.0′W")
)

const plMile = sailing.NauticalMile

// plBears returns the bearing and the distance of a mark from a place by rhumb line.
func plBears(m fix.Mark, from angle.Position) sailing.Run {
	return sailing.WGS84().Rhumb(from, m.Position)
}

// plBearing returns a bearing of a mark from a place, wrong by some degrees.
func plBearing(m fix.Mark, from angle.Position, off, sigma float64) fix.Line {
	return fix.Bearing(m, plBears(m, from).Course.Add(angle.Must(angle.Degrees(off))), fixtest.Sigma(sigma))
}
