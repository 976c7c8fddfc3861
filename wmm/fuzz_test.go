package wmm_test

import (
	"bytes"
	"errors"
	"math"
	"os"
	"path/filepath"
	"testing"

	"lubberline.example/wmm"
)

func checkFinite(t testing.TB, f wmm.Field, err error) {
	t.Helper()
	if sum := f.X + f.Y + f.Z; err != nil || math.IsNaN(sum) || math.IsInf(sum, 0) {
		t.Errorf("%v, %v: want numbers", f, err)
	}
}

// checkModel asks a model that was read at some places, the worst among them.
func checkModel(t *testing.T, m *wmm.Model) {
	from, until := m.Valid()
	for _, year := range []float64{from, until} {
		e, err := m.InYear(year)
		if err != nil {
			t.Fatal(err)
		}
		for _, lat := range []float64{-90, -33.9, 0, 89.999999, 90} {
			f, r, err := e.FieldAndRates(at(lat, 151.2), -15_000)
			checkFinite(t, f, err)
			checkFinite(t, wmm.Field(r), nil)
			g, err := e.Field(at(lat, 151.2), -15_000)
			checkFinite(t, g, err)
		}
	}
	if m.Degree() < 1 || m.Degree() > wmm.MaxDegree || m.String() == "" {
		t.Errorf("degree %d", m.Degree())
	}
}

func checkFileError(t *testing.T, err error) {
	var fe *wmm.Error
	if !errors.As(err, &fe) || fe.Line < 0 || fe.Kind == "" || fe.Reason == "" {
		t.Errorf("%v: want a *Error in full", err)
	}
}

func FuzzReadCOF(f *testing.F) {
	b, err := os.ReadFile(filepath.Join("coefficients", "WMM2025.COF"))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(b)
	for _, text := range []string{"", head, dipole("2025.0 X 11/13/2024 6371.2"), head + r10 + r11 + r20 + r21 + r22 + nines, head + "1 0 1e6 0 1e6 0\n1 1 1e6 -1e6 -1e6 1e6\n" + nines} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		m, err := wmm.ReadCOF(bytes.NewReader(b))
		if err != nil {
			checkFileError(t, err)
			return
		}
		checkModel(t, m)
	})
}

func FuzzReadIGRF(f *testing.F) {
	for _, text := range []string{"", igrfHead, igrfHead + i10 + i11 + h11, "#\n# 1th\ng/h n m 1900 1900-05\ng 1 0 1e6 1e6\ng 1 1 0 -1e6\nh 1 1 1e6 0\n", igrfHead + i10 + i11 + h11 + i20 + i21} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		s, err := wmm.ReadIGRF(bytes.NewReader(b))
		if err != nil {
			checkFileError(t, err)
			return
		}
		for _, m := range s.Models() {
			checkModel(t, m)
		}
	})
}
