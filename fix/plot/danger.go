package plot

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
	"lubberline.example/fix"
	"lubberline.example/fix/danger"
	"lubberline.example/fix/internal/earth"
)

// A DangerPlan has the limits that keep a vessel clear of dangers. Package
// [lubberline.example/fix/danger] works them.
type DangerPlan struct {
	Title string      // if empty, "Dangers and their limits"
	Signs signs.Usage // if empty, signs.Commonwealth

	// Narrow makes the drawing 92 mm wide, so that a figure can be read on a small screen.
	Narrow bool

	// Each of these may be empty, but there must be one limit.
	Dangers    []Danger
	Bearings   []danger.ClearingBearing
	Horizontal []HorizontalLimit
	Vertical   []VerticalLimit
}

// A Danger is a danger with the margin to keep from it.
type Danger struct {
	Name     string           `json:"name"` // may be empty
	Position angle.Position   `json:"position"`
	Margin   sailing.Distance `json:"margin"` // 0 if there is none
}

// A HorizontalLimit is a horizontal danger angle, with the two marks that it is measured between.
type HorizontalLimit struct {
	Left, Right fix.Mark     // as seen from the vessel
	Angle       danger.Angle // of [danger.HorizontalAngle]
}

// A VerticalLimit is a vertical danger angle, with the mark whose height it is measured on.
type VerticalLimit struct {
	Mark   fix.Mark
	Height sailing.Distance // of the mark above the water, as in [danger.VerticalAngle]
	Angle  danger.Angle     // of danger.VerticalAngle
}

// Dangers draws limits on a small chart without depths. Clearing bearings are lines from their
// marks, and danger angles are circles. Each is hatched on the side of the danger, and has its limit
// beside it: NLT for not less than, NMT for not more than. A dashed circle about a danger is its
// margin. The limits are rounded to the safe side.
//
// For a plan without limits, an invalid margin or an invalid limit, Dangers returns an [*fix.Error].
// For an unknown usage it returns an [*angle.ParseError].
func Dangers(plan DangerPlan) (*drawing.Sheet, error) {
	p := &dangerPlot{plan: plan}
	if err := p.check(); err != nil {
		return nil, err
	}
	if _, err := signs.ParseUsage(string(plan.Signs)); err != nil {
		return nil, err
	}
	title := working.OneLine(plan.Title)
	if title == "" {
		title = "Dangers and their limits"
	}
	width, bottom := pageWidth, 150.0
	if plan.Narrow {
		width, bottom, p.small = narrowWidth, 82, true
	}
	c := newPanel(drawing.Box{Left: panelLeft, Top: 7, Right: width - 0.5, Bottom: bottom})
	p.place(c)
	left := panelLeft
	if plan.Narrow {
		left = 0
	}
	var rules []string
	for _, r := range p.rules() {
		rules = append(rules, drawing.Wrapped(r, (width-left)/drawing.Letters)...)
	}
	height := c.Bottom + 21 + 3.6*float64(len(rules))
	p.Sheet = drawing.New(width, height, drawing.Shortened(title, 80), p.inWords())
	p.Caution(working.Caution)
	p.pen = &signs.Pen{Sheet: p.Sheet, Usage: plan.Signs, Labels: c.labels}
	p.caption(c, "", 1852, "M")
	p.graticule(c)
	p.Clip("overview", c.Box, func() { p.limits(c) })
	p.marks(c)
	p.Rectangle(c.Box, frameStyle)
	if unnamed := c.labels.Draw(p.Sheet); len(unnamed) > 0 {
		var texts []string
		for _, l := range unnamed {
			texts = append(texts, working.OneLine(l.Text))
		}
		more := drawing.Wrapped("Without room on the drawing: "+strings.Join(texts, "; ")+".", (width-left)/drawing.Letters)
		rules = append(rules, more...)
		p.SetHeight(height + 3.6*float64(len(more)))
	}
	p.pen.Labels = nil
	y := c.Bottom + 7
	y += p.pen.Key(drawing.At(left, y), width-left) + 3
	for _, text := range rules {
		p.Text(drawing.At(left, y), `class="rule"`, drawing.Shortened(text, (width-left)/drawing.Letters))
		y += 3.6
	}
	return p.Sheet, nil
}

