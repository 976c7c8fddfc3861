package signs_test

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/course/signs"
)

// svg returns what is drawn as a figure.
func svg(t *testing.T, s *drawing.Sheet) string {
	t.Helper()
	var b bytes.Buffer
	if err := s.WriteSVG(&b, drawing.Figure); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// line draws one line, 60 mm to the right.
func line(t *testing.T, usage signs.Usage, l signs.Line) string {
	t.Helper()
	s := drawing.New(100, 40, "", "")
	labels := &drawing.Labels{Room: drawing.Box{Right: 100, Bottom: 40}}
	pen := signs.Pen{Sheet: s, Usage: usage, Labels: labels}
	l.Path = []drawing.Spot{drawing.At(20, 20), drawing.At(80, 20)}
	pen.Line(l)
	if left := labels.Draw(s); left != nil {
		t.Errorf("not placed: %v", left)
	}
	return svg(t, s)
}

// The Commonwealth usage counts arrowheads, as taught in a public
// text of nautical science: common practice.
func TestArrowheads(t *testing.T) {
	for kind, want := range map[signs.LineKind][2]int{
		signs.WaterTrack:      {1, 0},
		signs.Heading:         {0, 0},
		signs.GroundTrack:     {2, 0},
		signs.Stream:          {3, 1},
		signs.BearingLine:     {1, 0},
		signs.RangeLine:       {2, 0},
		signs.TransferredLine: {4, 0},
		signs.ClearingLine:    {0, 0},
	} {
		for i, usage := range []signs.Usage{signs.Commonwealth, signs.UnitedStates} {
			if got := strings.Count(line(t, usage, signs.Line{Kind: kind}), `class="arrowhead"`); got != want[i] {
				t.Errorf("%s, %s: %d arrowheads, want %d", kind, usage, got, want[i])
			}
		}
	}
}

func TestTextsOfLines(t *testing.T) {
	for _, test := range []struct {
		line                   signs.Line
		commonwealth, american string
	}{
		{signs.Line{Kind: signs.WaterTrack, Direction: "049°T", Speed: "5.5 kn"}, "049°T 5.5 kn", "C 049°T|S 5.5 kn"},
		{signs.Line{Kind: signs.GroundTrack, Direction: "049°T", Speed: "5.5 kn", Note: "9.3 M"}, "049°T 5.5 kn|9.3 M", "TR 049°T|SOA 5.5 kn, 9.3 M"},
		{signs.Line{Kind: signs.Stream, Direction: "215°T", Speed: "0.8 kn"}, "215°T (0.8 kn)", "SET 215°T|DRIFT 0.8 kn"},
		{signs.Line{Kind: signs.BearingLine, Direction: "215°T", Time: "1030"}, "1030 215°T", "1030|215°T"},
		{signs.Line{Kind: signs.TransferredLine, Direction: "215°T", Time: "1030–1100"}, "1030–1100 215°T", "1030–1100|215°T"},
		{signs.Line{Kind: signs.ClearingLine, Direction: "215°T", Note: "NMT", Danger: angle.Port}, "NMT 215°T", "NMT 215°T"},
	} {
		for usage, want := range map[signs.Usage]string{signs.Commonwealth: test.commonwealth, signs.UnitedStates: test.american} {
			var got []string
			for part := range strings.SplitSeq(line(t, usage, test.line), "</text>") {
				if i := strings.LastIndex(part, ">"); strings.Contains(part, "<text") {
					got = append(got, part[i+1:])
				}
			}
			if s := strings.Join(got, "|"); s != want {
				t.Errorf("%s, %s: %q, want %q", test.line.Kind, usage, s, want)
			}
		}
	}
}

func TestLegendNamesUsageAndKinds(t *testing.T) {
	pen := signs.Pen{Sheet: drawing.New(100, 40, "", ""), Usage: signs.UnitedStates}
	pen.Mark(signs.Mark{Kind: signs.Fix, At: drawing.At(10, 10), Time: "1030"})
	pen.Line(signs.Line{Kind: signs.Stream, Path: []drawing.Spot{drawing.At(10, 10), drawing.At(20, 10)}})
	pen.Line(signs.Line{Kind: signs.GroundTrack, Path: []drawing.Spot{drawing.At(10, 10), drawing.At(10, 10)}}) // without length
	want := "Signs of the United States (common practice)|tidal stream or current (SET, DRIFT)|fix"
	if got := strings.Join(pen.Legend(), "|"); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	pen.Key(drawing.At(50, 5), 80)
	if got := strings.Join(pen.Legend(), "|"); got != want {
		t.Errorf("after the key: %q, want %q", got, want)
	}
}

func TestUsages(t *testing.T) {
	for text, want := range map[string]signs.Usage{"": signs.Commonwealth, "commonwealth": signs.Commonwealth, "united-states": signs.UnitedStates} {
		if got, err := signs.ParseUsage(text); got != want || err != nil {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	if _, err := signs.ParseUsage("both"); err == nil {
		t.Error("read both")
	} else if _, ok := errors.AsType[*angle.ParseError](err); !ok {
		t.Errorf("%T", err)
	}
}

// Two lines that cross in their middles would have their texts on each other. With labels each
// text stands clear of the other line, its arrowheads and the mark.
func TestTextsOfCrossingLinesStandApart(t *testing.T) {
	s := drawing.New(100, 100, "", "")
	labels := drawing.Labels{Room: drawing.Box{Right: 100, Bottom: 100}}
	pen := signs.Pen{Sheet: s, Labels: &labels}
	pen.Line(signs.Line{Kind: signs.WaterTrack, Path: []drawing.Spot{drawing.At(10, 50), drawing.At(90, 50)}, Direction: "090°T", Speed: "5.5 kn"})
	pen.Line(signs.Line{Kind: signs.ClearingLine, Path: []drawing.Spot{drawing.At(50, 90), drawing.At(50, 10)}, Direction: "000°T", Note: "NMT", Danger: angle.Port})
	pen.Mark(signs.Mark{Kind: signs.Fix, At: drawing.At(50, 50), Time: "1030"})
	pen.Mark(signs.Mark{Kind: signs.Wind, At: drawing.At(20, 20)})
	if left := labels.Draw(s); len(left) > 0 {
		t.Errorf("no room for %v", left)
	}
	got := svg(t, s)
	for _, want := range []string{">090°T 5.5 kn<", ">NMT 000°T<", ">1030<", ">wind<"} {
		if strings.Count(got, want) != 1 {
			t.Errorf("no %s in %s", want, got)
		}
	}
}

// Each mark has its own sign in each usage, as reference texts of both usages teach: common
// practice.
func TestMarksAndTheirTexts(t *testing.T) {
	for _, test := range []struct {
		kind        signs.MarkKind
		usage       signs.Usage
		shape, text string
		way         float64
	}{
		{signs.DeadReckoning, signs.Commonwealth, "<line ", "1130", 45},
		{signs.DeadReckoning, signs.UnitedStates, `<path d="M`, "1130", 45},
		{signs.DeadReckoning, signs.UnitedStates, `<path d="M`, "1130", 120},
		{signs.Estimated, signs.Commonwealth, "<polygon ", "EP 1130", 0},
		{signs.Estimated, signs.UnitedStates, "<polygon ", "1130 EP", 0},
		{signs.Fix, signs.Commonwealth, `r="1.70"`, "1130", 0},
		{signs.RunningFix, signs.Commonwealth, `r="1.70"`, "R Fix 1130", 0},
		{signs.RunningFix, signs.UnitedStates, `r="1.70"`, "1130 R FIX", 0},
		{signs.Wind, signs.Commonwealth, `class="wind"`, "wind", 300},
		{"landmark", signs.Commonwealth, `r="0.35"`, "", 0},
	} {
		s := drawing.New(100, 100, "", "")
		labels := drawing.Labels{Room: drawing.Box{Right: 100, Bottom: 100}}
		pen := signs.Pen{Sheet: s, Usage: test.usage, Labels: &labels}
		pen.Mark(signs.Mark{Kind: test.kind, At: drawing.At(50, 50), Time: "1130", Way: test.way})
		if left := labels.Draw(s); len(left) > 0 {
			t.Errorf("%s: no room for %v", test.kind, left)
		}
		if got := svg(t, s); !strings.Contains(got, test.shape) || !strings.Contains(got, ">"+test.text+"<") && test.text != "" {
			t.Errorf("%s, %s: no %s or no %q in %s", test.kind, test.usage, test.shape, test.text, got)
		}
	}
}

// Lines without length and numbers that are not finite draw nothing, and do not hang.
func TestLinesWithoutLengthAreNotDrawn(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, path := range [][]drawing.Spot{nil, {{X: 1, Y: 1}}, {{X: 1, Y: 1}, {X: 1, Y: 1}}, {{X: inf, Y: 1}, {X: 1, Y: 1}}, {{X: nan, Y: 1}, {X: 1, Y: 1}}} {
		s := drawing.New(100, 100, "", "")
		empty := svg(t, s)
		pen := signs.Pen{Sheet: s}
		pen.Line(signs.Line{Kind: signs.ClearingLine, Path: path, Danger: angle.Port})
		if svg(t, s) != empty || len(pen.Legend()) != 1 {
			t.Errorf("%v is drawn", path)
		}
	}
	for _, m := range []signs.Mark{{At: drawing.Spot{X: nan}}, {At: drawing.Spot{Y: inf}}, {Way: nan}, {Way: -inf}} {
		for _, kind := range []signs.MarkKind{signs.DeadReckoning, signs.Fix, signs.Wind} {
			s := drawing.New(100, 100, "", "")
			empty := svg(t, s)
			pen := signs.Pen{Sheet: s}
			m.Kind = kind
			pen.Mark(m)
			if svg(t, s) != empty || len(pen.Legend()) != 1 {
				t.Errorf("%+v is drawn", m)
			}
		}
	}
}

func TestNilPenDrawsNothing(t *testing.T) {
	var none *signs.Pen
	none.Line(signs.Line{Path: []drawing.Spot{{}, {X: 5}}})
	none.Mark(signs.Mark{})
	if none.Key(drawing.Spot{}, 80) != 0 || none.Legend() != nil {
		t.Error("a nil pen has signs")
	}
	var zero signs.Pen // without a sheet
	zero.Line(signs.Line{Path: []drawing.Spot{{}, {X: 5}}})
	zero.Mark(signs.Mark{Way: math.NaN()})
	zero.Key(drawing.Spot{}, math.Inf(1))
}
