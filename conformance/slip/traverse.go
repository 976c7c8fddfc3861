package slip

import (
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// tells returns the words about a leg of a reckoning, for a question.
func tells(leg stream.ReckonedRun) string {
	text := fmt.Sprintf("%s on %s at %s", minutesOf(leg.Lasts), exact(leg.Heading), knots(leg.Speed))
	if leg.Stream.Rate != 0 {
		text += fmt.Sprintf(", stream %s %s", exact(leg.Stream.Set), knots(leg.Stream.Rate))
	}
	if leg.Leeway.Angle != 0 {
		text += ", " + windAndLeeway(leg.Leeway)
	}
	return text
}

// tellsAll returns the words about the legs of a reckoning. A stream that is the same on all of them
// stands once.
func tellsAll(legs []stream.ReckonedRun) string {
	throughout := stream.Stream{}
	if len(legs) > 1 {
		throughout = legs[0].Stream
	}
	for _, leg := range legs {
		if leg.Stream != throughout {
			throughout = stream.Stream{}
		}
	}
	words := make([]string, len(legs))
	for i, leg := range legs {
		if throughout.Rate != 0 {
			leg.Stream = stream.Stream{}
		}
		words[i] = tells(leg)
	}
	text := strings.Join(words, "; then ")
	if throughout.Rate != 0 {
		text += fmt.Sprintf("; the stream sets %s at %s throughout", exact(throughout.Set), knots(throughout.Rate))
	}
	return text
}

// isEstimate reports whether a reckoning has a stream or leeway.
func isEstimate(legs []stream.ReckonedRun) bool {
	for _, leg := range legs {
		if leg.Stream.Rate != 0 || leg.Leeway.Angle != 0 {
			return true
		}
	}
	return false
}

// runsOf returns the runs through the water and those of the stream, with their slips.
func runsOf(c *calculation, legs []stream.ReckonedRun) []sailing.Run {
	left := -1
	if len(legs) > 1 {
		if v, does := c.way(LegLeftOut, len(legs)); does {
			left = v
		}
	}
	var out []sailing.Run
	for i, leg := range legs {
		if i == left {
			continue
		}
		lasts := leg.Lasts.Hours()
		if decimalsOnTheWay(c) {
			whole, part := math.Modf(lasts)
			lasts = whole + part*60/100
		}
		// The last ways misread the speed of all legs.
		switch v, does := c.way(TensMisread, 4+6*len(legs)+2); {
		case does && v >= 4 && (v-4)/6 == i:
			leg = misreadLeg(leg, (v-4)%6)
		case does && v >= 4+6*len(legs):
			leg = misreadLeg(leg, 2+v%2)
		}
		over := func(s sailing.Speed) sailing.Distance {
			return sailing.Distance(s.Knots()*lasts) * sailing.NauticalMile
		}
		out = append(out, sailing.Run{Course: leg.Heading.Add(ofLeeway(c, leg.Leeway.Deflection())), Distance: over(leg.Speed)})
		if leg.Stream.Rate == 0 {
			continue
		}
		set := leg.Stream.Set
		switch {
		case c.does(StreamWrongWay):
			set = set.Reciprocal()
		case c.does(StreamLeftOut):
			continue
		}
		out = append(out, sailing.Run{Course: set, Distance: over(leg.Stream.Rate)})
	}
	return out
}

// legNames names the steps of a traverse by the legs through the water. The run of a stream is not
// a leg of its own: it belongs to the leg in whose time it set.
func legNames(steps working.Steps, legs []stream.ReckonedRun) working.Steps {
	at := 0
	for i, leg := range legs {
		names := []string{fmt.Sprintf("Leg %d", i+1)}
		if leg.Stream.Rate != 0 {
			names = append(names, fmt.Sprintf("Stream, leg %d", i+1))
		}
		for _, name := range names {
			if at < len(steps) {
				steps[at].What = name
			}
			at++
		}
	}
	return steps
}

// misreadLeg returns a leg with its course, speed or set misread by ten.
func misreadLeg(leg stream.ReckonedRun, way int) stream.ReckonedRun {
	ten := []float64{10, -10}[way%2]
	switch way / 2 {
	case 0:
		leg.Heading = leg.Heading.Add(angle.Angle(ten) * angle.Degree)
	case 1:
		leg.Speed += sailing.Speed(ten) * sailing.Knot
	case 2:
		leg.Stream.Set = leg.Stream.Set.Add(angle.Angle(ten) * angle.Degree)
	}
	return leg
}

// A sums is the sum of a traverse: difference of latitude and departure in miles, north and east
// positive, and all distances.
type sums struct{ north, east, run float64 }

// sumOf sums runs, with the slips of a traverse table.
func sumOf(c *calculation, runs []sailing.Run) sums {
	exchanged := c.does(SineForCosine)
	var s sums
	for _, r := range runs {
		miles := r.Distance.NauticalMiles()
		north, east := miles*r.Course.FromNorth().Cos(), miles*r.Course.FromNorth().Sin()
		if exchanged { // the columns of the table, each with its right name
			north, east = math.Copysign(east, north), math.Copysign(north, east)
		}
		s.north, s.east, s.run = s.north+north, s.east+east, s.run+miles
	}
	return s
}

// NewReckoning asks for the dead reckoning position after one leg or more, to a tenth of a
// minute. If a leg has a stream or leeway, it asks for the estimated position. The sailing is by
// traverse and middle latitude. Errors are those of [sailing.NewTraverse], and an [*Error]
// without legs, for an invalid leeway, or if the run passes a pole.
func NewReckoning(from angle.Position, legs ...stream.ReckonedRun) (Problem, error) {
	if len(legs) == 0 {
		return Problem{}, &Error{Reason: "there are no legs: give at least one"}
	}
	if err := checkLeeways(legs); err != nil {
		return Problem{}, err
	}
	topic, name := "dead reckoning", "dead reckoning position"
	if isEstimate(legs) {
		topic, name = "estimated position", "estimated position"
	}
	runs := runsOf(&calculation{}, legs)
	traverse, err := sailing.NewTraverse(runs...)
	if err != nil {
		return Problem{}, err
	}
	work := func(c *calculation) (float64, error) {
		s := sumOf(c, runsOf(c, legs))
		if v, does := c.way(NorthForSouth, 2); does && v == 0 {
			s.north = -s.north
		}
		if v, does := c.way(EastForWest, 2); does && v == 0 {
			s.east = -s.east
		}
		s.north = 60 * c.figure(Figure{Key: "d-lat", What: "Difference of latitude", Form: NorthSouth, Rounding: 0.1 / 60}, s.north/60)
		latitude := from.Latitude.Degrees() + s.north/60
		if c.does(MinutesAtHundred) {
			dlat, err := angle.Minutes(s.north)
			if err != nil {
				return 0, err
			}
			latitude = carriedAtHundred(from.Latitude.Angle(), dlat).Degrees()
		}
		cos := math.Cos((from.Latitude.Degrees() + s.north/120) * math.Pi / 180)
		switch {
		case !(math.Abs(latitude) < 90):
			return 0, &Error{Reason: "the run passes the pole; give a shorter one"}
		case c.does(CosineLeftOut):
			cos = 1
		case c.does(CosineWrongWay):
			cos = 1 / cos
		}
		dlong := c.figure(Figure{Key: "d-long", What: "Difference of longitude", Form: MinutesEastWest, Rounding: 0.1}, s.east/cos)
		return Position.pair(latitude, from.Longitude.Degrees()+dlong/60), nil
	}
	return made(Problem{
		Topic:    topic,
		Question: fmt.Sprintf("From %s: %s. What is the %s, by traverse and middle latitude, to a tenth of a minute?", from, tellsAll(legs), name),
		Form:     Position, Rounding: 0.1, minor: []Kind{MinutesAtHundred, MinutesAsDecimals, LeewayLeftOut, LeewayWrongSide, NorthForSouth, EastForWest, SineForCosine},
	}, func() working.Steps {
		steps := upTo(legNames(traverse.Working().Steps, legs), "departure")
		answer, err := work(&calculation{})
		if err != nil {
			return steps
		}
		at := Problem{Form: Position, Rounding: 0.1}
		latitude, longitude := at.Pair(answer)
		dlong := math.Remainder(longitude-from.Longitude.Degrees(), 360) * 60
		return append(steps,
			working.Step{Key: "dlong", What: "Difference of longitude", Value: Problem{Form: MinutesEastWest}.Print(dlong), Number: dlong, Unit: "minutes, east positive"}.Because("departure-over-cosine-of-middle", "departure ÷ cosine of the middle latitude"),
			working.Step{Key: "position", What: capital(name), Value: at.Print(answer), Number: latitude}.Because("differences-applied", "both differences applied to %v", from))
	}, work)
}

// NewCourseMadeGood asks for the course and distance made good over one leg or more, to the
// degree and to a tenth of a mile. They lead from where the run began to the estimated position,
// by traverse. For a run that leads back to where it began, or an invalid leeway, it returns an
// [*Error]. Other errors are those of [sailing.NewTraverse].
func NewCourseMadeGood(legs ...stream.ReckonedRun) (Problem, error) {
	if err := checkLeeways(legs); err != nil {
		return Problem{}, err
	}
	traverse, err := sailing.NewTraverse(runsOf(&calculation{}, legs)...)
	if err != nil {
		return Problem{}, err
	}
	if traverse.Distance.NauticalMiles() < 0.1 {
		return Problem{}, &Error{Reason: "the run leads back to where it began: give other legs"}
	}
	return made(Problem{
		Topic:    "course and distance made good",
		Question: fmt.Sprintf("A vessel runs %s. What are the course and the distance made good, by traverse, to the degree and to a tenth of a mile?", tellsAll(legs)),
		Form:     CourseAndDistance, Rounding: 1, north: 'T', minor: []Kind{MinutesAsDecimals, LeewayLeftOut, LeewayWrongSide, NorthForSouth, EastForWest, SineForCosine, RoundedOnTheWay, DistancesAdded},
	}, func() working.Steps { return legNames(traverse.Working().Steps, legs) }, func(c *calculation) (float64, error) {
		s := sumOf(c, runsOf(c, legs))
		return courseAndDistance(c, ReciprocalTaken, s.north, s.east, func(distance float64) float64 {
			if c.does(DistancesAdded) {
				return s.run
			}
			return distance
		}), nil
	})
}

// courseAndDistance returns the course and the distance of miles north and east, or the set and a
// figure that follows from the drift. It has the slips of naming and of reversing the course.
func courseAndDistance(c *calculation, reversing Kind, north, east float64, of func(float64) float64) float64 {
	distance := of(math.Hypot(north, east))
	if c.does(NorthForSouth) {
		north = -north
	}
	if c.does(EastForWest) {
		east = -east
	}
	course := math.Atan2(east, north) * 180 / math.Pi
	if c.does(reversing) {
		course += 180
	}
	return CourseAndDistance.pair(course, distance)
}
