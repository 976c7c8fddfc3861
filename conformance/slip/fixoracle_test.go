package slip_test

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/fix"
	"lubberline.example/variation"
)

// draws returns how many problems an oracle works: 1,000 if FULL=1.
func draws(few int) int {
	if os.Getenv("FULL") == "1" {
		return 1000
	}
	return few
}

// A place is a latitude and a longitude in degrees.
type place struct{ lat, lon float64 }

const radian = math.Pi / 180

// ecef returns the place as rectangular coordinates on WGS84, in metres.
func (p place) ecef() (x, y, z float64) {
	const a, f = 6378137, 1 / 298.257223563
	e2 := f * (2 - f)
	s, c := math.Sincos(p.lat * radian)
	n := a / math.Sqrt(1-e2*s*s)
	return n * c * math.Cos(p.lon*radian), n * c * math.Sin(p.lon*radian), n * (1 - e2) * s
}

// bearing returns the true bearing of another place: that of its plumb line in the horizon.
func (p place) bearing(to place) float64 {
	x, y, z := p.ecef()
	u, v, w := to.ecef()
	u, v, w = u-x, v-y, w-z
	s, c := math.Sincos(p.lat * radian)
	t, k := math.Sincos(p.lon * radian)
	north := -s*k*u - s*t*v + c*w
	east := -t*u + k*v
	return math.Mod(math.Atan2(east, north)/radian+360, 360)
}

// moved returns the place after a run of some miles, by the radii of curvature half way.
func (p place) moved(course, miles float64) place {
	const a, f = 6378137, 1 / 298.257223563
	e2 := f * (2 - f)
	to := p
	for range 3 {
		s, c := math.Sincos((p.lat + to.lat) / 2 * radian)
		w := math.Sqrt(1 - e2*s*s)
		n, m := a/w, a*(1-e2)/(w*w*w)
		to = place{
			p.lat + miles*1852*math.Cos(course*radian)/m/radian,
			p.lon + miles*1852*math.Sin(course*radian)/(n*c)/radian,
		}
	}
	return to
}

// meet returns the place from which marks have bearings: by Newton's method, least squares of the
// angles, from a place near it.
// Two lines may meet beyond a mark, which then has the reciprocal bearing.
func meet(near place, marks []place, bearings []float64) (at place, ok bool) {
	turn := 360.0
	if len(marks) == 2 {
		turn = 180
	}
	at = near
	for range 60 {
		var a, b, c, p, q float64
		for i, m := range marks {
			const h = 1e-5
			now := at.bearing(m)
			off := math.Remainder(bearings[i]-now, turn)
			dlat := math.Remainder(place{at.lat + h, at.lon}.bearing(m)-now, 360) / h
			dlon := math.Remainder(place{at.lat, at.lon + h}.bearing(m)-now, 360) / h
			a, b, c = a+dlat*dlat, b+dlat*dlon, c+dlon*dlon
			p, q = p+dlat*off, q+dlon*off
		}
		det := a*c - b*b
		if !(det > 0) {
			return at, false
		}
		dlat, dlon := (p*c-q*b)/det, (q*a-p*b)/det
		far := math.Hypot(dlat, dlon)
		step := min(1, 0.05/far)
		at = place{at.lat + step*dlat, at.lon + step*dlon}
		if far < 1e-9 {
			for i, m := range marks { // not on the other side of one of three marks, or beside it, or in a wide cocked hat
				if math.Abs(math.Remainder(bearings[i]-at.bearing(m), turn)) > 5 || math.Hypot(at.lat-m.lat, at.lon-m.lon) < 0.004 {
					return at, false
				}
			}
			return at, true
		}
	}
	return at, false
}

// A watch is what a learner knows at a fix, in plain degrees and miles.
type watch struct {
	marks      []place
	names      []string
	bearings   []float64 // by compass
	head       float64   // by compass
	variation  float64
	card       *deviation.Table
	stream     [2]float64 // set and rate
	speed      float64
	hours      float64
	leeway     float64 // clockwise
	distance   float64
	vessel     place
	heading    float64 // true
	courseGood float64
	made       float64 // miles
}

