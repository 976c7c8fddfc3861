package slip

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

// orNaN turns a working that can return an error into one that returns NaN. Some slips have
// no answer.
func orNaN(work func(*calculation) (float64, error)) func(*calculation) float64 {
	return func(c *calculation) float64 {
		x, err := work(c)
		if err != nil {
			return math.NaN()
		}
		return x
	}
}

// NewToSteerThroughStream asks for the true course to steer to make good a track through a
// stream, with leeway, to the whole degree. For a leeway that is not from 0 to
// [stream.MaxLeeway], or without the side of the wind, it returns an [*Error]. Other errors are
// those of [stream.CourseToSteer].
func NewToSteerThroughStream(track angle.True, speed sailing.Speed, flow stream.Stream, leeway stream.Leeway) (Problem, error) {
	if err := checkLeeway(leeway); err != nil {
		return Problem{}, err
	}
	work := func(c *calculation) (float64, error) {
		s, track := flow, track
		track = angle.TrueFrom(misreadGiven(c, track.FromNorth()))
		s.Set = s.Set.Add(misread(c, 0, 4))
		switch {
		case c.does(StreamWrongWay):
			s.Set = s.Set.Reciprocal()
		case c.does(StreamLeftOut):
			s.Rate = 0
		}
		steering, err := stream.CourseToSteer(track, speed, s)
		if err != nil {
			return 0, err
		}
		for _, step := range steering.Working().Steps {
			c.step(step)
		}
		water := steering.Water.Course
		if c.does(SpeedAlongTrack) {
			if water, err = besideTheTrack(track, speed, s); err != nil {
				return 0, err
			}
		}
		if c.does(MadeGoodForSteered) {
			s.Set = s.Set.Reciprocal()
			if water, err = besideTheTrack(track, speed, s); err != nil {
				return 0, err
			}
		}
		head := water.Add(-ofLeeway(c, leeway.Deflection()))
		step := working.Direction("heading", "Course to steer", head)
		if leeway.Angle == 0 {
			step = step.Because("slip-no-leeway", "no leeway")
		} else {
			step = step.Because("slip-toward-wind", "toward the wind by the leeway, %s", leewayText(leeway.Angle))
		}
		c.step(step)
		return reversed(c, head.Degrees()), nil
	}
	if _, err := work(&calculation{}); err != nil {
		return Problem{}, err
	}
	return Problem{
		Topic: "stream",
		Question: fmt.Sprintf("The track is %s, the speed through the water %s, the stream sets %s at %s, %s. What is the true course to steer, to the degree?",
			exact(track), knots(speed), exact(flow.Set), knots(flow.Rate), windAndLeeway(leeway)),
		Form: Direction, Rounding: 1, north: 'T', work: orNaN(work),
	}, nil
}

// checkLeeway returns an [*Error] for leeway that is out of range, or without the side of the wind.
func checkLeeway(leeway stream.Leeway) error {
	if leeway.Angle != 0 && leeway.WindSide != angle.Port && leeway.WindSide != angle.Starboard {
		return &Error{Reason: "leeway without the side that the wind is on: give angle.Port or angle.Starboard"}
	}
	if leeway.Angle < 0 || leeway.Angle > stream.MaxLeeway {
		return &Error{Reason: fmt.Sprintf("leeway %s: give an angle from 0° to %s", leeway, stream.MaxLeeway)}
	}
	return nil
}

// checkLeeways checks the leeway of each leg.
func checkLeeways(legs []stream.ReckonedRun) error {
	for _, leg := range legs {
		if err := checkLeeway(leg.Leeway); err != nil {
			return err
		}
	}
	return nil
}

// windAndLeeway says on which side the wind is, and how large the leeway is.
func windAndLeeway(l stream.Leeway) string {
	if l.Angle == 0 {
		return "there is no leeway"
	}
	return fmt.Sprintf("the wind is on the %v side, leeway %s", l.WindSide, leewayText(l.Angle))
}

