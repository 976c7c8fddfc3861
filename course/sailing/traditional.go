package sailing

import (
	"math"

	"lubberline.example/angle"
)

// Departure returns the distance along a parallel between two longitudes: departure =
// d.long × cos latitude. A minute of longitude on the equator is a mile.
func Departure(latitude angle.Latitude, dlong angle.Angle) Distance {
	return Distance(dlong.Minutes()*latitude.Angle().Cos()) * NauticalMile
}

// DLong returns the difference of longitude of a departure along a parallel. If the latitude
// is a pole, or the departure is more than once round, it returns an [*angle.RangeError].
func DLong(latitude angle.Latitude, departure Distance) (angle.Angle, error) {
	d, err := angle.Minutes(departure.NauticalMiles() / latitude.Angle().Cos())
	if err != nil || d.Abs() > angle.Turn {
		return 0, &angle.RangeError{What: "departure in " + latitude.String(), Value: departure.NauticalMiles(), Accepted: "nautical miles, at most once round the parallel"}
	}
	return d, nil
}

// LatitudeFromDLong returns the north latitude in which a departure makes a difference of
// longitude. If the departure is the longer of the two, it returns an [*angle.RangeError].
func LatitudeFromDLong(departure Distance, dlong angle.Angle) (angle.Latitude, error) {
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

// root is the square root of a number that only rounding can put below zero.
func root(x float64) float64 { return math.Sqrt(max(0, x)) }

// parallel completes a sailing between two positions in the same latitude.
func (w *Solution) parallel() {
	*w = between(ParallelSailing, w.From, w.To)
	w.Departure = Departure(w.From.Latitude, w.DLong)
	w.Distance = Distance(math.Abs(float64(w.Departure)))
	w.Course = eastOrWest(w.DLong)
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
func between(method Method, from, to angle.Position) Solution {
	return Solution{
		Method: method, From: from, To: to,
		Triangle: Triangle{DLat: to.Latitude.Angle() - from.Latitude.Angle()}, DLong: to.Longitude.Sub(from.Longitude),
	}
}

// MidLatitude works the course and distance by the departure in the middle latitude. Positions
// in the same latitude are worked by parallel sailing. If the positions are on both sides of
// the equator, or one is a pole, it returns an [*Error] of the kind [Unsuitable].
func MidLatitude(from, to angle.Position) (Solution, error) {
	w := between(MidLatitudeSailing, from, to)
	if err := w.middle(); err != nil {
		return Solution{}, err
	}
	if w.DLat == 0 {
		w.parallel()
		return w, nil
	}
	w.Departure = Departure(w.Middle, w.DLong)
	t, err := PlaneFromSides(w.DLat, w.Departure)
	if err != nil {
		return Solution{}, err
	}
	w.Triangle = t
	return w, nil
}

// middle sets the middle latitude.
func (w *Solution) middle() error {
	lat1, lat2 := w.From.Latitude.Angle(), w.To.Latitude.Angle()
	switch {
	case lat1 > 0 && lat2 < 0 || lat1 < 0 && lat2 > 0:
		return unsuitable(w.Method, w.From, w.To, "the equator lies between them; use Mercator sailing")
	case lat1.Abs() == 90*angle.Degree || lat2.Abs() == 90*angle.Degree:
		return unsuitable(w.Method, w.From, w.To, "one is a pole; use Ellipsoid.Rhumb")
	}
	var err error
	w.Middle, err = angle.LatitudeFrom(lat1 + (lat2-lat1)/2)
	return err
}

// FollowMidLatitude works the position that a run leads to by mid-latitude sailing, or by
// parallel sailing if it leads due east or west. If the run
// crosses the equator or reaches a pole, it returns an [*Error] of the kind [Unsuitable] or
// [OverPole].
func FollowMidLatitude(from angle.Position, run Run) (Solution, error) {
	w, err := follow(MidLatitudeSailing, from, run)
	if err != nil {
		return Solution{}, err
	}
	if err := w.middle(); err != nil {
		return Solution{}, err
	}
	if w.DLat == 0 {
		w.Method = ParallelSailing
	}
	if w.DLong, err = DLong(w.Middle, w.Departure); err != nil {
		return Solution{}, err
	}
	w.To.Longitude = from.Longitude.Add(w.DLong)
	return w, nil
}

// follow is a sailing with the latitude that a run leads to.
func follow(method Method, from angle.Position, run Run) (Solution, error) {
	t, err := Plane(run)
	if err != nil {
		return Solution{}, err
	}
	w := Solution{Method: method, From: from, To: from, Triangle: t, direct: true}
	if w.To.Latitude, err = angle.LatitudeFrom(from.Latitude.Angle() + t.DLat); err != nil {
		left := 90*angle.Degree - from.Latitude.Angle()
		if t.DLat < 0 {
			left = 90*angle.Degree + from.Latitude.Angle()
		}
		_, c := run.Course.FromNorth().SinCos()
		return Solution{}, poleError(from, run.Course, arcLength(left)/Distance(math.Abs(c)))
	}
	return w, nil
}

// Mercator works the course and distance by the meridional parts of a figure of the earth. If
// figure is nil, it is WGS84. Courses near east and west lose no digits, as they do with tables.
// If a position is a pole, it returns an [*Error] of the kind [Unsuitable].
//
// Positions in the same latitude are worked by parallel sailing, which uses no figure. Its
// distance is up to 0.7 % shorter than that of a very small difference of latitude on WGS84.
func Mercator(from, to angle.Position, figure *Ellipsoid) (Solution, error) {
	w := between(MercatorSailing, from, to)
	w.Figure = figure.or()
	lat1, lat2 := from.Latitude.Angle(), to.Latitude.Angle()
	if lat1.Abs() == 90*angle.Degree || lat2.Abs() == 90*angle.Degree {
		return Solution{}, unsuitable(MercatorSailing, from, to, "one is a pole, whose meridional parts are infinite; use Ellipsoid.Rhumb")
	}
	if lat1 == lat2 {
		w.parallel()
		return w, nil
	}
	psi := w.Figure.isometric(lat2, lat1)
	w.Parts = psi * 180 * 60 / math.Pi
	lambda := w.DLong.Radians()
	course, err := angle.Atan2(lambda, psi)
	if err != nil {
		return Solution{}, err
	}
	w.Course = angle.TrueFrom(course)
	w.Distance = Distance(math.Hypot(lambda, psi)*math.Abs(w.DLat.Minutes()/psi)) * NauticalMile
	w.Departure = Distance(lambda*w.DLat.Minutes()/psi) * NauticalMile
	return w, nil
}

// FollowMercator works the position that a run leads to by the meridional parts of a figure
// of the earth. If figure is nil, it is WGS84. If the run reaches a pole, it returns an [*Error]
// of the kind [OverPole] or [Unsuitable].
func FollowMercator(from angle.Position, run Run, figure *Ellipsoid) (Solution, error) {
	w, err := follow(MercatorSailing, from, run)
	if err != nil {
		return Solution{}, err
	}
	w.Figure = figure.or()
	lat1, lat2 := from.Latitude.Angle(), w.To.Latitude.Angle()
	if lat1.Abs() == 90*angle.Degree || lat2.Abs() == 90*angle.Degree {
		return Solution{}, unsuitable(MercatorSailing, from, w.To, "one is a pole, whose meridional parts are infinite; use Ellipsoid.Follow")
	}
	if w.DLat == 0 {
		w.Method, w.Figure = ParallelSailing, nil
		if w.DLong, err = DLong(from.Latitude, w.Departure); err != nil {
			return Solution{}, err
		}
	} else {
		psi := w.Figure.isometric(lat2, lat1)
		w.Parts = psi * 180 * 60 / math.Pi
		// tan course as the ratio of the sides, which is as good near east and west.
		lambda := psi * w.Departure.NauticalMiles() / w.DLat.Minutes()
		if w.DLong, err = angle.Radians(lambda); err != nil {
			return Solution{}, &angle.RangeError{What: "difference of longitude", Value: lambda, Accepted: "fewer than 7000 times round the pole"}
		}
	}
	w.To.Longitude = from.Longitude.Add(w.DLong)
	return w, nil
}
