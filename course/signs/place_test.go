package signs_test

import (
	"encoding/xml"
	"fmt"
	"math"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/signs"
)

// A stroke is a line or polyline of a drawing: its class and its spots.
type stroke struct {
	class string
	spots []drawing.Spot
}

// strokes reads back the lines, polylines and polygons of a figure.
func strokes(t *testing.T, s *drawing.Sheet) (all []stroke) {
	t.Helper()
	var read struct {
		Elements []struct {
			XMLName xml.Name
			Class   string  `xml:"class,attr"`
			Points  string  `xml:"points,attr"`
			X1      float64 `xml:"x1,attr"`
			Y1      float64 `xml:"y1,attr"`
			X2      float64 `xml:"x2,attr"`
			Y2      float64 `xml:"y2,attr"`
		} `xml:",any"`
	}
	if err := xml.Unmarshal([]byte(svg(t, s)), &read); err != nil {
		t.Fatal(err)
	}
	for _, e := range read.Elements {
		switch e.XMLName.Local {
		case "line":
			all = append(all, stroke{e.Class, []drawing.Spot{drawing.At(e.X1, e.Y1), drawing.At(e.X2, e.Y2)}})
		case "polyline", "polygon":
			one := stroke{class: e.Class}
			for pair := range strings.FieldsSeq(e.Points) {
				var spot drawing.Spot
				if _, err := fmt.Sscanf(pair, "%g,%g", &spot.X, &spot.Y); err != nil {
					t.Fatal(err)
				}
				one.spots = append(one.spots, spot)
			}
			all = append(all, one)
		}
	}
	return all
}

// seen returns how far ahead and to starboard of a spot another lies, for a way in degrees from
// up, clockwise.
func seen(from, to drawing.Spot, way float64) (ahead, starboard float64) {
	sin, cos := math.Sincos(way * math.Pi / 180)
	east, north := to.X-from.X, from.Y-to.Y
	return north*cos + east*sin, east*cos - north*sin
}

// A dead reckoning position is a stroke across the track, half of it on each side. In the United
// States it is a half circle on the left of the track, from astern to ahead.
func TestDeadReckoningStandsAcrossTheTrack(t *testing.T) {
	at := drawing.At(30, 30)
	for way := 0.0; way < 360; way += 35 {
		s := drawing.New(60, 60, "", "")
		(&signs.Pen{Sheet: s}).Mark(signs.Mark{Kind: signs.DeadReckoning, At: at, Way: way})
		all := strokes(t, s)
		if len(all) != 1 {
			t.Fatalf("%v: %v", way, all)
		}
		ahead1, starboard1 := seen(at, all[0].spots[0], way)
		ahead2, starboard2 := seen(at, all[0].spots[1], way)
		if math.Hypot(ahead1, ahead2) > 0.02 || math.Abs(starboard1+starboard2) > 0.02 || math.Abs(starboard1) < 1 { // places to 0.01 mm
			t.Errorf("%v: from %v, %v to %v, %v", way, ahead1, starboard1, ahead2, starboard2)
		}
		s = drawing.New(60, 60, "", "")
		(&signs.Pen{Sheet: s, Usage: signs.UnitedStates}).Mark(signs.Mark{Kind: signs.DeadReckoning, At: at, Way: way})
		var a, b drawing.Spot
		var r float64
		path := svg(t, s)
		path = path[strings.Index(path, `d="M`)+4:]
		// Clockwise on paper (sweep 1) from astern to ahead is round by the left.
		if _, err := fmt.Sscanf(path, "%f %fA%f %f 0 0 1 %f %f", &a.X, &a.Y, &r, &r, &b.X, &b.Y); err != nil {
			t.Fatal(err, path[:40])
		}
		astern, _ := seen(at, a, way)
		ahead, _ := seen(at, b, way)
		if math.Abs(astern+r) > 0.02 || math.Abs(ahead-r) > 0.02 {
			t.Errorf("%v: from %v to %v", way, astern, ahead)
		}
	}
}

