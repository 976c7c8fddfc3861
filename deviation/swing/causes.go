package swing

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/say"
	"lubberline.example/deviation/internal/sunsight"
	"lubberline.example/variation"
)

// fewestToName is how many readings it takes to name what all of them have wrong.
const fewestToName = 5

// checkColumns refuses bearings of one object that are surely something else: those from
// the bow in the place of those by compass, and headings and bearings exchanged. Bearings
// of one object agree on all headings but for the deviation; headings go round.
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
		err = errors.New("the bearings go round and those with the heading added agree: they are from the bow, give them as such (in a record, in a column relative)")
	case together(headings) > agree:
		err = errors.New("the bearings go round and the headings agree: the two columns are exchanged")
	default:
		return nil
	}
	return swingError(err)
}

// together is the length of the mean of unit vectors: 1 if all directions agree, 0 if
// they go round.
func together(directions []angle.Angle) float64 {
	var s, c float64
	for _, d := range directions {
		sine, cosine := d.SinCos()
		s, c = s+sine, c+cosine
	}
	return math.Hypot(s, c) / float64(len(directions))
}

// largeA is from where on a cause of A is looked for, and smallA what a cause must
// leave at most.
const (
	largeA = 2.5 // degrees
	smallA = 1.5
)

// constant is A of the readings that agree and their scatter, in degrees; false where they do
// not tell it.
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

// A cause is what may be wrong in a swing as a whole, and the deviations if it is: others,
// or all changed by as much.
type cause struct {
	what         string
	observations []Observation // nil if all change by as much
	by           angle.Angle
}

// likelyCauses warns of what would bring a large A to nothing, the likeliest first.
func likelyCauses(observations []Observation, causes []cause) []working.Warning {
	a, scatter, ok := constant(observations)
	if !ok || math.Abs(a) < largeA {
		return nil
	}
	type found struct {
		what string
		left float64
	}
	var likely []found
	for _, c := range causes {
		left, s, ok := math.Remainder(a+c.by.Degrees(), 360), scatter, true
		if c.observations != nil {
			left, s, ok = constant(c.observations)
		}
		if ok && math.Abs(left) < smallA && s < 1.3*scatter+0.2 {
			likely = append(likely, found{c.what, math.Abs(left)})
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
	var words []string
	for _, l := range likely[:min(3, len(likely))] {
		words = append(words, l.what)
	}
	return []working.Warning{say.Warn(LikelyCause, "A is %s; it would be near zero with %s", say.Signed(harmonic.Round(a*float64(angle.Degree))), strings.Join(words, ", or with "))}
}

// otherName is the cause of a variation named the wrong way.
func otherName(v variation.Variation) cause {
	return cause{what: fmt.Sprintf("the variation %s", variation.East(-v.Angle())), by: 2 * v.Angle()}
}

// causes are what may be wrong in a swing by the Sun.
func (m SunAzimuths) causes(readings []reading, observations []Observation, found variation.Explanation) []cause {
	v, list := found.Variation, ofVariation(found)
	try := func(what string, at angle.Position, when func(time.Time) time.Time) {
		changed := slices.Clone(observations)
		for i, r := range readings {
			sight, _, err := sunsight.At(when(r.Time), at)
			if err != nil {
				return
			}
			changed[i].Deviation = deviation.Between(v.Magnetic(sight.Azimuth), r.Bearing).WithUncertainty(r.Uncertainty)
		}
		list = append(list, cause{what: what, observations: changed})
	}
	position := angle.Position{}
	if m.Position != nil {
		position = *m.Position
	}
	later := func(by time.Duration) func(time.Time) time.Time {
		return func(t time.Time) time.Time { return t.Add(by) }
	}
	for h := time.Duration(1); h <= 12; h++ {
		try(fmt.Sprintf("times %d h later", h), position, later(h*time.Hour))
		try(fmt.Sprintf("times %d h earlier", h), position, later(-h*time.Hour))
	}
	for _, minutes := range []time.Duration{10, 15, 20, 30} {
		try(fmt.Sprintf("times %d min later", minutes), position, later(minutes*time.Minute))
		try(fmt.Sprintf("times %d min earlier", minutes), position, later(-minutes*time.Minute))
	}
	latitude, longitude := position.Degrees()
	if other, err := angle.PositionDegrees(latitude, -longitude); err == nil {
		try("the longitude named the other way", other, later(0))
	}
	if other, err := angle.PositionDegrees(-latitude, longitude); err == nil {
		try("the latitude named the other way", other, later(0))
	}
	try("day and month exchanged", position, func(t time.Time) time.Time {
		u := t.UTC()
		if u.Day() > 12 {
			return time.Time{}
		}
		return time.Date(u.Year(), time.Month(u.Day()), int(u.Month()), u.Hour(), u.Minute(), u.Second(), 0, time.UTC)
	})
	return list
}
