package main

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/deviation/check"
	"lubberline.example/variation"
)

// A readingFlag is a flag of a reading.
type readingFlag struct {
	name, usual, says string
}

// readingFlags are the flags of all readings. Most have no usual value: with your own book the
// reading is yours.
var readingFlags = []readingFlag{
	{"time", "", "time of the reading, UTC, as in 2026-07-04T08:10:00Z"},
	{"heading", "", "the vessel's heading by the compass that is checked, as in 045°C"},
	{"rose", "", "legend of the chart's rose, as in 7°20′W 2015 (12′E), or the variation now: 5°08′W ±0°15′"},
	{"bearing", "", "bearing by the compass that is checked, as in 141°C"},
	{"uncertainty", "0.7°", "standard uncertainty of the bearing, or of the two headings together"},
	{"direction", "", "transit: its true direction by the chart, from the vessel, as in 138.4°T"},
	{"direction-uncertainty", "0.2°", "transit: standard uncertainty of its direction"},
	{"object", "", "object: its position by the chart"},
	{"position", "", "object, sun: position of the vessel, as in 47°00.0′N 019°12.0′W"},
	{"position-uncertainty", "0.1 M", "object: standard uncertainty of the position, each way"},
	{"other", "", "compass: heading by the second compass at the same time, as in 092.5°C"},
	{"other-deviation", "", "compass: deviation of the second compass on that heading, as in 1°30′E ±0°30′"},
	{"gyro", "", "gyro: bearing of you by the other vessel's gyro compass, as in 250"},
	{"gyro-error", "", "gyro: error of that gyro compass, as in 1°E ±0°30′"},
	{"name", "", "name of what the compass was compared with, for the book"},
	{"observer", "", "name of the observer, for the book"},
	{"remarks", "", "remarks for the book"},
}

// every is what every method needs.
var every = []string{"time", "heading", "rose"}

// A method is a way to check a compass.
type method struct {
	name     string
	logged   string   // as the book says it
	needs    []string // beside what every method needs
	mayHave  []string
	invented map[string]string
	check    func(*reading) (check.Check, error)
}

// methods are all ways to check a compass. The readings are invented.
var methods = []method{
	{"transit", "transit", []string{"bearing", "direction"}, []string{"direction-uncertainty"}, map[string]string{
		"time": "2026-07-04T08:10:00Z", "heading": "045°C", "rose": "7°20′W 2015 (12′E)", "bearing": "141°C", "direction": "138.4°T",
		"name": "Minnow Ledge beacon and St Osk church in line",
	}, (*reading).byTransit},
	{"object", "charted object", []string{"bearing", "position", "object"}, []string{"position-uncertainty"}, map[string]string{
		"time": "2026-07-04T09:25:00Z", "heading": "120°C", "rose": "7°20′W 2015 (12′E)", "bearing": "118°C",
		"position": "47°00.0′N 019°12.0′W", "object": "46°57.0′N 019°03.0′W", "name": "St Osk church",
	}, (*reading).byObject},
	{"sun", "azimuth", []string{"bearing", "position"}, nil, map[string]string{
		"time": "2026-07-04T18:20:00Z", "heading": "226°C", "rose": "7°55′W 2012 (9′E)", "bearing": "280.5°C",
		"position": "46°52.8′N 019°24.5′W", "name": "the Sun",
	}, (*reading).bySun},
	{"compass", "second compass", []string{"other", "other-deviation"}, nil, map[string]string{
		"time": "2026-07-04T10:00:00Z", "heading": "090°C", "rose": "7°20′W 2015 (12′E)", "other": "092.5°C", "other-deviation": "1°30′E ±0°30′",
		"name": "the compass on the house",
	}, (*reading).byCompass},
	{"gyro", "gyro of another", []string{"bearing", "gyro", "gyro-error"}, nil, map[string]string{
		"time": "2026-07-04T11:40:00Z", "heading": "300°C", "rose": "7°20′W 2015 (12′E)", "bearing": "080°C", "gyro": "250", "gyro-error": "1°E ±0°30′",
		"name": "the survey vessel",
	}, (*reading).byGyro},
}