// leewayText prints whole degrees without minutes.
func leewayText(a angle.Angle) string {
	if a%angle.Degree == 0 {
		return fmt.Sprintf("%d°", int64(a/angle.Degree))
	}
	return a.String()
}

// besideTheTrack returns the course from a wrong stream triangle. The speed through the water is
// drawn along the track, instead of the speed made good.
func besideTheTrack(track angle.True, speed sailing.Speed, flow stream.Stream) (angle.True, error) {
	along := flow.Set.Sub(track)
	rate := flow.Rate.Knots()
	turn, err := angle.Radians(math.Atan2(-rate*along.Sin(), speed.Knots()-rate*along.Cos()))
	return track.Add(turn), err
}

// statute is a statute mile (1609.344 m) in nautical miles (1852 m).
const statute = 1609.344 / 1852

// plain prints a number with as many figures as needed, to a millionth.
func plain(x float64) string { return strconv.FormatFloat(math.Round(x*1e6)/1e6, 'f', -1, 64) }

// knots prints a speed for a question.
func knots(s sailing.Speed) string { return plain(s.Knots()) + " kn" }

// NewRun asks for the distance run in a time, to a tenth of a mile. The time is rounded to the
// minute. For a negative speed or time it returns an [*angle.RangeError].
func NewRun(speed sailing.Speed, lasts time.Duration) (Problem, error) {
	if !(speed >= 0) || math.IsInf(float64(speed), 0) {
		return Problem{}, &angle.RangeError{What: "speed", Value: speed.Knots(), Accepted: "0 knots or more"}
	}
	if lasts < 0 {
		return Problem{}, &angle.RangeError{What: "time", Value: lasts.Hours(), Accepted: "0 hours or more"}
	}
	minutes := int(lasts.Round(time.Minute) / time.Minute)
	return Problem{
		Topic:    "distance run",
		Question: fmt.Sprintf("A vessel makes %s for %d h %02d min. What is the distance run, to a tenth of a mile?", knots(speed), minutes/60, minutes%60),
		Form:     Miles, Rounding: 0.1, minor: []Kind{DividedForMultiplied},
		work: func(c *calculation) float64 {
			hours := hoursOf(c, minutes)
			c.step(working.Step{Key: "time", What: "Time", Value: fmt.Sprintf("%.3f h", hours), Number: hours, Unit: "hours"}.Because("minutes-over-sixty", "%d minutes ÷ 60", minutes))
			made := speed.Knots()
			if v, does := c.way(TensMisread, 4); does && v >= 2 {
				made += []float64{10, -10}[v-2]
			}
			run := made * hours
			switch v, does := c.way(StatuteForNautical, 2); {
			case does:
				run *= []float64{statute, 1 / statute}[v]
			case hours > 0 && c.does(DividedForMultiplied):
				run = made / hours
			}
			c.step(working.Step{Key: "distance", What: "Distance", Value: fmt.Sprintf("%.1f M", run), Number: run, Unit: "nautical miles"}.Because("speed-times-time", "speed × time"))
			return run
		},
	}, nil
}

// hoursOf returns a time in hours, with its slips.
func hoursOf(c *calculation, minutes int) float64 {
	hours := float64(minutes) / 60
	if v, does := c.way(RoundedOnTheWay, 7); does && v >= 2 && v < 7 {
		step := []float64{0.01, 0.1, 0.25, 0.5, 5.0 / 60}[v-2]
		return math.Round(hours/step+1e-9) * step
	}
	if v, does := c.way(SumOff, 6); does && v >= 2 { // an hour, or ten minutes
		return hours + []float64{1, -1, 1.0 / 6, -1.0 / 6}[v-2]
	}
	if v, does := c.way(PartLeftOut, 2); does {
		return []float64{float64(minutes / 60), float64(minutes%60) / 60}[v]
	}
	switch {
	case c.does(MinutesAsDecimals):
		return float64(minutes/60) + float64(minutes%60)/100
	case c.does(KnotsTimesMinutes):
		return float64(minutes)
	}
	return hours
}

