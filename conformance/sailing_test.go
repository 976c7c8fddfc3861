package conformance_test

import (
	"encoding/json"
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/variation"
)

// sailings are the operations of package sailing and of streams and leeway.
var sailings = map[string]func(json.RawMessage) (answer, error){
	"sailing.meridionalParts": on(func(g struct {
		LatitudeDegrees float64
		Figure          string
	}) (answer, error) {
		e, l, err := figureAt(g.Figure, g.LatitudeDegrees)
		return answer{"parts": e.MeridionalParts(l)}, err
	}),
	"sailing.degree": on(func(g struct {
		LatitudeDegrees float64
		Figure          string
	}) (answer, error) {
		e, l, err := figureAt(g.Figure, g.LatitudeDegrees)
		return answer{"latitudeMetres": e.DegreeOfLatitude(l).Metres(), "longitudeMetres": e.DegreeOfLongitude(l).Metres()}, err
	}),
	"sailing.plane": on(func(g runGiven) (answer, error) {
		run, err := g.run()
		if err != nil {
			return nil, err
		}
		t, err := sailing.Plane(run)
		return triangle(t), err
	}),
	"sailing.planeOf": on(func(g struct{ DLatMinutes, DepartureMiles float64 }) (answer, error) {
		d, err := angle.Minutes(g.DLatMinutes)
		if err != nil {
			return nil, err
		}
		t, err := sailing.PlaneOf(d, miles(g.DepartureMiles))
		return triangle(t), err
	}),
	"sailing.planeAlong": on(func(g struct{ CourseDegrees, DLatMinutes float64 }) (answer, error) {
		c, err := angle.TrueDegrees(g.CourseDegrees)
		if err != nil {
			return nil, err
		}
		d, err := angle.Minutes(g.DLatMinutes)
		if err != nil {
			return nil, err
		}
		t, err := sailing.PlaneAlong(c, d)
		return triangle(t), err
	}),
	"sailing.traverse": on(func(g struct{ CourseDegrees, DistanceMiles []float64 }) (answer, error) {
		if len(g.CourseDegrees) != len(g.DistanceMiles) {
			return nil, fmt.Errorf("%d courses, %d distances", len(g.CourseDegrees), len(g.DistanceMiles))
		}
		var runs []sailing.Run
		for i := range g.CourseDegrees {
			run, err := runGiven{CourseDegrees: g.CourseDegrees[i], DistanceMiles: g.DistanceMiles[i]}.run()
			if err != nil {
				return nil, err
			}
			runs = append(runs, run)
		}
		t, err := sailing.NewTraverse(runs...)
		return answer{"courseMadeGoodDegrees": t.Course.Degrees(), "distanceMadeGoodMiles": t.Distance.NauticalMiles()}, err
	}),
	"sailing.departure": on(func(g struct{ LatitudeDegrees, DLongMinutes float64 }) (answer, error) {
		l, d, err := place(g.LatitudeDegrees, g.DLongMinutes/60)
		return answer{"departureMiles": sailing.DepartureOn(l, d).NauticalMiles()}, err
	}),
	"sailing.dLong": on(func(g struct{ LatitudeDegrees, DepartureMiles float64 }) (answer, error) {
		l, err := angle.LatitudeDegrees(g.LatitudeDegrees)
		if err != nil {
			return nil, err
		}
		d, err := sailing.DLongOn(l, miles(g.DepartureMiles))
		return answer{"dLongMinutes": d.Minutes()}, err
	}),
	"sailing.latitudeOf": on(func(g struct{ DepartureMiles, DLongMinutes float64 }) (answer, error) {
		d, err := angle.Minutes(g.DLongMinutes)
		if err != nil {
			return nil, err
		}
		l, err := sailing.LatitudeOf(miles(g.DepartureMiles), d)
		return answer{"latitudeDegrees": l.Degrees()}, err
	}),
	"sailing.midLatitude": between(func(from, to angle.Position, _ *sailing.Ellipsoid) (sailing.Worked, error) {
		return sailing.MidLatitude(from, to)
	}),
	"sailing.mercator": between(sailing.Mercator),
	"sailing.followMidLatitude": follow(func(from angle.Position, run sailing.Run, _ *sailing.Ellipsoid) (sailing.Worked, error) {
		return sailing.FollowMidLatitude(from, run)
	}),
	"sailing.followParallel": follow(func(from angle.Position, run sailing.Run, _ *sailing.Ellipsoid) (sailing.Worked, error) {
		return sailing.FollowParallel(from, run)
	}),
	"sailing.followMercator": follow(sailing.FollowMercator),
	"sailing.greatCircle": on(func(g struct{ From, To positionGiven }) (answer, error) {
		from, to, err := both(g.From, g.To)
		if err != nil {
			return nil, err
		}
		c, err := sailing.NewGreatCircle(from, to)
		if err != nil {
			return nil, err
		}
		north, _, _ := c.Vertices()
		return answer{
			"courseDegrees": c.Initial.Degrees(), "distanceMiles": c.Distance.NauticalMiles(),
			"vertexLatitudeDegrees": north.Position.Latitude.Degrees(),
		}, nil
	}),

	"current.madeGood": on(func(g struct{ CourseDegrees, SpeedKnots, SetDegrees, DriftKnots float64 }) (answer, error) {
		water, stream, err := motions(g.CourseDegrees, g.SpeedKnots, g.SetDegrees, g.DriftKnots)
		if err != nil {
			return nil, err
		}
		s, err := course.MadeGood(water, stream)
		return answer{"courseMadeGoodDegrees": s.Ground.Course.Degrees(), "speedMadeGoodKnots": s.Ground.Speed.Knots()}, err
	}),
	"current.toSteer": on(func(g struct{ TrackDegrees, SpeedKnots, SetDegrees, DriftKnots float64 }) (answer, error) {
		track, stream, err := motions(g.TrackDegrees, g.SpeedKnots, g.SetDegrees, g.DriftKnots)
		if err != nil {
			return nil, err
		}
		s, err := course.ToSteer(track.Course, track.Speed, stream)
		return answer{"courseDegrees": s.Water.Course.Degrees(), "speedMadeGoodKnots": s.Ground.Speed.Knots()}, err
	}),
	"current.toMakeGood": on(func(g struct{ TrackDegrees, SpeedMadeGoodKnots, SetDegrees, DriftKnots float64 }) (answer, error) {
		ground, stream, err := motions(g.TrackDegrees, g.SpeedMadeGoodKnots, g.SetDegrees, g.DriftKnots)
		if err != nil {
			return nil, err
		}
		s, err := course.ToMakeGood(ground, stream)
		return answer{"courseDegrees": s.Water.Course.Degrees(), "speedKnots": s.Water.Speed.Knots()}, err
	}),
	"current.setByVariation": on(func(g struct{ SetMagneticDegrees, VariationDegrees, DriftKnots, Hours float64 }) (answer, error) {
		m, err := angle.MagneticDegrees(g.SetMagneticDegrees)
		if err != nil {
			return nil, err
		}
		v, err := angle.Degrees(g.VariationDegrees)
		if err != nil {
			return nil, err
		}
		s := course.Stream{Set: variation.East(v).True(m), Rate: sailing.Speed(g.DriftKnots) * sailing.Knot}
		return answer{"setDegrees": s.Set.Degrees(), "distanceMiles": s.Rate.For(time.Duration(g.Hours * float64(time.Hour))).NauticalMiles()}, nil
	}),
	"leeway.correct": on(func(g struct {
		CompassDegrees, LeewayDegrees, DeviationDegrees, VariationDegrees float64
		WindOn                                                            string
	}) (answer, error) {
		w, err := with(g.VariationDegrees, g.DeviationDegrees)
		if err != nil {
			return nil, err
		}
		c, err := angle.CompassDegrees(g.CompassDegrees)
		if err != nil {
			return nil, err
		}
		h, err := course.FromCompass(c, w)
		if err != nil {
			return nil, err
		}
		leeway, err := angle.Degrees(g.LeewayDegrees)
		l := course.Leeway{Angle: leeway, WindOn: map[string]angle.Side{"port": angle.Port, "starboard": angle.Starboard}[g.WindOn]}
		return answer{"trueDegrees": h.True().Add(l.Deflection()).Degrees()}, err
	}),
	"leeway.toHead": on(func(g struct{ TrackDegrees, WindFromDegrees, LeewayDegrees, ErrorDegrees float64 }) (answer, error) {
		track, err := angle.TrueDegrees(g.TrackDegrees)
		if err != nil {
			return nil, err
		}
		wind, err := angle.TrueDegrees(g.WindFromDegrees)
		if err != nil {
			return nil, err
		}
		leeway, err := angle.Degrees(g.LeewayDegrees)
		if err != nil {
			return nil, err
		}
		l, err := course.LeewayOn(track, leeway, course.Wind{From: wind})
		if err != nil {
			return nil, err
		}
		w, err := with(0, g.ErrorDegrees)
		if err != nil {
			return nil, err
		}
		h, err := course.FromTrue(track.Add(-l.Deflection()), w)
		side := "starboard"
		if l.WindOn == angle.Port {
			side = "port"
		}
		return answer{"windOn": side, "headingDegrees": h.Compass().Degrees()}, err
	}),
}

