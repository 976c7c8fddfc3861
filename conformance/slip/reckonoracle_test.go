package slip_test

import (
	"math"
	"math/cmplx"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// figures are the answers that an oracle expects: of the right working, and of slips.
type figures map[slip.Kind][][2]float64

// one is an answer of one figure.
func one(x float64) [2]float64 { return [2]float64{x, 0} }

// agree checks the right answer, which has the empty kind, and that each listed slip gives one of the
// oracle's answers, to within the tolerances of the two figures. It returns how many were checked.
func agree(t *testing.T, p slip.Problem, want figures, within ...float64) (checked int) {
	t.Helper()
	is := func(answer float64, want [2]float64) bool {
		first, second := p.Pair(answer)
		off := first - want[0]
		switch p.Form {
		case slip.Direction, slip.CourseAndDistance, slip.CourseAndSpeed:
			off = math.Remainder(off, 360)
		case slip.Clock:
			off = math.Remainder(off, 24*60)
		}
		return math.Abs(off) <= within[0] && (len(within) < 2 || math.Abs(second-want[1]) <= within[1])
	}
	if !is(p.Answer(), want[""][0]) {
		t.Errorf("%s\nright: %s, want %v", p.Question, p.Print(p.Answer()), want[""])
	}
	for _, c := range p.Slips() {
		answers, of := want[c.Slips[0]]
		if !of {
			continue
		}
		ok := false
		for _, a := range answers {
			ok = ok || is(c.Answer, a)
		}
		if checked++; !ok {
			t.Errorf("%s\n%s: %s, want %v", p.Question, c, p.Print(c.Answer), answers)
		}
	}
	return checked
}

// vector is a run or a speed as a complex number, north real and east imaginary.
func vector(direction, length float64) complex128 { return cmplx.Rect(length, direction*radian) }

// polar returns the direction and the length of a vector.
func polar(v complex128) [2]float64 {
	return [2]float64{math.Mod(cmplx.Phase(v)/radian+360, 360), cmplx.Abs(v)}
}

// True directions, speeds and distances of plain numbers.
func trueOf(x float64) angle.True        { return angle.TrueFrom(degrees(x)) }
func knotsOf(x float64) sailing.Speed    { return sailing.Speed(x) * sailing.Knot }
func milesOf(x float64) sailing.Distance { return sailing.Distance(x) * sailing.NauticalMile }
func hoursOf(x float64) time.Duration    { return time.Duration(math.Round(x*60)) * time.Minute }
func at(lat, lon float64) angle.Position { return angle.Must(angle.PositionDegrees(lat, lon)) }
func tenth(x float64) float64            { return math.Round(10*x) / 10 }
func mirrored(v complex128) [2]float64   { return polar(complex(-real(v), imag(v))) }
func otherSide(v complex128) [2]float64  { return polar(cmplx.Conj(v)) }
func decimals(hours float64) float64     { w, m := math.Modf(hours); return w + m*0.6 }
func side(r *rand.Rand) (float64, angle.Side) {
	if r.IntN(2) == 0 {
		return 1, angle.Port
	}
	return -1, angle.Starboard
}

func TestMadeGoodAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 1))
	checked := 0
	for range draws(60) {
		heading, speed, set, rate, leeway := 360*r.Float64(), 4+5*r.Float64(), 360*r.Float64(), 1+2*r.Float64(), 3+6*r.Float64()
		sign, wind := side(r)
		p := angle.Must(slip.NewMadeGood(stream.ReckonedRun{Heading: trueOf(heading), Speed: knotsOf(speed), Stream: stream.Stream{Set: trueOf(set), Rate: knotsOf(rate)}, Leeway: stream.Leeway{Angle: degrees(leeway), WindSide: wind}}))
		good := vector(heading+sign*leeway, speed) + vector(set, rate)
		checked += agree(t, p, figures{
			"":                   {polar(good)},
			slip.StreamWrongWay:  {polar(vector(heading+sign*leeway, speed) - vector(set, rate))},
			slip.StreamLeftOut:   {polar(vector(heading+sign*leeway, speed))},
			slip.LeewayWrongSide: {polar(vector(heading-sign*leeway, speed) + vector(set, rate))},
			slip.LeewayLeftOut:   {polar(vector(heading, speed) + vector(set, rate))},
			slip.DistancesAdded:  {{polar(good)[0], speed + rate}},
			slip.ReciprocalTaken: {polar(-good)},
			slip.NorthForSouth:   {mirrored(good)},
			slip.EastForWest:     {otherSide(good)},
		}, 0.01, 0.01)
	}
	t.Logf("%d slips checked", checked)
}

