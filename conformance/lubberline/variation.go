package lubberline

import (
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/variation"
)

// variations are the operations of package variation.
var variations = map[string]conformance.Operation{
	"variation.legend": conformance.On(func(g struct{ Legend string }) (conformance.Answer, error) {
		r, err := variation.ParseLegend(g.Legend)
		perYear, _ := r.Change.PerYear()
		return conformance.Answer{
			"variationDegrees":    r.Variation.Degrees(),
			"year":                float64(r.Year),
			"annualChangeMinutes": perYear.Minutes(),
		}, err
	}),
	"variation.project": conformance.On(func(g struct {
		Legend string
		Year   int
	}) (conformance.Answer, error) {
		r, err := variation.ParseLegend(g.Legend)
		if err != nil {
			return nil, err
		}
		p, err := r.InYear(g.Year)
		return conformance.Answer{
			"years":            p.Years,
			"changeMinutes":    p.Change.Minutes(),
			"variationDegrees": p.Variation.Degrees(),
			"text":             fmt.Sprintf("%.0v", p.Variation),
		}, err
	}),
	"variation.apply": conformance.On(func(g struct {
		MagneticDegrees     *float64
		TrueText, Variation string
	}) (conformance.Answer, error) {
		v, err := variation.Parse(g.Variation)
		if err != nil {
			return nil, err
		}
		if g.MagneticDegrees != nil {
			m, err := angle.MagneticDegrees(*g.MagneticDegrees)
			return conformance.Answer{"trueDegrees": v.True(m).Degrees()}, err
		}
		t, err := angle.ParseTrue(g.TrueText)
		m := v.Magnetic(t)
		return conformance.Answer{"magneticDegrees": m.Degrees(), "point": m.NearestPoint().String()}, err
	}),
	"variation.change": conformance.On(func(g struct{ From, To string }) (conformance.Answer, error) {
		from, err := variation.Parse(g.From)
		if err != nil {
			return nil, err
		}
		to, err := variation.Parse(g.To)
		return conformance.Answer{"changeDegrees": (to.Angle() - from.Angle()).Degrees()}, err
	}),
	"variation.nearestRose": conformance.On(func(g struct {
		Roses []struct {
			Position angle.Position
			Legend   string
		}
		Position angle.Position
		Year     int
	}) (conformance.Answer, error) {
		var roses []variation.ChartRose
		for _, r := range g.Roses {
			rose, err := variation.ParseLegend(r.Legend)
			if err != nil {
				return nil, err
			}
			roses = append(roses, variation.ChartRose{Position: r.Position, Rose: rose})
		}
		c, err := variation.NewChart("", roses...)
		if err != nil {
			return nil, err
		}
		v, err := c.VariationAt(g.Position, time.Date(g.Year, time.July, 1, 0, 0, 0, 0, time.UTC))
		return conformance.Answer{"variationDegrees": v.Degrees()}, err
	}),
}