// deviation returns that of the card on a compass heading.
func (w watch) deviation(head float64) float64 {
	return angle.Must(w.card.OnCompass(angle.CompassFrom(angle.Must(angle.Degrees(head))))).Angle().Degrees()
}

// chain returns a true direction, by factors on variation and deviation, and the deviation of which
// heading.
func (w watch) chain(compass, on, v, d float64) float64 {
	return compass + d*w.deviation(on) + v*w.variation
}

// good returns course made good and miles, by factors on the stream and the leeway.
func (w watch) good(heading, flow, leeway float64) (course, miles float64) {
	water := heading + leeway*w.leeway
	n := w.speed*math.Cos(water*radian) + flow*w.stream[1]*math.Cos(w.stream[0]*radian)
	e := w.speed*math.Sin(water*radian) + flow*w.stream[1]*math.Sin(w.stream[0]*radian)
	return math.Atan2(e, n) / radian, math.Hypot(n, e) * w.hours
}

// charted are the invented marks.
var charted = []fix.Mark{
	{Name: "Orlesk Head light", Position: angle.MustParsePosition("47°08.4′N 019°00.0′W")},
	{Name: "Minnow Ledge beacon", Position: angle.MustParsePosition("47°03.6′N 019°11.6′W")},
	{Name: "Braddle Point tower", Position: angle.MustParsePosition("46°47.5′N 019°01.0′W")},
	{Name: "St Osk church", Position: angle.MustParsePosition("46°57.0′N 019°03.0′W")},
}

// placeOf returns a position in degrees.
func placeOf(p angle.Position) place { return place{p.Latitude.Degrees(), p.Longitude.Degrees()} }

// degrees returns a number of degrees as an angle.
func degrees(x float64) angle.Angle { return angle.Must(angle.Degrees(x)) }

// with returns the sources of a watch.
func (w watch) with() course.With {
	return course.With{Variation: variation.East(degrees(w.variation)), Deviation: w.card, On: time.Date(2026, time.July, 1, 0, 0, 0, 0, time.UTC)}
}

// gentleCard is a card of less than 5°.
func gentleCard() *deviation.Table {
	var rows []deviation.Row[angle.Compass]
	for i := range 24 {
		d := 1 + 3*math.Sin(float64(i)*15*radian) - 1.5*math.Cos(float64(i)*30*radian)
		rows = append(rows, deviation.Row[angle.Compass]{Heading: angle.CompassFrom(angle.Angle(15*i) * deg), Deviation: deviation.East(degrees(math.Round(2*d) / 2))})
	}
	return angle.Must(deviation.NewTable(rows))
}

// draw draws a watch with n marks in sight.
func drawWatch(r *rand.Rand, n int) watch {
	w := watch{
		head: float64(r.IntN(360)), variation: float64(3+r.IntN(12)) * float64(1-2*r.IntN(2)), card: gentleCard(),
		stream: [2]float64{float64(r.IntN(360)), 1 + 2*r.Float64()}, speed: 4 + 4*r.Float64(), hours: float64(20+r.IntN(40)) / 60,
		leeway: float64(3+r.IntN(7)) * float64(1-2*r.IntN(2)),
		vessel: place{46.87 + 0.25*r.Float64(), -19.22 - 0.2*r.Float64()},
	}
	for _, i := range r.Perm(4)[:n] {
		w.marks, w.names = append(w.marks, placeOf(charted[i].Position)), append(w.names, charted[i].Name)
	}
	w.heading = w.chain(w.head, w.head, 1, 1)
	w.courseGood, w.made = w.good(w.heading, 1, 1)
	return w
}

// read returns the compass bearing that gives a true one on the watch's heading.
func (w watch) read(t float64) float64 { return t - w.variation - w.deviation(w.head) }

