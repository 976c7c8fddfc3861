package slip

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// NewArrival asks for the time of arrival after a distance at a speed, to the minute. Departure
// is the time of the day, counted from midnight, and must be below 24 hours. For a distance or a
// speed that is not above zero it returns an [*angle.RangeError].
func NewArrival(departure time.Duration, distance sailing.Distance, speed sailing.Speed) (Problem, error) {
	lasts, err := distance.TimeAt(speed)
	switch {
	case err != nil:
		return Problem{}, err
	case departure < 0 || departure >= 24*time.Hour:
		return Problem{}, &angle.RangeError{What: "time of departure", Value: departure.Hours(), Accepted: "hours from 0 to below 24"}
	}
	begins := departure.Minutes()
	clock := Problem{Form: Clock, Rounding: 1}
	hours := lasts.Hours()
	return made(Problem{
		Topic:    "time of arrival",
		Question: fmt.Sprintf("A vessel leaves at %s and makes good %s. When has it run %s M, to the minute?", clock.Print(begins), knots(speed), plain(distance.NauticalMiles())),
		Form:     Clock, Rounding: 1, minor: []Kind{MinutesAsDecimals, MinutesAtHundred, StatuteForNautical},
	}, func() working.Steps {
		end := begins + lasts.Minutes()
		return working.Steps{
			working.Step{Key: "time", What: "Time", Value: fmt.Sprintf("%.3f h", hours), Number: hours, Unit: "hours"}.Because("distance-over-speed", "distance ÷ speed"),
			working.Step{Key: "minutes", What: "In hours and minutes", Value: minutesOf(lasts), Number: lasts.Minutes(), Unit: "minutes"}.Because("decimals-times-sixty", "the decimals × 60 are minutes"),
			working.Step{Key: "arrival", What: "Arrival", Value: clock.Print(end), Number: clock.normal(end), Unit: "minutes after midnight"}.Because("departure-plus-time", "%s and the time", clock.Print(begins)),
		}
	}, func(c *calculation) (float64, error) {
		minutes, miles, made := lasts.Minutes(), distance.NauticalMiles(), speed.Knots()
		if v, does := c.way(TensMisread, 5); does && v >= 2 { // the distance or the speed
			switch v {
			case 2:
				miles += 10
			case 3:
				miles -= 10
			case 4:
				made += 10
			}
			minutes = 60 * miles / made
		}
		if v, does := c.way(StatuteForNautical, 2); does {
			minutes *= []float64{statute, 1 / statute}[v]
		}
		switch way, does := c.way(DividedForMultiplied, 2); {
		case does && way == 0: // speed ÷ distance
			minutes = 3600 / minutes
		case does: // speed × distance
			minutes = made * miles
		}
		whole, part := math.Modf(minutes / 60)
		if decimalsOnTheWay(c) {
			minutes = 60*whole + 100*part
		}
		if c.does(MinutesAtHundred) { // 1450 and 125 are 1575, and so 1615
			figures := begins - 60*math.Floor(begins/60) + 100*math.Floor(begins/60) + 100*whole + math.Round(minutes-60*whole)
			return 60*math.Floor(figures/100) + math.Mod(figures, 100), nil
		}
		return begins + minutes, nil
	})
}
