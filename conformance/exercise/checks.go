package exercise

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/conformance/slip"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation/sky"
)

// The questions that check the compass, and those of the approach.

// observed returns a bearing as the compass shows it: its deviation may differ from the card by up
// to 2°.
func (v *voyage) observed(t angle.True, head course.Heading) angle.Compass {
	off := angle.Angle(v.IntN(9)-4) * angle.Degree / 2
	return head.BearingFromTrue(t).Compass().Add(off).Round(angle.Degree / 2)
}

// askTransit asks for the deviation by a transit of two marks in the approach.
func askTransit(v *voyage) (slip.Problem, error) {
	front, back := v.mark("St Osk church"), v.mark("Stennock Hill")
	steered, head, err := v.heading(angle.TrueFrom(angle.Angle(115+v.IntN(30))*angle.Degree), bay)
	if err != nil {
		return slip.Problem{}, err
	}
	charted := sailing.WGS84().Rhumb(front.Position, back.Position).Course.Round(angle.Degree / 2)
	bears := v.observed(charted, head)
	return asked(fmt.Sprintf("At %s, on a heading of %s, St Osk church and Stennock Hill are in line, bearing %s. The chart gives the line as %s. Take the variation from the %s for %d. What is the deviation, to a tenth of a degree?",
		clock(v.landfallTime().Add(10*time.Minute)), steered, bears, charted, bay, v.depart.Year()))(
		slip.NewDeviation("the transit of St Osk church and Stennock Hill", charted, bears, steered, v.with(bay)))
}

// askSun asks for the deviation by the Sun's azimuth at the departure.
func askSun(v *voyage) (slip.Problem, error) {
	sun, err := sky.Sun(v.depart)
	if err != nil {
		return slip.Problem{}, err
	}
	sight := sun.From(v.from)
	if sight.Altitude < 5*angle.Degree || sight.Altitude > 45*angle.Degree {
		return slip.Problem{}, errDraw
	}
	steered, head, err := v.heading(v.track.Add(angle.Angle(v.IntN(31)-15)*angle.Degree), offing)
	if err != nil {
		return slip.Problem{}, err
	}
	bears := v.observed(sight.Azimuth, head)
	declination := fmt.Sprintf("%.1v%s", sun.Declination.Abs().Round(angle.Minute/10), map[bool]string{true: "S", false: "N"}[sun.Declination < 0])
	return asked(fmt.Sprintf("At %s UTC, in %s on a heading of %s, the Sun bears %s. Its declination is %s, its Greenwich hour angle %.1v. Take the variation from the %s for %d. What is the deviation, to a tenth of a degree?",
		clock(v.depart), v.from, steered, bears, declination, sun.GreenwichHourAngle.Round(angle.Minute/10), offing, v.depart.Year()))(
		slip.NewDeviationBySun(v.from, bears, steered, v.with(offing)))
}

// askFixByRange asks for a fix by a bearing and a distance.
func askFixByRange(v *voyage) (slip.Problem, error) {
	at := v.fixTime.Add(9 * time.Minute)
	p, err := v.at(at, false)
	if err != nil {
		return slip.Problem{}, err
	}
	steered, head, err := v.onThirdLeg()
	if err != nil {
		return slip.Problem{}, err
	}
	i := v.IntN(len(sightMarks))
	s := v.sight(p, sightMarks[i], head)
	off := math.Round(sailing.WGS84().Rhumb(p, s.Mark.Position).Distance.NauticalMiles()*10) / 10
	return asked(fmt.Sprintf("At %s the vessel steers %s. %s bears %s by the steering compass, distant %.1f M by radar. %s What is the position, to a tenth of a minute?",
		clock(at), steered, s.Mark.Name, s.Bearing, off, v.byRose(bay)))(
		slip.NewFixByRange(s, sailing.Distance(off)*sailing.NauticalMile, steered, v.with(bay), v.mark(sightMarks[(i+1)%len(sightMarks)])))
}

