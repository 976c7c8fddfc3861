package adjust_test

import (
	"fmt"
	"log"
	"math"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/adjust"
)

// shoreField is a field given by its horizontal intensity and its dip.
type shoreField struct{ h, dip float64 }

func (f shoreField) H() float64              { return f.h }
func (f shoreField) I() (angle.Angle, error) { return angle.Angle(f.dip * float64(angle.Degree)), nil }

// dipoleField is the field of a centred dipole where the dip is as stated. Nobody measured the
// intensity on the voyage. Its scale does not matter for a ratio of deviations.
func dipoleField(dip float64) shoreField {
	latitude := math.Atan(math.Tan(dip*math.Pi/180) / 2)
	return shoreField{30000 * math.Cos(latitude), dip}
}

// flinders are the places of Flinders's voyage where he printed the variation observed on one head
// and reduced to the meridian, so that B follows: A Voyage to Terra Australis (1814), volume II.
// The ship was of wood, and the compass always stood on the binnacle (both in the book).
var flinders = []struct {
	when, where string
	latitude, b float64
}{
	{"July 1802", "near Sandy Cape", -24.5, -2.64},
	{"December 1802", "east of Cape Vanderlin", -15.6, -2.15},
	{"January 1803", "by Groote Eylandt", -14.0, -2.05},
	{"January 1803", "by Groote Eylandt", -13.9, -2.01},
	{"April 1803", "Coepang Bay", -10.2, -1.50},
	{"May 1803", "on the south coast", -35.2, -3.20},
}

// kingDip returns the dip on the coast of Australia in a latitude, up negative, by the dips seen on
// shore: King, Narrative of a Survey of the Intertropical and Western Coasts of Australia (1826),
// appendix. The places are Goulburn Island, Endeavour River, Cleveland Bay, Port Jackson and Hobart
// Town, 1817 to 1819. Between them, and beyond the first, the dip is interpolated by latitude.
func kingDip(latitude float64) float64 {
	seen := [][2]float64{{-11.6333, -27.5417}, {-15.45, -38.0}, {-19.1667, -44.1111}, {-33.85, -62.025}, {-42.9, -70.1167}}
	i := 1
	for i < len(seen)-1 && latitude < seen[i][0] {
		i++
	}
	a, b := seen[i-1], seen[i]
	return a[1] + (latitude-a[0])*(b[1]-a[1])/(b[0]-a[0])
}

// exactB is B as the exact coefficient.
func exactB(degrees float64) deviation.ExactCoefficients {
	return deviation.ExactCoefficients{B: math.Sin(degrees * math.Pi / 180)}
}

// The two parts of B are separated by the first and the last latitude of the voyage. At the four
// places between they predict B, which Flinders saw. Measured: within 0.33°, and always smaller
// than he saw. The dips are of other places and 15 years later, the one at Coepang lies beyond the
// places seen, and 1 minute in his pairs is 0.02° to 0.04° of B.
func TestTwoPartsPredictFlindersVoyage(t *testing.T) {
	first, last := flinders[4], flinders[5]
	forces, err := adjust.Separate(exactB(first.b), dipoleField(kingDip(first.latitude)), exactB(last.b), dipoleField(kingDip(last.latitude)))
	if err != nil {
		t.Fatal(err)
	}
	worst := 0.0
	for _, at := range flinders {
		there, err := forces.At(dipoleField(kingDip(at.latitude)))
		if err != nil {
			t.Fatal(err)
		}
		predicted := math.Asin(there.B) * 180 / math.Pi
		worst = max(worst, math.Abs(predicted-at.b))
		t.Logf("%s, %s: dip %.1f°, B %.2f° seen, %.2f° predicted", at.when, at.where, kingDip(at.latitude), at.b, predicted)
	}
	t.Logf("within %.2f°; permanent %.0f nT, induced %.4f", worst, forces.PermanentAhead, forces.InducedAhead)
	if worst > 0.4 {
		t.Errorf("the two parts are %.2f° off", worst)
	}
}

// B in 35°S carried to Coepang by one part alone: permanent −2.41°, induced −0.89° with King's dips
// of Port Jackson and Goulburn Island as they stand. Flinders saw −1.50°, which lies between.
func TestFlindersVoyageLiesBetweenPermanentAndInduced(t *testing.T) {
	south, north := dipoleField(-62.025), dipoleField(-27.5417)
	at := func(f adjust.Forces, err error) float64 {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		there, err := f.At(north)
		if err != nil {
			t.Fatal(err)
		}
		return math.Asin(there.B) * 180 / math.Pi
	}
	permanent, induced := at(adjust.AllPermanent(exactB(-3.2), south)), at(adjust.AllInduced(exactB(-3.2), south))
	t.Logf("permanent alone %.2f°, induced alone %.2f°, seen −1.50°", permanent, induced)
	if !(permanent < -1.5 && -1.5 < induced) {
		t.Errorf("permanent alone gives %.2f° and induced alone %.2f°; −1.50° must lie between", permanent, induced)
	}
}

// Flinders's voyage (A Voyage to Terra Australis, 1814), with dips that King saw on shore from 1817
// to 1820: B −3.20° in 35°S and −1.50° at Coepang. Magnets set in 35°S leave a deviation at Coepang.
// A Flinders bar for the induced part leaves almost none.
func ExampleForces_Corrected() {
	south, coepang := dipoleField(kingDip(-35.2)), dipoleField(kingDip(-10.2))
	forces, err := adjust.Separate(exactB(-3.20), south, exactB(-1.50), coepang)
	if err != nil {
		log.Fatal(err)
	}
	permanent := math.Asin(forces.PermanentAhead/south.H()) * 180 / math.Pi
	degrees := func(x float64) angle.Angle { return angle.Must(angle.Degrees(x)) }
	magnets := adjust.Lesson{Coefficients: deviation.Coefficients{B: degrees(-3.20)}}
	bar := magnets
	bar.Induced, bar.Dip = degrees(-3.20-permanent), degrees(south.dip)
	for _, lesson := range []adjust.Lesson{magnets, bar} {
		corrections, err := lesson.Corrections()
		if err != nil {
			log.Fatal(err)
		}
		corrected, err := forces.Corrected(south, corrections...)
		if err != nil {
			log.Fatal(err)
		}
		k, err := corrected.At(coepang)
		if err != nil {
			log.Fatal(err)
		}
		for _, c := range corrections {
			fmt.Printf("%s %.2f°, ", c.Way, c.Amount.Degrees())
		}
		fmt.Printf("at Coepang B %+.1f°\n", math.Asin(k.B)*180/math.Pi)
	}
	// Output:
	// red-aft 3.20°, at Coepang B +0.8°
	// bar-aft 1.63°, red-aft 1.57°, at Coepang B +0.0°
}
