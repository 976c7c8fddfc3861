// Package devtest holds what the tests of deviations share.
package devtest

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/swing"
	"lubberline.example/variation"
)

// Deg and Minute are short names for units.
const (
	Deg    = angle.Degree
	Minute = angle.Minute
)

// Kinds are both kinds of heading.
var Kinds = [2]deviation.HeadingKind{deviation.ByCompass, deviation.ByMagnetic}

// Fails is what a test and a law have in common.
type Fails interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

// RowOf is a row of a table by compass, heading and deviation in degrees.
func RowOf(heading, east float64) deviation.Row[angle.Compass] {
	return deviation.Row[angle.Compass]{Heading: angle.CompassFrom(Degrees(heading)), Deviation: deviation.East(Degrees(east))}
}

// Degrees is the angle of a number of degrees known to fit.
func Degrees(d float64) angle.Angle { return angle.Must(angle.Degrees(d)) }

// Sigma is a stated standard uncertainty.
func Sigma(a angle.Angle) angle.Uncertainty { return angle.Must(angle.StandardUncertainty(a)) }

// Warned reports whether there is a warning of a kind, with something to say.
func Warned(warnings []working.Warning, kind working.WarningKind) bool {
	return slices.ContainsFunc(warnings, func(w working.Warning) bool { return w.Kind == kind && w.Message != "" })
}

