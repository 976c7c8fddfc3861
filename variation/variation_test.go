package variation_test

import (
	"errors"
	"fmt"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

func TestZeroVariation(t *testing.T) {
	var v variation.Variation
	if v.Angle() != 0 || v.Name() != "" || v != variation.East(0) {
		t.Errorf("the zero value is %v", v)
	}
	if _, stated := v.Uncertainty().Sigma(); stated {
		t.Error("the zero value states an uncertainty")
	}
}

func TestEastIsPositive(t *testing.T) {
	if a := variation.East(4 * angle.Degree).Angle(); a != 4*angle.Degree {
		t.Errorf("4° E is %v", a)
	}
	if a := variation.West(4 * angle.Degree).Angle(); a != -4*angle.Degree {
		t.Errorf("4° W is %v", a)
	}
	// In (−180°, 180°]: half a turn is always east.
	if a := variation.West(180 * angle.Degree).Angle(); a != 180*angle.Degree {
		t.Errorf("180° W is %v", a)
	}
	if a := variation.East(190 * angle.Degree).Angle(); a != -170*angle.Degree {
		t.Errorf("190° E is %v", a)
	}
}

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text string
		want variation.Variation
	}{
		{"4°15′W", variation.West(4*angle.Degree + 15*angle.Minute)},
		{"4 15.0 W", variation.West(4*angle.Degree + 15*angle.Minute)},
		{"W4°15'", variation.West(4*angle.Degree + 15*angle.Minute)},
		{"2¾°E", variation.East(2*angle.Degree + 45*angle.Minute)},
		{"-4.25", variation.West(4*angle.Degree + 15*angle.Minute)},
		{"var. 14½° W", variation.West(14*angle.Degree + 30*angle.Minute)},
		{"Variation: 4° 15′ W", variation.West(4*angle.Degree + 15*angle.Minute)},
		{" VARN 1¼ pts E", variation.East(5 * angle.Point / 4)},
		{"4°15′W ±0°30′", variation.West(4*angle.Degree + 15*angle.Minute).WithUncertainty(sigma(30 * angle.Minute))},
	} {
		var read variation.Variation
		if err := read.UnmarshalText([]byte(c.text)); err != nil || read != c.want {
			t.Errorf("%q as text: %v, %v; want %v", c.text, read, err, c.want)
		}
		if v, err := variation.Parse(c.text); err != nil || v != c.want {
			t.Errorf("Parse(%q) = %v, %v; want %v", c.text, v, err, c.want)
		}
	}
	_, err := variation.Parse("4°15′")
	if p, ok := errors.AsType[*angle.ParseError](err); !ok || p.Kind != angle.MissingName {
		t.Errorf("a figure with minutes and without a name: %v", err)
	}
	for text, offset := range map[string]int{"Var. 4°61′W": 8, "Var": 0, "Dev. 3 E": 0, "Variable 3 E": 0, "Var. Var. 3 E": 5, "var3 E": 0, "Var.3 E": 0} {
		_, err := variation.Parse(text)
		if p, ok := errors.AsType[*angle.ParseError](err); !ok || p.Offset != offset || p.Input != text || p.What != "variation" {
			t.Errorf("%q: %v, want a fault at byte %d", text, err, offset)
		}
		v := variation.East(angle.Degree)
		if again := v.UnmarshalText([]byte(text)); again == nil || again.Error() != err.Error() || v != variation.East(angle.Degree) {
			t.Errorf("%q as text: %v, %v; want %v", text, v, again, err)
		}
	}
}

func TestMustParsePanicsOnAnError(t *testing.T) {
	if v := variation.MustParse("2°E"); v != variation.East(2*angle.Degree) {
		t.Errorf("2°E is %v", v)
	}
	defer func() {
		if recover() == nil {
			t.Error("no panic")
		}
	}()
	variation.MustParse("2°N")
}

func TestVariationPrintsWithItsName(t *testing.T) {
	v := variation.West(4*angle.Degree + 15*angle.Minute)
	for format, want := range map[string]string{"%v": "4°15′W", "%s": "4°15′W", "%.1f": "4.3°W"} {
		if got := fmt.Sprintf(format, v); got != want {
			t.Errorf("%s: %q, want %q", format, got, want)
		}
	}
}

// With westerly variation magnetic is greater than true; with easterly, less.
func TestVariationWestMagneticBest(t *testing.T) {
	course := angle.MustParseTrue("035°T")
	if m := variation.MustParse("4°W").Magnetic(course); m != angle.MustParseMagnetic("039°M") {
		t.Errorf("035°T with 4° W is %v", m)
	}
	if m := variation.MustParse("4°E").Magnetic(course); m != angle.MustParseMagnetic("031°M") {
		t.Errorf("035°T with 4° E is %v", m)
	}
	if c := variation.MustParse("4°W").True(angle.MustParseMagnetic("002°M")); c != angle.MustParseTrue("358°T") {
		t.Errorf("002°M with 4° W is %v", c)
	}
}

func TestTrueAndMagneticUndoEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := variation.East(drawAngle(t, angle.Turn, "variation"))
		d := angle.TrueFrom(drawAngle(t, angle.Turn, "direction"))
		m := v.Magnetic(d)
		if back := v.True(m); back != d {
			t.Fatalf("%v became %v", d, back)
		}
		if between := variation.Between(d, m); between != v {
			t.Fatalf("Between gives %v, not %v", between, v)
		}
	})
}

func TestUncertaintyIsPartOfAVariation(t *testing.T) {
	v := variation.West(4 * angle.Degree)
	u := v.WithUncertainty(sigma(angle.Degree))
	if v.Equal(u) || v == u {
		t.Error("a variation equals one that is known otherwise")
	}
	if u.Angle() != v.Angle() || !u.Equal(u.WithUncertainty(sigma(angle.Degree))) {
		t.Error("the uncertainty changed the variation")
	}
	if got, stated := u.Uncertainty().Sigma(); got != angle.Degree || !stated {
		t.Errorf("uncertainty %v, %v", got, stated)
	}
}

func TestKnownVariationIsASource(t *testing.T) {
	v := variation.MustParse("4°15′W ±0°30′")
	var source variation.Source = v
	for _, year := range []int{1200, 2026, 9000} {
		if got, err := source.VariationAt(at(88, 179), noon(year, time.July, 2)); err != nil || got != v {
			t.Errorf("in %d: %v, %v", year, got, err)
		}
	}
}