// A dangerPlot is a plan that is being drawn.
type dangerPlot struct {
	view
	pen  *signs.Pen
	plan DangerPlan
}

// invalidPlan returns the error of a plan that cannot be drawn.
func invalidPlan(format string, args ...any) error {
	return &fix.Error{Kind: fix.InvalidInput, Reason: fmt.Sprintf(format, args...)}
}

// check returns what is wrong with the plan.
func (p *dangerPlot) check() error {
	bound := func(b danger.Bound, what string) error {
		if b != danger.NotLessThan && b != danger.NotMoreThan {
			return invalidPlan("%s has the bound %.20q: make it with package danger", what, b)
		}
		return nil
	}
	if len(p.plan.Bearings)+len(p.plan.Horizontal)+len(p.plan.Vertical) == 0 {
		return invalidPlan("the plan has no limits: give a clearing bearing or a danger angle")
	}
	for _, d := range p.plan.Dangers {
		if !(d.Margin >= 0 && d.Margin <= 100*sailing.NauticalMile) {
			return invalidPlan("the margin of the danger at %v is %v: give 0 M to 100 M", d.Position, d.Margin)
		}
	}
	for _, c := range p.plan.Bearings {
		if err := bound(c.Bound, "a clearing bearing"); err != nil {
			return err
		}
	}
	for _, h := range p.plan.Horizontal {
		if err := bound(h.Angle.Bound, "a horizontal danger angle"); err != nil {
			return err
		}
		if _, err := fix.HorizontalAngle(h.Left, h.Right, h.Angle.Limit, angle.Uncertainty{}); err != nil {
			return err
		}
	}
	for _, v := range p.plan.Vertical {
		if err := bound(v.Angle.Bound, "a vertical danger angle"); err != nil {
			return err
		}
		if _, err := fix.Range(v.Mark, v.distance(), 0); err != nil {
			return err
		}
	}
	return nil
}

// distance returns how far off a vertical angle is seen.
func (v VerticalLimit) distance() sailing.Distance {
	sin, cos := v.Angle.Limit.SinCos()
	return v.Height * sailing.Distance(cos/sin)
}

// allMarks returns the marks of the plan, each once.
func (p *dangerPlot) allMarks() (all []fix.Mark) {
	add := func(m fix.Mark) {
		if !slices.Contains(all, m) {
			all = append(all, m)
		}
	}
	for _, c := range p.plan.Bearings {
		add(c.Mark)
	}
	for _, h := range p.plan.Horizontal {
		add(h.Left)
		add(h.Right)
	}
	for _, v := range p.plan.Vertical {
		add(v.Mark)
	}
	return all
}

// place puts the plane at the first danger or mark, and fits all into the panel.
func (p *dangerPlot) place(c *panel) {
	marks := p.allMarks()
	middle := marks[0].Position
	if len(p.plan.Dangers) > 0 {
		middle = p.plan.Dangers[0].Position
	}
	p.at = earth.FrameAt(earth.Upright(middle))
	var e extent
	about := func(q angle.Position, radius float64) {
		if g, ok := p.onPlane(q); ok && math.Hypot(g.north, g.east) <= maxReach {
			e.include(ground{g.north - radius, g.east - radius})
			e.include(ground{g.north + radius, g.east + radius})
		}
	}
	for _, m := range marks {
		about(m.Position, 0)
	}
	for _, d := range p.plan.Dangers {
		about(d.Position, 1.2*float64(d.Margin))
	}
	for _, v := range p.plan.Vertical {
		about(v.Mark.Position, 1.05*float64(v.distance()))
	}
	for _, h := range p.plan.Horizontal {
		if centre, radius, ok := p.circleThrough(h); ok {
			about(p.position(centre), min(1.05*radius, 10*base(p, h)))
		}
	}
	c.fit(e, max(e.reach(), 500))
}

