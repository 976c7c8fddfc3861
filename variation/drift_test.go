package variation_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

// whole reports whether simulations run whole, with FULL=1, or small.
func whole() bool { return os.Getenv("FULL") == "1" }

// A history is the horizontal field at a place, north and east, in nT, at each epoch of
// IGRF-14 from 1900 to 2030. Between the epochs it goes linearly, as the coefficients do.
type history struct {
	position angle.Position
	x, y     [27]float64
}

// histories are those of places spread evenly over the earth.
func histories(t testing.TB, n int, seed uint64) []history {
	t.Helper()
	random := rand.New(rand.NewPCG(seed, 1900))
	all := make([]history, n)
	for i := range all {
		all[i].position = at(math.Asin(2*random.Float64()-1)*180/math.Pi, 360*random.Float64()-180)
	}
	for k := range all[0].x {
		e, err := wmm.IGRF14().InYear(1900 + 5*float64(k))
		if err != nil {
			t.Fatal(err)
		}
		for i := range all {
			f, err := e.Field(all[i].position, 0)
			if err != nil {
				t.Fatal(err)
			}
			all[i].x[k], all[i].y[k] = f.X, f.Y
		}
	}
	return all
}

func (h *history) field(year float64) (x, y float64) {
	k := min(int((year-1900)/5), len(h.x)-2)
	into := (year - 1900 - 5*float64(k)) / 5
	return h.x[k] + into*(h.x[k+1]-h.x[k]), h.y[k] + into*(h.y[k+1]-h.y[k])
}

// variation returns the variation in degrees.
func (h *history) variation(year float64) float64 {
	x, y := h.field(year)
	return math.Atan2(y, x) * 180 / math.Pi
}

func (h *history) intensity(year float64) float64 { return math.Hypot(h.field(year)) }

// latitude returns the latitude without its name, in degrees.
func (h *history) latitude() float64 { return h.position.Latitude.Angle().Abs().Degrees() }

// HorizontalIntensity makes a history a model that knows the intensity.
func (h *history) HorizontalIntensity(_ angle.Position, date time.Time) (float64, error) {
	return h.intensity(variation.DecimalYear(date)), nil
}

func (h *history) VariationAt(_ angle.Position, date time.Time) (variation.Variation, error) {
	return variation.East(degrees(h.variation(variation.DecimalYear(date)))), nil
}

// percentile sorts the values and returns the one below which a part of them lies.
func percentile(values []float64, part float64) float64 {
	slices.Sort(values)
	return values[int(part*float64(len(values)-1))]
}

// The law is fitted to roses of the 1900s, 1920s … 2020s. The coverage is tested with
// roses of the decades between, at other places.
func forFit(year int) bool { return (year-1900)/10%2 == 0 }

