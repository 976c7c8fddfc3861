package exercise

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/course/tidal"
	"lubberline.example/deviation"
	"lubberline.example/fix/practice"
	"lubberline.example/variation"
)

// A voyage is a passage of the vessel to the anchorage in St Osk Road: what all questions of a
// paper share. The vessel is where the simulation puts it; questions give what is seen from
// there.
type voyage struct {
	*rand.Rand
	hard    int // 0 to 2
	chart   practice.Chart
	compass *deviation.Table

	depart time.Time
	from   angle.Position // of departure, on the Offing
	to     angle.Position // the landfall, off the Quern buoy
	track  angle.True     // from departure to landfall
	speed  sailing.Speed  // through the water

	highWater time.Time
	ratio     float64 // of the tide, from neaps (0) to springs (1)
	wind      angle.True
	leeway    angle.Angle

	fixTime time.Time
	fixed   angle.Position // where the vessel is at fixTime
}

// landfall is the position off the Quern buoy from which the anchorage is approached.
var landfall = angle.MustParsePosition("46°59.0′N 019°09.0′W")

// sail draws a voyage.
func sail(r *rand.Rand, hard int, compass *deviation.Table) (*voyage, error) {
	v := &voyage{Rand: r, hard: hard, chart: practice.Orlesk(), compass: compass, to: landfall}
	from, err := sailing.WGS84().Follow(landfall, sailing.Run{
		Course:   angle.TrueFrom(angle.Angle(245+v.IntN(60)) * angle.Degree),
		Distance: sailing.Distance(9+v.IntN(5)) * sailing.NauticalMile,
	})
	if err != nil {
		return nil, err
	}
	v.from = roundedTo(from, angle.Minute/2)
	v.track = sailing.WGS84().Rhumb(v.from, v.to).Course.Round(angle.Degree)
	v.speed = sailing.Speed(v.tenths(5, 3)) * sailing.Knot
	year := 2026
	if hard > 1 {
		year += v.IntN(4)
	}
	v.depart = time.Date(year, time.Month(4+v.IntN(6)), 1+v.IntN(28), 7+v.IntN(4), 5*v.IntN(12), 0, 0, time.UTC)
	v.highWater = v.depart.Add(time.Duration(60+5*v.IntN(48)) * time.Minute) // the stream runs north until then
	v.ratio = []float64{1, 0.5, 0}[v.IntN(3)]
	if hard > 1 {
		v.ratio = float64(2+v.IntN(7)) / 10
	}
	v.wind = angle.TrueFrom(angle.Angle(10*(18+v.IntN(18))) * angle.Degree)
	if hard > 0 {
		v.leeway = angle.Angle(3+v.IntN(6)) * angle.Degree
	}
	way := sailing.WGS84().Rhumb(v.from, v.to).Distance
	run := way * sailing.Distance(0.5+0.2*v.Float64())
	v.fixTime = v.depart.Add(time.Duration(run.NauticalMiles()/v.speed.Knots()*12) * 5 * time.Minute)
	at, err := sailing.WGS84().Follow(v.from, sailing.Run{Course: v.track, Distance: run})
	if err != nil {
		return nil, err
	}
	aside := sailing.Run{Course: angle.TrueFrom(angle.Angle(v.IntN(360)) * angle.Degree), Distance: sailing.Distance(0.3+0.7*v.Float64()) * sailing.NauticalMile}
	v.fixed, err = sailing.WGS84().Follow(at, aside)
	return v, err
}

// tenths draws a number from least up, in tenths, or a whole number if the paper is easy.
func (v *voyage) tenths(least, span int) float64 {
	n := 10 * (least + v.IntN(span+1))
	if v.hard > 0 {
		n += v.IntN(10)
	}
	return float64(n) / 10
}

// roundedTo rounds a position to a unit of latitude and longitude.
func roundedTo(p angle.Position, unit angle.Angle) angle.Position {
	return angle.Position{
		Latitude:  angle.Must(angle.LatitudeFrom(p.Latitude.Angle().Round(unit))),
		Longitude: angle.LongitudeFrom(p.Longitude.Angle().Round(unit)),
	}
}

