package plot

import "math"

// closeUp draws the surroundings of the fix.
func (p *plot) closeUp() {
	c := newPanel(p.layout.closeUp)
	reach, hull := p.surroundings()
	p.hull, c.scale = hull, 2*reach/(c.Bottom-c.Top)
	switch {
	case c.scale > 50:
		p.caption(c, "Close-up", 1852, "M")
	default:
		p.caption(c, "Close-up", 185.2, "cables")
	}
	p.panel(c, "close", true)
}

// region draws the cocked hat and the ellipse.
func (p *plot) region(c *panel) {
	if len(p.hull) > 2 {
		hull := c.spots(p.hull)
		p.Polygon("hat", `fill="#ddd" stroke="#777" stroke-width="0.5" stroke-linejoin="round"`, hull)
		c.avoidRing(hull)
	}
	if p.ellipse.SemiMajor > 0 {
		ring := c.spots(p.round())
		p.Polygon("ellipse", `fill="none" stroke="#666" stroke-width="0.6"`, ring)
		c.avoidRing(ring)
	}
}

// surroundings returns how far about the fix the close-up reaches, in metres, and the outline
// of the hat in it.
func (p *plot) surroundings() (reach float64, hull []ground) {
	reach = 1.3 * float64(p.ellipse.SemiMajor)
	for _, r := range p.residuals[:len(p.lines)] {
		if o := math.Abs(float64(r.Offset)); o < 60*1852 {
			reach = max(reach, 1.4*o)
		}
	}
	if reach < 0.5 { // two lines that meet, with unknown uncertainties
		reach = 185.2
	}
	reach = max(reach, 20)
	inner := reach
	var near []ground
	for _, g := range p.hat {
		if d := math.Hypot(g.north, g.east); d < 3*inner {
			reach, near = max(reach, 1.15*d), append(near, g)
		}
	}
	// A hat of three lines may have one far corner. Of more lines, two are often nearly
	// parallel.
	if len(p.lines) > 3 {
		return reach, hullOf(near)
	}
	return reach, hullOf(p.hat)
}

// round returns points along the ellipse.
func (p *plot) round() []ground {
	var out []ground
	sin, cos := p.ellipse.MajorAxis.FromNorth().SinCos()
	for i := range 90 {
		s, t := math.Sincos(float64(i) * math.Pi / 45)
		a, b := float64(p.ellipse.SemiMajor)*t, float64(p.ellipse.SemiMinor)*s
		out = append(out, ground{a*cos - b*sin, a*sin + b*cos})
	}
	return out
}
