package deviation

import (
	"cmp"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/deviation/internal/harmonic"
)

// curveData is a curve as data.
type curveData struct {
	By           *HeadingKind  `json:"by"` // never guessed: reading returns an error if it is missing
	Coefficients []json.Number `json:"coefficientsArcseconds"`
	Variance     []json.Number `json:"varianceSquareArcseconds,omitempty"`
	Unobserved   []sectorData  `json:"unobserved,omitempty"`
}

// sectorData is a sector as data.
type sectorData struct {
	From angle.Angle `json:"from"`
	To   angle.Angle `json:"to"`
}

// The largest numbers of figures in a curve's data: those of an exact form, and of the variance
// twice the order of a fit.
const (
	maxCoefficients = 2*harmonic.MaxOrder + 1
	maxVariance     = 2*harmonic.MaxVarianceOrder + 1
)

// MarshalJSON returns the curve as data. A curve that is read back has exactly the same answers.
// The data has the coefficients A, B, C, D and E, then the sine and the cosine of each further
// multiple of the heading. They are in arc-seconds, east positive. If the uncertainty is stated,
// the coefficients of the variance follow in the same order, in square arc-seconds. Then come the
// sectors without observations. The zero value is null.
func (c Curve) MarshalJSON() ([]byte, error) {
	if c.isNone() {
		return []byte("null"), nil
	}
	data := curveData{By: &c.by, Coefficients: arcseconds(&c.function, 1)}
	if c.stated {
		data.Variance = arcseconds(&c.variance, 2)
	}
	for _, s := range c.gaps {
		data.Unobserved = append(data.Unobserved, sectorData{s.From, s.To})
	}
	return json.Marshal(data)
}

// UnmarshalJSON reads what MarshalJSON writes; null changes nothing. If the number of coefficients
// is even or above 21, it returns an [*Error]. It also does if the kind of heading is missing, or
// if a deviation exceeds 90°.
func (c *Curve) UnmarshalJSON(text []byte) error {
	if string(text) == "null" {
		return nil
	}
	var data curveData
	if err := json.Unmarshal(text, &data); err != nil {
		return err
	}
	function, err := fromArcseconds("coefficients", data.Coefficients, 1, maxCoefficients)
	if err != nil {
		return err
	}
	if data.By == nil {
		return &Error{Kind: NoCurve, Row: -1, Reason: "by is missing; give compass or magnetic, the heading by which the curve is kept"}
	}
	read, err := newCurve(*data.By, function)
	if err != nil {
		return err
	}
	if len(data.Variance) > 0 {
		variance, err := fromArcseconds("variance", data.Variance, 2, maxVariance)
		if err != nil {
			return err
		}
		if err := read.setVariance(variance); err != nil {
			return err
		}
	}
	for _, s := range data.Unobserved {
		read.gaps = append(read.gaps, harmonic.Sector{From: s.From.Normalized(), To: s.To.Normalized()})
	}
	*c = *read
	return nil
}

// A unit of Angle is 10⁻⁹ of an arc-second.
const unitExponent = 9

// arcseconds are a function's coefficients in arc-seconds to a power. To move the
// point of the decimal figure is exact, where a division would round.
func arcseconds(h *harmonic.Series, power int) []json.Number {
	var list []json.Number
	for _, units := range h.List(2*len(h.Sin) + 1) {
		exact := shifted(strconv.FormatFloat(units, 'e', -1, 64), -power*unitExponent)
		short := exact
		if x, err := strconv.ParseFloat(exact, 64); err == nil {
			short = strconv.FormatFloat(x, 'f', -1, 64)
		}
		// The plain figure is used if it reads back exactly, as nearly always.
		if back, err := strconv.ParseFloat(shifted(short, power*unitExponent), 64); err != nil || back != units {
			short = exact
		}
		list = append(list, json.Number(short))
	}
	return list
}

// fromArcseconds is the inverse of arcseconds.
func fromArcseconds(what string, list []json.Number, power, most int) (harmonic.Series, error) {
	if len(list)%2 == 0 || len(list) > most {
		return harmonic.Series{}, &Error{Kind: NoCurve, Row: -1, Reason: fmt.Sprintf("%d figures of its %s; give an odd number up to %d", len(list), what, most)}
	}
	units := make([]float64, len(list))
	for i, n := range list {
		var err error
		if units[i], err = strconv.ParseFloat(shifted(n.String(), power*unitExponent), 64); err != nil {
			return harmonic.Series{}, &Error{Kind: NoCurve, Row: -1, Reason: fmt.Sprintf("%[2]s″ is too large for its %[1]s", what, n)}
		}
	}
	return harmonic.From(units), nil
}

// hugeExponent is one that no float64 has.
const hugeExponent = 100_000

// shifted multiplies a decimal figure by a power of ten.
func shifted(figure string, places int) string {
	mantissa, exponent, _ := strings.Cut(strings.ToLower(figure), "e")
	n, err := strconv.Atoi(cmp.Or(exponent, "0"))
	if err != nil { // of a figure far outside what any float64 holds
		n = max(-hugeExponent, min(n, hugeExponent))
	}
	return mantissa + "e" + strconv.Itoa(n+places)
}
