package lubberline

import (
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance"
	"lubberline.example/variation"
	"lubberline.example/wmm"
)

// roses are the operations that bring a rose to a day and compare it with a field model.
var roses = map[string]conformance.Operation{
	"variation.onDate": conformance.On(func(g struct {
		Legend, YearCount string
		Date              time.Time
	}) (conformance.Answer, error) {
		r, err := variation.ParseLegend(g.Legend)
		if err != nil {
			return nil, err
		}
		var count variation.YearCount
		switch g.YearCount {
		case "whole":
			count = variation.WholeYears
		case "decimal":
			count = variation.DecimalYears
		default:
			return nil, fmt.Errorf("year count %q", g.YearCount)
		}
		p, err := r.On(g.Date, count)
		return conformance.Answer{"years": p.Years, "variationDegrees": p.Variation.Degrees()}, err
	}),
	"variation.roseMinusModel": conformance.On(func(g struct {
		Legend, Model                     string
		Year                              int
		LatitudeDegrees, LongitudeDegrees float64
	}) (conformance.Answer, error) {
		r, err := variation.ParseLegend(g.Legend)
		if err != nil {
			return nil, err
		}
		p, err := angle.PositionDegrees(g.LatitudeDegrees, g.LongitudeDegrees)
		if err != nil {
			return nil, err
		}
		models := map[string]func() *wmm.Model{"WMM2025": wmm.WMM2025, "WMM2020": wmm.WMM2020}
		model := models[g.Model]
		if model == nil {
			return nil, fmt.Errorf("model %q", g.Model)
		}
		a, err := r.Audit(model(), p, time.Date(g.Year, time.January, 1, 0, 0, 0, 0, time.UTC))
		if err == nil {
			err = a.Now.Err
		}
		return conformance.Answer{"differenceDegrees": a.Now.Difference.Degrees()}, err
	}),
}
