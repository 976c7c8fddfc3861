package danger

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// LowerTide is the kind of the warning that a lower tide takes the vessel to the unsafe side
// of a vertical danger angle.
const LowerTide working.WarningKind = "lower-tide"

// Working returns the rule in words, and how [VerticalAngle] or [HorizontalAngle] found the
// limit.
func (d Angle) Working() working.Sheet {
	s := working.Sheet{Title: "Danger angle", Caution: working.Caution}
	limit := working.Step{Key: "limit", What: "Limit", Value: fmt.Sprintf("%.1v", d.Limit), Number: d.Limit.Degrees(), Unit: "degrees"}
	switch {
	case d.vertical.distance > 0:
		s.Title = "Vertical danger angle"
		s.Steps = d.vertical.steps()
		limit = limit.Because("height-over-distance", "tangent = height / distance")
		if d.Bound == NotMoreThan {
			s.Steps[0] = s.Steps[0].Because("lower-tide-is-safe", "charted above high water: at a lower tide the vessel is farther off than the angle says, on the safe side")
		} else {
			s.Warnings = []working.Warning{working.Warn(LowerTide, "lower-tide", "heights are charted above high water: at a lower tide the vessel is farther off than the angle says, which inside is NOT on the safe side; allow for the tide")}
		}
	case d.horizontal.margin > 0:
		s.Title = "Horizontal danger angle"
		s.Steps = d.horizontal.steps(d.Limit)
		if d.Bound == NotMoreThan {
			limit = limit.Because("least-angle-about-danger", "the least angle that the marks subtend from the circle about the danger")
		} else {
			limit = limit.Because("greatest-angle-about-danger", "the greatest angle that the marks subtend from the circle about the danger")
		}
	}
	rule := working.Step{Key: "rule", What: "Safe while the angle is", Value: d.String(), Number: d.Round(angle.Minute / 10).Limit.Degrees(), Unit: "degrees"}
	s.Steps = append(s.Steps, limit, rule.Because("rounded-to-safe-side", "rounded to the safe side"))
	return s
}

// steps returns the height of the object and the distance to keep from it.
func (v vertical) steps() working.Steps {
	height := working.Step{Key: "height", What: "Height", Value: fmt.Sprintf("%.1f metres", v.height.Metres()), Number: v.height.Metres(), Unit: "metres"}
	return working.Steps{
		height.Because("height-of-object", "of the object"),
		miles("distance", "Distance", v.distance).Because("from-object", "from the object").Because("water-line-in-sight", "its water line must be seen"),
	}
}

// steps returns the danger and the marks, with the circle on which the limit is seen, to be
// drawn on the chart.
func (h horizontal) steps(limit angle.Angle) working.Steps {
	base := sailing.WGS84().Rhumb(h.left.Position, h.right.Position).Distance
	steps := working.Steps{
		{Key: "danger", What: "Danger", Value: h.danger.String()},
		miles("margin", "Margin", h.margin).Because("distance-from-danger", "distance to keep from the danger"),
		miles("base", "Base", base).Because("base-between-marks", "from %v to %v", h.left, h.right),
	}
	if sin := limit.Sin(); sin > 0 {
		steps = append(steps, miles("radius", "Radius", base/sailing.Distance(2*sin)).Because("circle-through-marks", "of the circle through both marks on which the limit is seen: base / (2 × sine of the limit)"))
	}
	return steps
}
