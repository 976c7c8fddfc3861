package slip

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
)

// A Sighting is a charted mark with its bearing by the steering compass.
type Sighting struct {
	Mark    fix.Mark
	Bearing angle.Compass
}

// charted says where a mark is.
func charted(m fix.Mark) string { return fmt.Sprintf("%s (%s)", m.Name, m.Position) }

// alsoCharted returns the words about other marks, for a question.
func alsoCharted(others []fix.Mark) string {
	if len(others) == 0 {
		return ""
	}
	return fmt.Sprintf("Also charted: %s. ", listed(others, charted))
}

// listed lists things in words: a, b and c.
func listed[T any](things []T, says func(T) string) string {
	words := make([]string, len(things))
	for i, thing := range things {
		words[i] = says(thing)
	}
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.Join(words, "")
}

// bears says how a mark bears.
func bears(s Sighting) string {
	return fmt.Sprintf("%s bears %s", charted(s.Mark), exact(s.Bearing))
}

// A round is a round of bearings with the compass that they were taken by, and all marks that the
// question names.
type round struct {
	aboard
	sightings []Sighting
	marks     []fix.Mark
	figures   []Figure // the true bearings
}

// roundOf returns a round of bearings.
func roundOf(sightings []Sighting, head angle.Compass, with course.With, others []fix.Mark) (round, error) {
	a, err := onHeading(head, with)
	if err != nil {
		return round{}, err
	}
	r := round{aboard: a, sightings: sightings}
	for i, s := range sightings {
		n := strconv.Itoa(i + 1)
		r.figures = append(r.figures, wholeTrue("bearing-"+n, "True bearing "+n))
		if !slices.Contains(r.marks, s.Mark) {
			r.marks = append(r.marks, s.Mark)
		}
	}
	r.marks = append(r.marks, others...)
	return r, nil
}

// lines returns the marks and their true bearings, with the slips of taking, converting and
// plotting them, and what converted them.
func (r round) lines(c *calculation) ([]Sighting, []angle.True, func(angle.Compass) (angle.True, error), error) {
	sightings := slices.Clone(r.sightings)
	taken := len(sightings) * len(r.marks) // after these ways come two marks exchanged
	switch v, does := c.way(MarkMistaken, taken+len(sightings)); {
	case does && v < taken:
		sightings[v/len(r.marks)].Mark = r.marks[v%len(r.marks)]
	case does:
		at, next := v-taken, (v-taken+1)%len(sightings)
		sightings[at].Mark, sightings[next].Mark = sightings[next].Mark, sightings[at].Mark
	}
	if v, does := c.way(BearingMisread, 2*len(sightings)); does {
		sightings[v/2].Bearing = sightings[v/2].Bearing.Add([]angle.Angle{10, -10}[v%2] * angle.Degree)
	}
	toTrue, err := r.toTrue(c)
	if err != nil {
		return nil, nil, nil, err
	}
	bearings := make([]angle.True, len(sightings))
	for i, s := range sightings {
		t, err := toTrue(s.Bearing)
		if err != nil {
			return nil, nil, nil, err
		}
		bearings[i] = angle.TrueFrom(c.figureAngle(r.figures[i], t.FromNorth()))
	}
	return sightings, bearings, toTrue, nil
}

// steps returns the steps of converting the bearings.
func (r round) steps() working.Steps {
	var out working.Steps
	for _, s := range r.sightings {
		b := r.heading.BearingFromCompass(s.Bearing)
		out = append(out, working.Step{Key: "mark", What: "Mark", Value: s.Mark.String()})
		out = append(out, upTo(b.Working().Steps, "true bearing")...)
	}
	return out
}

// minorOfFixes are slips that often move a fix by less than a tenth of a minute, or are rare.
var minorOfFixes = []Kind{
	DecimalYears,
	VariationTwice, DeviationTwice, DeviationLeftOut, DeviationWrongWay, DeviationOfBearing, MarkMistaken, BearingMisread, MinutesAsDecimals,
	VariationLeftOut, YearsMiscounted, MinutesAtHundred, ChangeForVariation, ChangeLeftOut, ChangeWrongWay, NameKept,
	NorthForSouth, EastForWest, LongitudeScale, MovedByCourse, MovedByLog, StreamWrongWay, StreamLeftOut, LeewayWrongSide, LeewayLeftOut, NotMoved, MovedWrongWay, SecondMoved,
}

