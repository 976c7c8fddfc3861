package fix_test

import (
	"encoding/json"
	"errors"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/fixtest"
)

func TestPassesAsText(t *testing.T) {
	for pass, want := range map[fix.Pass]string{fix.Outside: "outside", fix.Inside: "inside"} {
		text, err := pass.MarshalText()
		var back fix.Pass
		if err != nil || string(text) != want || back.UnmarshalText(text) != nil || back != pass {
			t.Errorf("%v: %q, %v, back %v", pass, text, err, back)
		}
	}
	_, err := fix.Pass(7).MarshalText()
	if e, ok := errors.AsType[*angle.RangeError](err); !ok || e.Value != 7 || fix.Pass(7).String() != "Pass(7)" {
		t.Errorf("%v, %v", fix.Pass(7), err)
	}
	for text, kind := range map[string]angle.ErrorKind{"": angle.Empty, "through": angle.UnknownWord} {
		pass := fix.Inside
		err := pass.UnmarshalText([]byte(text))
		if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Kind != kind || pass != fix.Inside {
			t.Errorf("%q: %v, %v", text, pass, err)
		}
	}
}

func TestAPassThatIsNoneIsRefused(t *testing.T) {
	_, err := fix.VerticalDangerAngle(50, plMile, fix.Pass(2))
	fixtest.Refused[*angle.RangeError](t, "vertical", err)
	_, err = fix.HorizontalDangerAngle(plOrlesk, plMinnow, plHere, 200, fix.Pass(-1))
	fixtest.Refused[*angle.RangeError](t, "horizontal", err)
}

func TestBoundsAsText(t *testing.T) {
	for _, bound := range []fix.Bound{fix.NotLess, fix.NotMore} {
		var back fix.Bound
		if text, err := json.Marshal(bound); err != nil || json.Unmarshal(text, &back) != nil || back != bound {
			t.Errorf("%s: %s, back %s", bound, text, back)
		}
	}
	for text, kind := range map[string]angle.ErrorKind{"": angle.Empty, "about": angle.UnknownWord} {
		bound := fix.NotLess
		err := bound.UnmarshalText([]byte(text))
		if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Kind != kind || bound != fix.NotLess {
			t.Errorf("%q: %v, %v", text, bound, err)
		}
	}
}