// MustTable makes a table of rows known to be fit for one.
func MustTable[H deviation.TableHeading](t Fails, rows []deviation.Row[H]) *deviation.Table {
	t.Helper()
	table, err := deviation.NewTable(rows)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// AsMagnetic is the same rows by magnetic heading.
func AsMagnetic(rows []deviation.Row[angle.Compass]) []deviation.Row[angle.Magnetic] {
	var m []deviation.Row[angle.Magnetic]
	for _, r := range rows {
		m = append(m, deviation.Row[angle.Magnetic]{Heading: angle.MagneticFrom(r.Heading.FromNorth()), Deviation: r.Deviation})
	}
	return m
}

// Every15 is rows on every 15° of compass heading.
func Every15(east func(heading angle.Angle) float64) []deviation.Row[angle.Compass] {
	var rows []deviation.Row[angle.Compass]
	for h := range angle.Angle(24) {
		rows = append(rows, deviation.Row[angle.Compass]{Heading: angle.CompassFrom(h * 15 * Deg), Deviation: deviation.East(Degrees(east(h * 15 * Deg)))})
	}
	return rows
}

// Usual is the deviation of a usual compass, invented: of the coefficients
// A 1°, B −4°, C 3°, D 2°, E ½°.
func Usual(heading angle.Angle) float64 {
	return 1 - 4*heading.Sin() + 3*heading.Cos() + 2*(2*heading).Sin() + 0.5*(2*heading).Cos()
}

// DrawRows draws rows at least some degrees apart, of deviations up to a limit.
// A table goes round north, so that the first need not be there.
func DrawRows(t *rapid.T, least, limit angle.Angle) []deviation.Row[angle.Compass] {
	var rows []deviation.Row[angle.Compass]
	first := DrawHeading(t, "first heading")
	for at := angle.Angle(0); ; {
		rows = append(rows, deviation.Row[angle.Compass]{
			Heading:   angle.CompassFrom(first + at),
			Deviation: deviation.East(DrawBetween(t, -limit, limit, "deviation")),
		})
		left := angle.Turn - at
		if left <= deviation.MaxGap && (left < 2*least || rapid.Bool().Draw(t, "enough")) {
			return rows
		}
		at += DrawBetween(t, least, min(deviation.MaxGap, left-least), "gap")
	}
}

// DrawOrdered draws rows whose deviations fall by less than the heading rises:
// each compass heading has a magnetic heading of its own, and the other way
// about for both kinds of table.
func DrawOrdered(t *rapid.T, least, limit angle.Angle) []deviation.Row[angle.Compass] {
	rows := DrawRows(t, least, limit)
	steepest := 0.0
	for i, r := range rows {
		next := rows[(i+1)%len(rows)]
		gap := (next.Heading.FromNorth() - r.Heading.FromNorth()).Normalized()
		steepest = max(steepest, math.Abs((next.Deviation.Angle()-r.Deviation.Angle()).Degrees()/gap.Degrees()))
	}
	if flatter := 0.95 / steepest; flatter < 1 {
		for i := range rows {
			rows[i].Deviation = deviation.East(angle.Must(rows[i].Deviation.Angle().Scale(flatter)))
		}
	}
	return rows
}

// DrawHeading draws any angle from north.
func DrawHeading(t *rapid.T, label string) angle.Angle {
	return DrawBetween(t, 0, angle.Turn-1, label)
}

// DrawBetween draws an angle, both ends included.
func DrawBetween(t *rapid.T, least, most angle.Angle, label string) angle.Angle {
	return angle.Angle(rapid.Int64Range(int64(least), int64(most)).Draw(t, label))
}

// Near reports whether two figures differ by at most within.
func Near(a, b, within float64) bool { return math.Abs(a-b) <= within }

// Series is an invented deviation in degrees, by its constant and then the
// sine and cosine of each multiple of the heading.
type Series []float64

// At is the series on a heading, summed term by term.
func (b Series) At(z angle.Angle) float64 {
	sum := 0.0
	for i, x := range Basis(len(b), z) {
		sum += b[i] * x
	}
	return sum
}

// Basis is 1, sin z, cos z, sin 2z, cos 2z and so on, p of them.
func Basis(p int, z angle.Angle) []float64 {
	x := []float64{1}
	for k := 1; len(x) < p; k++ {
		kz := float64(k) * z.Radians()
		x = append(x, math.Sin(kz), math.Cos(kz))
	}
	return x
}

// Even is n headings at equal steps.
func Even(n int, first angle.Angle) []angle.Angle {
	var headings []angle.Angle
	for i := range n {
		headings = append(headings, (first + angle.Turn*angle.Angle(i)/angle.Angle(n)).Normalized())
	}
	return headings
}

// Swing is a swing of a deviation in degrees, without noise.
func Swing(headings []angle.Angle, east func(angle.Angle) float64) []swing.Observation {
	var swung []swing.Observation
	for _, z := range headings {
		swung = append(swung, swing.Observation{Heading: angle.CompassFrom(z), Deviation: deviation.East(Degrees(east(z)))})
	}
	return swung
}

// AddNoise adds noise of some standard deviation in degrees.
func AddNoise(random *rand.Rand, swung []swing.Observation, sd float64) {
	for i, o := range swung {
		swung[i].Deviation = deviation.East(o.Deviation.Angle() + Degrees(sd*random.NormFloat64())).WithUncertainty(o.Deviation.Uncertainty())
	}
}

// State states an uncertainty of each observation.
func State(swung []swing.Observation, u func(i int) angle.Angle) {
	for i := range swung {
		swung[i].Deviation = swung[i].Deviation.WithUncertainty(Sigma(u(i)))
	}
}

// Fit fits a curve to a swing; the test fails if there is none.
func Fit(t Fails, swung []swing.Observation, options swing.FitOptions) *swing.Fit {
	t.Helper()
	fit, err := swing.NewFit(swung, options)
	if err != nil {
		t.Fatal(err)
	}
	return fit
}

// DrawSpread draws at least n headings, no two of them near and none far: one in
// the middle half of each of n equal sectors.
func DrawSpread(t *rapid.T, n int) []angle.Angle {
	first := DrawHeading(t, "first sector")
	sector := angle.Turn / angle.Angle(n)
	var headings []angle.Angle
	for i := range n {
		headings = append(headings, (first + angle.Angle(i)*sector + DrawBetween(t, sector/4, 3*sector/4, "in its sector")).Normalized())
	}
	return headings
}

// DrawSeries draws a series of an order, with coefficients up to most degrees.
func DrawSeries(t *rapid.T, order int, most float64) Series {
	b := make(Series, 2*order+1)
	for i := range b {
		b[i] = rapid.Float64Range(-most, most).Draw(t, "coefficient")
	}
	return b
}

// AllCoefficients are all coefficients of a curve in degrees.
func AllCoefficients(c *deviation.Curve) []float64 {
	_, constant := c.Harmonic(0)
	b := []float64{constant.Degrees()}
	for k := 1; k <= c.Order(); k++ {
		s, c := c.Harmonic(k)
		b = append(b, s.Degrees(), c.Degrees())
	}
	return b
}

// UsualOn is the deviation of the usual compass on a heading.
func UsualOn(c angle.Compass) deviation.Deviation {
	return deviation.East(Degrees(Usual(c.FromNorth())))
}

// TransitSwing is a swing of the usual compass on headings at equal steps past a
// transit, with the readings' and the transit's uncertainty.
func TransitSwing(n int, own, direction angle.Uncertainty, v variation.Variation) ([]swing.Reading, swing.Transit) {
	transit := swing.Transit{Direction: angle.MustParseTrue("062°T"), Uncertainty: direction, Variation: v}
	var readings []swing.Reading
	for i := range n {
		c := angle.CompassFrom(angle.Turn / angle.Angle(n) * angle.Angle(i))
		readings = append(readings, swing.Reading{Heading: new(c), Bearing: new(UsualOn(c).Compass(v.Magnetic(transit.Direction))), BearingBy: swing.SwungCompass, Uncertainty: own})
	}
	return readings, transit
}

// Number is the figure of a step, which must be there.
func Number(t Fails, steps working.Steps, key string) float64 {
	t.Helper()
	s, ok := steps.Find(key)
	if !ok {
		t.Fatalf("no step %q in\n%v", key, steps)
	}
	return s.Number
}

// SameDegrees reports whether two figures in degrees are the same round the circle,
// but for the last places of floating point.
func SameDegrees(a, b float64) bool { return math.Abs(math.Remainder(a-b, 360)) < 1e-9 }

// Place is a place off the invented Orlesk Head.
var Place = angle.MustParsePosition("47°08.4′N 019°00.0′W")

// Torn is a source that has no answer on one heading.
type Torn struct{ On angle.Compass }

// ErrTorn is the error of a Torn source.
var ErrTorn = errors.New("the card is torn there")

// OnCompass returns 1° E, or ErrTorn on the torn heading.
func (s Torn) OnCompass(c angle.Compass) (deviation.Deviation, error) {
	if c == s.On {
		return deviation.Deviation{}, ErrTorn
	}
	return deviation.East(Deg).WithUncertainty(Sigma(Deg)), nil
}

// OnMagnetic returns 1° E, or ErrTorn on the torn heading.
func (s Torn) OnMagnetic(m angle.Magnetic) (deviation.Deviation, error) {
	if m.FromNorth() == s.On.FromNorth() {
		return deviation.Deviation{}, ErrTorn
	}
	return deviation.East(Deg).WithUncertainty(Sigma(Deg)), nil
}

// Noon is a time at which the Sun stood over the horizon of smtPlace.
var Noon = time.Date(2026, 5, 3, 18, 0, 0, 0, time.UTC)

// RoundTrips checks that a value reads back from its JSON as it was, and returns the
// text.
func RoundTrips[T any](t Fails, v T) string {
	t.Helper()
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatalf("%+v: %v", v, err)
	}
	var back T
	if err := json.Unmarshal(data, &back); err != nil {
		t.Fatalf("%s: %v", data, err)
	}
	if !reflect.DeepEqual(v, back) {
		t.Fatalf("%s reads back as\n%+v\nwas\n%+v", data, back, v)
	}
	return string(data)
}

