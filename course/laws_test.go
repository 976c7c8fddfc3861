package course_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// steep is the steepest card of the laws, in degrees of deviation for a degree of
// heading. A table is kept by compass or by magnetic heading. A rounding error on
// the way to the other heading comes back up to 1/(1−steep) = 5 times as large. Two
// errors of half a unit then make the 3 units that the laws allow. A curve has one
// more, for float64.
const steep = 0.8

const allowed angle.Angle = 4

func withCard(t *rapid.T) (course.With, card) {
	c := cardWithin(steep).Draw(t, "card")
	return course.With{Variation: anyVariation().Draw(t, "variation"), Deviation: c.table()}, c
}

func must(t *rapid.T, h course.Heading, err error) course.Heading {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	return h
}

func near[R angle.North](t *rapid.T, what string, got, want angle.Direction[R], within angle.Angle) {
	t.Helper()
	if off := got.Sub(want); off.Abs() > within {
		t.Fatalf("%s: got %v, want %v: off by %d units", what, got, want, int64(off))
	}
}

func fromTrue(t *rapid.T, d angle.True, w course.With) course.Heading {
	t.Helper()
	h, err := course.FromTrue(d, w)
	return must(t, h, err)
}

func fromMagnetic(t *rapid.T, d angle.Magnetic, w course.With) course.Heading {
	t.Helper()
	h, err := course.FromMagnetic(d, w)
	return must(t, h, err)
}

func fromCompass(t *rapid.T, d angle.Compass, w course.With) course.Heading {
	t.Helper()
	h, err := course.FromCompass(d, w)
	return must(t, h, err)
}

// heading draws a heading given in one of the three ways.
func heading(t *rapid.T, w course.With) course.Heading {
	switch rapid.SampledFrom([]string{"true", "magnetic", "compass"}).Draw(t, "given") {
	case "true":
		return fromTrue(t, anyTrue().Draw(t, "true"), w)
	case "magnetic":
		return fromMagnetic(t, anyMagnetic().Draw(t, "magnetic"), w)
	}
	return fromCompass(t, anyCompass().Draw(t, "compass"), w)
}

func TestCourseToSteerConvertsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, _ := withCard(t)
		set := anyTrue().Draw(t, "true")
		h := fromTrue(t, set, w)
		if h.True() != set {
			t.Fatalf("the course given changed from %v to %v", set, h.True())
		}
		near(t, "by compass and back", fromCompass(t, h.Compass(), w).True(), set, allowed)
		near(t, "by magnetic and back", fromMagnetic(t, h.Magnetic(), w).True(), set, 0)
		near(t, "magnetic and on", fromMagnetic(t, h.Magnetic(), w).Compass(), h.Compass(), 0)
	})
}

func TestCompassHeadingConvertsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, _ := withCard(t)
		read := anyCompass().Draw(t, "compass")
		h := fromCompass(t, read, w)
		if h.Compass() != read {
			t.Fatalf("the heading given changed from %v to %v", read, h.Compass())
		}
		near(t, "to true and back", fromTrue(t, h.True(), w).Compass(), read, allowed)
		near(t, "to magnetic and back", fromMagnetic(t, h.Magnetic(), w).Compass(), read, allowed)
	})
}

func TestConstantDeviationRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := course.With{
			Variation: anyVariation().Draw(t, "variation"),
			Deviation: deviation.East(between(-40*deg, 40*deg).Draw(t, "deviation")),
		}
		h := heading(t, w)
		for _, back := range []course.Heading{
			fromTrue(t, h.True(), w), fromMagnetic(t, h.Magnetic(), w), fromCompass(t, h.Compass(), w),
		} {
			near(t, "true", back.True(), h.True(), 0)
			near(t, "magnetic", back.Magnetic(), h.Magnetic(), 0)
			near(t, "compass", back.Compass(), h.Compass(), 0)
		}
	})
}