// NewDLong asks for the difference of longitude of a departure, east positive, on a latitude, to
// a tenth of a minute. Errors are those of [sailing.DLong].
func NewDLong(latitude angle.Latitude, departure sailing.Distance) (Problem, error) {
	if _, err := sailing.DLong(latitude, departure); err != nil {
		return Problem{}, err
	}
	name := "east"
	if departure < 0 {
		name = "west"
	}
	miles := departure.NauticalMiles()
	return Problem{
		Topic:    "difference of longitude",
		Question: fmt.Sprintf("In latitude %s a vessel makes %s M of departure to the %s. What is the difference of longitude, to a tenth of a minute?", latitude, plain(math.Abs(miles)), name),
		Form:     MinutesEastWest, Rounding: 0.1, minor: []Kind{SineForCosine, MinutesAtHundred, MinutesAsDecimals, StatuteForNautical},
		work: func(c *calculation) float64 {
			cos := cosineOf(c, latitude.Angle())
			c.step(working.Step{Key: "cosine", What: "Cosine of the latitude", Value: fmt.Sprintf("%.5f", cos), Number: cos}.Because("cosine-of-latitude", "of %v", latitude))
			made := miles
			if v, does := c.way(TensMisread, 6); does && v >= 4 {
				made += math.Copysign(10, miles) * float64(9-2*v)
			}
			dlong := made / cos
			switch {
			case c.does(CosineLeftOut):
				dlong = made
			case c.does(CosineWrongWay):
				dlong = made * cos
			}
			switch v, does := c.way(SineForCosine, 2); {
			case does && v == 0:
				dlong = made / math.Abs(latitude.Angle().Sin())
			case does && v == 1:
				dlong = made * math.Abs(latitude.Angle().Sin())
			}
			if c.does(MinutesAtHundred) { // 132′ are taken as 1°32′
				dlong -= 40 * math.Trunc(dlong/100)
			}
			if v, does := c.way(StatuteForNautical, 2); does {
				dlong *= []float64{statute, 1 / statute}[v]
			}
			if c.does(EastForWest) {
				dlong = -dlong
			}
			c.step(working.Step{Key: "dlong", What: "Difference of longitude", Value: Problem{Form: MinutesEastWest}.Print(dlong), Number: dlong, Unit: "minutes, east positive"}.Because("departure-over-cosine", "departure ÷ cosine of the latitude"))
			return dlong
		},
	}, nil
}

// cosineOf returns the cosine of a latitude, with the slips of looking it up.
func cosineOf(c *calculation, latitude angle.Angle) float64 {
	latitude = misread(c, latitude, 2)
	if way, does := c.way(MinutesAsDecimals, 2); does { // 47°30′ is taken as 47.30°
		whole, part := math.Modf(latitude.Degrees())
		part *= []float64{0.6, 0}[way]
		latitude = angle.Angle((whole + part) * float64(angle.Degree))
	}
	way, rounds := c.way(RoundedOnTheWay, 6)
	switch {
	case rounds && way == 4:
		latitude = latitude.Round(angle.Degree)
	case rounds && way == 5:
		latitude = latitude.Round(angle.Degree / 2)
	}
	cos := latitude.Cos()
	switch {
	case rounds && way == 2:
		cos = math.Round(cos*100) / 100
	case rounds && way == 3:
		cos = math.Round(cos*1000) / 1000
	}
	return cos
}

// named prints a difference of latitude in minutes with its name.
func named(dlat angle.Angle) string {
	if dlat < 0 {
		return fmt.Sprintf("%.1f′S", -dlat.Degrees()*60)
	}
	return fmt.Sprintf("%.1f′N", dlat.Degrees()*60)
}

