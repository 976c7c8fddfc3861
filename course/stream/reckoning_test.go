package stream_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

func anyRun() *rapid.Generator[stream.ReckonedRun] {
	return rapid.Custom(func(t *rapid.T) stream.ReckonedRun {
		return stream.ReckonedRun{
			Heading: anyTrue().Draw(t, "heading"), Speed: speedBetween(0, 20).Draw(t, "speed"),
			Lasts:  time.Duration(rapid.Int64Range(0, int64(12*time.Hour)).Draw(t, "lasts")),
			Stream: anyStream(5).Draw(t, "stream"),
			Leeway: stream.Leeway{Angle: between(0, 20*deg).Draw(t, "leeway"), WindSide: rapid.SampledFrom([]angle.Side{angle.Port, angle.Starboard}).Draw(t, "wind on")},

			HeadingUncertainty: turnsKnownTo(between(0, 10*deg).Draw(t, "of the heading")),
			SpeedUncertainty:   knownTo(speedBetween(0, 2).Draw(t, "of the speed")),
			StreamUncertainty:  knownTo(speedBetween(0, 2).Draw(t, "of the stream")),
			LeewayUncertainty:  turnsKnownTo(between(0, 10*deg).Draw(t, "of the leeway")),
			HeadingScatter:     turnsKnownTo(between(0, 10*deg).Draw(t, "scatter of the heading")),
			SpeedScatter:       knownTo(speedBetween(0, 2).Draw(t, "scatter of the speed")),
		}
	})
}

func knownTo(s sailing.Speed) sailing.Uncertainty[sailing.Speed] {
	return angle.Must(sailing.StandardUncertainty(s))
}

func turnsKnownTo(a angle.Angle) angle.Uncertainty { return angle.Must(angle.StandardUncertainty(a)) }

// statedSigma is a standard uncertainty that is stated.
func statedSigma[Q sailing.Distance | sailing.Speed](t testing.TB, u sailing.Uncertainty[Q]) Q {
	t.Helper()
	s, stated := u.Sigma()
	if !stated {
		t.Fatal("an uncertainty is not stated")
	}
	return s
}

func anyEstimate() *rapid.Generator[stream.Estimate] {
	return rapid.Custom(func(t *rapid.T) stream.Estimate {
		length := func(what string) sailing.Distance {
			return sailing.Distance(rapid.Float64Range(0, 5000).Draw(t, what))
		}
		return stream.Estimate{
			Position:   angle.Must(angle.PositionDegrees(rapid.Float64Range(-60, 60).Draw(t, "latitude"), rapid.Float64Range(-180, 180).Draw(t, "longitude"))),
			Time:       day,
			Covariance: sailing.Oriented(anyTrue().Draw(t, "direction"), length("along"), length("across")),
		}
	})
}

// sameCovariance compares to a part in 10⁹ of the variances: float64 keeps more.
func sameCovariance(a, b sailing.Covariance) bool {
	within := 1e-9 * (a.North + a.East + 1)
	return a.Stated() == b.Stated() && math.Abs(a.North-b.North) <= within && math.Abs(a.East-b.East) <= within && math.Abs(a.Both-b.Both) <= within
}

func TestRunFollowsSumOfVectors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, r := anyEstimate().Draw(t, "from"), anyRun().Draw(t, "run")
		to, err := from.Run(r)
		if err != nil {
			t.Fatal(err)
		}
		way := r.Heading.Add(r.Leeway.Deflection())
		if r.Water() != (stream.Motion{Course: way, Speed: r.Speed}) {
			t.Fatalf("through the water %v", r.Water())
		}
		wn, we := velocity(r.Water())
		sn, se := velocity(motionOfStream(r.Stream))
		run := sailing.Run{Course: angle.TrueFrom(angle.Must(angle.Radians(math.Atan2(we+se, wn+sn)))), Distance: sailing.Distance(math.Hypot(wn+sn, we+se) * r.Lasts.Seconds())}
		place, err := sailing.WGS84().Follow(from.Position, run)
		if err != nil {
			t.Fatal(err)
		}
		if off := sailing.WGS84().Rhumb(place, to.Position).Distance; off > 0.001 || !to.Time.Equal(day.Add(r.Lasts)) { // metres: positions are kept to 3e-8
			t.Fatalf("%v at %v, want %v", to.Position, to.Time, place)
		}
		// Along the way by the log, across it by the compass, and round by the stream.
		hours := r.Lasts.Hours()
		speed, _ := r.SpeedUncertainty.Sigma()
		heading, _ := r.HeadingUncertainty.Sigma()
		flow, _ := r.StreamUncertainty.Sigma()
		leeway, _ := r.LeewayUncertainty.Sigma()
		headingScatter, _ := r.HeadingScatter.Sigma()
		speedScatter, _ := r.SpeedScatter.Sigma()
		along := math.Hypot(speed.Knots(), speedScatter.Knots()) * hours * 1852
		across := r.Speed.Knots() * hours * 1852 * math.Hypot(math.Hypot(heading.Radians(), leeway.Radians()), headingScatter.Radians())
		round := flow.Knots() * hours * 1852
		want := from.Covariance.Plus(sailing.Oriented(way, sailing.Distance(along), sailing.Distance(across))).Plus(sailing.Circular(sailing.Distance(round)))
		if !sameCovariance(want, to.Covariance) {
			t.Fatalf("%+v, want %+v", to.Covariance, want)
		}
	})
}

