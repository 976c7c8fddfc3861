package deviation_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/sun"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

// missNoon is a time at which the Sun stood over the horizon of smtPlace.
var missNoon = time.Date(2026, 5, 3, 18, 0, 0, 0, time.UTC)

// A forgotten variation would be 0° everywhere: it is refused.
func TestAMissingVariationIsRefused(t *testing.T) {
	r := deviation.CheckReading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.CompassFrom(0)), Time: missNoon}
	for name, check := range map[string]func() (deviation.Check, error){
		"object":    func() (deviation.Check, error) { return r.Against("a transit", angle.MustParseTrue("062"), Sigma(0)) },
		"Sun":       func() (deviation.Check, error) { return r.AgainstSun(smtPlace) },
		"amplitude": func() (deviation.Check, error) { return r.AgainstAmplitude(smtPlace, sun.Set, sun.CelestialHorizon, 0) },
	} {
		_, err := check()
		if e, ok := errors.AsType[*deviation.CheckError](err); !ok || !strings.Contains(e.Error(), "no source of variation: give ") {
			t.Errorf("%s: %v", name, err)
		}
		missing(t, name, err, "variation")
	}
	readings := []deviation.Reading{{Heading: new(angle.MustParseCompass("090")), Bearing: new(angle.Compass{}), True: new(angle.True{}), Time: missNoon}}
	for name, method := range map[string]deviation.Method{
		"transit": deviation.Transit{}, "Sun": deviation.SunAzimuths{Position: &smtPlace}, "true": deviation.TrueHeadings{},
	} {
		_, err := deviation.Reduce(readings, method)
		if e, ok := errors.AsType[*deviation.ReadingError](err); !ok || e.Index != -1 || !strings.Contains(e.Error(), "no source of variation: give ") {
			t.Errorf("%s: %v", name, err)
		}
		missing(t, name, err, "variation")
	}
}

// missing reports an error that does not say, to programs too, what was left out.
func missing(t *testing.T, name string, err error, what string) {
	t.Helper()
	if e, ok := errors.AsType[*deviation.MissingInputError](err); !ok || e.What != what {
		t.Errorf("%s: %v, want that the %s is missing", name, err, what)
	}
	_, check := errors.AsType[*deviation.CheckError](err)
	_, reading := errors.AsType[*deviation.ReadingError](err)
	if !check && !reading || strings.Contains(err.Error(), "year 1") || strings.Count(err.Error(), "deviation: ") != 1 {
		t.Errorf("%s: %v", name, err)
	}
}