func init() {
	for name, f := range sailings {
		operations[name] = f
	}
}

func miles(m float64) sailing.Distance { return sailing.Distance(m) * sailing.NauticalMile }

type runGiven struct{ CourseDegrees, DistanceMiles float64 }

func (g runGiven) run() (sailing.Run, error) {
	c, err := angle.TrueDegrees(g.CourseDegrees)
	return sailing.Run{Course: c, Distance: miles(g.DistanceMiles)}, err
}

func triangle(t sailing.Triangle) answer {
	return answer{
		"courseDegrees": t.Course.Degrees(), "distanceMiles": t.Distance.NauticalMiles(),
		"dLatMinutes": t.DLat.Minutes(), "departureMiles": t.Departure.NauticalMiles(),
	}
}

func figure(name string) (*sailing.Ellipsoid, error) {
	for _, e := range []*sailing.Ellipsoid{sailing.WGS84(), sailing.Clarke1866(), sailing.Sphere()} {
		if name == e.String() || name == "" {
			return e, nil
		}
	}
	return nil, fmt.Errorf("figure %q", name)
}

func figureAt(name string, latitude float64) (*sailing.Ellipsoid, angle.Latitude, error) {
	e, err := figure(name)
	if err != nil {
		return nil, angle.Latitude{}, err
	}
	l, err := angle.LatitudeDegrees(latitude)
	return e, l, err
}

