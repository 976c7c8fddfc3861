package adjust_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/variation"
)

// small is the rounding of an Angle in a few sums and products.
const small = 4 * angle.Angle(1)

// drawCoefficients draws coefficients whose deviations stay below 90°.
func drawCoefficients(t *rapid.T, most angle.Angle) deviation.Coefficients {
	of := func(name string) angle.Angle { return devtest.DrawBetween(t, -most, most, name) }
	return deviation.Coefficients{A: of("A"), B: of("B"), C: of("C"), D: of("D"), E: of("E")}
}

// opposite returns a correction that stands the other way.
func opposite(c adjust.Correction) adjust.Correction {
	c.Way = map[adjust.Way]adjust.Way{
		adjust.RedForward: adjust.RedAft, adjust.RedAft: adjust.RedForward,
		adjust.RedStarboard: adjust.RedPort, adjust.RedPort: adjust.RedStarboard,
		adjust.Abeam: adjust.AheadAstern, adjust.AheadAstern: adjust.Abeam,
		adjust.BarForward: adjust.BarAft, adjust.BarAft: adjust.BarForward,
		adjust.RedUp: adjust.RedDown, adjust.RedDown: adjust.RedUp,
	}[c.Way]
	return c
}

// near reports whether coefficients agree to the rounding of an Angle.
func near(a, b deviation.Coefficients) bool {
	for _, d := range []angle.Angle{a.A - b.A, a.B - b.B, a.C - b.C, a.D - b.D, a.E - b.E} {
		if d.Abs() > small {
			return false
		}
	}
	return true
}

// Every corrector by its whole amount leaves A. The wrong way it doubles its coefficient and
// leaves the others, and half of the amount leaves half, in both hemispheres and with both signs.
func TestCorrectionRemovesOrDoubles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := drawCoefficients(t, 8*devtest.Deg)
		l := adjust.Lesson{Coefficients: k, Induced: devtest.DrawBetween(t, -8*devtest.Deg, 8*devtest.Deg, "induced"), Dip: devtest.DrawBetween(t, -89*devtest.Deg, 89*devtest.Deg, "dip"), Heeling: adjust.Heeling(rapid.Float64Range(-3, 3).Draw(t, "J"))}
		if l.Dip == 0 {
			l.Induced = 0
		}
		before, err := k.Curve(deviation.ByCompass)
		if err != nil {
			t.Fatal(err)
		}
		list, err := l.Corrections()
		if err != nil {
			t.Fatal(err)
		}
		after, err := adjust.After(before, list...)
		if err != nil || !near(after.Coefficients(), deviation.Coefficients{A: k.A}) {
			t.Fatalf("%v leave %v, %v", list, after.Coefficients(), err)
		}
		for _, c := range list {
			right, j, err := c.Adds()
			wrong, wrongJ, err2 := opposite(c).Adds()
			if err != nil || err2 != nil || !near(wrong, deviation.Coefficients{B: -right.B, C: -right.C, D: -right.D, E: -right.E}) || j != -wrongJ {
				t.Fatalf("%v adds %v, the other way %v; %v, %v", c, right, wrong, err, err2)
			}
			part := c
			part.Amount /= 2
			half, halfJ, err := part.Adds()
			if err != nil || !near(half, deviation.Coefficients{B: right.B / 2, C: right.C / 2, D: right.D / 2, E: right.E / 2}) || math.Abs(float64(halfJ-j/2)) > 1e-9 {
				t.Fatalf("%v adds %v, half of it %v, %v", c, right, half, err)
			}
			if c.Corrector == adjust.HeelingMagnet && math.Abs(float64(j+l.Heeling)) > 1e-9 {
				t.Fatalf("J %v, corrected by %v", l.Heeling, j)
			}
		}
	})
}

