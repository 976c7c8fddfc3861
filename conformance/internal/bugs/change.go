package bugs

import (
	"encoding/json"
	"errors"
	"math"
	"strings"

	"lubberline.example/conformance"
)

// given is the question of a case, as JSON gives it.
type given = map[string]any

// answer is the answer of an operation.
type answer = conformance.Answer

// A mistake answers a question wrongly, with the help of the correct operations.
type mistake func(ask asker, g given) (answer, error)

// An asker asks the correct operations.
type asker struct {
	operation string
	correct   map[string]conformance.Operation
}

// same asks the operation that the bug is in.
func (a asker) same(g given) (answer, error) { return a.other(a.operation, g) }

// other asks another operation.
func (a asker) other(operation string, g given) (answer, error) {
	data, err := json.Marshal(g)
	if err != nil {
		return nil, err
	}
	return a.correct[operation](data)
}

// question changes the question before it is asked.
func question(change func(given)) mistake {
	return func(ask asker, g given) (answer, error) {
		change(g)
		return ask.same(g)
	}
}

// before changes figures of the question. A path is a key, or keys joined with dots; a list is
// changed in all its entries.
func before(change func(float64) float64, paths ...string) mistake {
	return question(func(g given) { edit(g, change, paths...) })
}

// reply changes the answer. A refusal stays one.
func reply(change func(g given, a answer)) mistake {
	return func(ask asker, g given) (answer, error) {
		a, err := ask.same(g)
		if err == nil {
			change(g, a)
		}
		return a, err
	}
}

// after changes figures of the answer.
func after(change func(float64) float64, keys ...string) mistake {
	return reply(func(_ given, a answer) { edit(a, change, keys...) })
}

// accepts answers where the question must be refused. If kind is not empty, it does so for
// that kind of refusal only.
func accepts(kind string, lax func(given) answer) mistake {
	return func(ask asker, g given) (answer, error) {
		a, err := ask.same(g)
		if e, ok := errors.AsType[*conformance.Error](err); ok && e.Status == conformance.Refused && (kind == "" || e.Kind == kind) {
			return lax(g), nil
		}
		return a, err
	}
}

// refuses refuses a valid question if the condition holds.
func refuses(kind string, condition func(given) bool) mistake {
	return func(ask asker, g given) (answer, error) {
		if condition(g) {
			return nil, &conformance.Error{Status: conformance.Refused, Kind: kind, Reason: "refused without need"}
		}
		return ask.same(g)
	}
}

// texts changes a text of the question.
func texts(key string, pairs ...string) mistake {
	return question(func(g given) {
		if text, ok := g[key].(string); ok {
			g[key] = strings.NewReplacer(pairs...).Replace(text)
		}
	})
}

// edit changes the numbers at the paths. Numbers that are not there stay away.
func edit(g map[string]any, change func(float64) float64, paths ...string) {
	for _, path := range paths {
		key, rest, nested := strings.Cut(path, ".")
		if value, ok := g[key]; ok {
			if nested {
				within(value, func(g given) { edit(g, change, rest) })
			} else {
				g[key] = changed(value, change)
			}
		}
	}
}

// within visits an object, or each object of a list.
func within(value any, visit func(given)) {
	switch v := value.(type) {
	case given:
		visit(v)
	case []any:
		for _, x := range v {
			within(x, visit)
		}
	}
}

// changed is a number, or a list of numbers, with each number changed.
func changed(value any, change func(float64) float64) any {
	switch v := value.(type) {
	case float64:
		return change(v)
	case []float64:
		out := make([]float64, len(v))
		for i, x := range v {
			out[i] = change(x)
		}
		return out
	case []any:
		out := make([]any, len(v))
		for i, x := range v {
			out[i] = changed(x, change)
		}
		return out
	}
	return value
}

// number is the number at a path of a question or an answer, or 0.
func number(g map[string]any, path string) float64 {
	key, rest, nested := strings.Cut(path, ".")
	if inner, ok := g[key].(given); ok && nested {
		return number(inner, rest)
	}
	x, _ := g[key].(float64)
	return x
}

// list is the numbers of a list, or nil.
func list(g map[string]any, key string) []float64 {
	switch v := g[key].(type) {
	case []float64:
		return v
	case []any:
		var out []float64
		for _, x := range v {
			n, _ := x.(float64)
			out = append(out, n)
		}
		return out
	}
	return nil
}

// text is the text of a key, or "".
func text(g map[string]any, key string) string {
	s, _ := g[key].(string)
	return s
}

// clone is a question that may be changed without changing the other.
func clone(g given) given {
	out := given{}
	for key, value := range g {
		switch v := value.(type) {
		case given:
			out[key] = clone(v)
		case []any:
			entries := make([]any, len(v))
			for i, x := range v {
				if inner, ok := x.(given); ok {
					x = clone(inner)
				}
				entries[i] = x
			}
			out[key] = entries
		default:
			out[key] = v
		}
	}
	return out
}

// The changes of a number.

func negated(x float64) float64             { return -x }
func zero(float64) float64                  { return 0 }
func whole(x float64) float64               { return math.Round(x) }
func truncated(x float64) float64           { return math.Trunc(x) }
func inRadians(x float64) float64           { return x * math.Pi / 180 }
func opposite(x float64) float64            { return math.Mod(x+180, 360) }
func halfCircle(x float64) float64          { return math.Remainder(x, 360) }
func fullCircle(x float64) float64          { return math.Mod(x+360, 360) }
func otherWayRound(x float64) float64       { return math.Mod(360-x, 360) }
func fromEast(x float64) float64            { return math.Mod(450-x, 360) }
func times(f float64) func(float64) float64 { return func(x float64) float64 { return f * x } }
func plus(d float64) func(float64) float64  { return func(x float64) float64 { return x + d } }

// always is a change to one number.
func always(n float64) func(float64) float64 { return func(float64) float64 { return n } }

// minutesAsHundredths takes the minutes of a figure in degrees as hundredths: 4°15′ as 4.15°.
func minutesAsHundredths(x float64) float64 {
	whole, fraction := math.Modf(x)
	return whole + 0.6*fraction
}

// swap exchanges two values.
func swap(g map[string]any, a, b string) { g[a], g[b] = g[b], g[a] }

func sine(degrees float64) float64    { return math.Sin(degrees * math.Pi / 180) }
func cosine(degrees float64) float64  { return math.Cos(degrees * math.Pi / 180) }
func tangent(degrees float64) float64 { return math.Tan(degrees * math.Pi / 180) }

// direction is the direction of a vector, in degrees.
func direction(north, east float64) float64 {
	return fullCircle(math.Atan2(east, north) * 180 / math.Pi)
}

const statute = 1.609344 / 1.852 // nautical miles in a statute mile
