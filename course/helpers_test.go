package course_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

const (
	deg    = angle.Degree
	minute = angle.Minute
	turn   = angle.Turn
)

// Everything named here is invented: the vessel Quillon, the Orlesk coast, its
// chart and its marks.

// quillonCard is the deviation card of the Quillon's steering compass.
const quillonCard = `compass,deviation,uncertainty
000,2°00′W,0.5°
015,0°30′W,0.5°
030,1°00′E,0.5°
045,2°30′E,0.5°
060,3°30′E,0.5°
075,3°30′E,0.5°
090,4°00′E,0.5°
105,3°30′E,0.5°
120,3°00′E,0.5°
135,3°00′E,0.5°
150,2°30′E,0.5°
165,2°30′E,0.5°
180,2°00′E,0.5°
195,2°00′E,0.5°
210,1°30′E,0.5°
225,1°00′E,0.5°
240,0°,0.5°
255,1°00′W,0.5°
270,2°00′W,0.5°
285,3°30′W,0.5°
300,4°00′W,0.5°
315,4°00′W,0.5°
330,4°00′W,0.5°
345,3°00′W,0.5°
`

var (
	offOrlesk = angle.MustParsePosition("46°58′N 019°08′W")
	day       = time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC)
)

// quillon returns its card.
func quillon() *deviation.Table {
	return angle.Must(deviation.ReadTable(strings.NewReader(quillonCard)))
}

// unsure returns its card with no uncertainty stated.
func unsure() *deviation.Table { return quillon().WithUncertainty(angle.Uncertainty{}) }

func orleskRose() variation.Rose { return variation.MustParseLegend("3°50′W 2014 (9′E)") }