// The oracle goes from the dead reckoning position to the fix by the radii of curvature. It agrees to
// 0.1° and 0.01 kn.
func TestSetAndDriftAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 2))
	checked := 0
	for range draws(60) {
		from := place{46.8 + 0.3*r.Float64(), -19.3 + 0.2*r.Float64()}
		set, rate, hours := 360*r.Float64(), 1+2*r.Float64(), float64(60+r.IntN(180))/60
		to := from.moved(set, rate*hours)
		p := angle.Must(slip.NewSetAndDrift(at(from.lat, from.lon), at(to.lat, to.lon), hoursOf(hours)))
		drift := vector(set, rate*hours)
		cos := math.Cos((from.lat + to.lat) / 2 * radian)
		checked += agree(t, p, figures{
			"":                        {{set, rate}},
			slip.FixToReckoning:       {{set + 180, rate}},
			slip.NotDivided:           {{set, rate * hours}},
			slip.DividedForMultiplied: {{set, rate * hours * hours}},
			slip.CosineLeftOut:        {polar(complex(real(drift), imag(drift)/cos) / complex(hours, 0))},
			slip.NorthForSouth:        {mirrored(drift / complex(hours, 0))},
			slip.EastForWest:          {otherSide(drift / complex(hours, 0))},
			slip.MinutesAsDecimals:    {{set, rate * hours / decimals(hours)}},
		}, 0.1, 0.01)
	}
	t.Logf("%d slips checked", checked)
}

// The oracle sums the legs as complex numbers.
func TestReckoningAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 3))
	checked := 0
	for range draws(60) {
		from := place{tenth(600*(r.Float64()-0.5)*1.8) / 6, tenth(3600*(r.Float64()-0.5)) / 10}
		flow := stream.Stream{Set: trueOf(tenth(360 * r.Float64())), Rate: knotsOf(1 + tenth(r.Float64()))}
		sign, wind := side(r)
		leeway := float64(3 + r.IntN(6))
		var legs []stream.ReckonedRun
		var water, streams, straight, other, swapped, decimal complex128
		var each [][2]float64 // without one leg
		var parts []complex128
		for range 2 + r.IntN(2) {
			heading, speed, hours := tenth(360*r.Float64()), tenth(4+5*r.Float64()), float64(30+5*r.IntN(20))/60
			legs = append(legs, stream.ReckonedRun{Heading: trueOf(heading), Speed: knotsOf(speed), Lasts: hoursOf(hours), Stream: flow, Leeway: stream.Leeway{Angle: degrees(leeway), WindSide: wind}})
			w, s := vector(heading+sign*leeway, speed*hours), vector(flow.Set.Degrees(), flow.Rate.Knots()*hours)
			water, streams, parts = water+w, streams+s, append(parts, w+s)
			straight, other = straight+vector(heading, speed*hours), other+vector(heading-sign*leeway, speed*hours)
			for _, v := range []complex128{w, s} {
				swapped += complex(math.Copysign(imag(v), real(v)), math.Copysign(real(v), imag(v)))
			}
			decimal += (w + s) * complex(decimals(hours)/hours, 0)
		}
		sum := water + streams
		arrive := func(v complex128, cos func(float64) float64) [2]float64 {
			lat := from.lat + real(v)/60
			c := math.Cos((from.lat + lat) / 2 * radian)
			return [2]float64{lat, math.Remainder(from.lon+imag(v)/cos(c)/60, 360)}
		}
		same := func(c float64) float64 { return c }
		for _, v := range parts {
			each = append(each, arrive(sum-v, same))
		}
		right := arrive(sum, same)
		want := figures{
			"":                   {right},
			slip.StreamWrongWay:  {arrive(water-streams, same)},
			slip.StreamLeftOut:   {arrive(water, same)},
			slip.LeewayLeftOut:   {arrive(straight+streams, same)},
			slip.LeewayWrongSide: {arrive(other+streams, same)},
			slip.SineForCosine:   {arrive(swapped, same)},
			slip.LegLeftOut:      each,
			slip.CosineLeftOut:   {arrive(sum, func(float64) float64 { return 1 })},
			slip.CosineWrongWay:  {arrive(sum, func(c float64) float64 { return 1 / c })},
			slip.NorthForSouth:   {arrive(-cmplx.Conj(sum), same), {-right[0], right[1]}},
			slip.EastForWest:     {arrive(cmplx.Conj(sum), same), {right[0], -right[1]}},
		}
		if math.Abs(from.lat) < 85 {
			checked += agree(t, angle.Must(slip.NewReckoning(at(from.lat, from.lon), legs...)), want, 0.002/60*2, 0.002/60*2)
		}
		made := figures{
			"": {polar(sum)}, slip.StreamWrongWay: {polar(water - streams)}, slip.StreamLeftOut: {polar(water)}, slip.LeewayLeftOut: {polar(straight + streams)},
			slip.SineForCosine: {polar(swapped)}, slip.ReciprocalTaken: {polar(-sum)}, slip.MinutesAsDecimals: {polar(decimal)},
		}
		for _, v := range parts {
			made[slip.LegLeftOut] = append(made[slip.LegLeftOut], polar(sum-v))
		}
		checked += agree(t, angle.Must(slip.NewCourseMadeGood(legs...)), made, 0.01, 0.01)
	}
	t.Logf("%d slips checked", checked)
}

