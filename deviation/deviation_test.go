package deviation_test

import (
	"errors"
	"fmt"
	"testing"

	"lubberline.example/deviation/internal/devtest"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

func TestTheZeroDeviationIsNoughtAndNotStated(t *testing.T) {
	var d deviation.Deviation
	if d.Angle() != 0 || d.Name() != "" || d != deviation.East(0) {
		t.Errorf("the zero value is %v", d)
	}
	if _, stated := d.Uncertainty().Sigma(); stated {
		t.Error("the zero value states an uncertainty")
	}
	if s, stated := deviation.None().Uncertainty().Sigma(); deviation.None().Angle() != 0 || s != 0 || !stated {
		t.Error("none is not for certain")
	}
	if d.Equal(deviation.None()) {
		t.Error("not stated equals for certain")
	}
}

func TestEastIsPositive(t *testing.T) {
	if a := deviation.East(4 * devtest.Deg).Angle(); a != 4*devtest.Deg {
		t.Errorf("4° E is %v", a)
	}
	if a := deviation.West(4 * devtest.Deg).Angle(); a != -4*devtest.Deg {
		t.Errorf("4° W is %v", a)
	}
	// In (−180°, 180°]: half a turn is east, also if it was given as west.
	if a := deviation.West(180 * devtest.Deg).Angle(); a != 180*devtest.Deg {
		t.Errorf("180° W is %v", a)
	}
}

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text string
		want deviation.Deviation
	}{
		{"3°30′E", deviation.East(3*devtest.Deg + 30*devtest.Minute)},
		{"3.5E", deviation.East(3*devtest.Deg + 30*devtest.Minute)},
		{"W2", deviation.West(2 * devtest.Deg)},
		{"-2", deviation.West(2 * devtest.Deg)},
		{"Dev. 3 E", deviation.East(3 * devtest.Deg)},
		{"deviation = 2½° W", deviation.West(2*devtest.Deg + 30*devtest.Minute)},
		{"2½°W", deviation.West(2*devtest.Deg + 30*devtest.Minute)},
		{"3°E ±0°30′", deviation.East(3 * devtest.Deg).WithUncertainty(devtest.Sigma(30 * devtest.Minute))},
		{"0", deviation.East(0)},
	} {
		if d, err := deviation.Parse(c.text); err != nil || d != c.want {
			t.Errorf("Parse(%q) = %v, %v; want %v", c.text, d, err, c.want)
		}
	}
	_, err := deviation.Parse("3°30′")
	if p, ok := errors.AsType[*angle.ParseError](err); !ok || p.Kind != angle.MissingName {
		t.Errorf("a figure with minutes and without a name: %v", err)
	}
	for text, offset := range map[string]int{"Dev. 3°61′E": 8, "Var. 3 E": 0, "Dev": 0, "Develop 3 E": 0, "dev3 E": 0} {
		_, err := deviation.Parse(text)
		if p, ok := errors.AsType[*angle.ParseError](err); !ok || p.Offset != offset || p.Input != text {
			t.Errorf("%q: %v, want a fault at byte %d", text, err, offset)
		}
	}
}

func TestMustParsePanicsOnAnError(t *testing.T) {
	if d := deviation.MustParse("2°E"); d != deviation.East(2*devtest.Deg) {
		t.Errorf("2°E is %v", d)
	}
	defer func() {
		if recover() == nil {
			t.Error("no panic")
		}
	}()
	deviation.MustParse("2°N")
}

func TestDeviationPrintsWithItsName(t *testing.T) {
	d := deviation.West(3*devtest.Deg + 30*devtest.Minute)
	for format, want := range map[string]string{"%v": "3°30′W", "%s": "3°30′W", "%.1f": "3.5°W"} {
		if got := fmt.Sprintf(format, d); got != want {
			t.Errorf("%s: %q, want %q", format, got, want)
		}
	}
}

// With westerly deviation compass is greater than magnetic; with easterly, less.
func TestDeviationWestCompassBest(t *testing.T) {
	m := angle.MustParseMagnetic("108.5°M")
	if c := deviation.MustParse("3.5W").Compass(m); c != angle.MustParseCompass("112°C") {
		t.Errorf("108.5°M with 3.5° W is %v", c)
	}
	if c := deviation.MustParse("3.5E").Compass(m); c != angle.MustParseCompass("105°C") {
		t.Errorf("108.5°M with 3.5° E is %v", c)
	}
	if m := deviation.MustParse("4W").Magnetic(angle.MustParseCompass("002°C")); m != angle.MustParseMagnetic("358°M") {
		t.Errorf("002°C with 4° W is %v", m)
	}
}

func TestMagneticAndCompassUndoEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := deviation.East(devtest.DrawHeading(t, "deviation"))
		m := angle.MagneticFrom(devtest.DrawHeading(t, "direction"))
		c := d.Compass(m)
		if back := d.Magnetic(c); back != m {
			t.Fatalf("%v became %v", m, back)
		}
		if between := deviation.Between(m, c); between != d {
			t.Fatalf("Between gives %v, not %v", between, d)
		}
	})
}

func TestKnownDeviationIsConstant(t *testing.T) {
	d := deviation.MustParse("3°E ±0°30′")
	var source deviation.Source = d
	for h := angle.Angle(0); h < angle.Turn; h += 11 * devtest.Deg {
		a, errA := source.OnCompass(angle.CompassFrom(h))
		b, errB := source.OnMagnetic(angle.MagneticFrom(h))
		if a != d || b != d || errA != nil || errB != nil {
			t.Fatalf("on %v: %v and %v", h, a, b)
		}
	}
	if d.Equal(deviation.East(3 * devtest.Deg)) {
		t.Error("a deviation equals one that is known otherwise")
	}
}
