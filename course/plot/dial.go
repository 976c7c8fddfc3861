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

// HeadingDial draws the conversion of a heading. The upper part is a dial graduated from true
// north. A ray leads to each of the three norths, and a broad ray with three readings is the
// heading. The lower part shows the norths alone, with the variation, the deviation and the total
// error. If an angle is too small to be seen, this part enlarges the angles and says that they are
// not to scale.
func HeadingDial(h course.Heading) *drawing.Sheet {
	text := northsText(h) + " The heading is " + listed(readings(h)) + "."
	return drawDial(&dial{heading: h, name: "Heading", t: h.True(), readings: readings(h), norths: 3, text: text})
}

// BearingDial draws the conversion of a bearing as [HeadingDial] draws a heading. A thinner ray
// is the ship's head, since the deviation is that of the ship's head. A bearing of
// [course.HandBearing] needs neither: its dial has true and magnetic north alone.
func BearingDial(b course.Bearing) *drawing.Sheet {
	h := b.Heading()
	if b.ByHand() { // without a heading and a compass north
		both := readings(b)[:2]
		text := "A dial graduated from true north. " + magneticText(h) + ". The bearing by a hand-bearing compass is " + strings.Join(both, " and ") + "."
		return drawDial(&dial{heading: h, name: "Bearing", t: b.True(), readings: both, norths: 2, text: text})
	}
	text := northsText(h) + " The bearing is " + listed(readings(b)) +
		"; the ship's head is " + listed(readings(h)) + "."
	return drawDial(&dial{heading: h, name: "Bearing", t: b.True(), readings: readings(b), norths: 3, text: text, head: true})
}

// readings are the three readings of a heading or a bearing, to a tenth of a degree, so
// that all have the same length.
func readings(d interface {
	True() angle.True
	Magnetic() angle.Magnetic
	Compass() angle.Compass
}) []string {
	return []string{fmt.Sprintf("%.1f", d.True()), fmt.Sprintf("%.1f", d.Magnetic()), fmt.Sprintf("%.1f", d.Compass())}
}

// listed returns three readings as a list in words.
func listed(r []string) string { return r[0] + ", " + r[1] + " and " + r[2] }

// northsText describes the three norths in words.
func northsText(h course.Heading) string {
	return fmt.Sprintf("A compass dial graduated from true north. %s; compass north is %s magnetic north (the deviation) and %s true north (the compass error).",
		magneticText(h), beside(h.Deviation().Angle()), beside(h.CompassError().Angle()))
}

// magneticText says where magnetic north is.
func magneticText(h course.Heading) string {
	return "Magnetic north is " + beside(h.Variation().Angle()) + " true north (the variation)"
}

// beside says on which side of another north a north is.
func beside(east angle.Angle) string {
	switch amount := fmt.Sprintf("%.0v", east.Abs()); {
	case east.Round(angle.Minute) == 0:
		return "in line with"
	case east < 0:
		return amount + " west of"
	default:
		return amount + " east of"
	}
}

// A dial is a drawing of one conversion. Its unit is the millimetre.
type dial struct {
	*drawing.Sheet
	heading  course.Heading
	name     string     // of the direction
	t        angle.True // the direction
	readings []string
	norths   int // 3, or 2 without compass north
	text     string
	head     bool // whether the ship's head is drawn too
	labels   drawing.Labels
}

// Measures of a dial, mm. Drawn 300 pixels wide, its letters are 10 pixels high.
const (
	dialWidth, dialHeight = 96.0, 138.0
	dialLetters           = 3.2
	dialRing              = 26.0 // radius of the graduated circle
	dialFigures           = 20.0 // of the middles of its figures
	dialReach             = 32.0 // of the tip of a direction
	dialKey               = 136.5
)

const (
	dialBroadStyle = `class="direction" stroke="#777" stroke-width="1.8"`
	dialHeadStyle  = `class="head" stroke="#777" stroke-width="0.8"`
)

// dialMiddle is the middle of the graduated circle.
var dialMiddle = drawing.At(dialWidth/2, 37)

// dialNorths are the rays of the norths. The one drawn last is the thinnest, so that all of
// them are seen where they coincide.
var dialNorths = [3]struct{ letter, name, style string }{
	{"T", "true", `class="north" stroke="black" stroke-width="0.3"`},
	{"M", "magnetic", `class="north" stroke="black" stroke-width="0.6" stroke-dasharray="3 1.5"`},
	{"C", "compass", `class="north" stroke="black" stroke-width="1.1" stroke-dasharray="0 2.2" stroke-linecap="round"`},
}

