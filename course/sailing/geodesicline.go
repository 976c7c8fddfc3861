package sailing

import (
	"math"

	"lubberline.example/angle"
)

// On the auxiliary sphere, whose latitudes are the reduced ones β, tan β = (1−f) tan φ, a
// geodesic is a great circle. It crosses the equator on the course α₀; σ is the arc from
// there and ω the longitude on that sphere:
//
//	sin α₀ = sin α cos β    tan σ = tan β / cos α    tan ω = sin α₀ tan σ
//
// With k = e′ cos α₀ and b the polar radius, the distance and the longitude on the
// ellipsoid are Bessel's integrals over σ:
//
//	s/b = ∫ √(1 + k² sin² σ)
//	λ   = ω − f sin α₀ ∫ (2−f) / (1 + (1−f) √(1 + k² sin² σ))
//
// (C. F. F. Karney, Algorithms for geodesics, Journal of Geodesy 87, 2013, equations 5 to
// 12 and 23; cited from memory.) The integrands are even and repeat after half a turn. So
// their Fourier series from eight places in a quarter turn are good to the last digit up to
// a flattening of 1/50.

// terms is the length of a Fourier series.
const terms = 8

// A fourier is the integral of an even function of σ with a period of half a turn:
// mean·σ + Σ k[j] sin 2jσ.
type fourier struct {
	mean float64
	k    [terms]float64 // k[0] is not used
}

// cosines are cos 2jσ at the places where an integrand is taken, and the squared sines of σ.
var cosines, squares = func() (c [terms][terms]float64, s [terms]float64) {
	for i := range terms {
		x := math.Pi * float64(2*i+1) / (4 * terms)
		s[i] = math.Sin(x) * math.Sin(x)
		for j := range terms {
			c[j][i] = math.Cos(2 * float64(j) * x)
		}
	}
	return c, s
}()

// integral is that of a function whose values at the places are given.
func integral(values *[terms]float64) (f fourier) {
	for j := range terms {
		sum := 0.0
		for i, v := range values {
			sum += v * cosines[j][i]
		}
		if j == 0 {
			f.mean = sum / terms
		} else {
			f.k[j] = sum / (terms * float64(j))
		}
	}
	return f
}

// between is the integral from one σ to another, from their sum and difference. It loses
// no digits where they are close.
func (f *fourier) between(sum, difference float64) float64 {
	ss, cs := math.Sincos(sum)
	sd, cd := math.Sincos(difference)
	total := f.mean * difference
	s, c, ds, dc := ss, cs, sd, cd
	for j := 1; j < terms; j++ {
		total += 2 * f.k[j] * c * ds
		s, c = s*cs+c*ss, c*cs-s*ss
		ds, dc = ds*cd+dc*sd, dc*cd-ds*sd
	}
	return total
}

// A geodesicLine is a geodesic in the terms of the auxiliary sphere.
type geodesicLine struct {
	figure     *Ellipsoid
	sin0, cos0 float64 // of α₀; the cosine is not negative
	k2         float64
	roots      [terms]float64 // √(1 + k² sin² σ)
}

// line is the geodesic with a course at the equator.
func (e *Ellipsoid) line(sin0, cos0 float64) geodesicLine {
	l := geodesicLine{figure: e, sin0: sin0, cos0: cos0, k2: e.e2 / (1 - e.e2) * cos0 * cos0}
	for i, s := range squares {
		l.roots[i] = math.Sqrt(1 + l.k2*s)
	}
	return l
}

// lengths is the integral of s/b.
func (l *geodesicLine) lengths() fourier { return integral(&l.roots) }

// longitudes is the integral by which longitudes differ from those of the sphere.
func (l *geodesicLine) longitudes() fourier {
	f := l.figure.f
	var values [terms]float64
	for i, root := range l.roots {
		values[i] = (2 - f) / (1 + (1-f)*root)
	}
	return integral(&values)
}

// bends is the integral by which the reduced length differs from that of the sphere.
func (l *geodesicLine) bends() fourier {
	var values [terms]float64
	for i, root := range l.roots {
		values[i] = root - 1/root
	}
	return integral(&values)
}

// reduced is the reduced latitude of a place: its sine and cosine, and the divisor by which
// they come from those of the latitude.
func (e *Ellipsoid) reduced(latitude angle.Angle) (sin, cos, norm float64) {
	s, c := latitude.SinCos()
	s *= 1 - e.f
	norm = math.Hypot(s, c)
	return s / norm, c / norm, norm
}

// polar is the polar radius, by which lengths on the auxiliary sphere are multiplied.
func (e *Ellipsoid) polar() float64 { return e.a * (1 - e.f) }

// A departure is a geodesic with the place where it begins.
type departure struct {
	line      geodesicLine
	longitude angle.Longitude // of the place
	sin, cos  float64         // of σ at the place
	sigma     float64
}