// stepsOfFix returns the steps of a fix up to its position.
func stepsOfFix(lines []fix.Line) working.Steps {
	f, err := fix.Solve(lines, fix.Options{})
	if err != nil {
		return nil
	}
	return upTo(f.Working().Steps, "position")
}

// NewFix asks for the position by bearings of two or more marks, to a tenth of a minute. The
// bearings are by the steering compass on one heading, and the answer is that of [fix.Solve]. The
// question also names the other marks, since one mark can be taken for another. For the sources
// see [NewToSteer]. Errors are those of [fix.Solve] and [course.FromCompass].
func NewFix(sightings []Sighting, head angle.Compass, with course.With, others ...fix.Mark) (Problem, error) {
	r, err := roundOf(sightings, head, with, others)
	if err != nil {
		return Problem{}, err
	}
	topic := "fix by two bearings"
	if len(sightings) > 2 {
		topic = "fix by three bearings"
	}
	lines := func(c *calculation) ([]plottedLine, error) {
		sightings, bearings, _, err := r.lines(c)
		out := make([]plottedLine, len(bearings))
		for i := range bearings {
			out[i] = plottedLine{sightings[i].Mark.Position, bearings[i]}
		}
		return out, err
	}
	right, err := lines(&calculation{})
	if err != nil {
		return Problem{}, err
	}
	solve := make([]fix.Line, len(right))
	for i, l := range right {
		solve[i] = fix.Bearing(sightings[i].Mark, l.bearing, angle.Uncertainty{})
	}
	chart, err := chartworkOf(right, solve)
	if err != nil {
		return Problem{}, err
	}
	return made(Problem{
		Topic: topic,
		Question: fmt.Sprintf("On heading %s, %s. %s%s. What is the position, to a tenth of a minute?",
			exact(head), listed(sightings, bears), alsoCharted(others), r.says()),
		Form: Position, Rounding: 0.1, plotted: onChart, minor: minorOfFixes,
	}, func() working.Steps {
		return append(r.steps(), stepsOfFix(solve)...)
	}, func(c *calculation) (float64, error) {
		lines, err := lines(c)
		if err != nil {
			return 0, err
		}
		return chart.position(lines), nil
	})
}

// NewFixByRange asks for the position by the compass bearing of one mark and its distance, as by
// radar, to a tenth of a minute. For the other arguments and the errors see [NewFix].
func NewFixByRange(sighting Sighting, distance sailing.Distance, head angle.Compass, with course.With, others ...fix.Mark) (Problem, error) {
	r, err := roundOf([]Sighting{sighting}, head, with, others)
	if err != nil {
		return Problem{}, err
	}
	lay := func(c *calculation) (angle.Position, error) {
		sightings, bearings, _, err := r.lines(c)
		if err != nil {
			return angle.Position{}, err
		}
		mark, run := sightings[0].Mark, sailing.Run{Course: bearings[0].Reciprocal(), Distance: distance}
		switch {
		case c.does(LongitudeScale):
			run.Distance *= sailing.Distance(mark.Position.Latitude.Angle().Cos())
		case c.does(ReciprocalForgotten):
			run.Course = run.Course.Reciprocal()
		}
		return sailing.WGS84().Follow(mark.Position, run)
	}
	_, bearings, _, err := r.lines(&calculation{})
	if err != nil {
		return Problem{}, err
	}
	off, err := fix.Range(sighting.Mark, distance, 0)
	if err != nil {
		return Problem{}, err
	}
	solve := []fix.Line{fix.Bearing(sighting.Mark, bearings[0], angle.Uncertainty{}), off}
	f, err := fix.Solve(solve, fix.Options{})
	if err != nil {
		return Problem{}, err
	}
	laid, err := lay(&calculation{})
	if err != nil {
		return Problem{}, err
	}
	chart := chartwork{f.Position(), laid.Latitude.Degrees(), laid.Longitude.Degrees()}
	return made(Problem{
		Topic: "fix by bearing and distance",
		Question: fmt.Sprintf("On heading %s, %s, distance %s M. %s%s. What is the position, to a tenth of a minute?",
			exact(head), bears(sighting), plain(distance.NauticalMiles()), alsoCharted(others), r.says()),
		Form: Position, Rounding: 0.1, plotted: onChart, minor: minorOfFixes,
	}, func() working.Steps {
		return append(r.steps(), stepsOfFix(solve)...)
	}, func(c *calculation) (float64, error) {
		at, err := lay(c)
		return chart.at(at.Latitude.Degrees(), at.Longitude.Degrees()), err
	})
}