func TestEllipseOfOneUncertainty(t *testing.T) {
	exact := stream.Estimate{Position: offOrlesk, Time: day, Covariance: sailing.Exactly()}
	run := stream.ReckonedRun{
		Heading: trueOf(30), Speed: 6 * sailing.Knot, Lasts: 2 * time.Hour,
		HeadingUncertainty: turnsKnownTo(0), SpeedUncertainty: knownTo(0), StreamUncertainty: knownTo(0),
	}
	log, compass, flow := run, run, run
	log.SpeedUncertainty = knownTo(sailing.Knot / 2)
	compass.HeadingUncertainty = turnsKnownTo(angle.Must(angle.Radians(0.05)))
	flow.StreamUncertainty = knownTo(sailing.Knot / 4)
	const mile = sailing.NauticalMile
	for _, c := range []struct {
		name          string
		run           stream.ReckonedRun
		along, across sailing.Distance // of the way, standard
	}{
		{"all exact", run, 0, 0},
		{"the log: along", log, mile, 0},
		{"the compass: across", compass, 0, 0.6 * mile},
		{"the stream: round", flow, mile / 2, mile / 2},
	} {
		to, err := exact.Run(c.run)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		along, across := statedSigma(t, to.Covariance.Along(trueOf(30))), statedSigma(t, to.Covariance.Along(trueOf(120)))
		if math.Abs(float64(along-c.along)) > 0.001 || math.Abs(float64(across-c.across)) > 0.001 { // metres: the root of a rounding of the squares
			t.Errorf("%s: %v along, %v across; want %v, %v", c.name, along, across, c.along, c.across)
		}
	}
	// The way is that through the water, with the leeway in it.
	log.Leeway = stream.Leeway{Angle: 10 * deg, WindSide: angle.Port}
	to, err := exact.Run(log)
	if err != nil {
		t.Fatal(err)
	}
	if ellipse, err := to.Covariance.Ellipse(0.95); err != nil || ellipse.MajorAxis.Sub(trueOf(40)).Abs() > deg/1_000_000 || ellipse.SemiMinor > 0.1 { // metres: as above
		t.Errorf("%v, %v; want it along 040°", ellipse, err)
	}
}

// If one uncertainty is unset, the covariance is unknown.
func TestUnknownUncertaintyStaysUnknown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, r := anyEstimate().Draw(t, "from"), anyRun().Draw(t, "run")
		part := rapid.IntRange(0, 4).Draw(t, "part")
		switch part {
		case 1:
			from.Covariance = sailing.Covariance{}
		case 2:
			r.HeadingUncertainty, r.HeadingScatter = angle.Uncertainty{}, angle.Uncertainty{}
		case 3:
			r.SpeedUncertainty, r.SpeedScatter = sailing.Uncertainty[sailing.Speed]{}, sailing.Uncertainty[sailing.Speed]{}
		case 4:
			r.StreamUncertainty = sailing.Uncertainty[sailing.Speed]{}
		}
		to, err := from.Run(r)
		if err != nil || to.Covariance.Stated() != (part == 0) {
			t.Fatalf("%v, %v", to.Covariance, err)
		}
	})
}

// alone is a run whose errors are its own.
func alone(r stream.ReckonedRun) stream.ReckonedRun {
	r.HeadingUncertainty, r.SpeedUncertainty, r.LeewayUncertainty = angle.Uncertainty{}, sailing.Uncertainty[sailing.Speed]{}, angle.Uncertainty{}
	return r
}