// askInWind asks for the course to steer by compass, with leeway, when the vessel leaves.
func askInWind(v *voyage) (slip.Problem, error) {
	if v.leeway == 0 {
		return slip.Problem{}, errDraw
	}
	track := angle.TrueFrom(angle.Angle(255+v.IntN(50)) * angle.Degree)
	leeway, _, err := v.leewayOn(track)
	if err != nil || leeway.Angle == 0 {
		return slip.Problem{}, errDraw
	}
	return asked(fmt.Sprintf("When the vessel leaves the anchorage the next day, the water track is to be %s. The leeway is %s with the wind on the %v side. %s What is the course to steer by compass, to the degree?",
		track, degrees(leeway.Angle), leeway.WindSide, v.byRose(bay)))(slip.NewToSteerInWind(track, leeway, v.with(bay)))
}

// askTidal asks for the rate of the stream at the other place of the table.
func askTidal(v *voyage) (slip.Problem, error) {
	high, low := v.heights()
	at := v.highWater.Add(time.Duration(v.IntN(9)-4)*time.Hour + time.Duration(5*v.IntN(9)-20)*time.Minute)
	if v.hard == 0 {
		at = at.Round(time.Hour).Add(v.highWater.Sub(v.highWater.Round(time.Hour)))
	}
	if s, err := v.streamAt("A", at); err != nil || s.Rate < 0.3*sailing.Knot {
		return slip.Problem{}, errDraw
	}
	return asked(fmt.Sprintf("What is the rate of the tidal stream at place A of the table at %s, to a tenth of a knot?", clock(at)))(
		slip.NewTidalRate(*v.chart.Tidal, "A", v.highWater, high, low, at))
}

// askClearing asks for the clearing bearing that keeps the vessel off the Quern Shoal in the
// approach.
func askClearing(v *voyage) (slip.Problem, error) {
	shoal, _ := v.chart.Danger("Quern Shoal")
	church := v.mark("St Osk church")
	near := sailing.WGS84().Rhumb(v.to, church.Position).Course.Add(angle.Angle(v.IntN(17)-8) * angle.Degree)
	steered, _, err := v.heading(near, bay)
	if err != nil {
		return slip.Problem{}, err
	}
	cables := 5 + v.IntN(4)
	return asked(fmt.Sprintf("At %s, off the Quern buoy, the vessel steers %s toward St Osk church, to leave the middle of the Quern Shoal, %s, %.1f M to port. The church stands at %s. %s What is the clearing bearing of the church by the steering compass, to the degree?",
		clock(v.landfallTime()), steered, shoal.Position, float64(cables)/10, church.Position, v.byRose(bay)))(
		slip.NewClearingBearing(church, shoal.Position, sailing.Distance(cables)/10*sailing.NauticalMile, angle.Port, steered, v.with(bay)))
}

// askVerticalAngle asks for the distance off St Osk church by its height.
func askVerticalAngle(v *voyage) (slip.Problem, error) {
	church, _ := v.chart.Mark("St Osk church")
	miles := 1.5 + v.Float64()*2
	up, err := angle.Radians(math.Atan(church.Height.Metres() / (miles * 1852)))
	if err != nil {
		return slip.Problem{}, err
	}
	var indexError angle.Angle
	says := "There is no index error."
	if v.hard > 0 {
		indexError = angle.Angle(6+2*v.IntN(10)) * angle.Minute / 10
		says = fmt.Sprintf("The index error is %.1f′ on the arc.", indexError.Minutes())
	}
	sextant := (up + indexError).Round(angle.Minute / 10)
	return asked(fmt.Sprintf("In the approach the angle between the top of St Osk church, %.0f m above the water, and the water line below it is %.1v by sextant. %s What is the distance off, to a tenth of a mile?", church.Height.Metres(), sextant, says))(
		slip.NewVerticalAngle(church.Height, sextant, indexError, 3*sailing.Metre))
}