// Correcting by exactly −B leaves B 0 and the rest unchanged, the wrong way it is twice B, and
// so for C. A curve of higher order keeps its other coefficients.
func TestMagnetsLeaveTheRest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := drawCoefficients(t, 7*devtest.Deg)
		sine, cosine := devtest.DrawBetween(t, -devtest.Deg, devtest.Deg, "sin 3z"), devtest.DrawBetween(t, -devtest.Deg, devtest.Deg, "cos 3z")
		kind := rapid.SampledFrom(devtest.Kinds[:]).Draw(t, "kind")
		before, err := deviation.NewCurve(kind, []angle.Angle{k.A, k.B, k.C, k.D, k.E, sine, cosine}, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		c := adjust.Correction{Corrector: adjust.ForeAndAftMagnets, Way: adjust.RedForward, Amount: k.B.Abs()}
		if k.B < 0 {
			c.Way = adjust.RedAft
		}
		for _, test := range []struct {
			c    adjust.Correction
			want angle.Angle
		}{{c, 0}, {opposite(c), 2 * k.B}} {
			after, err := adjust.After(before, test.c)
			want := k
			want.B = test.want
			if err != nil || after.Coefficients() != want || after.By() != kind {
				t.Fatalf("%v on %v leaves %v, %v", test.c, k, after.Coefficients(), err)
			}
			if s, co := after.Harmonic(3); s != sine || co != cosine {
				t.Fatalf("sin 3z %v, cos 3z %v", s, co)
			}
		}
	})
}

// A published worksheet: Compass compensation worksheet, examples with landing compass, question
// 3. On N, E, S, W the deviations were 7, 4, −3, −4; B +4 and C +5 were removed; the check swing
// gave 2, 0, 2, 0. With the corrector, the compass read 180 on south where it had read 185, and 268
// on west where it had read 272. In question 1, C −6 and B +2 took it from 170 to 176 and from 265
// to 263. The course is for aircraft; the deviations are of the same kind.
func TestPublishedResidualSwing(t *testing.T) {
	hand, err := deviation.AnalyseByHand(map[string]angle.Angle{"N": 7 * devtest.Deg, "E": 4 * devtest.Deg, "S": -3 * devtest.Deg, "W": -4 * devtest.Deg})
	if err != nil {
		t.Fatal(err)
	}
	k := hand.Coefficients
	if k.B != 4*devtest.Deg || k.C != 5*devtest.Deg {
		t.Fatalf("%v; B 4° and C 5° are printed", k)
	}
	before := angle.Must(k.Curve(deviation.ByCompass))
	magnets := []adjust.Correction{{Corrector: adjust.ForeAndAftMagnets, Way: adjust.RedForward, Amount: k.B}, {Corrector: adjust.AthwartshipMagnets, Way: adjust.RedStarboard, Amount: k.C}}
	after, err := adjust.After(before, magnets...)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []angle.Angle{2, 0, 2, 0} { // printed
		if d, err := after.OnCompass(angle.CompassFrom(angle.Angle(i) * 90 * devtest.Deg)); err != nil || (d.Angle()-want*devtest.Deg).Abs() > small {
			t.Errorf("on %d° %v, %v; %d° is printed", i*90, d, err, want)
		}
	}
	for _, test := range []struct{ head, b, c, read, want float64 }{{180, 0, 5, 185, 180}, {270, 4, 0, 272, 268}, {180, 0, -6, 170, 176}, {270, 2, 0, 265, 263}} {
		l := adjust.Lesson{Coefficients: deviation.Coefficients{B: devtest.Degrees(test.b), C: devtest.Degrees(test.c)}}
		list, err := l.Corrections()
		if err != nil || len(list) != 1 {
			t.Fatal(list, err)
		}
		adds, _, err := list[0].Adds()
		if err != nil {
			t.Fatal(err)
		}
		added, err := angle.Must(adds.Curve(deviation.ByCompass)).OnCompass(angle.CompassFrom(devtest.Degrees(test.head)))
		if got := test.read - added.Degrees(); err != nil || !devtest.Near(got, test.want, 1e-9) { // easterly deviation lowers the reading
			t.Errorf("on %v° the compass reads %v, %v; %v is printed", test.head, got, err, test.want)
		}
	}
}

