package course_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// A student works the sum the long way, and may do a part of it wrongly. It is
// the slow, obvious twin of the slips: whatever it comes to by a slip must be
// found, and nothing else.
type student struct {
	with     course.With
	v        angle.Angle // the variation as brought up to date
	rose     angle.Angle // the variation as printed
	hasRose  bool
	original course.Heading
}

// variationBy is what the student makes of the variation, to be applied as it
// is.
func (s student) variationBy(slip course.Slip) (angle.Angle, bool) {
	change := s.v - s.rose
	switch slip {
	case course.VariationWrongWay, course.BothWrongWay:
		return -s.v, true
	case course.VariationLeftOut, course.BothLeftOut:
		return 0, true
	case course.VariationTwice:
		return 2 * s.v, true
	case course.AnnualChangeLeft:
		return s.rose, s.hasRose
	case course.AnnualChangeWrong:
		return s.rose - change, s.hasRose
	}
	return s.v, false
}

// deviationBy is what the student makes of a deviation.
func deviationBy(slip course.Slip, d angle.Angle) (angle.Angle, bool) {
	switch slip {
	case course.DeviationWrongWay, course.BothWrongWay:
		return -d, true
	case course.DeviationLeftOut, course.BothLeftOut:
		return 0, true
	case course.DeviationTwice:
		return 2 * d, true
	}
	return d, false
}

// slipsAnywhere are those that need no figures.
var slipsAnywhere = map[course.Slip][]angle.Angle{
	course.Reciprocal: {180 * deg}, course.TenDegrees: {10 * deg, -10 * deg},
}

var slipsOfParts = []course.Slip{
	course.VariationWrongWay, course.DeviationWrongWay, course.BothWrongWay,
	course.VariationLeftOut, course.DeviationLeftOut, course.BothLeftOut,
	course.VariationTwice, course.DeviationTwice, course.AnnualChangeLeft, course.AnnualChangeWrong,
}

// toCompass is how far off the compass course comes out by each slip, from the
// direction given.
func (s student) toCompass(byMagnetic bool) map[course.Slip][]angle.Angle {
	h := s.original
	off := maps.Clone(slipsAnywhere)
	for _, slip := range slipsOfParts {
		v, ofVariation := s.variationBy(slip)
		d, ofDeviation := deviationBy(slip, h.Deviation().Angle())
		switch {
		case !ofVariation && !ofDeviation:
			continue
		case byMagnetic && ofVariation: // there is no variation in the sum
			continue
		case ofVariation && ofDeviation && (s.v == 0 || h.Deviation().Angle() == 0):
			continue
		}
		// With the deviation given, and with the one looked up on the way.
		m := h.True().FromNorth() - v
		off[slip] = append(off[slip], angle.CompassFrom(m-d).Sub(h.Compass()))
		if looked, err := s.with.Deviation.OnMagnetic(angle.MagneticFrom(m)); err == nil && ofVariation {
			d, _ = deviationBy(slip, looked.Angle())
			off[slip] = append(off[slip], angle.CompassFrom(m-d).Sub(h.Compass()))
		}
	}
	if !byMagnetic {
		onTrue := h.True().FromNorth()
		if d, err := s.with.Deviation.OnCompass(angle.CompassFrom(onTrue)); err == nil {
			off[course.DeviationOfTrue] = append(off[course.DeviationOfTrue], h.Deviation().Angle()-d.Angle())
		}
		if d, err := s.with.Deviation.OnMagnetic(angle.MagneticFrom(onTrue)); err == nil {
			off[course.DeviationOfTrue] = append(off[course.DeviationOfTrue], h.Deviation().Angle()-d.Angle())
		}
	}
	return off
}

// toTrue is how far off the true direction comes out by each slip.
func (s student) toTrue(byMagnetic bool) map[course.Slip][]angle.Angle {
	h := s.original
	off := maps.Clone(slipsAnywhere)
	for _, slip := range slipsOfParts {
		v, ofVariation := s.variationBy(slip)
		d, ofDeviation := deviationBy(slip, h.Deviation().Angle())
		switch {
		case !ofVariation && !ofDeviation:
			continue
		case byMagnetic && ofDeviation:
			continue
		case ofVariation && ofDeviation && (s.v == 0 || h.Deviation().Angle() == 0):
			continue
		}
		off[slip] = append(off[slip], angle.TrueFrom(h.Compass().FromNorth()+d+v).Sub(h.True()))
	}
	return off
}

