package fix

import (
	"fmt"
	"math"
	"slices"
	"unicode"
	"unicode/utf8"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/fix/internal/earth"
)

// String returns the position and its 95 % ellipse: 46°58.0′N 019°17.8′W, 95 %: 0.64 M
// along 050°T, 0.43 M across. Where the lines do not agree, or their uncertainties are not
// stated, it says that instead.
func (f Fix) String() string {
	if f.disagrees() {
		return f.positionText() + ", the lines do not agree: do not use"
	}
	e, err := f.Ellipse(0.95)
	if err != nil {
		return f.positionText() + ", uncertainty unknown"
	}
	m := milesFor(e.SemiMajor)
	by := "95 %"
	if f.assumed() != 0 {
		by = "95 % by usual uncertainties"
	}
	return fmt.Sprintf("%s, %s: %s along %s, %s across", f.positionText(), by, m.of(e.SemiMajor), bearingText(e.MajorAxis), m.of(e.SemiMinor))
}

// estimated reports whether the lines alone give no position. With the prior they then give an
// estimated position, not a fix.
func (f Fix) estimated() bool {
	return f.solver.prior.used && f.degreesOfFreedom < 2
}

// Working returns what a second watchkeeper needs to check the fix. It has the charted
// positions of the marks, the observed values, and how far each line passes from the position.
// It also has the position, its 95 % ellipse, the cocked hat and the warnings. [Line.Working]
// shows how a line was converted.
func (f Fix) Working() working.Sheet {
	s := working.Sheet{Title: "Fix by " + counted(len(f.lines)), Caution: working.Caution}
	if f.estimated() {
		s.Title = "Estimated position by " + counted(len(f.lines)) + " and the reckoning"
	}
	m := f.miles()
	for i, mark := range f.marks() {
		what := mark.Name
		if what == "" {
			what = "mark"
		}
		s.Steps = append(s.Steps, working.Step{Key: fmt.Sprintf("mark %d", i+1), What: capital(what), Value: mark.Position.String()}.Because("charted-position", "charted position used"))
	}
	if p := f.solver.options.Prior; p != nil {
		s.Steps = append(s.Steps, priorStep(p))
	} else if p := f.solver.options.Near; p != nil {
		s.Steps = append(s.Steps, working.Step{Key: "near", What: "Reckoned position", Value: p.String()}.Because("reckoned-chooses", "only chooses between places where lines meet"))
	}
	names := namesOf(f.lines)
	for i := range f.lines {
		s.Steps = append(s.Steps, f.lineStep(i, names.titled(i), m))
	}
	position := working.Step{Key: "position", What: "Position", Value: f.positionText()}
	if f.estimated() {
		position.What = "Estimated position"
	}
	switch {
	case f.disagrees():
		position = position.Because("position-not-to-be-used", "do not use: the lines do not agree")
	case !f.estimated() && len(f.lines) == 2 && f.degreesOfFreedom == 0:
		position = position.Because("where-lines-cross", "where the lines cross")
	default:
		position = position.Because("most-probable-position", "the most probable")
	}
	s.Steps = append(append(s.Steps, position), f.trust(names, m)...)
	s.Warnings = append(s.Warnings, f.Warnings()...)
	return s
}

// marks returns the marks of the lines, each once.
func (f Fix) marks() []Mark {
	var out []Mark
	for i := range f.lines {
		for _, m := range f.lines[i].marks {
			if !slices.Contains(out, m) {
				out = append(out, m)
			}
		}
	}
	return out
}

// lineStep returns the observed value of a line and its residual.
func (f Fix) lineStep(i int, title string, m miles) working.Step {
	l, r := &f.lines[i], f.residuals[i]
	s := working.Step{Key: fmt.Sprintf("line %d", i+1), What: capital(title)}
	s.Value, s.Number, s.Unit = l.observed()
	if clock := l.clock(); clock != "" {
		s = s.Because("observed-at", "at %s", clock)
	}
	if known := l.known(m); known != "" {
		s = s.Because("line-uncertainty", "%s", known)
	}
	if l.assumed&lacksReading != 0 {
		s = s.Because("reading-assumed", "uncertainty of the reading assumed")
	}
	if l.assumed&lacksVariation != 0 {
		s = s.Because("variation-assumed", "uncertainty of the variation assumed")
	}
	if l.assumed&lacksDeviation != 0 {
		s = s.Because("deviation-assumed", "uncertainty of the deviation assumed")
	}
	if l.kind == KindTransit {
		s = s.Because("front-to-rear", "from the front mark to the rear one")
	}
	if distance, course, ok := l.run(); ok {
		s = s.Because("line-transferred", "transferred %s along %.1f", distance, course)
	}
	at := earth.FrameAt(f.state.up)
	s = l.withSlope(s, &at)
	if off, toward := r.passes(m); off != "" {
		s = s.Because("line-passes", "passes %s off toward %s", off, toward)
	} else {
		s = s.Because("line-passes-through", "passes through the position")
	}
	if f.known {
		s = s.Because("residual-ratio", "%.1f standard uncertainties", math.Abs(r.Ratio))
	}
	return s
}

