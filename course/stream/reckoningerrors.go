package stream

import (
	"encoding/json"
	"math"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

// commonErrors holds the errors of an estimate, the shared ones apart. An error of the log
// of one standard deviation moves the position by one vector, the sum of its effects in the
// runs. The same holds for the compass and for the leeway.
type commonErrors struct {
	of    sailing.Covariance // of the estimate; if it was changed since, no error is shared any more
	alone sailing.Covariance // of the errors that the runs do not share
	sums  [3]offset          // by the log, by the compass, by the leeway
}

// An offset is a vector in metres.
type offset struct {
	North float64 `json:"northMetres"`
	East  float64 `json:"eastMetres"`
}

// covariance returns the covariance of an error along one line.
func (o offset) covariance() sailing.Covariance {
	c := sailing.Covariance{North: o.North * o.North, East: o.East * o.East, Both: o.North * o.East}
	if !c.Stated() { // all zero
		return sailing.Exactly()
	}
	return c
}

// commonSoFar returns the errors of an estimate. If the estimate is not from a run, or its
// covariance was changed, it shares no errors with later runs.
func (e Estimate) commonSoFar() commonErrors {
	if e.common.of != e.Covariance {
		return commonErrors{alone: e.Covariance}
	}
	return e.common
}

// plus adds the errors of a run.
func (c commonErrors) plus(alone sailing.Covariance, sums [3]offset) commonErrors {
	c.alone = c.alone.Plus(alone)
	if !c.alone.Stated() {
		return commonErrors{}
	}
	for i, o := range sums {
		c.sums[i].North += o.North
		c.sums[i].East += o.East
	}
	return c
}

// total returns the covariance of all errors together.
func (c commonErrors) total() sailing.Covariance {
	sum := c.alone
	for _, o := range c.sums {
		sum = sum.Plus(o.covariance())
	}
	return sum
}

// errors returns what a run adds to the errors of the position. This is the covariance of
// its own errors, and the offset by one standard deviation of each shared error. An error
// of speed acts along the course, one of heading across it, one of the stream in all
// directions.
func (r ReckonedRun) errors() (alone sailing.Covariance, common [3]offset, err error) {
	speed, s1 := r.SpeedUncertainty.Sigma()
	speedAlone, s2 := r.SpeedScatter.Sigma()
	stream, s3 := r.StreamUncertainty.Sigma()
	heading, s4 := r.HeadingUncertainty.Sigma()
	headingAlone, s5 := r.HeadingScatter.Sigma()
	leeway, _ := r.LeewayUncertainty.Sigma()
	for _, s := range [...]struct {
		what  string
		sigma sailing.Speed
	}{{"uncertainty of the speed", speed}, {"scatter of the speed", speedAlone}, {"uncertainty of the stream", stream}} {
		if err := checkSpeed(s.what, s.sigma); err != nil {
			return alone, common, err
		}
	}
	for _, s := range [...]struct {
		what  string
		sigma angle.Angle
	}{{"uncertainty of the heading", heading}, {"scatter of the heading", headingAlone}, {"uncertainty of the leeway", leeway}} {
		if s.sigma > 90*angle.Degree {
			return alone, common, &angle.RangeError{What: s.what, Value: s.sigma.Degrees(), Accepted: "degrees from 0 to 90"}
		}
	}
	if !(s1 || s2) || !s3 || !(s4 || s5) {
		return sailing.Covariance{}, [3]offset{}, nil
	}
	way, distance := r.Water().Course, r.Speed.For(r.Lasts)
	across := func(a angle.Angle) sailing.Distance { return distance * sailing.Distance(a.Radians()) }
	sin, cos := way.FromNorth().SinCos()
	along := float64(speed.For(r.Lasts))
	turned, set := float64(across(heading)), float64(across(leeway))
	set = math.Copysign(set, float64(Leeway{1, r.Leeway.WindSide}.Deflection()))
	common = [3]offset{{along * cos, along * sin}, {-turned * sin, turned * cos}, {-set * sin, set * cos}}
	alone = sailing.Oriented(way, speedAlone.For(r.Lasts), across(headingAlone)).Plus(sailing.Circular(stream.For(r.Lasts)))
	return alone, common, nil
}

// plainEstimate is an Estimate without its methods.
type plainEstimate Estimate

// estimateData is an estimate as JSON.
type estimateData struct {
	plainEstimate
	Common *commonData `json:"common,omitempty"`
}

// commonData holds the errors that the runs of an estimate share.
type commonData struct {
	Alone   sailing.Covariance `json:"alone"`
	Log     offset             `json:"log"`
	Compass offset             `json:"compass"`
	Leeway  offset             `json:"leeway"`
}

// MarshalJSON returns the estimate as JSON, exactly, with the errors that its runs share.
func (e Estimate) MarshalJSON() ([]byte, error) {
	data := estimateData{plainEstimate: plainEstimate(e)}
	if c := e.commonSoFar(); c.sums != ([3]offset{}) {
		data.Common = &commonData{c.alone, c.sums[0], c.sums[1], c.sums[2]}
	}
	return json.Marshal(data)
}

// UnmarshalJSON reads the JSON of [Estimate.MarshalJSON].
func (e *Estimate) UnmarshalJSON(text []byte) error {
	var data estimateData
	if err := json.Unmarshal(text, &data); err != nil {
		return err
	}
	*e = Estimate(data.plainEstimate)
	if c := data.Common; c != nil {
		e.common = commonErrors{of: e.Covariance, alone: c.Alone, sums: [3]offset{c.Log, c.Compass, c.Leeway}}
	}
	return nil
}
