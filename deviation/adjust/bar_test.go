package adjust_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/internal/devtest"
)

// Magnets for the permanent part and a bar for the induced part leave B 0 at every place, in both
// hemispheres. The bar the wrong way doubles the induced part. Magnets for all of B leave B 0
// only where the field is the same.
func TestBarHoldsAtEveryPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) shoreField {
			dip := rapid.Float64Range(10, 75).Draw(t, name) * rapid.SampledFrom([]float64{-1, 1}).Draw(t, "hemisphere")
			return shoreField{rapid.Float64Range(10_000, 35_000).Draw(t, "H"), dip}
		}
		here, there := draw("here"), draw("there")
		z := here.h * math.Tan(here.dip*math.Pi/180)
		f := adjust.Forces{D: 0.02, PermanentAhead: rapid.Float64Range(-2000, 2000).Draw(t, "permanent"), InducedAhead: rapid.Float64Range(-0.03, 0.03).Draw(t, "induced")}
		sine := func(x float64) angle.Angle { return devtest.Degrees(math.Asin(x) * 180 / math.Pi) }
		l := adjust.Lesson{Induced: sine(f.InducedAhead * z / here.h), Dip: devtest.Degrees(here.dip)}
		l.Coefficients.B = l.Induced + sine(f.PermanentAhead/here.h)
		list, err := l.Corrections()
		if err != nil {
			t.Fatal(err)
		}
		corrected, err := f.Corrected(here, list...)
		if err != nil || math.Abs(corrected.PermanentAhead) > 1e-6 || math.Abs(corrected.InducedAhead) > 1e-9 || corrected.D != f.D {
			t.Fatalf("%+v corrected by %v is %+v, %v", f, list, corrected, err)
		}
		if k, err := corrected.At(there); err != nil || math.Abs(k.B) > 1e-9 {
			t.Fatalf("elsewhere B is %v, %v", k.B, err)
		}
		if len(list) > 0 && list[0].Corrector == adjust.FlindersBar {
			wrong, err := f.Corrected(here, opposite(list[0]))
			if err != nil || math.Abs(wrong.InducedAhead-2*f.InducedAhead) > 1e-9 || wrong.PermanentAhead != f.PermanentAhead {
				t.Fatalf("the wrong way %+v, %v", wrong, err)
			}
		}
		all := adjust.Correction{Corrector: adjust.ForeAndAftMagnets, Way: adjust.RedForward}
		if all.Amount = sine(f.PermanentAhead/here.h + f.InducedAhead*z/here.h); all.Amount < 0 {
			all.Amount, all.Way = -all.Amount, adjust.RedAft
		}
		magnets, err := f.Corrected(here, all)
		if err != nil {
			t.Fatal(err)
		}
		k, err := magnets.At(here)
		if err != nil || math.Abs(k.B) > 1e-9 {
			t.Fatalf("here B is %v, %v", k.B, err)
		}
		k, err = magnets.At(there)
		if want := f.InducedAhead * (math.Tan(there.dip*math.Pi/180) - z/there.h); err != nil || math.Abs(k.B-want) > 1e-9 {
			t.Fatalf("elsewhere B is %v, want %v, %v", k.B, want, err)
		}
	})
}

// Forces are not corrected in an impossible field or by an impossible corrector.
func TestForcesCorrectedRefuses(t *testing.T) {
	good := adjust.Correction{Corrector: adjust.FlindersBar, Way: adjust.BarAft, Amount: devtest.Deg}
	for name, test := range map[string]struct {
		at adjust.EarthField
		f  adjust.Forces
		c  adjust.Correction
	}{
		"no field":      {nil, adjust.Forces{}, good},
		"weak field":    {shoreField{0, 60}, adjust.Forces{}, good},
		"NaN":           {shoreField{math.NaN(), 60}, adjust.Forces{}, good},
		"no dip":        {shoreField{20_000, 0}, adjust.Forces{}, good},
		"no correction": {shoreField{20_000, 60}, adjust.Forces{}, adjust.Correction{}},
		"no forces":     {shoreField{20_000, 60}, adjust.Forces{InducedAhead: math.NaN()}, good},
	} {
		if f, err := test.f.Corrected(test.at, test.c); err == nil || f != (adjust.Forces{}) {
			t.Errorf("%s: %+v, %v", name, f, err)
		}
	}
}