// sighting returns a mark with its compass bearing.
func (w watch) sighting(i int, compass float64) slip.Sighting {
	for _, m := range charted {
		if m.Name == w.names[i] {
			return slip.Sighting{Mark: m, Bearing: angle.CompassFrom(degrees(compass))}
		}
	}
	panic("no such mark")
}

// holds checks the right answer of a position, and for each slip that its answers are among those of
// the oracle.
func holds(t *testing.T, p slip.Problem, right place, want map[slip.Kind][]place) (checked int) {
	t.Helper()
	near := func(answer float64, at place, minutes float64) bool {
		lat, lon := p.Pair(answer)
		return math.Abs(lat-at.lat)*60 <= minutes && math.Abs(math.Remainder(lon-at.lon, 360))*60 <= minutes
	}
	if !near(p.Answer(), right, 0.01) {
		t.Errorf("%s\nright: %s, want %v", p.Question, p.Print(p.Answer()), right)
	}
	for _, c := range p.Slips() {
		places, of := want[c.Slips[0]]
		if !of {
			continue
		}
		ok := false
		for _, at := range places {
			ok = ok || near(c.Answer, at, 0.05+0.005*60*math.Hypot(at.lat-right.lat, at.lon-right.lon))
		}
		if checked++; !ok {
			t.Errorf("%s\n%s: %s, want %v", p.Question, c, p.Print(c.Answer), places)
		}
	}
	return checked
}

// The oracle of fixes turns bearings into a position by Newton's method on rectangular coordinates.
// The position and each slip agree to 0.01′ and to 0.05′ with half a per cent of the shift.
func TestFixesAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	checked := 0
	for range draws(60) {
		n := 2 + r.IntN(2)
		w := drawWatch(r, n)
		bearings := make([]float64, n)
		var sightings []slip.Sighting
		for i, m := range w.marks {
			w.bearings = append(w.bearings, w.read(w.vessel.bearing(m)))
			sightings = append(sightings, w.sighting(i, w.bearings[i]))
		}
		cut := math.Abs(math.Remainder(w.bearings[0]-w.bearings[1], 180))
		if cut < 40 {
			continue
		}
		p := angle.Must(slip.NewFix(sightings, angle.CompassFrom(degrees(w.head)), w.with()))
		want := map[slip.Kind][]place{}
		by := func(kind slip.Kind, marks []place, of func(i int) float64) {
			for i := range n {
				bearings[i] = of(i)
			}
			if at, ok := meet(w.vessel, marks, bearings); ok {
				want[kind] = append(want[kind], at)
			}
		}
		for _, k := range []struct {
			kind slip.Kind
			v, d float64
		}{{slip.VariationWrongWay, -1, 1}, {slip.VariationLeftOut, 0, 1}, {slip.VariationTwice, 2, 1}, {slip.DeviationWrongWay, 1, -1}, {slip.DeviationLeftOut, 1, 0}, {slip.DeviationTwice, 1, 2}} {
			by(k.kind, w.marks, func(i int) float64 { return w.chain(w.bearings[i], w.head, k.v, k.d) })
		}
		by(slip.DeviationOfBearing, w.marks, func(i int) float64 { return w.chain(w.bearings[i], w.bearings[i], 1, 1) })
		if n == 2 {
			exact := func(i int) float64 { return w.chain(w.bearings[i], w.head, 1, 1) }
			for i := range n {
				for _, off := range []float64{10, -10} {
					by(slip.BearingMisread, w.marks, func(j int) float64 {
						if i == j {
							return exact(j) + off
						}
						return exact(j)
					})
				}
			}
		}
		checked += holds(t, p, w.vessel, want)
	}
	t.Logf("%d slips checked", checked)
}

