package diagram_test

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/deviation/diagram"
	"lubberline.example/deviation/internal/devtest"
)

// hasSample reports whether a level line of a drawing stands to the left of a text, within 15 mm.
func hasSample(svg string, text drawing.Spot) bool {
	for _, m := range regexp.MustCompile(`<line x1="([\d.-]+)" y1="([\d.-]+)" x2="([\d.-]+)" y2="([\d.-]+)"`).FindAllStringSubmatch(svg, -1) {
		left, right := min(number(m[1]), number(m[3])), max(number(m[1]), number(m[3]))
		if m[2] == m[4] && math.Abs(number(m[2])-text.Y) < 2 && left > text.X-15 && right < text.X && right-left > 5 {
			return true
		}
	}
	return false
}

// Both curves are read back to 0.2 mm, the figures beside them are theirs, and a curve that was
// not swung is marked.
func TestBeforeAfterIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before, after := drawSwing(t), drawSwing(t)
		if rapid.Bool().Draw(t, "predicted") {
			after.Observations = nil
		}
		sheet, err := diagram.BeforeAfter(before, after)
		svg := figure(t, sheet, err)
		if strings.Contains(svg, "a prediction is not a swing") != (len(after.Observations) == 0) {
			t.Fatal("a curve without observations is not marked, or one with them is")
		}
		var cells []string
		limit := 0.0
		for _, l := range labels(t, svg) {
			switch {
			case l.class == "cell":
				if after := len(cells)%3 == 1; l.bold != after {
					t.Fatalf("%s: bold %v; what holds after adjusting is", l.text, l.bold)
				}
				cells = append(cells, l.text)
			case strings.Contains(l.text, ": largest "):
				if !hasSample(svg, l.at) {
					t.Fatalf("no sample of a line beside %q", l.text)
				}
			case regexp.MustCompile(`^[\d.]+°[EW]$`).MatchString(l.text):
				limit = max(limit, parseEast(l.text))
			}
		}
		frame := regexp.MustCompile(`<rect x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)" fill="none" stroke="black" stroke-width="0.3"`).FindStringSubmatch(svg)
		middle, half := number(frame[1])+number(frame[3])/2, number(frame[3])/2
		for i, of := range []diagram.Plot{before, after} {
			line := polylines(svg, []string{"before", "after"}[i])[0]
			for h, at := range line {
				d := angle.Must(of.Source.OnCompass(angle.CompassFrom(angle.Angle(h) * devtest.Deg)))
				if math.Abs(at[0]-middle-d.Degrees()/limit*half) > 0.2 {
					t.Fatalf("%v on %d° is drawn at %.2f mm", d, h, at[0])
				}
				if h%15 == 0 && h < 360 {
					if want := fmt.Sprintf("%.1f°", math.Abs(math.Round(d.Degrees()*10)/10)); !strings.HasPrefix(cells[h/15*3+i], want) {
						t.Fatalf("%v on %d° is printed as %s", d, h, cells[h/15*3+i])
					}
				}
			}
		}
	})
}
