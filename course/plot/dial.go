package plot

import (
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/angle/working"
	"lubberline.example/course"
)

// HeadingDial draws the conversion of a heading. The
// drawing is a dial graduated from true north, with a ray to each of the three
// norths. The heading is a broad ray with its three readings. The variation and the
// deviation are arcs to scale. It needs no colours.
func HeadingDial(h course.Heading) *drawing.Sheet {
	text := northsText(h) + " The heading is " + listed(readings(h)) + "."
	return drawDial(&dial{heading: h, name: "Heading", t: h.True(), readings: readings(h), text: text})
}

// BearingDial draws the conversion of a bearing as [HeadingDial] draws a heading. The ship's
// head is a thinner ray, because the deviation is that of the ship's head.
func BearingDial(b course.Bearing) *drawing.Sheet {
	h := b.Heading()
	text := northsText(h) + " The bearing is " + listed(readings(b)) +
		"; the ship's head is " + listed(readings(h)) + "."
	return drawDial(&dial{heading: h, name: "Bearing", t: b.True(), readings: readings(b), text: text, head: true})
}

// readings are the three readings of a heading or a bearing, to a tenth of a degree, so
// that all have the same length.
func readings(d interface {
	True() angle.True
	Magnetic() angle.Magnetic
	Compass() angle.Compass
}) [3]string {
	return [3]string{fmt.Sprintf("%.1f", d.True()), fmt.Sprintf("%.1f", d.Magnetic()), fmt.Sprintf("%.1f", d.Compass())}
}

// listed returns three readings as a list in words.
func listed(r [3]string) string { return r[0] + ", " + r[1] + " and " + r[2] }

// northsText describes the three norths in words.
func northsText(h course.Heading) string {
	from := func(east angle.Angle) string {
		switch amount := fmt.Sprintf("%.0v", east.Abs()); {
		case east.Round(angle.Minute) == 0:
			return "in line with"
		case east < 0:
			return amount + " west of"
		default:
			return amount + " east of"
		}
	}
	return fmt.Sprintf("A compass dial graduated from true north. Magnetic north is %s true north (the variation); compass north is %s magnetic north (the deviation) and %s true north (the compass error).",
		from(h.Variation().Angle()), from(h.Deviation().Angle()), from(h.CompassError().Angle()))
}

// A dial is a drawing of one conversion. Its unit is the millimetre.
type dial struct {
	*drawing.Sheet
	heading  course.Heading
	name     string     // of the direction
	t        angle.True // the direction
	readings [3]string
	text     string
	head     bool // whether the ship's head is drawn too

	taken []drawing.Box  // by texts
	lines []drawing.Spot // along what is drawn
}

const (
	dialSize               = 120.0
	dialRing               = 32.0 // radius of the graduated circle
	dialFigures            = 26.0
	dialNorth              = 36.0 // length of the rays of the norths
	dialReach              = 38.5 // length of the rays of directions
	dialVariation          = 21.0 // radius of the arcs
	dialDeviation          = 14.0
	dialText               = 3.0 // size of most text
	dialDegree     float64 = math.Pi / 180
	dialBroadStyle         = `stroke="#777" stroke-width="1.8"`
	dialHeadStyle          = `stroke="#777" stroke-width="0.8"`
)

// dialNorths are the rays of the norths. The one drawn last is the thinnest, so
// that all of them are seen where they coincide.
var dialNorths = [3]struct{ letter, name, style string }{
	{"T", "true north", `stroke="black" stroke-width="0.3"`},
	{"M", "magnetic north", `stroke="black" stroke-width="0.6" stroke-dasharray="3 1.5"`},
	{"C", "compass north", `stroke="black" stroke-width="1.1" stroke-dasharray="0 2.2" stroke-linecap="round"`},
}

// drawDial draws a dial.
func drawDial(d *dial) *drawing.Sheet {
	d.Sheet = drawing.New(dialSize, dialSize, d.name+" "+strings.Join(d.readings[:], " "), d.text)
	d.Caution(working.Caution)
	d.Put(`<g font-size="%g">`, dialText)
	d.ring()

	variation, deviation := d.heading.Variation().Angle(), d.heading.Deviation().Angle()
	norths := [3]float64{0, variation.Degrees(), d.heading.CompassError().Angle().Degrees()}
	direction, head := d.t.Degrees(), d.heading.True().Degrees()
	if d.head {
		d.ray(head, dialReach, dialHeadStyle)
		d.arrow(head, dialReach+0.5, 3, 1)
	}
	d.ray(direction, dialReach-2, dialBroadStyle)
	d.arrow(direction, dialReach+1.5, 4.5, 2)
	for i := 2; i >= 0; i-- {
		d.ray(norths[i], dialNorth, dialNorths[i].style)
	}
	byVariation := d.arc("variation", 0, norths[1], dialVariation, 1)
	byDeviation := d.arc("deviation", norths[1], norths[1]+deviation.Degrees(), dialDeviation, -1)
	d.figures()
	d.Put(`<circle cx="60" cy="57" r="1" fill="black"/>`)
	d.key()

	d.label(dialAt(direction, dialReach+2), true, 0, append([]string{d.name}, d.readings[:]...))
	if d.head {
		d.label(dialAt(head, dialReach+1), true, 0, []string{"Ship's head", readings(d.heading)[0]})
	}
	d.label(dialAt(0, dialNorth), true, 0, []string{"T"})
	order := []int{1, 2}
	if math.Abs(norths[2]) < math.Abs(norths[1]) { // the one nearer to T stands nearer to it
		order = []int{2, 1}
	}
	for _, i := range order {
		d.label(dialAt(norths[i], dialNorth), true, norths[i], []string{dialNorths[i].letter, eastWest([]angle.Angle{0, variation, d.heading.CompassError().Angle()}[i])})
	}
	d.label(byVariation, false, 0, []string{"Variation", eastWest(variation)})
	d.label(byDeviation, false, 0, []string{"Deviation", eastWest(deviation)})
	d.Put(`</g>`)
	return d.Sheet
}