// drawDial draws a dial.
func drawDial(d *dial) *drawing.Sheet {
	d.Sheet = drawing.New(dialWidth, dialHeight, d.name+" "+strings.Join(d.readings, " "), d.text)
	d.Caution(working.Caution)
	d.labels.Room = drawing.Box{Left: 0.5, Top: 0.5, Right: dialWidth - 0.5, Bottom: dialMiddle.Y + dialRing + 11.5}
	d.Put(`<g font-size="%g">`, dialLetters)
	d.ring()
	way, head := d.t.Degrees(), d.heading.True().Degrees()
	if d.head {
		d.ray(head, dialReach-1.5, dialHeadStyle)
		d.arrow(head, dialReach-1, 3, 1)
	}
	d.ray(way, dialReach-3, dialBroadStyle)
	d.arrow(way, dialReach, 4.5, 2)
	norths := [3]float64{0, d.heading.Variation().Angle().Degrees(), d.heading.CompassError().Angle().Degrees()}
	for i := d.norths - 1; i >= 0; i-- {
		d.ray(norths[i], dialRing+2.5, dialNorths[i].style)
	}
	d.figures()
	d.Put(`<circle cx="%.2f" cy="%.2f" r="1" fill="black"/>`, dialMiddle.X, dialMiddle.Y)
	d.direction(way, dialReach, d.name+"\n"+strings.Join(d.readings, "\n"))
	if d.head {
		d.direction(head, dialReach-1, "Ship's head\n"+readings(d.heading)[0]+"\n"+readings(d.heading)[2])
	}
	d.labels.Draw(d.Sheet)
	drawFan(d)
	d.Put(`</g>`)
	return d.Sheet
}

// eastWest prints an angle for the dial.
func eastWest(east angle.Angle) string {
	if east.Round(angle.Minute) == 0 {
		return "0°"
	}
	return east.EastWestString()
}

// dialAt returns a spot of the dial, by degrees from true north.
func dialAt(degrees, radius float64) drawing.Spot { return polar(dialMiddle, degrees, radius) }

// polar returns a spot some degrees from up, clockwise.
func polar(from drawing.Spot, degrees, radius float64) drawing.Spot {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return from.Moved(radius*sin, -radius*cos)
}

// arcOf returns spots along an arc, for labels to avoid.
func arcOf(middle drawing.Spot, from, to, radius float64) (out []drawing.Spot) {
	n := max(1, math.Ceil(math.Abs(to-from)/2))
	for i := 0.0; i <= n; i++ {
		out = append(out, polar(middle, from+(to-from)*i/n, radius))
	}
	return out
}

// direction writes the name and the readings of a direction beside its tip.
func (d *dial) direction(degrees, tip float64, text string) {
	d.labels.Add(drawing.Label{Text: text, At: dialAt(degrees, tip+0.5), Gap: 1.2, Size: dialLetters, Attributes: `font-weight="bold"`})
}

// ring draws the circle and its marks.
func (d *dial) ring() {
	d.Put(`<circle class="ring" cx="%.2f" cy="%.2f" r="%.1f" fill="none" stroke="black" stroke-width="0.4"/>`, dialMiddle.X, dialMiddle.Y, dialRing)
	d.labels.AvoidLine(arcOf(dialMiddle, 0, 360, dialRing)...)
	for i := range 36 {
		inner := dialRing - 1.5
		if i%3 == 0 {
			inner -= 1.2
		}
		d.Line(dialAt(float64(10*i), inner), dialAt(float64(10*i), dialRing), `stroke="black" stroke-width="0.3"`)
	}
}

// figures writes every 30th degree, on white that the rays pass beneath.
func (d *dial) figures() {
	for i := range 12 {
		at := dialAt(float64(30*i), dialFigures)
		b := drawing.Around(at, 3.3, 1.6)
		d.Rectangle(b, `fill="white"`)
		d.Text(at.Moved(0, 1.15), `text-anchor="middle"`, fmt.Sprintf("%03d", 30*i))
		d.labels.Avoid(b)
	}
}

// ray draws a line from the middle.
func (d *dial) ray(degrees, radius float64, style string) {
	d.Line(dialAt(degrees, 0), dialAt(degrees, radius), style)
	d.labels.AvoidLine(dialAt(degrees, 0), dialAt(degrees, radius))
}

// arrow draws the head of a ray.
func (d *dial) arrow(degrees, tip, length, half float64) {
	spread := math.Atan2(half, tip-length) * 180 / math.Pi
	base := math.Hypot(half, tip-length)
	head := []drawing.Spot{dialAt(degrees, tip), dialAt(degrees-spread, base), dialAt(degrees+spread, base)}
	d.Polygon("tip", `fill="#777"`, head)
	d.labels.AvoidLine(append(head, head[0])...)
}
