package stream

import (
	"fmt"
	"math"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/internal/printed"
	"lubberline.example/course/sailing"
)

// A SetAndDrift is the stream that set a vessel from its dead reckoning position to a fix.
// The dead reckoning position follows from heading and log alone, without a stream. The
// drift is a distance; in the US, drift means the rate.
type SetAndDrift struct {
	Stream Stream      `json:"stream"` // the set, and the mean rate
	Drift  sailing.Run `json:"drift"`  // from the dead reckoning position to the fix

	// The uncertainties follow from those of both positions. SetUncertainty is unset if
	// the drift is less than three times its own uncertainty.
	SetUncertainty  angle.Uncertainty                  `json:"setUncertainty,omitzero"`
	RateUncertainty sailing.Uncertainty[sailing.Speed] `json:"rateUncertainty,omitzero"`

	Warnings []working.Warning `json:"warnings,omitempty"` // may be nil

	reckoned, fix Estimate
	since         time.Duration
}

// The warnings of a [SetAndDrift].
const (
	RateDoubtful       working.WarningKind = "rate-doubtful"       // hardly any stream runs so fast
	PositionsExchanged working.WarningKind = "positions-exchanged" // the fix is much less certain than the dead reckoning position
	WithinError        working.WarningKind = "within-error"        // the drift may be the error of the positions
)

// fastestStream is a rate that very few tidal streams exceed (common practice).
const fastestStream = 10 * sailing.Knot

// SetAndDriftBetween returns the set and drift between a dead reckoning position and a fix
// at the same moment. The rate is the drift divided by the time since the last fix. If the
// two positions are exchanged, the set is the reciprocal. It can warn of that only if the
// fix is much less certain than the dead reckoning position.
//
// It takes the uncertainties of the two positions to be independent. That of the dead
// reckoning position includes the constant errors of log and compass.
//
// If since is not above zero, or the times of the positions differ by more than a minute,
// it returns an [*angle.RangeError].
func SetAndDriftBetween(reckoned, fix Estimate, since time.Duration) (SetAndDrift, error) {
	if since <= 0 {
		return SetAndDrift{}, &angle.RangeError{What: "time since the last fix, in hours,", Value: since.Hours(), Accepted: "more than 0"}
	}
	if apart := fix.Time.Sub(reckoned.Time); !fix.Time.IsZero() && !reckoned.Time.IsZero() && apart.Abs() > time.Minute {
		return SetAndDrift{}, &angle.RangeError{What: "time from the dead reckoning position to the fix, in minutes,", Value: apart.Minutes(), Accepted: "at most 1 either way: reckon to the time of the fix"}
	}
	run := sailing.WGS84().Rhumb(reckoned.Position, fix.Position)
	s := SetAndDrift{
		Stream: Stream{run.Course, sailing.Speed(float64(run.Distance) / since.Seconds())}, Drift: run,
		reckoned: reckoned, fix: fix, since: since,
	}
	s.trust()
	s.doubt()
	return s, nil
}

// trust fills in the uncertainties.
func (s *SetAndDrift) trust() {
	both := s.reckoned.Covariance.Plus(s.fix.Covariance)
	along, stated := both.Along(s.Drift.Course).Sigma()
	if !stated {
		return
	}
	across, _ := both.Along(s.Drift.Course.Add(90 * angle.Degree)).Sigma()
	if u, err := sailing.StandardUncertainty(sailing.Speed(float64(along) / s.since.Seconds())); err == nil {
		s.RateUncertainty = u
	}
	if s.Drift.Distance >= 3*across && s.Drift.Distance > 0 {
		if a, err := angle.Radians(float64(across / s.Drift.Distance)); err == nil {
			s.SetUncertainty, _ = angle.StandardUncertainty(a)
		}
	}
	// The drift against the ellipse of both, which has a probability of 95 %.
	north, east := Motion{s.Drift.Course, sailing.Speed(s.Drift.Distance)}.components()
	det := both.North*both.East - both.Both*both.Both
	if squares := both.East*north*north - 2*both.Both*north*east + both.North*east*east; det > 0 && squares <= -2*math.Log(0.05)*det {
		s.Warnings = append(s.Warnings, working.Warn(WithinError, "within-error", "a drift of %v lies within the 95 %% ellipse of the two positions: it may be their error, and no stream", s.Drift.Distance))
	}
	before, err1 := s.reckoned.Covariance.Ellipse(0.95)
	after, err2 := s.fix.Covariance.Ellipse(0.95)
	if err1 == nil && err2 == nil && after.SemiMajor > 2*before.SemiMajor {
		s.Warnings = append(s.Warnings, working.Warn(PositionsExchanged, "positions-exchanged", "the uncertainty is ±%v of the fix, and ±%v of the dead reckoning position: if they were exchanged, the set is %v", after.SemiMajor, before.SemiMajor, s.Drift.Course.Reciprocal()))
	}
}

