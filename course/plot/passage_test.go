package plot_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/passage"
	"lubberline.example/course/plot"
	"lubberline.example/course/sailing"
	"lubberline.example/course/signs"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// plan returns a plan through some positions. The figures are invented.
func plan(positions ...string) passage.Plan {
	p := passage.Plan{
		Depart: time.Date(2026, 7, 2, 6, 0, 0, 0, time.UTC), Speed: 5.5 * sailing.Knot,
		Variation: variation.MustParse("5°08′W"), Deviation: deviation.MustParse("2°E"),
	}
	for i, text := range positions {
		p.Waypoints = append(p.Waypoints, passage.Waypoint{Name: fmt.Sprintf("W%d", i), Position: angle.MustParsePosition(text)})
	}
	return p
}

// orlesk returns the plan along the Orlesk coast, through streams that change each hour.
func orlesk() passage.Plan {
	p := plan("47°07.8′N 019°01.0′W", "47°03.2′N 019°11.0′W", "46°52.8′N 019°24.5′W", "46°47.1′N 019°04.0′W", "46°56.0′N 019°03.9′W")
	hourly := stream.Hourly{Start: p.Depart}
	for i := range 24 {
		hourly.Streams = append(hourly.Streams, stream.Stream{Set: angle.TrueFrom(angle.Angle(215+20*i) * angle.Degree), Rate: sailing.Speed(i%4) * 0.4 * sailing.Knot})
	}
	p.Streams = hourly
	return p
}

// zigzag returns a plan of 30 legs.
func zigzag() passage.Plan {
	var positions []string
	for i := range 31 {
		positions = append(positions, fmt.Sprintf("47°%02d.0′N 019°%02d.0′W", 2*(i/2), 5+12*(i%4)))
	}
	return plan(positions...)
}

// plans are the passages that are drawn in tests.
func plans() map[string]passage.Plan {
	steady := stream.Stream{Set: angle.MustParseTrue("020"), Rate: 1.5 * sailing.Knot}
	west := angle.MustParseTrue("300")
	dateLine := plan("16°50′S 179°40′E", "17°10′S 179°30′W", "17°05′S 179°50′E")
	dateLine.Streams, dateLine.WindFrom, dateLine.Leeway = steady, &west, 5*angle.Degree
	north := plan("78°N 015°E", "78°20′N 013°E", "78°05′N 010°E")
	north.Streams = steady
	circle := plan("40°N 070°W", "50°N 010°W")
	circle.Waypoints[1].GreatCircle = true
	circle.Speed = 12 * sailing.Knot
	one := plan("46°52.8′N 019°24.5′W", "46°47.1′N 019°24.5′W") // along a meridian
	names := orlesk()
	for i := range names.Waypoints {
		names.Waypoints[i].Name = []string{"Минная банка", "羅針儀の灯台 第二号 北方標識", strings.Repeat("W", 300), "<b>&", ""}[i]
	}
	return map[string]passage.Plan{"Orlesk": orlesk(), "date line": dateLine, "78°N": north, "great circle": circle, "one leg": one, "30 legs": zigzag(), "names": names,
		"south": plan("54°30′S 068°W", "55°00′S 067°00′W", "55°58′S 067°17′W")}
}

// spot returns where a position must be, by the figures of the border and by the formula of
// meridional parts.
func (g readGraticule) spot(p angle.Position) drawing.Spot {
	latitude, longitude := p.Degrees()
	x, minute := math.NaN(), 0.0
	var reach float64
	for a, from := range g.meridians {
		for b, to := range g.meridians {
			if d := math.Mod(b-a+720, 360) * 60; to-from > reach {
				reach, minute = to-from, (to-from)/d
			}
		}
	}
	least := math.Inf(1)
	for a, at := range g.meridians {
		if off := math.Remainder(longitude-a, 360) * 60 * minute; math.Abs(off) < least {
			least, x = math.Abs(off), at+off
		}
	}
	y := math.NaN()
	least = math.Inf(1)
	for a, at := range g.parallels {
		if off := (meridionalParts(a) - meridionalParts(latitude)) * minute; math.Abs(off) < least {
			least, y = math.Abs(off), at+off
		}
	}
	return drawing.At(x, y)
}

