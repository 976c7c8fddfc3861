package variation_test

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

// noon is the middle of a day.
func noon(year int, month time.Month, day int) time.Time {
	return time.Date(year, month, day, 12, 0, 0, 0, time.UTC)
}

// sigma is a stated standard uncertainty.
func sigma(a angle.Angle) angle.Uncertainty { return angle.Must(angle.StandardUncertainty(a)) }

// degrees is the angle of a number of degrees known to fit.
func degrees(d float64) angle.Angle { return angle.Must(angle.Degrees(d)) }

// at is the position of a latitude and a longitude known to fit.
func at(latitude, longitude float64) angle.Position {
	return angle.Must(angle.PositionDegrees(latitude, longitude))
}

// rose is a rose of 2020 without annual change.
func rose(east angle.Angle) variation.Rose {
	return variation.Rose{Variation: variation.East(east), Year: 2020, Change: variation.NoChange()}
}

// drawAngle draws an angle from −limit to limit, to the last unit.
func drawAngle(t *rapid.T, limit angle.Angle, label string) angle.Angle {
	return angle.Angle(rapid.Int64Range(int64(-limit), int64(limit)).Draw(t, label))
}

// mustChart makes a chart of roses known to be fit for one.
func mustChart(t testing.TB, roses ...variation.ChartRose) *variation.Chart {
	t.Helper()
	c, err := variation.NewChart("Orlesk approaches", roses...)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func near(a, b, within float64) bool { return math.Abs(a-b) <= within }