// rose returns a rose of the chart by its name.
func (v *voyage) rose(name string) variation.Rose {
	for _, r := range v.chart.Roses.Roses() {
		if r.Name == name {
			return r.Rose
		}
	}
	return variation.Rose{}
}

// with returns what a conversion needs, by a rose of the chart.
func (v *voyage) with(rose string) course.With {
	return course.With{Variation: v.rose(rose), Deviation: v.compass, On: v.depart}
}

// streamAt returns the tidal stream of a place at a time, with the set to the degree and the rate
// to a tenth of a knot.
func (v *voyage) streamAt(place string, at time.Time) (stream.Stream, error) {
	tides := []tidal.Tide{tidal.ByRatio(v.highWater, v.ratio)}
	streams, err := v.chart.Tidal.Streams(tidal.Use{Tides: tides, Place: place})
	if err != nil {
		return stream.Stream{}, err
	}
	s, err := streams.StreamAt(angle.Position{}, at)
	tenths := s.Rate.Knots()*10 + 0.5
	return stream.Stream{Set: s.Set.Round(angle.Degree), Rate: sailing.Speed(int(tenths)) / 10 * sailing.Knot}, err
}

// compassBearing returns the bearing of a mark by compass on a heading, read to the degree, or to
// the half degree if the paper is hard.
func (v *voyage) compassBearing(from angle.Position, mark string, head course.Heading) angle.Compass {
	m, _ := v.chart.Mark(mark)
	step := angle.Degree
	if v.hard > 1 {
		step /= 2
	}
	t := sailing.WGS84().Rhumb(from, m.Position).Course
	return head.BearingFromTrue(t).Compass().Round(step)
}

// heading returns a compass heading near a true one: to 5° if the paper is easy, else to the
// degree.
func (v *voyage) heading(near angle.True, rose string) (angle.Compass, course.Heading, error) {
	h, err := course.FromTrue(near, v.with(rose))
	if err != nil {
		return angle.Compass{}, course.Heading{}, err
	}
	step := angle.Degree
	if v.hard == 0 {
		step *= 5
	}
	steered := h.Compass().Round(step)
	head, err := course.FromCompass(steered, v.with(rose))
	return steered, head, err
}

// later returns a time some minutes after another, to 5 minutes.
func (v *voyage) later(t time.Time, least, span int) time.Time {
	return t.Add(time.Duration(least+5*v.IntN(span/5+1)) * time.Minute)
}

// passage returns the paragraphs that introduce a paper.
func (v *voyage) passage() []string {
	tide := map[float64]string{1: "springs", 0.5: "half way between neaps and springs", 0: "neaps"}[v.ratio]
	if tide == "" {
		tide = fmt.Sprintf("%.1f of the way from neaps to springs", v.ratio)
	}
	says := fmt.Sprintf("%s. The vessel Quillon is bound for the anchorage in St Osk Road. At %s it takes its departure from %s. "+
		"The speed through the water is %s. High water at Orlesk Harbour is at %s; the tide is at %s.",
		v.depart.Format("Monday 2 January 2006"), clock(v.depart), v.from, knots(v.speed), clock(v.highWater), tide)
	if v.leeway > 0 {
		says += fmt.Sprintf(" The wind is from %s; the leeway is %s.", v.wind, degrees(v.leeway))
	} else {
		says += " There is no leeway."
	}
	var roses []string
	for _, r := range v.chart.Roses.Roses() {
		roses = append(roses, fmt.Sprintf("%s, %s", r.Name, r.Rose))
	}
	return []string{says, "Work on the practice chart of the Orlesk coast. Its roses: " + strings.Join(roses, "; ") + ". The coast, the vessel and all figures are invented. Each question gives what it needs: carry no answer from one to another."}
}

// knots prints a speed.
func knots(s sailing.Speed) string { return tenth(s) + " kn" }

// degrees prints a whole angle.
func degrees(a angle.Angle) string {
	return fmt.Sprintf("%d°", int64(a.Round(angle.Degree)/angle.Degree))
}
