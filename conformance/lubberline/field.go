package lubberline

import (
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/deviation/sky"
	"lubberline.example/wmm"
)

// fields are the operations of package wmm, and the places of the Sun and the stars.
var fields = map[string]conformance.Operation{
	"field.evaluate": conformance.On(evaluate),
	"star.place": conformance.On(func(g struct {
		Star string
		placeGiven
	}) (conformance.Answer, error) {
		b, err := sky.Star(g.Star, g.UTC)
		if err != nil {
			return nil, err
		}
		return g.placeOf(b)
	}),
	"sun.place": conformance.On(func(g placeGiven) (conformance.Answer, error) {
		b, err := sky.Sun(g.UTC)
		if err != nil {
			return nil, err
		}
		return g.placeOf(b)
	}),
}

type placeGiven struct {
	UTC                               time.Time
	LatitudeDegrees, LongitudeDegrees float64
}

// placeOf is the place of a body, and where it is seen.
func (g placeGiven) placeOf(b sky.Body) (conformance.Answer, error) {
	p, err := angle.PositionDegrees(g.LatitudeDegrees, g.LongitudeDegrees)
	sight := b.From(p)
	return conformance.Answer{
		"declinationDegrees": b.Declination.Degrees(), "greenwichHourAngleDegrees": b.GreenwichHourAngle.Degrees(),
		"azimuthDegrees": sight.Azimuth.Degrees(), "altitudeDegrees": sight.Altitude.Degrees(),
	}, err
}

type evaluateGiven struct {
	Model                                                     string
	Year, HeightKilometres, LatitudeDegrees, LongitudeDegrees float64
}

// evaluate is a model's field at a place and a time.
func evaluate(g evaluateGiven) (conformance.Answer, error) {
	models := map[string]func() *wmm.Model{"WMM2025": wmm.WMM2025, "WMM2020": wmm.WMM2020}
	model := models[g.Model]
	if model == nil {
		return nil, &conformance.Error{Status: conformance.Declined, Reason: fmt.Sprintf("no model %q", g.Model)}
	}
	e, err := model().InYear(g.Year)
	if err != nil {
		return nil, err
	}
	p, err := angle.PositionDegrees(g.LatitudeDegrees, g.LongitudeDegrees)
	if err != nil {
		return nil, err
	}
	f, err := e.Field(p, 1000*g.HeightKilometres)
	if err != nil {
		return nil, err
	}
	d, err := f.D()
	if err != nil {
		return nil, err
	}
	i, err := f.I()
	return conformance.Answer{
		"declinationDegrees": d.Degrees(), "inclinationDegrees": i.Degrees(),
		"hNanotesla": f.H(), "fNanotesla": f.F(), "xNanotesla": f.X, "yNanotesla": f.Y, "zNanotesla": f.Z,
	}, err
}
