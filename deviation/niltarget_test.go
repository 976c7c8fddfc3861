package deviation_test

import (
	"errors"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/deviation"
	"lubberline.example/deviation/sky"
)

// A nil pointer to read into is an error, no panic.
func TestNilPointerToReadIntoIsAnError(t *testing.T) {
	err := (*deviation.Table)(nil).UnmarshalJSON([]byte("[]"))
	if _, ok := errors.AsType[*record.Error](err); !ok {
		t.Errorf("table: %v", err)
	}
	for what, err := range map[string]error{
		"event":   (*sky.Event)(nil).UnmarshalText([]byte("rise")),
		"horizon": (*sky.Horizon)(nil).UnmarshalText([]byte("x")), "limb": (*sky.Limb)(nil).UnmarshalText(nil), "standing": (*sky.Standing)(nil).UnmarshalText(nil),
	} {
		if _, ok := errors.AsType[*angle.ParseError](err); !ok {
			t.Errorf("%s: %v", what, err)
		}
	}
}
