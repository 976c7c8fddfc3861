package sailing

import (
	"math"

	"lubberline.example/angle"
)

// A Run is a course and the distance along it.
type Run struct {
	Course   angle.True `json:"course"`   // clockwise from true north
	Distance Distance   `json:"distance"` // below zero leads the other way, for [Ellipsoid.Follow]
}

// String returns the run as 235°T 12.5 M.
func (r Run) String() string { return r.Course.String() + " " + r.Distance.String() }

// Rhumb returns the rhumb line from one position to another, the line of constant
// course. It takes the shorter way round in longitude, or east if both are equally long. On
// WGS84 it is good to a few nanometres in a thousand kilometres.
//
// Between a pole and any other place it is the meridian, with the course 000° or 180°. From a
// position to itself the distance is zero and the course 000°.
//
// With the difference of longitude Δλ, of isometric latitude (meridional parts) Δψ and of
// meridian arc Δm, course = atan(Δλ/Δψ) and distance = Δm sec course. The differences lose no
// digits where the latitudes are close.
func (e *Ellipsoid) Rhumb(from, to angle.Position) Run {
	e = e.or()
	lat1, lat2 := from.Latitude.Angle(), to.Latitude.Angle()
	lambda := to.Longitude.Sub(from.Longitude).Radians()
	if lat1 == lat2 {
		course := angle.True{}
		switch {
		case lat1.Abs() == 90*angle.Degree || lambda == 0:
			return Run{}
		case lambda > 0:
			course = angle.TrueFrom(90 * angle.Degree)
		default:
			course = angle.TrueFrom(270 * angle.Degree)
		}
		return Run{course, Distance(math.Abs(lambda) * e.parallel(lat1))}
	}
	psi, m := e.isometric(lat2, lat1), e.arc(lat1, lat2)
	direction, err := angle.Atan2(lambda, psi)
	if err != nil {
		direction = 0 // the latitudes differ, so that this can't be
	}
	var length float64
	if math.Abs(lambda) < math.Abs(psi) {
		length = math.Abs(m) * hypotenuse(lambda/psi)
	} else {
		length = math.Abs(lambda*(m/psi)) * hypotenuse(psi/lambda)
	}
	return Run{angle.TrueFrom(direction), Distance(length)}
}

// hypotenuse is √(1 + x²) for x within ±1, where nothing overflows.
func hypotenuse(x float64) float64 { return math.Sqrt(1 + x*x) }

// Follow returns the position that a run along a rhumb line leads to. A distance
// below zero leads the other way. A run along a meridian may end at the pole. If any other
// run reaches a pole or goes over it, Follow returns an [*Error] of the kind [OverPole]. If the
// distance is NaN or infinite, it returns an [*angle.RangeError].
func (e *Ellipsoid) Follow(from angle.Position, run Run) (angle.Position, error) {
	e = e.or()
	distance := float64(run.Distance)
	if math.IsNaN(distance) || math.IsInf(distance, 0) {
		return angle.Position{}, &angle.RangeError{What: "distance", Value: distance, Accepted: "a number of metres"}
	}
	lat1 := from.Latitude.Angle()
	sin, cos := run.Course.FromNorth().SinCos()
	if distance == 0 {
		return from, nil
	}
	if lat1.Abs() == 90*angle.Degree && sin != 0 {
		return angle.Position{}, poleError(from, run.Course, 0)
	}
	s1, c1 := lat1.SinCos()
	mu1 := lat1.Radians() + series(&e.rectify, 2*s1*c1, (c1-s1)*(c1+s1))
	dmu := distance * cos / e.radius
	mu2 := mu1 + dmu
	if math.Abs(mu2) > math.Pi/2+1e-15 {
		return angle.Position{}, e.pole(from, run.Course, mu1, cos, distance)
	}
	if sin == 0 {
		return along(from, e.unrectified(mu1, dmu), 0)
	}
	if math.Abs(mu2) >= math.Pi/2 {
		return angle.Position{}, e.pole(from, run.Course, mu1, cos, distance)
	}
	var lambda, phi float64
	if phi = e.unrectified(mu1, dmu); phi == 0 {
		lambda = distance * sin / e.parallel(lat1)
	} else {
		half, err := angle.Radians(phi / 2)
		if err != nil {
			return angle.Position{}, &angle.RangeError{What: "distance", Value: distance, Accepted: "a number of metres within the earth"}
		}
		sd, cd := math.Sincos(phi / 2)
		sm, cm := (lat1 + half).SinCos()
		lambda = e.stretch(sd, cd, sm, cm, func() float64 {
			return math.Log(tanHalf(90*angle.Degree+lat1+2*half) / tanHalf(90*angle.Degree+lat1))
		}) * sin / cos
	}
	return along(from, phi, lambda)
}