// Coefficients added as angles are compared with forces added, over all headings where neither
// the deviations before nor those after exceed 10°. Measured with 20,000 draws: at most 0.38°.
func TestPredictionAgreesWithTheForces(t *testing.T) {
	worst := 0.0
	rapid.Check(t, func(t *rapid.T) {
		k := deviation.Coefficients{}
		for _, of := range []struct {
			to   *angle.Angle
			most angle.Angle
		}{{&k.A, devtest.Deg}, {&k.B, 8 * devtest.Deg}, {&k.C, 8 * devtest.Deg}, {&k.D, 5 * devtest.Deg}, {&k.E, devtest.Deg}} {
			*of.to = devtest.DrawBetween(t, -of.most, of.most, "coefficient")
		}
		before := angle.Must(k.Curve(deviation.ByCompass))
		list, err := adjust.Lesson{Coefficients: k}.Corrections()
		if err != nil {
			t.Fatal(err)
		}
		for i := range list {
			list[i].Amount = angle.Must(list[i].Amount.Scale(rapid.Float64Range(0, 1).Draw(t, "part")))
		}
		after, err := adjust.After(before, list...)
		if err != nil {
			t.Fatal(err)
		}
		both, err := adjust.Compare(before, after, 15*devtest.Deg)
		if err != nil || both.LargestBefore.Abs() > 10*devtest.Deg || both.LargestAfter.Abs() > 10*devtest.Deg {
			t.Skip()
		}
		here := shoreField{20000, 60}
		forces, err := adjust.AllPermanent(angle.Must(k.Exact()), here)
		if err != nil {
			t.Fatal(err)
		}
		if forces, err = forces.Corrected(here, list...); err != nil {
			t.Fatal(err)
		}
		exact, err := forces.At(here)
		if err != nil {
			t.Fatal(err)
		}
		for h := angle.Angle(0); h < angle.Turn; h += 10 * devtest.Deg {
			d, err := exact.OnCompass(angle.CompassFrom(h))
			if err != nil {
				t.Fatal(err)
			}
			p, _ := after.OnCompass(angle.CompassFrom(h))
			if worst = max(worst, (d.Angle() - p.Angle()).Abs().Degrees()); worst > 0.5 {
				t.Fatalf("%v corrected by %v: on %v predicted %v, by the forces %v", k, list, h, p, d)
			}
		}
	})
	t.Logf("at most %.2f°", worst)
}

