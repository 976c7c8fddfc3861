package slip

import (
	"regexp"
	"strconv"
	"testing"
)

// The Sun of an exercise is observed by day: the invented waters are in 19°W, where the Sun's
// times are about an hour and a quarter after UTC.
func TestSunOfExercisesIsObservedByDay(t *testing.T) {
	set, err := Exercises("deviation by the Sun's azimuth", Medium, 60, 11, card(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range set {
		m := regexp.MustCompile(`\b([0-2]\d)([0-5]\d)\b UTC|\bat ([0-2]\d)([0-5]\d)\b`).FindStringSubmatch(p.Question)
		if m == nil {
			t.Fatalf("no time in %q", p.Question)
		}
		hour, _ := strconv.Atoi(m[1] + m[3])
		if hour < 6 || hour >= 20 {
			t.Errorf("%s", p.Question)
		}
	}
}
