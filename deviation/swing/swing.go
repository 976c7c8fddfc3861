package swing

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// A Reading is what was read on one heading of a swing. Every [Method] needs Heading, and says
// which other fields it needs. If one of them is nil or zero, [Reduce] returns an [*Error] that
// wraps a [*variation.MissingInputError]. So a forgotten value never counts as 000°.
type Reading struct {
	// Heading is the vessel's heading by the compass that is swung.
	Heading *angle.Compass `json:"heading,omitempty"`

	// Bearing is the direction of the object, by the same compass. A bearing by another compass
	// aboard contains that compass's deviation. It would give a wrong deviation card without any
	// sign of the error.
	Bearing *angle.Compass `json:"bearing,omitempty"`

	// BearingBy says by which compass Bearing was taken. If empty, the swing takes it as by the
	// compass that is swung, and warns.
	BearingBy BearingCompass `json:"bearingBy,omitempty"`

	// Time is when a moving object was observed.
	Time time.Time `json:"time,omitzero"`

	// True is the vessel's true heading from another source at the same moment.
	True *angle.True `json:"true,omitempty"`

	// Shore is the bearing of the vessel from the compass ashore at the same moment. The compass
	// ashore has no deviation.
	Shore *angle.Magnetic `json:"shore,omitempty"`

	// Other is the vessel's heading by a second compass at the same moment.
	Other *angle.Compass `json:"other,omitempty"`

	// Deviation is a deviation that was found before, from a record.
	Deviation *deviation.Deviation `json:"deviation,omitempty"`

	// Uncertainty is the standard uncertainty of this reading, bearing and heading together. It
	// need not be stated.
	Uncertainty angle.Uncertainty `json:"uncertainty,omitzero"`
}

// A reading is a [Reading] with everything that its method needs.
type reading struct {
	Heading, Bearing, Other angle.Compass
	Time                    time.Time
	True                    angle.True
	Shore                   angle.Magnetic
	Deviation               deviation.Deviation
	Uncertainty             angle.Uncertainty
	BearingBy               BearingCompass
	fromBow                 bool // the bearing was read from the bow, by no compass
}

// complete copies what a method needs from the readings. It returns an error if something is
// missing.
func complete(readings []Reading, columns []string) ([]reading, error) {
	out := make([]reading, len(readings))
	for i, r := range readings {
		to := &out[i]
		to.Time, to.Uncertainty, to.BearingBy = r.Time, r.Uncertainty, r.BearingBy
		if !take(&to.Heading, r.Heading) {
			return nil, readingError(i, to.Heading, &variation.MissingInputError{What: "heading"})
		}
		for _, column := range columns {
			there := true
			switch column {
			case "bearing":
				there = take(&to.Bearing, r.Bearing)
			case "true":
				there = take(&to.True, r.True)
			case "shore":
				there = take(&to.Shore, r.Shore)
			case "other":
				there = take(&to.Other, r.Other)
			case "deviation":
				there = take(&to.Deviation, r.Deviation)
			}
			if !there {
				return nil, readingError(i, to.Heading, &variation.MissingInputError{What: column})
			}
		}
	}
	return out, nil
}

// take copies a value. It reports false if there is none.
func take[T any](to, from *T) bool {
	if from == nil {
		return false
	}
	*to = *from
	return true
}

// A Method is a way to swing the compass. It says what the compass is compared with. The methods
// are [Transit], [DistantObject], [SunAzimuths], [TrueHeadings], [ShoreCompass], [SecondCompass]
// and [StatedDeviations]. If the method is nil, [Reduce] and [ReadSwing] return an error.
type Method interface {
	// name names the method in a sentence.
	name() string

	// columns are the columns of a record, apart from heading and uncertainty.
	columns() []string

	// reduce finds the deviation on each heading.
	reduce(readings []reading) (reduction, error)
}

// errNoMethod is the error of a method that is nil, or a nil pointer.
var errNoMethod = errors.New("there is no method; give what the compass was compared with, such as a swing.Transit")

// isNil reports whether a method is nil, or a nil pointer to one.
func isNil(method Method) bool {
	v := reflect.ValueOf(method)
	return method == nil || v.Kind() == reflect.Pointer && v.IsNil()
}

// A reduction is the result of a method.
type reduction struct {
	observations []Observation
	common       angle.Uncertainty
	steps        working.Steps
	warnings     []working.Warning
}

// A Swing is the record of a swing, reduced to deviations.
type Swing struct {
	// Method says in words what the compass was compared with.
	Method string `json:"method"`

	// Observations are the deviations found, in the order of the readings.
	Observations []Observation `json:"observations,omitempty"`

	// Common is the uncertainty that all observations share, from the variation and the object's
	// direction. It is unknown if one of these is unknown.
	Common angle.Uncertainty `json:"common,omitzero"`

	// Steps are the steps of the swing as a whole. Those of each deviation are in
	// [Observation.Working].
	Steps working.Steps `json:"steps,omitempty"`

	// Warnings say what the method assumes and what looks wrong.
	Warnings []working.Warning `json:"warnings,omitempty"`
}

