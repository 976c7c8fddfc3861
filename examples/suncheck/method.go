package main

import (
	"errors"
	"flag"
	"fmt"
	"slices"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation/check"
	"lubberline.example/deviation/sky"
	"lubberline.example/variation"
)

// A checkWith is what the compass is checked against.
type checkWith struct {
	by             string // azimuth, amplitude, body or transit
	position       angle.Position
	swung          *angle.Position // where the compass was swung; nil if unknown
	event          sky.Event
	horizon        sky.Horizon
	height         float64 // of eye, in metres
	direction      angle.True
	directionKnown angle.Uncertainty
	body           sky.Body
	append         bool // to the log
	json           bool // the output
	own            bool // whether the reading is the user's own
}

// only are the flags that one method alone uses.
var only = map[string][]string{
	"position":              {"azimuth", "amplitude", "body"},
	"swung":                 {"azimuth", "amplitude"},
	"event":                 {"amplitude"},
	"horizon":               {"amplitude"},
	"height":                {"amplitude"},
	"body":                  {"body"},
	"gha":                   {"body"},
	"declination":           {"body"},
	"direction":             {"transit"},
	"direction-uncertainty": {"transit"},
}

// refuse refuses a method that is unknown, and a flag that the method would ignore.
func (c checkWith) refuse(flags *flag.FlagSet) error {
	if !slices.Contains([]string{"azimuth", "amplitude", "body", "transit"}, c.by) {
		return fmt.Errorf("%.40q is unknown: give azimuth, amplitude, body or transit", c.by)
	}
	var err error
	flags.Visit(func(f *flag.Flag) {
		if methods, listed := only[f.Name]; err == nil && listed && !slices.Contains(methods, c.by) {
			err = fmt.Errorf("%s does not use -%s: leave it out, or give -by %s", c.by, f.Name, methods[0])
		}
	})
	if horizon := flags.Lookup("horizon").Value.String(); err == nil && givenFlags(flags)["height"] && horizon != "visible" {
		err = errors.New("the celestial horizon does not use -height: leave it out, or give -horizon visible")
	}
	return err
}

// readEvent reads rise or set.
func (c *checkWith) readEvent(text string) error {
	switch {
	case c.by != "amplitude":
	case text == "rise":
		c.event = sky.Rise
	case text == "set":
		c.event = sky.Set
	default:
		return fmt.Errorf("%.40q is unknown: give rise or set", text)
	}
	return nil
}

// readHorizon reads celestial or visible.
func (c *checkWith) readHorizon(text string) error {
	switch text {
	case "celestial":
		c.horizon = sky.CelestialHorizon
	case "visible":
		c.horizon = sky.VisibleHorizon
	default:
		return fmt.Errorf("%.40q is unknown: give celestial or visible", text)
	}
	return nil
}

// check makes the check.
func (c checkWith) check(r check.Reading) (check.Check, error) {
	switch c.by {
	case "amplitude":
		return r.AgainstAmplitude(c.event, c.horizon, c.position, c.height)
	case "body":
		return r.AgainstBody(c.body, c.position)
	case "transit":
		return r.Against("a transit", c.direction, c.directionKnown)
	}
	return r.AgainstSun(c.position)
}

// variationOf reads a figure, the variation now, or the legend of a rose, and brings that to
// a date.
func variationOf(text string, on time.Time, decimal bool) (variation.Source, error) {
	rose, err := variation.ParseLegend(text)
	switch {
	case err == nil && decimal:
		return rose.On(on, variation.DecimalYears)
	case err == nil:
		return rose, nil
	case hasYear(text):
		return nil, err
	}
	v, err := variation.Parse(text)
	if err == nil && decimal {
		err = errors.New("-decimal counts the years of a rose: leave it out with a figure")
	}
	return v, err
}

// hasYear reports whether a text has four figures together, as a year has.
func hasYear(text string) bool {
	run := 0
	for _, c := range text {
		if c < '0' || c > '9' {
			run = 0
		} else if run++; run == 4 {
			return true
		}
	}
	return false
}

// givenFlags are the flags that were given.
func givenFlags(flags *flag.FlagSet) map[string]bool {
	given := map[string]bool{}
	flags.Visit(func(f *flag.Flag) { given[f.Name] = true })
	return given
}

// firstMissing is the first of some flags that was not given.
func firstMissing(given map[string]bool, names ...string) string {
	for _, name := range names {
		if !given[name] {
			return name
		}
	}
	return ""
}