// A place that was left out is no place at 0° N 0° E, nor a date the year 1: sources
// that may depend on them are not asked.
func TestAMissingPlaceOrDateIsRefused(t *testing.T) {
	somewhere := angle.MustParsePosition("47°N 019°W")
	known, rose := variation.West(5*deg), variation.MustParseLegend("7°20′W 2015 (12′E)")
	chart := angle.Must(variation.NewChart("", variation.ChartRose{Position: angle.MustParsePosition("00°10′N 000°00′E"), Rose: rose}))
	var asked missAsked
	readings := []deviation.Reading{{Heading: new(angle.MustParseCompass("090")), Bearing: new(angle.Compass{}), True: new(angle.True{}), Time: missNoon}}
	for name, ask := range map[string]func(s variation.Source, at *angle.Position, on time.Time) error{
		"check": func(s variation.Source, at *angle.Position, on time.Time) error {
			_, err := deviation.CheckReading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.CompassFrom(0)), Variation: s, At: at, Time: on}.Against("a transit", angle.MustParseTrue("062"), Sigma(0))
			return err
		},
		"transit": func(s variation.Source, at *angle.Position, on time.Time) error {
			_, err := deviation.Reduce(readings, deviation.Transit{Variation: s, At: at, On: on})
			return err
		},
		"true headings": func(s variation.Source, at *angle.Position, on time.Time) error {
			_, err := deviation.Reduce(readings, deviation.TrueHeadings{Variation: s, At: at, On: on})
			return err
		},
	} {
		for _, c := range []struct {
			source  variation.Source
			at      *angle.Position
			on      time.Time
			missing string // empty if it answers
		}{
			{known, nil, time.Time{}, ""},
			{&known, nil, time.Time{}, ""},
			{rose, nil, missNoon, ""},
			{&rose, nil, missNoon, ""},
			{rose, new(angle.Position), time.Time{}, "date"},
			{&rose, &somewhere, time.Time{}, "date"},
			{chart, nil, missNoon, "position"},
			{chart, new(angle.Position), missNoon, ""},
			{chart, new(angle.Position), time.Time{}, "date"},
			{&asked, nil, missNoon, "position"},
			{&asked, new(angle.Position), missNoon, ""},
			{&asked, &somewhere, missNoon, ""},
			{&asked, &somewhere, time.Time{}, "date"},
		} {
			switch err := ask(c.source, c.at, c.on); {
			case c.missing != "":
				missing(t, name, err, c.missing)
			case err != nil:
				t.Errorf("%s: %v", name, err)
			}
		}
	}
	_, err := deviation.Reduce(readings, deviation.SunAzimuths{Variation: known})
	missing(t, "Sun", err, "position")
	if _, err = deviation.Reduce(readings, deviation.SunAzimuths{Variation: known, Position: new(angle.Position)}); err != nil {
		t.Error(err) // the Sun is in the west there
	}
	// A check by the Sun is given its place, whichever it is.
	if _, err = (deviation.CheckReading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.CompassFrom(0)), Time: missNoon, Variation: &asked}).AgainstSun(angle.Position{}); err != nil || asked.at != (angle.Position{}) {
		t.Error(err)
	}
	_, err = deviation.Reduce([]deviation.Reading{{Heading: new(angle.Compass{}), Bearing: new(angle.Compass{})}}, deviation.SunAzimuths{Variation: known, Position: &somewhere})
	if e, ok := errors.AsType[*sun.DateError](err); !ok || !e.Time.IsZero() || !strings.Contains(err.Error(), "no time given") {
		t.Error(err)
	}
}

// A missAsked is a source that notes what it was asked.
type missAsked struct {
	times int
	at    angle.Position
	on    time.Time
	err   error
}

func (s *missAsked) VariationAt(at angle.Position, on time.Time) (variation.Variation, error) {
	s.times, s.at, s.on = s.times+1, at, on
	return variation.West(5 * deg), s.err
}

