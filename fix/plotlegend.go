package fix

import (
	"fmt"
	"strings"

	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
)

// caption writes the name of a panel and its scale above it.
func (p *plot) caption(c *panel, name string, unit float64, symbol string) {
	p.Text(drawing.At(c.Left, c.Top-2.5), `font-size="3.2" font-weight="bold"`, name)
	length := unit / 1000
	for _, n := range []float64{0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000} {
		if n*unit/c.scale <= 36 {
			length = n * unit
		}
	}
	label := fmt.Sprintf("%g %s", length/unit, symbol)
	right := c.Right - drawing.A4Letters*drawing.TextWidth(label) - 1.5
	if name == "Overview" {
		right -= 12
	}
	left, y := right-length/c.scale, c.Top-3.2
	p.Line(drawing.At(left, y), drawing.At(right, y), `stroke="black" stroke-width="0.5"`)
	for i := range 3 {
		x := left + (right-left)*float64(i)/2
		p.Line(drawing.At(x, y-0.9), drawing.At(x, y+0.9), `stroke="black" stroke-width="0.3"`)
	}
	p.Text(drawing.At(right+1.5, y+0.9), "", label)
}

func (p *plot) northArrow(at drawing.Spot) {
	p.Polygon("north", `fill="black"`, []drawing.Spot{at.Moved(0, -4.5), at.Moved(1.4, 4), at.Moved(0, 2.7), at.Moved(-1.4, 4)})
	p.Text(at.Moved(0, -5.3), `text-anchor="middle" font-weight="bold"`, "N")
}

// legend tells what is drawn, beside the close-up.
func (p *plot) legend() {
	const left, from, right, last = 110.0, 123.0, drawing.A4Right, 258.0
	y := 175.5
	symbol := func(text string, draw func(s drawing.Spot)) {
		draw(drawing.At(left+5, y-0.9))
		p.Text(drawing.At(from, y), "", text)
		y += 4.2
	}
	switch {
	case p.fix.disagrees():
	case p.fix.estimated():
		symbol("estimated position", p.position)
	default:
		symbol("the fix", p.position)
	}
	symbol("charted mark", p.mark)
	if p.others {
		symbol("another place where the lines meet", func(s drawing.Spot) { p.circle(s, 1.3, "key", hollowStyle) })
	}
	if p.fix.solver.prior.used {
		what := "estimated position before the lines"
		if p.fix.estimated() {
			what = "reckoned position before the line"
		}
		symbol(what, p.reckoned)
	}
	if len(p.hull) > 2 {
		what := "cocked hat: where each two lines meet"
		if len(p.lines) > 3 {
			what = "figure of the lines (cocked hat)"
		}
		symbol(what, func(s drawing.Spot) {
			p.Polygon("key", `fill="#ddd" stroke="#777" stroke-width="0.5"`, []drawing.Spot{s.Moved(-3, 1.2), s.Moved(3, 1.2), s.Moved(1, -1.5)})
		})
	}
	if p.ellipse.SemiMajor > 0 {
		symbol("95 % ellipse", func(s drawing.Spot) {
			p.Put(`<ellipse class="key" cx="%.2f" cy="%.2f" rx="4" ry="1.4" fill="none" stroke="#666" stroke-width="0.6"/>`, s.X, s.Y)
		})
	}
	y += 1
	room := int((last - y) / 7.4)
	shown := len(p.lines)
	if shown > room || p.more > 0 {
		shown = min(shown, room-1)
	}
	names, m := namesOf(p.lines), p.fix.miles()
	for i := range shown {
		l := &p.lines[i]
		p.Line(drawing.At(left, y-0.9), drawing.At(left+11, y-0.9), lineStyle(i))
		title := fmt.Sprintf("%d  %s", i+1, strings.TrimPrefix(names.titled(i), "horizontal "))
		p.Text(drawing.At(from, y), "", drawing.Shortened(title, (right-from)/drawing.A4Letters))
		p.Text(drawing.At(from, y+3.4), `fill="#444"`, drawing.Shortened(l.legend(p.fix.residuals[i], m), (right-from)/drawing.A4Letters))
		y += 7.4
	}
	if rest := len(p.fix.lines) - shown; rest > 0 {
		text := fmt.Sprintf("and %d more", rest)
		if p.more > 0 {
			text += fmt.Sprintf(", of which %d are not drawn", p.more)
		}
		p.Text(drawing.At(from, y), "", text)
	}
}

// legend is what was observed of a line, how well, and how far from the fix it passes.
func (l *Line) legend(r Residual, m miles) string {
	text, _, _ := l.observed()
	text = strings.TrimSpace(text + " " + l.known(m))
	if l.moved {
		text += ", transferred"
	}
	return text + ", " + r.passes(m)
}

// foot says in words what the fix is worth.
func (p *plot) foot() {
	const width = (drawing.A4Right - drawing.A4Left) / drawing.A4Letters
	y := 263.5
	write := func(attributes, text string) {
		for _, line := range drawing.Wrapped(text, width) {
			if y > 285.5 { // the caution follows
				return
			}
			p.Text(drawing.At(drawing.A4Left, y), attributes, line)
			y += 3.6
		}
	}
	for _, w := range p.fix.doubts() {
		if w.Kind != UncertaintyUnknown { // said below
			write(`font-weight="bold"`, drawing.Shortened(capital(w.Message)+".", 0.95*width))
		}
	}
	switch {
	case p.fix.disagrees(): // there is no ellipse
	case p.fix.known:
		m := milesFor(p.ellipse.SemiMajor)
		write("", fmt.Sprintf("95 %% ellipse: %s each way along %s, %s across, if the lines are as good as %s.",
			m.of(p.ellipse.SemiMajor), bearingText(p.ellipse.MajorAxis), m.of(p.ellipse.SemiMinor), p.fix.asGoodAs()))
	default:
		write("", "The accuracy is unknown: "+p.fix.unknown(namesOf(p.fix.lines))+".")
	}
	if cut, ok := p.fix.BestCut(); ok && cut.Angle < narrow {
		write("", fmt.Sprintf("The lines cut at %.0f only: the fix is weak along them.", cut.Angle))
	}
	if pr := p.fix.Probability(); pr < suspicionLevel {
		text := fmt.Sprintf("THE LINES DO NOT AGREE: good ones would be so far apart in %s cases.", scarce(pr))
		if s := p.fix.Suspicions(); len(s) > 0 {
			text += fmt.Sprintf(" Without line %d the others agree%s.", s[0].Line+1, s[0].slip())
		}
		write(`font-weight="bold"`, text)
	} else if p.fix.degreesOfFreedom == 0 {
		write("", "No degree of freedom: a wrong line would not show.")
	}
	if e := p.fix.compassError; p.fix.solver.options.CompassError {
		write("", fmt.Sprintf("The compass bearings are drawn with the compass error found, %.1f, allowed for.", e))
	}
	if len(p.off) > 0 {
		write("", "Off the drawing: "+drawing.Shortened(strings.Join(p.off, ", "), 50)+".")
	}
	for i, line := range drawing.Wrapped(working.Caution, width) {
		p.Text(drawing.At(drawing.A4Left, 288+3.6*float64(i)), `font-weight="bold"`, line)
	}
}

// scarce is a small probability in words.
func scarce(p float64) string {
	if p < 1e-4 {
		return "fewer than 1 of 10,000"
	}
	return fmt.Sprintf("1 of %.0f", 1/p)
}
