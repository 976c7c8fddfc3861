package page

import (
	"encoding/xml"
	"fmt"
	"strings"
)

// The elements and attributes that a figure may have: shapes, text and paints. No element
// that runs, loads, links or animates is among them, and none of HTML.
var (
	allowedElements = setOf(`svg g defs symbol use title desc
		path line polyline polygon rect circle ellipse text tspan textPath
		clipPath mask marker pattern linearGradient radialGradient stop`)
	allowedAttributes = setOf(`id class lang space role href xmlns xlink version style
		x y x1 y1 x2 y2 dx dy cx cy r rx ry fx fy fr width height d points transform rotate
		viewBox preserveAspectRatio offset pathLength textLength lengthAdjust startOffset
		clipPathUnits maskUnits maskContentUnits patternUnits patternContentUnits patternTransform
		gradientUnits gradientTransform spreadMethod
		markerUnits markerWidth markerHeight orient refX refY marker-start marker-mid marker-end
		clip-path clip-rule mask fill fill-opacity fill-rule stroke stroke-width stroke-opacity
		stroke-dasharray stroke-dashoffset stroke-linecap stroke-linejoin stroke-miterlimit
		stop-color stop-opacity opacity color display visibility overflow paint-order vector-effect shape-rendering
		font-family font-size font-style font-weight font-variant font-stretch text-anchor text-decoration
		text-rendering dominant-baseline alignment-baseline baseline-shift letter-spacing word-spacing
		direction unicode-bidi writing-mode tabindex focusable`)
)

// setOf returns the set of the words in a text.
func setOf(words string) map[string]bool {
	set := map[string]bool{}
	for word := range strings.FieldsSeq(words) {
		set[word] = true
	}
	return set
}

const (
	svgSpace   = "http://www.w3.org/2000/svg"
	xlinkSpace = "http://www.w3.org/1999/xlink"
	xmlSpace   = "http://www.w3.org/XML/1998/namespace"
)

// allowed returns an error if an element of a figure, or one of its attributes, is not
// allowed, or if it refers to another file.
func allowed(e xml.StartElement) error {
	if !allowedElements[e.Name.Local] || e.Name.Space != "" && e.Name.Space != svgSpace {
		return fmt.Errorf("the figure has a <%.60s>: use only shapes and text", e.Name.Local)
	}
	for _, a := range e.Attr {
		name, value := a.Name.Local, strings.TrimSpace(a.Value)
		ofText := strings.HasPrefix(name, "aria-")
		switch a.Name.Space {
		case "xmlns":
			continue // declares a namespace, used or not
		case "", "xlink", xlinkSpace, xmlSpace:
		default:
			return fmt.Errorf("attribute %.60s=%.60q in the figure is not part of SVG: remove it", name, value)
		}
		switch {
		case !allowedAttributes[name] && !ofText:
			return fmt.Errorf("attribute %.60s=%.60q in the figure is not allowed: remove it", name, value)
		case name == "href" && !strings.HasPrefix(value, "#"),
			!ofText && fetches(value):
			return fmt.Errorf("attribute %.60s=%.60q in the figure is a script or refers to another file: remove it", name, value)
		}
	}
	return nil
}

// fetches reports whether the value of an attribute refers to another file, or may do so.
// Such a value has url(…) without #, or characters that only a style sheet needs.
func fetches(value string) bool {
	lower := strings.ToLower(value)
	return strings.Count(lower, "url(") > strings.Count(lower, "url(#") ||
		strings.ContainsAny(lower, "\\@{}<") || strings.Contains(lower, "/*") ||
		strings.Contains(lower, "javascript:") || strings.Contains(lower, "data:") ||
		strings.Contains(lower, "image(") || strings.Contains(lower, "image-set(") || strings.Contains(lower, "src(")
}