// The errors of one run are constant during the run and independent of the next. So
// a run of two hours has a larger error than two runs of an hour.
func TestIndependentRunsAddTheirVariances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, one, two := anyEstimate().Draw(t, "from"), alone(anyRun().Draw(t, "one")), alone(anyRun().Draw(t, "two"))
		exact := stream.Estimate{Position: offOrlesk, Time: day, Covariance: sailing.Exactly()}
		a, err1 := exact.Run(one)
		b, err2 := exact.Run(two)
		both, err3 := from.Run(one)
		if err := errors.Join(err1, err2, err3); err != nil {
			t.Fatal(err)
		}
		both, err := both.Run(two)
		if err != nil {
			t.Fatal(err)
		}
		if want := from.Covariance.Plus(a.Covariance).Plus(b.Covariance); !sameCovariance(want, both.Covariance) {
			t.Fatalf("%+v, want %+v", both.Covariance, want)
		}
		half := one
		half.Lasts /= 2
		one.Lasts = 2 * half.Lasts
		h, err1 := exact.Run(half)
		whole, err2 := exact.Run(one)
		if err := errors.Join(err1, err2); err != nil {
			t.Fatal(err)
		}
		c := h.Covariance
		if !sameCovariance(whole.Covariance, c.Plus(c).Plus(c.Plus(c))) {
			t.Fatalf("twice the time: %+v, half %+v", whole.Covariance, c)
		}
	})
}

// Of runs with normal errors, 95 % end within the ellipse.
func TestEllipseHolds95Percent(t *testing.T) {
	r := stream.ReckonedRun{
		Heading: trueOf(112), Speed: 6 * sailing.Knot, Lasts: 4 * time.Hour, Stream: streamOf(20, 1.5),
		Leeway:             stream.Leeway{Angle: 5 * deg, WindSide: angle.Port},
		HeadingUncertainty: turnsKnownTo(2 * deg), SpeedUncertainty: knownTo(0.4 * sailing.Knot), StreamUncertainty: knownTo(0.1 * sailing.Knot),
	}
	from := stream.Estimate{Position: offOrlesk, Time: day, Covariance: sailing.Oriented(trueOf(60), 700, 200)}
	to, err := from.Run(r)
	if err != nil {
		t.Fatal(err)
	}
	ellipse, err := to.Covariance.Ellipse(0.95)
	if err != nil {
		t.Fatal(err)
	}
	gauss := rand.New(rand.NewPCG(2026, 7)).NormFloat64
	north := func(m stream.Motion) (float64, float64) {
		n, e := velocity(m)
		return n * r.Lasts.Seconds(), e * r.Lasts.Seconds()
	}
	rn, re := north(r.Water())
	const runs = 20_000
	within := 0
	for range runs {
		n, e := north(stream.Motion{Course: r.Water().Course.Add(angle.Must((2 * deg).Scale(gauss()))), Speed: r.Speed + 0.4*sailing.Knot*sailing.Speed(gauss())})
		n, e = n-rn, e-re
		drift := (0.1 * sailing.Knot).For(r.Lasts).Metres()
		n, e = n+drift*gauss(), e+drift*gauss()
		s, c := trueOf(60).FromNorth().SinCos() // the errors it began with
		along, across := 700*gauss(), 200*gauss()
		n, e = n+along*c-across*s, e+along*s+across*c
		s, c = ellipse.MajorAxis.FromNorth().SinCos()
		if math.Hypot((n*c+e*s)/ellipse.SemiMajor.Metres(), (e*c-n*s)/ellipse.SemiMinor.Metres()) <= 1 {
			within++
		}
	}
	// The number itself varies by 0.15 in 100.
	if part := float64(within) / runs; part < 0.94 || part > 0.96 {
		t.Errorf("%.2f in 100 within", 100*part)
	}
}

