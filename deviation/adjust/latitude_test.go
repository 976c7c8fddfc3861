package adjust_test

import (
	"errors"
	"strings"
	"testing"

	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/internal/devtest"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// Flinders found B of about −3.2° near 35°S and −1.5° near 10°S (A Voyage to Terra Australis,
// 1814; the B values are worked from his pairs of bearings): less where H is greater and the
// dip is less. The fields are round figures of such places. Permanent magnetism alone would
// leave −2.3°, soft iron alone −1.3°: the truth lies between.
func TestCardCarriedFarWarns(t *testing.T) {
	k := deviation.ExactCoefficients{B: devtest.Degrees(-3.2).Radians()}
	south, north := devtest.Earth{Horizontal: 27_000, Dip: -62 * devtest.Deg}, devtest.Earth{Horizontal: 37_000, Dip: -38 * devtest.Deg}
	warnings, err := adjust.AnotherLatitude(k, south, north)
	if err != nil || len(warnings) != 3 || warnings[0].Kind != adjust.CarriedFar || warnings[2].Kind != adjust.CarriedFar {
		t.Fatal(warnings, err)
	}
	for _, want := range []string{"the dip was −62° where", "from −3.2° to −2.3°", "soft iron alone, B changes to −1.3°"} {
		if !strings.Contains(devtest.Texts(warnings), want) {
			t.Errorf("no %q in %s", want, devtest.Texts(warnings))
		}
	}
	if warnings, err := adjust.AnotherLatitude(k, south, devtest.Earth{Horizontal: 27_000, Dip: -53 * devtest.Deg}); err != nil || len(warnings) != 0 {
		t.Errorf("%q, %v", warnings, err)
	}
	// On the magnetic equator nothing is induced.
	if warnings, err := adjust.AnotherLatitude(k, devtest.Earth{Horizontal: 38_000, Dip: 0}, south); err != nil || len(warnings) != 2 || strings.Contains(devtest.Texts(warnings), "soft iron alone") {
		t.Errorf("%q, %v", warnings, err)
	}
	_, err = adjust.AnotherLatitude(k, nil, south)
	_, ok := errors.AsType[*adjust.FieldError](err)
	if _, err = adjust.AnotherLatitude(k, south, devtest.Earth{Horizontal: 0, Dip: angle.Degree}); !ok || err == nil {
		t.Error(err)
	}
}
