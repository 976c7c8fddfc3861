package exercise

import (
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// A stage is a question of the passage.
type stage struct {
	topic string // one of [slip.Topics]
	ask   func(*voyage) (slip.Problem, error)
}

// The roses of the chart.
const (
	offing = "Offing rose"
	bay    = "Orlesk Bay rose"
)

// stages are the questions in the order of the passage.
var stages = []stage{
	{"variation", func(v *voyage) (slip.Problem, error) { return v.askRose(offing) }},
	{"course to steer", func(v *voyage) (slip.Problem, error) {
		return v.askToSteer("Before the departure the vessel makes for it", v.track.Add(angle.Angle(60+v.IntN(60))*angle.Degree), offing)
	}},
	{"stream", askStream},
	{"true course", askDiversion},
	{"course and speed made good", askMadeGood},
	{"distance run", askRun},
	{"latitude", askLatitude},
	{"difference of longitude", askDLong},
	{"dead reckoning", func(v *voyage) (slip.Problem, error) { return v.askReckoning(false) }},
	{"estimated position", func(v *voyage) (slip.Problem, error) { return v.askReckoning(true) }},
	{"set and drift", askSetAndDrift},
	{"fix by two bearings", func(v *voyage) (slip.Problem, error) { return v.askFix(2, -10) }},
	{"position line", func(v *voyage) (slip.Problem, error) { return v.askLine("Minnow Ledge beacon") }},
	{"position line", func(v *voyage) (slip.Problem, error) { return v.askLine("St Osk church") }},
	{"fix by three bearings", func(v *voyage) (slip.Problem, error) { return v.askFix(3, 10) }},
	{"running fix", askRunningFix},
	{"variation", func(v *voyage) (slip.Problem, error) { return v.askRose(bay) }},
	{"course to steer", func(v *voyage) (slip.Problem, error) {
		return v.askToSteer(fmt.Sprintf("At %s, off the Quern buoy, the vessel alters for the anchorage", clock(v.fixTime.Add(50*time.Minute))), angle.TrueFrom(angle.Angle(115+v.IntN(30))*angle.Degree), bay)
	}},
	{"distance run", askApproach},
	{"time of arrival", askArrival},
}

// asked returns a function that gives a problem another question.
func asked(question string) func(slip.Problem, error) (slip.Problem, error) {
	return func(p slip.Problem, err error) (slip.Problem, error) {
		p.Question = question
		return p, err
	}
}

// askRose asks for the variation of a rose.
func (v *voyage) askRose(name string) (slip.Problem, error) {
	year := v.depart.Year()
	return asked(fmt.Sprintf("The %s says %s. What is the variation in %d, to the minute?", name, v.rose(name), year))(slip.NewRose(v.rose(name), year))
}

// byRose says where the variation and the deviation are taken from.
func (v *voyage) byRose(name string) string {
	return fmt.Sprintf("Take the variation from the %s for %d and the deviation from the card.", name, v.depart.Year())
}

// askStream asks for the course to steer at the departure.
func askStream(v *voyage) (slip.Problem, error) {
	flow, err := v.streamAt("B", v.depart)
	if err != nil || flow.Rate.Knots() < 0.5 { // too weak to teach anything
		flow = stream.Stream{Set: angle.TrueFrom(angle.Angle(v.IntN(40)) * angle.Degree), Rate: sailing.Speed(v.tenths(1, 1)) * sailing.Knot}
	}
	steering, err := stream.CourseToSteer(v.track, v.speed, flow)
	if err != nil {
		return slip.Problem{}, err
	}
	var leeway stream.Leeway
	wind := "there is no leeway"
	if v.leeway > 0 {
		if leeway, _, err = stream.LeewayOn(steering.Water.Course, v.leeway, v.wind); err != nil {
			return slip.Problem{}, err
		}
	}
	if leeway.Angle > 0 {
		wind = fmt.Sprintf("the leeway is %s with the wind on the %v side", degrees(leeway.Angle), leeway.WindSide)
	}
	return asked(fmt.Sprintf("At %s the vessel leaves to make good a track of %s at %s through the water. The stream sets %s at %s; %s. What is the true course to steer, to the degree?",
		clock(v.depart), v.track, knots(v.speed), flow.Set, knots(flow.Rate), wind))(slip.NewToSteerThroughStream(v.track, v.speed, flow, leeway))
}

// askToSteer asks for the course to steer by compass.
func (v *voyage) askToSteer(when string, track angle.True, rose string) (slip.Problem, error) {
	return asked(fmt.Sprintf("%s on a course of %s. %s What is the course to steer by compass, to the degree?", when, track, v.byRose(rose)))(
		slip.NewToSteer(track, v.with(rose)))
}

// askDiversion asks for the true course while the vessel keeps clear of another.
func askDiversion(v *voyage) (slip.Problem, error) {
	turn := angle.Angle(40+v.IntN(50)) * angle.Degree
	if v.IntN(2) == 0 {
		turn = -turn
	}
	steered, _, err := v.heading(v.track.Add(turn), offing)
	if err != nil {
		return slip.Problem{}, err
	}
	at := v.later(v.depart, 20, 20)
	return asked(fmt.Sprintf("From %s the vessel keeps clear of a fishing fleet and steers %s. %s What is the true course, to the degree?", clock(at), steered, v.byRose(offing)))(
		slip.NewTrueCourse(steered, v.with(offing)))
}

// askRun asks for the distance run between two times.
func askRun(v *voyage) (slip.Problem, error) {
	at := v.depart.Add(time.Duration(40+v.IntN(50)) * time.Minute)
	return asked(fmt.Sprintf("The log shows %s from %s to %s. What is the distance run, to a tenth of a mile?", knots(v.speed), clock(v.depart), clock(at)))(
		slip.NewRun(v.speed, at.Sub(v.depart)))
}

// run draws a run on the way to the landfall.
func (v *voyage) run() sailing.Run {
	off := angle.Angle(v.IntN(31)-15) * angle.Degree
	return sailing.Run{Course: v.track.Add(off), Distance: sailing.Distance(v.tenths(4, 4)) * sailing.NauticalMile}
}

// askLatitude asks for the latitude by dead reckoning.
func askLatitude(v *voyage) (slip.Problem, error) {
	run := v.run()
	return asked(fmt.Sprintf("From the departure, %s, the vessel runs %.1f M on %s. What is the DR latitude, to a tenth of a minute?", v.from, run.Distance.NauticalMiles(), run.Course))(
		slip.NewLatitude(v.from.Latitude, run))
}

// askDLong asks for the difference of longitude of a departure.
func askDLong(v *voyage) (slip.Problem, error) {
	miles := v.tenths(4, 5)
	latitude := angle.Must(angle.LatitudeFrom(v.from.Latitude.Angle().Round(angle.Minute)))
	return asked(fmt.Sprintf("In latitude %s the vessel makes %.1f M of departure to the east. What is the difference of longitude, to a tenth of a minute?", latitude, miles))(
		slip.NewDLong(latitude, sailing.Distance(miles)*sailing.NauticalMile))
}

// askLine asks for a position line while under way.
func (v *voyage) askLine(mark string) (slip.Problem, error) {
	steered, head, err := v.heading(v.track.Add(angle.Angle(v.IntN(21)-10)*angle.Degree), bay)
	if err != nil {
		return slip.Problem{}, err
	}
	bearing := v.compassBearing(v.fixed, mark, head)
	return asked(fmt.Sprintf("At %s the vessel steers %s. %s bears %s. %s What is the true direction of the position line from %s, to the degree?",
		clock(v.fixTime), steered, mark, bearing, v.byRose(bay), mark))(slip.NewPositionLine(mark, bearing, steered, v.with(bay)))
}
