package fix_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix"
)

// One line with an estimated position always gives a position, between the two.
func TestLineImprovesEstimate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat := rapid.Float64Range(-89, 89).Draw(t, "latitude")
		lon := rapid.Float64Range(-180, 180).Draw(t, "longitude")
		vessel, err := angle.PositionDegrees(lat, lon)
		if err != nil {
			t.Fatal(err)
		}
		away := func(label string, miles float64) angle.Position {
			run := sailing.Run{
				Course:   angle.TrueFrom(angle.Angle(rapid.Int64Range(0, int64(angle.Turn)-1).Draw(t, label+" direction"))),
				Distance: sailing.Distance(rapid.Float64Range(0.5, miles).Draw(t, label+" miles")) * sailing.NauticalMile,
			}
			p, err := sailing.WGS84().Follow(vessel, run)
			if err != nil {
				t.Skip("over the pole")
			}
			return p
		}
		reckoned := away("reckoned", 5)
		mark := fix.Mark{Position: away("mark", 40)}
		if off := sailing.WGS84().Rhumb(reckoned, mark.Position).Distance; off < 6*sailing.NauticalMile {
			t.Skip("the mark lies within the estimate's region, where bearings of it are anything")
		}
		run := sailing.WGS84().Rhumb(vessel, mark.Position)
		var line fix.Line
		switch rapid.IntRange(0, 3).Draw(t, "kind") {
		case 0:
			line, err = fix.Latitude(vessel.Latitude, 300)
		case 1:
			line, err = fix.Longitude(vessel.Longitude, 300)
		case 2:
			line, err = fix.Range(mark, run.Distance, 200)
		default:
			line = fix.Bearing(mark, run.Course, angle.Must(angle.StandardUncertainty(angle.Degree)))
		}
		if err != nil {
			t.Fatal(err)
		}
		major := rapid.Float64Range(100, 2_500).Draw(t, "along")
		minor := rapid.Float64Range(100, 2_500).Draw(t, "across")
		prior := stream.Estimate{Position: reckoned, Covariance: sailing.Oriented(angle.MustParseTrue("030"), sailing.Distance(major), sailing.Distance(minor))}
		f, err := fix.Solve([]fix.Line{line}, fix.Options{Prior: &prior})
		off := sailing.WGS84().Rhumb(reckoned, vessel).Distance
		if _, none := errors.AsType[*fix.Error](err); none && off > 15*sailing.Distance(min(major, minor)) {
			return // so far out that the squares have no one bottom
		}
		if err != nil {
			t.Fatal(err)
		}
		if math.IsNaN(f.ChiSquare()) || f.DegreesOfFreedom() != 1 || math.Abs(f.Residuals()[0].Ratio) > 200 {
			t.Fatalf("%+v", f.Residuals())
		}
		// It is at least as accurate as the estimate in every direction. The convergency turns
		// the axes a little.
		before, err := prior.Covariance.Ellipse(0.95)
		if err != nil {
			t.Fatal(err)
		}
		after, err := f.Ellipse(0.95)
		if err != nil {
			t.Fatal(err)
		}
		if after.SemiMajor > before.SemiMajor*1.01 {
			t.Fatalf("from %v to %v", before, after)
		}
	})
}
