package exercise

import (
	"fmt"
	"math"
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
	ratio     float64       // of the tide, from neaps (0) to springs (1)
	flow      stream.Stream // throughout
	wind      angle.True
	leeway    angle.Angle

	// The vessel makes two legs, each a little off the course to steer, then heads for the
	// landfall. Fixes are taken on the way.
	legs    [3]stream.ReckonedRun
	fixTime time.Time
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
	abeam := angle.Angle(60+v.IntN(70)) * angle.Degree // not astern, where there is no leeway
	if v.IntN(2) == 0 {
		abeam = -abeam
	}
	v.wind = v.track.Add(abeam).Round(10 * angle.Degree)
	if hard > 0 {
		v.leeway = angle.Angle(3+v.IntN(6)) * angle.Degree
	}
	v.flow, err = v.streamAt("B", v.depart)
	if err != nil || v.flow.Rate < 0.5*sailing.Knot { // too weak to teach anything
		v.flow = stream.Stream{Set: angle.TrueFrom(angle.Angle(5+v.IntN(30)) * angle.Degree), Rate: sailing.Speed(v.tenths(1, 0)) * sailing.Knot}
	}
	return v, v.lay()
}

// lay lays the legs.
func (v *voyage) lay() error {
	off := angle.Angle(5+v.IntN(8)) * angle.Degree
	if v.IntN(2) == 0 {
		off = -off
	}
	lasts := time.Duration(20+3*v.IntN(6)) * time.Minute
	way := sailing.WGS84().Rhumb(v.from, v.to).Distance.NauticalMiles()
	lasts = min(lasts, time.Duration(way/v.speed.Knots()*0.24*20)*3*time.Minute) // some way is left for the fixes
	from, track := v.from, v.track
	for i := range v.legs {
		steering, err := stream.CourseToSteer(track, v.speed, v.flow)
		if err != nil {
			return &Error{Reason: "the stream is too strong", Err: err}
		}
		leeway, _, err := v.leewayOn(steering.Water.Course)
		if err != nil {
			return err
		}
		heading := steering.Water.Course.Add(-leeway.Deflection())
		switch i {
		case 0:
			heading = heading.Add(off)
		case 1:
			heading = heading.Add(-off)
		}
		if leeway, _, err = v.leewayOn(heading.Round(angle.Degree)); err != nil {
			return err
		}
		v.legs[i] = stream.ReckonedRun{Heading: heading.Round(angle.Degree), Speed: v.speed, Lasts: lasts, Stream: v.flow, Leeway: leeway}
		if i == 2 {
			break
		}
		e, err := stream.Estimate{Position: from}.Run(v.legs[i])
		if err != nil {
			return err
		}
		if from = e.Position; i == 1 {
			track = sailing.WGS84().Rhumb(from, v.to).Course
		}
	}
	v.fixTime = v.depart.Add(2*lasts + 10*time.Minute)
	return nil
}

// at returns the position at a time: with the stream and leeway, or by dead reckoning.
func (v *voyage) at(t time.Time, reckoned bool) (angle.Position, error) {
	left := t.Sub(v.depart)
	e := stream.Estimate{Position: v.from}
	for i, leg := range v.legs {
		if i == 2 || leg.Lasts > left {
			leg.Lasts = left
		}
		if reckoned {
			leg.Stream, leg.Leeway = stream.Stream{}, stream.Leeway{}
		}
		var err error
		if e, err = e.Run(leg); err != nil {
			return e.Position, err
		}
		left -= leg.Lasts
	}
	return e.Position, nil
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
	streams, err := v.chart.Tidal.Streams(tidal.Options{Tides: tides, Place: place})
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

// landfallTime returns when the vessel is off the Quern buoy, to 5 minutes.
func (v *voyage) landfallTime() time.Time {
	p, err := v.at(v.fixTime, false)
	if err != nil {
		return v.fixTime
	}
	hours := sailing.WGS84().Rhumb(p, v.to).Distance.NauticalMiles() / v.speed.Knots()
	return v.fixTime.Add(max(30*time.Minute, time.Duration(hours*float64(time.Hour)))).Round(5 * time.Minute)
}

// heights returns the heights of high and low water, to a tenth of a metre.
func (v *voyage) heights() (high, low sailing.Distance) {
	t := v.chart.Tidal
	span := t.NeapRange + sailing.Distance(v.ratio)*(t.SpringRange-t.NeapRange)
	tenths := math.Round(span.Metres() * 5) // half of the range, above and below the mean
	return sailing.Distance(27+tenths) / 10 * sailing.Metre, sailing.Distance(27-tenths) / 10 * sailing.Metre
}

// passage returns the paragraphs that introduce a paper.
func (v *voyage) passage() []string {
	high, low := v.heights()
	says := fmt.Sprintf("%s. The vessel Quillon is bound for the anchorage in St Osk Road. At %s it takes its departure from %s. "+
		"The speed through the water is %s. High water at Orlesk Harbour is at %s, %.1f m, low water %.1f m.",
		v.depart.Format("Monday 2 January 2006"), clock(v.depart), v.from, knots(v.speed), clock(v.highWater), high.Metres(), low.Metres())
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