// explaining are the slips that come to an answer.
func explaining(off map[course.Slip][]angle.Angle, answer, within angle.Angle) []course.Slip {
	var found []course.Slip
	if answer.Abs() <= within {
		return nil
	}
	for slip, ways := range off {
		for _, o := range ways {
			o = o.NormalizedSigned()
			if o.Abs() > within && (answer-o).NormalizedSigned().Abs() <= within && !slices.Contains(found, slip) {
				found = append(found, slip)
			}
		}
	}
	slices.Sort(found)
	return found
}

// enrol draws a student, with a variation known or from a rose.
func enrol(t *rapid.T) student {
	s := student{with: course.With{Deviation: cardWithin(steep).Draw(t, "card").table(), On: day}}
	v := rapid.Map(between(-60*deg, 60*deg), variation.East).Draw(t, "variation")
	s.v, s.with.Variation = v.Angle(), v
	if rapid.Bool().Draw(t, "by rose") {
		perYear := rapid.Int64Range(-30, 30).Draw(t, "annual change")
		s.with.Variation = variation.Rose{Variation: v, Year: 2014, Change: variation.Eastward(angle.Angle(perYear) * minute)}
		s.rose, s.hasRose = v.Angle(), true
		s.v += 12 * angle.Angle(perYear) * minute
	}
	return s
}

// answers draws how far off an answer is: by a slip, nearly by a slip, or
// anyhow.
func answers(t *rapid.T, off map[course.Slip][]angle.Angle, within angle.Angle) angle.Angle {
	if rapid.Bool().Draw(t, "anyhow") {
		return between(-turn/2+1, turn/2).Draw(t, "off")
	}
	slip := rapid.SampledFrom(slices.Sorted(maps.Keys(off))).Draw(t, "slip")
	return rapid.SampledFrom(off[slip]).Draw(t, "way") + between(-within/2, within/2).Draw(t, "reading")
}

func checkSlips(t *rapid.T, got, want []course.Slip) {
	t.Helper()
	got = slices.Clone(got)
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Fatalf("found %q, want %q", got, want)
	}
}

func TestEverySlipOnTheWayToTheCompassIsFoundAndNoOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := enrol(t)
		byMagnetic := rapid.Bool().Draw(t, "by magnetic")
		if byMagnetic {
			s.original = fromMagnetic(t, anyMagnetic().Draw(t, "magnetic"), s.with)
		} else {
			s.original = fromTrue(t, anyTrue().Draw(t, "true"), s.with)
		}
		within := between(minute, 2*deg).Draw(t, "within")
		off := s.toCompass(byMagnetic)
		answer := answers(t, off, within)
		got := s.original.CompassSlips(s.original.Compass().Add(answer), within)
		checkSlips(t, got, explaining(off, answer.NormalizedSigned(), within))
	})
}

func TestEverySlipOnTheWayToTrueIsFoundAndNoOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := enrol(t)
		byMagnetic := rapid.Bool().Draw(t, "by magnetic")
		if byMagnetic {
			s.original = fromMagnetic(t, anyMagnetic().Draw(t, "magnetic"), s.with)
		} else {
			s.original = fromCompass(t, anyCompass().Draw(t, "compass"), s.with)
		}
		within := between(minute, 2*deg).Draw(t, "within")
		off := s.toTrue(byMagnetic)
		answer := answers(t, off, within)
		got := s.original.TrueSlips(s.original.True().Add(answer), within)
		checkSlips(t, got, explaining(off, answer.NormalizedSigned(), within))
	})
}

func TestEverySlipInABearingIsFoundAndNoOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := enrol(t)
		s.original = fromCompass(t, anyCompass().Draw(t, "compass"), s.with)
		byMagnetic := rapid.Bool().Draw(t, "by magnetic")
		within := between(minute, 2*deg).Draw(t, "within")
		off := s.toTrue(byMagnetic)
		b := s.original.BearingFromMagnetic(anyMagnetic().Draw(t, "bearing"))
		if !byMagnetic {
			b = s.original.BearingFromCompass(b.Compass())
			if d, err := s.with.Deviation.OnCompass(b.Compass()); err == nil {
				off[course.DeviationOfBearing] = []angle.Angle{d.Angle() - s.original.Deviation().Angle()}
			}
		}
		answer := answers(t, off, within)
		got := b.TrueSlips(b.True().Add(answer), within)
		checkSlips(t, got, explaining(off, answer.NormalizedSigned(), within))
	})
}