// base returns the distance between the marks of a horizontal angle on the plane, in metres.
func base(p *dangerPlot, h HorizontalLimit) float64 {
	l, _ := p.onPlane(h.Left.Position)
	r, _ := p.onPlane(h.Right.Position)
	return math.Hypot(r.north-l.north, r.east-l.east)
}

// circleThrough returns the circle on which a horizontal angle is seen, on the plane. The vessel is on the
// right of the way from the left mark to the right one.
func (p *dangerPlot) circleThrough(h HorizontalLimit) (centre ground, radius float64, ok bool) {
	l, okLeft := p.onPlane(h.Left.Position)
	r, okRight := p.onPlane(h.Right.Position)
	half := base(p, h) / 2
	if !okLeft || !okRight || half == 0 {
		return ground{}, 0, false
	}
	sin, cos := h.Angle.Limit.SinCos()
	toward := half * cos / sin // from the middle of the marks, below zero beyond a right angle
	across := ground{-(r.east - l.east) / (2 * half), (r.north - l.north) / (2 * half)}
	return ground{(l.north+r.north)/2 + toward*across.north, (l.east+r.east)/2 + toward*across.east}, half / sin, true
}

// limits draws the lines and circles of all limits, and the dangers.
func (p *dangerPlot) limits(c *panel) {
	for _, d := range p.plan.Dangers {
		p.danger(c, d)
	}
	trace := p.tracer(c)
	for i, b := range p.plan.Bearings {
		side := angle.Port // of the way from the mark outward
		if b.Bound == danger.NotMoreThan {
			side = angle.Starboard
		}
		mark, ok := p.onPlane(b.Mark.Position)
		if !ok {
			continue
		}
		path := nearestPath(trace(fix.Bearing(b.Mark, b.Limit, angle.Uncertainty{}), 0), c.spot(mark))
		if len(path) > 1 && distance(path[0], c.spot(mark)) > distance(path[len(path)-1], c.spot(mark)) {
			slices.Reverse(path)
		}
		p.limit(fmt.Sprintf("bearing-%d", i+1), signs.Line{Path: path, Danger: side, Note: boundText(b.Bound), Direction: bearingLimit(b)})
	}
	for i, h := range p.plan.Horizontal {
		line, err := fix.HorizontalAngle(h.Left, h.Right, h.Angle.Limit, angle.Uncertainty{})
		centre, _, ok := p.circleThrough(h)
		if err != nil || !ok {
			continue
		}
		for _, path := range trace(line, 0) {
			p.limit(fmt.Sprintf("horizontal-%d", i+1), signs.Line{Path: path, Danger: circleSide(path, c.spot(centre), h.Angle.Bound), Note: boundText(h.Angle.Bound), Direction: angleLimit(h.Angle)})
		}
	}
	for i, v := range p.plan.Vertical {
		line, err := fix.Range(v.Mark, v.distance(), 0)
		centre, ok := p.onPlane(v.Mark.Position)
		if err != nil || !ok {
			continue
		}
		for _, path := range trace(line, 0) {
			p.limit(fmt.Sprintf("vertical-%d", i+1), signs.Line{Path: path, Danger: circleSide(path, c.spot(centre), v.Angle.Bound), Note: boundText(v.Angle.Bound), Direction: angleLimit(v.Angle)})
		}
	}
}

// limit draws a clearing line in a group of a class.
func (p *dangerPlot) limit(class string, l signs.Line) {
	l.Kind = signs.ClearingLine
	if len(l.Path) < 2 {
		return
	}
	p.Put(`<g class="%s">`, class)
	p.pen.Line(l)
	p.Put("</g>")
}

// circleSide returns the side of the danger along a part of a circle: inside it if the angle is to
// be not more than the limit.
func circleSide(path []drawing.Spot, centre drawing.Spot, b danger.Bound) angle.Side {
	if len(path) < 2 {
		return angle.Port
	}
	k := len(path) / 2
	a, s := path[k-1], path[k]
	inside := -(s.Y-a.Y)*(centre.X-s.X)+(s.X-a.X)*(centre.Y-s.Y) > 0 // the centre is to starboard, y down
	if inside == (b == danger.NotMoreThan) {
		return angle.Starboard
	}
	return angle.Port
}

