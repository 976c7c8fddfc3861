package variation_test

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

// A made rose is one of the simulation, with what is true of it.
type made struct {
	rose  variation.Rose
	at    angle.Position
	now   int         // the year of the audit
	out   angle.Angle // how far it is out in that year, by the field's history
	moved float64     // minutes a year by which the field moved in the rose's own year
}

// makeRose draws a rose as a chart of its day printed it. The value is that of the field up to
// four years before the rose's year, brought up to date by the change of the two years before
// that. It is printed to 1′, 5′ or 15′, and the change to 1′. It reports false where the field
// model is known to worse than 0.8° at 2σ, then or at the date.
func makeRose(r *rand.Rand, truth variation.Source) (made, bool) {
	m := made{at: at(math.Asin(2*r.Float64()-1)*180/math.Pi, 360*r.Float64()-180)}
	year := 1907 + r.IntN(2027-1907)
	m.now = year + r.IntN(2026-year+1)
	east := func(y int) angle.Angle {
		v, err := truth.VariationAt(m.at, noon(y, 7, 2))
		if err != nil {
			panic(err)
		}
		return v.Angle()
	}
	for _, y := range []int{year, m.now} {
		v, err := wmm.Models().VariationAt(m.at, noon(y, 7, 2))
		if s, _ := v.Uncertainty().Sigma(); err != nil || 2*s > 48*minute {
			return m, false
		}
	}
	from := year - r.IntN(5)
	change := (east(from) - east(from-2)).NormalizedSigned() / 2
	value := east(from) + angle.Angle(year-from)*change
	m.moved = (east(year+1) - east(year-1)).NormalizedSigned().Minutes() / 2
	step := []angle.Angle{minute, 5 * minute, 15 * minute}[r.IntN(3)]
	m.rose = variation.Rose{
		Variation: variation.East(value.Round(step).NormalizedSigned()), Year: year, Step: minute,
		Change: variation.Eastward(change.Round(minute)), ChangeStep: minute,
	}
	m.out = m.rose.Variation.Angle() + angle.Angle(m.now-year)*change.Round(minute) - east(m.now)
	m.out = m.out.NormalizedSigned().Abs()
	return m, true
}

// Roses of 1907 to 2026, each audited in a year from its own to 2026, where 2σ of the model
// is at most 0.8°. The truth is the history of the field, IGRF-14; the audit asks wmm.Models.
// FULL=1 makes 1,000 of each kind, the seed fixed.
//
// Measured, of 1,000 each: wrong name named 100 %; from 600 M away noticed 100 %, 1.8 % of
// them as a wrong name, where the one variation is the other's with the name changed; change
// reversed named 98.8 %; sound and within 0.5° accused 0 % (10 % learn that the change no
// longer holds, 3 % that the variation is too small to tell its name); sound once and more
// than 1.5° out now called stale 100 %. Other seeds give 98.6 % to 99 % for the change and
// 99.8 % for stale.
func TestAuditOfSimulatedRoses(t *testing.T) {
	want := 100
	if os.Getenv("FULL") == "1" {
		want = 1000
	}
	models, truth := wmm.Models(), wmm.IGRF14()
	for _, k := range []struct {
		name string
		// spoil changes a rose, and reports whether it is of the kind.
		spoil func(*rand.Rand, *made) bool
		good  func(variation.Audit) bool
		least float64 // of what is judged well
	}{
		{"wrong name", func(_ *rand.Rand, m *made) bool {
			v := m.rose.Variation.Angle()
			m.rose.Variation = variation.East(-v)
			return v.Abs() > deg
		}, func(a variation.Audit) bool { return a.Verdict == variation.LikelyWrongName }, 0.99},
		{"from 600 M away", func(r *rand.Rand, m *made) bool {
			here := m.rose.Variation.Angle()
			// 600 M to a random side.
			bearing := 2 * math.Pi * r.Float64()
			p := m.at
			lat := p.Latitude.Degrees() + 10*math.Cos(bearing)
			if math.Abs(lat) > 75 {
				return false
			}
			other := at(lat, math.Mod(p.Longitude.Degrees()+10*math.Sin(bearing)/math.Cos((lat+p.Latitude.Degrees())*math.Pi/360)+540, 360)-180)
			for _, y := range []int{m.rose.Year, m.now} {
				v, err := models.VariationAt(other, noon(y, 7, 2))
				if s, _ := v.Uncertainty().Sigma(); err != nil || 2*s > 48*minute {
					return false
				}
			}
			v, err := truth.VariationAt(other, noon(m.rose.Year, 7, 2))
			m.at = other
			return err == nil && (v.Angle()-here).NormalizedSigned().Abs() > 2*deg
		}, func(a variation.Audit) bool {
			return a.Verdict == variation.LikelyMisplaced || a.Verdict == variation.LikelyWrongName
		}, 0.98},
		{"change reversed", func(_ *rand.Rand, m *made) bool {
			c, _ := m.rose.Change.PerYear()
			m.rose.Change = variation.Westward(c)
			return c.Abs() > 4*minute
		}, func(a variation.Audit) bool { return a.Verdict == variation.ChangeReversed }, 0.95},
		{"sound", func(_ *rand.Rand, m *made) bool { return m.out <= deg/2 }, func(a variation.Audit) bool {
			return a.Verdict == variation.Agrees || a.Verdict == variation.ChangeNoLongerHolds || a.Verdict == variation.CannotBeJudged
		}, 0.98},
		{"sound once, 1.5° out now", func(_ *rand.Rand, m *made) bool { return m.out > 3*deg/2 }, func(a variation.Audit) bool {
			return a.Verdict == variation.Stale
		}, 0.98},
	} {
		t.Run(k.name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(15, 3))
			counts := map[variation.Verdict]int{}
			good, n := 0, 0
			for n < want {
				m, ok := makeRose(r, truth)
				if !ok || !k.spoil(r, &m) {
					continue
				}
				n++
				a, err := m.rose.Audit(models, m.at, noon(m.now, 7, 2))
				if err != nil {
					t.Fatal(err)
				}
				counts[a.Verdict]++
				if k.good(a) {
					good++
				} else if n-good <= 3 {
					t.Logf("field moved %.1f′\n%s", m.moved, a.Working())
				}
			}
			t.Logf("%d of %d: %v", good, n, counts)
			if part := float64(good) / float64(n); part < k.least-math.Sqrt(k.least*(1-k.least)/float64(n)) && want < 1000 || part < k.least && want >= 1000 {
				t.Errorf("%.1f %%, want at least %.1f %%", 100*part, 100*k.least)
			}
		})
	}
}