// priorStep returns the step of an estimate that takes part in the solution.
func priorStep(p *stream.Estimate) working.Step {
	c := p.Covariance
	north, east := sailing.Distance(math.Sqrt(c.North)), sailing.Distance(math.Sqrt(c.East))
	m := milesFor(max(north, east))
	s := working.Step{Key: "prior", What: "Reckoned position", Value: p.Position.String()}.Because("reckoned-takes-part", "takes part")
	s = s.Because("reckoned-uncertainty", "standard uncertainty ±%s north, ±%s east", m.of(north), m.of(east))
	if r := c.Both / math.Sqrt(c.North*c.East); math.Abs(r) >= 0.005 {
		s = s.Because("reckoned-correlation", "correlation %+.2f", r)
	}
	return s
}

// capital returns a title with a capital first letter.
func capital(title string) string {
	first, size := utf8.DecodeRuneInString(title)
	if size == 0 || first == utf8.RuneError {
		return title
	}
	return string(unicode.ToUpper(first)) + title[size:]
}

// trust returns the steps that show how far to trust the position.
func (f Fix) trust(names names, m miles) working.Steps {
	var steps working.Steps
	if step, ok := f.fromReckoned(); ok {
		steps = append(steps, step)
	}
	steps = append(steps, f.ellipseStep(names, m))
	if step, ok := f.hatStep(); ok {
		steps = append(steps, step)
	}
	if a, b, cut := f.BestCut(); a != b {
		step := working.Step{Key: "cut", What: "Best cut", Value: wholeDegrees(cut), Number: cut.Degrees(), Unit: "degrees"}
		steps = append(steps, names.ofCut(step, a, b))
	}
	if f.solver.options.CompassError {
		step := working.EastWest("compass error", "Compass error", f.compassError.Angle())
		step = step.Because("compass-error-solved", "solved for, in addition to the variation and deviation applied")
		if f.known {
			step = step.Because("compass-error-uncertainty", "%v", f.compassError.Uncertainty())
		}
		steps = append(steps, step)
	}
	if f.known {
		steps = append(steps, f.chiSquareStep())
	}
	return steps
}

// wholeDegrees returns an angle to the whole degree.
func wholeDegrees(a angle.Angle) string { return fmt.Sprintf("%.0f", a) }

// ellipseStep returns the 95 % ellipse, or why the accuracy is unknown.
func (f Fix) ellipseStep(names names, m miles) working.Step {
	s := working.Step{Key: "ellipse", What: "95 % ellipse", Value: "unknown"}
	e, err := f.Ellipse(0.95)
	switch {
	case f.disagrees():
		return s.Because("accuracy-of-lines-that-disagree", "the lines do not agree, so accuracy cannot be stated")
	case err != nil:
		return f.withUnknown(s, names)
	}
	s.Value, s.Number, s.Unit = m.of(e.SemiMajor), e.SemiMajor.NauticalMiles(), "nautical miles"
	if f.assumed() != 0 {
		return s.Because("ellipse-if-lines-as-usual", "each way along %s, %s across, if the lines are as good as usual ones", bearingText(e.MajorAxis), m.of(e.SemiMinor))
	}
	return s.Because("ellipse-if-lines-as-stated", "each way along %s, %s across, if the lines are as good as stated", bearingText(e.MajorAxis), m.of(e.SemiMinor))
}

// chiSquareStep returns the chi-square of the lines, and how often sound lines reach it.
func (f Fix) chiSquareStep() working.Step {
	s := working.Step{Key: "chi-square", What: "Chi-square", Value: fmt.Sprintf("%.1f", f.chiSquare), Number: f.chiSquare}
	switch f.degreesOfFreedom {
	case 0:
		return s.Because("no-degree-of-freedom", "no degree of freedom: a wrong line would not show")
	case 1:
		s = s.Because("one-degree-of-freedom", "1 degree of freedom")
	default:
		s = s.Because("degrees-of-freedom", "%d degrees of freedom", f.degreesOfFreedom)
	}
	p := f.Probability()
	switch of100 := math.Round(100 * p); {
	case p < 1e-4:
		return s.Because("chance-rare", "sound lines reach it in fewer than 1 of 10,000 cases")
	case p < 0.01:
		return s.Because("chance-small", "sound lines reach it in 1 of %.0f cases", 1/p)
	case of100 == 1:
		return s.Because("chance-one-in-hundred", "sound lines reach it in 1 case of 100")
	default:
		return s.Because("chance-in-hundred", "sound lines reach it in %.0f cases of 100", of100)
	}
}
