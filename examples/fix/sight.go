package main

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/fix"
)

// A sight is one row of the file, and the vessel that took it. Each method reads one kind of
// line. With an error it returns the column that is wrong.
type sight struct {
	row record.Row
	vessel
}

// mark reads a mark from a column of names and one of positions.
func (s sight) mark(object, position string) (fix.Mark, error) {
	text := s.row.Text(position)
	at, err := angle.ParsePosition(text)
	if err != nil {
		return fix.Mark{}, s.row.Fault(position, fmt.Errorf("%q is not a position; write it as 47°08.4′N 019°00.0′W", text))
	}
	return fix.Mark{Name: s.row.Text(object), Position: at}, nil
}

// marks reads both marks.
func (s sight) marks() (first, second fix.Mark, err error) {
	if first, err = s.mark("object", "position"); err == nil {
		second, err = s.mark("second", "second_position")
	}
	return first, second, err
}

// miles is a unit of a distance on the chart, which no height or depth has.
var miles = regexp.MustCompile(`(?:M|nm|NM|[Mm]iles?|[Cc]ables?)\s*$`)

// inMiles reports whether a length is in nautical miles or cables.
func inMiles(text string) bool { return miles.MatchString(text) }

// length reads a distance, a height or a depth. Its example shows the form.
func (s sight) length(column, what, example string) (sailing.Distance, error) {
	text := s.row.Text(column)
	if column == "uncertainty" {
		if text == "" {
			return 0, nil
		}
		text = strings.TrimPrefix(text, "±")
		example += ", or leave it empty"
	}
	d, err := sailing.ParseDistance(text)
	if err != nil {
		return 0, s.row.Fault(column, fmt.Errorf("%q is not %s; write it as %s", s.row.Text(column), what, example))
	}
	if what != "a distance" && inMiles(text) {
		return 0, s.row.Fault(column, fmt.Errorf("%q is %.0f metres; a small m means metres, M nautical miles; write it as %s", s.row.Text(column), d.Metres(), example))
	}
	return d, nil
}

// uncertainty reads the standard uncertainty of an angle.
func (s sight) uncertainty(example string) (u angle.Uncertainty, err error) {
	text := s.row.Text("uncertainty")
	if u.UnmarshalText([]byte(text)) != nil {
		err = s.row.Fault("uncertainty", fmt.Errorf("%q is not an uncertainty; write an angle such as %s, or leave it empty", text, example))
	} else if sigma, _ := u.Sigma(); sigma > 90*angle.Degree {
		err = s.row.Fault("uncertainty", fmt.Errorf("%q leaves nothing of the angle; write at most 90°, such as %s, or leave it empty", text, example))
	}
	return u, err
}

// sextant reads a sextant angle.
func (s sight) sextant() (angle.Angle, error) {
	text := s.row.Text("observed")
	a, err := angle.Parse(text)
	if err != nil {
		err = s.row.Fault("observed", fmt.Errorf("%q is not a sextant angle; write it as 25°07.0′ or 0°14.8′", text))
	} else if !strings.ContainsFunc(text, func(r rune) bool { return r != '.' && r != '+' && r != '-' && (r < '0' || r > '9') }) {
		err = s.row.Fault("observed", fmt.Errorf("%q may be degrees or minutes; write it as 25°07.0′ or 0°14.8′", text))
	}
	return a, err
}

// distance reads a distance off.
func (s sight) distance() (fix.Line, string, error) {
	mark, err := s.mark("object", "position")
	d, err2 := s.length("observed", "a distance", "12.3 M or 4 cables")
	known, err3 := s.length("uncertainty", "a distance", "0.1 M")
	if err := first(err, err2, err3); err != nil {
		return fix.Line{}, "", err
	}
	line, err := fix.Range(mark, d, known)
	return line, "observed", err
}

// transit reads two marks in line.
func (s sight) transit() (fix.Line, string, error) {
	front, rear, err := s.marks()
	u, err2 := s.uncertainty("0.1°")
	if err := first(err, err2); err != nil {
		return fix.Line{}, "", err
	}
	line, err := fix.Transit(front, rear, u)
	return line, "second_position", err
}

// horizontalAngle reads the sextant angle between two marks.
func (s sight) horizontalAngle() (fix.Line, string, error) {
	left, right, err := s.marks()
	a, err2 := s.sextant()
	u, err3 := s.uncertainty("2′")
	if err := first(err, err2, err3); err != nil {
		return fix.Line{}, "", err
	}
	line, err := fix.HorizontalAngle(left, right, a, u)
	return line, "observed", err
}

// verticalAngle reads the sextant angle between the top of a mark and the water line below it.
func (s sight) verticalAngle() (fix.Line, string, error) {
	mark, err := s.mark("object", "position")
	height, err2 := s.length("height", "a height", "24 m")
	a, err3 := s.sextant()
	u, err4 := s.uncertainty("0.5′")
	if err := first(err, err2, err3, err4); err != nil {
		return fix.Line{}, "", err
	}
	if horizon, err := fix.Horizon(s.eye, fix.HorizonTable); err == nil && height > 0 && a > 0 && a < 90*angle.Degree {
		if off := height / sailing.Distance(a.Tan()); off > horizon {
			return fix.Line{}, "observed", fmt.Errorf("by %s the object is %.1f M off, beyond the horizon, %.1f M, so that its water line is not seen; check the angle, the height and the height of eye, %g m",
				s.row.Text("observed"), off.NauticalMiles(), horizon.NauticalMiles(), s.eye.Metres())
		}
	}
	line, err := fix.VerticalAngle(mark, height, a, s.eye, u)
	return line, "observed", err
}