// TestDriftLawOfFieldHistory derives the law of the drift. How far does the variation
// depart, n years on, from its value and n times the annual change of the two years before?
// At 6,000 places and all years of the decades of the fit, 95 % of the departures times H
// are below, in degrees × 25,000 nT:
//
//	years           1      2      5     10     20     40
//	history     0.035  0.081   0.26   0.62   1.46   3.7
//	law         0.030  0.074   0.24   0.60   1.47   3.6
//	68 % below  0.003  0.016   0.08   0.22   0.60   1.6
//
// The tails are heavy, so σ is set by the 95 % point, and 1σ holds about 80 %. The power and
// the factor that fit best in the logarithms, 426 × n^1.264, give the same within 15 %.
// By H in bands, from 3,000 to 45,000 nT, the 95 % point after ten years lies at 1.7 to 2.6 σ.
func TestDriftLawOfFieldHistory(t *testing.T) {
	places, step := 600, 3
	if whole() {
		places, step = 6000, 1
	}
	all := histories(t, places, 1)
	departure := func(h *history, year int, n float64) float64 {
		y := float64(year)
		before := math.Remainder(h.variation(y)-h.variation(y-2), 360) / 2
		return math.Abs(math.Remainder(h.variation(y+n)-h.variation(y)-n*before, 360))
	}
	var sx, sy, sxx, sxy, count float64
	for _, n := range []float64{1, 2, 3, 5, 7, 10, 15, 20, 30, 40} {
		var d []float64
		for i := range all {
			if all[i].latitude() > 75 {
				continue
			}
			for year := 1902; float64(year)+n <= 2030; year += step {
				if forFit(year) {
					d = append(d, departure(&all[i], year, n)*min(all[i].intensity(float64(year)), 31_000))
				}
			}
		}
		q := percentile(d, 0.95)
		law := 2 * variation.DriftSigma(n, 25_000).Degrees() * 25_000
		t.Logf("%2.0f years: 95 %% below %.3f°, 68 %% below %.3f°, law %.3f°, at 25,000 nT", n, q/25_000, percentile(d, 0.68)/25_000, law/25_000)
		if ratio := law / q; ratio < 0.8 || ratio > 1.25 {
			t.Errorf("%.0f years: the law is %.2f times the history", n, ratio)
		}
		sx, sy, sxx, sxy, count = sx+math.Log(n), sy+math.Log(q), sxx+math.Log(n)*math.Log(n), sxy+math.Log(n)*math.Log(q), count+1
	}
	power := (count*sxy - sx*sy) / (count*sxx - sx*sx)
	factor := math.Exp((sy-power*sx)/count) / 2
	t.Logf("best power %.3f and factor %.0f degrees × nT", power, factor)
	if !near(power, 1.3, 0.06) || !near(factor, 375, 75) {
		t.Errorf("the history gives %.0f × n^%.3f, the law is 375 × n^1.3", factor, power)
	}
	// By intensity, after ten years: the law lies within a third of the 95 % point.
	bands := []float64{3_000, 6_000, 10_000, 16_000, 22_000, 28_000, 34_000, 45_000}
	for b, from := range bands[:len(bands)-1] {
		var ratios []float64
		for i := range all {
			for year := 1902; year+10 <= 2030; year += step {
				if h := all[i].intensity(float64(year)); h >= from && h < bands[b+1] && forFit(year) {
					ratios = append(ratios, departure(&all[i], year, 10)/variation.DriftSigma(10, h).Degrees())
				}
			}
		}
		q := percentile(ratios, 0.95)
		t.Logf("%5.0f to %5.0f nT: the 95 %% point is %.2f σ", from, bands[b+1], q)
		if !near(q, 2, 0.7) {
			t.Errorf("%.0f to %.0f nT: the 95 %% point is %.2f σ", from, bands[b+1], q)
		}
	}
}

// A tally counts what lay within two standard uncertainties, and within one.
type tally struct{ all, one, two int }

func (c *tally) add(off, sigma float64) {
	c.all++
	if math.Abs(off) <= sigma {
		c.one++
	}
	if math.Abs(off) <= 2*sigma {
		c.two++
	}
}

func (c *tally) percent() (one, two float64) {
	return 100 * float64(c.one) / float64(c.all), 100 * float64(c.two) / float64(c.all)
}

// printRose prints a rose for a year. The value is that of an unknown day of the year, to a
// step. The change is that of the two years before, to a minute. It looks like any print of
// minutes.
func printRose(h *history, year int, into float64, step angle.Angle) variation.Rose {
	y := float64(year) + into
	change := math.Remainder(h.variation(y)-h.variation(y-2), 360) / 2
	return variation.Rose{
		Variation: variation.East(degrees(h.variation(y)).Round(step)), Year: year, Step: minute,
		Change: variation.Eastward(degrees(change).Round(minute)), ChangeStep: minute,
	}
}

