package deviation

import (
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation/internal/ask"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/say"
)

// EightHeadings are the deviations on the eight principal compass headings, from
// which the coefficients are found by hand. East is positive.
type EightHeadings struct {
	N  angle.Angle `json:"N"`
	NE angle.Angle `json:"NE"`
	E  angle.Angle `json:"E"`
	SE angle.Angle `json:"SE"`
	S  angle.Angle `json:"S"`
	SW angle.Angle `json:"SW"`
	W  angle.Angle `json:"W"`
	NW angle.Angle `json:"NW"`
}

// CardinalHeadings are the deviations on the four cardinal compass headings. East
// is positive.
type CardinalHeadings struct {
	N angle.Angle `json:"N"`
	E angle.Angle `json:"E"`
	S angle.Angle `json:"S"`
	W angle.Angle `json:"W"`
}

// IntercardinalHeadings are the deviations on the four intercardinal (quadrantal)
// compass headings. East is positive.
type IntercardinalHeadings struct {
	NE angle.Angle `json:"NE"`
	SE angle.Angle `json:"SE"`
	SW angle.Angle `json:"SW"`
	NW angle.Angle `json:"NW"`
}

// A HandAnalysis is what the hand formulas give.
type HandAnalysis struct {
	// Coefficients are those found; the others are zero.
	Coefficients Coefficients `json:"coefficients"`

	// Found are the letters of the coefficients found, "ABCDE" from eight
	// headings.
	Found string `json:"found"`

	// Steps has one for each coefficient.
	Steps working.Steps `json:"steps,omitempty"`
}

// Working returns the analysis as it stands on the page, under [lubberline.example/deviation/AdjusterCaution].
func (h HandAnalysis) Working() working.Sheet {
	return working.Sheet{Title: "Coefficients by hand", Steps: h.Steps, Caution: AdjusterCaution}
}

// Eight returns the deviations that a source has on the eight principal compass
// headings. The errors are those of
// the source; if it is nil, a [*variation.MissingInputError].
func Eight(source Source) (EightHeadings, error) {
	if ask.IsNil(source) {
		return EightHeadings{}, ask.ErrNoSource
	}
	var e EightHeadings
	for i, to := range []*angle.Angle{&e.N, &e.NE, &e.E, &e.SE, &e.S, &e.SW, &e.W, &e.NW} {
		d, err := source.OnCompass(angle.CompassFrom(angle.Angle(i) * 45 * angle.Degree))
		if err != nil {
			return EightHeadings{}, err
		}
		*to = d.Angle()
	}
	return e, nil
}

// Analyse finds A to E by the rules for the hand:
//
//	A = mean of the eight
//	B = half of (E less W)
//	C = half of (N less S)
//	D = quarter of (NE and SW, less SE and NW)
//	E = quarter of (N and S, less E and W)
//
// (Handbook of Magnetic Compass Adjustment, formerly Pub. No. 226, chapter V,
// article 501; the rules from memory). A least-squares fit, [lubberline.example/deviation/swing.NewFit], uses all
// eight for B and C as well.
func (e EightHeadings) Analyse() HandAnalysis {
	var h hand
	h.add("A", 8, "mean of the eight", []term{{"N", e.N}, {"NE", e.NE}, {"E", e.E}, {"SE", e.SE}, {"S", e.S}, {"SW", e.SW}, {"W", e.W}, {"NW", e.NW}}, nil)
	h.add("B", 2, "half of E less W", []term{{"E", e.E}}, []term{{"W", e.W}})
	h.add("C", 2, "half of N less S", []term{{"N", e.N}}, []term{{"S", e.S}})
	h.add("D", 4, "quarter of NE and SW, less SE and NW", []term{{"NE", e.NE}, {"SW", e.SW}}, []term{{"SE", e.SE}, {"NW", e.NW}})
	h.add("E", 4, "quarter of N and S, less E and W", []term{{"N", e.N}, {"S", e.S}}, []term{{"E", e.E}, {"W", e.W}})
	return h.analysis()
}

// Analyse finds A, B, C and E by the same rules; D does not act on these
// headings and is not found. A is the mean of the four.
func (e CardinalHeadings) Analyse() HandAnalysis {
	var h hand
	h.add("A", 4, "mean of the four", []term{{"N", e.N}, {"E", e.E}, {"S", e.S}, {"W", e.W}}, nil)
	h.add("B", 2, "half of E less W", []term{{"E", e.E}}, []term{{"W", e.W}})
	h.add("C", 2, "half of N less S", []term{{"N", e.N}}, []term{{"S", e.S}})
	h.add("E", 4, "quarter of N and S, less E and W", []term{{"N", e.N}, {"S", e.S}}, []term{{"E", e.E}, {"W", e.W}})
	return h.analysis()
}

// Analyse finds A, B, C and D; E does not act on these headings and is not found.
// B is the sine of four points times half of NE less SW, and the same of SE less
// NW; C likewise of NE less SW and of NW less SE (Evans, Elementary Manual for
// the Deviations of the Compass in Iron Ships, 1870).
func (e IntercardinalHeadings) Analyse() HandAnalysis {
	var h hand
	h.add("A", 4, "mean of the four", []term{{"NE", e.NE}, {"SE", e.SE}, {"SW", e.SW}, {"NW", e.NW}}, nil)
	h.add("B", 2*math.Sqrt2, "sine of 45° by half of NE less SW, and by half of SE less NW", []term{{"NE", e.NE}, {"SE", e.SE}}, []term{{"SW", e.SW}, {"NW", e.NW}})
	h.add("C", 2*math.Sqrt2, "sine of 45° by half of NE less SW, and by half of NW less SE", []term{{"NE", e.NE}, {"NW", e.NW}}, []term{{"SW", e.SW}, {"SE", e.SE}})
	h.add("D", 4, "quarter of NE and SW, less SE and NW", []term{{"NE", e.NE}, {"SW", e.SW}}, []term{{"SE", e.SE}, {"NW", e.NW}})
	return h.analysis()
}

// term is the deviation on a heading by its name.
type term struct {
	name      string
	deviation angle.Angle
}

// hand collects the coefficients as they are worked.
type hand struct {
	found    strings.Builder
	values   map[string]angle.Angle
	workings working.Steps
}

// add works a coefficient: the sum of some deviations less that of others, over a
// divisor.
func (h *hand) add(letter string, divisor float64, rule string, plus, minus []term) {
	sum := 0.0
	var terms []string
	for _, t := range plus {
		sum += float64(t.deviation)
		terms = append(terms, t.name+" "+say.Signed(t.deviation))
	}
	for _, t := range minus {
		sum -= float64(t.deviation)
		terms = append(terms, "less "+t.name+" "+say.Signed(t.deviation))
	}
	value := harmonic.Round(sum / divisor)
	if h.values == nil {
		h.values = make(map[string]angle.Angle)
	}
	h.values[letter] = value
	h.found.WriteString(letter)
	h.workings = append(h.workings, working.Step{
		Key: letter, What: "Coefficient " + letter, Value: say.Signed(value), Number: value.Degrees(), Unit: working.DegreesEast,
		How: fmt.Sprintf("%s: %s", rule, strings.Join(terms, ", ")),
	})
}

func (h *hand) analysis() HandAnalysis {
	return HandAnalysis{
		Coefficients: Coefficients{h.values["A"], h.values["B"], h.values["C"], h.values["D"], h.values["E"]},
		Found:        h.found.String(),
		Steps:        h.workings,
	}
}