// An arrow of the wind has its head downwind and its feathers at its tail: each begins on the
// shaft, on the windward half, and slopes away to windward.
func TestWindArrowFliesWithTheWind(t *testing.T) {
	at := drawing.At(30, 30)
	for from := 0.0; from < 360; from += 35 {
		s := drawing.New(60, 60, "", "")
		(&signs.Pen{Sheet: s}).Mark(signs.Mark{Kind: signs.Wind, At: at, Way: from})
		feathers := 0
		for _, one := range strokes(t, s) {
			windward1, across1 := seen(at, one.spots[0], from)
			windward2, across2 := seen(at, one.spots[1], from)
			switch one.class {
			case "wind":
				if math.Abs(windward1-6) > 0.02 || math.Abs(windward2+6) > 0.02 || math.Abs(across1)+math.Abs(across2) > 0.02 {
					t.Errorf("%v: shaft from %v to %v", from, one.spots[0], one.spots[1])
				}
			case "arrowhead": // wing, tip, wing
				if math.Abs(windward2+6) > 0.02 || math.Abs(across2) > 0.02 || windward1 < windward2+1 {
					t.Errorf("%v: arrowhead %v", from, one.spots)
				}
			default:
				feathers++
				if math.Abs(across1) > 0.02 || windward1 < 2 || windward1 > 6.01 || windward2 < windward1+1 || math.Abs(across2) < 0.5 {
					t.Errorf("%v: feather from %v, %v to %v, %v", from, windward1, across1, windward2, across2)
				}
			}
		}
		if feathers < 2 {
			t.Errorf("%v: %d feathers", from, feathers)
		}
	}
}

// The arrowheads of a line stand on it, each apart from the next, and point along it. On a track
// they stand between its ends, on a bearing at its outer end, on a range at both ends.
func TestArrowheadsStandOnTheirLine(t *testing.T) {
	for kind, want := range map[signs.LineKind]struct {
		forward, backward int
		least, most       float64 // of the tips along the line of 60 mm
	}{
		signs.WaterTrack:      {1, 0, 10, 50},
		signs.GroundTrack:     {2, 0, 10, 50},
		signs.Stream:          {3, 0, 10, 50},
		signs.BearingLine:     {1, 0, 59.9, 60.1},
		signs.RangeLine:       {1, 1, -0.1, 60.1},
		signs.TransferredLine: {2, 2, -0.1, 60.1},
	} {
		// An inclined line, with a bend that does not bend: 36 to the right, 48 down.
		begin := drawing.At(20, 30)
		way := math.Atan2(36, -48) * 180 / math.Pi
		s := drawing.New(100, 100, "", "")
		(&signs.Pen{Sheet: s}).Line(signs.Line{Kind: kind, Path: []drawing.Spot{begin, begin.Moved(12, 16), begin.Moved(36, 48)}})
		var tips []float64
		forward, backward := 0, 0
		for _, one := range strokes(t, s) {
			if one.class != "arrowhead" {
				continue
			}
			left, leftOff := seen(begin, one.spots[0], way)
			tip, tipOff := seen(begin, one.spots[1], way)
			right, rightOff := seen(begin, one.spots[2], way)
			if math.Abs(tipOff) > 0.02 || math.Abs(leftOff+rightOff) > 0.03 || math.Abs(left-right) > 0.03 || math.Abs(leftOff) < 0.5 { // places to 0.01 mm
				t.Errorf("%s: arrowhead %v", kind, one.spots)
			}
			if left < tip {
				forward++
			} else {
				backward++
			}
			tips = append(tips, tip)
		}
		if kind == signs.Stream { // the middle one is in the middle of the line
			if middle := tips[1] - 1.1; math.Abs(middle-30) > 0.2 {
				t.Errorf("%s: the arrowheads are about %.2f mm along", kind, middle)
			}
		}
		if forward != want.forward || backward != want.backward {
			t.Errorf("%s: %d arrowheads forward, %d back", kind, forward, backward)
		}
		for i, tip := range tips {
			if tip < want.least || tip > want.most {
				t.Errorf("%s: a tip at %v mm", kind, tip)
			}
			for _, other := range tips[:i] {
				if math.Abs(tip-other) < 1 {
					t.Errorf("%s: tips at %v and %v mm", kind, other, tip)
				}
			}
		}
	}
}

