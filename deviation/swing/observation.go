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

	// Deviation is the deviation found. Its uncertainty is for this observation alone.
	// [Swing.Common] has the uncertainty that all observations of a swing share, such as that of
	// the variation.
	Deviation deviation.Deviation `json:"deviation"`

	// Step is the step to which the direction was read by the compass, such as 5°. If zero, fits
	// look for it in the deviations, which then differ by multiples of the step. [Reduce] finds it
	// in the readings.
	Step angle.Angle `json:"step,omitzero"`

	// Working says how the deviation was found, if that is known.
	Working working.Steps `json:"working,omitempty"`
}

// magnetic returns the vessel's magnetic heading at the time.
func (o Observation) magnetic() angle.Magnetic { return o.Deviation.Magnetic(o.Heading) }

// heading returns the vessel's heading of the kind that the curve uses.
func (o Observation) heading(by deviation.HeadingKind) angle.Angle {
	if by == deviation.ByMagnetic {
		return o.magnetic().FromNorth()
	}
	return o.Heading.FromNorth()
}