// DrawUncertainty draws an uncertainty, which may be zero or not stated.
func DrawUncertainty(t *rapid.T, label string) angle.Uncertainty {
	if !rapid.Bool().Draw(t, label+" stated") {
		return angle.Uncertainty{}
	}
	return Sigma(DrawBetween(t, 0, 5*Deg, label))
}

// DrawFit is a curve of a fit, of any order, by either heading, stated or not.
func DrawFit(t *rapid.T) *swing.Fit {
	swung := Swing(Even(rapid.IntRange(14, 24).Draw(t, "headings"), DrawBetween(t, 0, 10*Deg, "first")), Usual)
	for i := range swung {
		off := DrawBetween(t, -2*Deg, 2*Deg, "error")
		swung[i].Deviation = deviation.East(swung[i].Deviation.Angle() + off)
	}
	fit, err := swing.NewFit(swung, swing.FitOptions{
		By: Kinds[rapid.IntRange(0, 1).Draw(t, "by")], Order: rapid.IntRange(1, swing.MaxOrder).Draw(t, "order"), Common: DrawUncertainty(t, "common"),
	})
	if err != nil {
		t.Fatal(err)
	}
	return fit
}

// AddEast adds an error, east positive, to one observation.
func AddEast(swung []swing.Observation, i int, east angle.Angle) {
	swung[i].Deviation = deviation.East(swung[i].Deviation.Angle() + east)
}

