package drawing_test

import (
	"bytes"
	"encoding/xml"
	"io"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle/drawing"
)

// textBoxes returns the boxes of the texts of a figure, as wide as package drawing takes them.
func textBoxes(t interface{ Fatal(...any) }, s *drawing.Sheet) (boxes []drawing.Box, texts []string) {
	var b bytes.Buffer
	if err := s.WriteSVG(&b, drawing.Figure); err != nil {
		t.Fatal(err)
	}
	var at drawing.Spot
	size := drawing.Letters
	inText := false
	for d := xml.NewDecoder(&b); ; {
		token, err := d.Token()
		if err == io.EOF {
			return boxes, texts
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			inText = e.Name.Local == "text"
			for _, a := range e.Attr {
				switch f, _ := strconv.ParseFloat(a.Value, 64); a.Name.Local {
				case "x":
					at.X = f
				case "y":
					at.Y = f
				case "font-size":
					size = f
				}
			}
		case xml.CharData:
			if inText {
				boxes, texts = append(boxes, boxOf(at, string(e), size)), append(texts, string(e))
			}
		case xml.EndElement:
			inText = false
		}
	}
}

// TestRuledTextsStayInTheirCells draws random tables. Each text stands in its own cell, so no
// two meet. An empty cell has no text.
func TestRuledTextsStayInTheirCells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		widths := rapid.SliceOfN(rapid.Float64Range(9, 60), 1, 8).Draw(t, "widths")
		line := rapid.Float64Range(5, 20).Draw(t, "line")
		row := rapid.SliceOfN(rapid.StringMatching(`([a-zA-Z0-9°′.]{1,12}|Ωμέγα|北|عرض|ประภาคาร|प्रकाश|ཕྱོགས| ){0,8}`), 0, len(widths))
		rows := rapid.SliceOfN(row, 1, 6).Draw(t, "rows")
		s := drawing.New(500, 200, "", "")
		at := drawing.At(3, 4)
		box := s.Ruled(at, line, widths, rows...)
		boxes, texts := textBoxes(t, s)
		right := at.X
		for _, w := range widths {
			right += w
		}
		if box.Left != at.X || box.Top != at.Y || box.Right != right {
			t.Fatalf("the box is %v", box)
		}
		head := box.Bottom - line*float64(len(rows)-1) - at.Y
		written := map[[2]int]bool{}
		for k, b := range boxes {
			column, x := 0, at.X
			for column < len(widths)-1 && b.Left >= x+widths[column] {
				x += widths[column]
				column++
			}
			i, y, height := 0, at.Y, head
			if b.Bottom > at.Y+head {
				i = 1 + int((b.Bottom-0.05-at.Y-head)/line)
				y, height = at.Y+head+line*float64(i-1), line
			}
			cell := drawing.Box{Left: x, Top: y, Right: x + widths[column], Bottom: y + height}
			if !b.Within(cell.Grown(0.02)) {
				t.Fatalf("%q in %v is not within its cell %v", texts[k], b, cell)
			}
			written[[2]int{i, column}] = true
			for m := range k {
				if b.Grown(-0.02).Meets(boxes[m].Grown(-0.02)) {
					t.Fatalf("%q and %q meet", texts[k], texts[m])
				}
			}
		}
		for i, row := range rows {
			for j, text := range row {
				if (strings.TrimSpace(text) != "") != written[[2]int{i, j}] {
					t.Fatalf("cell %d, %d with %q", i, j, text)
				}
			}
		}
	})
}

// TestWideTableStandsAsBlocks draws random tables on a sheet that is narrower. No text is lost,
// none meets another, all are on the sheet, and no letters are too small for a small screen.
func TestWideTableStandsAsBlocks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		columns := rapid.IntRange(3, 14).Draw(t, "columns")
		widths := make([]float64, columns)
		for j := range widths {
			widths[j] = 40
		}
		row := rapid.SliceOfN(rapid.StringMatching(`([a-zA-Z0-9°′.]{1,40}|Ωμέγα|北|عرض|ประภาคาร|प्रकाश| ){0,20}`), 0, columns+1)
		rows := rapid.SliceOfN(row, 2, 6).Draw(t, "rows")
		const width = 92
		s := drawing.New(width, 4000, "", "")
		box := s.Ruled(drawing.At(0.3, 4), 8, widths, rows...)
		s.SetHeight(box.Bottom + 1)
		var want, got strings.Builder
		for _, r := range rows[1:] {
			for _, text := range r[:min(len(r), columns)] {
				want.WriteString(strings.Join(strings.Fields(text), ""))
			}
		}
		var values struct {
			Texts []struct {
				Class string `xml:"class,attr"`
				Text  string `xml:",chardata"`
			} `xml:"text"`
		}
		var svg bytes.Buffer
		if err := s.WriteSVG(&svg, drawing.Figure); err != nil {
			t.Fatal(err)
		}
		if err := xml.Unmarshal(svg.Bytes(), &values); err != nil {
			t.Fatal(err)
		}
		for _, v := range values.Texts {
			if v.Class == "value" {
				got.WriteString(strings.Join(strings.Fields(v.Text), ""))
			}
		}
		if got.String() != want.String() {
			t.Fatalf("%q became %q", want.String(), got.String())
		}
		if strings.Contains(svg.String()[strings.Index(svg.String(), "<rect"):], "font-size") {
			t.Fatal("letters have a size of their own")
		}
		boxes, texts := textBoxes(t, s)
		for i, b := range boxes {
			if !b.Within(drawing.Box{Left: 0.3, Top: 4, Right: width - 0.3, Bottom: box.Bottom}.Grown(0.02)) {
				t.Fatalf("%q in %v is not within %v", texts[i], b, box)
			}
			for k := range i {
				if b.Grown(-0.02).Meets(boxes[k].Grown(-0.02)) {
					t.Fatalf("%q and %q meet", texts[i], texts[k])
				}
			}
		}
	})
	if px := drawing.Letters * 320 / 92; px < 9 {
		t.Errorf("letters are %.1f pixels on a screen of 320", px)
	}
}

// TestRuledWithoutRowsIsEmpty draws what has no rows, or no columns.
func TestRuledWithoutRowsIsEmpty(t *testing.T) {
	s := drawing.New(100, 100, "", "")
	if box := s.Ruled(drawing.At(1, 2), 8, []float64{10}); box.Bottom != 2 || box.Right != 11 {
		t.Errorf("%v", box)
	}
	if box := s.Ruled(drawing.At(1, 2), 8, nil, []string{"a"}, []string{"b"}); box.Right != 1 {
		t.Errorf("%v", box)
	}
	if _, texts := textBoxes(t, s); len(texts) != 0 {
		t.Errorf("%q", texts)
	}
}
