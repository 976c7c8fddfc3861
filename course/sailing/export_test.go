package sailing

import "lubberline.example/angle"

// What tests check and no caller needs.

func (e *Ellipsoid) EquatorialRadius() Distance { return Distance(e.or().a) }

func (e *Ellipsoid) Flattening() float64 { return e.or().f }

func (g GreatCircle) LatitudeAt(longitude angle.Longitude) (angle.Latitude, bool) {
	return g.latitudeAt(longitude)
}