// Earth is the earth's field at a place.
type Earth struct {
	Horizontal float64 // nanotesla
	Dip        angle.Angle
}

// H returns the horizontal intensity.
func (f Earth) H() float64 { return f.Horizontal }

// I returns the dip.
func (f Earth) I() (angle.Angle, error) { return f.Dip, nil }

// orleskVariation is that off Orlesk Head in 2026, known to a quarter of a degree.
var orleskVariation = variation.MustParse("5°00′W").WithUncertainty(angle.Must(angle.StandardUncertainty(15 * angle.Minute)))

// Orlesk is the line of Orlesk Head light and the beacon behind it.
var Orlesk = swing.Transit{
	Direction:   angle.MustParseTrue("062°T"),
	Uncertainty: angle.Must(angle.StandardUncertainty(0)),
	Variation:   orleskVariation,
}

// SwingRecord is what was read as the light and the beacon came in line.
const SwingRecord = `# Quillon, steering compass, 3 May 2026
heading,bearing,bearing_by,uncertainty
000,062.5,swung,0.5
045,064.5,swung,0.5
090,070.5,swung,0.5
135,073,swung,0.5
180,068.5,swung,0.5
225,063.5,swung,0.5
270,062.5,swung,0.5
315,063,swung,0.5
`

// ExactApart is how far apart two compasses' coefficients are, the worst of them.
func ExactApart(a, b deviation.ExactCoefficients) float64 {
	return max(math.Abs(a.A-b.A), math.Abs(a.B-b.B), math.Abs(a.C-b.C), math.Abs(a.D-b.D), math.Abs(a.E-b.E))
}

// Swing36 is a swing on 36 headings of the usual compass, read to half a degree.
func Swing36() []swing.Observation {
	var swung []swing.Observation
	for h := angle.Angle(0); h < angle.Turn; h += 10 * Deg {
		d := Degrees(Usual(h)).Round(Deg / 2)
		swung = append(swung, swing.Observation{Heading: angle.CompassFrom(h), Deviation: deviation.East(d)})
	}
	return swung
}

// HeadingOf returns the heading of a table's row, of the kind by which the table is kept.
func HeadingOf(t *deviation.Table, e deviation.Entry) angle.Angle {
	if t.By() == deviation.ByMagnetic {
		return e.Magnetic.FromNorth()
	}
	return e.Compass.FromNorth()
}

// Texts returns the messages of warnings, one a line.
func Texts(warnings []working.Warning) string {
	var lines []string
	for _, w := range warnings {
		lines = append(lines, w.Message)
	}
	return strings.Join(lines, "\n")
}
