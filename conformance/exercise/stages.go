package exercise

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course"
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
	{"true course", askTrueCourse},
	{"course to steer", func(v *voyage) (slip.Problem, error) {
		return v.askToSteer("Before the departure the vessel makes for it", v.track.Add(angle.Angle(60+v.IntN(60))*angle.Degree), offing)
	}},
	{"deviation by the Sun's azimuth", askSun},
	{"tidal stream", askTidal},
	{"stream", askStream},
	{"course and speed made good", askMadeGood},
	{"distance run", askRun},
	{"latitude", askLatitude},
	{"difference of longitude", askDLong},
	{"dead reckoning", func(v *voyage) (slip.Problem, error) { return v.askReckoning(false) }},
	{"estimated position", func(v *voyage) (slip.Problem, error) { return v.askReckoning(true) }},
	{"set and drift", askSetAndDrift},
	{"fix by two bearings", func(v *voyage) (slip.Problem, error) { return v.askFix(2, -5+v.IntN(4)) }},
	{"position line", func(v *voyage) (slip.Problem, error) { return v.askLine("Minnow Ledge beacon", 0) }},
	{"position line", func(v *voyage) (slip.Problem, error) { return v.askLine("St Osk church", 2) }},
	{"fix by three bearings", func(v *voyage) (slip.Problem, error) { return v.askFix(3, 5) }},
	{"fix by bearing and distance", askFixByRange},
	{"running fix", askRunningFix},
	{"variation", func(v *voyage) (slip.Problem, error) { return v.askRose(bay) }},
	{"course to steer", func(v *voyage) (slip.Problem, error) {
		return v.askToSteer(fmt.Sprintf("At %s, off the Quern buoy, the vessel alters for the anchorage", clock(v.landfallTime())), angle.TrueFrom(angle.Angle(115+v.IntN(30))*angle.Degree), bay)
	}},
	{"clearing bearing", askClearing},
	{"deviation by transit", askTransit},
	{"distance by vertical angle", askVerticalAngle},
	{"distance run", askApproach},
	{"time of arrival", askArrival},
	{"course to steer in wind", askInWind},
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
	steering, err := stream.CourseToSteer(v.track, v.speed, v.flow)
	if err != nil {
		return slip.Problem{}, err
	}
	leeway, wind, err := v.leewayOn(steering.Water.Course)
	if err != nil {
		return slip.Problem{}, err
	}
	return asked(fmt.Sprintf("At %s the track to the landfall off the Quern buoy is %s. The speed through the water is %s. The stream sets %s at %s; %s. What is the true course to steer, to the degree?",
		clock(v.depart), v.track, knots(v.speed), v.flow.Set, knots(v.flow.Rate), wind))(slip.NewToSteerThroughStream(v.track, v.speed, v.flow, leeway))
}

// askToSteer asks for the course to steer by compass.
func (v *voyage) askToSteer(when string, track angle.True, rose string) (slip.Problem, error) {
	return asked(fmt.Sprintf("%s on a course of %s. %s What is the course to steer by compass, to the degree?", when, track, v.byRose(rose)))(
		slip.NewToSteer(track, v.with(rose)))
}

// askTrueCourse asks for the true course on the way to the departure.
func askTrueCourse(v *voyage) (slip.Problem, error) {
	turn := angle.Angle(60+v.IntN(50)) * angle.Degree
	if v.IntN(2) == 0 {
		turn = -turn
	}
	steered, _, err := v.heading(v.track.Add(turn), offing)
	if err != nil {
		return slip.Problem{}, err
	}
	return asked(fmt.Sprintf("An hour before the departure the vessel steers %s. %s What is the true course, to the degree?", steered, v.byRose(offing)))(
		slip.NewTrueCourse(steered, v.with(offing)))
}

// askRun asks for the distance run between two times.
func askRun(v *voyage) (slip.Problem, error) {
	at := v.fixTime.Add(time.Duration(v.IntN(20)-10) * time.Minute)
	return asked(fmt.Sprintf("The log shows %s from %s to %s. What is the distance run, to a tenth of a mile?", knots(v.speed), clock(v.depart), clock(at)))(
		slip.NewRun(v.speed, at.Sub(v.depart)))
}

// askLatitude asks for the latitude by dead reckoning at a time on the first leg.
func askLatitude(v *voyage) (slip.Problem, error) {
	miles := math.Round(v.speed.Knots()*v.legs[0].Lasts.Hours()*(0.5+v.Float64()/2)*10) / 10
	run := sailing.Run{Course: v.legs[0].Heading, Distance: sailing.Distance(miles) * sailing.NauticalMile}
	return asked(fmt.Sprintf("From the departure, %s, the vessel first runs %.1f M on %s. What is its DR latitude then, to a tenth of a minute?", v.from, miles, run.Course))(
		slip.NewLatitude(v.from.Latitude, run))
}

// askDLong asks for the difference of longitude of a departure.
func askDLong(v *voyage) (slip.Problem, error) {
	run := sailing.WGS84().Rhumb(v.from, v.to)
	miles := math.Round(run.Distance.NauticalMiles()*run.Course.FromNorth().Sin()*10) / 10
	latitude := angle.Must(angle.LatitudeFrom(v.from.Latitude.Angle().Round(angle.Minute)))
	return asked(fmt.Sprintf("On the way to the landfall the vessel makes %.1f M of departure to the east, about latitude %s. What is the difference of longitude, to a tenth of a minute?", miles, latitude))(
		slip.NewDLong(latitude, sailing.Distance(miles)*sailing.NauticalMile))
}

// onThirdLeg returns the heading of the third leg, as steered.
func (v *voyage) onThirdLeg() (angle.Compass, course.Heading, error) {
	return v.heading(v.legs[2].Heading, bay)
}

// askLine asks for a position line while under way.
func (v *voyage) askLine(mark string, minutes int) (slip.Problem, error) {
	steered, head, err := v.onThirdLeg()
	if err != nil {
		return slip.Problem{}, err
	}
	at := v.fixTime.Add(time.Duration(minutes) * time.Minute)
	p, err := v.at(at, false)
	if err != nil {
		return slip.Problem{}, err
	}
	bearing := v.compassBearing(p, mark, head)
	return asked(fmt.Sprintf("At %s the vessel steers %s. %s bears %s. %s What is the true direction of the position line from %s, to the degree?",
		clock(at), steered, mark, bearing, v.byRose(bay), mark))(slip.NewPositionLine(mark, bearing, steered, v.with(bay)))
}
