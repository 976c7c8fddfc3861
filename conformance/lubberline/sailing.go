package lubberline

import (
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/variation"
)

// sailings are the operations of package sailing and of streams and leeway.
var sailings = map[string]conformance.Operation{
	"sailing.rhumb": conformance.On(func(g struct{ From, To positionGiven }) (conformance.Answer, error) {
		from, to, err := both(g.From, g.To)
		if err != nil {
			return nil, err
		}
		run := sailing.WGS84().Rhumb(from, to)
		return conformance.Answer{"courseDegrees": run.Course.Degrees(), "distanceMetres": run.Distance.Metres()}, nil
	}),
	"sailing.followRhumb": conformance.On(func(g struct {
		From                          positionGiven
		CourseDegrees, DistanceMetres float64
	}) (conformance.Answer, error) {
		from, _, err := both(g.From, g.From)
		if err != nil {
			return nil, err
		}
		c, err := angle.TrueDegrees(g.CourseDegrees)
		if err != nil {
			return nil, err
		}
		p, err := sailing.WGS84().Follow(from, sailing.Run{Course: c, Distance: sailing.Distance(g.DistanceMetres)})
		return conformance.Answer{"latitudeDegrees": p.Latitude.Degrees(), "longitudeDegrees": p.Longitude.Degrees()}, err
	}),
	"sailing.meridionalParts": conformance.On(func(g struct {
		LatitudeDegrees float64
		Figure          string
	}) (conformance.Answer, error) {
		e, l, err := figureAt(g.Figure, g.LatitudeDegrees)
		return conformance.Answer{"parts": e.MeridionalParts(l)}, err
	}),
	"sailing.degree": conformance.On(func(g struct {
		LatitudeDegrees float64
		Figure          string
	}) (conformance.Answer, error) {
		e, l, err := figureAt(g.Figure, g.LatitudeDegrees)
		return conformance.Answer{"latitudeMetres": e.DegreeOfLatitude(l).Metres(), "longitudeMetres": e.DegreeOfLongitude(l).Metres()}, err
	}),
	"sailing.plane": conformance.On(func(g runGiven) (conformance.Answer, error) {
		run, err := g.run()
		if err != nil {
			return nil, err
		}
		t, err := sailing.Plane(run)
		return triangle(t), err
	}),
	"sailing.planeOf": conformance.On(func(g struct{ DLatMinutes, DepartureMiles float64 }) (conformance.Answer, error) {
		d, err := angle.Minutes(g.DLatMinutes)
		if err != nil {
			return nil, err
		}
		t, err := sailing.PlaneFromSides(d, miles(g.DepartureMiles))
		return triangle(t), err
	}),
	"sailing.planeAlong": conformance.On(func(g struct{ CourseDegrees, DLatMinutes float64 }) (conformance.Answer, error) {
		c, err := angle.TrueDegrees(g.CourseDegrees)
		if err != nil {
			return nil, err
		}
		d, err := angle.Minutes(g.DLatMinutes)
		if err != nil {
			return nil, err
		}
		t, err := sailing.PlaneFromCourse(c, d)
		return triangle(t), err
	}),
	"sailing.traverse": conformance.On(func(g struct{ CourseDegrees, DistanceMiles []float64 }) (conformance.Answer, error) {
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
		return conformance.Answer{
			"courseMadeGoodDegrees": t.Course.Degrees(), "distanceMadeGoodMiles": t.Distance.NauticalMiles(),
			"dLatMinutes": t.DLat.Minutes(), "departureMiles": t.Departure.NauticalMiles(),
		}, err
	}),
	"sailing.departure": conformance.On(func(g struct{ LatitudeDegrees, DLongMinutes float64 }) (conformance.Answer, error) {
		l, d, err := place(g.LatitudeDegrees, g.DLongMinutes/60)
		return conformance.Answer{"departureMiles": sailing.Departure(l, d).NauticalMiles()}, err
	}),
	"sailing.dLong": conformance.On(func(g struct{ LatitudeDegrees, DepartureMiles float64 }) (conformance.Answer, error) {
		l, err := angle.LatitudeDegrees(g.LatitudeDegrees)
		if err != nil {
			return nil, err
		}
		d, err := sailing.DLong(l, miles(g.DepartureMiles))
		return conformance.Answer{"dLongMinutes": d.Minutes()}, err
	}),
	"sailing.latitudeOf": conformance.On(func(g struct{ DepartureMiles, DLongMinutes float64 }) (conformance.Answer, error) {
		d, err := angle.Minutes(g.DLongMinutes)
		if err != nil {
			return nil, err
		}
		l, err := sailing.LatitudeFromDLong(miles(g.DepartureMiles), d)
		return conformance.Answer{"latitudeDegrees": l.Degrees()}, err
	}),
	"sailing.midLatitude": between(func(from, to angle.Position, _ *sailing.Ellipsoid) (sailing.Solution, error) {
		return sailing.MidLatitude(from, to)
	}),
	"sailing.mercator": between(sailing.Mercator),
	"sailing.followMidLatitude": follow(func(from angle.Position, run sailing.Run, _ *sailing.Ellipsoid) (sailing.Solution, error) {
		return sailing.FollowMidLatitude(from, run)
	}),
	"sailing.followParallel": follow(func(from angle.Position, run sailing.Run, _ *sailing.Ellipsoid) (sailing.Solution, error) {
		return sailing.FollowMidLatitude(from, run) // along a parallel, this is parallel sailing
	}),
	"sailing.followMercator": follow(sailing.FollowMercator),
	"sailing.greatCircle": conformance.On(func(g struct{ From, To positionGiven }) (conformance.Answer, error) {
		from, to, err := both(g.From, g.To)
		if err != nil {
			return nil, err
		}
		c, err := sailing.Sphere().GreatCircle(from, to)
		if err != nil {
			return nil, err
		}
		north, _, _ := c.Vertices()
		return conformance.Answer{
			"courseDegrees": c.Initial.Degrees(), "distanceMiles": c.Distance.NauticalMiles(),
			"vertexLatitudeDegrees": north.Position.Latitude.Degrees(),
		}, nil
	}),

	"current.madeGood": conformance.On(func(g struct{ CourseDegrees, SpeedKnots, SetDegrees, DriftKnots float64 }) (conformance.Answer, error) {
		water, flow, err := motions(g.CourseDegrees, g.SpeedKnots, g.SetDegrees, g.DriftKnots)
		if err != nil {
			return nil, err
		}
		s, err := stream.MadeGood(water, flow)
		return conformance.Answer{"courseMadeGoodDegrees": s.Ground.Course.Degrees(), "speedMadeGoodKnots": s.Ground.Speed.Knots()}, err
	}),
	"current.toSteer": conformance.On(func(g struct{ TrackDegrees, SpeedKnots, SetDegrees, DriftKnots float64 }) (conformance.Answer, error) {
		track, flow, err := motions(g.TrackDegrees, g.SpeedKnots, g.SetDegrees, g.DriftKnots)
		if err != nil {
			return nil, err
		}
		s, err := stream.CourseToSteer(track.Course, track.Speed, flow)
		return conformance.Answer{"courseDegrees": s.Water.Course.Degrees(), "speedMadeGoodKnots": s.Ground.Speed.Knots()}, err
	}),
	"current.toMakeGood": conformance.On(func(g struct{ TrackDegrees, SpeedMadeGoodKnots, SetDegrees, DriftKnots float64 }) (conformance.Answer, error) {
		ground, flow, err := motions(g.TrackDegrees, g.SpeedMadeGoodKnots, g.SetDegrees, g.DriftKnots)
		if err != nil {
			return nil, err
		}
		s, err := stream.CourseAndSpeedToSteer(ground, flow)
		return conformance.Answer{"courseDegrees": s.Water.Course.Degrees(), "speedKnots": s.Water.Speed.Knots()}, err
	}),
	"current.setByVariation": conformance.On(func(g struct{ SetMagneticDegrees, VariationDegrees, DriftKnots, Hours float64 }) (conformance.Answer, error) {
		m, err := angle.MagneticDegrees(g.SetMagneticDegrees)
		if err != nil {
			return nil, err
		}
		v, err := angle.Degrees(g.VariationDegrees)
		if err != nil {
			return nil, err
		}
		s := stream.Stream{Set: variation.East(v).True(m), Rate: sailing.Speed(g.DriftKnots) * sailing.Knot}
		return conformance.Answer{"setDegrees": s.Set.Degrees(), "distanceMiles": s.Rate.For(time.Duration(g.Hours * float64(time.Hour))).NauticalMiles()}, nil
	}),
	"leeway.correct": conformance.On(func(g struct {
		CompassDegrees, LeewayDegrees, DeviationDegrees, VariationDegrees float64
		WindOn                                                            string
	}) (conformance.Answer, error) {
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
		l := stream.Leeway{Angle: leeway, WindSide: angle.Side(g.WindOn)}
		return conformance.Answer{"trueDegrees": h.True().Add(l.Deflection()).Degrees()}, err
	}),
	"leeway.toHead": conformance.On(func(g struct{ TrackDegrees, WindFromDegrees, LeewayDegrees, ErrorDegrees float64 }) (conformance.Answer, error) {
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
		l, _, err := stream.LeewayOn(track, leeway, wind)
		if err != nil {
			return nil, err
		}
		w, err := with(0, g.ErrorDegrees)
		if err != nil {
			return nil, err
		}
		h, err := course.FromTrue(track.Add(-l.Deflection()), w)
		return conformance.Answer{"windOn": string(l.WindSide), "headingDegrees": h.Compass().Degrees()}, err
	}),
}

