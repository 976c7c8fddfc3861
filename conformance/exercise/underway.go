package exercise

import (
	"fmt"
	"math"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix"
)

// The questions on positions under way.

// errDraw reports figures that make no good question. They are drawn again.
var errDraw = &Error{Reason: "the figures make no good question"}

// sightMarks are the marks that are seen under way.
var sightMarks = []string{"Orlesk Head light", "Minnow Ledge beacon", "St Osk church", "Braddle Point tower"}

// mark returns a mark of the chart for a fix.
func (v *voyage) mark(name string) fix.Mark {
	m, _ := v.chart.Mark(name)
	return m.Mark
}

// leewayOn returns the leeway on a heading, with its words for a question.
func (v *voyage) leewayOn(heading angle.True) (stream.Leeway, string, error) {
	if v.leeway == 0 {
		return stream.Leeway{}, "there is no leeway", nil
	}
	l, _, err := stream.LeewayOn(heading, v.leeway, v.wind)
	if err != nil || l.Angle == 0 {
		return stream.Leeway{}, "with the wind astern there is no leeway", err
	}
	return l, fmt.Sprintf("the leeway is %s with the wind on the %v side", degrees(l.Angle), l.WindSide), nil
}

// askMadeGood asks for the course and the speed made good on a leg.
func askMadeGood(v *voyage) (slip.Problem, error) {
	i := v.IntN(2)
	leg, at := v.legs[i], v.depart.Add(time.Duration(i)*v.legs[0].Lasts)
	_, wind, err := v.leewayOn(leg.Heading)
	if err != nil {
		return slip.Problem{}, err
	}
	return asked(fmt.Sprintf("From %s the vessel heads %s at %s through the water. The stream sets %s at %s; %s. What are the course and the speed made good, to the degree and to a tenth of a knot?",
		clock(at), leg.Heading, knots(v.speed), v.flow.Set, knots(v.flow.Rate), wind))(slip.NewMadeGood(leg))
}

// askReckoning asks for the position after the first two legs: by dead reckoning, or with the
// stream and leeway.
func (v *voyage) askReckoning(estimated bool) (slip.Problem, error) {
	legs := []stream.ReckonedRun{v.legs[0], v.legs[1]}
	minutes := int(legs[0].Lasts.Minutes())
	says := fmt.Sprintf("From the departure, %s, the vessel heads %s for %d minutes, then %s for %d minutes, at %s through the water.",
		v.from, legs[0].Heading, minutes, legs[1].Heading, minutes, knots(v.speed))
	what := "DR position"
	if !estimated {
		for i := range legs {
			legs[i].Stream, legs[i].Leeway = stream.Stream{}, stream.Leeway{}
		}
	} else {
		what = "estimated position"
		_, wind, err := v.leewayOn(legs[0].Heading)
		if err != nil {
			return slip.Problem{}, err
		}
		if legs[0].Leeway != legs[1].Leeway { // the wind is nearly astern
			return slip.Problem{}, errDraw
		}
		says += fmt.Sprintf(" Throughout, the stream sets %s at %s; %s.", v.flow.Set, knots(v.flow.Rate), wind)
	}
	return asked(fmt.Sprintf("%s What is the %s then, to a tenth of a minute?", says, what))(slip.NewReckoning(v.from, legs...))
}

// askSetAndDrift asks for the stream between a dead reckoning position and a fix.
func askSetAndDrift(v *voyage) (slip.Problem, error) {
	at := v.fixTime.Add(-time.Duration(9+v.IntN(6)) * time.Minute)
	reckoned, err := v.at(at, true)
	if err != nil {
		return slip.Problem{}, err
	}
	fixed, err := v.at(at, false)
	if err != nil {
		return slip.Problem{}, err
	}
	reckoned, fixed = roundedTo(reckoned, angle.Minute/10), roundedTo(fixed, angle.Minute/10)
	since := at.Sub(v.depart)
	return asked(fmt.Sprintf("At %s, %d minutes after the departure, the DR position is %s, and a satellite receiver gives %s. What are the set and the rate of the stream, to the degree and to a tenth of a knot?",
		clock(at), int(since.Minutes()), reckoned, fixed))(slip.NewSetAndDrift(reckoned, fixed, since))
}

// sight returns the sighting of a mark, as read on the compass.
func (v *voyage) sight(from angle.Position, mark string, head course.Heading) slip.Sighting {
	return slip.Sighting{Mark: v.mark(mark), Bearing: v.compassBearing(from, mark, head)}
}

