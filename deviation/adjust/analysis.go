package adjust

import (
	"fmt"
	"slices"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/say"
)

// A Finding is what one coefficient says of the compass.
type Finding struct {
	Letter    string      `json:"letter"`    // A to E
	Value     angle.Angle `json:"value"`     // east positive
	Greatest  string      `json:"greatest"`  // on which headings it shows most, in words
	Cause     string      `json:"cause"`     // what makes it
	Corrector string      `json:"corrector"` // what an adjuster corrects it with
}

// An Analysis says what the coefficients of a compass mean.
type Analysis struct {
	Coefficients deviation.Coefficients `json:"coefficients"`       // those given
	Findings     []Finding              `json:"findings"`           // A to E
	Warnings     []working.Warning      `json:"warnings,omitempty"` // coefficients larger than is usual
	Caution      string                 `json:"caution"`            // [deviation.AdjusterCaution]
}

// Analyse says what each coefficient means, what makes it, and which corrector
// acts on it (Handbook of Magnetic Compass Adjustment, formerly Pub. No. 226,
// chapters III to V; cited from memory).
//
// The coefficients do not say all. The sluggish magnetism that a long heading
// leaves in iron, which shows as a deviation after a turn and then fades (called
// Gaussin error), looks like B and C in a swing that was made too fast, and so
// does a swing in one sense only: swing slowly, and both ways round.
func Analyse(k deviation.Coefficients) Analysis {
	a := Analysis{Coefficients: k, Caution: deviation.AdjusterCaution, Findings: []Finding{
		{"A", k.A, "the same on all headings", "a lubber line, pelorus or card out of line, or an error of the variation or of the direction compared with; seldom iron placed unsymmetrically", "none: set the lubber line fore and aft"},
		{"B", k.B, "on east and west", "permanent magnetism fore and aft, and vertical soft iron before or abaft the compass", "fore-and-aft magnets for the permanent part; a vertical soft-iron bar (Flinders bar) for the induced part"},
		{"C", k.C, "on north and south", "permanent magnetism athwartships; seldom vertical soft iron to one side", "athwartship magnets"},
		{"D", k.D, "on the intercardinal headings", "horizontal soft iron, symmetrical about the keel", "soft-iron spheres, or plates, either side of the compass"},
		{"E", k.E, "on the cardinal headings", "horizontal soft iron placed unsymmetrically", "the spheres, slewed; seldom needed"},
	}}
	deviations := harmonic.FromAngles(k.A, k.B, k.C, k.D, k.E)
	if most := deviations.Largest(); most > 20*angle.Degree {
		a.Warnings = append(a.Warnings, say.Warn(LargeDeviations, "deviations up to %.0f°: the approximate coefficients no longer hold well, use the exact ones", most.Degrees()))
	}
	if k.A.Abs() > 3*angle.Degree {
		a.Warnings = append(a.Warnings, say.Warn(LargeConstant, "A is large: look for a lubber line out of line or a wrong variation before anything else"))
	}
	return a
}

// Working returns the analysis as it stands on the page, under [deviation.AdjusterCaution].
func (a Analysis) Working() working.Sheet {
	s := working.Sheet{Title: "What the coefficients mean", Warnings: slices.Clone(a.Warnings), Caution: deviation.AdjusterCaution}
	for _, f := range a.Findings {
		s.Steps = append(s.Steps, working.Step{
			Key: f.Letter, What: "Coefficient " + f.Letter, Value: say.Signed(f.Value), Number: f.Value.Degrees(), Unit: working.DegreesEast,
			How: fmt.Sprintf("greatest %s; %s. Corrector: %s", f.Greatest, f.Cause, f.Corrector),
		})
	}
	return s
}