// check works the check of the flags. It returns nil if no check is added.
func (o *options) check() (*check.Check, error) {
	if o.add == "" {
		for _, f := range readingFlags {
			if o.given[f.name] {
				return nil, fmt.Errorf("-%s is of a check: give -add with its method too", f.name)
			}
		}
		return nil, nil
	}
	i := slices.IndexFunc(methods, func(m method) bool { return m.name == o.add })
	if i < 0 {
		return nil, fmt.Errorf("-add %.40q: give transit, object, sun, compass or gyro", o.add)
	}
	m := methods[i]
	own := slices.Concat(every, m.needs)
	used := slices.Concat(own, m.mayHave, []string{"uncertainty", "name", "observer", "remarks"})
	for _, f := range readingFlags {
		if o.given[f.name] && !slices.Contains(used, f.name) {
			return nil, fmt.Errorf("-add %s does not use -%s: leave it out", m.name, f.name)
		}
	}
	ownReading := o.book != "" || slices.ContainsFunc(own, func(name string) bool { return o.given[name] })
	for name, text := range m.invented {
		if !ownReading && !o.given[name] {
			o.reading[name] = text
		}
	}
	for _, name := range own {
		if o.reading[name] == "" {
			return nil, fmt.Errorf("-%s missing: -add %s needs %s", name, m.name, "-"+strings.Join(own, ", -"))
		}
	}
	r, err := readReading(o.reading)
	if err != nil {
		return nil, err
	}
	c, err := m.check(r)
	if err != nil {
		return nil, err
	}
	c.Method, c.VariationSource = m.logged, r.source
	c.Observer, c.Remarks = o.reading["observer"], o.reading["remarks"]
	if r.text["name"] != "" {
		c.Against = r.text["name"]
	}
	return &c, nil
}

// A reading is what was read, and the texts that only one method uses.
type reading struct {
	check.Reading
	source string // of the variation
	text   map[string]string
	err    error // of the first text that could not be read
}

// readReading reads what every method needs.
func readReading(text map[string]string) (*reading, error) {
	r := &reading{text: text}
	r.Time = parsed(r, "time", parseTime)
	heading := parsed(r, "heading", angle.ParseCompass)
	r.Heading = &heading
	if text["bearing"] != "" {
		bearing := parsed(r, "bearing", angle.ParseCompass)
		r.Bearing = &bearing
	}
	if text["position"] != "" {
		at := parsed(r, "position", angle.ParsePosition)
		r.At = &at
	}
	r.Uncertainty = parsed(r, "uncertainty", known)
	r.Variation = parsed(r, "rose", func(text string) (variation.Source, error) {
		if hasYear(text) {
			r.source = "rose " + text
			return variation.ParseLegend(text)
		}
		r.source = "as given"
		return variation.Parse(text)
	})
	return r, r.err
}

// parsed reads the text of a flag.
func parsed[V any](r *reading, name string, parse func(string) (V, error)) V {
	v, err := parse(r.text[name])
	if err != nil && r.err == nil {
		r.err = fmt.Errorf("-%s: %w", name, err)
	}
	return v
}

// byTransit checks against two marks in line.
func (r *reading) byTransit() (check.Check, error) {
	direction, u := parsed(r, "direction", angle.ParseTrue), parsed(r, "direction-uncertainty", known)
	if r.err != nil {
		return check.Check{}, r.err
	}
	return r.Against("a transit", direction, u)
}

