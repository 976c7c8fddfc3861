package page_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"lubberline.example/angle/page"
)

// A figure that is no drawing is refused with a typed error of few words, and nothing is
// written.
func TestHostileFigures(t *testing.T) {
	const size = 1 << 20
	long := strings.Repeat("x", size)
	for name, figure := range map[string]string{
		"one NUL": "\x00", "a NUL within": "<svg>\x00</svg>", "not UTF-8": "<svg>\xff</svg>", "UTF-16": "\xff\xfe<\x00s\x00",
		"long text": long, "a long name": "<" + long + "/>", "a long name closed by another": "<svg><" + long + "></y></svg>",
		"a long attribute": `<svg href="` + long + `"/>`, "a long name of an attribute": "<svg on" + long + `="1"/>`,
		"deep": strings.Repeat("<svg>", 1_000_000), "deep and closed": strings.Repeat("<svg>", 2000) + strings.Repeat("</svg>", 2000),
		"laughs":                  `<!DOCTYPE svg [<!ENTITY a "ha"><!ENTITY b "&a;&a;">]><svg>&b;</svg>`,
		"a declaration within":    `<svg><!DOCTYPE svg></svg>`,
		"not closed":              "<svg>" + long,
		"a comment not closed":    "<svg><!--" + long,
		"more than a page can be": "<svg>" + strings.Repeat(" ", 16<<20) + "</svg>",
	} {
		var b bytes.Buffer
		err := page.Write(&b, page.Page{Parts: []page.Part{{Figure: figure, FigureText: "a drawing"}}})
		if e, ok := errors.AsType[*page.Error](err); !ok || e.Part != 1 || len(err.Error()) > 1000 || b.Len() > 0 {
			t.Errorf("%s: %.300v, %d bytes written", name, err, b.Len())
		}
	}
	var b bytes.Buffer
	err := page.Write(&b, page.Page{Language: long, Parts: nil})
	if _, ok := errors.AsType[*page.Error](err); !ok || len(err.Error()) > 500 {
		t.Errorf("a long language: %.300v", err)
	}
	for deep, fine := range map[int]bool{1000: true, 1001: false} { // as the refusal says
		figure := strings.Repeat("<svg>", deep) + strings.Repeat("</svg>", deep)
		if err := page.Write(&b, page.Page{Parts: []page.Part{{Figure: figure, FigureText: "a drawing"}}}); (err == nil) != fine {
			t.Errorf("%d elements within each other: %v", deep, err)
		}
	}
	if err := page.Write(&b, page.Page{Parts: []page.Part{{Figure: "<svg>" + long + strings.Repeat("<g>", 900) + strings.Repeat("</g>", 900) + "</svg>", FigureText: "a drawing"}}}); err != nil {
		t.Errorf("a large drawing: %.300v", err)
	}
}
