package drawing_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle/drawing"
	"lubberline.example/angle/internal/oneline"
)

type fails interface {
	Helper()
	Fatal(...any)
	Fatalf(string, ...any)
}

// written is the sheet's elements, without what every sheet begins and ends with.
func written(t fails, s *drawing.Sheet) string {
	t.Helper()
	var b bytes.Buffer
	if err := s.WriteSVG(&b, drawing.Figure); err != nil {
		t.Fatal(err)
	}
	_, rest, begun := strings.Cut(b.String(), `fill="white"/>`+"\n")
	rest, ended := strings.CutSuffix(rest, "</svg>\n")
	if !begun || !ended {
		t.Fatalf("no beginning or no end: %s", b.String())
	}
	return rest
}

func blank() *drawing.Sheet { return drawing.New(180, 250, "Orlesk Bay", "Nothing.") }

func TestHeightIsSetAfterDrawing(t *testing.T) {
	(*drawing.Sheet)(nil).SetHeight(1) // as the other methods
	drawn := func(height float64) string {
		s := drawing.New(180, height, "Orlesk Bay", "Nothing.")
		s.Text(drawing.At(1, 60.5), "", "The foot")
		s.SetHeight(61.257)
		var b bytes.Buffer
		if err := s.WriteSVG(&b, drawing.Figure); err != nil {
			t.Fatal(err)
		}
		return b.String()
	}
	if got := drawn(0); got != drawn(250) || !strings.Contains(got, `viewBox="0 0 180 61.26"`) {
		t.Errorf("height 61.26 expected:\n%s", got)
	}
}

func TestElements(t *testing.T) {
	a, b := drawing.At(1, 2.345), drawing.At(-0.001, 40.006)
	box := drawing.Box{Left: 10, Top: 20, Right: 40.5, Bottom: 60}
	for name, test := range map[string]struct {
		draw func(*drawing.Sheet)
		want string
	}{
		"line":      {func(s *drawing.Sheet) { s.Line(a, b, `stroke="black"`) }, `<line x1="1.00" y1="2.35" x2="0.00" y2="40.01" stroke="black"/>`},
		"polyline":  {func(s *drawing.Sheet) { s.Polyline("curve", `fill="none"`, []drawing.Spot{a, b}) }, `<polyline class="curve" fill="none" points="1.00,2.35 0.00,40.01"/>`},
		"polygon":   {func(s *drawing.Sheet) { s.Polygon("hat", `fill="none"`, []drawing.Spot{a, b, a}) }, `<polygon class="hat" fill="none" points="1.00,2.35 0.00,40.01 1.00,2.35"/>`},
		"no points": {func(s *drawing.Sheet) { s.Polyline("curve", `fill="none"`, nil) }, `<polyline class="curve" fill="none" points=""/>`},
		"rectangle": {func(s *drawing.Sheet) { s.Rectangle(box, `fill="none"`) }, `<rect x="10.00" y="20.00" width="30.50" height="40.00" fill="none"/>`},
		"text":      {func(s *drawing.Sheet) { s.Text(a, "", "a b") }, `<text x="1.00" y="2.35">a b</text>`},
		"styled":    {func(s *drawing.Sheet) { s.Text(a, `font-weight="bold"`, "a") }, `<text x="1.00" y="2.35" font-weight="bold">a</text>`},
		"put":       {func(s *drawing.Sheet) { s.Put(`<circle r="%.2f" id="%s-%d"/>`, -0.004, "c", 3) }, `<circle r="0.00" id="c-3"/>`},
		"clip": {func(s *drawing.Sheet) { s.Clip("panel", box, func() { s.Line(a, a, `stroke="black"`) }) }, `<svg class="panel" x="10.00" y="20.00" width="30.50" height="40.00" viewBox="10.00 20.00 30.50 40.00" style="width:30.50px;height:40.00px;overflow:hidden">
<line x1="1.00" y1="2.35" x2="1.00" y2="2.35" stroke="black"/>
</svg>`},
	} {
		s := blank()
		test.draw(s)
		if got := written(t, s); got != test.want+"\n" {
			t.Errorf("%s:\n%swant\n%s", name, got, test.want)
		}
	}
}

func TestAFigureIsTheBodyAlone(t *testing.T) {
	sheet := drawing.New(120, 88.255, "A & B", "x < y")
	if got := sheet.Description(); got != "x < y" {
		t.Errorf("the description is %q", got)
	}
	sheet.Caution("Not for navigation.")
	var b bytes.Buffer
	if err := sheet.WriteSVG(&b, drawing.Figure); err != nil {
		t.Fatal(err)
	}
	want := `<svg xmlns="http://www.w3.org/2000/svg" class="lubberline-figure" role="img" width="100%" style="max-width:160mm" viewBox="0 0 120 88.26" font-family="sans-serif" font-size="2.7">
<title>A &amp; B</title>
<desc>x &lt; y</desc>
<style>@media screen and (prefers-color-scheme:dark){.lubberline-figure{filter:invert(.93) hue-rotate(180deg)}}</style>
<rect width="120" height="88.26" fill="white"/>
</svg>
`
	if b.String() != want {
		t.Errorf("%s\nwant\n%s", b.String(), want)
	}
}

