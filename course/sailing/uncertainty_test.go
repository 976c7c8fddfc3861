package sailing_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"pgregory.net/rapid"
)

func known[Q sailing.Distance | sailing.Speed](sigma Q) sailing.Uncertainty[Q] {
	return angle.Must(sailing.StandardUncertainty(sigma))
}

func TestNotStatedIsNotZero(t *testing.T) {
	var none sailing.Uncertainty[sailing.Speed]
	exact := known(0 * sailing.Knot)
	if s, stated := none.Sigma(); s != 0 || stated {
		t.Errorf("the zero value: %v, %v", s, stated)
	}
	if s, stated := exact.Sigma(); s != 0 || !stated {
		t.Errorf("known exactly: %v, %v", s, stated)
	}
	if none.Equal(exact) || !none.Equal(sailing.Uncertainty[sailing.Speed]{}) || known(sailing.Speed(math.Copysign(0, -1))) != exact {
		t.Error("not stated and zero are two things")
	}
	for _, x := range []float64{-1, math.NaN(), math.Inf(1)} {
		_, err := sailing.StandardUncertainty(sailing.Distance(x))
		refused[*angle.RangeError](t, "StandardUncertainty", err)
	}
	if got := known(0.2*sailing.Knot).String() + " " + known(0.42*mile).String(); got != "±0.2 kn ±0.42 M" {
		t.Error(got)
	}
}

func TestUncertaintiesAsText(t *testing.T) {
	for text, want := range map[string]sailing.Uncertainty[sailing.Speed]{"": {}, "±0.2 kn": known(0.2 * sailing.Knot), "0.5 m/s": known(sailing.Speed(0.5)), "± 1 kt": known(sailing.Knot), "±0 kn": known(sailing.Speed(0)), "-0 kn": known(sailing.Speed(0))} {
		u := known(7 * sailing.Knot)
		if err := u.UnmarshalText([]byte(text)); err != nil || u != want {
			t.Errorf("%q: %v, %v; want %v", text, u, err, want)
		}
	}
	for _, r := range []quantityRefusal{
		{" ", angle.NoNumber, 1}, {"±", angle.NoNumber, 2}, {"±1", sailing.MissingUnit, 3}, {"±-1 m", angle.SignNotAllowed, 2}, {"-1 m", angle.SignNotAllowed, 0}, {"±1 kn", angle.UnknownWord, 4}, {"not stated", angle.NoNumber, 0}, {"±±1 m", angle.NoNumber, 2},
	} {
		u := known(mile)
		checkQuantity(t, r, u.UnmarshalText([]byte(r.text)))
		if u != known(mile) {
			t.Errorf("%q: refused, but the uncertainty is now %v", r.text, u)
		}
	}
}

func TestUncertaintyJSONRoundTrip(t *testing.T) {
	type both struct {
		D sailing.Uncertainty[sailing.Distance]
		S sailing.Uncertainty[sailing.Speed]
	}
	rapid.Check(t, func(t *rapid.T) {
		var u both
		if rapid.Bool().Draw(t, "stated") {
			x := rapid.Float64Range(0, math.MaxFloat64).Draw(t, "x")
			u = both{known(sailing.Distance(x)), known(sailing.Speed(x))}
		}
		data, err := json.Marshal(u)
		if err != nil {
			t.Fatal(err)
		}
		back := both{known(mile), known(sailing.Knot)}
		if err := json.Unmarshal(data, &back); err != nil || back != u {
			t.Fatalf("%s: %v, %v", data, back, err)
		}
	})
}

func FuzzUncertainty(f *testing.F) {
	for _, text := range []string{"", "±0.2 M", "5 m", "±-1 m", "±"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		var u, back sailing.Uncertainty[sailing.Distance]
		if err := u.UnmarshalText([]byte(text)); err != nil {
			if p, ok := errors.AsType[*angle.ParseError](err); !ok || p.Offset < 0 || p.Offset > len(text) || p.Input != text {
				t.Fatalf("%#v", err)
			}
			return
		}
		again, err := u.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		if err := back.UnmarshalText(again); err != nil || back != u {
			t.Fatalf("%q, %s: %v, %v", text, again, back, err)
		}
	})
}
