package main

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"

	"lubberline.example/conformance"
)

// slips are what goes wrong, each in the operations that it would go wrong in.
var slips = map[string]func(map[string]conformance.Operation){
	// West added where it is to be subtracted.
	"variation-sign": func(o map[string]conformance.Operation) {
		for _, name := range []string{"course.convert", "course.bearing", "check.bearing"} {
			o[name] = changed(o[name], func(given map[string]any) { negate(given, "variationDegrees") })
		}
	},

	// The table entered with the magnetic heading instead of the compass heading.
	"deviation-on-the-wrong-heading": func(o map[string]conformance.Operation) {
		o["deviation.lookup"] = changed(o["deviation.lookup"], func(given map[string]any) {
			given["by"] = map[any]string{"compass": "magnetic", "magnetic": "compass"}[given["by"]]
		})
	},

	// The annual change left out.
	"annual-change-forgotten": func(o map[string]conformance.Operation) {
		legend := o["variation.legend"]
		o["variation.project"] = func(given []byte) (conformance.Answer, error) {
			var g map[string]any
			if err := json.Unmarshal(given, &g); err != nil {
				return nil, err
			}
			data, err := json.Marshal(map[string]any{"legend": g["legend"]})
			if err != nil {
				return nil, err
			}
			return legend(data)
		}
	},

	// Minutes carried at a hundred.
	"minutes-carried-at-100": func(o map[string]conformance.Operation) {
		o["angle.add"] = conformance.On(func(g struct{ Terms []string }) (conformance.Answer, error) {
			hundredths := 0.0
			for _, term := range g.Terms {
				hundredths += 100*figure(term, "°", 0) + figure(term, "'′", 1)
			}
			degrees := math.Trunc(hundredths/100) + math.Mod(hundredths, 100)/60
			return conformance.Answer{"sumDegrees": degrees, "halfDegrees": degrees / 2}, nil
		})
	},

	// The plain mean of the figures.
	"mean-across-north": func(o map[string]conformance.Operation) {
		o["angle.mean"] = conformance.On(func(g struct{ DirectionsDegrees []float64 }) (conformance.Answer, error) {
			sum := 0.0
			for _, d := range g.DirectionsDegrees {
				sum += d
			}
			return conformance.Answer{"meanDegrees": sum / float64(len(g.DirectionsDegrees))}, nil
		})
	},

	// South taken for north, or west for east.
	"wrong-hemisphere": func(o map[string]conformance.Operation) {
		for _, name := range []string{"sailing.rhumb", "sailing.midLatitude", "field.evaluate", "sun.place"} {
			o[name] = changed(o[name], func(given map[string]any) {
				negate(given, "longitudeDegrees")
				for _, end := range []string{"from", "to"} {
					if p, ok := given[end].(map[string]any); ok {
						negate(p, "longitudeDegrees")
					}
				}
			})
		}
	},
}

// changed is an operation that is given something else.
func changed(operation conformance.Operation, change func(map[string]any)) conformance.Operation {
	return func(given []byte) (conformance.Answer, error) {
		var g map[string]any
		if err := json.Unmarshal(given, &g); err != nil {
			return nil, err
		}
		change(g)
		data, err := json.Marshal(g)
		if err != nil {
			return nil, err
		}
		return operation(data)
	}
}

// negate changes the sign of a number, if there is one.
func negate(given map[string]any, key string) {
	if x, ok := given[key].(float64); ok {
		given[key] = -x
	}
}

// figure is the number before a mark in a term such as 7°38', or after another mark.
func figure(term, marks string, field int) float64 {
	parts := strings.FieldsFunc(term, func(r rune) bool { return strings.ContainsRune("°'′ ", r) })
	if field >= len(parts) || !strings.ContainsAny(term, marks) {
		return 0
	}
	x, err := strconv.ParseFloat(parts[field], 64)
	if err != nil {
		return 0
	}
	return x
}
