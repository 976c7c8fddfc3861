// Package printed prints what workings of courses and passages have in common.
package printed

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// Named prints a number to a tenth with its unit and the name of its side: 4.6′S. Zero has no
// name.
func Named(x float64, unit, positive, negative string) string {
	text := fmt.Sprintf("%.1f", math.Abs(x))
	switch {
	case text == "0.0":
		return text + strings.TrimRight(unit, " ")
	case x < 0:
		return text + unit + negative
	}
	return text + unit + positive
}

// Clock prints a time as hours and minutes: 3 h 05 min, 40 min.
func Clock(t time.Duration) string {
	minutes := int(t.Round(time.Minute) / time.Minute)
	if minutes < 60 {
		return fmt.Sprintf("%d min", minutes)
	}
	return fmt.Sprintf("%d h %02d min", minutes/60, minutes%60)
}