// askFix asks for a fix by bearings, some minutes after the time of the position lines.
func (v *voyage) askFix(n, minutes int) (slip.Problem, error) {
	at := v.fixTime.Add(time.Duration(minutes) * time.Minute)
	p, err := v.at(at, false)
	if err != nil {
		return slip.Problem{}, err
	}
	steered, head, err := v.onThirdLeg()
	if err != nil {
		return slip.Problem{}, err
	}
	order := v.Perm(len(sightMarks))
	var sightings []slip.Sighting
	var lines []fix.Line
	var says []string
	for _, i := range order[:n] {
		s := v.sight(p, sightMarks[i], head)
		sightings, lines = append(sightings, s), append(lines, fix.CompassBearing(s.Mark, head.BearingFromCompass(s.Bearing), angle.Uncertainty{}))
		says = append(says, fmt.Sprintf("%s bears %s", s.Mark.Name, s.Bearing))
	}
	f, err := fix.Solve(lines, fix.Options{})
	if err != nil {
		return slip.Problem{}, err
	}
	if _, _, cut := f.BestCut(); cut < 40*angle.Degree {
		return slip.Problem{}, errDraw
	}
	for _, l := range lines { // a small cocked hat
		if math.Abs(l.Residual(f.Position()).Offset.NauticalMiles()) > 0.08 {
			return slip.Problem{}, errDraw
		}
	}
	return asked(fmt.Sprintf("At %s the vessel steers %s. By the steering compass %s. %s What is the position, to a tenth of a minute?",
		clock(at), steered, and(says), v.byRose(bay)))(slip.NewFix(sightings, steered, v.with(bay), v.mark(sightMarks[order[n%len(order)]])))
}

// and joins texts as a list.
func and(texts []string) string {
	if len(texts) < 2 {
		return strings.Join(texts, "")
	}
	return strings.Join(texts[:len(texts)-1], ", ") + " and " + texts[len(texts)-1]
}

// askRunningFix asks for a running fix by two bearings of one mark.
func askRunningFix(v *voyage) (slip.Problem, error) {
	steered, head, err := v.onThirdLeg()
	if err != nil {
		return slip.Problem{}, err
	}
	leeway, wind, err := v.leewayOn(head.True())
	if err != nil {
		return slip.Problem{}, err
	}
	at := v.fixTime.Add(12 * time.Minute)
	p, err := v.at(at, false)
	if err != nil {
		return slip.Problem{}, err
	}
	left := sailing.WGS84().Rhumb(p, v.to).Distance.NauticalMiles() / v.speed.Knots() * 60
	lasts := time.Duration(max(15, min(20+5*v.IntN(6), int(left)))) * time.Minute
	run := stream.ReckonedRun{Heading: head.True(), Speed: v.speed, Lasts: lasts, Stream: v.flow, Leeway: leeway}
	then, err := stream.Estimate{Position: p}.Run(run)
	if err != nil {
		return slip.Problem{}, err
	}
	order := v.Perm(len(sightMarks))
	for _, i := range order {
		first, second := v.sight(p, sightMarks[i], head), v.sight(then.Position, sightMarks[i], head)
		if cut := first.Bearing.Sub(second.Bearing).Abs(); cut < 30*angle.Degree || cut > 150*angle.Degree {
			continue
		}
		return asked(fmt.Sprintf("At %s %s bears %s by the steering compass, and at %s it bears %s. The vessel steers %s at %s throughout; the stream sets %s at %s; %s. %s What is the position at %s, to a tenth of a minute?",
			clock(at), first.Mark.Name, first.Bearing, clock(at.Add(run.Lasts)), second.Bearing, steered, knots(v.speed), v.flow.Set, knots(v.flow.Rate), wind, v.byRose(bay), clock(at.Add(run.Lasts))))(
			slip.NewRunningFix(first, second, run, steered, v.with(bay), v.mark(sightMarks[(i+1)%len(sightMarks)])))
	}
	return slip.Problem{}, errDraw
}

// askApproach asks for the distance run in the approach.
func askApproach(v *voyage) (slip.Problem, error) {
	minutes := 20 + v.IntN(35)
	return asked(fmt.Sprintf("In the approach the log shows %s for %d minutes. What is the distance run, to a tenth of a mile?", knots(v.speed), minutes))(
		slip.NewRun(v.speed, time.Duration(minutes)*time.Minute))
}

// askArrival asks for the time of arrival at the anchorage.
func askArrival(v *voyage) (slip.Problem, error) {
	at := v.landfallTime().Add(time.Duration(1+v.IntN(5)) * time.Minute)
	distance := v.tenths(3, 2)
	sinceMidnight := time.Duration(at.Hour())*time.Hour + time.Duration(at.Minute())*time.Minute
	return asked(fmt.Sprintf("At %s, %.1f M remain to the anchorage in St Osk Road. The speed made good is %s. When does the vessel arrive, to the minute?", clock(at), distance, knots(v.speed)))(
		slip.NewArrival(sinceMidnight, sailing.Distance(distance)*sailing.NauticalMile, v.speed))
}
