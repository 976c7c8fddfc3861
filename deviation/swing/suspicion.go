package swing

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
)

// A Suspicion is an observation that does not agree with the others. It is a suggestion to
// look at the record. The data are not changed.
type Suspicion struct {
	Index       int         `json:"index"` // in the observations given
	Observation Observation `json:"observation"`

	// Expected is the deviation on that heading by the other observations.
	Expected deviation.Deviation `json:"expected"`

	// Slips are what may have happened, in words that programs can compare, the one
	// that fits best first; empty if nothing known fits.
	Slips []Slip `json:"slips,omitempty"`
}

// A Slip is a mistake in reading or writing down a swing. The words are those of package
// [lubberline.example/conformance/slip].
type Slip string

// The slips that are recognised.
const (
	// ReciprocalTaken: the bearing is 180° off.
	ReciprocalTaken Slip = "reciprocal-taken"

	// TensMisread: the bearing is 10° off, or 20°, up to 50°: the wrong figure
	// of the card was read, or the wrong one written down.
	TensMisread Slip = "tens-misread"

	// EastForWest: the deviation is right in size and has the wrong name.
	EastForWest Slip = "east-for-west"
)

// meaning says what may have happened, of several readings.
func (s Slip) meaning() string {
	switch s {
	case ReciprocalTaken:
		return "they are reversed, 180° off"
	case TensMisread:
		return "they may be misread by tens of degrees"
	case HeadingTransposed:
		return "two figures of the heading are exchanged"
	case EastForWest:
		return "they may be named the wrong way"
	}
	return "they do not go with the others"
}

// String says what is odd, and what may have happened.
func (s Suspicion) String() string {
	expected := deviation.East(s.Expected.Angle().Round(angle.Degree / 10))
	text := fmt.Sprintf("on %v the deviation is %v; from the other headings, expect %v", s.Observation.Heading, s.Observation.Deviation, expected)
	off := (s.Observation.Deviation.Angle() - s.Expected.Angle()).NormalizedSigned()
	for _, slip := range s.Slips {
		text += ". "
		switch slip {
		case ReciprocalTaken:
			text += "The bearing may be the reciprocal, 180° off"
		case TensMisread:
			text += fmt.Sprintf("The bearing may be misread by %d°", int(off.Abs().Round(10*angle.Degree)/angle.Degree))
		case HeadingTransposed:
			text += "Two figures of the heading may be exchanged: corrected, it fills the gap between the others"
		case EastForWest:
			text += "The deviation may be named the wrong way"
		}
	}
	return text
}

// suspicions returns the observations that do not agree with the others; see [Swing.Suspicions].
func suspicions(observations []Observation) []Suspicion {
	folded, reversed := foldReversed(observations)
	var out []Suspicion
	suspect := func(i int, expected, se float64) {
		observed := observations[i].Deviation.Angle().NormalizedSigned().Degrees()
		out = append(out, Suspicion{
			Index: i, Observation: observations[i],
			Expected: deviation.East(harmonic.Round(expected * float64(angle.Degree))).WithUncertainty(harmonic.Sigma(se * float64(angle.Degree))),
			Slips:    slips(observed, expected, se),
		})
	}
	judged := false
	if len(usedHeadings(observations, nil, deviation.ByCompass)) >= five+3 {
		d := newDesign(observations, folded)
		order, clean, f, s := d.agree(d.trimmed())
		judged = order != nil
		for at, i := range order {
			row := d.rows[i]
			if at < clean && !reversed[row] {
				continue
			}
			spread := 1 + f.leverage(d.x[i])
			suspect(row, f.at(&d.x[i]), max(s, d.floor[i])*math.Sqrt(spread))
		}
	}
	if !judged {
		for i, r := range reversed {
			if r {
				out = append(out, Suspicion{Index: i, Observation: observations[i], Expected: deviation.East(folded[i]), Slips: []Slip{ReciprocalTaken}})
			}
		}
	}
	if i, _, found := transposed(observations); found {
		at := slices.IndexFunc(out, func(s Suspicion) bool { return s.Index == i })
		if at < 0 {
			at = len(out)
			out = append(out, Suspicion{Index: i, Observation: observations[i], Expected: observations[i].Deviation})
		}
		out[at].Slips = append([]Slip{HeadingTransposed}, out[at].Slips...)
	}
	slices.SortFunc(out, func(a, b Suspicion) int { return a.Index - b.Index })
	return out
}

// foldReversed returns the deviations with those of more than 90° turned round, and
// which these are. Where all are, none is: then the direction compared with is wrong,
// not a reading.
func foldReversed(observations []Observation) (folded []angle.Angle, reversed []bool) {
	folded, reversed = make([]angle.Angle, len(observations)), make([]bool, len(observations))
	all := true
	for i, o := range observations {
		folded[i] = o.Deviation.Angle().NormalizedSigned()
		reversed[i] = folded[i].Abs() > deviation.MaxDeviation
		all = all && reversed[i]
	}
	for i := range folded {
		if reversed[i] = reversed[i] && !all; reversed[i] {
			folded[i] = (folded[i] - angle.Turn/2).NormalizedSigned()
		}
	}
	return folded, reversed
}

// slips are those that bring an observed deviation to within three standard
// errors, but at least a degree and a half, of what is expected.
func slips(observed, expected, se float64) []Slip {
	type candidate struct {
		slip Slip
		left float64 // what it leaves unexplained
	}
	var found []candidate
	try := func(slip Slip, left float64) {
		if left = math.Abs(math.Remainder(left, 360)); left <= max(3*se, 1.5) {
			found = append(found, candidate{slip, left})
		}
	}
	off := math.Remainder(observed-expected, 360)
	try(ReciprocalTaken, off-180)
	if tens := 10 * math.Round(off/10); tens != 0 && math.Abs(tens) <= 50 {
		try(TensMisread, off-tens)
	}
	try(EastForWest, observed+expected)
	slices.SortStableFunc(found, func(a, b candidate) int { return cmp.Compare(a.left, b.left) })
	var out []Slip
	for _, c := range found {
		out = append(out, c.slip)
	}
	return out
}
