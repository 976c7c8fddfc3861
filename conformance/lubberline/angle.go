package lubberline

import (
	"fmt"
	"lubberline.example/angle"
	"lubberline.example/conformance"
)

// angles are the operations of package angle.
var angles = map[string]conformance.Operation{
	"angle.mean": conformance.On(func(g struct{ DirectionsDegrees []float64 }) (conformance.Answer, error) {
		var all []angle.True
		for _, degrees := range g.DirectionsDegrees {
			d, err := angle.TrueDegrees(degrees)
			if err != nil {
				return nil, err
			}
			all = append(all, d)
		}
		mean, _, err := angle.Mean(all...)
		return conformance.Answer{"meanDegrees": mean.Degrees()}, err
	}),
	"angle.parse": conformance.On(func(g struct{ Text string }) (conformance.Answer, error) {
		a, err := angle.Parse(g.Text)
		return conformance.Answer{"degrees": a.Degrees()}, err
	}),
	"angle.add": conformance.On(func(g struct{ Terms []string }) (conformance.Answer, error) {
		var total angle.Angle
		for _, term := range g.Terms {
			a, err := angle.Parse(term)
			if err != nil {
				return nil, err
			}
			total += a
		}
		half, err := total.Scale(0.5)
		return conformance.Answer{"sumDegrees": total.Degrees(), "halfDegrees": half.Degrees()}, err
	}),
	"angle.difference": conformance.On(func(g struct{ From, To string }) (conformance.Answer, error) {
		from, err := angle.ParseTrue(g.From)
		if err != nil {
			return nil, err
		}
		to, err := angle.ParseTrue(g.To)
		return conformance.Answer{"differenceDegrees": to.Sub(from).Degrees()}, err
	}),
	"angle.minutes": conformance.On(func(g struct{ Degrees float64 }) (conformance.Answer, error) {
		a, err := angle.Degrees(g.Degrees)
		return conformance.Answer{"text": fmt.Sprintf("%.1v", a), "minutes": (a.Abs() % angle.Degree).Minutes()}, err
	}),
	"angle.arcFromPoints": conformance.On(func(g struct{ Points string }) (conformance.Answer, error) {
		a, err := angle.Parse(g.Points)
		return conformance.Answer{"arcDegrees": a.Degrees(), "text": fmt.Sprintf("%.0d", a)}, err
	}),
	"angle.compassCard": conformance.On(func(g struct{ Names []string }) (conformance.Answer, error) {
		var all []float64
		for _, name := range g.Names {
			d, err := angle.ParseTrue(name)
			if err != nil {
				return nil, err
			}
			all = append(all, d.Degrees())
		}
		return conformance.Answer{"degrees": all}, nil
	}),
	"angle.directionFromText": conformance.On(func(g struct{ Text string }) (conformance.Answer, error) {
		d, err := angle.ParseTrue(g.Text)
		return conformance.Answer{
			"directionDegrees": d.Degrees(),
			"quadrantal":       fmt.Sprintf("%.0q", d),
			"point":            d.NearestPoint().String(),
		}, err
	}),
	"angle.relative": conformance.On(func(g struct{ HeadingDegrees, BearingDegrees float64 }) (conformance.Answer, error) {
		heading, err := angle.TrueDegrees(g.HeadingDegrees)
		if err != nil {
			return nil, err
		}
		bearing, err := angle.TrueDegrees(g.BearingDegrees)
		return conformance.Answer{"relativeDegrees": bearing.Relative(heading).Degrees()}, err
	}),
	"angle.bearing": conformance.On(func(g struct{ HeadingDegrees, RelativeDegrees float64 }) (conformance.Answer, error) {
		heading, err := angle.TrueDegrees(g.HeadingDegrees)
		if err != nil {
			return nil, err
		}
		relative, err := angle.RelativeDegrees(g.RelativeDegrees)
		return conformance.Answer{"bearingDegrees": heading.Bearing(relative).Degrees()}, err
	}),
	"angle.position": conformance.On(func(g struct{ Text string }) (conformance.Answer, error) {
		p, err := angle.ParsePosition(g.Text)
		return conformance.Answer{"latitudeDegrees": p.Latitude.Degrees(), "longitudeDegrees": p.Longitude.Degrees()}, err
	}),
}
