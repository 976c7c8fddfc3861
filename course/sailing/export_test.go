package sailing

import "lubberline.example/angle"

// What tests check and no caller needs.

const (
	Kilometre = 1000 * Metre
	Foot      = Distance(0.3048)
)

func (e *Ellipsoid) EquatorialRadius() Distance { return Distance(e.or().a) }

func (e *Ellipsoid) Flattening() float64 { return e.or().f }

func (e *Ellipsoid) MeridianArc(latitude angle.Latitude) Distance { return e.meridianArc(latitude) }

func (g GreatCircle) LatitudeAt(longitude angle.Longitude) (angle.Latitude, bool) {
	d := g.Figure.or().start(g.From, g.Initial)
	return d.onMeridian(longitude).Latitude, !d.isMeridian()
}

func (g GreatCircle) OnLeg(d Distance) bool { return g.onLeg(d) }
