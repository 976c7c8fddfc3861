package slip

import (
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// NewRose asks for the variation of a rose, brought up to date in whole years, to the minute.
// Errors are those of [variation.Rose.InYear], and an [*Error] if the rose states no annual
// change.
func NewRose(rose variation.Rose, year int) (Problem, error) {
	projected, err := rose.InYear(year)
	if err != nil {
		return Problem{}, err
	}
	if _, stated := rose.Change.PerYear(); !stated {
		return Problem{}, &Error{Reason: "the rose states no annual change: give one, or variation.NoChange"}
	}
	return Problem{
		Topic:    "variation",
		Question: fmt.Sprintf("The rose says %s. What is the variation in %d, to the minute?", rose, year),
		Form:     EastWest, Rounding: 1.0 / 60,
		work: func(c *calculation) float64 {
			if c.steps != nil {
				c.step(projected.Working()...)
			}
			v := updated(c, rose, year)
			// If the name changes, keeping it is the same as exchanging the names.
			if !changesName(rose, projected.Variation.Angle()) && c.does(EastForWest) {
				v = -v
			}
			switch way, does := c.way(MinutesAsDecimals, 3); {
			case does && way == 0: // 5°08′ is written as 5.08°
				whole := v / angle.Degree
				return float64(whole) + (v-whole*angle.Degree).Minutes()/100
			case does && way == 2: // 5.13° is written as 5°13′
				whole, part := math.Modf(v.Degrees())
				if math.Abs(part) > 0.595 {
					return math.NaN() // that is no figure of minutes
				}
				return whole + part*100/60
			}
			return v.Degrees()
		},
	}, nil
}

// updated brings a rose that states its annual change up to date.
func updated(c *calculation, rose variation.Rose, year int) angle.Angle {
	printed := rose.Variation.Angle()
	yearly, _ := rose.Change.PerYear()
	if c.does(ChangeLeftOut) {
		return printed
	}
	change := changeOf(c, yearly, year-rose.Year)
	if c.does(ChangeWrongWay) {
		change = -change
	}
	if change != 0 && c.does(ChangeForVariation) {
		return change
	}
	if way, does := c.way(MinutesAtHundred, 2); does && way == 0 {
		return carriedAtHundred(printed, change)
	}
	if changesName(rose, printed+change) && c.does(NameKept) {
		return -(printed + change)
	}
	return printed + change
}

// changeOf returns the change of the variation in some years, with its slips.
func changeOf(c *calculation, yearly angle.Angle, years int) angle.Angle {
	twice := 2 * years // half years
	if v, does := c.way(YearsMiscounted, 5); does {
		twice += []int{2, -2, 20, -20, 2 - twice}[v]
	}
	if v, does := c.way(DecimalYears, 2); does {
		twice += []int{1, -1}[v]
	}
	change := yearly * angle.Angle(twice) / 2
	if v, does := c.way(MinutesAsDecimals, 2); does && v == 1 { // 77′ are taken as 0.77°
		return change * 60 / 100
	}
	if v, does := c.way(MinutesAtHundred, 2); does && v == 1 { // 132′ are taken as 1°32′
		whole := change / (100 * angle.Minute)
		return whole*angle.Degree + change - whole*100*angle.Minute
	}
	return change
}

// changesName reports whether the variation of a rose has passed through zero.
func changesName(rose variation.Rose, now angle.Angle) bool {
	return now != 0 && rose.Variation.Angle() != 0 && (now < 0) != (rose.Variation.Angle() < 0)
}

// carriedAtHundred adds two angles as if a degree had 100 minutes.
func carriedAtHundred(a, b angle.Angle) angle.Angle {
	if a < 0 {
		return -carriedAtHundred(-a, -b)
	}
	degrees := a / angle.Degree
	hundredths := 100*(degrees*angle.Minute) + (a - degrees*angle.Degree) + b
	if hundredths < 0 { // the name changed: nothing is carried
		return a + b
	}
	whole := hundredths / (100 * angle.Minute)
	return whole*angle.Degree + hundredths - whole*100*angle.Minute
}