// boundText returns a bound as it is written along a clearing line.
func boundText(b danger.Bound) string {
	if b == danger.NotLessThan {
		return "NLT"
	}
	return "NMT"
}

// bearingLimit returns a clearing bearing to a tenth of a degree, rounded to the safe side.
func bearingLimit(b danger.ClearingBearing) string {
	const unit = angle.Degree / 10
	a := b.Limit.FromNorth()
	low := a.Truncate(unit)
	if b.Bound == danger.NotLessThan && low != a {
		low += unit
	}
	t := angle.TrueFrom(low)
	if low%angle.Degree == 0 {
		return fmt.Sprintf("%.0f", t)
	}
	return fmt.Sprintf("%.1f", t)
}

// angleLimit returns a danger angle to a tenth of a minute, rounded to the safe side.
func angleLimit(d danger.Angle) string {
	return fmt.Sprintf("%.1v", d.Round(angle.Minute/10).Limit)
}

// danger draws a danger with its margin.
func (p *dangerPlot) danger(c *panel, d Danger) {
	s, ok := p.spotOf(c, d.Position)
	if !ok {
		return
	}
	p.Put(`<g class="danger">`)
	p.Line(s.Moved(-1.3, 0), s.Moved(1.3, 0), stroke)
	p.Line(s.Moved(0, -1.3), s.Moved(0, 1.3), stroke)
	p.circle(s, 2, "foul", dotted)
	p.Put("</g>")
	c.labels.Avoid(drawing.Around(s, 2.1, 2.1))
	if r := float64(d.Margin) / c.scale; r > 2.2 {
		p.circle(s, r, "margin", `fill="none" stroke="black" stroke-width="0.2" stroke-dasharray="1.2 0.8"`)
		var ring []drawing.Spot
		for i := range 36 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 18)
			ring = append(ring, s.Moved(r*cos, r*sin))
		}
		c.avoidRing(ring)
	}
	c.labels.Add(drawing.Label{Text: drawing.Shortened(working.OneLine(d.Name), 24), At: s, Gap: 2.4, Attributes: `font-style="italic"`})
}

// marks draws the marks.
func (p *dangerPlot) marks(c *panel) {
	for _, m := range p.allMarks() {
		if s, ok := p.spotOf(c, m.Position); ok {
			p.mark(s)
			c.labels.Avoid(drawing.Around(s, 1.3, 1.3))
			c.labels.Add(drawing.Label{Text: drawing.Shortened(working.OneLine(m.String()), 24), At: s, Attributes: `font-style="italic"`})
		}
	}
}

// rules returns the limits in words.
func (p *dangerPlot) rules() (all []string) {
	for _, b := range p.plan.Bearings {
		all = append(all, b.String()+".")
	}
	for _, h := range p.plan.Horizontal {
		all = append(all, fmt.Sprintf("Horizontal angle, %v to %v: %v.", h.Left, h.Right, h.Angle))
	}
	for _, v := range p.plan.Vertical {
		all = append(all, fmt.Sprintf("Vertical angle of %v, %.0f m high: %v, %s off.", v.Mark, v.Height.Metres(), v.Angle, miles(v.distance())))
	}
	if len(p.plan.Dangers) > 0 {
		all = append(all, "Cross in a dotted circle: a danger. Dashed circle: its margin.")
	}
	limits := "Limits are rounded to the safe side."
	if len(p.plan.Bearings) > 0 {
		limits = "Limits of bearings are true. All are rounded to the safe side."
	}
	return append(all, "NLT: not less than. NMT: not more than. "+limits)
}

// inWords says what the drawing shows.
func (p *dangerPlot) inWords() string {
	text := "Limits that keep clear of dangers, north up."
	for _, d := range p.plan.Dangers {
		text += fmt.Sprintf(" Danger %s at %v, margin %s.", drawing.Shortened(working.OneLine(d.Name), 40), d.Position, miles(d.Margin))
	}
	for _, r := range p.rules() {
		text += " " + drawing.Shortened(r, 80)
	}
	return text
}
