package wmm_test

import (
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/wmm"
)

func TestHorizontalIntensity(t *testing.T) {
	date, place := onYear(2026), at(47, -19)
	for _, source := range []interface {
		HorizontalIntensity(angle.Position, time.Time) (float64, error)
	}{wmm.WMM2025(), wmm.Models()} {
		h, err := source.HorizontalIntensity(place, date)
		e, err2 := wmm.WMM2025().On(date)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		f, err := e.Field(place, 0)
		if err != nil || !(h-f.H() < 1e-6 && f.H()-h < 1e-6) {
			t.Errorf("%v nT, the field has %v, %v", h, f.H(), err)
		}
		if h, err := source.HorizontalIntensity(place, onYear(2031)); err == nil || h != 0 {
			t.Errorf("in 2031: %v, %v", h, err)
		}
	}
	_, err1 := (*wmm.Model)(nil).HorizontalIntensity(place, date)
	_, err2 := (*wmm.Set)(nil).HorizontalIntensity(place, date)
	wantMissing(t, "nil model", "the Model is nil or zero", err1)
	wantMissing(t, "nil set", "the Set is nil or zero", err2)
}
