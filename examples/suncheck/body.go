package main

import (
	"errors"
	"fmt"
	"io"
	"time"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
)

// readBody reads a body by its name: the place of a star is computed, and that of the Moon or a
// planet is taken from an almanac.
func (c *checkWith) readBody(name, hourAngle, declination string, on time.Time) error {
	switch {
	case c.by != "body":
		return nil
	case name == "":
		return errors.New("give a star, such as Vega, or the Moon or a planet with -gha and -declination")
	case hourAngle == "" && declination == "":
		var err error
		c.body, err = sky.Star(name, on)
		if unknown := (*angle.ParseError)(nil); errors.As(err, &unknown) {
			return fmt.Errorf("%.40q is no navigational star: give one, such as Vega, or -gha and -declination by an almanac", name)
		}
		return err
	case hourAngle == "" || declination == "":
		return errors.New("give both -gha and -declination, or neither for a star")
	}
	west, err := angle.Parse(hourAngle)
	if err != nil {
		return fmt.Errorf("-gha: %w", err)
	}
	if west < 0 || west > angle.Turn {
		return fmt.Errorf("-gha: %.40q is out of range; give 0° to 360°, as the almanac has it", hourAngle)
	}
	north, err := angle.ParseLatitude(declination)
	if err != nil {
		return fmt.Errorf("-declination: %.40q is no declination; write it as 12°34′S", declination)
	}
	c.body = sky.Body{Name: name, GreenwichHourAngle: west, Declination: north.Angle()}
	return nil
}

// listWellPlaced prints what stands well for a check, the best first.
func listWellPlaced(w io.Writer, p angle.Position, on time.Time) error {
	well, err := sky.WellPlaced(p, on)
	if err != nil {
		return err
	}
	if len(well) == 0 {
		fmt.Fprintf(w, "Nothing stands well for a check from %v at %s.\n", p, on.UTC().Format(time.RFC3339))
	}
	if len(well) > 0 {
		fmt.Fprintf(w, "From %v at %s, the best first:\n", p, on.UTC().Format(time.RFC3339))
	}
	for _, sight := range well {
		fmt.Fprintf(w, "%-16s bears %05.1f°T at an altitude of %4.1f°\n", sight.Body.Name, sight.Azimuth.Degrees(), sight.Altitude.Degrees())
	}
	return nil
}