// eastWest prints an angle for the dial.
func eastWest(east angle.Angle) string {
	if east.Round(angle.Minute) == 0 {
		return "0°"
	}
	return east.EastWest()
}

// dialAt returns a spot of the dial, by degrees from true north.
func dialAt(degrees, radius float64) drawing.Spot {
	sin, cos := math.Sincos(degrees * dialDegree)
	return drawing.At(60+radius*sin, 57-radius*cos)
}

// ring draws the circle and its marks.
func (d *dial) ring() {
	d.Put(`<circle cx="60" cy="57" r="%.1f" fill="none" stroke="black" stroke-width="0.4"/>`, dialRing)
	for i := range 36 {
		inner := dialRing - 2
		if i%3 == 0 {
			inner -= 1.2
		}
		a, b := dialAt(float64(10*i), inner), dialAt(float64(10*i), dialRing)
		d.Line(a, b, `stroke="black" stroke-width="0.3"`)
	}
}

// figures writes every 30th degree, on white that the rays pass beneath.
func (d *dial) figures() {
	for i := range 12 {
		d.texts(drawing.Around(dialAt(float64(30*i), dialFigures), 3, 1.7), []string{fmt.Sprintf("%03d", 30*i)}, "")
	}
}

// ray draws a line from the middle.
func (d *dial) ray(degrees, radius float64, style string) {
	d.Line(dialAt(degrees, 0), dialAt(degrees, radius), style)
	for r := 1.0; r <= radius; r++ {
		d.lines = append(d.lines, dialAt(degrees, r))
	}
}

// arrow draws the head of a ray.
func (d *dial) arrow(degrees, tip, length, half float64) {
	spread := math.Atan2(half, tip-length) / dialDegree
	base := math.Hypot(half, tip-length)
	a, b, c := dialAt(degrees, tip), dialAt(degrees-spread, base), dialAt(degrees+spread, base)
	d.Put(`<polygon points="%.2f,%.2f %.2f,%.2f %.2f,%.2f" fill="#777"/>`, a.X, a.Y, b.X, b.Y, c.X, c.Y)
}

// arc draws the angle from one north to the next, with an arrowhead at the end.
// A short arc is shown between two arrowheads from outside. An angle of zero has no arc. It
// returns the spot for the name; end chooses the clockwise (+1) or the anticlockwise (-1)
// end of a short arc.
func (d *dial) arc(class string, from, to, radius, end float64) drawing.Spot {
	const head = 2.4
	size := head / radius / dialDegree // degrees that an arrowhead takes
	side := math.Copysign(1, to-from)
	piece := func(a, b float64) {
		p, q := dialAt(a, radius), dialAt(b, radius)
		sweep := 0
		if b > a {
			sweep = 1
		}
		d.Put(`<path class="%s" d="M%.2f %.2fA%.1f %.1f 0 0 %d %.2f %.2f" fill="none" stroke="black" stroke-width="0.4"/>`, class, p.X, p.Y, radius, radius, sweep, q.X, q.Y)
		for n := math.Ceil(math.Abs(b-a) / 3); n >= 0; n-- {
			d.lines = append(d.lines, dialAt(a+(b-a)*n/max(1, math.Ceil(math.Abs(b-a)/3)), radius))
		}
	}
	arrow := func(tip, turn float64) { // turn is +1 for clockwise
		a := dialAt(tip, radius)
		b, c := dialAt(tip-turn*size, radius-0.8), dialAt(tip-turn*size, radius+0.8)
		d.Put(`<polygon points="%.2f,%.2f %.2f,%.2f %.2f,%.2f" fill="black"/>`, a.X, a.Y, b.X, b.Y, c.X, c.Y)
	}
	switch {
	case math.Abs(to-from) < 1.0/120: // zero, to the minute that is printed
	case math.Abs(to-from) < 1.3*size:
		piece(from, to)
		piece(from-side*2*size, from)
		piece(to+side*2*size, to)
		arrow(from, side)
		arrow(to, -side)
		return dialAt((from+to)/2+end*(math.Abs(to-from)/2+2*size), radius)
	default:
		piece(from, to-side*size/2)
		arrow(to, side)
	}
	return dialAt((from+to)/2, radius)
}

// key draws the key to the rays of the norths.
func (d *dial) key() {
	for i, n := range dialNorths {
		x := 3 + 38*float64(i)
		d.Line(drawing.At(x, 115), drawing.At(x+7, 115), n.style)
		d.Put(`<text x="%.2f" y="116" font-size="2.6">%s %s</text>`, x+8.5, n.letter, n.name)
	}
}
