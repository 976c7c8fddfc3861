package printed_test

import (
	"testing"
	"time"

	"lubberline.example/course/internal/printed"
)

func TestNamed(t *testing.T) {
	for x, want := range map[float64]string{0: "0.0 M", -0.04: "0.0 M", 0.06: "0.1 M E", -4.56: "4.6 M W", 12: "12.0 M E"} {
		if got := printed.Named(x, " M ", "E", "W"); got != want {
			t.Errorf("%v: %q, want %q", x, got, want)
		}
	}
}

func TestClock(t *testing.T) {
	for d, want := range map[time.Duration]string{0: "0 min", 40 * time.Minute: "40 min", 65 * time.Minute: "1 h 05 min", 59*time.Minute + 31*time.Second: "1 h 00 min", 30 * time.Hour: "30 h 00 min"} {
		if got := printed.Clock(d); got != want {
			t.Errorf("%v: %q, want %q", d, got, want)
		}
	}
}
