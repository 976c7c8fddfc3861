package slip

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/variation"
)

// NewRose returns the problem of bringing the variation of a rose up to date, in whole
// years, to the minute. Its errors are that of [variation.Rose.InYear], and a
// *[ProblemError] for a rose that states no annual change.
func NewRose(rose variation.Rose, year int) (Problem, error) {
	if _, err := rose.InYear(year); err != nil {
		return Problem{}, err
	}
	if _, stated := rose.Change.PerYear(); !stated {
		return Problem{}, &ProblemError{Reason: "the rose states no annual change: want one, or variation.NoChange"}
	}
	return Problem{
		Topic:    "variation",
		Question: fmt.Sprintf("The rose says %s. What is the variation in %d, to the minute?", rose.Legend(), year),
		Form:     EastWest, Rounding: 1.0 / 60,
		work: func(c *calculation) float64 {
			v := updated(c, rose, year)
			if c.does(EastForWest) {
				v = -v
			}
			if c.does(MinutesAsDecimals) {
				whole := v / angle.Degree
				return float64(whole) + (v-whole*angle.Degree).Minutes()/100
			}
			return v.Degrees()
		},
	}, nil
}

// updated brings a rose that states its annual change up to date.
func updated(c *calculation, rose variation.Rose, year int) angle.Angle {
	printed := rose.Variation.Angle()
	yearly, _ := rose.Change.PerYear()
	c.step(working.EastWest("printed", fmt.Sprintf("Variation in %d", rose.Year), printed, "printed at the rose, annual change "+yearly.EastWest()))
	if c.does(ChangeLeftOut) {
		return printed
	}
	years := year - rose.Year
	if v, does := c.way(YearsMiscounted, 4); does {
		years += []int{1, -1, 10, -10}[v]
	}
	c.step(working.Step{Key: "years", What: "Years", Value: counted(years), Number: float64(years), Unit: "years", How: fmt.Sprintf("%d to %d", rose.Year, year)})
	change := yearly * angle.Angle(years)
	if c.does(ChangeWrongWay) {
		change = -change
	}
	c.step(working.EastWest("change", "Change", change, fmt.Sprintf("%s × %s", counted(years), yearly.EastWest())))
	v := printed + change
	if c.does(MinutesAtHundred) {
		v = carriedAtHundred(printed, change)
	}
	c.step(working.EastWest("variation", fmt.Sprintf("Variation in %d", year), v, "the printed one and the change: of the same name their sum, otherwise their difference, of the name of the greater"))
	return v
}

// counted is a number of years in words.
func counted(years int) string {
	if years == 1 || years == -1 {
		return fmt.Sprintf("%d year", years)
	}
	return fmt.Sprintf("%d years", years)
}

// carriedAtHundred sums two angles as if a degree had a hundred minutes.
func carriedAtHundred(a, b angle.Angle) angle.Angle {
	if a < 0 {
		return -carriedAtHundred(-a, -b)
	}
	degrees := a / angle.Degree
	hundredths := 100*(degrees*angle.Minute) + (a - degrees*angle.Degree) + b
	if hundredths < 0 { // it changed its name: no figures to carry
		return a + b
	}
	whole := hundredths / (100 * angle.Minute)
	return whole*angle.Degree + hundredths - whole*100*angle.Minute
}