func TestARightAnswerHasNoSlip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := enrol(t)
		h := heading(t, s.with)
		within := between(0, 5*deg).Draw(t, "within")
		off := between(-within, within).Draw(t, "off")
		b := h.BearingFromCompass(anyCompass().Draw(t, "bearing"))
		for name, got := range map[string][]course.Slip{
			"compass": h.CompassSlips(h.Compass().Add(off), within),
			"true":    h.TrueSlips(h.True().Add(off), within),
			"bearing": b.TrueSlips(b.True().Add(off), within),
		} {
			if got != nil {
				t.Fatalf("%s off by %v, within %v: %q", name, off, within, got)
			}
		}
	})
}

// oneSlip checks that just one slip explains an answer, or none if it is "".
func oneSlip(t *testing.T, name string, got []course.Slip, want course.Slip) {
	t.Helper()
	if want == "" && got == nil || len(got) == 1 && got[0] == want {
		return
	}
	t.Errorf("%s: %q, want %q", name, got, want)
}

func TestSlipsWorkedByHand(t *testing.T) {
	within := deg / 4
	h := given(t, "100T", known("7W", "3E")) // 107°M, 104°C
	for answer, want := range map[string]course.Slip{
		"104": "", "104.2": "", "103.8": "",
		"090": course.VariationWrongWay, "110": course.DeviationWrongWay, "096": course.BothWrongWay,
		"097": course.VariationLeftOut, "107": course.DeviationLeftOut, "100": course.BothLeftOut,
		"111": course.VariationTwice, "101": course.DeviationTwice,
		"284": course.Reciprocal, "114": course.TenDegrees, "094": course.TenDegrees,
		"102": "", "200": "", "000": "",
	} {
		oneSlip(t, "to compass "+answer, h.CompassSlips(angle.MustParseCompass(answer), within), want)
	}
	h = given(t, "104C", known("7W", "3E"))
	for answer, want := range map[string]course.Slip{
		"100": "", "114": course.VariationWrongWay, "094": course.DeviationWrongWay, "108": course.BothWrongWay,
		"107": course.VariationLeftOut, "097": course.DeviationLeftOut, "104": course.BothLeftOut,
		"093": course.VariationTwice, "103": course.DeviationTwice,
		"280": course.Reciprocal, "110": course.TenDegrees, "090": course.TenDegrees, "102": "",
	} {
		oneSlip(t, "to true "+answer, h.TrueSlips(angle.MustParseTrue(answer), within), want)
	}
	// A magnetic course has no variation to go wrong on the way to the
	// compass, and no deviation on the way to true.
	h = given(t, "107M", known("7W", "3E"))
	for answer, want := range map[string]course.Slip{"110": course.DeviationWrongWay, "107": course.DeviationLeftOut, "097": "", "111": "", "090": "", "100": ""} {
		oneSlip(t, "magnetic to compass "+answer, h.CompassSlips(angle.MustParseCompass(answer), within), want)
	}
	for answer, want := range map[string]course.Slip{"114": course.VariationWrongWay, "107": course.VariationLeftOut, "093": course.VariationTwice, "103": "", "097": "", "104": ""} {
		oneSlip(t, "magnetic to true "+answer, h.TrueSlips(angle.MustParseTrue(answer), within), want)
	}
}

// 112°T is 132°M by 20°W. With the variation the wrong way she would head
// 092°M, and there the card has more than on the right heading: two wrong
// answers by one slip.
func TestTheDeviationMayBeLookedUpOnTheWrongHeading(t *testing.T) {
	h := given(t, "112T", course.With{Variation: variation.West(20 * deg), Deviation: quillon()}) // 132°M
	wrongMagnetic := angle.MagneticFrom(92 * deg)
	d, err := quillon().OnMagnetic(wrongMagnetic)
	if err != nil || (d.Angle()-h.Deviation().Angle()).Abs() < deg/2 {
		t.Fatalf("deviation %v on %v, right %v: too near to tell: %v", d, wrongMagnetic, h.Deviation(), err)
	}
	for name, d := range map[string]deviation.Deviation{"looked up": d, "given": h.Deviation()} {
		oneSlip(t, name, h.CompassSlips(d.Compass(wrongMagnetic), minute), course.VariationWrongWay)
		wrongAgain := deviation.West(d.Angle()).Compass(wrongMagnetic)
		oneSlip(t, name+", the wrong way too", h.CompassSlips(wrongAgain, minute), course.BothWrongWay)
	}
}