type positionGiven struct{ LatitudeDegrees, LongitudeDegrees float64 }

func both(a, b positionGiven) (from, to angle.Position, err error) {
	if from, err = angle.PositionDegrees(a.LatitudeDegrees, a.LongitudeDegrees); err != nil {
		return from, to, err
	}
	to, err = angle.PositionDegrees(b.LatitudeDegrees, b.LongitudeDegrees)
	return from, to, err
}

func between(f func(from, to angle.Position, e *sailing.Ellipsoid) (sailing.Worked, error)) func(json.RawMessage) (answer, error) {
	return on(func(g struct {
		From, To positionGiven
		Figure   string
	}) (answer, error) {
		from, to, err := both(g.From, g.To)
		if err != nil {
			return nil, err
		}
		e, err := figure(g.Figure)
		if err != nil {
			return nil, err
		}
		w, err := f(from, to, e)
		return answer{"courseDegrees": w.Course.Degrees(), "distanceMiles": w.Distance.NauticalMiles()}, err
	})
}

func follow(f func(from angle.Position, run sailing.Run, e *sailing.Ellipsoid) (sailing.Worked, error)) func(json.RawMessage) (answer, error) {
	return on(func(g struct {
		From                         positionGiven
		CourseDegrees, DistanceMiles float64
		Figure                       string
	}) (answer, error) {
		from, _, err := both(g.From, g.From)
		if err != nil {
			return nil, err
		}
		run, err := runGiven{g.CourseDegrees, g.DistanceMiles}.run()
		if err != nil {
			return nil, err
		}
		e, err := figure(g.Figure)
		if err != nil {
			return nil, err
		}
		w, err := f(from, run, e)
		return answer{"latitudeDegrees": w.To.Latitude.Degrees(), "longitudeDegrees": w.To.Longitude.Degrees()}, err
	})
}

func motions(courseDegrees, knots, set, drift float64) (course.Motion, course.Stream, error) {
	c, err := angle.TrueDegrees(courseDegrees)
	if err != nil {
		return course.Motion{}, course.Stream{}, err
	}
	s, err := angle.TrueDegrees(set)
	return course.Motion{Course: c, Speed: sailing.Speed(knots) * sailing.Knot}, course.Stream{Set: s, Rate: sailing.Speed(drift) * sailing.Knot}, err
}
