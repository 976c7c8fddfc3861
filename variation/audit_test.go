package variation_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

var (
	orlesk  = at(47, -19)
	audited = noon(2026, time.July, 2)

	errNoField = errors.New("no field for that year")
)

// steady is a field model whose variation changes evenly. It has a value in the
// middle of a year, a change in a year, and first and last years. After its seam, if
// it has one, the variation is shifted.
type steady struct {
	east          angle.Angle
	middleOf      int
	perYear       angle.Angle
	known         angle.Uncertainty
	first, beyond float64
	seam          float64
	shift         angle.Angle
}

func (s steady) VariationAt(_ angle.Position, date time.Time) (variation.Variation, error) {
	year := variation.DecimalYear(date)
	if s.first != 0 && year < s.first || s.beyond != 0 && year >= s.beyond {
		return variation.Variation{}, errNoField
	}
	east := s.east + angle.Must(s.perYear.Scale(year-float64(s.middleOf)-0.5))
	if s.seam != 0 && year >= s.seam {
		east += s.shift
	}
	return variation.East(east).WithUncertainty(s.known), nil
}

func (s steady) mirrored() steady {
	s.east, s.perYear, s.shift = -s.east, -s.perYear, -s.shift
	return s
}

// likeOrlesk is what the rose 3°50′W 2014 (9′E) says, as a model.
func likeOrlesk() steady {
	return steady{east: -(3*deg + 50*minute), middleOf: 2014, perYear: 9 * minute, known: sigma(20 * minute)}
}