// The oracle lays the distance off by the radii of curvature.
func TestFixesByRangeAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 6))
	for range draws(60) {
		w := drawWatch(r, 2)
		bearing := float64(r.IntN(360))
		w.distance = 3 + 9*r.Float64()
		compass := w.read(bearing)
		from, course := place{}, bearing+180
		for range 5 { // the bearing at the vessel differs by the convergency
			from = w.marks[0].moved(course, w.distance)
			course += math.Remainder(bearing-from.bearing(w.marks[0]), 360)
		}
		p := angle.Must(slip.NewFixByRange(w.sighting(0, compass), sailing.Distance(w.distance)*sailing.NauticalMile, angle.CompassFrom(degrees(w.head)), w.with(), w.sighting(1, 0).Mark))
		lay := func(mark, t, miles float64) place { return w.marks[int(mark)].moved(t+180, miles) }
		holds(t, p, from, map[slip.Kind][]place{
			slip.ReciprocalForgotten: {lay(0, bearing+180, w.distance)},
			slip.LongitudeScale:      {lay(0, bearing, w.distance*math.Cos(w.marks[0].lat*radian))},
			slip.MarkMistaken:        {lay(1, bearing, w.distance)},
			slip.VariationWrongWay:   {lay(0, bearing-2*w.variation, w.distance)},
			slip.DeviationOfBearing:  {lay(0, w.chain(compass, compass, 1, 1), w.distance)},
			slip.BearingMisread:      {lay(0, bearing+10, w.distance), lay(0, bearing-10, w.distance)},
		})
	}
}

// The oracle moves the mark with the line, by the radii of curvature.
func TestRunningFixesAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	checked := 0
	for range draws(200) {
		w := drawWatch(r, 1)
		before := w.vessel
		w.vessel = before.moved(w.courseGood, w.made)
		first, second := w.read(before.bearing(w.marks[0])), w.read(w.vessel.bearing(w.marks[0]))
		if cut := math.Abs(math.Remainder(first-second, 180)); cut < 35 {
			continue
		}
		side := angle.Port
		if w.leeway < 0 {
			side = angle.Starboard
		}
		run := stream.ReckonedRun{
			Speed: sailing.Speed(w.speed) * sailing.Knot, Lasts: time.Duration(w.hours * float64(time.Hour)),
			Stream: stream.Stream{Set: angle.TrueFrom(degrees(w.stream[0])), Rate: sailing.Speed(w.stream[1]) * sailing.Knot},
			Leeway: stream.Leeway{Angle: degrees(math.Abs(w.leeway)), WindSide: side},
		}
		p, err := slip.NewRunningFix(w.sighting(0, first), w.sighting(0, second), run, angle.CompassFrom(degrees(w.head)), w.with())
		if err != nil {
			continue // too near the mark
		}
		want := map[slip.Kind][]place{}
		add := func(kind slip.Kind, v float64, course, miles float64, which int) {
			marks := []place{w.marks[0], w.marks[0]}
			marks[which] = marks[which].moved(course, miles)
			if at, ok := meet(w.vessel, marks, []float64{w.chain(first, w.head, v, 1), w.chain(second, w.head, v, 1)}); ok {
				want[kind] = append(want[kind], at)
			}
		}
		add(slip.MovedByCourse, 1, w.heading, w.made, 0)
		add(slip.MovedByLog, 1, w.courseGood, w.speed*w.hours, 0)
		add(slip.MovedWrongWay, 1, w.courseGood+180, w.made, 0)
		add(slip.SecondMoved, 1, w.courseGood, w.made, 1)
		add(slip.NotMoved, 1, 0, 0, 0)
		add(slip.LongitudeScale, 1, w.courseGood, w.made*math.Cos(w.marks[0].lat*radian), 0)
		for kind, factors := range map[slip.Kind][2]float64{slip.StreamWrongWay: {-1, 1}, slip.StreamLeftOut: {0, 1}, slip.LeewayWrongSide: {1, -1}, slip.LeewayLeftOut: {1, 0}} {
			c, m := w.good(w.heading, factors[0], factors[1])
			add(kind, 1, c, m, 0)
		}
		c, m := w.good(w.heading-2*w.variation, 1, 1)
		add(slip.VariationWrongWay, -1, c, m, 0)
		checked += holds(t, p, w.vessel, want)
	}
	t.Logf("%d slips checked", checked)
}
