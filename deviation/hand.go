package deviation

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/ask"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/say"
)

// A HandAnalysis is the result of the hand rules.
type HandAnalysis struct {
	// Coefficients has the coefficients found; the others are zero.
	Coefficients Coefficients `json:"coefficients"`

	// Found are the letters of the coefficients found, "ABCDE" from eight
	// headings.
	Found string `json:"found"`

	// Steps has one for each coefficient.
	Steps working.Steps `json:"steps,omitempty"`
}

// Working returns the analysis as a sheet, with [AdjusterCaution].
func (h HandAnalysis) Working() working.Sheet {
	return working.Sheet{Title: "Coefficients by hand", Steps: h.Steps, Caution: AdjusterCaution}
}

// The headings of the hand rules, clockwise.
var (
	eightHeadings         = []string{"N", "NE", "E", "SE", "S", "SW", "W", "NW"}
	cardinalHeadings      = []string{"N", "E", "S", "W"}
	intercardinalHeadings = []string{"NE", "SE", "SW", "NW"}
)

// OnEightHeadings returns the deviations of a source on the eight principal compass headings, as
// [AnalyseByHand] takes them. The errors are those of the source. If the source is nil, it returns
// a [*lubberline.example/variation.MissingInputError].
func OnEightHeadings(source Source) (map[string]angle.Angle, error) {
	if ask.IsNil(source) {
		return nil, ask.ErrNoSource
	}
	found := make(map[string]angle.Angle, len(eightHeadings))
	for i, name := range eightHeadings {
		d, err := source.OnCompass(angle.CompassFrom(angle.Angle(i) * 45 * angle.Degree))
		if err != nil {
			return nil, err
		}
		found[name] = d.Angle()
	}
	return found, nil
}

// AnalyseByHand finds the coefficients by the hand rules, from the deviations on the compass
// headings N, NE, E, SE, S, SW, W and NW, east positive.
//
// From all eight headings it finds A to E:
//
//	A = mean of the eight
//	B = half of (E less W)
//	C = half of (N less S)
//	D = quarter of (NE and SW, less SE and NW)
//	E = quarter of (N and S, less E and W)
//
// (Handbook of Magnetic Compass Adjustment, formerly Pub. No. 226, chapter V, article 501; the
// rules from memory). A least-squares fit, [lubberline.example/deviation/swing.NewFit], uses all
// eight for B and C as well.
//
// From the cardinal headings N, E, S and W alone it finds A, B, C and E by the same rules. D does
// not act on these headings.
//
// From the intercardinal headings NE, SE, SW and NW alone it finds A, B, C and D. E does not act on
// these headings. B is half of sin 45° times the sum of (NE minus SW) and (SE minus NW). C is half
// of sin 45° times the sum of (NE minus SW) and (NW minus SE). The source is Evans, Elementary
// Manual for the Deviations of the Compass in Iron Ships, 1870.
//
// If the headings are not one of these three sets, it returns an [*Error].
func AnalyseByHand(deviations map[string]angle.Angle) (HandAnalysis, error) {
	h := hand{given: deviations}
	switch {
	case h.are(eightHeadings):
		h.mean(eightHeadings)
		h.cardinal()
		h.quadrantal()
		h.cardinalE()
	case h.are(cardinalHeadings):
		h.mean(cardinalHeadings)
		h.cardinal()
		h.cardinalE()
	case h.are(intercardinalHeadings):
		h.mean(intercardinalHeadings)
		h.intercardinal()
		h.quadrantal()
	default:
		return HandAnalysis{}, &Error{Kind: WrongHeadings, By: ByCompass, Row: -1, Reason: fmt.Sprintf("the headings are %s; give all of N, NE, E, SE, S, SW, W, NW, or N, E, S, W alone, or NE, SE, SW, NW alone", h.names())}
	}
	return h.HandAnalysis, nil
}

// hand collects the coefficients as they are found.
type hand struct {
	HandAnalysis
	given map[string]angle.Angle
}

// are reports whether the given headings are those named.
func (h *hand) are(names []string) bool {
	for _, name := range names {
		if _, ok := h.given[name]; !ok {
			return false
		}
	}
	return len(h.given) == len(names)
}

