package adjust

import (
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
	Greatest  string      `json:"greatest"`  // on which headings it is greatest, in words
	Cause     string      `json:"cause"`     // what causes it
	Corrector string      `json:"corrector"` // what an adjuster corrects it with
}

// An Analysis says what the coefficients of a compass mean.
type Analysis struct {
	Coefficients deviation.Coefficients `json:"coefficients"`       // those given
	Findings     []Finding              `json:"findings"`           // A to E
	Warnings     []working.Warning      `json:"warnings,omitempty"` // coefficients larger than is usual
	Caution      string                 `json:"caution"`            // [deviation.AdjusterCaution]
}

// Analyse says what each coefficient means, what causes it, and which corrector acts on it
// (Handbook of Magnetic Compass Adjustment, formerly Pub. No. 226, chapters III to V; cited from
// memory).
//
// The coefficients do not show everything. Iron keeps some magnetism from a long time on one
// heading, which fades after a turn (Gaussin error). In a swing that is too fast, or in one
// direction only, it looks like B and C. Swing slowly, and both ways round.
func Analyse(k deviation.Coefficients) Analysis {
	a := Analysis{Coefficients: k, Caution: deviation.AdjusterCaution, Findings: []Finding{
		{"A", k.A, "the same on all headings", "a lubber line, pelorus or card out of line, or an error of the variation or of the direction compared with; seldom iron placed unsymmetrically", "none; set the lubber line fore and aft"},
		{"B", k.B, "on east and west", "permanent magnetism fore and aft, and vertical soft iron forward or aft of the compass", "fore-and-aft magnets for the permanent part, a vertical soft-iron bar (Flinders bar) for the induced part"},
		{"C", k.C, "on north and south", "permanent magnetism athwartships; seldom vertical soft iron to one side", "athwartship magnets"},
		{"D", k.D, "on the intercardinal headings", "horizontal soft iron, symmetrical about the keel", "soft-iron spheres, or plates, on either side of the compass"},
		{"E", k.E, "on the cardinal headings", "horizontal soft iron placed unsymmetrically", "the spheres, turned about the compass; seldom needed"},
	}}
	deviations := harmonic.FromAngles(k.A, k.B, k.C, k.D, k.E)
	if most := deviations.Largest(); most > 20*angle.Degree {
		a.Warnings = append(a.Warnings, working.Warn(LargeDeviations, "large-deviations", "the deviations reach %.0f°: the approximate coefficients no longer hold well; use the exact ones", most.Degrees()))
	}
	if k.A.Abs() > 3*angle.Degree {
		a.Warnings = append(a.Warnings, working.Warn(LargeConstant, "large-constant", "A is large: first look for a lubber line out of line or a wrong variation"))
	}
	return a
}

// explained adds to a step what causes a coefficient, and which corrector acts on it.
func explained(step working.Step) working.Step {
	switch step.Key {
	case "A":
		return step.Because("coefficient-a-greatest", "the same on all headings").
			Because("coefficient-a-cause", "a lubber line, pelorus or card out of line, or an error of the variation or of the direction compared with; seldom iron placed unsymmetrically").
			Because("coefficient-a-corrector", "corrector: none; set the lubber line fore and aft")
	case "B":
		return step.Because("coefficient-b-greatest", "greatest on east and west").
			Because("coefficient-b-cause", "permanent magnetism fore and aft, and vertical soft iron forward or aft of the compass").
			Because("coefficient-b-corrector", "corrector: fore-and-aft magnets for the permanent part, a vertical soft-iron bar (Flinders bar) for the induced part")
	case "C":
		return step.Because("coefficient-c-greatest", "greatest on north and south").
			Because("coefficient-c-cause", "permanent magnetism athwartships; seldom vertical soft iron to one side").
			Because("coefficient-c-corrector", "corrector: athwartship magnets")
	case "D":
		return step.Because("coefficient-d-greatest", "greatest on the intercardinal headings").
			Because("coefficient-d-cause", "horizontal soft iron, symmetrical about the keel").
			Because("coefficient-d-corrector", "corrector: soft-iron spheres, or plates, on either side of the compass")
	}
	return step.Because("coefficient-e-greatest", "greatest on the cardinal headings").
		Because("coefficient-e-cause", "horizontal soft iron placed unsymmetrically").
		Because("coefficient-e-corrector", "corrector: the spheres, turned about the compass; seldom needed")
}

// Working returns the analysis as a sheet, with [deviation.AdjusterCaution].
func (a Analysis) Working() working.Sheet {
	s := working.Sheet{Title: "What the coefficients mean", Warnings: slices.Clone(a.Warnings), Caution: deviation.AdjusterCaution}
	for _, f := range a.Findings {
		s.Steps = append(s.Steps, explained(working.Step{
			Key: f.Letter, What: "Coefficient " + f.Letter, Value: say.Signed(f.Value), Number: f.Value.Degrees(), Unit: working.DegreesEast,
		}))
	}
	return s
}