func mustAudit(t testing.TB, legend string, source variation.Source) variation.Audit {
	t.Helper()
	a, err := variation.MustParseLegend(legend).Audit(source, orlesk, audited)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func TestVerdicts(t *testing.T) {
	const orleskRose = "3°50′W 2014 (9′E)"
	for _, k := range []struct {
		name, legend string
		source       func(*steady)
		want         variation.Verdict
		line         string
	}{
		{"as the model", orleskRose, func(s *steady) {}, variation.Agrees,
			"the rose agrees in its own year and now"},
		{"the model begins later", orleskRose, func(s *steady) { s.first = 2020 }, variation.Agrees,
			"the rose agrees now; it cannot be checked in its own year"},
		{"change 2.9′ off", orleskRose, func(s *steady) { s.perYear += 29 * minute / 10 }, variation.Agrees,
			"the rose agrees in its own year and now"},
		{"change 3.1′ off", orleskRose, func(s *steady) { s.perYear += 31 * minute / 10 }, variation.ChangeNoLongerHolds,
			"annual change no longer holds; the rose agrees, but the annual changes differ by 0°03.1′"},
		{"change 3.1′ off, not stated", "3°50′W 2014", func(s *steady) { s.perYear = 31 * minute / 10 }, variation.Agrees,
			"the rose agrees in its own year and now"},
		{"change 3.1′ off, none by the rose", "3°50′W 2014 (no annual change)", func(s *steady) { s.perYear = -31 * minute / 10 }, variation.ChangeNoLongerHolds,
			"annual change no longer holds; the rose agrees, but the annual changes differ by 0°03.1′"},
		{"change 5′ off", orleskRose, func(s *steady) { s.perYear -= 5 * minute }, variation.Stale,
			"stale; the rose agrees in its own year, but not now; use a newer chart"},
		{"change 5′ off, the model begins later", orleskRose, func(s *steady) { s.perYear -= 5 * minute; s.first = 2020 }, variation.Stale,
			"stale; the rose disagrees now, and cannot be checked in its own year"},
		{"E for W", "3°50′E 2014 (9′E)", func(s *steady) {}, variation.LikelyWrongName,
			"likely wrong name; with the other name, the rose would agree in its own year"},
		{"W for E", "3°50′W 2014 (9′W)", func(s *steady) { *s = s.mirrored() }, variation.LikelyWrongName,
			"likely wrong name; with the other name, the rose would agree in its own year"},
		{"E for W, and the model ends", "3°50′E 2014 (9′E)", func(s *steady) { s.beyond = 2020 }, variation.LikelyWrongName,
			"likely wrong name; with the other name, the rose would agree in its own year"},
		{"5 for 3", "5°50′W 2014 (9′E)", func(s *steady) {}, variation.LikelyMisplaced,
			"likely misplaced or misread; the rose disagrees in its own year; check its place and its figures, and look for a local anomaly; its variation agrees nowhere within 600 M"},
		// With the other name the difference is 39′ instead of 43′, just allowed. The
		// name is not wrong.
		{"near zero", "0°02′W 2014 (9′E)", func(s *steady) { s.east = 41 * minute }, variation.LikelyMisplaced,
			"likely misplaced or misread; the rose disagrees in its own year; check its place and its figures, and look for a local anomaly; its variation agrees nowhere within 600 M"},
		{"near zero, by its name", "0°25′W 2014 (9′E)", func(s *steady) { s.east = 30 * minute }, variation.LikelyWrongName,
			"likely wrong name; with the other name, the rose would agree in its own year"},
		{"the model ends before the date", orleskRose, func(s *steady) { s.beyond = 2020 }, variation.CannotBeJudged,
			"cannot be judged; the source has no answer for the date"},
	} {
		s := likeOrlesk()
		k.source(&s)
		a := mustAudit(t, k.legend, s)
		if a.Verdict != k.want {
			t.Errorf("%s: %s; want %s\n%s", k.name, a.Verdict, k.want, a.Working())
		}
		if line, _ := a.Working().Steps.Find("verdict"); line.How != k.line {
			t.Errorf("%s: %q", k.name, line.How)
		}
		if variation.PositionOf(a) != orlesk || variation.RoseOf(a) != variation.MustParseLegend(k.legend) {
			t.Errorf("%s: at %v, %v", k.name, variation.PositionOf(a), variation.RoseOf(a))
		}
	}
}

// Then is the middle of the rose's year, by the figure printed; Now the date,
// by whole years. What is allowed is worked out by hand from the formula of the
// package comment.
func TestAnAuditComparesThenAndNow(t *testing.T) {
	s := likeOrlesk()
	s.east -= 10 * minute
	a := mustAudit(t, "3°50′W 2014 (9′E)", s)
	if !a.Then.Date.Equal(time.Date(2014, time.July, 2, 0, 0, 0, 0, time.UTC)) || !a.Now.Date.Equal(audited) {
		t.Errorf("%v, %v", a.Then.Date, a.Now.Date)
	}
	if a.Then.Rose.Angle() != -(3*deg+50*minute) || a.Now.Rose.Angle() != -(2*deg+2*minute) {
		t.Errorf("the rose: %v, %v", a.Then.Rose, a.Now.Rose)
	}
	for _, k := range []struct {
		name string
		c    variation.Comparison
	}{{"then", a.Then}, {"now", a.Now}} {
		// The allowed difference has the rounding and the unknown day of the year, both at
		// the date and in the rose's own year. It leaves out the drift, which must not
		// hide that a rose is old. Here 50′ may be to 5′, and the change is to 1′.
		value, change, day := 5*(1-0.05*1.2)/4, 0.95/4, 9*(1-math.Sqrt(0.05))/2
		ofRose2 := value*value + change*change/6 + day*day
		if want := 2 * math.Sqrt(20*20+ofRose2); !near(k.c.Allowed.Minutes(), want, 1e-6) {
			t.Errorf("%s: allowed %v; want %v′", k.name, k.c.Allowed, want)
		}
		// The middle of a year is 2 July only to within a day.
		if !near(k.c.Difference.Minutes(), 10, 9.0/365) || !variation.InAgreement(k.c) || k.c.Err != nil {
			t.Errorf("%s: %+v", k.name, k.c)
		}
	}
	if a.SourceChange == nil || !near(a.SourceChange.Minutes(), 9, 1e-6) {
		t.Errorf("%v", a.SourceChange)
	}
}

func TestDifferencesGoTheShortWayRound(t *testing.T) {
	for _, k := range []struct {
		rose, source string
		want         angle.Angle
	}{
		{"179°50′E", "179°50′W", -20 * minute},
		{"179°50′W", "179°50′E", 20 * minute},
		{"90°W", "90°E", 180 * deg},
		{"1°W", "2°E", -3 * deg},
	} {
		a := mustAudit(t, k.rose+" 2026", variation.MustParse(k.source))
		if a.Then.Difference != k.want || a.Now.Difference != k.want {
			t.Errorf("%s against %s: %v, %v; want %v", k.rose, k.source, a.Then.Difference, a.Now.Difference, k.want)
		}
	}
	// So does the source's annual change, here 9′ eastward through 180°.
	s := steady{east: 180 * deg, middleOf: 2026, perYear: 9 * minute}
	if a := mustAudit(t, "179°50′E 2025 (9′E)", s); !near(a.SourceChange.Minutes(), 9, 1e-6) || a.Verdict != variation.CannotBeJudged {
		t.Errorf("%v\n%s", a.SourceChange, a.Working())
	}
}

// If a source does not state its uncertainty, half a degree is assumed. So the rose
// may differ by a degree, and by its own rounding.
func TestUnstatedSourceUncertainty(t *testing.T) {
	r := rose(-4 * deg)
	for _, k := range []struct {
		source  string
		allowed angle.Angle
		agrees  bool
	}{
		{"5°W", deg, true},
		{"5°01′W", deg, false},
		{"3°W", deg, true},
		{"4°10′W ±0°05′", 10 * minute, true},
		{"4°11′W ±0°05′", 10 * minute, false},
		{"4°W ±0°", 0, true},
		{"4°01′W ±0°", 0, false},
	} {
		a, err := r.Audit(variation.MustParse(k.source), orlesk, audited)
		if err != nil || a.Then.Allowed != k.allowed || a.Now.Allowed != k.allowed || variation.InAgreement(a.Then) != k.agrees {
			t.Errorf("%s: %+v, %v", k.source, a.Then, err)
		}
	}
}

// A comparison without an answer never agrees, though its figures are zero.
func TestWithoutAnAnswerNothingAgrees(t *testing.T) {
	a := mustAudit(t, "3°50′W 2014 (9′E)", model{errNoField})
	for _, c := range []variation.Comparison{a.Then, a.Now} {
		if variation.InAgreement(c) || !errors.Is(c.Err, errNoField) || c.Difference != 0 || c.Allowed != 0 {
			t.Errorf("%+v", c)
		}
	}
	if a.Verdict != variation.CannotBeJudged || a.SourceChange != nil {
		t.Errorf("%+v", a)
	}
}

// The year about the date, or before or after it where the source ends or
// begins; an error where it answers for no whole year.
func TestSourceChangeNearestYear(t *testing.T) {
	s := func(first, beyond float64) steady {
		s := likeOrlesk()
		s.first, s.beyond = first, beyond
		return s
	}
	for _, k := range []struct {
		name   string
		source steady
		fails  bool
	}{
		{"always", s(0, 0), false},
		{"the year about the date and no more", s(2025.9, 2027.1), false},
		{"ends soon after", s(2025.4, 2026.6), false},
		{"begins soon before", s(2026.4, 2027.6), false},
		{"for half a year", s(2026.4, 2026.9), true},
		{"until the date", s(2026.1, 2026.6), true},
	} {
		a := mustAudit(t, "3°50′W 2014 (9′E)", k.source)
		_, printed := a.Working().Steps.Find("source change")
		if k.fails {
			if a.SourceChange != nil || printed || a.Verdict != variation.Agrees {
				t.Errorf("%s: %v\n%s", k.name, a.SourceChange, a.Working())
			}
			continue
		}
		if a.SourceChange == nil || !near(a.SourceChange.Minutes(), 9, 1e-6) || !printed {
			t.Errorf("%s: %v", k.name, a.SourceChange)
		}
	}
}

// Where one model follows another the variation jumps. The jump is not taken
// for an annual change, on either side of the date.
func TestJumpBetweenModels(t *testing.T) {
	for _, seam := range []float64{2025.2, 2026.2, 2026.5, 2026.8, 2027.7} {
		s := likeOrlesk()
		s.seam, s.shift = seam, 20*minute
		for _, s := range []steady{s, s.mirrored()} {
			legend := "3°50′W 2014 (9′E)"
			if s.perYear < 0 {
				legend = "3°50′E 2014 (9′W)"
			}
			a := mustAudit(t, legend, s)
			if !near(a.SourceChange.Abs().Minutes(), 9, 1e-6) || a.Verdict != variation.Agrees {
				t.Errorf("a jump at %v: %v a year\n%s", seam, a.SourceChange, a.Working())
			}
		}
	}
}

// A rose that states no change is as uncertain at the date as it was when it
// was printed, or more; not less.
func TestRoundingWithoutChange(t *testing.T) {
	a := mustAudit(t, "9°W 1914", variation.MustParse("8°40′W ±0°"))
	if a.Now.Allowed != a.Then.Allowed || !near(a.Now.Allowed.Minutes(), 2*60*0.95/4, 1e-6) {
		t.Errorf("allowed %v then, %v now", a.Then.Allowed, a.Now.Allowed)
	}
	if _, printed := a.Working().Steps.Find("rose change"); printed || a.Verdict != variation.Agrees {
		t.Errorf("%s", a.Working())
	}
}

func TestAnAuditRefusesYearsOfNoRose(t *testing.T) {
	for _, k := range []struct {
		year int
		date time.Time
		what string
	}{
		{1499, audited, "rose"}, {2501, audited, "rose"},
		{2014, noon(1499, time.July, 2), "date"}, {2014, noon(2501, time.July, 2), "date"},
	} {
		r := rose(4 * deg)
		r.Year = k.year
		a, err := r.Audit(likeOrlesk(), orlesk, k.date)
		if e, ok := errors.AsType[*angle.RangeError](err); !ok || e.What != "year of the "+k.what || a != (variation.Audit{}) {
			t.Errorf("%d, %v: %+v, %v", k.year, k.date, a, err)
		}
	}
}

func TestTheWorkingOfAnAudit(t *testing.T) {
	unstated := likeOrlesk()
	unstated.perYear, unstated.known, unstated.first = 3*minute, angle.Uncertainty{}, 2015
	for _, k := range []struct {
		legend string
		source variation.Source
		want   string
	}{
		{"3°50′E 2014 (9′E)", likeOrlesk(), `Rose 3°50′E 2014 (9′E) at 47°00.0′N 019°00.0′W
  Rose in 2014           3°50′E  as printed
  Source in 2014         3°50′W  standard uncertainty ±0°20′
  Rose minus source      7°40′E  beyond the allowed ±0°40.7′, twice the uncertainty
  Rose on 2 July 2026    5°38′E  the rose brought up to that year
  Source on 2 July 2026  2°02′W  standard uncertainty ±0°20′
  Rose minus source      7°40′E  beyond the allowed ±0°40.7′, twice the uncertainty
  Annual change, rose    0°09′E  as printed
  Annual change, source  0°09′E  around 2014
  Annual change, source  0°09′E  in the year around the date
  Verdict                        likely wrong name; with the other name, the rose would agree in its own year
`},
		{"3°50′W 2014 (9′E)", unstated, `Rose 3°50′W 2014 (9′E) at 47°00.0′N 019°00.0′W
  Rose in 2014           3°50′W  as printed
  Source in 2014                 no answer: no field for that year
  Rose on 2 July 2026    2°02′W  the rose brought up to that year
  Source on 2 July 2026  3°14′W  standard uncertainty not stated, taken as ±0°30′
  Rose minus source      1°12′E  beyond the allowed ±1°00.5′, twice the uncertainty
  Annual change, rose    0°09′E  as printed
  Annual change, source  0°03′E  in the year around the date
  Verdict                        stale; the rose disagrees now, and cannot be checked in its own year
`},
	} {
		if got := mustAudit(t, k.legend, k.source).Working().String(); got != k.want {
			t.Errorf("%s\nwant\n%s", got, k.want)
		}
	}
}

// Roses made from the published field model agree with it; with the other name
// or 1,500 miles away they don't.
func TestRosesMadeFromTheFieldModel(t *testing.T) {
	for _, source := range []variation.Source{wmm.WMM2025(), wmm.Models()} {
		for _, k := range []struct{ here, away angle.Position }{
			{at(47, -19), at(47, -55.7)}, // 25° of arc is 36.7° of longitude at 47°, nearly
			{at(40, -125), at(40, -92.4)},
			{at(-35, 20), at(-10, 20)},
			{at(-40, 175), at(-15, 175)},
			{at(15, -160), at(40, -160)},
		} {
			east := func(year, month int) angle.Angle {
				v, err := source.VariationAt(k.here, time.Date(year, time.Month(month), 2, 0, 0, 0, 0, time.UTC))
				if err != nil {
					t.Fatal(err)
				}
				return v.Angle()
			}
			r := variation.Rose{
				Variation: variation.East(east(2025, 7).Round(minute)), Year: 2025, Step: minute,
				Change: variation.Eastward((east(2026, 1) - east(2025, 1)).Round(minute)), ChangeStep: minute,
			}
			sound := variation.Agrees
			v, err := source.VariationAt(k.here, noon(2025, time.July, 2))
			if known, _ := v.Uncertainty().Sigma(); err != nil || known > 24*minute {
				sound = variation.CannotBeJudged // off South Africa, where the field is weak
			}
			renamed := r
			renamed.Variation = variation.East(-r.Variation.Angle())
			for _, c := range []struct {
				rose variation.Rose
				at   angle.Position
				want variation.Verdict
			}{
				{r, k.here, sound},
				{renamed, k.here, variation.LikelyWrongName},
				{r, k.away, variation.LikelyMisplaced},
			} {
				for _, date := range []time.Time{noon(2026, time.November, 25), noon(2029, time.December, 1)} {
					a, err := c.rose.Audit(source, c.at, date)
					if err != nil || a.Verdict != c.want {
						t.Errorf("%v; want %s\n%s", err, c.want, a.Working())
					}
				}
			}
		}
	}
}

// drawSteady draws a model and a rose made exactly from it.
func drawSteady(t *rapid.T) (variation.Rose, steady) {
	s := steady{
		east:     drawAngle(t, angle.Turn/2, "variation"),
		middleOf: rapid.IntRange(1600, 2400).Draw(t, "year"),
		perYear:  drawAngle(t, 30*minute, "change"),
	}
	if rapid.Bool().Draw(t, "uncertainty stated") {
		s.known = sigma(drawAngle(t, deg, "uncertainty").Abs())
	}
	return variation.Rose{Variation: variation.East(s.east), Year: s.middleOf, Change: variation.Eastward(s.perYear)}, s
}

func drawAudited(t *rapid.T, r variation.Rose) time.Time {
	return noon(r.Year+rapid.IntRange(-50, 50).Draw(t, "years"), time.Month(rapid.IntRange(1, 12).Draw(t, "month")), rapid.IntRange(1, 31).Draw(t, "day"))
}

func TestSteadyRoseAgrees(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, s := drawSteady(t)
		// A source that knows exactly does not stand for a rose made to the unit.
		r.Step = minute
		a, err := r.Audit(s, orlesk, drawAudited(t, r))
		known, _ := s.known.Sigma()
		told := s.east.Abs() > 5*deg && s.east.Abs() < 175*deg && known <= 24*minute
		if err != nil || a.Verdict != variation.Agrees && (told || a.Verdict != variation.CannotBeJudged) {
			t.Fatalf("%v\n%s", err, a.Working())
		}
	})
}

func TestEastAndWestAreJudgedAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, s := drawSteady(t)
		s.east, r.Variation = s.east/2, variation.East(drawAngle(t, 45*deg, "the rose's variation"))
		r.Change = variation.Eastward(drawAngle(t, 30*minute, "the rose's change"))
		if rapid.Bool().Draw(t, "near") {
			r.Variation = variation.East(s.east + drawAngle(t, 2*deg, "difference"))
		}
		perYear, _ := r.Change.PerYear()
		m := r
		m.Variation, m.Change = variation.East(-r.Variation.Angle()), variation.Westward(perYear)
		date := drawAudited(t, r)
		a, errA := r.Audit(s, orlesk, date)
		b, errB := m.Audit(s.mirrored(), orlesk, date)
		if errA != nil || errB != nil || a.Verdict != b.Verdict || a.Then.Difference != -b.Then.Difference || a.Then.Allowed != b.Then.Allowed {
			t.Fatalf("%v, %v\n%s%s", errA, errB, a.Working(), b.Working())
		}
	})
}

// A source too uncertain to judge must differ by half as much again before a rose is doubted.
func TestUncertainSourceDoubtsARoseLater(t *testing.T) {
	r := rose(-4 * deg)
	for source, doubted := range map[string]bool{"4°55′W ±0°30′": false, "5°25′W ±0°30′": false, "5°29′W ±0°30′": false, "5°35′W ±0°30′": true} {
		a, err := r.Audit(variation.MustParse(source), orlesk, audited)
		if err != nil || a.Then.Allowed != deg || (a.Verdict != variation.CannotBeJudged) != doubted {
			t.Errorf("%s: allowed %v, %v, %v", source, a.Then.Allowed, a.Verdict, err)
		}
	}
}