// NewLatitude asks for the latitude after a run, by plane sailing, to a tenth of a minute. For a
// run that passes a pole it returns an [*Error]. Other errors are those of [sailing.Plane].
func NewLatitude(from angle.Latitude, run sailing.Run) (Problem, error) {
	triangle, err := sailing.Plane(run)
	if err != nil {
		return Problem{}, err
	}
	if _, err := angle.LatitudeFrom(from.Angle() + triangle.DLat); err != nil {
		return Problem{}, &Error{"the run passes the pole; give a shorter one", err}
	}
	return Problem{
		Topic:    "latitude",
		Question: fmt.Sprintf("From latitude %s a vessel runs %s M on %s. What is the latitude of arrival, to a tenth of a minute?", from, plain(run.Distance.NauticalMiles()), exact(run.Course)),
		Form:     NorthSouth, Rounding: 0.1 / 60, minor: []Kind{CosineLeftOut, MinutesAsDecimals},
		work: func(c *calculation) float64 {
			c.step(working.Step{Key: "from", What: "Latitude from", Value: from.String(), Number: from.Degrees(), Unit: "degrees, north positive"}.Because("latitude-given", "given"))
			dlat := dlatOf(c, run, triangle.DLat)
			swapped, does := c.way(NorthForSouth, 2)
			if does && swapped == 0 {
				dlat = -dlat
			}
			if v, does := c.way(StatuteForNautical, 2); does {
				dlat, _ = dlat.Scale([]float64{statute, 1 / statute}[v])
			}
			switch v, does := c.way(MinutesAsDecimals, 3); {
			case does && v == 1: // 77′ are taken as 0.77°
				dlat = dlat * 60 / 100
			case does && v == 2: // 0.77° is taken as 77′
				dlat = dlat / 60 * 100
			}
			hundred, carried := c.way(MinutesAtHundred, 2)
			if carried && hundred == 1 { // 132′ are taken as 1°32′
				dlat -= dlat / (100 * angle.Minute) * 40 * angle.Minute
			}
			c.step(working.Step{Key: "dlat", What: "Difference of latitude", Value: named(dlat), Number: dlat.Degrees(), Unit: "degrees, north positive"}.Because("distance-times-cosine", "distance × cosine of the course"))
			to := from.Angle() + dlat
			if carried && hundred == 0 {
				to = carriedAtHundred(from.Angle(), dlat)
			}
			if does && swapped == 1 {
				to = -to
			}
			c.step(working.Step{Key: "to", What: "Latitude of arrival", Value: Problem{Form: NorthSouth, Rounding: 0.1 / 60}.Print(to.Degrees()), Number: to.Degrees(), Unit: "degrees, north positive"}.Because("sum-of-latitudes", "the sum; south is negative"))
			if v, does := c.way(MinutesAsDecimals, 3); does && v == 0 { // 47°06.5′ is written as 47.065°
				whole, part := math.Modf(to.Degrees())
				return whole + part*60/100
			}
			return to.Degrees()
		},
	}, nil
}

// dlatOf returns the difference of latitude of a run, with the slips of the triangle.
func dlatOf(c *calculation, run sailing.Run, right angle.Angle) angle.Angle {
	miles, course := run.Distance.NauticalMiles(), misreadGiven(c, run.Course.FromNorth())
	if v, does := c.way(TensMisread, 6); does && v >= 4 && v < 6 {
		miles += []float64{10, -10}[v-4]
	}
	way, rounds := c.way(RoundedOnTheWay, 8)
	if rounds && way == 6 {
		course = course.Round(angle.Degree)
	}
	cos, sin := course.Cos(), course.Sin()
	switch {
	case rounds && way == 2:
		cos = math.Round(cos*100) / 100
	case rounds && way == 3:
		cos = math.Round(cos*1000) / 1000
	case rounds && way == 7:
		miles = math.Round(miles)
	}
	switch v, does := c.way(SineForCosine, 2); {
	case does && v == 0:
		cos = sin
	case does && v == 1: // the name is that of the course
		cos = math.Copysign(sin, cos)
	case c.does(CosineLeftOut):
		cos = math.Copysign(1, cos)
	}
	dlat, err := angle.Minutes(miles * cos)
	if err != nil {
		return right
	}
	switch {
	case rounds && way == 4:
		return dlat.Round(angle.Minute)
	case rounds && way == 5:
		return dlat.Round(angle.Minute / 2)
	}
	if c.slips == ([2]applied{}) {
		return right
	}
	return dlat
}