// doubt warns of an unlikely rate, with the likely cause.
func (s *SetAndDrift) doubt() {
	if s.Stream.Rate <= fastestStream {
		return
	}
	rate, fastest := s.Stream.Rate.Knots(), fastestStream.Knots()
	warning := working.Warn(RateDoubtful, "rate-doubtful", "a rate of %.0f kn: hardly any stream runs above %.0f kn; check the time since the last fix and both positions", rate, fastest)
	nearest, means := fastestStream.For(s.since), ""
	for _, p := range []struct {
		name        string
		this, other angle.Position
	}{{"the dead reckoning position", s.reckoned.Position, s.fix.Position}, {"the fix", s.fix.Position, s.reckoned.Position}} {
		for _, slip := range slipsOf(p.this) {
			d := sailing.WGS84().Rhumb(slip.right, p.other).Distance
			switch {
			case slip.means == means && math.Abs(float64(d-nearest)) < 0.01*float64(nearest)+1: // the same slip in the other position
				warning = working.Warn(RateDoubtful, "rate-doubtful-slip", "a rate of %.0f kn: hardly any stream runs above %.0f kn; with %s in one of the positions the drift would be %v", rate, fastest, means, d)
			case d < nearest:
				nearest, means = d, slip.means
				warning = working.Warn(RateDoubtful, "rate-doubtful-slip-in-position", "a rate of %.0f kn: hardly any stream runs above %.0f kn; with %s in %s it would be %v, and the drift %v", rate, fastest, means, p.name, slip.right, d)
			}
		}
	}
	s.Warnings = append(s.Warnings, warning)
}

// A positionSlip is a common slip in a position, with the corrected position.
type positionSlip struct {
	means string
	right angle.Position
}

// slipsOf returns the common slips in a position.
func slipsOf(p angle.Position) []positionSlip {
	latitude, longitude := p.Latitude.Angle(), p.Longitude.Angle()
	var out []positionSlip
	add := func(means string, latitude, longitude angle.Angle) {
		if right, err := angle.PositionDegrees(latitude.Degrees(), longitude.Degrees()); err == nil {
			out = append(out, positionSlip{means, right})
		}
	}
	const exchanged = "latitude and longitude exchanged"
	add(exchanged, longitude, latitude)
	north, east := latitude.Abs(), longitude.Abs() // exchange the figures, keep the names
	if latitude < 0 {
		east = -east
	}
	if longitude < 0 {
		north = -north
	}
	add(exchanged, east, north)
	add("north and south exchanged", -latitude, longitude)
	add("east and west exchanged", latitude, -longitude)
	return out
}

// Working returns the steps: both positions, the set and drift between them, the time, the
// rate and the uncertainties.
func (s SetAndDrift) Working() working.Sheet {
	place := func(key, what string, e Estimate) working.Step {
		step := working.Step{Key: key, What: what, Value: e.Position.String()}
		if e.Time.IsZero() {
			return step
		}
		return step.Because("at-time", "at %s", toMinute(e.Time).Format("15:04 UTC"))
	}
	set := working.Direction("set", "Set", s.Stream.Set)
	if s.Drift.Distance == 0 {
		set = stoppedStep(set).Because("same-place", "the same place")
	} else {
		set = set.Because("toward-the-fix", "toward the fix")
	}
	return working.Sheet{Caution: working.Caution, Warnings: s.Warnings, Steps: append(working.Steps{
		place("from", "Dead reckoning position", s.reckoned),
		place("to", "Fix", s.fix),
		set,
		components(working.Step{Key: "drift", What: "Drift", Value: s.Drift.Distance.String(), Number: s.Drift.Distance.NauticalMiles(), Unit: "nautical miles"}, vectorOf(s.Drift)),
		{Key: "time", What: "Time since the last fix", Value: printed.Clock(s.since), Number: s.since.Hours(), Unit: "hours"},
		working.Step{Key: "rate", What: "Rate", Value: s.Stream.Rate.String(), Number: s.Stream.Rate.Knots(), Unit: "knots"}.
			Because("drift-over-time", "drift over time; in the US this is called the drift"),
	}, s.uncertaintySteps()...)}
}

// uncertaintySteps returns the steps of the uncertainties of set and rate.
func (s SetAndDrift) uncertaintySteps() working.Steps {
	set := working.Step{Key: "set uncertainty", What: "Uncertainty of the set", Value: "not stated", Unit: "degrees"}
	rate := working.Step{Key: "rate uncertainty", What: "Uncertainty of the rate", Value: "not stated", Unit: "knots"}
	state := func(step working.Step) working.Step {
		return step.Because("state-position-uncertainties", "state the uncertainties of both positions")
	}
	known := func(step working.Step, value string, number float64) working.Step {
		step.Value, step.Number = value, number
		return step.Because("uncertainty-of-both-positions", "standard uncertainty, from both positions")
	}
	ofSet, setStated := s.SetUncertainty.Sigma()
	ofRate, rateStated := s.RateUncertainty.Sigma()
	switch {
	case setStated:
		set = known(set, fmt.Sprintf("±%.0f", ofSet), ofSet.Degrees())
	case rateStated:
		set = set.Because("drift-too-short-for-set", "the drift is less than three times its uncertainty")
	default:
		set = state(set)
	}
	if rateStated {
		rate = known(rate, fmt.Sprint("±", ofRate), ofRate.Knots())
	} else {
		rate = state(rate)
	}
	return working.Steps{set, rate}
}