// TestCoverageOfOldRoses holds ± of rounding and drift alone to the history of the field, at
// places and in decades that the law was not fitted to. The bars: 2σ holds 93–98 % below 60°
// of latitude after each count of years, and at least 92 % for each printing and beyond 60°.
// Whole (FULL=1, 80,000 roses for each), in per cent:
//
//	years on                           1     5    10    20    40
//	by latitude, below 60°: 2σ      95.3  96.9  97.5  96.8  96.3
//	                        1σ        67    83    82    81    78
//	             beyond 60°: 2σ     96.2  94.9  94.6  94.2  93.4
//	by intensity, below 60°: 2σ     95.0  96.0  97.2  96.1  95.4
//	              beyond 60°: 2σ    94.9  93.2  94.1  95.0  92.3
//	no place, below 60°: 2σ         95.3  96.6  97.0  96.7  96.0
//	          beyond 60°: 2σ        92.5  81.2  75.7  73.1  68.4
//
// The last line is why a place should be given there.
func TestCoverageOfOldRoses(t *testing.T) {
	places, draws := 400, 6_000
	if whole() {
		places, draws = 4000, 80_000
	}
	all := histories(t, places, 2014)
	random := rand.New(rand.NewPCG(15, 2))
	for _, by := range []string{"latitude", "intensity", "neither"} {
		for _, years := range []int{1, 5, 10, 20, 40} {
			counts := map[string]*tally{}
			for range draws {
				h := &all[random.IntN(len(all))]
				year := 1903 + random.IntN(2029-years-1903)
				for forFit(year) {
					year = 1903 + random.IntN(2029-years-1903)
				}
				step := []angle.Angle{minute, 5 * minute, 15 * minute}[random.IntN(3)]
				r := printRose(h, year, random.Float64(), step)
				var model variation.Source
				if by == "intensity" {
					model = h
				}
				into := random.Float64()
				date := time.Date(year+years, 1, 1, 0, 0, 0, 0, time.UTC).Add(time.Duration(into * 365 * 24 * float64(time.Hour)))
				p, err := variation.ProjectAt(r, h.position, model, date)
				if by == "neither" {
					p, err = r.InYear(year + years)
				}
				if err != nil {
					t.Fatal(err)
				}
				off := math.Remainder(p.Variation.Degrees()-h.variation(float64(year+years)+into), 360)
				sigma, stated := p.Rounding.Combined(p.Drift).Sigma()
				if !stated {
					t.Fatal("not stated")
				}
				where := "below 60°"
				if h.latitude() > 60 {
					where = "beyond 60°"
				}
				for _, key := range []string{where, fmt.Sprintf("%s, to %v", where, step)} {
					if counts[key] == nil {
						counts[key] = new(tally)
					}
					counts[key].add(off, sigma.Degrees())
				}
			}
			for key, c := range counts {
				one, two := c.percent()
				t.Logf("by %s, %2d years, %s: 2σ holds %.1f %%, 1σ %.0f %% of %d", by, years, key, two, one, c.all)
				if by == "neither" && key[:3] == "bey" {
					continue // said in the documentation of InYear
				}
				least, most := 92.0, 100.0
				if key == "below 60°" {
					least, most = 93, 98
				}
				slack := 3 * math.Sqrt(5*95/float64(c.all)) // three times the scatter of the count
				if two < least-slack || two > most+slack || whole() && (two < least || two > most) {
					t.Errorf("by %s, %d years, %s: 2σ holds %.1f %% of %d, want %.0f to %.0f", by, years, key, two, c.all, least, most)
				}
			}
		}
	}
}

// TestCoverageOfPrintedForecasts holds the total ± of roses, printed from a model for the
// years of its forecast, to IGRF-14, which is later. The bar is that 2σ holds at least 95
// % for each model, after one year and after five. Whole (FULL=1) it holds 99.9 % and
// more, since IGRF-14 too leaves out the crust and disturbances, which are most of the
// source's part. Without that part 80 to 95 % hold after one year.
func TestCoverageOfPrintedForecasts(t *testing.T) {
	places := 1_500
	if whole() {
		places = 20_000
	}
	for _, m := range forecasts(t) {
		epoch, _ := m.Valid()
		all := histories(t, places, uint64(epoch))
		for _, years := range []int{1, 5} {
			var total, drift tally
			random := rand.New(rand.NewPCG(uint64(years), 3))
			for i := range all {
				h := &all[i]
				year := int(epoch)
				if years == 1 {
					year += random.IntN(4)
				}
				step := []angle.Angle{minute, 5 * minute, 15 * minute}[i%3]
				e, err := m.InYear(float64(year))
				if err != nil {
					t.Fatal(err)
				}
				f, rates, err := e.FieldAndRates(h.position, 0)
				if err != nil {
					t.Fatal(err)
				}
				d, err := f.D()
				if err != nil {
					t.Fatal(err)
				}
				change := degrees(math.Max(-4, math.Min(4, rates.D(f)))).Round(minute)
				r := variation.Rose{Variation: variation.East(d.Round(step)), Year: year, Step: minute, Change: variation.Eastward(change), ChangeStep: minute}
				p, err := variation.ProjectAt(r, h.position, nil, time.Date(year+years, 1, 1, 0, 0, 0, 0, time.UTC))
				if err != nil {
					t.Fatal(err)
				}
				off := math.Remainder(p.Variation.Degrees()-h.variation(float64(year+years)), 360)
				s, _ := p.Variation.Uncertainty().Sigma()
				total.add(off, s.Degrees())
				s, _ = p.Rounding.Combined(p.Drift).Sigma()
				drift.add(off, s.Degrees())
			}
			_, holds := total.percent()
			_, alone := drift.percent()
			t.Logf("%s, %d years: 2σ holds %.1f %%, without the source's part %.1f %%", m.Name(), years, holds, alone)
			if holds < 95 {
				t.Errorf("%s, %d years: 2σ holds %.1f %%", m.Name(), years, holds)
			}
		}
	}
}