func TestInvalidRunsAreRefused(t *testing.T) {
	good := stream.ReckonedRun{Heading: trueOf(0), Speed: 6 * sailing.Knot, Lasts: time.Hour}
	from := stream.Estimate{Position: offOrlesk, Time: day}
	nan := sailing.Speed(math.NaN())
	for _, c := range []struct {
		name  string
		spoil func(*stream.ReckonedRun)
		want  string
	}{
		{"time", func(r *stream.ReckonedRun) { r.Lasts = -time.Hour }, "time of a run, in hours, -1 is invalid; give 0 or more"},
		{"speed", func(r *stream.ReckonedRun) { r.Speed = -sailing.Knot }, "speed through the water -1 is invalid; give knots from 0, below 1000"},
		{"no speed at all", func(r *stream.ReckonedRun) { r.Speed = nan }, "speed through the water NaN is invalid; give knots from 0, below 1000"},
		{"rate", func(r *stream.ReckonedRun) { r.Stream.Rate = -sailing.Knot }, "rate of the stream -1 is invalid; give knots from 0, below 1000"},
		{"uncertainty of speed", func(r *stream.ReckonedRun) { r.SpeedUncertainty = knownTo(1000 * sailing.Knot) }, "uncertainty of the speed 1000 is invalid; give knots from 0, below 1000"},
		{"uncertainty of stream", func(r *stream.ReckonedRun) { r.StreamUncertainty = knownTo(2000 * sailing.Knot) }, "uncertainty of the stream 2000 is invalid; give knots from 0, below 1000"},
		{"heading not known at all", func(r *stream.ReckonedRun) { r.HeadingUncertainty = turnsKnownTo(91 * deg) }, "uncertainty of the heading 91 is invalid; give degrees from 0 to 90"},
	} {
		r := good
		c.spoil(&r)
		_, err := from.Run(r)
		if _, is := errors.AsType[*angle.RangeError](err); !is || err.Error() != c.want {
			t.Errorf("%s: %v\nwant %s", c.name, err, c.want)
		}
		if _, err2 := r.Working(from); err2 == nil || err2.Error() != c.want {
			t.Errorf("%s, worked: %v", c.name, err2)
		}
	}
	polar := stream.Estimate{Position: angle.MustParsePosition("89°58′N 010°W")}
	_, err := polar.Run(good)
	if _, is := errors.AsType[*sailing.Error](err); !is {
		t.Errorf("over the pole: %v", err)
	}
}

func TestRunWorking(t *testing.T) {
	from := stream.Estimate{Position: offOrlesk, Time: day, Covariance: sailing.Circular(200)}
	r := stream.ReckonedRun{
		Heading: trueOf(112), Speed: 6 * sailing.Knot, Lasts: 90 * time.Minute, Stream: streamOf(20, 1.5),
		Leeway:             stream.Leeway{Angle: 5 * deg, WindSide: angle.Port},
		HeadingUncertainty: turnsKnownTo(3 * deg), SpeedUncertainty: knownTo(sailing.Knot / 2), StreamUncertainty: knownTo(sailing.Knot / 4),
	}
	unknown := stream.ReckonedRun{Heading: trueOf(0), Speed: 6 * sailing.Knot, Lasts: 20 * time.Minute}
	plain := unknown
	plain.HeadingUncertainty, plain.SpeedUncertainty, plain.StreamUncertainty = turnsKnownTo(0), knownTo(0), knownTo(0)
	for _, c := range []struct {
		name string
		from stream.Estimate
		run  stream.ReckonedRun
		want string
	}{
		{"with all", from, r, `
From                      46°58.0′N 019°08.0′W  at 09:00 UTC
Heading                                  112°T  true
Leeway                                   5°00′  wind on the port side
Stream                            020°T 1.5 kn  set (toward) and rate
Course through the water                 117°T  heading and leeway
Speed through the water                 6.0 kn
Course made good                    102°38.7′T  vessel and stream added
Speed made good                         6.0 kn
Run                                      9.0 M  over the ground in 1 h 30 min
Estimated position        46°56.0′N 018°55.2′W  at 10:30 UTC
95 % ellipse                            ±2.1 M  along 117°T, and ±1.5 M across
`},
		{"plain and exact", stream.Estimate{Position: offOrlesk, Time: day, Covariance: sailing.Exactly()}, plain, `
From                      46°58.0′N 019°08.0′W  at 09:00 UTC
Heading                                  000°T  true
Stream                                  0.0 kn  slack water
Course through the water                 000°T  given
Speed through the water                 6.0 kn
Course made good                         000°T  vessel and stream added
Speed made good                         6.0 kn
Run                                      2.0 M  over the ground in 20 min
Estimated position        47°00.0′N 019°08.0′W  at 09:20 UTC
`},
		{"nothing stated", stream.Estimate{Position: offOrlesk, Time: day}, unknown, `
From                      46°58.0′N 019°08.0′W  at 09:00 UTC
Heading                                  000°T  true
Stream                                  0.0 kn  slack water
Course through the water                 000°T  given
Speed through the water                 6.0 kn
Course made good                         000°T  vessel and stream added
Speed made good                         6.0 kn
Run                                      2.0 M  over the ground in 20 min
Estimated position        47°00.0′N 019°08.0′W  at 09:20 UTC
95 % ellipse                        not stated  state the uncertainties of the run and of the position where it begins
`},
	} {
		sheet, err := c.run.Working(c.from)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
		} else if got := sheet.Steps.String(); got != c.want[1:] || sheet.Caution != working.Caution {
			t.Errorf("%s:\n%swant\n%s", c.name, got, c.want[1:])
		}
	}
}
