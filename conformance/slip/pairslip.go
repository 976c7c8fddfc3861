package slip

import "math"

// withFigures returns a pair with the slips that any pair can have.
func (p *Problem) withFigures(c *calculation, answer float64) float64 {
	first, second := p.Pair(answer)
	if p.Form == Position {
		first, second = misplaced(c, first, second)
	} else {
		first, second = misdirected(c, first, second)
	}
	first, second = p.roundedTooFar(c, first, second)
	if v, does := c.way(FiguresTransposed, 8); does && v < 8 {
		r1, r2 := p.roundings()
		one := Problem{Form: Direction, Rounding: r1}
		other := Problem{Form: Miles, Rounding: r2}
		if p.Form == Position {
			one, other = Problem{Form: NorthSouth, Rounding: r1}, Problem{Form: NorthSouth, Rounding: r2}
		}
		if v < 4 {
			first = one.transposed(first, one.figures(first), v)
		} else {
			second = other.transposed(second, other.figures(second), v-4)
		}
	}
	return p.Form.pair(first, second)
}

// misplaced returns a latitude and a longitude with the slips of writing them.
func misplaced(c *calculation, latitude, longitude float64) (float64, float64) {
	if v, does := c.way(NorthForSouth, 2); does && v == 1 {
		latitude = -latitude
	}
	if v, does := c.way(EastForWest, 2); does && v == 1 {
		longitude = -longitude
	}
	if v, does := c.way(MinutesAsDecimals, 6); does && (v == 0 || v == 4) {
		latitude = asDecimals(latitude)
	}
	if v, does := c.way(MinutesAsDecimals, 6); does && (v == 0 || v == 5) {
		longitude = asDecimals(longitude)
	}
	off := 0.0
	v, tens := c.way(TensMisread, 4)
	if tens = tens && v < 4; tens {
		off = []float64{1, -1}[v/2] * 10 / 60
	}
	w, sums := c.way(SumOff, 8)
	if sums = sums && w < 8; sums {
		v, off = w, off+[]float64{1.0 / 60, -1.0 / 60, 1, -1}[w/2]
	}
	switch {
	case (tens || sums) && v%2 == 0:
		latitude += off
	case tens || sums:
		longitude += off
	}
	return latitude, longitude
}

// misdirected returns a direction with a distance or a speed, with the slips of writing them.
func misdirected(c *calculation, direction, miles float64) (float64, float64) {
	if v, does := c.way(RoundedOnTheWay, 2); does && v < 2 {
		direction += []float64{1, -1}[v]
	}
	switch v, does := c.way(TensMisread, 4); {
	case does && v < 2:
		direction += []float64{10, -10}[v]
	case does && v < 4:
		miles += []float64{10, -10}[v-2]
	}
	switch v, does := c.way(SumOff, 4); {
	case does && v < 2:
		direction += []float64{100, -100}[v]
	case does && v < 4:
		miles += []float64{1, -1}[v-2]
	}
	if miles < 0 { // nobody writes that down
		miles = math.NaN()
	}
	return direction, miles
}

// roundedTooFar returns a pair with each figure rounded as asked or further.
func (p *Problem) roundedTooFar(c *calculation, first, second float64) (float64, float64) {
	v, does := c.way(RoundedTooFar, 14)
	if !does || v >= 14 {
		return first, second
	}
	r1, r2 := p.roundings()
	steps, others := []float64{r1, 5, 10}, []float64{r2, 0.5, 1, 5, 0.25}
	if p.Form == Position {
		steps, others = []float64{r1, 0.5 / 60, 1.0 / 60}, []float64{r2, 0.5 / 60, 1.0 / 60, 5.0 / 60, 10.0 / 60}
	}
	v++ // both as asked is not too far
	step, other := steps[v/5], others[v%5]
	return math.Round(first/step) * step, math.Round(second/other) * other
}
