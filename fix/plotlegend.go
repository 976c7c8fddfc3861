package fix

import (
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// caption writes the name of a panel and its scale above it.
func (p *plot) caption(c *panel, name string, unit float64, symbol string) {
	p.text(c.left, c.top-2.5, `font-size="3.2" font-weight="bold"`, name)
	length := unit / 1000
	for _, n := range []float64{0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000} {
		if n*unit/c.scale <= 36 {
			length = n * unit
		}
	}
	label := fmt.Sprintf("%g %s", length/unit, symbol)
	right := c.right - svgSmall*textWidth(label) - 1.5
	if name == "Overview" {
		right -= 12
	}
	left, y := right-length/c.scale, c.top-3.2
	p.line(left, y, right, y, `stroke="black" stroke-width="0.5"`)
	for i := range 3 {
		x := left + (right-left)*float64(i)/2
		p.line(x, y-0.9, x, y+0.9, `stroke="black" stroke-width="0.3"`)
	}
	p.text(right+1.5, y+0.9, "", label)
}

func (p *plot) northArrow(at spot) {
	p.path("polygon", "north", `fill="black"`, []spot{{at.x, at.y - 4.5}, {at.x + 1.4, at.y + 4}, {at.x, at.y + 2.7}, {at.x - 1.4, at.y + 4}})
	p.text(at.x, at.y-5.3, `text-anchor="middle" font-weight="bold"`, "N")
}

// graticule draws the ticks of latitude and longitude on the frame, with figures at
// the left and below.
func (p *plot) graticule(c *panel) {
	const parts = 60
	position := func(s spot) angle.Position {
		g := c.ground(s)
		return position(p.at.moved(g.north, g.east))
	}
	edge := func(a, b spot, of func(spot) float64, tick func(at spot, minutes float64, decimals int)) {
		values, places := make([]float64, parts+1), make([]spot, parts+1)
		span := 0.0
		for i := range values {
			t := float64(i) / parts
			places[i] = spot{a.x + (b.x-a.x)*t, a.y + (b.y-a.y)*t}
			values[i] = of(places[i])
			if i > 0 {
				values[i] = values[i-1] + math.Remainder(values[i]-values[i-1], 360*60)
				span += math.Abs(values[i] - values[i-1])
			}
		}
		step, decimals := 1800.0, 0
		for _, n := range []float64{0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300, 600} {
			if span/n <= 7 {
				step = n
				break
			}
		}
		for n := step; n < 0.9999 && decimals < 3; n *= 10 {
			decimals++
		}
		for i := range parts {
			u, v := values[i], values[i+1]
			for k := math.Floor(min(u, v)/step) + 1; k*step <= max(u, v); k++ {
				t := (k*step - u) / (v - u)
				tick(spot{places[i].x + (places[i+1].x-places[i].x)*t, places[i].y + (places[i+1].y-places[i].y)*t}, k*step, decimals)
			}
		}
	}
	latitude := func(s spot) float64 { return position(s).Latitude.Angle().Minutes() }
	longitude := func(s spot) float64 { return position(s).Longitude.Angle().Minutes() }
	const style = `stroke="black" stroke-width="0.3"`
	free := math.Inf(1)
	figure := func(y float64) bool {
		if math.Abs(free-y) < 4 {
			return false
		}
		free = y
		return true
	}
	edge(spot{c.left, c.bottom}, spot{c.left, c.top}, latitude, func(at spot, m float64, decimals int) {
		p.line(at.x, at.y, at.x+1.8, at.y, style)
		if l, err := angle.LatitudeFrom(minutes(m)); err == nil && figure(at.y) {
			p.text(at.x-1, at.y+0.9, `text-anchor="end"`, string(l.AppendMinutes(nil, decimals)))
		}
	})
	edge(spot{c.right, c.bottom}, spot{c.right, c.top}, latitude, func(at spot, _ float64, _ int) { p.line(at.x, at.y, at.x-1.8, at.y, style) })
	free = c.left - 100
	figure = func(x float64) bool {
		if x-free < 21 {
			return false
		}
		free = x
		return true
	}
	edge(spot{c.left, c.bottom}, spot{c.right, c.bottom}, longitude, func(at spot, m float64, decimals int) {
		p.line(at.x, at.y, at.x, at.y-1.8, style)
		if figure(at.x) {
			p.text(at.x, at.y+3.4, `text-anchor="middle"`, string(angle.LongitudeFrom(minutes(math.Remainder(m, 360*60))).AppendMinutes(nil, decimals)))
		}
	})
	edge(spot{c.left, c.top}, spot{c.right, c.top}, longitude, func(at spot, _ float64, _ int) { p.line(at.x, at.y, at.x, at.y+1.8, style) })
}

// minutes is the angle of some minutes of arc known to fit.
func minutes(m float64) angle.Angle {
	a, err := angle.Minutes(m)
	if err != nil {
		return 0
	}
	return a.Round(angle.Second / 1000)
}

// legend tells what is drawn, beside the close-up.
func (p *plot) legend() {
	const left, from, right, last = 110.0, 123.0, svgRight, 258.0
	y := 175.5
	symbol := func(text string, draw func(s spot)) {
		draw(spot{left + 5, y - 0.9})
		p.text(from, y, "", text)
		y += 4.2
	}
	dot := "the fix"
	if p.fix.disagrees() {
		dot = "the most probable place: do not use it"
	}
	symbol(dot, p.dot)
	symbol("charted mark", p.mark)
	if p.others {
		symbol("another place where the lines meet", func(s spot) { p.circle(s, 1.3, "key", hollowStyle) })
	}
	if p.fix.solver.prior.used {
		symbol("estimated position", p.triangle)
	}
	if len(p.hull) > 2 {
		what := "cocked hat: where each two lines meet"
		if len(p.lines) > 3 {
			what = "figure of the lines (cocked hat)"
		}
		symbol(what, func(s spot) {
			p.path("polygon", "key", `fill="#ddd" stroke="#777" stroke-width="0.5"`, []spot{{s.x - 3, s.y + 1.2}, {s.x + 3, s.y + 1.2}, {s.x + 1, s.y - 1.5}})
		})
	}
	if p.ellipse.SemiMajor > 0 {
		symbol("ellipse of 95 in 100", func(s spot) {
			p.put(`<ellipse class="key" cx="%.2f" cy="%.2f" rx="4" ry="1.4" fill="none" stroke="#666" stroke-width="0.6"/>`, s.x, s.y)
		})
	}
	y += 1
	room := int((last - y) / 7.4)
	shown := len(p.lines)
	if shown > room || p.more > 0 {
		shown = min(shown, room-1)
	}
	names := namesOf(p.lines)
	for i := range shown {
		l := &p.lines[i]
		p.line(left, y-0.9, left+11, y-0.9, lineStyle(i))
		title := fmt.Sprintf("%d  %s", i+1, strings.TrimPrefix(names.titled(i), "horizontal "))
		p.text(from, y, "", shortened(title, (right-from)/svgSmall))
		p.text(from, y+3.4, `fill="#444"`, shortened(l.legend(p.fix.Residuals[i]), (right-from)/svgSmall))
		y += 7.4
	}
	if rest := len(p.fix.Lines) - shown; rest > 0 {
		text := fmt.Sprintf("and %d more", rest)
		if p.more > 0 {
			text += fmt.Sprintf(", of which %d are not drawn", p.more)
		}
		p.text(from, y, "", text)
	}
}

// legend is what was observed of a line, how well, and how far from the fix it passes.
func (l *Line) legend(r Residual) string {
	text, _, _ := l.observed()
	text = strings.TrimSpace(text + " " + l.known())
	if l.moved {
		text += ", transferred"
	}
	return text + ", " + r.passes()
}

// foot says in words what the fix is worth.
func (p *plot) foot() {
	y := 263.5
	write := func(attributes, text string) {
		for _, line := range wrapped(text, (svgRight-svgLeft)/svgSmall) {
			p.text(svgLeft, y, attributes, line)
			y += 3.6
		}
	}
	switch {
	case p.fix.disagrees(): // there is no ellipse
	case p.fix.known:
		major, minor := axes(p.ellipse)
		write("", fmt.Sprintf("The ellipse reaches %s either way along %s, and %s across. 95 in 100 lie in the ellipse if the lines are as good as stated.",
			major, p.ellipse.MajorAxis.AppendDegrees(nil, 0), minor))
	default:
		write("", "The uncertainties of the lines are not stated: how good the fix is can't be told.")
	}
	if cut, ok := p.fix.BestCut(); ok && cut.Angle < narrow {
		write("", fmt.Sprintf("The lines cut at %s only: the fix is weak along them.", cut.Angle.AppendDegrees(nil, 0)))
	}
	if pr := p.fix.Probability(); pr < suspicionLevel {
		text := fmt.Sprintf("THE LINES DO NOT AGREE: good ones would be so far apart in %s cases.", scarce(pr))
		if s := p.fix.Suspicions(); len(s) > 0 {
			text += fmt.Sprintf(" Without line %d the others agree%s.", s[0].Line+1, s[0].slip())
		}
		write(`font-weight="bold"`, text)
	} else if p.fix.DegreesOfFreedom == 0 {
		write("", "No line is to spare: a wrong one would not show.")
	}
	if e := p.fix.CompassError; p.fix.solver.options.CompassError {
		write("", fmt.Sprintf("The compass bearings are drawn with the compass error found, %s, allowed for.", e.Angle().AppendEastWestDegrees(nil, 1)))
	}
	if len(p.off) > 0 {
		write("", "Off the drawing: "+shortened(strings.Join(p.off, ", "), 50)+".")
	}
	y = 288
	write(`font-weight="bold"`, working.Caution)
}

// scarce is a small probability in words.
func scarce(p float64) string {
	if p < 1e-4 {
		return "fewer than 1 of 10,000"
	}
	return fmt.Sprintf("1 of %.0f", 1/p)
}
