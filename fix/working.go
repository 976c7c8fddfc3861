package fix

import (
	"fmt"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
)

// String returns the position and the ellipse that holds it in 95 cases of 100, or that
// the lines do not agree or their uncertainties are not stated: 46°58.0′N 019°17.8′W,
// 95 %: 0.64 M along 050°T, 0.43 M across.
func (f Fix) String() string {
	if f.disagrees() {
		return f.position.String() + ", the lines do not agree: do not use"
	}
	e, err := f.Ellipse(0.95)
	if err != nil {
		return f.position.String() + ", uncertainty not stated"
	}
	major, minor := axes(e)
	return fmt.Sprintf("%v, 95 %%: %s along %s, %s across", f.position, major, e.MajorAxis.AppendDegrees(nil, 0), minor)
}

// Working returns the lines, what was observed, how well, and how far each passes from
// the fix; the position, its ellipse and what the lines say of each other. What makes
// the fix weak or wrong, and the lines that may be so, are warnings. How each line was
// converted its own [Line.Working] tells.
func (f Fix) Working() working.Sheet {
	s := working.Sheet{Title: "Fix by " + counted(len(f.lines)), Caution: working.Caution}
	if p := f.solver.options.Prior; p != nil {
		s.Steps = append(s.Steps, working.Step{Key: "prior", What: "Estimated position", Value: p.Position.String(), How: "takes part by how well it is known"})
	}
	names := namesOf(f.lines)
	for i := range f.lines {
		s.Steps = append(s.Steps, f.lineStep(i, names.titled(i)))
	}
	how := "the most probable"
	if f.disagrees() {
		how = "do not use: the lines do not agree"
	}
	s.Steps = append(s.Steps, working.Step{Key: "position", What: "Position", Value: f.position.String(), How: how})
	s.Steps = append(s.Steps, f.trust(names)...)
	s.Warnings = append(s.Warnings, f.Warnings()...)
	return s
}

// lineStep is what was observed of a line and what is left of it.
func (f Fix) lineStep(i int, title string) working.Step {
	l, r := &f.lines[i], f.residuals[i]
	s := working.Step{Key: fmt.Sprintf("line %d", i+1), What: capital(title)}
	s.Value, s.Number, s.Unit = l.observed()
	if k := l.known(); k != "" {
		s.How = k + ", "
	}
	if l.moved {
		s.How += "transferred, "
	}
	s.How += "passes " + r.passes()
	if f.known {
		s.How += fmt.Sprintf(", %.1f standard uncertainties", math.Abs(r.Ratio))
	}
	return s
}

// capital begins a title with a capital letter.
func capital(title string) string {
	first, size := utf8.DecodeRuneInString(title)
	if size == 0 || first == utf8.RuneError {
		return title
	}
	return string(unicode.ToUpper(first)) + title[size:]
}

// trust is how far to trust the position.
func (f Fix) trust(names names) working.Steps {
	var steps working.Steps
	region := working.Step{Key: "ellipse", What: "Known to", Value: "not stated", How: "nor is the uncertainty of the lines"}
	if f.disagrees() {
		region.Value, region.How = "not to be told", "since the lines do not agree"
	} else if e, err := f.Ellipse(0.95); err == nil {
		major, minor := axes(e)
		region.Value, region.Number, region.Unit = major, e.SemiMajor.Metres(), "metres"
		region.How = fmt.Sprintf("each way along %s and %s across it: 95 times in 100 she is within that ellipse, if the lines are as good as stated", e.MajorAxis.AppendDegrees(nil, 0), minor)
	}
	steps = append(steps, region)
	if cut, ok := f.BestCut(); ok {
		steps = append(steps, working.Step{
			Key: "cut", What: "Best cut", Value: string(cut.Angle.AppendDegrees(nil, 0)), Number: cut.Angle.Degrees(), Unit: "degrees",
			How: fmt.Sprintf("of %s and %s", names.of(cut.A), names.of(cut.B)),
		})
	}
	if f.solver.options.CompassError {
		how := "beyond what was allowed for, solved for"
		if u := f.compassError.Uncertainty(); f.known {
			how += ", " + u.String()
		}
		steps = append(steps, working.EastWest("compass error", "Compass error", f.compassError.Angle(), how))
	}
	if f.known {
		c := working.Step{Key: "chi-square", What: "Chi-square", Value: fmt.Sprintf("%.1f", f.chiSquare), Number: f.chiSquare, How: "no line is to spare: a wrong one would not show"}
		if f.degreesOfFreedom > 0 {
			c.How = fmt.Sprintf("with %d to spare: chance alone reaches that in %s", f.degreesOfFreedom, inHundred(f.Probability()))
		}
		steps = append(steps, c)
	}
	return steps
}

// axes are those of an ellipse, in one unit.
func axes(e sailing.Ellipse) (major, minor string) {
	major, minor = metres(e.SemiMajor), metres(e.SemiMinor)
	if strings.HasSuffix(major, "M") {
		minor = e.SemiMinor.String()
	}
	return major, minor
}

// inHundred is a probability in words.
func inHundred(p float64) string {
	if p < 0.01 {
		return scarce(p) + " cases"
	}
	of100 := math.Round(100 * p)
	if of100 == 1 {
		return "1 case of 100"
	}
	return fmt.Sprintf("%.0f cases of 100", of100)
}