func TestTheVariationIsAskedOnceForItsPlaceAndTime(t *testing.T) {
	var source missAsked
	elsewhere := angle.MustParsePosition("47°N 019°W")
	r := deviation.CheckReading{Heading: new(angle.CompassFrom(0)), Bearing: new(angle.CompassFrom(0)), Time: missNoon, Variation: &source, At: &elsewhere}
	readings := []deviation.Reading{{Heading: new(angle.Compass{}), Bearing: new(angle.Compass{}), True: new(angle.True{}), Time: missNoon}, {Heading: new(angle.MustParseCompass("090")), Bearing: new(angle.Compass{}), True: new(angle.True{}), Time: missNoon.Add(time.Minute)}}
	reduce := func(m deviation.Method) error {
		_, err := deviation.Reduce(readings, m)
		return err
	}
	for name, c := range map[string]struct {
		ask func() error
		at  angle.Position
	}{
		"check against an object": {func() error { _, err := r.Against("a transit", angle.MustParseTrue("062"), Sigma(0)); return err }, elsewhere},
		"check by the Sun":        {func() error { _, err := r.AgainstSun(smtPlace); return err }, smtPlace},
		"check by amplitude": {func() error {
			_, err := r.AgainstAmplitude(smtPlace, sun.Set, sun.CelestialHorizon, 0)
			return err
		}, smtPlace},
		"transit":       {func() error { return reduce(deviation.Transit{Variation: &source, At: &elsewhere, On: missNoon}) }, elsewhere},
		"true headings": {func() error { return reduce(deviation.TrueHeadings{Variation: &source, At: &elsewhere, On: missNoon}) }, elsewhere},
		"swing by Sun":  {func() error { return reduce(deviation.SunAzimuths{Variation: &source, Position: &smtPlace}) }, smtPlace},
		"origin": {func() error {
			return reduce(deviation.Transit{Variation: &source, At: new(angle.Position), On: missNoon})
		}, angle.Position{}},
	} {
		source = missAsked{}
		if err := c.ask(); err != nil || source.times != 1 || source.at != c.at || !source.on.Equal(missNoon) {
			t.Errorf("%s: asked %d times, at %v on %v: %v", name, source.times, source.at, source.on, err)
		}
		source = missAsked{err: errors.New("the chart is torn")}
		err := c.ask()
		_, check := errors.AsType[*deviation.CheckError](err)
		_, reading := errors.AsType[*deviation.ReadingError](err)
		if !check && !reading || !errors.Is(err, source.err) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// An old rose shows how it was brought to the day, on a check and on a swing.
func TestARoseShowsItsWorking(t *testing.T) {
	rose := variation.MustParseLegend("7°20′W 2015 (12′E)")
	c := against(t, deviation.CheckReading{Heading: new(angle.CompassFrom(0)), Time: missNoon, Bearing: new(angle.MustParseCompass("066")), Variation: rose}, "a transit", angle.MustParseTrue("062"), Sigma(0))
	if c.Variation.Angle() != -(5*deg+8*minute) || c.Deviation.Angle() != deg+8*minute { // 11 years of 12′
		t.Errorf("variation %v, deviation %v", c.Variation, c.Deviation)
	}
	swing, err := deviation.Reduce([]deviation.Reading{{Heading: new(angle.Compass{}), Bearing: new(angle.MustParseCompass("066"))}}, deviation.Transit{Direction: angle.MustParseTrue("062"), Variation: rose, On: missNoon})
	if err != nil || swing.Observations[0].Deviation.Angle() != deg+8*minute {
		t.Errorf("%v, %v", swing, err)
	}
	for _, steps := range []string{c.Steps.String(), swing.Steps.String()} {
		if !strings.Contains(steps, "7°20′W") {
			t.Errorf("the rose is not in the working:\n%s", steps)
		}
	}
}

// What was forgotten is nil or a zero value: it answers with an error, or is empty.
func TestWhatIsNilOrZeroErrs(t *testing.T) {
	heading, magnetic := angle.MustParseCompass("090"), angle.MustParseMagnetic("090")
	var noTable *deviation.Table
	var noCurve *deviation.Curve
	var noSwing *deviation.Swing
	var noCard *deviation.Card
	on := func(s deviation.Source) []error {
		_, a := s.OnCompass(heading)
		_, b := s.OnMagnetic(magnetic)
		_, c := deviation.Explain(s, heading)
		_, d := deviation.Eight(s)
		return []error{a, b, c, d}
	}
	var curves, tables, fields, sources []error
	// Asked for themselves they say what they are; a function takes a nil pointer for no
	// source.
	curves, sources = append(curves, on(noCurve)[:2]...), append(sources, on(noCurve)[2:]...)
	curves = append(curves, on(new(deviation.Curve))...)
	_, err := deviation.Explain(nil, heading)
	sources = append(sources, err)
	_, err = deviation.Eight(nil)
	sources = append(sources, err)
	_, err = deviation.NewCard(nil, 15*deg, deviation.Details{})
	sources = append(sources, err)
	_, err = deviation.ReviewChecks(nil, nil)
	sources = append(sources, err)
	_, err = deviation.Reduce([]deviation.Reading{{Heading: new(angle.Compass{}), Other: new(angle.Compass{})}}, deviation.SecondCompass{})
	sources = append(sources, err)
	_, err = deviation.Coefficients{}.Curve("true")
	curves = append(curves, err)
	for _, s := range []*deviation.Table{noTable, new(deviation.Table), noTable.Smooth(), new(deviation.Table).Smooth(), noTable.WithUncertainty(Sigma(deg))} {
		answers := on(s)
		tables = append(tables, answers[:2]...)
		if s == nil {
			sources = append(sources, answers[2:]...)
		} else {
			tables = append(tables, answers[2:]...)
		}
		_, err := s.NearestEntry(0)
		tables = append(tables, err)
	}
	for _, s := range []*deviation.Swing{noSwing, {}} {
		_, err := s.Table()
		tables = append(tables, err)
	}
	for _, c := range []*deviation.Card{noCard, {}} {
		var b strings.Builder
		tables = append(tables, c.WriteCSV(&b))
		if b.Len() > 0 || !strings.HasPrefix(c.String(), "Deviation card\n") {
			t.Errorf("%q, %q", b.String(), c)
		}
	}
	var k deviation.ExactCoefficients
	field := swxField{20_000, 60 * deg}
	_, err = deviation.AllPermanent(k, nil)
	fields = append(fields, err)
	_, err = deviation.AllInduced(k, nil)
	fields = append(fields, err)
	_, err = deviation.Forces{}.At(nil)
	fields = append(fields, err)
	_, err = deviation.Separate(k, nil, k, field)
	fields = append(fields, err)
	_, err = deviation.Separate(k, field, k, nil)
	fields = append(fields, err)

	for i, err := range curves {
		if _, ok := errors.AsType[*deviation.CurveError](err); !ok {
			t.Errorf("curve %d: %v", i, err)
		}
	}
	for i, err := range sources {
		if e, ok := errors.AsType[*deviation.MissingInputError](err); !ok || e.What != "deviation" || !strings.Contains(err.Error(), "no source of deviation: give ") {
			t.Errorf("source %d: %v", i, err)
		}
	}
	for i, err := range tables {
		if e, ok := errors.AsType[*deviation.TableError](err); !ok || e.Kind != deviation.NoRows {
			t.Errorf("table %d: %v", i, err)
		}
	}
	for i, err := range fields {
		if _, ok := errors.AsType[*deviation.FieldError](err); !ok {
			t.Errorf("field %d: %v", i, err)
		}
	}
}

func TestWhatIsNilOrZeroIsEmpty(t *testing.T) {
	var noTable *deviation.Table
	for _, s := range []*deviation.Table{noTable, {}} {
		if len(s.Entries()) != 0 || s.By() != deviation.ByCompass || s.IsSmooth() || s.Ordered() {
			t.Errorf("table %v", s)
		}
	}
	for _, c := range []*deviation.Curve{nil, {}} {
		sine, cosine := c.Harmonic(1)
		if c.By() != deviation.ByCompass || c.Ordered() || c.Order() != 0 || c.Coefficients() != (deviation.Coefficients{}) || sine != 0 || cosine != 0 {
			t.Errorf("curve %v", c)
		}
	}
	for _, f := range []*deviation.Fit{nil, {}} {
		_, known := f.StandardErrors()
		_, covariance := f.Covariance(0, 0)
		_, within := f.Within(0, 0.95)
		if f.Coefficients() != (deviation.Coefficients{}) || known || covariance || within || f.Rejected() != nil {
			t.Errorf("fit %v", f)
		}
	}
	for _, s := range []*deviation.Swing{nil, {}} {
		_, err := s.Fit(deviation.FitOptions{})
		if e, ok := errors.AsType[*deviation.FitError](err); !ok || e.Kind != deviation.TooFewHeadings || s.Suspicions() != nil {
			t.Errorf("swing %v: %v", s, err)
		}
	}
	for _, err := range []error{
		&deviation.AmbiguousHeadingError{}, &deviation.ReadingError{}, &deviation.ReadingError{Index: -1}, &deviation.CheckError{}, &deviation.CurveError{},
		&deviation.DiagramError{}, &deviation.FieldError{}, &deviation.FitError{}, &deviation.StepError{}, &deviation.TableError{},
	} {
		if !strings.HasPrefix(err.Error(), "deviation: ") {
			t.Errorf("%T: %q", err, err)
		}
	}
}

// A nil pointer to a field is a field left out.
func TestNilPointerToAFieldIsRefused(t *testing.T) {
	var none *wmm.Field
	sound := wmm.Field{X: 20000, Z: 40000}
	_, err1 := deviation.AllPermanent(deviation.ExactCoefficients{}, none)
	_, err2 := deviation.AllInduced(deviation.ExactCoefficients{}, none)
	_, err3 := deviation.Separate(deviation.ExactCoefficients{}, sound, deviation.ExactCoefficients{}, none)
	_, err4 := deviation.Forces{}.At(none)
	for i, err := range []error{err1, err2, err3, err4} {
		if _, ok := errors.AsType[*deviation.FieldError](err); !ok {
			t.Errorf("call %d: %v", i+1, err)
		}
	}
}
