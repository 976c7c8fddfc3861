package diagram

import (
	"fmt"
	"math"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/say"
)

// The place of a comparison on its sheet, mm.
const (
	compareRight = 112.0 // edge of the panel
	beforeLine   = `fill="none" stroke="black" stroke-width="0.35" stroke-dasharray="2.2 1.2" stroke-linejoin="round"`
)

// compareColumns are the right edges of the columns beside the panel.
var compareColumns = [3]float64{132, 156, 180}

// BeforeAfter draws two curves of the same compass on one page: before and after adjusting, with
// the deviations on each 15° and the change beside them. The curve before is dashed. Below are the
// largest deviations, and the coefficients of sources that have them, such as a
// [lubberline.example/deviation.Curve]. The details are those of after.
//
// A curve after without observations is marked as not swung. It returns an [*Error] where a source
// is missing, or its answer can't be drawn.
func BeforeAfter(before, after Plot) (*drawing.Sheet, error) {
	b, err := before.plot()
	if err != nil {
		return nil, fmt.Errorf("before: %w", err)
	}
	a, err := after.plot()
	if err != nil {
		return nil, fmt.Errorf("after: %w", err)
	}
	s := newSVGSheet("Before and after adjusting", fmt.Sprintf("Deviation against compass heading before and after adjusting, 000 to 360 degrees down the page, west to the left and east to the right. Before: %s; largest %s. After: %s; largest %s.", b.eight(), largestText(b), a.eight(), largestText(a)), after.Details)
	p := curvePanel{left: curveLeft, right: compareRight}
	p.limit = roundLimit(reach(b.curve, b.observed, a.curve, a.observed), curveLimits...)
	p.step = curveSteps[p.limit]
	if p.limit/p.step > 4 {
		p.step = p.limit / 2 // figures of a narrow panel
	}
	s.headings()
	s.panel(p, "Deviation")
	s.Clip("compare-panel", p.box(), func() {
		for _, of := range []struct {
			data         *plotData
			class, style string
		}{{b, "before", beforeLine}, {a, "after", curveCurve}} {
			var line []drawing.Spot
			for h := range 361 {
				line = append(line, p.at(float64(h), of.data.at(h).east))
			}
			s.Polyline(of.class, of.style, line)
		}
	})
	for _, o := range b.observed {
		s.square(p.at(o.heading, o.east))
	}
	for _, o := range a.observed {
		s.circle(p.at(o.heading, o.east))
	}
	s.compareTable(b, a)
	s.compareLegend(b, a, before.Source, after.Source)
	return s.Sheet, nil
}

// square draws the mark of an observation before adjusting.
func (s svgSheet) square(at drawing.Spot) {
	s.Put(`<rect class="observation-before" x="%.2f" y="%.2f" width="1.5" height="1.5" fill="white" stroke="black" stroke-width="0.25"/>`, at.X-0.75, at.Y-0.75)
}

// compareTable writes the deviations beside the headings' lines.
func (s svgSheet) compareTable(b, a *plotData) {
	for i, name := range []string{"before", "after", "change"} {
		s.Text(drawing.At(compareColumns[i], curveTop-6.3), `text-anchor="end" font-size="3" font-weight="bold"`, name)
	}
	for h := 0; h < 360; h += 15 {
		from, to := math.Round(b.at(h).east*10)/10, math.Round(a.at(h).east*10)/10
		for i, east := range []float64{from, to, to - from} {
			weight := "normal"
			if i == 1 {
				weight = "bold"
			}
			s.Text(drawing.At(compareColumns[i], curveY(float64(h))+1), fmt.Sprintf(`class="cell" text-anchor="end" font-size="3" font-weight="%s"`, weight), tenthsText(east))
		}
	}
}

// tenthsText prints a deviation to a tenth.
func tenthsText(east float64) string {
	return strings.TrimSpace(say.Tenths(deviation.East(angle.Angle(math.Round(east*10)) * (angle.Degree / 10)).EastWest))
}

// largestText prints the largest deviation of a curve and its heading.
func largestText(data *plotData) string {
	most := data.curve[0]
	for _, p := range data.curve {
		if math.Abs(p.east) > math.Abs(most.east) {
			most = p
		}
	}
	return fmt.Sprintf("%s on %s°C", tenthsText(most.east), headingFigure(int(most.heading)))
}

// compareLegend says which line is which, with the largest deviations and the coefficients.
func (s svgSheet) compareLegend(b, a *plotData, before, after deviation.Source) {
	y := curveBottom + 10.0
	swung := ""
	if len(a.observed) == 0 {
		swung = "   (no observations given: a prediction is not a swing)"
	}
	for _, of := range []struct {
		name, style string
		data        *plotData
		source      deviation.Source
		note        string
		mark        func(drawing.Spot)
	}{{"before", beforeLine, b, before, "", s.square}, {"after", curveCurve, a, after, swung, s.circle}} {
		s.Line(drawing.At(bodyLeft, y-1), drawing.At(bodyLeft+10, y-1), of.style)
		if len(of.data.observed) > 0 {
			of.mark(drawing.At(bodyLeft+5, y-1))
		}
		s.Text(drawing.At(bodyLeft+12, y), "", fmt.Sprintf("%s: largest %s%s", of.name, largestText(of.data), of.note))
		if k, has := of.source.(interface{ Coefficients() deviation.Coefficients }); has {
			y += 4.2
			s.Text(drawing.At(bodyLeft+12, y), "", k.Coefficients().String())
		}
		y += 5.2
	}
}
