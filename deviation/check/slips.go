package check

import (
	"fmt"
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/say"
	"lubberline.example/deviation/swing"
)

// A namedSlip is a slip in a check, in words.
type namedSlip struct {
	slip swing.Slip
	text string
}

// slipTolerance is within how much of what is expected a slip must bring a deviation.
type slipTolerance struct {
	reading angle.Angle // for slips of the reading
	tens    angle.Angle // for a bearing misread by tens
	sky     angle.Angle // for slips of the time and place of a bearing of a body
}

// slips finds what may have happened in a check whose deviation is not as expected on its
// heading, the likeliest first. The source tells what is expected on another heading; nil
// means no deviation.
func (c Check) slips(expected deviation.Source, within slipTolerance) []namedSlip {
	var found []namedSlip
	add := func(slip swing.Slip, format string, args ...any) {
		found = append(found, namedSlip{slip, fmt.Sprintf(format, args...)})
	}
	on := func(heading angle.Compass) (angle.Angle, bool) {
		if expected == nil {
			return 0, true
		}
		d, err := expected.OnCompass(heading)
		return d.Angle(), err == nil
	}
	d := c.Deviation.Angle()
	here, ok := on(c.Heading)
	if !ok {
		return nil
	}
	agrees := func(deviation, want angle.Angle) bool {
		return (deviation - want).NormalizedSigned().Abs() <= within.reading
	}
	if agrees(d, here) {
		return nil // nothing to explain
	}
	if agrees(d+angle.Turn/2, here) {
		add(swing.ReciprocalTaken, "the reciprocal was read, 180° off")
	}
	off := (d - here).NormalizedSigned()
	if tens := off.Round(10 * angle.Degree); tens != 0 && tens.Abs() <= 50*angle.Degree && (off-tens).Abs() <= within.tens {
		add(swing.TensMisread, "the bearing was misread by %d°", int(tens.Abs()/angle.Degree))
	}
	v := c.Variation.Angle()
	if (2*v).Abs() > within.reading && agrees(d+2*v, here) {
		add(swing.VariationMisnamed, "the variation was named the wrong way, %v", angle.EastWestFrom(-v))
	}
	if c.Bearing != nil && c.Position == nil && v.Abs() > within.reading && agrees(d+v, here) {
		add(swing.MagneticForTrue, "the direction of the object is by magnetic and was taken as true")
	}
	if expected != nil && (2*here).Abs() > within.reading && agrees(-d, here) {
		add(swing.EastForWest, "the deviation was named the wrong way")
	}
	if c.Bearing != nil {
		b, h := *c.Bearing, c.Heading
		if there, ok := on(b); ok && agrees(d+b.Sub(h), there) && b.Sub(h).Abs() > within.reading {
			add(swing.ColumnsExchanged, "heading and bearing are exchanged")
		}
		if agrees(d-h.FromNorth(), here) && h.FromNorth().NormalizedSigned().Abs() > within.reading {
			add(swing.RelativeTaken, "the bearing was counted from the bow, not from north")
		}
	}
	return append(found, c.skySlips(d, here, within.sky)...)
}

// skySlips are those of the time and the place of a bearing of a body.
func (c Check) skySlips(d, expected, within angle.Angle) []namedSlip {
	if c.Position == nil || c.Bearing == nil || c.Time.IsZero() {
		return nil
	}
	located := locate(c.Against)
	given, up := located.up(c.Time, *c.Position)
	if !up {
		return nil
	}
	var found []namedSlip
	for _, cause := range causes(c.Position.Longitude) {
		if right, up := cause.bearing(located, c.Time, *c.Position); up && (d+right.Sub(given)-expected).NormalizedSigned().Abs() <= within {
			found = append(found, namedSlip{cause.slip, cause.text})
		}
	}
	// So that the deviation is as expected, the body should have borne by so much less.
	if slow, ok := watchError(located, c.Time, *c.Position, given.Add(expected-d)); ok && slow != 0 {
		found = append(found, namedSlip{swing.WatchOff, watchText(slow)})
	}
	return found
}

// kinds are the slips as words.
func kinds(slips []namedSlip) []swing.Slip {
	var list []swing.Slip
	for _, s := range slips {
		if !slices.Contains(list, s.slip) {
			list = append(list, s.slip)
		}
	}
	return list
}

// perhaps lists up to three slips in words, after a semicolon.
func perhaps(slips []namedSlip) string {
	if len(slips) == 0 {
		return ""
	}
	var texts []string
	for _, s := range slips[:min(3, len(slips))] {
		texts = append(texts, s.text)
	}
	return "; perhaps " + strings.Join(texts, ", or ")
}

// Without a card a deviation is expected to be small, and only a large one is explained.
var withoutCard = slipTolerance{reading: 20 * angle.Degree, tens: -1, sky: 10 * angle.Degree}

// unusualDeviation is from where on a check's deviation is warned of: few compasses
// that are looked after have as much.
const unusualDeviation = 30 * angle.Degree

// mostExplained is of how many checks of a log it is said what may have happened: more are
// another kind of trouble, and each takes some 30 µs.
const mostExplained = 100

// tooLarge warns of a deviation that no compass has, or that few have, and says what may
// have happened if that is asked for.
func (c Check) tooLarge(explain bool) []working.Warning {
	d := c.Deviation.Angle().Abs()
	slips := ""
	if explain && d > unusualDeviation {
		slips = perhaps(c.slips(nil, withoutCard))
	}
	switch {
	case d > deviation.MaxDeviation:
		if slips == "" {
			slips = "; perhaps the reciprocal was read, another object observed, or the variation misnamed"
		}
		return []working.Warning{say.Warn(NotADeviation, "%v cannot be a deviation%s", c.Deviation, slips)}
	case d > unusualDeviation:
		return []working.Warning{say.Warn(LargeDeviation, "a deviation of %v is unusually large%s", c.Deviation, slips)}
	}
	return nil
}