// orleskChart is a chart with three roses.
func orleskChart(t testing.TB) *variation.Chart {
	t.Helper()
	rose := func(name, position, legend string) variation.ChartRose {
		return variation.ChartRose{Name: name, Position: angle.MustParsePosition(position), Rose: variation.MustParseLegend(legend)}
	}
	c, err := variation.NewChart("the Orlesk chart",
		rose("Orlesk Bay rose", "47°06′N 019°02′W", "3°50′W 2014 (9′E)"),
		rose("Offing rose", "46°52′N 019°31′W", "4°35′W 2014 (8′E)"),
		rose("Braddle rose", "46°45′N 018°50′W", "3°20′W 2014 (9′E)"))
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// sigma is a stated standard uncertainty.
func sigma(a angle.Angle) angle.Uncertainty { return angle.Must(angle.StandardUncertainty(a)) }

// wild returns a table by compass heading whose deviations change faster than the
// heading does, so that several compass headings have one magnetic heading. If the
// table is by magnetic heading, the reverse holds.
func wild[H deviation.TableHeading](from func(angle.Angle) H) *deviation.Table {
	var rows []deviation.Row[H]
	for i, d := range []angle.Angle{40, -40, 30, -30, 40, -40, 40, -40} {
		rows = append(rows, deviation.Row[H]{Heading: from(angle.Angle(i) * 45 * deg), Deviation: deviation.East(d * deg)})
	}
	return angle.Must(deviation.NewTable(rows))
}

// between draws an angle in a range: any, or half of the time one in whole
// tenths of a degree.
func between(low, high angle.Angle) *rapid.Generator[angle.Angle] {
	return rapid.OneOf(
		rapid.Map(rapid.Int64Range(int64(low), int64(high)), func(n int64) angle.Angle { return angle.Angle(n) }),
		rapid.Map(rapid.Int64Range(int64(low/(deg/10)), int64(high/(deg/10))), func(n int64) angle.Angle { return angle.Angle(n) * (deg / 10) }),
	)
}

func anyVariation() *rapid.Generator[variation.Variation] {
	return rapid.Map(between(-turn/2, turn/2), variation.East)
}

func anyTrue() *rapid.Generator[angle.True] {
	return rapid.Map(between(0, turn-1), angle.TrueFrom)
}

func anyMagnetic() *rapid.Generator[angle.Magnetic] {
	return rapid.Map(between(0, turn-1), angle.MagneticFrom)
}

func anyCompass() *rapid.Generator[angle.Compass] {
	return rapid.Map(between(0, turn-1), angle.CompassFrom)
}

func anyRelative() *rapid.Generator[angle.Relative] {
	return rapid.Map(between(0, turn-1), angle.RelativeFrom)
}

// A card is what a random table is made from, so that it can be made anew,
// mirrored or turned.
type card struct {
	by         deviation.HeadingKind
	smooth     bool
	headings   []angle.Angle
	deviations []angle.Angle
}

// String says what rapid prints of a card that breaks a law.
func (c card) String() string {
	return fmt.Sprintf("card by %s, smooth %t, headings %v, deviations %v", c.by, c.smooth, c.headings, c.deviations)
}

// table makes the table.
func (c card) table() *deviation.Table {
	if c.by == deviation.ByMagnetic {
		return tableOf(c, angle.MagneticFrom)
	}
	return tableOf(c, angle.CompassFrom)
}

func tableOf[H deviation.TableHeading](c card, from func(angle.Angle) H) *deviation.Table {
	rows := make([]deviation.Row[H], len(c.headings))
	for i, h := range c.headings {
		rows[i] = deviation.Row[H]{Heading: from(h), Deviation: deviation.East(c.deviations[i])}
	}
	t := angle.Must(deviation.NewTable(rows))
	if c.smooth {
		return t.Smooth()
	}
	return t
}

// mirrored is the card of a compass seen in a mirror that swaps east and west.
func (c card) mirrored() card {
	m := card{by: c.by, smooth: c.smooth}
	for i := range c.headings {
		m.headings = append(m.headings, -c.headings[i])
		m.deviations = append(m.deviations, -c.deviations[i])
	}
	return m
}

// turned is the card with every deviation found on another heading.
func (c card) turned(by angle.Angle) card {
	m := card{by: c.by, smooth: c.smooth, deviations: c.deviations}
	for _, h := range c.headings {
		m.headings = append(m.headings, h+by)
	}
	return m
}

// steepest is how much the deviation changes with the heading at most, in
// degrees for a degree.
func (c card) steepest() float64 {
	const step = deg / 4
	t := c.table()
	at := func(h angle.Angle) angle.Angle {
		if c.by == deviation.ByMagnetic {
			return angle.Must(t.OnMagnetic(angle.MagneticFrom(h))).Angle()
		}
		return angle.Must(t.OnCompass(angle.CompassFrom(h))).Angle()
	}
	most := 0.0
	last := at(0)
	for h := angle.Angle(step); h <= turn; h += step {
		next := at(h)
		most = max(most, float64((next-last).Abs())/float64(step))
		last = next
	}
	return most
}

// cardWithin draws a card of deviations within ±40° that change by at most a
// given amount in a degree of heading. Below 1 headings stay in order.
func cardWithin(steepness float64) *rapid.Generator[card] {
	return rapid.Custom(func(t *rapid.T) card {
		c := card{
			by:     rapid.SampledFrom([]deviation.HeadingKind{deviation.ByCompass, deviation.ByMagnetic}).Draw(t, "by"),
			smooth: rapid.Bool().Draw(t, "smooth"),
		}
		n := rapid.IntRange(8, 36).Draw(t, "rows")
		gap := turn / angle.Angle(n)
		start := between(0, gap).Draw(t, "first heading")
		jitter := max(0, min(gap/4, (45*deg-gap)/2-1))
		for i := range n {
			c.headings = append(c.headings, start+turn*angle.Angle(i)/angle.Angle(n)+between(-jitter, jitter).Draw(t, "jitter"))
			c.deviations = append(c.deviations, between(-40*deg, 40*deg).Draw(t, "deviation"))
		}
		if s := c.steepest(); s > steepness {
			for i := range c.deviations {
				c.deviations[i] = angle.Must(c.deviations[i].Scale(steepness / s))
			}
		}
		return c
	})
}
