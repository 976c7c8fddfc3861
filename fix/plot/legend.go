package plot

import (
	"fmt"
	"strings"

	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/fix"
)

// legendRow is the height of a row of the legend, mm: enough for scripts that stand higher than
// Latin.
const legendRow = 3.6

// legendText returns the size of the letters of the legend, the height of a row, and the most rows of
// a line. A narrow drawing has letters that can be read on a small screen.
func (p *plot) legendText() (size, row float64, most int) {
	if p.narrow {
		return 2.6, 3.9, 4
	}
	return 2.4, legendRow, 3
}

// legend explains what is drawn, beside or below the close-up. It returns where it ends.
func (p *plot) legend() (end float64) {
	left, right, last := p.key.Left, p.key.Right, p.key.Bottom
	y := p.key.Top
	y += p.pen.Key(drawing.At(left, y), right-left) + 1.5
	y = p.otherSymbols(left, y)
	y += 1
	size, row, most := p.legendText()
	width := (right - left) / size
	room := max(int((last-y)/row), 1)
	rows := func(i int) []string {
		return drawing.Wrapped(fmt.Sprintf("%d: %s, %s", i+1, strings.TrimPrefix(p.lines[i].String(), "horizontal "), p.residuals[i]), width)
	}
	all, shown := 0, 0
	for i := range p.lines {
		all += min(len(rows(i)), most)
	}
	for i := range p.lines {
		text := rows(i)
		if all > room || len(p.all) > len(p.lines) {
			l := p.lines[i]
			text = []string{fmt.Sprintf("%d: %s %s, %s", i+1, drawing.Shortened(working.OneLine(l.Name()), 16), figures(l), p.residuals[i])}
			if _, run, moved := l.Original(); moved {
				text[0] += fmt.Sprintf(", moved %.0f %s", run.Course, miles(run.Distance))
			}
			if l.Kind() == fix.KindLatitude || l.Kind() == fix.KindLongitude { // the name has the figures
				text = []string{fmt.Sprintf("%d: %s, %s", i+1, l.Name(), p.residuals[i])}
			}
			if shown == room-1 && i < len(p.all)-1 {
				break
			}
		}
		p.Text(drawing.At(left, y), fmt.Sprintf(`class="line-of-legend" font-size="%g"`, size), drawing.Shortened(text[0], width))
		y += row
		for n := 1; n < min(len(text), most); n++ {
			more := text[n]
			if n == most-1 {
				more = strings.Join(text[n:], " ")
			}
			p.Text(drawing.At(left+4, y), fmt.Sprintf(`font-size="%g"`, size), drawing.Shortened(more, width-2))
			y += row
		}
		shown++
	}
	if rest := len(p.all) - shown; rest > 0 {
		text := fmt.Sprintf("and %d more", rest)
		if hidden := len(p.all) - len(p.lines); hidden > 0 {
			text += fmt.Sprintf(", of which %d are not drawn", hidden)
		}
		p.Text(drawing.At(left, y), fmt.Sprintf(`font-size="%g"`, size), text)
		y += row
	}
	return y
}

// otherSymbols explains what is no sign of a chart, in two columns. It returns where it ends.
func (p *plot) otherSymbols(left, y float64) float64 {
	n := 0
	symbol := func(text string, draw func(s drawing.Spot)) {
		at := drawing.At(left+38*float64(n%2), y+4.2*float64(n/2))
		draw(at.Moved(5, 0))
		p.Text(at.Moved(11, 0.9), "", text)
		n++
	}
	symbol("charted mark", p.mark)
	if p.elsewhere {
		symbol("lines meet too", func(s drawing.Spot) { p.circle(s, 1.3, "key", hollowStyle) })
	}
	if p.shifted != "" {
		from := "from DR: "
		if p.options.Prior != nil && !p.estimated {
			from = "from EP: "
		}
		symbol(from+p.shifted, func(s drawing.Spot) {
			p.Line(s.Moved(-4, 0), s.Moved(4, 0), `stroke="black" stroke-width="0.25" stroke-dasharray="0.8 0.8"`)
		})
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
	return y + 4.2*float64((n+1)/2)
}

// foot says in words how far to trust the fix, below the legend. It returns where it ends.
func (p *plot) foot(legend float64) (end float64) {
	width := p.width / drawing.Letters
	y := p.layout.foot
	if p.narrow {
		y = legend + 3
	}
	write := func(attributes, text string) {
		for _, line := range drawing.Wrapped(text, width) {
			if y > p.height-1 { // the caution follows
				return
			}
			p.Text(drawing.At(0, y), attributes, line)
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
	if len(p.unnamed) > 0 {
		write("", "Without room on the drawing: "+drawing.Shortened(strings.Join(p.unnamed, ", "), 50)+".")
	}
	if len(p.off) > 0 {
		write("", "Off the drawing: "+drawing.Shortened(strings.Join(p.off, ", "), 50)+".")
	}
	return y
}