// forecasts are the models of the years for which IGRF-14 now knows better.
func forecasts(t *testing.T) []*wmm.Model {
	t.Helper()
	models := []*wmm.Model{wmm.WMM2015v2(), wmm.WMM2020()}
	f, err := os.Open(filepath.Join("..", "..", "shared", "reference", "wmm", "WMM2010.COF"))
	if err != nil {
		t.Log("without WMM2010: no ../shared/reference beside this clone")
		return models
	}
	defer f.Close()
	m, err := wmm.ReadCOF(f)
	if err != nil {
		t.Fatal(err)
	}
	return append(models, m)
}

// TestSourceErrorIsThePublishedOne compares the error of a printed forecast with the error
// models of the World Magnetic Models, of which it is the largest.
func TestSourceErrorIsThePublishedOne(t *testing.T) {
	for h := 3_000.0; h < 42_000; h += 500 {
		largest := angle.Angle(0)
		for _, m := range []*wmm.Model{wmm.WMM2015v2(), wmm.WMM2020(), wmm.WMM2025()} {
			s, _ := m.Uncertainty().D(h).Sigma()
			largest = max(largest, s)
		}
		if s := variation.SourceSigma(h); !near(s.Degrees(), largest.Degrees(), 1e-9) {
			t.Errorf("%.0f nT: %v, the models' %v", h, s, largest)
		}
	}
}

// TestUncertaintyByThePlace asks at places that are known, half known and not known.
func TestUncertaintyByThePlace(t *testing.T) {
	r := variation.MustParseLegend("3°50′W 2014 (9′E)")
	date := noon(2026, 7, 2)
	sigmaOf := func(p angle.Position, model variation.Source) angle.Angle {
		t.Helper()
		projection, err := variation.ProjectAt(r, p, model, date)
		if err != nil {
			t.Fatal(err)
		}
		s, _ := projection.Variation.Uncertainty().Sigma()
		return s
	}
	in2026, err := r.InYear(2026)
	if v, err2 := r.VariationAt(angle.Position{}, date); err != nil || err2 != nil || v != in2026.Variation {
		t.Errorf("in a year: %v, %v; at no place %v, %v", in2026.Variation.Uncertainty(), err, v.Uncertainty(), err2)
	}
	if a, b, c := sigmaOf(at(10, 0), nil), sigmaOf(at(70, 0), nil), sigmaOf(at(-70, 30), nil); a >= b || b != c {
		t.Errorf("at 10° N, 70° N and 70° S: %v, %v, %v", a, b, c)
	}
	// Eastern Siberia at 65° N has a far stronger horizontal field than Baffin Bay.
	if a, b := sigmaOf(at(65, 130), wmm.Models()), sigmaOf(at(65, -90), wmm.Models()); a >= b {
		t.Errorf("by the model: %v and %v", a, b)
	}
	// At the pole, and at a model's dip pole, nothing is known.
	for _, p := range []angle.Position{at(90, 0), at(-90, 12)} {
		if s := sigmaOf(p, nil); s < 90*deg {
			t.Errorf("%v: %v", p, s)
		}
	}
	// A nil model counts as no model.
	if sigmaOf(at(65, 130), (*wmm.Model)(nil)) != sigmaOf(at(65, 130), nil) {
		t.Error("a nil model says something")
	}
}