// meridionalParts integrates the meridian of WGS84 on a Mercator chart, in minutes.
func meridionalParts(from, to float64) float64 {
	const f = 1 / 298.257223563
	e2 := f * (2 - f)
	slope := func(lat float64) float64 {
		s, c := math.Sincos(lat * radian)
		return (1 - e2) / ((1 - e2*s*s) * c)
	}
	const n = 2000
	h := (to - from) / n
	sum := slope(from) + slope(to)
	for i := 1; i < n; i++ {
		sum += float64(2+2*(i%2)) * slope(from+float64(i)*h)
	}
	return sum * h / 3 * 60
}

func TestSailingsAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 4))
	checked := 0
	for range draws(40) {
		from, to := place{30 + 25*r.Float64(), 360*r.Float64() - 180}, place{}
		to = place{from.lat + 6*r.Float64() - 3, math.Remainder(from.lon+12*r.Float64()-6, 360)}
		dlat, dlong := (to.lat-from.lat)*60, math.Remainder(to.lon-from.lon, 360)*60
		cos, first := math.Cos((from.lat+to.lat)/2*radian), math.Cos(from.lat*radian)
		triangle := func(up, along float64) [2]float64 {
			a := math.Atan2(along, up)
			return [2]float64{a / radian, math.Abs(dlat / math.Cos(a))}
		}
		flip := func(a [2]float64, by func(float64) float64) [2]float64 { return [2]float64{by(a[0]), a[1]} }
		south, west := func(a float64) float64 { return 180 - a }, func(a float64) float64 { return -a }
		middle := triangle(dlat, dlong*cos)
		checked += agree(t, angle.Must(slip.NewSailing(sailing.MidLatitudeSailing, at(from.lat, from.lon), at(to.lat, to.lon))), figures{
			"": {middle}, slip.CosineLeftOut: {triangle(dlat, dlong)}, slip.CosineWrongWay: {triangle(dlat, dlong/cos)}, slip.FirstLatitude: {triangle(dlat, dlong*first)},
			slip.NorthForSouth: {flip(middle, south)}, slip.EastForWest: {flip(middle, west)},
			slip.DividedForMultiplied: {{middle[0], dlat * dlat / middle[1]}},
		}, 0.01, 0.01)
		shorter := func(dlat, along float64) [2]float64 {
			a := math.Atan2(along, meridionalParts(from.lat, to.lat))
			return [2]float64{a / radian, math.Abs(dlat / math.Cos(a))}
		}
		parts := triangle(meridionalParts(from.lat, to.lat), dlong)
		checked += agree(t, angle.Must(slip.NewSailing(sailing.MercatorSailing, at(from.lat, from.lon), at(to.lat, to.lon))), figures{
			"": {parts}, slip.LatitudesForParts: {triangle(dlat, dlong), {parts[0], parts[1] * meridionalParts(from.lat, to.lat) / dlat}},
			slip.MinutesAsDecimals: {shorter(decimals(dlat/60)*60, dlong), shorter(dlat, decimals(dlong/60)*60)}, slip.NorthForSouth: {flip(parts, south)}, slip.EastForWest: {flip(parts, west)},
		}, 0.01, 0.01)
		miles := math.Abs(dlong) * first
		checked += agree(t, angle.Must(slip.NewSailing(sailing.ParallelSailing, at(from.lat, from.lon), at(from.lat, to.lon))), figures{
			"": {one(miles)}, slip.CosineLeftOut: {one(math.Abs(dlong))}, slip.CosineWrongWay: {one(math.Abs(dlong) / first)}, slip.SineForCosine: {one(math.Abs(dlong) * math.Sin(from.lat*radian))},
			slip.MinutesAsDecimals: {one(decimals(math.Abs(dlong)/60) * 60 * first)},
		}, 0.001)
		far := place{to.lat - 20*r.Float64(), math.Remainder(to.lon+60*r.Float64(), 360)}
		initial, final := greatCircle(from, far), math.Mod(greatCircle(far, from)+180, 360)
		rhumb := math.Atan2(math.Remainder(far.lon-from.lon, 360)*60, sphereParts(far.lat)-sphereParts(from.lat)) / radian
		sum := math.Abs(from.lon) + math.Abs(far.lon) // of the longitudes, or their difference if the names are contrary
		if from.lon*far.lon < 0 {
			sum = math.Abs(math.Abs(from.lon) - math.Abs(far.lon))
		}
		summed := place{far.lat, from.lon + math.Copysign(min(sum, 360-sum), math.Remainder(far.lon-from.lon, 360))}
		checked += agree(t, angle.Must(slip.NewGreatCircle(at(from.lat, from.lon), at(far.lat, far.lon))), figures{
			"": {one(initial)}, slip.NamesIgnored: {one(initial), one(greatCircle(from, summed)), one(greatCircle(from, place{-far.lat, far.lon}))}, slip.FinalForInitial: {one(final)}, slip.RhumbForGreatCircle: {one(rhumb)},
			slip.NorthForSouth: {one(180 - initial)}, slip.EastForWest: {one(-initial)}, slip.ReciprocalTaken: {one(initial + 180)},
		}, 0.01)
	}
	t.Logf("%d slips checked", checked)
}

