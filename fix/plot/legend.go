package plot

import (
	"fmt"
	"strings"

	"lubberline.example/angle/drawing"
	"lubberline.example/fix"
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
	right := c.Right - drawing.Letters*drawing.TextWidth(label) - 1.5
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

// northArrow draws an arrow to the north.
func (p *plot) northArrow(at drawing.Spot) {
	p.Polygon("north", `fill="black"`, []drawing.Spot{at.Moved(0, -4.5), at.Moved(1.4, 4), at.Moved(0, 2.7), at.Moved(-1.4, 4)})
	p.Text(at.Moved(0, -5.3), `text-anchor="middle" font-weight="bold"`, "N")
}

// legend explains what is drawn, beside the close-up.
func (p *plot) legend() {
	const left, from, right, last = 96.0, 109.0, bodyRight, 228.0
	y := 147.5
	symbol := func(text string, draw func(s drawing.Spot)) {
		draw(drawing.At(left+5, y-0.9))
		p.Text(drawing.At(from, y), "", text)
		y += 4.2
	}
	switch {
	case p.disagree:
	case p.estimated:
		symbol("estimated position", p.position)
	default:
		symbol("the fix", p.position)
	}
	symbol("charted mark", p.mark)
	if p.elsewhere {
		symbol("another place where the lines meet", func(s drawing.Spot) { p.circle(s, 1.3, "key", hollowStyle) })
	}
	if p.options.Prior != nil {
		what := "estimated position before the lines"
		if p.estimated {
			what = "reckoned position before the line"
		}
		symbol(what, p.reckoned)
	}
	if len(p.hull) > 2 {
		symbol("cocked hat", func(s drawing.Spot) {
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
	if shown > room || len(p.all) > len(p.lines) {
		shown = min(shown, room-1)
	}
	for i := range shown {
		p.Line(drawing.At(left, y-0.9), drawing.At(left+11, y-0.9), lineStyle(i))
		const width = (right - from) / drawing.Letters
		text := fmt.Sprintf("%d  %s, %s", i+1, strings.TrimPrefix(p.lines[i].String(), "horizontal "), p.residuals[i])
		rows := drawing.Wrapped(text, width)
		p.Text(drawing.At(from, y), "", drawing.Shortened(rows[0], width))
		if len(rows) > 1 {
			p.Text(drawing.At(from, y+3.4), `fill="#444"`, drawing.Shortened(strings.Join(rows[1:], " "), width))
		}
		y += 7.4
	}
	if rest := len(p.all) - shown; rest > 0 {
		text := fmt.Sprintf("and %d more", rest)
		if hidden := len(p.all) - len(p.lines); hidden > 0 {
			text += fmt.Sprintf(", of which %d are not drawn", hidden)
		}
		p.Text(drawing.At(from, y), "", text)
	}
}

// foot says in words how far to trust the fix.
func (p *plot) foot() {
	const width = (bodyRight - bodyLeft) / drawing.Letters
	y := 232.6
	write := func(attributes, text string) {
		for _, line := range drawing.Wrapped(text, width) {
			if y > 254.5 { // the caution follows
				return
			}
			p.Text(drawing.At(bodyLeft, y), attributes, line)
			y += 3.6
		}
	}
	const bold = `font-weight="bold"`
	suspected := false
	for _, w := range p.sheet.Warnings {
		message := strings.ToUpper(w.Message[:1]) + w.Message[1:] + "."
		switch w.Kind {
		case fix.LinesDisagree:
			write(bold, strings.ToUpper(message))
		case fix.LineSuspected:
			if !suspected { // the likeliest comes first
				write(bold, message)
			}
			suspected = true
		case fix.UncertaintyUnknown, fix.MeetsElsewhere: // written below, and drawn
		default:
			write(bold, drawing.Shortened(message, 0.95*width))
		}
	}
	if ellipse, ok := p.sheet.Steps.Find("ellipse"); ok && !p.disagree {
		if ellipse.Unit != "" {
			write("", fmt.Sprintf("95 %% ellipse: %s %s.", ellipse.Value, ellipse.How))
		} else {
			write("", "The accuracy is unknown: "+ellipse.How+".")
		}
	}
	if _, known := p.fix.Covariance(); known && p.fix.DegreesOfFreedom() == 0 {
		write("", "No degree of freedom: a wrong line would not show.")
	}
	if p.options.CompassError {
		write("", fmt.Sprintf("The compass bearings are drawn with the compass error applied: %.1f.", p.fix.CompassError()))
	}
	if len(p.off) > 0 {
		write("", "Off the drawing: "+drawing.Shortened(strings.Join(p.off, ", "), 50)+".")
	}
}
