package course_test

import (
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// onNorthEast is the Quillon heading 045°C, where its deviation is 2°30′E, in a
// variation of 2°W.
func onNorthEast(t testing.TB) course.Heading {
	t.Helper()
	h, err := course.FromCompass(angle.CompassFrom(45*deg), course.With{Variation: variation.West(2 * deg), Deviation: quillon()})
	if err != nil {
		t.Fatal(err)
	}
	return h
}

func TestBearingsWorkedByHand(t *testing.T) {
	h := onNorthEast(t)
	type all struct{ true, magnetic, compass, relative string }
	// With 2°30′E and 2°W, true is compass + 0°30′. The ship's head is 045.5°T.
	for _, c := range []struct {
		name string
		b    course.Bearing
		want all
	}{
		{"from compass", h.BearingFromCompass(angle.CompassFrom(300 * deg)), all{"300.5T", "302.5M", "300C", "255R"}},
		{"from magnetic", h.BearingFromMagnetic(angle.MagneticFrom(300 * deg)), all{"298T", "300M", "297.5C", "252.5R"}},
		{"from true", h.BearingFromTrue(angle.TrueFrom(300 * deg)), all{"300T", "302M", "299.5C", "254.5R"}},
		{"from relative", h.BearingFromRelative(angle.RelativeFrom(300 * deg)), all{"345.5T", "347.5M", "345C", "300R"}},
		{"to port, through north", h.BearingFromRelative(angle.Must(angle.ParseRelative("50 port"))), all{"355.5T", "357.5M", "355C", "310R"}},
		{"up through north", h.BearingFromCompass(angle.MustParseCompass("359.5")), all{"000T", "002M", "359.5C", "314.5R"}},
		{"down through north", h.BearingFromTrue(angle.TrueFrom(0)), all{"000T", "002M", "359.5C", "314.5R"}},
		{"ahead", h.BearingFromRelative(angle.Relative{}), all{"045.5T", "047.5M", "045C", "000R"}},
		{"astern", h.BearingFromCompass(angle.CompassFrom(225 * deg)), all{"225.5T", "227.5M", "225C", "180R"}},
	} {
		if c.b.True() != angle.MustParseTrue(c.want.true) || c.b.Magnetic() != angle.MustParseMagnetic(c.want.magnetic) ||
			c.b.Compass() != angle.MustParseCompass(c.want.compass) || c.b.Relative() != angle.Must(angle.ParseRelative(c.want.relative)) {
			t.Errorf("%s: %v %v %v %v, want %v", c.name, c.b.True(), c.b.Magnetic(), c.b.Compass(), c.b.Relative(), c.want)
		}
		if c.b.Heading() != h {
			t.Errorf("%s: taken on %v, want %v", c.name, c.b.Heading().Compass(), h.Compass())
		}
	}
}

// The classic slip would give another answer here: on 300° the card says 4°W,
// on the heading of 045°C it says 2°30′E.
func TestDeviationIsOfHeading(t *testing.T) {
	h := onNorthEast(t)
	of, err := quillon().OnCompass(angle.CompassFrom(300 * deg))
	if err != nil || of.Angle() != -4*deg {
		t.Fatalf("the card on 300°C: %v, %v", of, err)
	}
	wrong := h.Variation().True(of.Magnetic(angle.CompassFrom(300 * deg)))
	if right := h.BearingFromCompass(angle.CompassFrom(300 * deg)).True(); right.Sub(wrong) != 6*deg+30*minute {
		t.Errorf("right %v, by the deviation of the bearing %v, want 6°30′ between them", right, wrong)
	}
}

// A hand-bearing compass clear of the vessel's magnetism does not have the deviation of its
// compass.
func TestMagneticBearingOnEveryHeading(t *testing.T) {
	for c := angle.Angle(0); c < turn; c += 5 * deg {
		h, err := course.FromCompass(angle.CompassFrom(c), course.With{Variation: variation.West(2 * deg), Deviation: quillon()})
		if err != nil {
			t.Fatal(err)
		}
		if b := h.BearingFromMagnetic(angle.MagneticFrom(100 * deg)); b.True() != angle.TrueFrom(98*deg) {
			t.Errorf("heading %v: %v, want 098°T", h.Compass(), b.True())
		}
	}
}

// Bearings may be taken on a heading that was given by true or by magnetic.
func TestBearingsOnAnyHeading(t *testing.T) {
	w := course.With{Variation: variation.West(2 * deg), Deviation: deviation.East(3 * deg)}
	byTrue, err1 := course.FromTrue(angle.TrueFrom(46*deg), w)
	byMagnetic, err2 := course.FromMagnetic(angle.MagneticFrom(48*deg), w)
	byCompass, err3 := course.FromCompass(angle.CompassFrom(45*deg), w)
	if err1 != nil || err2 != nil || err3 != nil {
		t.Fatal(err1, err2, err3)
	}
	for name, h := range map[string]course.Heading{"true": byTrue, "magnetic": byMagnetic, "compass": byCompass} {
		b := h.BearingFromCompass(angle.CompassFrom(200 * deg))
		if b.True() != angle.TrueFrom(201*deg) || b.Relative() != angle.RelativeFrom(155*deg) {
			t.Errorf("heading by %s: %v %v, want 201°T 155°R", name, b.True(), b.Relative())
		}
	}
}

// How a bearing was taken decides which uncertainties it shares with others.
func TestConversionUncertainties(t *testing.T) {
	sigma := func(degrees float64) angle.Uncertainty {
		return angle.Must(angle.StandardUncertainty(angle.Must(angle.Degrees(degrees))))
	}
	with := course.With{Variation: variation.West(2 * deg).WithUncertainty(sigma(2)), Deviation: deviation.East(deg).WithUncertainty(sigma(3))}
	plain := angle.Must(course.FromCompass(angle.CompassFrom(45*deg), with))
	with.Reading = sigma(4)
	read := angle.Must(course.FromCompass(angle.CompassFrom(45*deg), with))
	unstated := angle.Must(course.FromCompass(angle.CompassFrom(45*deg), course.With{Variation: variation.West(2 * deg), Deviation: deviation.East(deg)}))
	var none angle.Uncertainty
	for name, c := range map[string]struct {
		b                        course.Bearing
		byCompass                bool
		ofVariation, ofDeviation angle.Uncertainty
	}{
		"by compass":                         {plain.BearingFromCompass(angle.CompassFrom(0)), true, sigma(2), sigma(3)},
		"by compass, the heading read":       {read.BearingFromCompass(angle.CompassFrom(0)), true, sigma(2), sigma(3)},
		"from the bow":                       {plain.BearingFromRelative(angle.RelativeFrom(0)), true, sigma(2), sigma(3)},
		"from the bow, the heading read":     {read.BearingFromRelative(angle.RelativeFrom(0)), true, sigma(2), sigma(5)}, // 3-4-5
		"by a hand-bearing compass":          {read.BearingFromMagnetic(angle.MagneticFrom(0)), false, sigma(2), sigma(0)},
		"true":                               {read.BearingFromTrue(angle.TrueFrom(0)), false, sigma(0), sigma(0)},
		"by compass, nothing stated":         {unstated.BearingFromCompass(angle.CompassFrom(0)), true, none, none},
		"by a hand-bearing compass, nothing": {unstated.BearingFromMagnetic(angle.MagneticFrom(0)), false, none, sigma(0)},
		"none":                               {course.Bearing{}, false, sigma(0), sigma(0)},
	} {
		ofVariation, ofDeviation := c.b.Conversion()
		if c.b.ByCompass() != c.byCompass || ofVariation != c.ofVariation || ofDeviation != c.ofDeviation {
			t.Errorf("%s: by compass %v, %v and %v, want %v, %v and %v", name, c.b.ByCompass(), ofVariation, ofDeviation, c.byCompass, c.ofVariation, c.ofDeviation)
		}
	}
}