// tanHalf is the tangent of half an angle.
func tanHalf(a angle.Angle) float64 {
	s, c := halfSinCos(a)
	return s / c
}

// along adds differences of latitude and longitude, in radians, to a position.
func along(from angle.Position, phi, lambda float64) (angle.Position, error) {
	north, err := angle.Radians(phi)
	if err != nil {
		return angle.Position{}, err
	}
	east, err := angle.Radians(math.Remainder(lambda, 2*math.Pi))
	if err != nil {
		return angle.Position{}, &angle.RangeError{What: "difference of longitude", Value: lambda, Accepted: "a finite number"}
	}
	latitude := from.Latitude.Angle() + north
	if latitude.Abs() > 90*angle.Degree { // by rounding
		latitude = 90 * angle.Degree * (latitude / latitude.Abs())
	}
	p := angle.Position{Longitude: from.Longitude.Add(east)}
	p.Latitude, err = angle.LatitudeFrom(latitude)
	return p, err
}

// pole is the error of a run that reaches a pole.
func (e *Ellipsoid) pole(from angle.Position, course angle.True, mu1, cos, distance float64) error {
	to := math.Copysign(math.Pi/2, cos*distance) - mu1
	return poleError(from, course, Distance(to*e.radius/cos))
}

// unrectified is the difference of geographic latitude, in radians, for one of
// rectifying latitude.
func (e *Ellipsoid) unrectified(mu1, dmu float64) float64 {
	sm, cm := math.Sincos(2*mu1 + dmu)
	sd, cd := math.Sincos(dmu)
	return dmu + differences(&e.unrectify, sm, cm, sd, cd)
}

// arc is the meridian from one latitude to another, in metres, north positive.
func (e *Ellipsoid) arc(lat1, lat2 angle.Angle) float64 {
	sd, cd := (lat2 - lat1).SinCos()
	ss, cs := (lat1 + lat2).SinCos()
	return e.radius * ((lat2 - lat1).Radians() + differences(&e.rectify, ss, cs, sd, cd))
}

// isometric is the difference of isometric latitude from one latitude to another,
// in radians; see [Ellipsoid.stretch].
func (e *Ellipsoid) isometric(to, from angle.Angle) float64 {
	sd, cd := halfSinCos(to - from)
	sm, cm := halfSinCos(to + from)
	return e.stretch(sd, cd, sm, cm, func() float64 {
		return math.Log(tanHalf(90*angle.Degree+to) / tanHalf(90*angle.Degree+from))
	})
}

// stretch is the difference of isometric latitude
//
//	ψ = atanh(sin φ) − e atanh(e sin φ)
//
// from φ1 to φ2, from the sine and cosine of half their difference and half their
// sum. The first term differs by
//
//	2 atanh(sin ½(φ2−φ1) / cos ½(φ1+φ2))
//
// (the addition theorem, with tan ½φ) and the second by the same theorem. Where
// the argument is near 1, towards a pole, the logarithm of the tangents of
// 45° + ½φ, given as far, keeps the digits.
func (e *Ellipsoid) stretch(sd, cd, sm, cm float64, far func() float64) float64 {
	x := sd / cm
	var sphere float64
	if math.Abs(x) < 0.5 {
		sphere = math.Log1p(2 * x / (1 - x))
	} else {
		sphere = far()
	}
	if e.e == 0 {
		return sphere
	}
	return sphere - e.e*math.Atanh(e.e*2*cm*sd/(1-e.e2*(sm*sm-sd*sd)))
}

// halfSinCos is the sine and cosine of half an angle, the half unit included
// where it is odd.
func halfSinCos(a angle.Angle) (s, c float64) {
	s, c = (a / 2).SinCos()
	if a%2 != 0 {
		half := (a % 2).Radians() / 2
		s, c = s+c*half, c-s*half
	}
	return s, c
}
