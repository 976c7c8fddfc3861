package deviation_test

import (
	"errors"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/deviation"
	"lubberline.example/deviation/sun"
)

// A nil pointer to read into is an error, no panic.
func TestNilPointerToReadIntoIsAnError(t *testing.T) {
	err := (*deviation.Table)(nil).UnmarshalJSON([]byte("[]"))
	if _, ok := errors.AsType[*record.Error](err); !ok {
		t.Errorf("table: %v", err)
	}
	for what, err := range map[string]error{
		"event":   (*sun.Event)(nil).UnmarshalText([]byte("rise")),
		"horizon": (*sun.Horizon)(nil).UnmarshalText([]byte("x")), "limb": (*sun.Limb)(nil).UnmarshalText(nil), "standing": (*sun.Standing)(nil).UnmarshalText(nil),
	} {
		if _, ok := errors.AsType[*angle.ParseError](err); !ok {
			t.Errorf("%s: %v", what, err)
		}
	}
}