// On a line of 4 mm too the arrowheads stand between its ends.
func TestArrowheadsOfShortLines(t *testing.T) {
	for _, kind := range []signs.LineKind{signs.WaterTrack, signs.GroundTrack, signs.Stream} {
		s := drawing.New(100, 60, "", "")
		(&signs.Pen{Sheet: s}).Line(signs.Line{Kind: kind, Path: []drawing.Spot{drawing.At(20, 30), drawing.At(24, 30)}})
		for _, one := range strokes(t, s) {
			if one.class != "arrowhead" {
				continue
			}
			for _, at := range one.spots {
				if at.X < 20 || at.X > 23.99 { // a tip on the end of the line shows a length that it has not
					t.Errorf("%s: an arrowhead has a spot %.2f mm along", kind, at.X-20)
				}
			}
		}
	}
}

// The frame about an estimated position is regular: a triangle, or a square by the other usage,
// with the position in its middle.
func TestFramesAreRegular(t *testing.T) {
	for usage, corners := range map[signs.Usage]int{signs.Commonwealth: 3, signs.UnitedStates: 4} {
		s := drawing.New(100, 60, "", "")
		at := drawing.At(40, 30)
		(&signs.Pen{Sheet: s, Usage: usage}).Mark(signs.Mark{Kind: signs.Estimated, At: at})
		found := 0
		for _, one := range strokes(t, s) {
			if one.class != "frame" {
				continue
			}
			found++
			if len(one.spots) != corners {
				t.Fatalf("%s: %v", usage, one.spots)
			}
			side := 2 * math.Hypot(one.spots[0].X-at.X, one.spots[0].Y-at.Y) * math.Sin(math.Pi/float64(corners))
			for i, spot := range one.spots {
				next := one.spots[(i+1)%corners]
				if got := math.Hypot(next.X-spot.X, next.Y-spot.Y); math.Abs(got-side) > 0.03 || side < 2 { // places to 0.01 mm
					t.Errorf("%s: a side of %.2f mm, want %.2f", usage, got, side)
				}
			}
		}
		if found != 1 {
			t.Errorf("%s: %d frames", usage, found)
		}
	}
}

// The text of a clearing line stands on the safe side.
func TestClearingTextIsOnTheSafeSide(t *testing.T) {
	for side, safe := range map[angle.Side]float64{angle.Port: 1, angle.Starboard: -1} { // down is positive
		s := drawing.New(100, 60, "", "")
		labels := drawing.Labels{Room: drawing.Box{Right: 100, Bottom: 60}}
		(&signs.Pen{Sheet: s, Labels: &labels}).Line(signs.Line{Kind: signs.ClearingLine, Path: []drawing.Spot{drawing.At(20, 30), drawing.At(80, 30)}, Danger: side, Direction: "090°T", Note: "NLT"})
		labels.Draw(s)
		_, text, _ := strings.Cut(svg(t, s), "<text")
		var x, y float64
		if _, err := fmt.Sscanf(text, " x=\"%g\" y=\"%g\"", &x, &y); err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		if middle := y - 0.36*drawing.Letters; (middle-30)*safe < 1 {
			t.Errorf("danger to %s: the text is at %v", side, middle)
		}
	}
}

// The strokes of a clearing line stand on it, on the side of the danger, all along it.
func TestHatchIsOnTheSideOfTheDanger(t *testing.T) {
	for side, sign := range map[angle.Side]float64{angle.Port: -1, angle.Starboard: 1, "": 0} {
		s := drawing.New(100, 60, "", "")
		(&signs.Pen{Sheet: s}).Line(signs.Line{Kind: signs.ClearingLine, Path: []drawing.Spot{drawing.At(20, 30), drawing.At(80, 30)}, Danger: side})
		n := 0
		for _, one := range strokes(t, s) {
			if one.class == string(signs.ClearingLine) {
				continue
			}
			n++
			a, b := one.spots[0], one.spots[1]
			if a.Y != 30 || a.X < 20 || a.X > 80 || (b.Y-30)*sign < 1 { // starboard of a line to the right is down
				t.Errorf("danger to %q: a stroke from %v to %v", side, a, b)
			}
		}
		if want := map[bool]int{true: 40}[sign != 0]; n != want { // every 1.5 mm of 60
			t.Errorf("danger to %q: %d strokes, want %d", side, n, want)
		}
	}
}
