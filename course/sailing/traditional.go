package sailing

import (
	"math"

	"lubberline.example/angle"
)

// DepartureOn returns the distance along a parallel that a difference of
// longitude makes: departure = d.long × cos latitude, with a minute of the equator
// a mile.
func DepartureOn(latitude angle.Latitude, dlong angle.Angle) Distance {
	return Distance(dlong.Minutes()*latitude.Angle().Cos()) * NauticalMile
}

// DLongOn returns the difference of longitude that a departure makes on a parallel.
// It refuses the poles, and departures of more than once round, with a
// [*angle.RangeError].
func DLongOn(latitude angle.Latitude, departure Distance) (angle.Angle, error) {
	d, err := angle.Minutes(departure.NauticalMiles() / latitude.Angle().Cos())
	if err != nil || d.Abs() > angle.Turn {
		return 0, &angle.RangeError{What: "departure in " + latitude.String(), Value: departure.NauticalMiles(), Accepted: "nautical miles, at most once round the parallel"}
	}
	return d, nil
}

// LatitudeOf returns the latitude, north, in which a departure makes a difference
// of longitude. The departure may not be the longer of the two; otherwise a
// [*angle.RangeError].
func LatitudeOf(departure Distance, dlong angle.Angle) (angle.Latitude, error) {
	ratio := departure.NauticalMiles() / dlong.Minutes()
	if ratio > 1 && ratio < 1+1e-15 { // the equator, by rounding
		ratio = 1
	}
	if !(ratio >= 0 && ratio <= 1) {
		return angle.Latitude{}, &angle.RangeError{What: "departure over difference of longitude", Value: ratio, Accepted: "0 to 1"}
	}
	a, err := angle.Atan2(root(1-ratio*ratio), ratio)
	if err != nil {
		return angle.Latitude{}, &angle.RangeError{What: "departure over difference of longitude", Value: ratio, Accepted: "0 to 1"}
	}
	return angle.LatitudeFrom(a)
}

// root is the square root of what only rounding puts below zero.
func root(x float64) float64 { return math.Sqrt(max(0, x)) }

// Parallel works the course and distance between two positions in the same
// latitude, and refuses others with a [*MethodError].
func Parallel(from, to angle.Position) (Worked, error) {
	w := between(ParallelSailing, from, to)
	if w.DLat != 0 {
		return Worked{}, &MethodError{ParallelSailing, from, to, "the latitudes differ: want mid-latitude or Mercator sailing"}
	}
	w.Departure = DepartureOn(from.Latitude, w.DLong)
	w.Distance = Distance(math.Abs(float64(w.Departure)))
	w.Course = eastOrWest(w.DLong)
	return w, nil
}

// eastOrWest is the course along a parallel; north if there is no distance.
func eastOrWest(dlong angle.Angle) angle.True {
	switch {
	case dlong > 0:
		return angle.TrueFrom(90 * angle.Degree)
	case dlong < 0:
		return angle.TrueFrom(270 * angle.Degree)
	}
	return angle.True{}
}

// between is a sailing with the differences between its positions.
func between(method Method, from, to angle.Position) Worked {
	return Worked{Method: method, From: from, To: to, DLat: to.Latitude.Angle() - from.Latitude.Angle(), DLong: to.Longitude.Sub(from.Longitude)}
}

// MidLatitude works the course and distance by the departure in the middle
// latitude. On both sides of the equator that is no measure of the departure, and
// the positions are refused with a [*MethodError]; so are poles. Positions in one
// latitude are worked by parallel sailing.
func MidLatitude(from, to angle.Position) (Worked, error) {
	w := between(MidLatitudeSailing, from, to)
	if err := w.middle(); err != nil {
		return Worked{}, err
	}
	if w.DLat == 0 {
		return Parallel(from, to)
	}
	w.Departure = DepartureOn(w.Middle, w.DLong)
	t, err := PlaneOf(w.DLat, w.Departure)
	if err != nil {
		return Worked{}, err
	}
	w.Run = t.Run
	return w, nil
}

// middle sets the middle latitude.
func (w *Worked) middle() error {
	lat1, lat2 := w.From.Latitude.Angle(), w.To.Latitude.Angle()
	switch {
	case lat1 > 0 && lat2 < 0 || lat1 < 0 && lat2 > 0:
		return &MethodError{w.Method, w.From, w.To, "the equator lies between them: want Mercator sailing"}
	case lat1.Abs() == 90*angle.Degree || lat2.Abs() == 90*angle.Degree:
		return &MethodError{w.Method, w.From, w.To, "one is a pole"}
	}
	var err error
	w.Middle, err = angle.LatitudeFrom(lat1 + (lat2-lat1)/2)
	return err
}

