package swing

import (
	"errors"
	"math"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/say"
	"lubberline.example/deviation/internal/sunsight"
	"lubberline.example/variation"
)

// fewestToName is the number of readings that it takes to name an error in all of them.
const fewestToName = 5

// checkColumns refuses columns that cannot be bearings of one object: bearings from the bow given
// as compass bearings, and headings exchanged with bearings. Bearings of one object differ only by
// the deviation, while headings go round the circle.
func checkColumns(readings []reading, columns []string) error {
	if len(readings) < fewestToName || !slices.Contains(columns, "bearing") || slices.Contains(columns, "shore") {
		return nil
	}
	headings, bearings, fromBow := make([]angle.Angle, len(readings)), make([]angle.Angle, len(readings)), make([]angle.Angle, len(readings))
	for i, r := range readings {
		headings[i], bearings[i] = r.Heading.FromNorth(), r.Bearing.FromNorth()
		fromBow[i] = headings[i] + bearings[i]
	}
	const agree, goRound = 0.9, 0.5
	var err error
	switch {
	case !(together(bearings) < goRound):
		return nil
	case together(fromBow) > agree:
		err = errors.New("the bearings turn with the vessel, and with the heading added they agree: they seem to be from the bow; give them as relative bearings (in a record, in a column relative)")
	case together(headings) > agree:
		err = errors.New("the bearings go round the circle and the headings agree: the two columns are exchanged")
	default:
		return nil
	}
	return swingError(err)
}

// together returns the length of the mean of the directions as unit vectors. It is 1 if all agree,
// and 0 if they go round the circle.
func together(directions []angle.Angle) float64 {
	var s, c float64
	for _, d := range directions {
		sine, cosine := d.SinCos()
		s, c = s+sine, c+cosine
	}
	return math.Hypot(s, c) / float64(len(directions))
}

// largeA is the size of A from which a cause is looked for. smallA is the largest A that a cause
// may leave.
const (
	largeA = 2.5 // degrees
	smallA = 1.5
)

// constant returns A of the readings that agree, and their scatter, in degrees. It reports false if
// they do not determine A.
func constant(observations []Observation) (a, scatter float64, ok bool) {
	if len(usedHeadings(observations, nil, deviation.ByCompass)) < five+1 {
		return 0, 0, false
	}
	folded, _ := foldReversed(observations)
	d := newDesign(observations, folded)
	var rows []int
	if len(usedHeadings(observations, nil, deviation.ByCompass)) >= five+3 {
		order, clean, _, _ := d.agree(d.trimmed())
		if order == nil {
			return 0, 0, false
		}
		rows = order[:clean]
	} else {
		rows = make([]int, len(observations))
		for i := range rows {
			rows[i] = i
		}
	}
	f, ok := d.fit(rows)
	return f.b[0], d.scatter(rows, &f), ok
}

// A cause is a possible fault of the whole swing, with the deviations as they would be without it.
type cause struct {
	warning      working.Warning
	observations []Observation // nil if all deviations change by the same angle
	by           angle.Angle
}

// likelyCauses warns of the faults that would explain a large A, the likeliest first.
func likelyCauses(observations []Observation, causes []cause) []working.Warning {
	a, scatter, ok := constant(observations)
	if !ok || math.Abs(a) < largeA {
		return nil
	}
	type found struct {
		warning working.Warning
		left    float64
	}
	var likely []found
	for _, c := range causes {
		left, s, ok := math.Remainder(a+c.by.Degrees(), 360), scatter, true
		if c.observations != nil {
			left, s, ok = constant(c.observations)
		}
		if ok && math.Abs(left) < smallA && s < 1.3*scatter+0.2 {
			likely = append(likely, found{c.warning, math.Abs(left)})
		}
	}
	if len(likely) == 0 {
		return nil
	}
	slices.SortStableFunc(likely, func(x, y found) int {
		switch {
		case x.left < y.left-smallA/2:
			return -1
		case y.left < x.left-smallA/2:
			return 1
		}
		return 0
	})
	list := []working.Warning{working.Warn(LikelyCause, "swing-large-a", "A is %s, more than usual: check the following", say.Signed(harmonic.Round(a*float64(angle.Degree))))}
	for _, l := range likely[:min(3, len(likely))] {
		list = append(list, l.warning)
	}
	return list
}

// causes returns the possible faults of a swing by the Sun.
func (m SunAzimuths) causes(readings []reading, observations []Observation, found variation.Explanation) []cause {
	v, list := found.Variation, ofVariation(found)
	try := func(w working.Warning, at angle.Position, when func(time.Time) time.Time) {
		changed := slices.Clone(observations)
		for i, r := range readings {
			sight, _, err := sunsight.At(when(r.Time), at)
			if err != nil {
				return
			}
			changed[i].Deviation = deviation.Between(v.Magnetic(sight.Azimuth), r.Bearing).WithUncertainty(r.Uncertainty)
		}
		list = append(list, cause{warning: w, observations: changed})
	}
	position := angle.Position{}
	if m.Position != nil {
		position = *m.Position
	}
	later := func(by time.Duration) func(time.Time) time.Time {
		return func(t time.Time) time.Time { return t.Add(by) }
	}
	for h := time.Duration(1); h <= 12; h++ {
		try(working.Warn(LikelyCause, "swing-hours-later", "A would be near zero with the times %d h later", h), position, later(h*time.Hour))
		try(working.Warn(LikelyCause, "swing-hours-earlier", "A would be near zero with the times %d h earlier", h), position, later(-h*time.Hour))
	}
	for _, minutes := range []time.Duration{10, 15, 20, 30} {
		try(working.Warn(LikelyCause, "swing-minutes-later", "A would be near zero with the times %d min later", minutes), position, later(minutes*time.Minute))
		try(working.Warn(LikelyCause, "swing-minutes-earlier", "A would be near zero with the times %d min earlier", minutes), position, later(-minutes*time.Minute))
	}
	latitude, longitude := position.Degrees()
	if other, err := angle.PositionDegrees(latitude, -longitude); err == nil {
		try(working.Warn(LikelyCause, "swing-longitude-misnamed", "A would be near zero with the longitude named the other way"), other, later(0))
	}
	if other, err := angle.PositionDegrees(-latitude, longitude); err == nil {
		try(working.Warn(LikelyCause, "swing-latitude-misnamed", "A would be near zero with the latitude named the other way"), other, later(0))
	}
	try(working.Warn(LikelyCause, "swing-day-and-month", "A would be near zero with day and month exchanged"), position, func(t time.Time) time.Time {
		u := t.UTC()
		if u.Day() > 12 {
			return time.Time{}
		}
		return time.Date(u.Year(), time.Month(u.Day()), int(u.Month()), u.Hour(), u.Minute(), u.Second(), 0, time.UTC)
	})
	return list
}
