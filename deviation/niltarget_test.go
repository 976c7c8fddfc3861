package deviation_test

import (
	"errors"
	"testing"

	"lubberline.example/angle/record"
	"lubberline.example/deviation"
)

// A nil pointer to read into is an error, no panic.
func TestNilPointerToReadIntoIsAnError(t *testing.T) {
	err := (*deviation.Table)(nil).UnmarshalJSON([]byte("[]"))
	if _, ok := errors.AsType[*record.Error](err); !ok {
		t.Errorf("table: %v", err)
	}
}
