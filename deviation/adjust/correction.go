package adjust

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// A Correction is a corrector that stands a stated way. It changes the deviation by a stated
// amount, which may be a part of a coefficient. Standing the wrong way it doubles what it should
// remove. Horizontal magnets lie below the card or above it; beside it their red ends act the other
// way.
type Correction struct {
	Corrector Corrector `json:"corrector"`
	Way       Way       `json:"way"`

	// Amount is the size of the change, from 0° to 90°. Magnets and the Flinders bar change B or C,
	// and spheres change the quadrantal deviation. A heeling magnet changes the deviation on north
	// by the amount for each degree of heel.
	Amount angle.Angle `json:"amount"`

	// Slew is the angle by which the spheres are turned from their way, clockwise from above,
	// −45° to 45°. The other correctors have none.
	Slew angle.Angle `json:"slew,omitzero"`

	// Dip is the magnetic dip at the place, positive down. Only a Flinders bar needs it.
	Dip angle.Angle `json:"dip,omitzero"`
}

// Adds returns what a correction adds to the coefficients, and to the heeling coefficient.
//
// If the corrector is unknown, or the way is not one of its two, it returns an [*angle.ParseError].
// If the amount, the slew or the dip of a Flinders bar is out of bounds, it returns an
// [*angle.RangeError]. At a dip of zero a Flinders bar does nothing, and Adds returns a
// [*FieldError].
func (c Correction) Adds() (deviation.Coefficients, Heeling, error) {
	var k deviation.Coefficients
	if err := c.check(); err != nil {
		return k, 0, err
	}
	amount := c.Amount
	if c.Way == ways[c.Corrector][0] {
		amount = -amount // it removes a positive coefficient
	}
	switch c.Corrector {
	case ForeAndAftMagnets:
		k.B = amount
	case AthwartshipMagnets:
		k.C = amount
	case FlindersBar:
		if k.B = amount; c.Dip < 0 {
			k.B = -amount
		}
	case Spheres:
		s, cos := (2 * c.Slew).SinCos()
		k.D, k.E = angle.Must(amount.Scale(cos)), angle.Must(amount.Scale(s)) // no larger than the amount
	case HeelingMagnet:
		return k, Heeling(amount.Degrees()), nil
	}
	return k, 0, nil
}

// check returns an error for a correction that no corrector makes.
func (c Correction) check() error {
	two, known := ways[c.Corrector]
	switch {
	case !known:
		return &angle.ParseError{What: "corrector", Input: string(c.Corrector), Kind: angle.UnknownWord, Want: "fore-and-aft-magnets, athwartship-magnets, spheres, flinders-bar or heeling-magnet"}
	case c.Way != two[0] && c.Way != two[1]:
		return &angle.ParseError{What: "way of the " + string(c.Corrector), Input: string(c.Way), Kind: angle.UnknownWord, Want: fmt.Sprintf("%s or %s", two[0], two[1])}
	case c.Amount < 0 || c.Amount > deviation.MaxDeviation:
		return &angle.RangeError{What: "amount of a correction in degrees", Value: c.Amount.Degrees(), Accepted: "0 to 90; the way gives the sign"}
	case c.Slew.Abs() > 45*angle.Degree:
		return &angle.RangeError{What: "slew of the spheres in degrees", Value: c.Slew.Degrees(), Accepted: "−45 to 45 from abeam, or from ahead and astern"}
	case c.Slew != 0 && c.Corrector != Spheres:
		return &angle.RangeError{What: "slew of the " + string(c.Corrector) + " in degrees", Value: c.Slew.Degrees(), Accepted: "0; only spheres are slewed"}
	case c.Corrector == FlindersBar && c.Dip == 0:
		return &FieldError{Reason: "the dip is 0°, where nothing is induced in a Flinders bar; give the dip of the place"}
	case c.Corrector == FlindersBar && c.Dip.Abs() >= 90*angle.Degree:
		return &angle.RangeError{What: "dip in degrees", Value: c.Dip.Degrees(), Accepted: "less than 90 up or down"}
	}
	return nil
}

// After returns the curve that some corrections should leave: it adds what they change to the
// coefficients. Coefficients above E stay as they are. Use it for a residual card, with
// [deviation.NewCard], and with [Compare].
//
// It is a prediction. Real correctors act on each other, and no setting is exact: swing the compass
// again. The uncertainty of the curve is unknown. Adding coefficients as angles leaves out their
// products. If no deviation exceeds 10°, the curve differs from that of the forces by less than
// half a degree; with larger deviations, by more. [Forces.Corrected] adds the forces.
//
// If the curve is nil or has deviations above 90° after, it returns a [*deviation.Error]. If
// the corrections add up to more than a hundred turns, it returns an [*angle.RangeError]. The other
// errors are those of [Correction.Adds].
func After(before *deviation.Curve, corrections ...Correction) (*deviation.Curve, error) {
	ask := func() (deviation.Deviation, error) { return before.OnCompass(angle.Compass{}) }
	if before.By() == deviation.ByMagnetic {
		ask = func() (deviation.Deviation, error) { return before.OnMagnetic(angle.Magnetic{}) }
	}
	if _, err := ask(); err != nil { // the curve is nil or zero
		return nil, err
	}
	k := before.Coefficients()
	for _, c := range corrections {
		adds, _, err := c.Adds()
		if err != nil {
			return nil, err
		}
		k.B, k.C, k.D, k.E = k.B+adds.B, k.C+adds.C, k.D+adds.D, k.E+adds.E
		if most := max(k.B.Abs(), k.C.Abs(), k.D.Abs(), k.E.Abs()); most > 100*angle.Turn {
			return nil, &angle.RangeError{What: "sum of corrections in degrees", Value: most.Degrees(), Accepted: "up to 36000"}
		}
	}
	list := []angle.Angle{k.A, k.B, k.C, k.D, k.E}
	for n := 3; n <= before.Order(); n++ {
		sine, cosine := before.Harmonic(n)
		list = append(list, sine, cosine)
	}
	return deviation.NewCurve(before.By(), list, nil, nil)
}

// Corrected returns the forces after some corrections at a place. Magnets change the permanent
// part, a Flinders bar the induced part, and spheres D and E. Then [Forces.At] predicts the
// deviation at another place: what was corrected by the wrong kind of corrector comes back there.
//
// The amount of a correction is an angle whose sine is the change of the exact coefficient. The
// dip is that of the place; the dip of a Correction is not used. A heeling magnet changes nothing
// upright. The errors are those of [Forces.At] and [Correction.Adds].
func (f Forces) Corrected(at EarthField, corrections ...Correction) (Forces, error) {
	h, z, err := components(at)
	if err != nil {
		return Forces{}, err
	}
	for _, c := range corrections {
		if c.Dip, err = at.I(); err != nil {
			return Forces{}, &FieldError{fmt.Sprintf("no inclination: %v", err), err}
		}
		adds, _, err := c.Adds()
		if err != nil {
			return Forces{}, err
		}
		switch b := adds.B.Sin(); c.Corrector {
		case FlindersBar:
			f.InducedAhead += b * h / z
		default:
			f.PermanentAhead += b * h
		}
		f.PermanentStarboard += adds.C.Sin() * h
		f.D += adds.D.Sin()
		f.E += adds.E.Sin()
	}
	if _, err := f.At(at); err != nil {
		return Forces{}, err
	}
	return f, nil
}
