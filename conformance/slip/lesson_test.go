package slip_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// lessons draw the tasks of the class, a lesson for each sort of problem.
var lessons = []func(*rand.Rand) task{
	roseLesson, steerLesson, trueLesson, lineLesson, streamLesson, runLesson, latitudeLesson, longitudeLesson,
}

// toTenth rounds to a tenth.
func toTenth(x float64) float64 { return math.Round(x*10) / 10 }

// pickOf draws one of some figures.
func pickOf(r *rand.Rand, from ...float64) float64 { return from[r.IntN(len(from))] }

// swapped returns a number of three figures with its last two exchanged.
func swapped(x float64) float64 {
	n := math.Round(x)
	h, d, u := math.Floor(n/100), math.Mod(math.Floor(n/10), 10), math.Mod(n, 10)
	return 100*h + 10*u + d + (x - n)
}

// three prints a direction.
func three(x []float64, fine bool) string {
	d := math.Mod(math.Mod(x[0], 360)+360, 360)
	if fine {
		return fmt.Sprintf("%05.1f", math.Mod(toTenth(d), 360))
	}
	return fmt.Sprintf("%03.0f", math.Mod(math.Round(d), 360))
}

// eastWest prints degrees and minutes with the name E or W.
func eastWest(x []float64, fine bool) string { return withMinutes(x[0], fine, "E", "W", 0) }

// withMinutes prints degrees and minutes with a name.
func withMinutes(x float64, fine bool, plus, minus string, decimals int) string {
	name := plus
	if x < 0 {
		name = minus
	}
	if fine {
		decimals++
	}
	scale := math.Pow10(decimals)
	m := math.Round(math.Abs(x)*60*scale) / scale
	return fmt.Sprintf("%.0f°%0*.*f′%s", math.Floor(m/60), 2, decimals, math.Mod(m, 60), name)
}

// miles prints a distance.
func milesOfClass(x []float64, fine bool) string {
	if fine {
		return fmt.Sprintf("%.2f", x[0])
	}
	return fmt.Sprintf("%.1f", x[0])
}

// A printedRose is a rose as the class reads it from the chart, in degrees and minutes a year.
type printedRose struct {
	v, change float64
	year      int
}

// drawRose draws a rose.
func drawRose(r *rand.Rand) printedRose {
	v := float64(1+r.IntN(18)) + float64(5*r.IntN(12))/60
	return printedRose{v * pickOf(r, 1, -1), float64(3+r.IntN(11)) * pickOf(r, 1, -1), 2012 + r.IntN(12)}
}

// rose returns it as the library takes it.
func (g printedRose) rose() variation.Rose {
	return variation.Rose{
		Variation: variation.East(angle.Angle(math.Round(g.v*60)) * angle.Minute), Year: g.year,
		Change: variation.Eastward(angle.Angle(g.change) * angle.Minute), Step: angle.Minute, ChangeStep: angle.Minute,
	}
}

// now is the variation in 2026 by a learner.
func (g printedRose) now(do doer) float64 {
	years := float64(2026 - g.year)
	if do["year more"] {
		years++
	}
	if do["year less"] {
		years--
	}
	if do["ten years off"] {
		years = math.Abs(years - 10)
	}
	if do["half a year"] {
		years += 0.5
	}
	minutes := years * g.change
	if do["change of one year"] {
		minutes = g.change
	}
	if do["change as hundredths"] { // 77′ are keyed in as 0.77
		minutes = minutes / 100 * 60
	}
	if do["change at a hundred"] { // 132′ are 1°32′
		h := math.Trunc(minutes / 100)
		minutes = 60*h + minutes - 100*h
	}
	if do["change wrong way"] {
		minutes = -minutes
	}
	v := g.v
	if do["printed ten more"] {
		v += 10 * math.Copysign(1, v)
	}
	if do["printed ten minutes more"] {
		v += math.Copysign(1, v) / 6
	}
	if do["not brought up to date"] {
		return v
	}
	if do["change only"] {
		return minutes / 60
	}
	out := v + minutes/60
	if do["name of the rose kept"] && out*v < 0 {
		out = -out
	}
	return out
}

// roseErrors are the errors in bringing a rose up to date.
func roseErrors() []oops {
	return []oops{
		many("not brought up to date", slip.ChangeLeftOut), many("change wrong way", slip.ChangeWrongWay), few("change only", slip.ChangeForVariation),
		many("year more", slip.YearsMiscounted), many("year less", slip.YearsMiscounted), few("ten years off", slip.YearsMiscounted),
		few("change of one year", slip.YearsMiscounted), few("change as hundredths", slip.MinutesAsDecimals), few("change at a hundred", slip.MinutesAtHundred),
	}
}

