package variation

import (
	"math"
	"time"
)

// DecimalYear returns a time as a year with decimals, in UTC: the middle of 2 July 2025 is
// 2025.5. A leap year has 366 days. The whole module uses this function to turn a time into
// years.
func DecimalYear(t time.Time) float64 {
	t = t.UTC()
	year := t.Year()
	start := time.Date(year, time.January, 1, 0, 0, 0, 0, time.UTC).Unix()
	end := time.Date(year+1, time.January, 1, 0, 0, 0, 0, time.UTC).Unix()
	passed := time.Duration(t.Unix()-start)*time.Second + time.Duration(t.Nanosecond())
	return float64(year) + passed.Seconds()/float64(end-start)
}

// ageError returns half of the 95 % point of the error of the count itself, in years. A
// legend does not name the day of its year for which it holds. Let that day be any day of
// the year with the same probability. Then a count from the year's beginning is too long by
// 0 to 1 year, with 95 % below 0.95. A count of whole years is wrong by the difference of two
// such days, with 95 % below 1 − √0.05.
func (c YearCount) ageError() float64 {
	if c == DecimalYears {
		return 0.95 / 2
	}
	return (1 - math.Sqrt(0.05)) / 2
}

// meanSquare returns the mean square of the years that have really passed if n are counted,
// since the day of the legend is unknown. With the error e of the count, n − e have passed.
// Counted from the beginning of the year, the mean of e is ½ and that of e² is ⅓. In whole
// years the mean of e is 0, and that of e² is ⅙.
func (c YearCount) meanSquare(n float64) float64 {
	if c == DecimalYears {
		return n*n - n + 1.0/3
	}
	return n*n + 1.0/6
}