// A plotted plan is checked by measuring: every position is recovered from the SVG to 0.2 mm.
func TestPlottedPositionsAreMeasuredBack(t *testing.T) {
	for name, plan := range plans() {
		p, err := passage.New(plan)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for _, usage := range []signs.Usage{signs.Commonwealth, signs.UnitedStates} {
			s, err := plot.Passage(p, plot.Graticule{}, usage)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			all := elements(t, s)
			textsApart(t, name, all)
			g := readBack(t, all)
			g.check(t, name)
			off := func(what string, at drawing.Spot, p angle.Position) {
				t.Helper()
				if want := g.spot(p); math.Hypot(at.X-want.X, at.Y-want.Y) > 0.2 {
					t.Errorf("%s: %s at %v, want %v", name, what, at, want)
				}
			}
			waypoints := ofClass(all, "waypoint")
			if len(waypoints) != len(plan.Waypoints) {
				t.Fatalf("%s: %d waypoints", name, len(waypoints))
			}
			for i, e := range waypoints {
				var at drawing.Spot
				if _, err := fmt.Sscanf(e.attribute["d"], "M%f %fl", &at.X, &at.Y); err != nil {
					t.Fatal(err)
				}
				off(fmt.Sprintf("waypoint %d", i), at.Moved(-1.2, -1.2), plan.Waypoints[i].Position)
			}
			for i, e := range ofClass(all, "ground-track")[:len(p.Legs)] {
				spots := e.points(t)
				off("a track's beginning", spots[0], p.Legs[i].From.Position)
				off("a track's end", spots[len(spots)-1], p.Legs[i].To.Position)
			}
			ways := ofClass(all, "way")
			var legs []passage.Leg
			for _, l := range p.Legs {
				if len(l.Hours) > 0 {
					legs = append(legs, l)
				}
			}
			if len(legs) != len(ways) {
				t.Fatalf("%s: %d ways of %d legs", name, len(ways), len(legs))
			}
			for i, e := range ways {
				for n, at := range e.points(t)[1:] {
					off("an estimated position", at, legs[i].Hours[n].Ends)
				}
			}
		}
	}
}

// The drawing has the figures of every leg, on the chart or in the list below it.
func TestPassageHasFiguresOfEveryLeg(t *testing.T) {
	for name, plan := range plans() {
		p, err := passage.New(plan)
		if err != nil {
			t.Fatal(err)
		}
		s, err := plot.Passage(p, plot.Graticule{}, signs.Commonwealth)
		if err != nil {
			t.Fatal(err)
		}
		var text strings.Builder
		led := 0
		for _, e := range elements(t, s) {
			text.WriteString(e.text + " ")
			if e.name == "text" {
				led++
			}
		}
		for _, l := range p.Legs {
			want := fmt.Sprintf("%v, steer %.0f", l.Distance, l.Heading.Compass())
			if words := strings.Fields(want); !strings.Contains(text.String(), words[len(words)-1]) || !strings.Contains(text.String(), l.Distance.String()) {
				t.Errorf("%s: no %q", name, want)
			}
			if !strings.Contains(s.Description(), want) {
				t.Errorf("%s: %q is not in the description", name, want)
			}
		}
	}
}

func TestHourlyPositionsSayWhetherStreamCarries(t *testing.T) {
	still := plan("46°40′N 019°24.5′W", "47°10′N 019°24.5′W")
	carried := still
	carried.Streams = stream.Stream{Set: angle.MustParseTrue("090"), Rate: sailing.Knot}
	for _, test := range []struct {
		plan  passage.Plan
		class string
	}{{still, "dead-reckoning"}, {carried, "estimated"}} {
		p, err := passage.New(test.plan)
		if err != nil {
			t.Fatal(err)
		}
		s, err := plot.Passage(p, plot.Graticule{}, signs.Commonwealth)
		if err != nil {
			t.Fatal(err)
		}
		// 30 M take five hours and a half: five marks, and that of the key.
		if n := len(ofClass(elements(t, s), test.class)); n != 6 {
			t.Errorf("%s: %d marks, want 6", test.class, n)
		}
	}
}

func TestPassagesThatCannotBeDrawn(t *testing.T) {
	far, err := passage.New(plan("84°N 010°E", "86°N 010°E"))
	if err != nil {
		t.Fatal(err)
	}
	near, err := passage.New(orlesk())
	if err != nil {
		t.Fatal(err)
	}
	for name, test := range map[string]struct {
		p *passage.Passage
		g plot.Graticule
	}{
		"nil":           {nil, plot.Graticule{}},
		"no legs":       {&passage.Passage{}, plot.Graticule{}},
		"beyond 85°":    {far, plot.Graticule{}},
		"another place": {near, plot.Graticule{Middle: angle.MustParsePosition("0°N 0°E"), Scale: 1e5}},
		"too large":     {near, plot.Graticule{Middle: angle.MustParsePosition("46°57′N 019°10′W"), Scale: 5e4}},
		"a far rose":    {near, plot.Graticule{Roses: []plot.Rose{{At: angle.MustParsePosition("80°S 160°E")}}}},
		"small":         {near, plot.Graticule{Width: 20, Height: 20}},
		"no numbers":    {near, plot.Graticule{Width: math.NaN(), Height: math.NaN()}},
	} {
		_, err := plot.Passage(test.p, test.g, signs.Commonwealth)
		if _, ok := errors.AsType[*angle.RangeError](err); !ok {
			t.Errorf("%s: %v", name, err)
		}
	}
	_, err = plot.Passage(near, plot.Graticule{}, "baltic")
	if _, ok := errors.AsType[*angle.ParseError](err); !ok {
		t.Errorf("unknown usage: %v", err)
	}
}

