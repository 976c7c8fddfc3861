package plot

import (
	"math"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
)

// Measures of the lower part of a dial, mm.
const (
	fanTop    = 79.5
	fanLength = 36.0 // of the rays
	fanArrow  = 2.2
)

// fanMiddle is where the norths of the lower part meet.
var fanMiddle = drawing.At(dialWidth/2, 130)

// A fan is the lower part of a dial: the three norths alone.
type fan struct {
	*dial
	drawn [3]float64 // degrees from up of true, magnetic and compass north
}

// drawFan draws the lower part.
func drawFan(d *dial) {
	v := d.heading.Variation().Angle()
	drawn, caption := spread([3]float64{0, v.Degrees(), (v + d.heading.Deviation().Angle()).Degrees()})
	if d.norths == 2 {
		caption = strings.Replace(caption, "three", "two", 1)
	}
	f := fan{d, drawn}
	d.labels = drawing.Labels{Room: drawing.Box{Left: 0.5, Top: fanTop + 2, Right: dialWidth - 0.5, Bottom: fanMiddle.Y + 2.5}}
	d.Line(drawing.At(0, fanTop-5), drawing.At(dialWidth, fanTop-5), `stroke="black" stroke-width="0.2"`)
	d.Text(drawing.At(dialWidth/2, fanTop), `text-anchor="middle"`, caption)
	for i := d.norths - 1; i >= 0; i-- {
		tip := polar(fanMiddle, drawn[i], fanLength)
		d.Line(fanMiddle, tip, dialNorths[i].style)
		d.labels.AvoidLine(fanMiddle, tip)
		if name := f.letters(i); name != "" {
			d.labels.Add(drawing.Label{Text: name, At: tip, Gap: 0.9, Size: dialLetters, Attributes: `font-weight="bold"`})
		}
	}
	d.Put(`<circle cx="%.2f" cy="%.2f" r="1" fill="black"/>`, fanMiddle.X, fanMiddle.Y)
	f.arc("variation", "Variation", d.heading.Variation().Angle(), 0, 1, 29)
	if d.norths == 3 {
		f.arc("deviation", "Deviation", d.heading.Deviation().Angle(), 1, 2, 22)
		f.arc("error", "Total error", d.heading.CompassError().Angle(), 0, 2, 15)
	}
	d.labels.Draw(d.Sheet)
	for i, n := range dialNorths[:d.norths] {
		x := 1 + []float64{0, 25, 61}[i]
		d.Line(drawing.At(x, dialKey-1), drawing.At(x+6.6, dialKey-1), n.style)
		d.Text(drawing.At(x+8.5, dialKey), "", n.letter+" "+n.name)
	}
}

// The angles between neighbouring norths, in degrees. Smaller ones cannot be seen or
// have no room for an arrowhead.
const (
	fanLeast = 20.0
	fanMost  = 42.0 // of an angle that is not to scale
)

// spread returns where the norths are drawn, in degrees from up, with what it says of that.
// Norths that differ stay in their order, and far enough apart to be seen.
func spread(norths [3]float64) (drawn [3]float64, caption string) {
	order := []int{0, 1, 2}
	for range 2 {
		for i := range 2 {
			if norths[order[i+1]] < norths[order[i]] {
				order[i], order[i+1] = order[i+1], order[i]
			}
		}
	}
	toScale, enlarged := true, true
	var gaps [2]float64
	for i := range gaps {
		gap := norths[order[i+1]] - norths[order[i]]
		if gap < 1.0/120 { // the same, to the minute that is printed
			continue
		}
		gaps[i] = min(18+1.2*gap, fanMost)
		toScale = toScale && gap >= fanLeast
		enlarged = enlarged && gaps[i] >= gap
	}
	for _, n := range norths {
		toScale = toScale && math.Abs(n) <= 85
	}
	switch {
	case gaps == [2]float64{}:
		return drawn, "The three norths are in line."
	case toScale:
		return norths, "The norths, to scale"
	}
	from := 0.0
	for i, n := range order {
		if i > 0 {
			from += gaps[i-1]
		}
		drawn[n] = from
	}
	for i, zero := 0, drawn[0]; i < 3; i++ {
		drawn[i] -= zero
	}
	if enlarged {
		return drawn, "The norths, enlarged: not to scale"
	}
	return drawn, "The norths: not to scale"
}

// letters returns what stands at the tip of a north: its letter, with those of the norths that
// are in line with it. It is empty if another tip has it.
func (f fan) letters(i int) string {
	var all []string
	for k, n := range dialNorths[:f.norths] {
		if f.drawn[k] != f.drawn[i] {
			continue
		}
		if k < i {
			return ""
		}
		all = append(all, n.letter)
	}
	return strings.Join(all, ", ")
}

// arc draws the angle from one north to another, with an arrowhead at its end, and its name. An
// angle of zero has no arc.
func (f fan) arc(class, name string, east angle.Angle, from, to int, radius float64) {
	a, b := f.drawn[from], f.drawn[to]
	text := drawing.Label{Text: name + "\n" + eastWest(east), At: polar(fanMiddle, (a+b)/2, radius), Gap: 1, Size: dialLetters}
	// An error of more than half a turn has the other name than the sum that is drawn.
	if sum := f.heading.Variation().Angle() + f.heading.Deviation().Angle(); to-from == 2 && sum.Abs() > angle.Turn/2 {
		text.At = polar(fanMiddle, b, radius)
	} else if a != b {
		f.sweep(class, a, b, radius)
	}
	f.labels.Add(text)
}

// sweep draws an arc with an arrowhead at its end.
func (f fan) sweep(class string, a, b, radius float64) {
	side, size := math.Copysign(1, b-a), fanArrow/radius*180/math.Pi
	p, q, sweep := polar(fanMiddle, a, radius), polar(fanMiddle, b-side*size/2, radius), 0
	if b > a {
		sweep = 1
	}
	f.Put(`<path class="%s" d="M%.2f %.2fA%.1f %.1f 0 0 %d %.2f %.2f" fill="none" stroke="black" stroke-width="0.4"/>`, class, p.X, p.Y, radius, radius, sweep, q.X, q.Y)
	f.labels.AvoidLine(arcOf(fanMiddle, a, b, radius)...)
	head := []drawing.Spot{polar(fanMiddle, b, radius), polar(fanMiddle, b-side*size, radius-0.8), polar(fanMiddle, b-side*size, radius+0.8)}
	f.Polygon("tip", `fill="black"`, head)
	f.labels.AvoidLine(head...)
}
