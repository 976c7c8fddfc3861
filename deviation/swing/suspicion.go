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

// A Suspicion is an observation that does not agree with the others. Look at the record again; the
// data are not changed.
type Suspicion struct {
	Index       int         `json:"index"` // of the observation, from 0
	Observation Observation `json:"observation"`

	// Expected is the deviation on that heading by the other observations.
	Expected deviation.Deviation `json:"expected"`

	// Slips are the mistakes that would explain the reading, the best first. They are empty if no
	// common mistake explains it.
	Slips []Slip `json:"slips,omitempty"`
}

// A Slip is a mistake in reading or writing down a swing. Package
// [lubberline.example/conformance/slip] uses the same words.
type Slip string

// The slips that are recognised.
const (
	// ReciprocalTaken: the bearing is 180° off.
	ReciprocalTaken Slip = "reciprocal-taken"

	// TensMisread: the bearing is off by 10°, 20° or another ten, up to 50°. The wrong figure was
	// read or written down.
	TensMisread Slip = "tens-misread"

	// EastForWest: the deviation is right in size and has the wrong name.
	EastForWest Slip = "east-for-west"
)

// meaning says in words what may have happened, for several readings.
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

// foldReversed returns the deviations, with those above 90° turned by 180°, and marks these. If all
// are above 90°, it turns none: the direction compared with is then wrong, not a reading.
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

// slips returns the mistakes that explain an observed deviation. Without the mistake it is within
// three standard errors of the expected deviation, or within a degree and a half if that is more.
func slips(observed, expected, se float64) []Slip {
	type candidate struct {
		slip Slip
		left float64 // the part that stays unexplained
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