func TestSlipsInTheCard(t *testing.T) {
	w := course.With{Variation: variation.West(20 * deg), Deviation: quillon()}
	h := given(t, "010T", w)
	// On 010° the card has 1°00′W; on the right heading 1°32′E.
	wrong := deviation.West(deg).Compass(h.Magnetic())
	oneSlip(t, "deviation of true", h.CompassSlips(wrong, minute), course.DeviationOfTrue)

	// A card by magnetic heading is entered with the true one as it stands.
	w.Deviation = angle.Must(deviation.ReadTable(strings.NewReader(strings.Replace(quillonCard, "compass", "magnetic", 1))))
	g := given(t, "017T", w) // on 017° it has 0°18′W
	wrong = deviation.West(18 * minute).Compass(g.Magnetic())
	oneSlip(t, "deviation of true by magnetic", g.CompassSlips(wrong, minute/2), course.DeviationOfTrue)

	b := onNorthEast(t).BearingFromCompass(angle.CompassFrom(300 * deg)) // there 4°00′W
	oneSlip(t, "deviation of the bearing", b.TrueSlips(angle.TrueFrom(294*deg), minute), course.DeviationOfBearing)
	m := onNorthEast(t).BearingFromMagnetic(angle.MagneticFrom(300 * deg))
	oneSlip(t, "no deviation in a magnetic bearing", m.TrueSlips(m.True().Add(2*deg+30*minute), minute), "")
}

// A slip that makes less than the tolerance explains nothing, however well it
// fits.
func TestASlipTooSmallToSeeIsNotClaimed(t *testing.T) {
	h := given(t, "100C", known("0°20′W", "9E"))
	oneSlip(t, "small", h.TrueSlips(h.True().Add(40*minute), deg/2), course.VariationWrongWay)
	oneSlip(t, "just too small", h.TrueSlips(h.True().Add(45*minute), 40*minute), "")
	oneSlip(t, "too small", h.TrueSlips(h.True().Add(55*minute), 50*minute), "")
	// Round the circle too: 179°55′ the wrong way is 10′ off.
	h = given(t, "100C", known("179°55′E", "9E"))
	oneSlip(t, "too small round the circle", h.TrueSlips(h.True().Add(13*minute), 12*minute), "")
}

// With nothing between two of the norths the two slips in both are one in the
// other.
func TestNoSlipInBothWhereOneIsNought(t *testing.T) {
	h := given(t, "100T", known("7W", "0"))
	oneSlip(t, "wrong way", h.CompassSlips(angle.CompassFrom(93*deg), deg/2), course.VariationWrongWay)
	oneSlip(t, "left out", h.CompassSlips(angle.CompassFrom(100*deg), deg/2), course.VariationLeftOut)
}

func TestSlipsInTheAnnualChange(t *testing.T) {
	w := course.With{Deviation: deviation.East(9 * deg), At: offOrlesk, On: day}
	w.Variation = orleskRose() // 3°50′W, 1°48′E since, 2°02′W
	h := given(t, "100C", w)
	oneSlip(t, "rose, left", h.TrueSlips(h.True().Add(-108*minute), minute), course.AnnualChangeLeft)
	oneSlip(t, "rose, wrong", h.TrueSlips(h.True().Add(-216*minute), minute), course.AnnualChangeWrong)

	chart := orleskChart(t)
	w.Variation = chart
	h = given(t, "100T", w)
	oneSlip(t, "chart, left", h.CompassSlips(h.Compass().Add(108*minute), minute), course.AnnualChangeLeft)

	// Of roses blended the change is theirs in proportion, here 1°48′ and
	// twelve times 1′ less for the share of the Offing rose; how the roses
	// differ from place to place is no annual change.
	chart.Method = variation.Blended
	h = given(t, "100C", w)
	e, err := variation.Explain(chart, offOrlesk, day)
	if err != nil {
		t.Fatal(err)
	}
	share := 0.0
	for _, step := range e.Working {
		if step.How == "Offing rose: its share" {
			share = step.Number
		}
	}
	change := 108*minute - angle.Must((12 * minute).Scale(share))
	oneSlip(t, "blend, left", h.TrueSlips(h.True().Add(-change), minute), course.AnnualChangeLeft)
	first := angle.Must(variation.ParseLegend("3°50′W 2014")).Variation
	difference := first.Angle() - h.Variation().Angle()
	oneSlip(t, "blend, not the first rose", h.TrueSlips(h.True().Add(difference), minute), "")

	// A rose in its own year, and a known variation, have no change to forget.
	w.Variation = variation.MustParseLegend("2°02′W 2026 (9′E)")
	h = given(t, "100C", w)
	oneSlip(t, "no years", h.TrueSlips(h.True().Add(-108*minute), minute), "")
}
