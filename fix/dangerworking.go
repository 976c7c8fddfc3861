package fix

import (
	"fmt"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// Working returns how the limit was found, if [VerticalDangerAngle] or
// [HorizontalDangerAngle] found it, and the rule in words.
func (d DangerAngle) Working() working.Sheet {
	s := working.Sheet{Title: "Danger angle", Caution: working.Caution}
	limit := working.Step{Key: "limit", What: "Limit", Value: fmt.Sprintf("%.1v", d.Limit), Number: d.Limit.Degrees(), Unit: "degrees"}
	switch {
	case d.Vertical.Distance > 0:
		s.Title = "Vertical danger angle"
		s.Steps = d.Vertical.steps()
		limit.How = "tangent = height / distance"
		if d.Bound == NotMore {
			s.Steps[0].How += ", charted above high water: at a lower tide the vessel is farther off than the angle says, on the safe side"
		} else {
			s.Warnings = []working.Warning{{Kind: LowerTide, Message: "heights are charted above high water: at a lower tide the vessel is farther off than the angle says, which inside is NOT on the safe side; allow for the tide"}}
		}
	case d.Horizontal.Margin > 0:
		s.Title = "Horizontal danger angle"
		s.Steps = d.Horizontal.steps(d.Limit)
		which := "greatest"
		if d.Bound == NotMore {
			which = "least"
		}
		limit.How = "the " + which + " that the marks subtend from round the danger at the margin"
	}
	s.Steps = append(s.Steps, limit, working.Step{Key: "rule", What: "Safe while the angle is", Value: d.String(), Number: d.Round(angle.Minute / 10).Limit.Degrees(), Unit: "degrees", How: "rounded to the safe side"})
	return s
}

func (v VerticalDanger) steps() working.Steps {
	return working.Steps{
		{Key: "height", What: "Height", Value: fmt.Sprintf("%.1f metres", v.Height.Metres()), Number: v.Height.Metres(), Unit: "metres", How: "of the object"},
		{Key: "distance", What: "Distance", Value: fmt.Sprintf("%.2f M", v.Distance.NauticalMiles()), Number: v.Distance.NauticalMiles(), Unit: "nautical miles", How: "from the object; its water line must be seen"},
	}
}

// steps are the marks and the danger, with the circle on which the limit is seen, to be
// drawn on the chart.
func (h HorizontalDanger) steps(limit angle.Angle) working.Steps {
	miles := func(key, what string, d sailing.Distance, how string) working.Step {
		return working.Step{Key: key, What: what, Value: fmt.Sprintf("%.2f M", d.NauticalMiles()), Number: d.NauticalMiles(), Unit: "nautical miles", How: how}
	}
	base := sailing.WGS84().Rhumb(h.Left.Position, h.Right.Position).Distance
	steps := working.Steps{
		{Key: "danger", What: "Danger", Value: h.Danger.String()},
		miles("margin", "Margin", h.Margin, "to keep from it"),
		miles("base", "Base", base, fmt.Sprintf("from %v to %v", h.Left, h.Right)),
	}
	if sin := limit.Sin(); sin > 0 {
		steps = append(steps, miles("radius", "Radius", base/sailing.Distance(2*sin), "of the circle through both marks on which the limit is seen: base / (2 × sine of the limit)"))
	}
	return steps
}