// roseLesson is a rose brought up to date.
func roseLesson(r *rand.Rand) task {
	g := drawRose(r)
	work := func(do doer) []float64 {
		v := g.now(do)
		if do["E for W"] {
			v = -v
		}
		if do["minutes as hundredths"] {
			d, m := math.Modf(v)
			v = d + m*0.6
		}
		if do["degrees as minutes"] {
			d, m := math.Modf(v)
			if v = d + math.Round(m*100)/60; math.Abs(math.Round(m*100)) >= 60 {
				v = math.NaN()
			}
		}
		if do["borrowed at a hundred"] {
			minutes := math.Mod(math.Abs(math.Round(g.v*60)), 60) - math.Abs(float64(2026-g.year)*g.change)
			if g.v*g.change > 0 || minutes >= 0 || math.Abs(g.v)*60 < math.Abs(float64(2026-g.year)*g.change) {
				return []float64{math.NaN()}
			}
			v += math.Copysign(40.0/60*math.Ceil(-minutes/100), v)
		}
		if do["ten minutes more"] {
			v += math.Copysign(1.0/6, v)
		}
		if do["a degree more"] {
			v += math.Copysign(1, v)
		}
		if do["minutes swapped"] {
			n := math.Round(math.Abs(v) * 60)
			d, m := math.Floor(n/60), math.Mod(n, 60)
			if m = 10*math.Mod(m, 10) + math.Floor(m/10); m >= 60 {
				m = math.NaN()
			}
			v = math.Copysign(d+m/60, v)
		}
		return []float64{v}
	}
	return task{
		sort: "variation", p: angle.Must(slip.NewRose(g.rose(), 2026)), work: work,
		errors: append(roseErrors(), many("E for W", slip.EastForWest, slip.NameKept), many("minutes as hundredths", slip.MinutesAsDecimals), few("degrees as minutes", slip.MinutesAsDecimals),
			few("borrowed at a hundred", slip.MinutesAtHundred), few("ten minutes more", slip.TensMisread, slip.SumOff), few("a degree more", slip.SumOff, slip.TensMisread),
			few("minutes swapped", slip.FiguresTransposed), few("printed ten minutes more", slip.TensMisread), few("printed ten more", slip.TensMisread, slip.SumOff)),
		customs: []string{"half a year"},
		steps:   []float64{1.0 / 60}, coarse: [][]float64{{5.0 / 60, 10.0 / 60, 0.25, 0.5, 1, 0.1}}, top: []float64{20}, print: eastWest,
	}
}

// A classCard is a card with a row for every 30°, read by the class between its rows.
type classCard [12]float64

// drawCard12 draws a smooth card.
func drawCard12(r *rand.Rand) (k classCard) {
	b, c, d := 5*r.Float64()-2.5, 5*r.Float64()-2.5, 2*r.Float64()-1
	for i := range k {
		h := float64(i) * math.Pi / 6
		k[i] = math.Round(2*(b*math.Sin(h)+c*math.Cos(h)+d*math.Sin(2*h))) / 2
	}
	return k
}

// table returns it as the library takes it.
func (k classCard) table() *deviation.Table {
	var rows []deviation.Row[angle.Compass]
	for i, d := range k {
		rows = append(rows, deviation.Row[angle.Compass]{Heading: angle.CompassFrom(angle.Angle(30*i) * deg), Deviation: deviation.East(angle.Angle(2*d) * deg / 2)})
	}
	return angle.Must(deviation.NewTable(rows))
}

// of returns the deviation on a compass heading, as a learner reads it.
func (k classCard) of(head float64, do doer) float64 {
	head = math.Mod(math.Mod(head, 360)+360, 360)
	i := int(head / 30)
	part := head/30 - float64(i)
	near := i
	if part > 0.5 {
		near++
	}
	switch {
	case do["nearest row"]:
		return k[near%12]
	case do["row below"]:
		return k[(near+11)%12]
	case do["row above"]:
		return k[(near+1)%12]
	}
	return k[i%12]*(1-part) + k[(i+1)%12]*part
}

// onMagnetic returns the deviation on a magnetic heading: three rounds of trial.
func (k classCard) onMagnetic(m float64, do doer) float64 {
	compass := m
	for range 40 {
		compass = m - k.of(compass, doer{})
	}
	return k.of(compass, do)
}

// variationApplied is the variation as a learner applies it.
func variationApplied(v float64, do doer) float64 {
	switch {
	case do["variation to half a degree"]:
		v = math.Round(2*v) / 2
	case do["variation to a degree"]:
		v = math.Round(v)
	}
	switch {
	case do["variation wrong way"]:
		return -v
	case do["variation left out"]:
		return 0
	case do["variation twice"]:
		return 2 * v
	}
	return v
}

// deviationApplied is the deviation as a learner applies it.
func deviationApplied(d float64, do doer) float64 {
	if do["deviation to half a degree"] {
		d = math.Round(2*d) / 2
	}
	switch {
	case do["deviation wrong way"]:
		return -d
	case do["deviation left out"]:
		return 0
	case do["deviation twice"]:
		return 2 * d
	}
	return d
}

// givenAs is a given direction as a learner reads it.
func givenAs(x float64, do doer) float64 {
	switch {
	case do["given ten more"]:
		return x + 10
	case do["given ten less"]:
		return x - 10
	case do["given swapped"]:
		return swapped(x)
	}
	return x
}

