package deviation

import (
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation/internal/ask"
)

// Details are the text on a card beside its figures. Leave empty what is not known.
type Details struct {
	Vessel   string    `json:"vessel,omitempty"`
	Compass  string    `json:"compass,omitempty"`  // which of the vessel's compasses
	Place    string    `json:"place,omitempty"`    // where the compass was swung
	Date     time.Time `json:"date,omitzero"`      // of the swing; zero if not known
	Adjuster string    `json:"adjuster,omitempty"` // who swung the compass
	Remarks  string    `json:"remarks,omitempty"`
}

// A Card is a deviation card, as posted beside the compass. It has the deviations at equal steps of
// heading, by compass and by magnetic heading.
type Card struct {
	Details
	Step       angle.Angle `json:"step"`       // from 1° to 45°
	ByCompass  []Entry     `json:"byCompass"`  // at equal steps of compass heading
	ByMagnetic []Entry     `json:"byMagnetic"` // at equal steps of magnetic heading
}

// AdjusterCaution stands under every card and under every analysis of coefficients.
const AdjusterCaution = "This checks a compass. Correcting it is the work of a compass adjuster, certified where the flag state requires it; after any correction the compass is swung again."

// NewCard returns the card of a source at a step, such as 10°, 15° or [angle.Point]. If the circle
// is not a multiple of the step, it returns an [*angle.RangeError]. If the source has no answer on
// a heading, it returns the source's error.
func NewCard(source Source, step angle.Angle, details Details) (*Card, error) {
	if step < angle.Degree || step > MaxGap || angle.Turn%step != 0 {
		return nil, &angle.RangeError{What: "step of a card in degrees", Value: step.Degrees(), Accepted: "1° to 45°, a whole number of times in 360°, such as 10°, 15° or a point, 11°15′"}
	}
	if ask.IsNil(source) {
		return nil, ask.ErrNoSource
	}
	card := &Card{Details: details, Step: step}
	for h := angle.Angle(0); h < angle.Turn; h += step {
		c := angle.CompassFrom(h)
		d, err := source.OnCompass(c)
		if err != nil {
			return nil, err
		}
		card.ByCompass = append(card.ByCompass, Entry{c, d.Magnetic(c), d})
		m := angle.MagneticFrom(h)
		if d, err = source.OnMagnetic(m); err != nil {
			return nil, err
		}
		card.ByMagnetic = append(card.ByMagnetic, Entry{d.Compass(m), m, d})
	}
	return card, nil
}