// Working returns the swing as a sheet: its steps, and the deviation on each heading. For a nil
// Swing it is empty.
func (s *Swing) Working() working.Sheet {
	if s == nil {
		return working.Sheet{}
	}
	sheet := working.Sheet{Title: "Swing by " + s.Method, Steps: slices.Clone(s.Steps), Warnings: slices.Clone(s.Warnings), Caution: working.Caution}
	for i, o := range s.Observations {
		step := working.EastWest(fmt.Sprintf("deviation %d", i+1), "Deviation on "+o.Heading.String(), o.Deviation.Angle())
		if u := o.Deviation.Uncertainty(); u != (angle.Uncertainty{}) {
			step = step.Because("swing-own-uncertainty", "standard uncertainty %v of this reading alone", u)
		}
		sheet.Steps = append(sheet.Steps, step)
	}
	return sheet
}

// Reduce finds the deviation on each heading of a swing. Errors are
// [*Error].
func Reduce(readings []Reading, method Method) (*Swing, error) {
	if isNil(method) {
		return nil, swingError(errNoMethod)
	}
	complete, err := complete(readings, method.columns())
	if err != nil {
		return nil, err
	}
	return reduceAll(complete, method)
}

// reduceAll reduces readings that are complete.
func reduceAll(readings []reading, method Method) (*Swing, error) {
	if len(readings) == 0 {
		return nil, swingError(errors.New("there are no readings"))
	}
	asked, err := checkBearingCompass(readings, method.columns())
	if err != nil {
		return nil, err
	}
	if err := checkColumns(readings, method.columns()); err != nil {
		return nil, err
	}
	r, err := method.reduce(readings)
	if err != nil {
		return nil, err
	}
	if step := stepAsRead(readings, method.columns()); step != 0 {
		for i := range r.observations {
			r.observations[i].Step = step
		}
	}
	return &Swing{
		Method: method.name(), Observations: r.observations,
		Common: r.common, Steps: r.steps, Warnings: slices.Concat(r.warnings, asked, trend(r.observations), magneticHeadings(r.observations)),
	}, nil
}

// Suspicions returns the observations that do not agree with the others, in their order. It
// needs at least eight different headings.
//
// A deviation of more than 90° is impossible: the reciprocal of the line or of the bearing was
// read. It is suspected with any number of headings.
//
// The coefficients A to E are fitted to the half of the observations that agree best (least trimmed
// squares; Rousseeuw and Van Driessen, Data Mining and Knowledge Discovery 12, 2006). Then the
// others are added, the best first, until one is too far off for chance (Hadi and Simonoff, Journal
// of the American Statistical Association 88, 1993). Both papers are cited from memory. The test is
// Student's with Bonferroni's allowance at 2 %. The observation must also be off by more than 2½°
// plus half the step of the readings. The scatter is at least what the stated uncertainties and the
// step of the readings allow; see [Observation.Step]. A nil Swing has no suspicions.
func (s *Swing) Suspicions() []Suspicion {
	if s == nil {
		return nil
	}
	return suspicions(s.Observations)
}

// Fit fits a curve to the swing; see [NewFit]. It combines the common uncertainty of the swing with
// that of the options. If the swing's is unknown, the uncertainties of A and of the curve are
// unknown too. The errors are those of NewFit. A nil Swing counts as a swing without observations.
func (s *Swing) Fit(options FitOptions) (*Fit, error) {
	if s == nil {
		s = &Swing{}
	}
	if _, stated := options.Common.Sigma(); stated {
		options.Common = s.Common.Combined(options.Common)
	} else {
		options.Common = s.Common
	}
	f, err := NewFit(s.Observations, options)
	if err != nil {
		return nil, err
	}
	if _, stated := options.Common.Sigma(); !stated {
		f.stated = false
		return f, f.makeCurve()
	}
	return f, nil
}

// Table returns the observed deviations as a table by compass heading, with their whole
// uncertainty. It returns a [*lubberline.example/deviation.Error] if a heading was observed
// twice, if there is a gap of more than 45°, or if there are no observations.
func (s *Swing) Table() (*deviation.Table, error) {
	if s == nil {
		s = &Swing{}
	}
	rows := make([]deviation.Row[angle.Compass], len(s.Observations))
	for i, o := range s.Observations {
		rows[i] = deviation.Row[angle.Compass]{Heading: o.Heading, Deviation: o.Deviation.WithUncertainty(o.Deviation.Uncertainty().Combined(s.Common))}
	}
	return deviation.NewTable(rows)
}

// compared returns the observation from a magnetic direction and the same direction as read by the
// compass.
func compared(s reading, what string, should angle.Magnetic, reads angle.Compass, own angle.Uncertainty, steps working.Steps) Observation {
	d := deviation.Between(should, reads).WithUncertainty(own)
	step := working.EastWest("deviation", "Deviation", d.Angle())
	switch a := d.Angle(); {
	case a > 0:
		step = step.Because("swing-compass-least", "compass least: deviation is east, on heading %v", s.Heading)
	case a < 0:
		step = step.Because("swing-compass-best", "compass best: deviation is west, on heading %v", s.Heading)
	default:
		step = step.Because("swing-compass-agrees", "compass and magnetic agree on heading %v", s.Heading)
	}
	return Observation{Heading: s.Heading, Deviation: d, Working: append(steps,
		working.Direction("magnetic", what+" by magnetic", should),
		working.Direction("compass", what+" by compass", reads).Because("swing-read", "read"),
		step,
	)}
}