func miles(m float64) sailing.Distance { return sailing.Distance(m) * sailing.NauticalMile }

type runGiven struct{ CourseDegrees, DistanceMiles float64 }

func (g runGiven) run() (sailing.Run, error) {
	c, err := angle.TrueDegrees(g.CourseDegrees)
	return sailing.Run{Course: c, Distance: miles(g.DistanceMiles)}, err
}

func triangle(t sailing.Triangle) conformance.Answer {
	return conformance.Answer{
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
	switch name {
	case "Bessel 1841":
		return sailing.NewEllipsoid(name, 6377397.155, 1/299.15281)
	case "Krassowsky 1940":
		return sailing.NewEllipsoid(name, 6378245, 1/298.3)
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

func between(f func(from, to angle.Position, e *sailing.Ellipsoid) (sailing.Solution, error)) conformance.Operation {
	return conformance.On(func(g struct {
		From, To positionGiven
		Figure   string
	}) (conformance.Answer, error) {
		from, to, err := both(g.From, g.To)
		if err != nil {
			return nil, err
		}
		e, err := figure(g.Figure)
		if err != nil {
			return nil, err
		}
		w, err := f(from, to, e)
		return conformance.Answer{"courseDegrees": w.Course.Degrees(), "distanceMiles": w.Distance.NauticalMiles()}, err
	})
}

func follow(f func(from angle.Position, run sailing.Run, e *sailing.Ellipsoid) (sailing.Solution, error)) conformance.Operation {
	return conformance.On(func(g struct {
		From                         positionGiven
		CourseDegrees, DistanceMiles float64
		Figure                       string
	}) (conformance.Answer, error) {
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
		return conformance.Answer{"latitudeDegrees": w.To.Latitude.Degrees(), "longitudeDegrees": w.To.Longitude.Degrees()}, err
	})
}

func motions(courseDegrees, knots, set, drift float64) (stream.Motion, stream.Stream, error) {
	c, err := angle.TrueDegrees(courseDegrees)
	if err != nil {
		return stream.Motion{}, stream.Stream{}, err
	}
	s, err := angle.TrueDegrees(set)
	return stream.Motion{Course: c, Speed: sailing.Speed(knots) * sailing.Knot}, stream.Stream{Set: s, Rate: sailing.Speed(drift) * sailing.Knot}, err
}