// start is the geodesic that leaves a place on a course. From a pole it leads along the
// meridian that the course names.
func (e *Ellipsoid) start(from angle.Position, course angle.True) (d departure) {
	switch from.Latitude.Angle() {
	case 90 * angle.Degree:
		from.Longitude = from.Longitude.Add(180*angle.Degree - course.FromNorth())
		course = angle.TrueFrom(180 * angle.Degree)
	case -90 * angle.Degree:
		from.Longitude = from.Longitude.Add(course.FromNorth())
		course = angle.True{}
	}
	sinC, cosC := course.FromNorth().SinCos()
	sinB, cosB, _ := e.reduced(from.Latitude.Angle())
	d.line = e.line(sinC*cosB, math.Hypot(cosC, sinC*sinB))
	d.longitude = from.Longitude
	d.sin, d.cos = unitOf(sinB, cosB*cosC) // along the equator σ is 0
	d.sigma = math.Atan2(d.sin, d.cos)
	return d
}

// isMeridian reports whether the line is a meridian, to 6 micrometres.
func (d *departure) isMeridian() bool { return math.Abs(d.line.sin0) < 1e-12 }

// after is the position at a σ, an arc after the beginning.
func (d *departure) after(arc, sin, cos float64) angle.Position {
	l := &d.line
	longitudes := l.longitudes()
	sinArc, _ := math.Sincos(arc)
	// The difference of ω is within half a turn; turns round the pole do not matter.
	lambda := math.Atan2(l.sin0*sinArc, d.cos*cos+l.sin0*l.sin0*d.sin*sin) - l.figure.f*l.sin0*longitudes.between(2*d.sigma+arc, arc)
	p := angle.Position{Latitude: l.latitude(sin, cos), Longitude: d.longitude}
	if a, err := angle.Radians(math.Remainder(lambda, 2*math.Pi)); err == nil {
		p.Longitude = d.longitude.Add(a)
	}
	return p
}

// latitude is the latitude at a σ.
func (l *geodesicLine) latitude(sin, cos float64) angle.Latitude {
	a, err := angle.Atan2(l.cos0*sin, (1-l.figure.f)*math.Hypot(l.sin0, l.cos0*cos))
	if err != nil {
		return angle.Latitude{} // not reached: sin0 and cos0 are not both zero
	}
	latitude, _ := angle.LatitudeFrom(a) // within the poles: the cosine is not negative
	return latitude
}

// onMeridian is where a line that is not a meridian crosses one, at most half a turn away.
// Each turn of the loop corrects the longitude on the auxiliary sphere, which differs by at most the
// flattening of it.
func (d *departure) onMeridian(longitude angle.Longitude) angle.Position {
	l := &d.line
	east, sin0 := longitude.Sub(d.longitude).Radians(), math.Abs(l.sin0)
	if l.sin0 < 0 {
		east = -east
	}
	omega1 := math.Atan2(sin0*d.sin, d.cos)
	longitudes := l.longitudes()
	var sin, cos, off float64
	for range 12 {
		s, c := math.Sincos(omega1 + east + off)
		sin, cos = unitOf(s, sin0*c)
		arc := math.Remainder(math.Atan2(sin, cos)-d.sigma, 2*math.Pi)
		before := off
		off = l.figure.f * sin0 * longitudes.between(2*d.sigma+arc, arc)
		if math.Abs(off-before) < 1e-16 {
			break
		}
	}
	return angle.Position{Latitude: l.latitude(sin, cos), Longitude: longitude}
}

// follow returns where the geodesic leads that leaves a place on a course, and the course there.
func (e *Ellipsoid) follow(from angle.Position, course angle.True, distance float64) (angle.Position, angle.True) {
	d := e.start(from, course)
	lengths := d.line.lengths()
	// Newton's method from the arc on the average: the integrand is within a hundredth of 1.
	target := distance / e.polar()
	arc := target / lengths.mean
	for range 6 {
		s := math.Sin(d.sigma + arc)
		step := (target - lengths.between(2*d.sigma+arc, arc)) / math.Sqrt(1+d.line.k2*s*s)
		arc += step
		if math.Abs(step) < 1e-16*(1+math.Abs(arc)) {
			break
		}
	}
	sinArc, cosArc := math.Sincos(arc)
	sin, cos := d.sin*cosArc+d.cos*sinArc, d.cos*cosArc-d.sin*sinArc
	return d.after(arc, sin, cos), direction(d.line.sin0, d.line.cos0*cos)
}

// direction is a course from a sine and a cosine, not necessarily of length 1.
func direction(sin, cos float64) angle.True {
	a, err := angle.Atan2(sin, cos)
	if err != nil {
		return angle.True{} // not reached with finite numbers that are not both zero
	}
	return angle.TrueFrom(a)
}