// FollowMidLatitude works the position that a run leads to by mid-latitude
// sailing. It refuses runs across the equator or to a pole with a [*MethodError] or
// a [*PoleError].
func FollowMidLatitude(from angle.Position, run Run) (Worked, error) {
	w, err := follow(MidLatitudeSailing, from, run)
	if err != nil {
		return Worked{}, err
	}
	if err := w.middle(); err != nil {
		return Worked{}, err
	}
	if w.DLat == 0 {
		w.Method = ParallelSailing
	}
	if w.DLong, err = DLongOn(w.Middle, w.Departure); err != nil {
		return Worked{}, err
	}
	w.To.Longitude = from.Longitude.Add(w.DLong)
	return w, nil
}

// follow is a sailing with the latitude that a run leads to.
func follow(method Method, from angle.Position, run Run) (Worked, error) {
	t, err := Plane(run)
	if err != nil {
		return Worked{}, err
	}
	w := Worked{Method: method, From: from, To: from, Run: run, DLat: t.DLat, Departure: t.Departure, direct: true}
	if w.To.Latitude, err = angle.LatitudeFrom(from.Latitude.Angle() + t.DLat); err != nil {
		left := 90*angle.Degree - from.Latitude.Angle()
		if t.DLat < 0 {
			left = 90*angle.Degree + from.Latitude.Angle()
		}
		_, c := run.Course.FromNorth().SinCos()
		return Worked{}, &PoleError{from, run.Course, arcLength(left) / Distance(math.Abs(c))}
	}
	return w, nil
}

// FollowParallel works the position that a run due east or west leads to; other
// courses are refused with a [*MethodError], poles with an [*angle.RangeError].
func FollowParallel(from angle.Position, run Run) (Worked, error) {
	if s, _ := run.Course.FromNorth().SinCos(); math.Abs(s) != 1 {
		return Worked{}, &MethodError{ParallelSailing, from, from, "the course is not east or west: want mid-latitude or Mercator sailing"}
	}
	w, err := follow(ParallelSailing, from, run)
	if err != nil {
		return Worked{}, err
	}
	if w.DLong, err = DLongOn(from.Latitude, w.Departure); err != nil {
		return Worked{}, err
	}
	w.To.Longitude = from.Longitude.Add(w.DLong)
	return w, nil
}

// Mercator works the course and distance by the meridional parts of a figure of
// the earth; nil is WGS84. Near east and west it does not lose its digits, as the
// tables do. Poles are refused with a [*MethodError]. Positions in one latitude are
// worked by parallel sailing, which knows no figure: its departure is up to 0.7 %
// shorter than the one that a difference of latitude near zero makes on WGS84.
func Mercator(from, to angle.Position, figure *Ellipsoid) (Worked, error) {
	w := between(MercatorSailing, from, to)
	w.Figure = figure.or()
	lat1, lat2 := from.Latitude.Angle(), to.Latitude.Angle()
	if lat1.Abs() == 90*angle.Degree || lat2.Abs() == 90*angle.Degree {
		return Worked{}, &MethodError{MercatorSailing, from, to, "one is a pole, whose meridional parts are infinite"}
	}
	if lat1 == lat2 {
		return Parallel(from, to)
	}
	psi := w.Figure.isometric(lat2, lat1)
	w.Parts = psi * 180 * 60 / math.Pi
	lambda := w.DLong.Radians()
	course, err := angle.Atan2(lambda, psi)
	if err != nil {
		return Worked{}, err
	}
	w.Course = angle.TrueFrom(course)
	w.Distance = Distance(math.Hypot(lambda, psi)*math.Abs(w.DLat.Minutes()/psi)) * NauticalMile
	w.Departure = Distance(lambda*w.DLat.Minutes()/psi) * NauticalMile
	return w, nil
}

// FollowMercator works the position that a run leads to by the meridional parts of
// a figure of the earth; nil is WGS84. It refuses runs to or over a pole with a
// [*PoleError] or a [*MethodError].
func FollowMercator(from angle.Position, run Run, figure *Ellipsoid) (Worked, error) {
	w, err := follow(MercatorSailing, from, run)
	if err != nil {
		return Worked{}, err
	}
	w.Figure = figure.or()
	lat1, lat2 := from.Latitude.Angle(), w.To.Latitude.Angle()
	if lat1.Abs() == 90*angle.Degree || lat2.Abs() == 90*angle.Degree {
		return Worked{}, &MethodError{MercatorSailing, from, w.To, "one is a pole, whose meridional parts are infinite"}
	}
	if w.DLat == 0 {
		w.Method, w.Figure = ParallelSailing, nil
		if w.DLong, err = DLongOn(from.Latitude, w.Departure); err != nil {
			return Worked{}, err
		}
	} else {
		psi := w.Figure.isometric(lat2, lat1)
		w.Parts = psi * 180 * 60 / math.Pi
		// tan course as the ratio of the sides, which is as good near east and west.
		lambda := psi * w.Departure.NauticalMiles() / w.DLat.Minutes()
		if w.DLong, err = angle.Radians(lambda); err != nil {
			return Worked{}, &angle.RangeError{What: "difference of longitude", Value: lambda, Accepted: "fewer than 7000 times round the pole"}
		}
	}
	w.To.Longitude = from.Longitude.Add(w.DLong)
	return w, nil
}