// finished is a direction as a learner writes it.
func finished(x float64, do doer) []float64 {
	if do["reciprocal"] {
		x += 180
	}
	if do["ten more"] {
		x += 10
	}
	if do["one more"] {
		x++
	}
	if do["hundred less"] {
		x -= 100
	}
	x = math.Mod(math.Mod(x, 360)+360, 360)
	if do["answer swapped"] {
		if x = swapped(x); x >= 360 {
			x = math.NaN()
		}
	}
	return []float64{x}
}

// conversionErrors are the errors in a conversion.
func conversionErrors() []oops {
	return append(roseErrors(),
		oops{"variation wrong way", 12, []slip.Kind{slip.VariationWrongWay}}, oops{"deviation wrong way", 12, []slip.Kind{slip.DeviationWrongWay}},
		many("variation left out", slip.VariationLeftOut), many("deviation left out", slip.DeviationLeftOut), few("variation twice", slip.VariationTwice), few("deviation twice", slip.DeviationTwice),
		few("row below", slip.AdjacentRow), few("row above", slip.AdjacentRow), few("given ten more", slip.TensMisread), few("given ten less", slip.TensMisread), few("given swapped", slip.FiguresTransposed),
		few("ten more", slip.TensMisread), few("one more", slip.RoundedOnTheWay, slip.SumOff), few("hundred less", slip.SumOff), few("answer swapped", slip.FiguresTransposed))
}

// conversion is the task of a conversion.
func conversion(sort string, p slip.Problem, work func(doer) []float64, more ...oops) task {
	return task{
		sort: sort, p: p, work: work, errors: append(conversionErrors(), more...),
		customs: []string{"nearest row", "half a year", "variation to half a degree", "variation to a degree", "deviation to half a degree"},
		steps:   []float64{1}, coarse: [][]float64{{5, 10}}, top: []float64{360}, print: three,
	}
}

// drawCompass draws a rose and a card, with the sources of the library.
func drawCompass(r *rand.Rand) (printedRose, classCard, course.With) {
	g, k := drawRose(r), drawCard12(r)
	return g, k, course.With{Variation: g.rose(), Deviation: k.table(), On: time.Date(2026, time.May, 20, 0, 0, 0, 0, time.UTC)}
}

// whole draws a direction, in tenths in a third of the tasks.
func whole(r *rand.Rand) float64 {
	x := float64(r.IntN(360))
	if r.IntN(3) == 0 {
		x += float64(r.IntN(10)) / 10
	}
	return x
}

// tenthsOf returns degrees as the library takes them.
func tenthsOf(x float64) angle.Angle { return angle.Angle(math.Round(x*10)) * 6 * angle.Minute }

// steerLesson is a true course turned into a course to steer.
func steerLesson(r *rand.Rand) task {
	g, k, with := drawCompass(r)
	track := whole(r)
	return conversion("steer", angle.Must(slip.NewToSteer(angle.TrueFrom(tenthsOf(track)), with)), func(do doer) []float64 {
		given := givenAs(track, do)
		m := given - variationApplied(g.now(do), do)
		d := k.onMagnetic(m, do)
		switch {
		case do["deviation of the true course"]:
			d = k.of(given, do)
		case do["deviation of the magnetic course"]:
			d = k.of(m, do)
		}
		return finished(m-deviationApplied(d, do), do)
	}, many("deviation of the true course", slip.DeviationOnTrue), many("deviation of the magnetic course", slip.DeviationOnMagnetic), few("reciprocal", slip.ReciprocalTaken))
}

// trueLesson is a compass course turned into a true one.
func trueLesson(r *rand.Rand) task {
	g, k, with := drawCompass(r)
	steered := whole(r)
	return conversion("true", angle.Must(slip.NewTrueCourse(angle.CompassFrom(tenthsOf(steered)), with)), func(do doer) []float64 {
		given := givenAs(steered, do)
		return finished(given+deviationApplied(k.of(given, do), do)+variationApplied(g.now(do), do), do)
	}, few("reciprocal", slip.ReciprocalTaken))
}

// lineLesson is a bearing turned into a position line.
func lineLesson(r *rand.Rand) task {
	g, k, with := drawCompass(r)
	bearing, head := whole(r), float64(r.IntN(360))
	p := angle.Must(slip.NewPositionLine("the tower", angle.CompassFrom(tenthsOf(bearing)), angle.CompassFrom(tenthsOf(head)), with))
	return conversion("line", p, func(do doer) []float64 {
		b, h := givenAs(bearing, do), head
		if do["head ten more"] {
			h += 10
		}
		if do["deviation of the bearing"] {
			h = b
		}
		x := b + deviationApplied(k.of(h, do), do) + variationApplied(g.now(do), do)
		if !do["reciprocal forgotten"] {
			x += 180
		}
		return finished(x, do)
	}, oops{"deviation of the bearing", 12, []slip.Kind{slip.DeviationOfBearing}}, many("reciprocal forgotten", slip.ReciprocalForgotten), few("head ten more", slip.TensMisread))
}
