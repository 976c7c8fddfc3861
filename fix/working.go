package fix

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
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

// Working returns what a second watchkeeper needs to check the fix: the charted positions of
// the marks, the observed values, how far each line passes from the position, the position,
// its 95 % ellipse and the cocked hat, and the warnings. [Line.Working] shows how a line was
// converted.
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
		s.Steps = append(s.Steps, working.Step{Key: fmt.Sprintf("mark %d", i+1), What: capital(what), Value: mark.Position.String(), How: "charted position used"})
	}
	if p := f.solver.options.Prior; p != nil {
		s.Steps = append(s.Steps, working.Step{Key: "prior", What: "Reckoned position", Value: p.Position.String(), How: "takes part; standard uncertainty " + p.Covariance.String()})
	} else if p := f.solver.options.Near; p != nil {
		s.Steps = append(s.Steps, working.Step{Key: "near", What: "Reckoned position", Value: p.String(), How: "only chooses between places where lines meet"})
	}
	names := namesOf(f.lines)
	for i := range f.lines {
		s.Steps = append(s.Steps, f.lineStep(i, names.titled(i), m))
	}
	what, how := "Position", "the most probable"
	switch {
	case f.disagrees():
		how = "do not use: the lines do not agree"
	case f.estimated():
		what = "Estimated position"
	case len(f.lines) == 2 && f.degreesOfFreedom == 0:
		how = "where the lines cross"
	}
	s.Steps = append(s.Steps, working.Step{Key: "position", What: what, Value: f.positionText(), How: how})
	s.Steps = append(s.Steps, f.trust(names, m)...)
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
	var how []string
	add := func(text string) {
		if text != "" {
			how = append(how, text)
		}
	}
	add(l.clock())
	add(l.known(m))
	if l.kind == KindTransit {
		add("from the front mark to the rear one")
	}
	if l.moved {
		add(l.run())
	}
	at := earth.FrameAt(f.state.up)
	add(l.slope(&at))
	add("passes " + r.passes(m))
	if f.known {
		add(fmt.Sprintf("%.1f standard uncertainties", math.Abs(r.Ratio)))
	}
	s.How = strings.Join(how, ", ")
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
	region := working.Step{Key: "ellipse", What: "95 % ellipse", Value: "unknown", How: f.unknown(names)}
	if f.disagrees() {
		region.How = "the lines do not agree, so accuracy cannot be stated"
	} else if e, err := f.Ellipse(0.95); err == nil {
		region.Value, region.Number, region.Unit = m.of(e.SemiMajor), e.SemiMajor.NauticalMiles(), "nautical miles"
		region.How = fmt.Sprintf("each way along %s, %s across, if the lines are as good as %s", bearingText(e.MajorAxis), m.of(e.SemiMinor), f.asGoodAs())
	}
	steps = append(steps, region)
	if step, ok := f.hatStep(); ok {
		steps = append(steps, step)
	}
	if a, b, cut := f.BestCut(); a != b {
		steps = append(steps, working.Step{
			Key: "cut", What: "Best cut", Value: wholeDegrees(cut), Number: cut.Degrees(), Unit: "degrees",
			How: fmt.Sprintf("of %s and %s", names.of(a), names.of(b)),
		})
	}
	if f.solver.options.CompassError {
		how := "solved for, in addition to the variation and deviation applied"
		if u := f.compassError.Uncertainty(); f.known {
			how += ", " + u.String()
		}
		steps = append(steps, working.EastWest("compass error", "Compass error", f.compassError.Angle(), how))
	}
	if f.known {
		c := working.Step{Key: "chi-square", What: "Chi-square", Value: fmt.Sprintf("%.1f", f.chiSquare), Number: f.chiSquare, How: "no degree of freedom: a wrong line would not show"}
		if f.degreesOfFreedom > 0 {
			c.How = fmt.Sprintf("%s of freedom; sound lines reach it in %s", degrees(f.degreesOfFreedom), inHundred(f.Probability()))
		}
		steps = append(steps, c)
	}
	return steps
}

// wholeDegrees returns an angle to the whole degree.
func wholeDegrees(a angle.Angle) string { return fmt.Sprintf("%.0f", a) }

// degrees returns a number of degrees of freedom in words.
func degrees(n int) string {
	if n == 1 {
		return "1 degree"
	}
	return fmt.Sprintf("%d degrees", n)
}

// inHundred returns a probability in words.
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

// scarce returns a small probability in words.
func scarce(p float64) string {
	if p < 1e-4 {
		return "fewer than 1 of 10,000"
	}
	return fmt.Sprintf("1 of %.0f", 1/p)
}