func TestInAMirrorEastIsWest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, c := withCard(t)
		v := w.Variation.(variation.Variation)
		seen := course.With{Variation: variation.East(-v.Angle()), Deviation: c.mirrored().table()}
		set := anyTrue().Draw(t, "true")
		h, m := fromTrue(t, set, w), fromTrue(t, angle.TrueFrom(-set.FromNorth()), seen)
		near(t, "magnetic", m.Magnetic(), angle.MagneticFrom(-h.Magnetic().FromNorth()), 0)
		near(t, "compass", m.Compass(), angle.CompassFrom(-h.Compass().FromNorth()), allowed)

		read := anyCompass().Draw(t, "compass")
		h, m = fromCompass(t, read, w), fromCompass(t, angle.CompassFrom(-read.FromNorth()), seen)
		near(t, "magnetic of compass", m.Magnetic(), angle.MagneticFrom(-h.Magnetic().FromNorth()), allowed)
		near(t, "true", m.True(), angle.TrueFrom(-h.True().FromNorth()), allowed)
	})
}

func TestTurnedInputsTurnTheResult(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, c := withCard(t)
		by := between(0, turn).Draw(t, "turn")
		seen := course.With{Variation: w.Variation, Deviation: c.turned(by).table()}
		within := angle.Angle(0)
		if c.smooth {
			within = allowed // the spline is solved for in float64, in another order
		}
		set := anyTrue().Draw(t, "true")
		h, m := fromTrue(t, set, w), fromTrue(t, set.Add(by), seen)
		near(t, "magnetic", m.Magnetic(), h.Magnetic().Add(by), 0)
		near(t, "compass", m.Compass(), h.Compass().Add(by), within)

		read := anyCompass().Draw(t, "compass")
		h, m = fromCompass(t, read, w), fromCompass(t, read.Add(by), seen)
		near(t, "true", m.True(), h.True().Add(by), within)
	})
}

func TestCompassErrorIsTrueMinusCompass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, _ := withCard(t)
		h := heading(t, w)
		difference := angle.EastWestFrom(h.True().FromNorth() - h.Compass().FromNorth())
		if h.CompassError().Angle() != difference.Angle() {
			t.Fatalf("error %v, true less compass %v", h.CompassError(), difference)
		}
		if sum := angle.EastWestFrom(h.Variation().Angle() + h.Deviation().Angle()); h.CompassError().Angle() != sum.Angle() {
			t.Fatalf("error %v, variation and deviation %v", h.CompassError(), sum)
		}
		// The rules of the package comment, with east positive.
		near(t, "magnetic = compass + deviation", h.Magnetic(), angle.MagneticFrom(h.Compass().FromNorth()+h.Deviation().Angle()), 0)
		near(t, "true = magnetic + variation", h.True(), angle.TrueFrom(h.Magnetic().FromNorth()+h.Variation().Angle()), 0)
	})
}

func TestDeviationOfCompassHeading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, _ := withCard(t)
		h := heading(t, w)
		d, err := w.Deviation.OnCompass(h.Compass())
		if err != nil {
			t.Fatal(err)
		}
		if off := d.Angle() - h.Deviation().Angle(); off.Abs() > allowed {
			t.Fatalf("deviation used %v, on %v it is %v: off by %d units", h.Deviation(), h.Compass(), d, int64(off))
		}
	})
}

func TestDeviationOfBearingIsOfHeading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, _ := withCard(t)
		h := heading(t, w)
		for _, b := range []course.Bearing{
			h.BearingFromCompass(anyCompass().Draw(t, "compass bearing")),
			h.BearingFromMagnetic(anyMagnetic().Draw(t, "magnetic bearing")),
			h.BearingFromTrue(anyTrue().Draw(t, "true bearing")),
			h.BearingFromRelative(anyRelative().Draw(t, "relative bearing")),
		} {
			if d := deviation.Between(b.Magnetic(), b.Compass()); d.Angle() != h.Deviation().Angle() {
				t.Fatalf("deviation in the bearing %v, of the heading %v", d, h.Deviation())
			}
			if v := variation.Between(b.True(), b.Magnetic()); v.Angle() != h.Variation().Angle() {
				t.Fatalf("variation in the bearing %v, of the heading %v", v, h.Variation())
			}
		}
	})
}

func TestBearingRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, _ := withCard(t)
		h := heading(t, w)
		b := h.BearingFromCompass(anyCompass().Draw(t, "compass bearing"))
		for _, again := range []course.Bearing{
			h.BearingFromTrue(b.True()), h.BearingFromMagnetic(b.Magnetic()), h.BearingFromRelative(b.Relative()),
		} {
			near(t, "true", again.True(), b.True(), 0)
			near(t, "magnetic", again.Magnetic(), b.Magnetic(), 0)
			near(t, "compass", again.Compass(), b.Compass(), 0)
			if again.Relative() != b.Relative() {
				t.Fatalf("relative: got %v, want %v", again.Relative(), b.Relative())
			}
		}
	})
}

func TestRelativeBearingByThreeNorths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, _ := withCard(t)
		h := heading(t, w)
		r := anyRelative().Draw(t, "relative bearing")
		for _, b := range []course.Bearing{
			h.BearingFromRelative(r),
			h.BearingFromCompass(h.Compass().Bearing(r)),
			h.BearingFromMagnetic(h.Magnetic().Bearing(r)),
			h.BearingFromTrue(h.True().Bearing(r)),
		} {
			if b.Relative() != r || b.True().Relative(h.True()) != r || b.Magnetic().Relative(h.Magnetic()) != r || b.Compass().Relative(h.Compass()) != r {
				t.Fatalf("relative bearing %v: got %v, by true %v, by magnetic %v, by compass %v", r, b.Relative(),
					b.True().Relative(h.True()), b.Magnetic().Relative(h.Magnetic()), b.Compass().Relative(h.Compass()))
			}
		}
	})
}

// rootOfSquares is the slow, obvious sum of independent uncertainties.
func rootOfSquares(parts ...angle.Angle) angle.Angle {
	var sum float64
	for _, p := range parts {
		sum += p.Degrees() * p.Degrees()
	}
	return angle.Must(angle.Degrees(math.Sqrt(sum)))
}

func TestUncertaintiesCombine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u, v, r := between(0, 10*deg).Draw(t, "of variation"), between(0, 10*deg).Draw(t, "of deviation"), between(0, 10*deg).Draw(t, "of reading")
		c := cardWithin(steep).Draw(t, "card")
		w := course.With{
			Variation: anyVariation().Draw(t, "variation").WithUncertainty(sigma(u)),
			Deviation: c.table().WithUncertainty(sigma(v)),
		}
		check := func(what string, got angle.Uncertainty, parts ...angle.Angle) {
			t.Helper()
			s, stated := got.Sigma()
			if !stated || (s-rootOfSquares(parts...)).Abs() > 2 { // each combining rounds once
				t.Fatalf("%s: got %v (%t), want ±%v", what, s, stated, rootOfSquares(parts...))
			}
		}
		read := anyCompass().Draw(t, "compass")
		check("without reading", fromCompass(t, read, w).Uncertainty(), u, v)
		w.Reading = sigma(r)
		h := fromCompass(t, read, w)
		check("with reading", h.Uncertainty(), u, v, r)
		check("of the error", h.CompassError().Uncertainty(), u, v)
		check("of a compass bearing", h.BearingFromCompass(read).Uncertainty(), u, v, r)
		check("of a magnetic bearing", h.BearingFromMagnetic(angle.Magnetic{}).Uncertainty(), u, r)
		check("of a true bearing", h.BearingFromTrue(angle.True{}).Uncertainty(), u, v, r)
		check("of a relative bearing", h.BearingFromRelative(angle.Relative{}).Uncertainty(), u, v, r)
	})
}

// Heading.Uncertainty leaves out that an uncertain heading makes its deviation uncertain.
// Its comment states the maximum of that part.
func TestUncertaintyOfHeadingInDeviation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := cardWithin(0.1).Draw(t, "card")
		if c.by == deviation.ByMagnetic {
			t.Skip("the slope is per degree of magnetic heading")
		}
		w := course.With{Variation: variation.East(0), Deviation: c.table()}
		read := anyCompass().Draw(t, "compass")
		off := between(-5*deg, 5*deg).Draw(t, "off")
		change := fromCompass(t, read.Add(off), w).True().Sub(fromCompass(t, read, w).True())
		if extra := (change - off).Abs(); extra > off.Abs()/10+off.Abs()/200+2 { // the steepness is sampled
			t.Fatalf("%v off by compass is %v off by true: %v more", off, change, extra)
		}
	})
}
