package lubberline

import (
	"lubberline.example/angle"
	"lubberline.example/conformance"
)

// reciprocals are the operations that turn one direction, or one angle, into another form.
var reciprocals = map[string]conformance.Operation{
	"angle.reciprocal": conformance.On(func(g struct{ DirectionDegrees float64 }) (conformance.Answer, error) {
		d, err := angle.TrueDegrees(g.DirectionDegrees)
		return conformance.Answer{"reciprocalDegrees": d.Reciprocal().Degrees()}, err
	}),
	"angle.points": conformance.On(func(g struct{ Degrees float64 }) (conformance.Answer, error) {
		a, err := angle.Degrees(g.Degrees)
		return conformance.Answer{"points": a.Degrees() / angle.Point.Degrees()}, err
	}),
}
