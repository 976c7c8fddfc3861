package check

import (
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/swing"
)

// A namedSlip is a slip that may explain a check, with its sentence. The warning has no kind yet.
type namedSlip struct {
	slip    swing.Slip
	warning working.Warning
}

// slipTolerance is how closely a slip must bring a deviation to what is expected.
type slipTolerance struct {
	reading angle.Angle // for slips of the reading
	tens    angle.Angle // for a bearing misread by tens
	sky     angle.Angle // for slips of the time and place of a bearing of a body
}

// slips returns what may be wrong in a check whose deviation is not as expected on its heading, the
// likeliest first. The source gives the expected deviations; nil means none.
func (c Check) slips(expected deviation.Source, within slipTolerance) []namedSlip {
	var found []namedSlip
	add := func(slip swing.Slip, w working.Warning) { found = append(found, namedSlip{slip, w}) }
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
		add(swing.ReciprocalTaken, working.Warn("", "slip-reciprocal", "perhaps the reciprocal was read, 180° off"))
	}
	off := (d - here).NormalizedSigned()
	if tens := off.Round(10 * angle.Degree); tens != 0 && tens.Abs() <= 50*angle.Degree && (off-tens).Abs() <= within.tens {
		add(swing.TensMisread, working.Warn("", "slip-tens-misread", "perhaps the bearing was misread by %d°", int(tens.Abs()/angle.Degree)))
	}
	v := c.Variation.Angle()
	if (2*v).Abs() > within.reading && agrees(d+2*v, here) {
		add(swing.VariationMisnamed, working.Warn("", "slip-variation-misnamed", "perhaps the variation was named the wrong way and is %v", angle.EastWestFrom(-v)))
	}
	if change := c.VariationChange; change.Abs() > within.reading {
		size := angle.EastWestFrom(change.Round(angle.Minute))
		if agrees(d+change, here) {
			add(swing.AnnualChangeWrong, working.Warn("", "slip-without-annual-change", "perhaps the variation is without the annual change of %v: check the year of the rose", size))
		}
		if agrees(d+2*change, here) {
			add(swing.AnnualChangeWrong, working.Warn("", "slip-annual-change-misnamed", "perhaps the annual change, %v since the rose, was applied the wrong way: check its name", size))
		}
	}
	if c.Bearing != nil && c.Position == nil && v.Abs() > within.reading && agrees(d+v, here) {
		add(swing.MagneticForTrue, working.Warn("", "slip-magnetic-for-true", "perhaps the direction of the object is by magnetic and was taken as true"))
	}
	if expected != nil && (2*here).Abs() > within.reading && agrees(-d, here) {
		add(swing.EastForWest, working.Warn("", "slip-deviation-misnamed", "perhaps the deviation was named the wrong way"))
	}
	if c.Bearing != nil {
		b, h := *c.Bearing, c.Heading
		if there, ok := on(b); ok && agrees(d+b.Sub(h), there) && b.Sub(h).Abs() > within.reading {
			add(swing.ColumnsExchanged, working.Warn("", "slip-columns-exchanged", "perhaps heading and bearing are exchanged"))
		}
		if agrees(d-h.FromNorth(), here) && h.FromNorth().NormalizedSigned().Abs() > within.reading {
			add(swing.RelativeTaken, working.Warn("", "slip-relative-taken", "perhaps the bearing was counted from the bow, not from north"))
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
			found = append(found, cause.namedSlip)
		}
	}
	// So that the deviation is as expected, the body should have borne by so much less.
	if slow, ok := watchError(located, c.Time, *c.Position, given.Add(expected-d)); ok && slow != 0 {
		found = append(found, watchSlip(slow))
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

// named returns up to three slips as warnings of a kind.
func named(kind working.WarningKind, slips []namedSlip) []working.Warning {
	var list []working.Warning
	for _, s := range slips[:min(3, len(slips))] {
		w := s.warning
		w.Kind = kind
		list = append(list, w)
	}
	return list
}

// perhaps lists up to three slips for an error.
func perhaps(slips []namedSlip) string {
	var texts []string
	for _, w := range named("", slips) {
		texts = append(texts, w.Message)
	}
	return strings.Join(texts, "; ")
}

// Without a card a deviation is expected to be small, and only a large one is explained.
var withoutCard = slipTolerance{reading: 20 * angle.Degree, tens: -1, sky: 10 * angle.Degree}

// unusualDeviation is from where on a check's deviation is warned of: few compasses
// that are looked after have as much.
const unusualDeviation = 30 * angle.Degree

// mostExplained is the number of checks of a log for which slips are looked for. More of them have
// another cause, and each takes about 30 µs.
const mostExplained = 100

// tooLarge warns of a deviation that no compass has, or that few have. The slips that may explain
// it follow as warnings of the same kind, if explain is set.
func (c Check) tooLarge(explain bool) []working.Warning {
	d := c.Deviation.Angle().Abs()
	var slips []namedSlip
	if explain && d > unusualDeviation {
		slips = c.slips(nil, withoutCard)
	}
	switch {
	case d > deviation.MaxDeviation:
		list := []working.Warning{working.Warn(NotADeviation, "not-a-deviation", "%v cannot be a deviation", c.Deviation)}
		if len(slips) == 0 {
			return append(list, working.Warn(NotADeviation, "slip-unknown", "perhaps the reciprocal was read, another object observed, or the variation misnamed"))
		}
		return append(list, named(NotADeviation, slips)...)
	case d > unusualDeviation:
		return append([]working.Warning{working.Warn(LargeDeviation, "large-deviation", "a deviation of %v is unusually large", c.Deviation)}, named(LargeDeviation, slips)...)
	}
	return nil
}