// depth reads a depth on a slope between two charted depths, such as those of two contours.
// The slope is taken as even: the depth changes in proportion from the first place to the
// second, and not across the line between them.
func (s sight) depth() (fix.Line, string, error) {
	from, to, err := s.marks()
	const form = "35 m or 20 fathoms"
	d0, err2 := s.length("depth", "a depth", form)
	d1, err3 := s.length("second_depth", "a depth", form)
	sounded, err4 := s.length("observed", "a depth", form)
	known, err5 := s.length("uncertainty", "a depth", "2 m")
	if err := first(err, err2, err3, err4, err5); err != nil {
		return fix.Line{}, "", err
	}
	if sounded < min(d0, d1) || sounded > max(d0, d1) || d0 == d1 {
		return fix.Line{}, "observed", fmt.Errorf("%s is not between two different charted depths, %s and %s; take the depths on both sides of it from the chart",
			s.row.Text("observed"), s.row.Text("depth"), s.row.Text("second_depth"))
	}
	along, ok := along(from.Position, to.Position)
	if !ok {
		return fix.Line{}, "second_position", errors.New("both positions are the same; write the nearest place that has the second depth")
	}
	charted := func(p angle.Position) float64 {
		return d0.Metres() + (d1-d0).Metres()*along(p)
	}
	line, err := fix.LineFromFunc("depth on "+from.Name, "m", charted, sounded.Metres(), known.Metres())
	return line, "observed", err
}

// along returns the function that says how far along a short line a position is: 0 abreast of
// its beginning, 1 abreast of its end. Without a length there is none.
func along(from, to angle.Position) (func(angle.Position) float64, bool) {
	lat, long := from.Degrees()
	shrink := math.Cos(lat * math.Pi / 180)
	plane := func(p angle.Position) (x, y float64) {
		y, x = p.Degrees()
		return math.Remainder(x-long, 360) * shrink, y - lat
	}
	east, north := plane(to)
	square := east*east + north*north
	return func(p angle.Position) float64 {
		x, y := plane(p)
		return (x*east + y*north) / square
	}, square > 0
}

// latitude reads a latitude, such as by the Sun at noon.
func (s sight) latitude() (fix.Line, string, error) {
	text := s.row.Text("observed")
	known, err := s.length("uncertainty", "a distance", "1 M")
	l, err2 := angle.ParseLatitude(text)
	if err2 != nil {
		err2 = s.row.Fault("observed", fmt.Errorf("%q is not a latitude; write it as 47°02.0′N", text))
	}
	if err := first(err2, err); err != nil {
		return fix.Line{}, "", err
	}
	line, err := fix.Latitude(l, known)
	return line, "uncertainty", err
}

// longitude reads a longitude.
func (s sight) longitude() (fix.Line, string, error) {
	text := s.row.Text("observed")
	known, err := s.length("uncertainty", "a distance", "1 M")
	l, err2 := angle.ParseLongitude(text)
	if err2 != nil {
		err2 = s.row.Fault("observed", fmt.Errorf("%q is not a longitude; write it as 019°15.4′W", text))
	}
	if err := first(err2, err); err != nil {
		return fix.Line{}, "", err
	}
	line, err := fix.Longitude(l, known)
	return line, "uncertainty", err
}

// bearing reads a bearing: true, magnetic, compass, or relative to the bow.
func (s sight) bearing() (fix.Line, string, error) {
	mark, err := s.mark("object", "position")
	u, err2 := s.uncertainty("1.5°")
	if err := first(err, err2); err != nil {
		return fix.Line{}, "", err
	}
	text := s.row.Text("observed")
	none := fmt.Errorf("%q is not a bearing; write 000 to 360 with C, M, T or R, such as 054.5°C, or a side: 35° to port", text)
	var b course.Bearing
	switch text[len(text)-1] { // it has text: the kind needs it
	case 'C':
		c, err := angle.ParseCompass(text)
		if err != nil {
			return fix.Line{}, "observed", none
		}
		b = s.heading.BearingFromCompass(c)
	case 'M':
		m, err := angle.ParseMagnetic(text)
		if err != nil {
			return fix.Line{}, "observed", none
		}
		b = s.heading.BearingFromMagnetic(m)
	case 'T':
		t, err := angle.ParseTrue(text)
		if err != nil {
			return fix.Line{}, "observed", none
		}
		return fix.Bearing(mark, t, u), "", nil
	default:
		var r angle.Relative
		if r.UnmarshalText([]byte(text)) != nil {
			return fix.Line{}, "observed", none
		}
		b = s.heading.BearingFromRelative(r)
	}
	return fix.CompassBearing(mark, b, u), "", nil
}

// first returns the first error that is not nil.
func first(faults ...error) error {
	for _, err := range faults {
		if err != nil {
			return err
		}
	}
	return nil
}
