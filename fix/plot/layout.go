package plot

import (
	"strings"

	"lubberline.example/angle/drawing"
)

// The widths of drawings, mm.
const (
	pageWidth   = 182.0 // fits on A4 upright
	narrowWidth = 92.0
	panelLeft   = 20.0 // of a panel, with room for the figures of latitude
)

// A layout says where the parts of a plot stand.
type layout struct {
	width, height     float64
	overview, closeUp drawing.Box
	key               drawing.Box // the legend
	foot              float64     // the foot begins here, or below the legend if that ends lower
	narrow            bool
}

// pageLayout returns the layout of an A4 page. The overview is lower if there are many lines, so
// that the legend has room for them.
func pageLayout(lines int) layout {
	crowd := legendRow * float64(min(max(lines-6, 0), 10))
	return layout{
		width: pageWidth, height: 255.5,
		overview: drawing.Box{Left: panelLeft, Top: 13, Right: pageWidth - 0.5, Bottom: 131 - crowd},
		closeUp:  drawing.Box{Left: panelLeft, Top: 148 - crowd, Right: panelLeft + 80, Bottom: 228 - crowd},
		key:      drawing.Box{Left: 106, Top: 141 - crowd, Right: pageWidth, Bottom: 228},
		foot:     235.4,
	}
}

// narrowLayout returns the layout of a narrow drawing. How high that is shows when it is drawn.
func narrowLayout() layout {
	const right = narrowWidth - 0.5
	return layout{
		width: narrowWidth, height: 1000, narrow: true,
		overview: drawing.Box{Left: panelLeft, Top: 18, Right: right, Bottom: 82},
		closeUp:  drawing.Box{Left: panelLeft, Top: 97, Right: right, Bottom: 97 + right - panelLeft},
		key:      drawing.Box{Left: 0, Top: 177, Right: narrowWidth, Bottom: 900},
	}
}

// headLines returns the lines of the text above the overview.
func (l layout) headLines(text string) []string {
	if !l.narrow {
		return []string{text}
	}
	if i := strings.LastIndex(text, ", "); i > 0 { // the date
		return []string{drawing.Shortened(text[:i], l.width/5/boldWidth), text[i+2:]}
	}
	return []string{drawing.Shortened(text, l.width/5/boldWidth)}
}