// Random plans, from a mile to an ocean, near the poles and across the date line, are measured
// back too. FULL=1 draws more.
func TestRandomPlansAreMeasuredBack(t *testing.T) {
	draws := 8
	if os.Getenv("FULL") == "1" {
		draws = 100
	}
	random := rand.New(rand.NewPCG(2026, 1128))
	for n := range draws {
		latitude, longitude := random.Float64()*150-75, random.Float64()*360-180
		reach := math.Pow(10, random.Float64()*3-2) // degrees
		p := plan()
		for range 2 + random.IntN(12) {
			p.Waypoints = append(p.Waypoints, passage.Waypoint{Name: "Quillon", Position: angle.Must(angle.PositionDegrees(
				math.Min(math.Max(latitude+reach*(random.Float64()-0.5), -80), 80),
				math.Remainder(longitude+2*reach*(random.Float64()-0.5), 360)))})
		}
		if random.IntN(2) == 0 {
			p.Streams = stream.Stream{Set: angle.TrueFrom(angle.Angle(random.IntN(360)) * angle.Degree), Rate: sailing.Speed(random.Float64()) * sailing.Knot}
		}
		worked, err := passage.New(p)
		if err != nil {
			t.Fatal(err)
		}
		name := fmt.Sprintf("draw %d, %v", n, p.Waypoints[0].Position)
		s, err := plot.Passage(worked, plot.Graticule{}, signs.Commonwealth)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		all := elements(t, s)
		g := readBack(t, all)
		g.check(t, name)
		for i, e := range ofClass(all, "waypoint") {
			var at drawing.Spot
			if _, err := fmt.Sscanf(e.attribute["d"], "M%f %fl", &at.X, &at.Y); err != nil {
				t.Fatal(err)
			}
			at = at.Moved(-1.2, -1.2)
			if want := g.spot(p.Waypoints[i].Position); math.Hypot(at.X-want.X, at.Y-want.Y) > 0.2 {
				t.Errorf("%s: waypoint %d at %v, want %v", name, i, at, want)
			}
		}
	}
}

// The arrow of the wind flies from where the wind blows, in the frame and clear of the tracks. It
// is in the key, and the notes have its direction. A plan without a wind has none.
func TestWindOfPassage(t *testing.T) {
	for name, plan := range plans() {
		for i, degrees := range []int{0, 290} {
			wind := angle.TrueFrom(angle.Angle(degrees) * angle.Degree)
			if plan.Leeway = 0; name != "Orlesk" || degrees > 0 {
				plan.WindFrom = &wind
			}
			p, err := passage.New(plan)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			s, err := plot.Passage(p, plot.Graticule{}, []signs.Usage{signs.Commonwealth, signs.UnitedStates}[i])
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			all := elements(t, s)
			textsApart(t, name, all)
			arrows := ofClass(all, "wind")
			words := ""
			for _, e := range all {
				if e.name == "text" {
					words += e.text + "|"
				}
			}
			noted := strings.Contains(words, fmt.Sprintf("Wind: from %03d°T.|", degrees))
			if said := strings.Contains(s.Description(), fmt.Sprintf("; wind from %03d°T", degrees)); said != noted {
				t.Errorf("%s, %d°: said in words: %v", name, degrees, said)
			}
			if noted != (plan.WindFrom != nil) || plan.WindFrom == nil && len(arrows) > 0 {
				t.Errorf("%s, %d°: %d arrows, noted: %v", name, degrees, len(arrows), noted)
			}
			if len(arrows) == 0 { // no room
				continue
			}
			if len(arrows) != 2 { // on the chart and in the key
				t.Fatalf("%s: %d arrows", name, len(arrows))
			}
			shaft := arrows[0].points(t)
			from := math.Atan2(shaft[0].X-shaft[1].X, shaft[1].Y-shaft[0].Y) * 180 / math.Pi
			if off := math.Abs(math.Remainder(from-float64(degrees), 360)); off > 0.2 { // ends are rounded to a hundredth
				t.Errorf("%s: drawn from %.1f°, want %d°", name, from, degrees)
			}
			for _, class := range []string{"ground-track", "water-track", "stream"} {
				lines := ofClass(all, class)
				for _, l := range lines[:max(len(lines)-1, 0)] { // the last is in the key
					for _, at := range l.points(t) {
						for _, end := range shaft {
							if d := math.Hypot(at.X-end.X, at.Y-end.Y); d < 2 {
								t.Errorf("%s: the arrow is %.1f mm from a %s", name, d, class)
							}
						}
					}
				}
			}
		}
	}
	drawn, err := plot.Passage(windy(t, "Orlesk"), plot.Graticule{}, signs.Commonwealth)
	if err != nil || len(ofClass(elements(t, drawn), "wind")) != 2 {
		t.Errorf("no arrow on a chart with room: %v", err)
	}
}

// windy works a plan with a wind from 290°.
func windy(t *testing.T, name string) *passage.Passage {
	t.Helper()
	plan := plans()[name]
	plan.WindFrom = new(angle.MustParseTrue("290"))
	p, err := passage.New(plan)
	if err != nil {
		t.Fatal(err)
	}
	return p
}
