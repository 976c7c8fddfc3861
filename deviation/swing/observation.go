package swing

import (
	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
)

// An Observation is the deviation that was found on one heading.
type Observation struct {
	// Heading is the vessel's heading by the compass at the time.
	Heading angle.Compass `json:"heading"`

	// Deviation is what was found. Its uncertainty is that of this observation
	// alone; what all observations of a swing have in common, such as the
	// uncertainty of the variation, stands in [Swing.Common].
	Deviation deviation.Deviation `json:"deviation"`

	// Step is the step to which the direction was read by the compass, such as 5°. If
	// zero, fits look for it in the deviations: those read to a step differ by
	// multiples of it. [Reduce] finds it in the readings.
	Step angle.Angle `json:"step,omitzero"`

	// Working says how it was found, where that is known.
	Working working.Steps `json:"working,omitempty"`
}

// magnetic returns the vessel's magnetic heading at the time.
func (o Observation) magnetic() angle.Magnetic { return o.Deviation.Magnetic(o.Heading) }

// heading returns the heading by which a curve is kept.
func (o Observation) heading(by deviation.HeadingKind) angle.Angle {
	if by == deviation.ByMagnetic {
		return o.magnetic().FromNorth()
	}
	return o.Heading.FromNorth()
}