// names lists the given headings for an error.
func (h *hand) names() string {
	if len(h.given) == 0 {
		return "missing"
	}
	var names []string
	for name := range h.given {
		names = append(names, fmt.Sprintf("%.20q", name))
	}
	slices.Sort(names)
	return strings.Join(names[:min(len(names), 12)], ", ")
}

// mean finds A of some headings.
func (h *hand) mean(headings []string) {
	step, figures := h.coefficient(&h.Coefficients.A, "A", float64(len(headings)), headings, nil)
	switch len(headings) {
	case 8:
		step = step.Because("by-hand-mean-of-eight", "mean of the eight: N %s, NE %s, E %s, SE %s, S %s, SW %s, W %s, NW %s", figures...)
	default:
		if headings[0] == "N" {
			step = step.Because("by-hand-mean-of-cardinals", "mean of the four: N %s, E %s, S %s, W %s", figures...)
		} else {
			step = step.Because("by-hand-mean-of-intercardinals", "mean of the four: NE %s, SE %s, SW %s, NW %s", figures...)
		}
	}
	h.Steps = append(h.Steps, step)
}

// cardinal finds B and C of the cardinal headings.
func (h *hand) cardinal() {
	b, figures := h.coefficient(&h.Coefficients.B, "B", 2, []string{"E"}, []string{"W"})
	h.Steps = append(h.Steps, b.Because("by-hand-half-of-east-less-west", "half of E less W: E %s, less W %s", figures...))
	c, figures := h.coefficient(&h.Coefficients.C, "C", 2, []string{"N"}, []string{"S"})
	h.Steps = append(h.Steps, c.Because("by-hand-half-of-north-less-south", "half of N less S: N %s, less S %s", figures...))
}

// cardinalE finds E of the cardinal headings.
func (h *hand) cardinalE() {
	e, figures := h.coefficient(&h.Coefficients.E, "E", 4, []string{"N", "S"}, []string{"E", "W"})
	h.Steps = append(h.Steps, e.Because("by-hand-quarter-of-cardinals", "quarter of N and S, less E and W: N %s, S %s, less E %s, less W %s", figures...))
}

// intercardinal finds B and C of the intercardinal headings.
func (h *hand) intercardinal() {
	b, figures := h.coefficient(&h.Coefficients.B, "B", 2*math.Sqrt2, []string{"NE", "SE"}, []string{"SW", "NW"})
	h.Steps = append(h.Steps, b.Because("by-hand-intercardinal-b", "sine of 45° by half of NE less SW, and by half of SE less NW: NE %s, SE %s, less SW %s, less NW %s", figures...))
	c, figures := h.coefficient(&h.Coefficients.C, "C", 2*math.Sqrt2, []string{"NE", "NW"}, []string{"SW", "SE"})
	h.Steps = append(h.Steps, c.Because("by-hand-intercardinal-c", "sine of 45° by half of NE less SW, and by half of NW less SE: NE %s, NW %s, less SW %s, less SE %s", figures...))
}

// quadrantal finds D of the intercardinal headings.
func (h *hand) quadrantal() {
	d, figures := h.coefficient(&h.Coefficients.D, "D", 4, []string{"NE", "SW"}, []string{"SE", "NW"})
	h.Steps = append(h.Steps, d.Because("by-hand-quarter-of-intercardinals", "quarter of NE and SW, less SE and NW: NE %s, SW %s, less SE %s, less NW %s", figures...))
}

// coefficient finds a coefficient: the deviations on some headings less those on others, over a
// divisor. It returns the step and the deviations as printed.
func (h *hand) coefficient(to *angle.Angle, letter string, divisor float64, plus, minus []string) (working.Step, []any) {
	sum := 0.0
	var figures []any
	for _, name := range plus {
		sum += float64(h.given[name])
		figures = append(figures, say.Signed(h.given[name]))
	}
	for _, name := range minus {
		sum -= float64(h.given[name])
		figures = append(figures, say.Signed(h.given[name]))
	}
	*to = harmonic.Round(sum / divisor)
	h.Found += letter
	return working.Step{Key: letter, What: "Coefficient " + letter, Value: say.Signed(*to), Number: to.Degrees(), Unit: working.DegreesEast}, figures
}