// The model has no answer for the rose's own year, here before 2015. Then a rose can have
// aged only by what the field can change. Measured, of 1,000 each: sound roses of 1907 to
// 2014 accused of more than their age 0 %; wrong name (over 5°) of a rose of 2000 to 2014
// named 100 %; ten degrees out noticed 100 %, 6 % of them as a wrong name.
func TestAuditWithoutTheRosesOwnYear(t *testing.T) {
	want := 100
	if os.Getenv("FULL") == "1" {
		want = 1000
	}
	models, err := wmm.NewSet(wmm.WMM2025(), wmm.WMM2020(), wmm.WMM2015v2())
	if err != nil {
		t.Fatal(err)
	}
	grave := func(a variation.Audit) bool {
		return a.Verdict == variation.LikelyWrongName || a.Verdict == variation.LikelyMisplaced
	}
	for _, k := range []struct {
		name  string
		from  int // years
		spoil func(*rand.Rand, *made) bool
		good  func(variation.Audit) bool
		least float64
	}{
		{"sound", 1907, func(*rand.Rand, *made) bool { return true }, func(a variation.Audit) bool { return !grave(a) }, 0.98},
		{"wrong name, of 2000 on", 2000, func(_ *rand.Rand, m *made) bool {
			v := m.rose.Variation.Angle()
			m.rose.Variation = variation.East(-v)
			return v.Abs() > 5*deg
		}, func(a variation.Audit) bool { return a.Verdict == variation.LikelyWrongName }, 0.98},
		{"ten degrees out, of 2000 on", 2000, func(r *rand.Rand, m *made) bool {
			ten := 10 * deg
			if r.IntN(2) == 0 {
				ten = -ten
			}
			m.rose.Variation = variation.East(m.rose.Variation.Angle() + ten)
			return true
		}, grave, 0.98},
	} {
		t.Run(k.name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(15, 4))
			counts := map[variation.Verdict]int{}
			good, n := 0, 0
			for n < want {
				m, ok := makeRose(r, wmm.IGRF14())
				if !ok || m.rose.Year < k.from || m.rose.Year >= 2015 || m.now < 2015 || !k.spoil(r, &m) {
					continue
				}
				n++
				a, err := m.rose.Audit(models, m.at, noon(m.now, 7, 2))
				if err != nil {
					t.Fatal(err)
				}
				counts[a.Verdict]++
				if k.good(a) {
					good++
				} else if n-good <= 3 {
					t.Logf("%s", a.Working())
				}
			}
			t.Logf("%d of %d: %v", good, n, counts)
			if part := float64(good) / float64(n); part < k.least-math.Sqrt(k.least*(1-k.least)/float64(n)) && want < 1000 || part < k.least && want >= 1000 {
				t.Errorf("%.1f %%, want at least %.1f %%", 100*part, 100*k.least)
			}
		})
	}
}