// A plate has the smallest paper that holds the body at full scale, with its title and its
// caution, and prints on one page.
func TestAPlateIsOnePageAtFullScale(t *testing.T) {
	for _, test := range []struct {
		width, height float64
		paper         string
	}{
		{90, 90, "210mm 297mm"}, {190, 260, "210mm 297mm"}, {191, 100, "297mm 210mm"}, {190, 262, "297mm 420mm"},
		{277, 383, "297mm 420mm"}, {400, 250, "420mm 297mm"}, {400, 557, "420mm 594mm"}, {574, 380, "594mm 420mm"},
		{700.5, 500, "721mm 537mm"}, {10, 2000, "210mm 2037mm"},
	} {
		sheet := drawing.New(test.width, test.height, "Orlesk Bay", "Nothing.")
		sheet.Caution("Not for navigation.")
		sheet.Line(drawing.At(0, 0), drawing.At(test.width, test.height), `class="diagonal"`)
		var b bytes.Buffer
		if err := sheet.WriteSVG(&b, drawing.Plate); err != nil {
			t.Fatal(err)
		}
		var read struct {
			Width   string  `xml:"width,attr"`
			Height  string  `xml:"height,attr"`
			ViewBox string  `xml:"viewBox,attr"`
			Style   string  `xml:"style"`
			Texts   []above `xml:"text"`
			Body    struct {
				Transform string `xml:"transform,attr"`
			} `xml:"g"`
		}
		if err := xml.Unmarshal(b.Bytes(), &read); err != nil {
			t.Fatal(err)
		}
		var w, h, left, top float64
		if _, err := fmt.Sscanf(read.ViewBox, "0 0 %g %g", &w, &h); err != nil {
			t.Fatal(err)
		}
		if _, err := fmt.Sscanf(read.Body.Transform, "translate(%g %g)", &left, &top); err != nil {
			t.Fatal(err)
		}
		if paper := read.Width + " " + read.Height; paper != test.paper || paper != fmt.Sprintf("%gmm %gmm", w, h) || !strings.Contains(read.Style, "@page{size:"+paper+";margin:0}") {
			t.Errorf("%v by %v: paper %s, view box %s, style %s", test.width, test.height, paper, read.ViewBox, read.Style)
		}
		var low, middle, scale, bodyScale, right, down float64
		_, printed, _ := strings.Cut(read.Style, "@media print{")
		if _, err := fmt.Sscanf(strings.ReplaceAll(printed, "px", " px"), "svg:root{height:%gmm}svg:root>*{transform-origin:%g px 0;transform:scale(%g)}svg:root>.body{transform:scale(%g) translate(%g px,%g px)}}", &low, &middle, &scale, &bodyScale, &right, &down); err != nil {
			t.Fatal(err, printed)
		}
		// A browser fits the view box into the lower height, in the middle of the width: as much less as scale is more.
		if low >= h || math.Abs(low*scale-h) > 1e-4 || scale != bodyScale || middle != w/2 || right != left || down != top {
			t.Errorf("%v by %v: printed %v mm high at %v, about %v, the body at %v, %v", test.width, test.height, low, scale, middle, right, down)
		}
		if left < 10 || left+test.width > w-9.99 || len(read.Texts) != 2 || read.Texts[0].Y > top || read.Texts[1].Y < top+test.height+2.7 || read.Texts[1].Y > h-10 {
			t.Errorf("%v by %v: body at %v, %v, texts %v on %s", test.width, test.height, left, top, read.Texts, test.paper)
		}
	}
}

// above is a text of a plate outside its body.
type above struct {
	Y    float64 `xml:"y,attr"`
	Text string  `xml:",chardata"`
}

