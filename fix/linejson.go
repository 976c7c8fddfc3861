package fix

import (
	"encoding/json"
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// lineData is a line as JSON. The observed value and its uncertainty have the keys of its
// kind.
type lineData struct {
	Kind  Kind      `json:"kind"`
	Name  string    `json:"name"`
	Time  time.Time `json:"time,omitzero"`
	Marks []Mark    `json:"marks,omitempty"`

	Bearing   *angle.True       `json:"bearing,omitempty"`
	Angle     *angle.Angle      `json:"angle,omitempty"`
	Distance  *sailing.Distance `json:"distance,omitempty"`
	Latitude  *angle.Latitude   `json:"latitude,omitempty"`
	Longitude *angle.Longitude  `json:"longitude,omitempty"`

	Uncertainty         angle.Uncertainty `json:"uncertainty,omitzero"` // of an angle
	DistanceUncertainty sailing.Distance  `json:"distanceUncertainty,omitzero"`

	Shared      *sharedData   `json:"shared,omitempty"`
	Transferred *transferData `json:"transferred,omitempty"`
	Fault       string        `json:"fault,omitempty"`
	Working     working.Steps `json:"working"`
}

// sharedData holds the errors that a bearing shares with others.
type sharedData struct {
	Heading     *angle.Compass    `json:"heading,omitempty"` // if it is by the vessel's compass
	OfVariation angle.Uncertainty `json:"variationStandardUncertainty,omitzero"`
	OfDeviation angle.Uncertainty `json:"deviationStandardUncertainty,omitzero"`
}

// transferData is the run by which a line was transferred.
type transferData struct {
	North      float64            `json:"northMetres"`
	East       float64            `json:"eastMetres"`
	Covariance sailing.Covariance `json:"covariance"`
	Lasts      *time.Duration     `json:"lasts,omitempty"` // absent if unknown
	Runs       []transferData     `json:"runs,omitempty"`  // if there are several, each in order
}

// data returns a leg as JSON data.
func (r leg) data() *transferData {
	t := &transferData{North: r.north, East: r.east, Covariance: r.known}
	if r.lasts >= 0 {
		t.Lasts = &r.lasts
	}
	return t
}

// leg returns the leg that the data describe.
func (t *transferData) leg() leg {
	r := leg{t.North, t.East, t.Covariance, -1}
	if t.Lasts != nil {
		r.lasts = max(-1, *t.Lasts)
	}
	return r
}

// exactly returns an angle from radians. If no angle has exactly that many radians, it
// returns an error.
func (l *Line) exactly(radians float64) (angle.Angle, error) {
	a, err := angle.Radians(radians)
	if err != nil || a.Radians() != radians {
		return 0, invalidLine(l.name, fmt.Sprintf("%v radians is not an angle that can be written exactly: make the line again from degrees", radians))
	}
	return a, nil
}

// uncertainty returns a standard uncertainty from radians.
func (l *Line) uncertainty(radians float64) (angle.Uncertainty, error) {
	a, err := l.exactly(radians)
	if err != nil {
		return angle.Uncertainty{}, err
	}
	return angle.StandardUncertainty(a)
}

// MarshalJSON returns the line as JSON, exactly, with its working. [Line.UnmarshalJSON] reads
// it back. For a line of [LineFromFunc], which holds a function, and for the zero value, it
// returns an [*Error].
func (l Line) MarshalJSON() ([]byte, error) {
	d := lineData{Kind: l.kind, Name: l.name, Time: l.time, Marks: l.marks, Fault: l.fault, Working: l.steps}
	switch {
	case l.steps == nil:
		return nil, invalidLine(l.name, "it is empty: make it with a function such as Bearing or Range")
	case l.kind == KindOther:
		return nil, invalidLine(l.name, "it holds a function, which cannot be written as JSON: use a line of another kind, or make this one again with LineFromFunc")
	}
	if err := l.observedInto(&d); err != nil {
		return nil, err
	}
	if l.moved {
		d.Transferred = leg{l.north, l.east, l.transfer, l.carried}.data()
		if len(l.legs) > 1 {
			for _, leg := range l.legs {
				d.Transferred.Runs = append(d.Transferred.Runs, *leg.data())
			}
		}
	}
	if l.byCompass || l.ofVariation != 0 || l.ofDeviation != 0 || l.lacks&(lacksVariation|lacksDeviation) != 0 {
		var s sharedData
		if l.byCompass {
			s.Heading = &l.heading
		}
		var err error
		if l.lacks&lacksVariation == 0 {
			if s.OfVariation, err = l.uncertainty(l.ofVariation); err != nil {
				return nil, err
			}
		}
		if l.lacks&lacksDeviation == 0 {
			if s.OfDeviation, err = l.uncertainty(l.ofDeviation); err != nil {
				return nil, err
			}
		}
		d.Shared = &s
	}
	return json.Marshal(d)
}

// observedInto sets the observed value and its uncertainty.
func (l *Line) observedInto(d *lineData) error {
	if l.kind == KindRange {
		off := sailing.Distance(l.want)
		d.Distance, d.DistanceUncertainty = &off, sailing.Distance(l.sigma)
		return nil
	}
	a, err := l.exactly(l.want)
	if err != nil {
		return err
	}
	switch l.kind {
	case KindLatitude:
		latitude, err := angle.LatitudeFrom(a)
		if err != nil {
			return err
		}
		d.Latitude, d.DistanceUncertainty = &latitude, sailing.Distance(l.sigma)
		return nil
	case KindLongitude:
		longitude := angle.LongitudeFrom(a)
		d.Longitude, d.DistanceUncertainty = &longitude, sailing.Distance(l.sigma)
		return nil
	case KindBearing:
		bearing := angle.TrueFrom(a)
		d.Bearing = &bearing
	case KindHorizontalAngle:
		d.Angle = &a
	}
	if l.lacks&lacksReading == 0 {
		d.Uncertainty, err = l.uncertainty(l.sigma)
	}
	return err
}

// UnmarshalJSON reads what [Line.MarshalJSON] writes. If the data describe no valid line, it
// returns the error of the function that makes such a line, or an [*Error].
func (l *Line) UnmarshalJSON(data []byte) error {
	if l == nil {
		return invalidLine("line", "the pointer to read into is nil: give the address of a Line")
	}
	var d lineData
	if err := json.Unmarshal(data, &d); err != nil {
		return err
	}
	read, err := d.line()
	if err != nil {
		return err
	}
	read.name, read.time, read.fault = d.Name, d.Time, d.Fault
	if d.Working != nil {
		read.steps = d.Working
	}
	if s := d.Shared; s != nil {
		if read.kind != KindBearing {
			return invalidLine(d.Name, "the key \"shared\" is only for a bearing: remove it, or set the kind to bearing")
		}
		if s.Heading != nil {
			read.byCompass, read.heading = true, *s.Heading
		}
		var stated bool
		if read.ofVariation, stated = sigmaOf(s.OfVariation); !stated {
			read.lacks |= lacksVariation
		}
		if read.ofDeviation, stated = sigmaOf(s.OfDeviation); !stated {
			read.lacks |= lacksDeviation
		}
		read.stated = read.lacks == 0
	}
	if t := d.Transferred; t != nil {
		runs := t.Runs
		if len(runs) == 0 {
			runs = []transferData{*t}
		}
		for _, run := range runs {
			leg := run.leg()
			if fault := faultOf(leg.known); fault != "" && d.Fault == "" {
				return invalidLine(d.Name, fault)
			}
			read.carry(leg)
		}
		if !read.transfer.Stated() {
			read.stated, read.lacks = false, read.lacks|lacksRun
		}
	}
	*l = read
	return nil
}

// line makes the line that the data describe.
func (d *lineData) line() (Line, error) {
	marks := 0
	var missing bool
	switch d.Kind {
	case KindBearing:
		marks, missing = 1, d.Bearing == nil
	case KindRange:
		marks, missing = 1, d.Distance == nil
	case KindTransit:
		marks = 2
	case KindHorizontalAngle:
		marks, missing = 2, d.Angle == nil
	case KindLatitude:
		missing = d.Latitude == nil
	case KindLongitude:
		missing = d.Longitude == nil
	default:
		return Line{}, invalidLine(d.Name, fmt.Sprintf("%q is not a kind of line: write bearing, distance-off, transit, horizontal-angle, latitude or longitude", d.Kind))
	}
	if len(d.Marks) != marks || missing {
		return Line{}, invalidLine(d.Name, fmt.Sprintf("it has %d marks, or no observed value: give a line of kind %s %d marks and the value", len(d.Marks), d.Kind, marks))
	}
	switch d.Kind {
	case KindBearing:
		return Bearing(d.Marks[0], *d.Bearing, d.Uncertainty), nil
	case KindRange:
		return Range(d.Marks[0], *d.Distance, d.DistanceUncertainty)
	case KindTransit:
		return Transit(d.Marks[0], d.Marks[1], d.Uncertainty)
	case KindHorizontalAngle:
		return HorizontalAngle(d.Marks[0], d.Marks[1], *d.Angle, d.Uncertainty)
	case KindLatitude:
		return Latitude(*d.Latitude, d.DistanceUncertainty)
	}
	return Longitude(*d.Longitude, d.DistanceUncertainty)
}
