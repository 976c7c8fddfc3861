package plot

import (
	"fmt"
	"math"
	"slices"

	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
	"lubberline.example/fix"
	"lubberline.example/fix/internal/earth"
)

const (
	maxLines = 24          // lines drawn
	maxReach = 600 * 1852. // metres; marks farther off do not make the chart smaller
	cell     = 1.25        // millimetres between the points where lines are sought
)

// Options say how [Fix] draws a fix. The zero value is good.
type Options struct {
	Title string      // if empty, "Fix" or "Estimated position"
	Signs signs.Usage // of the lines and positions; if empty, signs.Commonwealth

	// Narrow draws all parts below each other, 92 mm wide, so that a figure can be read on a
	// small screen. If false, the drawing is that of an A4 page.
	Narrow bool
}

// Fix draws a fix. The overview has the marks, the position lines with their bearings and times,
// and other places where they meet. A transferred line stands beside the original one, with the
// run between them. A dashed line leads from the reckoned position to the fix. The close-up has
// the fix, the cocked hat and the 95 % ellipse. Near a pole both have meridians and parallels.
//
// If the lines do not agree, there is no ellipse and no symbol of a fix, and the heading says
// so instead of the position. The plane of the drawing touches the earth at the fix. Only the
// first 24 lines are drawn.
//
// For a Fix that [fix.Solve] did not return, Fix returns an [*fix.Error]. For an unknown usage it
// returns an [*angle.ParseError].
func Fix(f fix.Fix, options Options) (*drawing.Sheet, error) {
	p := newPlot(f)
	if len(p.lines) == 0 && p.options.Prior == nil {
		return nil, &fix.Error{Kind: fix.InvalidInput, Reason: "there is nothing to draw: give a fix that Solve returned"}
	}
	if _, err := signs.ParseUsage(string(options.Signs)); err != nil {
		return nil, err
	}
	if !options.Narrow {
		p.layout = pageLayout(len(p.lines))
		p.drawAll(options)
		return p.Sheet, nil
	}
	p.layout, p.small = narrowLayout(), true
	end := p.drawAll(options)
	p.SetHeight(end)
	return p.Sheet, nil
}

// drawAll draws all parts, and returns where they end.
func (p *plot) drawAll(options Options) (end float64) {
	name := "Fix"
	if p.estimated {
		name = "Estimated position"
	}
	title := working.OneLine(options.Title)
	if title == "" {
		title = name
	}
	what := fmt.Sprintf("%s at %s from position lines: %d.", name, p.text("position"), len(p.all))
	where, style := p.text("position"), `font-size="4"`
	if p.disagree {
		what = fmt.Sprintf("No fix: the lines do not agree. Position lines: %d.", len(p.all))
		where, style = "NO FIX: the lines do not agree", `font-size="5" font-weight="bold"`
	}
	if t := p.fix.Time(); !t.IsZero() {
		where += ", " + t.UTC().Format("2 January 2006 15:04 UTC")
	}
	p.Sheet = drawing.New(p.width, p.height, drawing.Shortened(title, 80), what+p.inWords())
	p.pen = &signs.Pen{Sheet: p.Sheet, Usage: options.Signs}
	p.Caution(working.Caution)
	for i, line := range p.headLines(where) {
		p.Text(drawing.At(0, 4+5*float64(i)), style, line)
	}
	p.overview()
	p.closeUp()
	return p.foot(p.legend())
}

// A plot is a sheet with what is drawn on it.
type plot struct {
	view
	layout
	pen       *signs.Pen
	fix       fix.Fix
	options   fix.Options
	sheet     working.Sheet // of the fix
	residuals []fix.Residual
	disagree  bool // whether the lines do not agree, so that there is no fix
	estimated bool // whether the lines alone give no position

	all       []fix.Line
	lines     []fix.Line // drawn
	turns     []float64  // radians by which each is drawn turned, for the compass error that was solved for
	hat       []ground
	hull      []ground        // the part of the hat that is drawn
	ellipse   sailing.Ellipse // zero if unknown
	off       []string        // marks off the chart
	unnamed   []string        // texts without room in the drawing
	elsewhere bool            // whether other places are drawn
	shifted   string          // from the reckoned position, if that is drawn
}

// newPlot collects what is drawn of a fix.
func newPlot(f fix.Fix) *plot {
	p := &plot{fix: f, options: f.Options(), sheet: f.Working(), residuals: f.Residuals(), all: f.Lines()}
	p.at = earth.FrameAt(earth.Upright(f.Position()))
	p.lines = p.all[:min(len(p.all), maxLines)]
	p.disagree = slices.ContainsFunc(p.sheet.Warnings, func(w working.Warning) bool { return w.Kind == fix.LinesDisagree })
	p.estimated = p.options.Prior != nil && f.DegreesOfFreedom() < 2
	corners, _ := f.Hat()
	for _, c := range corners {
		if g, ok := p.onPlane(c.Position); ok && c.A < maxLines && c.B < maxLines {
			p.hat = append(p.hat, g)
		}
	}
	if e, err := f.Ellipse(0.95); err == nil && !p.disagree {
		p.ellipse = e
	}
	p.turns = make([]float64, len(p.lines))
	for i, l := range p.lines {
		// The offset is that of the line as it is drawn. If it is not the line's own, the
		// compass error that was solved for turns the line.
		own := l.Residual(f.Position())
		if r := p.residuals[i]; p.options.CompassError && math.Abs(float64(r.Offset-own.Offset)) > 0.01 {
			p.turns[i] = r.Value - own.Value
		}
	}
	return p
}

// text returns the value of a step of the fix's working.
func (p *plot) text(key string) string {
	step, _ := p.sheet.Steps.Find(key)
	return step.Value
}

// inWords says what the plot shows besides the position.
func (p *plot) inWords() string {
	text := ""
	for _, l := range p.lines {
		text += " " + drawing.Shortened(l.String(), 60) + "."
	}
	return text + " Above the overview, north up; below the close-up of the fix."
}

// boldWidth is the width of bold figures, in that of regular ones.
const boldWidth = 1.12