func TestFormOrWriterIsMissing(t *testing.T) {
	for name, err := range map[string]error{
		"nil writer": blank().WriteSVG(nil, drawing.Plate), "no form": blank().WriteSVG(io.Discard, ""), "unknown": blank().WriteSVG(io.Discard, "poster"),
	} {
		if !errors.Is(err, fs.ErrInvalid) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Two drawings on one page must not share an id: the second would be cut off by the
// first one's box.
func TestDrawingHasNoIDs(t *testing.T) {
	s := blank()
	s.Clip("panel", drawing.Box{Left: 10, Top: 20, Right: 30, Bottom: 40}, func() { s.Text(drawing.At(1, 1), "", "a") })
	if got := written(t, s); strings.Contains(got, " id=") || strings.Contains(got, "url(") {
		t.Error(got)
	}
}

func TestPutLeavesItsArguments(t *testing.T) {
	args := []any{1.23456}
	blank().Put(`<circle r="%v"/>`, args...)
	if args[0] != 1.23456 {
		t.Errorf("became %v", args[0])
	}
}

func TestASheetCanBeWrittenTwice(t *testing.T) {
	s := blank()
	s.Text(drawing.At(0, 0), "", "a")
	first := written(t, s)
	s.Text(drawing.At(0, 0), "", "b")
	if got, want := written(t, s), first+`<text x="0.00" y="0.00">b</text>`+"\n"; got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
}

// full is a writer that takes nothing.
type full struct{ calls int }

var errFull = errors.New("full")

func (f *full) Write([]byte) (int, error) { f.calls++; return 0, errFull }

func TestTheWritersErrorComesBack(t *testing.T) {
	f := &full{}
	if err := blank().WriteSVG(f, drawing.Plate); err != errFull || f.calls != 1 {
		t.Errorf("error %v after %d calls", err, f.calls)
	}
}

// With any text the sheet is XML, and the text stays in its element.
func TestTextsStayInTheirElements(t *testing.T) {
	check := func(t fails, text string) {
		t.Helper()
		s := drawing.New(180, 250, text, text)
		s.Text(drawing.At(10, 10), "", text)
		var b bytes.Buffer
		if err := s.WriteSVG(&b, drawing.Figure); err != nil {
			t.Fatal(err)
		}
		var read struct {
			Title string   `xml:"title"`
			Desc  string   `xml:"desc"`
			Texts []string `xml:"text"`
		}
		if err := xml.Unmarshal(b.Bytes(), &read); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		want := oneline.Of(text)
		if read.Title != want || read.Desc != want || len(read.Texts) != 1 || read.Texts[0] != want {
			t.Fatalf("%q: read back as %+v", text, read)
		}
		if n, want := strings.Count(b.String(), "<"), strings.Count(`<svg><title></title><desc></desc><style></style><rect/><text></text></svg>`, "<"); n != want {
			t.Fatalf("%q: %d tags, want %d", text, n, want)
		}
	}
	for _, text := range []string{"", "  ", `</text><script>alert("1")</script> & ']]>`, "\x00\xff\u202e\ufffe\uffff", "two\r\nlines\tand a tab", "&amp;", "羅針\U0010ffff"} {
		check(t, text)
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		if rapid.Bool().Draw(t, "bytes") {
			text = string(rapid.SliceOf(rapid.Byte()).Draw(t, "of"))
		}
		check(t, text)
	})
}

// Figures are rounded to a hundredth, and none is −0.
func TestFiguresAreRounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := rapid.Float64Range(-300, 300).Draw(t, "x"), rapid.Float64Range(-0.02, 0.02).Draw(t, "y")
		s := blank()
		s.Line(drawing.At(x, y), drawing.At(y, x), "")
		svg := written(t, s)
		if strings.Contains(svg, `"-0.00"`) {
			t.Fatal(svg)
		}
		var read struct {
			X1 float64 `xml:"x1,attr"`
			Y1 float64 `xml:"y1,attr"`
		}
		if err := xml.Unmarshal([]byte(svg), &read); err != nil {
			t.Fatal(err)
		}
		if math.Abs(read.X1-x) > 0.005000001 || math.Abs(read.Y1-y) > 0.005000001 { // half a hundredth, and binary fractions
			t.Fatalf("%v, %v written as %s", x, y, svg)
		}
	})
}

func FuzzText(f *testing.F) {
	for _, text := range []string{"Minnow Ledge beacon", "</text>", "\x00\xff\ufffe", "4°15′ W\nand more"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s := blank()
		s.Text(drawing.At(1, 1), "", text)
		svg := written(t, s)
		for d := xml.NewDecoder(strings.NewReader(svg)); ; {
			if _, err := d.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("%q: %v", text, err)
			}
		}
		if strings.Count(svg, "\n") != 1 {
			t.Fatalf("%q: not one line: %q", text, svg)
		}
	})
}

func TestSheetWithoutSizeIsRefused(t *testing.T) {
	for name, s := range map[string]*drawing.Sheet{
		"nil": nil, "zero": {}, "no width": drawing.New(0, 90, "", ""), "negative": drawing.New(90, -1, "", ""),
		"NaN": drawing.New(math.NaN(), 90, "", ""), "infinite": drawing.New(90, math.Inf(1), "", ""),
	} {
		s.Put("<g/>")
		s.Caution("x")
		s.Line(drawing.At(0, 0), drawing.At(1, 1), "")
		s.Clip("x", drawing.Box{}, func() {})
		var b bytes.Buffer
		for _, form := range []drawing.Form{drawing.Plate, drawing.Figure} {
			if err := s.WriteSVG(&b, form); !errors.Is(err, fs.ErrInvalid) || b.Len() != 0 {
				t.Errorf("%s, %s: %v, %d bytes", name, form, err, b.Len())
			}
		}
	}
}
