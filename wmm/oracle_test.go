package wmm_test

import (
	"math"
	"testing"

	"lubberline.example/wmm"
)

// The points of testdata/oracle_*, computed by a general-purpose library.
func TestOracle(t *testing.T) {
	one := func(m func(testing.TB) *wmm.Model) func(testing.TB, float64) *wmm.Evaluator {
		return func(t testing.TB, year float64) *wmm.Evaluator { return inYear(t, m(t), year) }
	}
	tests := []struct {
		file  string
		rows  int
		model func(testing.TB) func(testing.TB, float64) *wmm.Evaluator
		nT    float64 // tolerance of X, Y, Z
		rate  float64 // and of their rates
	}{
		// The coordinates have seven decimals and the field changes by some 1000 nT
		// a degree, so the figures themselves are good to the 1e-7 printed.
		{"wmm2025", 5000, func(testing.TB) func(testing.TB, float64) *wmm.Evaluator {
			return one(func(testing.TB) *wmm.Model { return wmm.WMM2025() })
		}, 1e-5, 1e-6},
		{"wmm2020", 500, func(testing.TB) func(testing.TB, float64) *wmm.Evaluator {
			return one(func(testing.TB) *wmm.Model { return wmm.WMM2020() })
		}, 1e-5, 1e-6},
		{"igrf14", 1000, func(t testing.TB) func(testing.TB, float64) *wmm.Evaluator {
			return func(t testing.TB, year float64) *wmm.Evaluator { return must(wmm.IGRF14().InYear(year))(t) }
		}, 1e-5, 1e-6},
		{"wmmhr2025", 500, func(t testing.TB) func(testing.TB, float64) *wmm.Evaluator {
			m := sharedCOF(t, "WMMHR2025.COF")
			return one(func(testing.TB) *wmm.Model { return m })
		}, 1e-4, 1e-5},
	}
	for _, tt := range tests {
		t.Run(tt.file, func(t *testing.T) {
			rows := readTable(t, "oracle_"+tt.file+".csv.gz")
			if len(rows) != tt.rows {
				t.Fatalf("%d rows: want %d", len(rows), tt.rows)
			}
			model := tt.model(t)
			for i, r := range rows {
				e := model(t, r.number(t, "year"))
				place := r.position(t, "lat_deg", "lon_deg")
				height := 1000 * r.number(t, "height_km")
				f, rates, err := e.FieldAndRates(place, height)
				if err != nil {
					t.Fatalf("row %d: %v", i+1, err)
				}
				h, total := f.H(), f.F()
				d, err := f.D()
				if err != nil {
					t.Fatalf("row %d: %v", i+1, err)
				}
				inclination := must(f.I())(t)
				turned := math.Remainder(d.Degrees()-r.number(t, "D_deg"), 360) + r.number(t, "D_deg")
				// An angle goes with its share of the vector: times H/57.3 it is
				// in nT. Nine decimals of a degree are printed, ten of its rate.
				perDegree := h * math.Pi / 180
				for _, c := range []struct {
					column      string
					got, within float64
				}{
					{"X_nT", f.X, tt.nT}, {"Y_nT", f.Y, tt.nT}, {"Z_nT", f.Z, tt.nT},
					{"H_nT", h, 2 * tt.nT}, {"F_nT", total, 2 * tt.nT},
					{"D_deg", turned, 1e-9 + 2*tt.nT/perDegree},
					{"I_deg", inclination.Degrees(), 1e-9 + 2*tt.nT/(total*math.Pi/180)},
					{"dX_nT_yr", rates.X, tt.rate}, {"dY_nT_yr", rates.Y, tt.rate}, {"dZ_nT_yr", rates.Z, tt.rate},
					// The rates of H, D and I also go with the direction of H, which
					// turns by nT/H; rates are under 200 nT a year.
					{"dH_nT_yr", rates.H(f), 2*tt.rate + 200*tt.nT/h}, {"dF_nT_yr", rates.F(f), 2*tt.rate + 200*tt.nT/total},
					{"dD_deg_yr", rates.D(f), 1e-10 + (2*tt.rate+400*tt.nT/h)/perDegree},
					{"dI_deg_yr", rates.I(f), 1e-10 + (2*tt.rate+400*tt.nT/h)/(total*math.Pi/180)},
				} {
					if want := r.number(t, c.column); !near(c.got, want, c.within) {
						t.Errorf("row %d, %v in %v: %s = %.10f, want %.10f within %g", i+1, place, e.Year(), c.column, c.got, want, c.within)
					}
				}
				if t.Failed() {
					return
				}
			}
		})
	}
}