// byObject checks against a charted object. Its true direction is that from the position of the
// vessel, which must therefore be known well, and not by this compass.
func (r *reading) byObject() (check.Check, error) {
	object, off := parsed(r, "object", angle.ParsePosition), parsed(r, "position-uncertainty", sailing.ParseDistance)
	if r.err != nil {
		return check.Check{}, r.err
	}
	if object.SamePlace(*r.At) {
		return check.Check{}, errors.New("-object and -position are the same place: give the position of the vessel and that of the object")
	}
	run, err := sailing.WGS84().GreatCircle(*r.At, object)
	if err != nil {
		return check.Check{}, err
	}
	if run.Distance > 60*sailing.NauticalMile {
		return check.Check{}, fmt.Errorf("the object is %v away, too far to be seen: check both positions, also N or S and E or W", run.Distance)
	}
	if run.Distance <= 2*off {
		return check.Check{}, fmt.Errorf("the object is only %v away: its direction is not known well enough; take one farther off", run.Distance)
	}
	u, err := angle.StandardUncertainty(angle.Must(angle.Radians(math.Atan2(float64(off), float64(run.Distance)))))
	if err != nil {
		return check.Check{}, fmt.Errorf("-position-uncertainty: %w", err)
	}
	c, err := r.Against("a charted object", run.Initial, u)
	c.Position = r.At
	return c, err
}

// bySun checks against the Sun.
func (r *reading) bySun() (check.Check, error) { return r.AgainstSun(*r.At) }

// byCompass checks against the heading by a second compass. The variation is in both headings, so
// its error does not count.
func (r *reading) byCompass() (check.Check, error) {
	other, d := parsed(r, "other", angle.ParseCompass), parsed(r, "other-deviation", deviation.Parse)
	if r.err != nil {
		return check.Check{}, r.err
	}
	now, err := variation.Explain(r.Variation, angle.Position{}, r.Time)
	if err != nil {
		return check.Check{}, err
	}
	exact, err := angle.StandardUncertainty(0)
	if err != nil {
		return check.Check{}, err
	}
	r.Bearing, r.Variation = r.Heading, now.Variation.WithUncertainty(exact)
	c, err := r.Against("the heading", now.Variation.True(d.Magnetic(other)), d.Uncertainty())
	c.Against, c.Bearing = "a second compass", nil // a heading is no bearing
	c.Steps = append(working.Steps{
		working.Direction("second", "Heading by the second compass", other).Because("book-same-time", "read at the same time"),
		working.EastWest("second deviation", "Its deviation", d.Angle()).Because("book-by-its-card", "by its card"),
		working.Direction("magnetic", "Magnetic heading", d.Magnetic(other)).Because("book-of-both", "of both compasses"),
	}, append(slices.Clone(now.Working), c.Steps...)...)
	return c, err
}

// byGyro checks against another vessel, whose gyro compass bears on this one at the same time. The
// true bearing is the reciprocal of what that gyro finds.
func (r *reading) byGyro() (check.Check, error) {
	gyro, e := parsed(r, "gyro", angle.ParseTrue), parsed(r, "gyro-error", parseError)
	if r.err != nil {
		return check.Check{}, r.err
	}
	c, err := r.Against("another vessel", trueByGyro(gyro, e).Reciprocal(), e.Uncertainty())
	c.Steps = append(working.Steps{
		working.Step{Key: "gyro", What: "This vessel by the other's gyro", Value: fmt.Sprintf("%05.1f°", gyro.Degrees()), Number: gyro.Degrees()}.Because("book-same-time", "read at the same time"),
		working.EastWest("gyro error", "Error of that gyro", e.Angle()).Because("book-gyro-east", "east is added"),
		working.Direction("true there", "True from the other vessel", trueByGyro(gyro, e)).Because("book-reciprocal", "its reciprocal is the bearing from this one"),
	}, c.Steps...)
	return c, err
}

// trueByGyro returns the true direction of one by a gyro compass with an error, east positive.
func trueByGyro(gyro angle.True, e angle.EastWest) angle.True { return gyro.Add(e.Angle()) }

// parseError reads the error of a gyro compass.
func parseError(text string) (angle.EastWest, error) {
	var e angle.EastWest
	err := e.UnmarshalText([]byte(text))
	return e, err
}