// What no corrector does is refused with a typed error, and nothing is added.
func TestImpossibleCorrectionsAreRefused(t *testing.T) {
	curve := angle.Must(deviation.Coefficients{B: devtest.Deg}.Curve(deviation.ByCompass))
	good := adjust.Correction{Corrector: adjust.ForeAndAftMagnets, Way: adjust.RedAft, Amount: devtest.Deg}
	with := func(change func(*adjust.Correction)) adjust.Correction {
		c := good
		change(&c)
		return c
	}
	for name, c := range map[string]adjust.Correction{
		"zero":            {},
		"unknown":         with(func(c *adjust.Correction) { c.Corrector = "chain" }),
		"another's way":   with(func(c *adjust.Correction) { c.Way = adjust.RedUp }),
		"negative":        with(func(c *adjust.Correction) { c.Amount = -1 }),
		"too much":        with(func(c *adjust.Correction) { c.Amount = 90*devtest.Deg + 1 }),
		"slewed magnets":  with(func(c *adjust.Correction) { c.Slew = devtest.Deg }),
		"slewed too far":  {Corrector: adjust.Spheres, Way: adjust.Abeam, Slew: 46 * devtest.Deg},
		"slewed far":      {Corrector: adjust.Spheres, Way: adjust.Abeam, Slew: math.MinInt64},
		"bar without dip": {Corrector: adjust.FlindersBar, Way: adjust.BarAft, Amount: devtest.Deg},
		"bar at the pole": {Corrector: adjust.FlindersBar, Way: adjust.BarAft, Amount: devtest.Deg, Dip: 90 * devtest.Deg},
	} {
		k, j, err := c.Adds()
		_, isRange := errors.AsType[*angle.RangeError](err)
		_, isParse := errors.AsType[*angle.ParseError](err)
		_, isField := errors.AsType[*adjust.FieldError](err)
		if !isRange && !isParse && !isField || k != (deviation.Coefficients{}) || j != 0 {
			t.Errorf("%s: %v, %v, %v", name, k, j, err)
		}
		if after, err := adjust.After(curve, good, c); err == nil || after != nil {
			t.Errorf("%s: after %v, %v", name, after, err)
		}
	}
	for name, before := range map[string]*deviation.Curve{"nil": nil, "zero": {}} {
		if _, err := adjust.After(before, good); !isDeviationError(err) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := adjust.After(curve, with(func(c *adjust.Correction) { c.Amount, c.Way = 90*devtest.Deg, adjust.RedAft })); !isDeviationError(err) {
		t.Errorf("above 90°: %v", err)
	}
	many := make([]adjust.Correction, 30_000)
	for i := range many {
		many[i] = with(func(c *adjust.Correction) { c.Amount = 90 * devtest.Deg })
	}
	if _, err := adjust.After(curve, many...); err == nil {
		t.Error("30,000 corrections are not refused")
	}
	if _, err := adjust.After(curve); err != nil {
		t.Errorf("no correction: %v", err)
	}
}

// isDeviationError reports whether an error is of package deviation.
func isDeviationError(err error) bool {
	_, is := errors.AsType[*deviation.Error](err)
	return is
}

// A lesson with impossible figures is refused.
func TestImpossibleLessonIsRefused(t *testing.T) {
	far := 91 * devtest.Deg
	for name, l := range map[string]adjust.Lesson{
		"B": {Coefficients: deviation.Coefficients{B: far}}, "C": {Coefficients: deviation.Coefficients{C: -far}},
		"D": {Coefficients: deviation.Coefficients{D: math.MaxInt64}}, "E": {Coefficients: deviation.Coefficients{E: math.MinInt64}},
		"both quadrantal": {Coefficients: deviation.Coefficients{D: 80 * devtest.Deg, E: 80 * devtest.Deg}},
		"induced":         {Induced: far, Dip: devtest.Deg}, "no dip": {Induced: devtest.Deg},
		"NaN": {Heeling: adjust.Heeling(math.NaN())}, "infinite": {Heeling: adjust.Heeling(math.Inf(-1))}, "steep": {Heeling: 91},
	} {
		list, err := l.Corrections()
		_, isRange := errors.AsType[*angle.RangeError](err)
		_, isField := errors.AsType[*adjust.FieldError](err)
		if list != nil || !isRange && !isField {
			t.Errorf("%s: %v, %v", name, list, err)
		}
		if s, err := l.Working(); err == nil || len(s.Steps) > 0 {
			t.Errorf("%s: %v, %v", name, s, err)
		}
	}
}

// Every step of the rules and of a lesson has reasons, and the caution is below.
func TestLessonSaysWhy(t *testing.T) {
	l := adjust.Lesson{Coefficients: deviation.Coefficients{A: devtest.Deg, B: -3 * devtest.Deg, C: 2 * devtest.Deg, D: -2 * devtest.Deg, E: devtest.Deg}, Induced: -devtest.Deg, Dip: -60 * devtest.Deg, Heeling: -0.3}
	lesson, err := l.Working()
	if err != nil {
		t.Fatal(err)
	}
	rules := adjust.Rules()
	for _, s := range append(lesson.Steps, rules.Steps...) {
		if s.Key == "" || s.What == "" || s.Value == "" || len(s.Reasons) == 0 {
			t.Errorf("%+v", s)
		}
	}
	if lesson.Caution != deviation.AdjusterCaution || rules.Caution != deviation.AdjusterCaution {
		t.Error("no caution")
	}
	for key, want := range map[string]string{
		"flinders-bar": "bar aft", "spheres": "ahead and astern", "heeling-magnet": "red end down", "fore-and-aft-magnets": "red ends aft", "athwartship-magnets": "red ends to starboard", "A": "no corrector",
	} {
		if s, ok := lesson.Steps.Find(key); !ok || !strings.Contains(s.Value, want) {
			t.Errorf("%s: %q, want %q", key, s.Value, want)
		}
	}
	var back adjust.Correction
	if text, err := json.Marshal(adjust.Correction{Corrector: adjust.Spheres, Way: adjust.Abeam, Amount: devtest.Deg, Slew: devtest.Deg}); err != nil || json.Unmarshal(text, &back) != nil || back.Slew != devtest.Deg {
		t.Errorf("%s, %v", text, err)
	}
}

// A comparison has the figures of both sources. It refuses invalid steps and sources.
func TestComparison(t *testing.T) {
	before := angle.Must(deviation.Coefficients{A: devtest.Deg, B: -4 * devtest.Deg}.Curve(deviation.ByCompass))
	after := angle.Must(deviation.Coefficients{A: devtest.Deg}.Curve(deviation.ByCompass))
	c, err := adjust.Compare(before, after, 45*devtest.Deg)
	if err != nil || len(c.Rows) != 8 || c.LargestBefore != 5*devtest.Deg || c.LargestAfter != devtest.Deg {
		t.Fatalf("%+v, %v", c, err)
	}
	text := c.String()
	for _, want := range []string{"090°C   3.0°W  1.0°E   4.0°E", "Largest: 5.0°E before, 1.0°E after", deviation.AdjusterCaution} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in\n%s", want, text)
		}
	}
	if text := (*adjust.Comparison)(nil).String(); !strings.Contains(text, deviation.AdjusterCaution) {
		t.Error(text)
	}
	if c, err := adjust.Compare(before, after, devtest.Deg); err != nil || len(c.Rows) != 360 {
		t.Errorf("every degree: %v", err)
	}
	for _, step := range []angle.Angle{0, -devtest.Deg, devtest.Deg / 2, 7 * devtest.Deg, 46 * devtest.Deg} {
		if _, err := adjust.Compare(before, after, step); err == nil {
			t.Errorf("step %v is not refused", step)
		}
	}
	for _, pair := range [][2]deviation.Source{{nil, after}, {before, nil}, {(*deviation.Table)(nil), after}} {
		if _, err := adjust.Compare(pair[0], pair[1], 15*devtest.Deg); !isMissing(err) {
			t.Errorf("%v: %v", pair, err)
		}
	}
	for _, pair := range [][2]deviation.Source{{&deviation.Curve{}, after}, {before, &deviation.Curve{}}} {
		if _, err := adjust.Compare(pair[0], pair[1], 15*devtest.Deg); !isDeviationError(err) {
			t.Errorf("%v: %v", pair, err)
		}
	}
}

// isMissing reports whether an error is of an input that was left out.
func isMissing(err error) bool {
	_, is := errors.AsType[*variation.MissingInputError](err)
	return is
}

// Spheres slewed either way remove E; the lesson says which way.
func TestLessonSlewsTheSpheres(t *testing.T) {
	for _, test := range []struct {
		d, e float64
		says string
	}{{2, 1, "slew them 13° clockwise"}, {2, -1, "slew them 13° counterclockwise"}, {-2, 1, "slew them 13° counterclockwise"}, {0, 1, "slew them 45° clockwise"}} {
		s, err := adjust.Lesson{Coefficients: deviation.Coefficients{D: devtest.Degrees(test.d), E: devtest.Degrees(test.e)}}.Working()
		if step, _ := s.Steps.Find("spheres"); err != nil || !strings.Contains(step.How, test.says) {
			t.Errorf("D %v, E %v: %q, %v", test.d, test.e, step.How, err)
		}
	}
}