// sphereParts are the meridional parts of the sphere, by the tangent of half the colatitude.
func sphereParts(lat float64) float64 {
	return math.Log(math.Tan((45+lat/2)*radian)) / radian * 60
}

// greatCircle returns the initial course by the normals of planes through the centre of the earth.
func greatCircle(from, to place) float64 {
	vec := func(p place) [3]float64 {
		s, c := math.Sincos(p.lat * radian)
		t, k := math.Sincos(p.lon * radian)
		return [3]float64{c * k, c * t, s}
	}
	b := vec(to)
	t, k := math.Sincos(from.lon * radian)
	s, c := math.Sincos(from.lat * radian)
	east, north := [3]float64{-t, k, 0}, [3]float64{-s * k, -s * t, c}
	dot := func(u, v [3]float64) float64 { return u[0]*v[0] + u[1]*v[1] + u[2]*v[2] }
	return math.Mod(math.Atan2(dot(b, east), dot(b, north))/radian+360, 360)
}

func TestArrivalAgainstOracle(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 5))
	for range draws(60) {
		minute, distance, speed := r.IntN(24*60), 3+30*r.Float64(), 3+7*r.Float64()
		lasts := distance / speed * 60
		p := angle.Must(slip.NewArrival(time.Duration(minute)*time.Minute, milesOf(distance), knotsOf(speed)))
		hours := math.Floor(lasts / 60)
		agree(t, p, figures{
			"":                        {one(float64(minute) + lasts)},
			slip.StatuteForNautical:   {one(float64(minute) + lasts*1.609344/1.852), one(float64(minute) + lasts*1.852/1.609344)},
			slip.DividedForMultiplied: {one(float64(minute) + speed/distance*60), one(float64(minute) + speed*distance)},
			slip.MinutesAsDecimals:    {one(float64(minute) + 60*hours + 100*(lasts/60-hours))},
		}, 0.001)
	}
}

// A question says a stream that is the same on all legs once, and any other with each leg.
func TestStreamIsSaidOnce(t *testing.T) {
	one, two := leg(90, 6, 60), leg(180, 6, 60)
	one.Stream = stream.Stream{Set: trueOf(45), Rate: knotsOf(1)}
	for _, c := range []struct {
		other stream.Stream
		want  string
	}{
		{one.Stream, "1 h 00 min on 090°T at 6 kn; then 1 h 00 min on 180°T at 6 kn; the stream sets 045°T at 1 kn throughout."},
		{stream.Stream{}, "1 h 00 min on 090°T at 6 kn, stream 045°T 1 kn; then 1 h 00 min on 180°T at 6 kn."},
	} {
		two.Stream = c.other
		if p := angle.Must(slip.NewReckoning(at(47, -19), one, two)); !strings.Contains(p.Question, c.want) {
			t.Errorf("%s\nwant %s", p.Question, c.want)
		}
	}
}
