package drawing_test

import (
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle/drawing"
)

func TestBoxes(t *testing.T) {
	box := drawing.Box{Left: 10, Top: 20, Right: 30, Bottom: 40}
	for name, test := range map[string]struct {
		other                drawing.Box
		meets, within, holds bool // the other is within the box; the box holds its middle
	}{
		"itself":            {box, true, true, true},
		"inside":            {box.Grown(-1), true, true, true},
		"outside":           {box.Grown(1), true, false, true},
		"over the left":     {drawing.Box{Left: 5, Top: 25, Right: 11, Bottom: 30}, true, false, false},
		"over the right":    {drawing.Box{Left: 29, Top: 25, Right: 35, Bottom: 30}, true, false, false},
		"over the top":      {drawing.Box{Left: 15, Top: 15, Right: 20, Bottom: 21}, true, false, false},
		"over the bottom":   {drawing.Box{Left: 15, Top: 39, Right: 20, Bottom: 45}, true, false, false},
		"touching":          {drawing.Box{Left: 30, Top: 20, Right: 40, Bottom: 40}, false, false, false},
		"above":             {drawing.Box{Left: 10, Top: 0, Right: 30, Bottom: 19}, false, false, false},
		"to the left":       {drawing.Box{Left: 0, Top: 20, Right: 9, Bottom: 40}, false, false, false},
		"below":             {drawing.Box{Left: 10, Top: 41, Right: 30, Bottom: 50}, false, false, false},
		"a spot on an edge": {drawing.Around(drawing.At(30, 40), 0, 0), false, true, true},
	} {
		middle := drawing.At((test.other.Left+test.other.Right)/2, (test.other.Top+test.other.Bottom)/2)
		if got := box.Meets(test.other); got != test.meets {
			t.Errorf("%s: meets %v", name, got)
		}
		if got := test.other.Within(box); got != test.within {
			t.Errorf("%s: within %v", name, got)
		}
		if got := box.Holds(middle); got != test.holds {
			t.Errorf("%s: holds %v", name, got)
		}
	}
}

func TestSpotsAndBoxesAboutThem(t *testing.T) {
	if got, want := drawing.At(1, 2).Moved(3, -5), (drawing.Spot{X: 4, Y: -3}); got != want {
		t.Errorf("moved to %v, want %v", got, want)
	}
	if got, want := drawing.Around(drawing.At(10, 20), 3, 1.5), (drawing.Box{Left: 7, Top: 18.5, Right: 13, Bottom: 21.5}); got != want {
		t.Errorf("around: %v, want %v", got, want)
	}
}

func drawBox(t *rapid.T, name string) drawing.Box {
	side := rapid.IntRange(0, 20)
	b := drawing.Box{Left: float64(side.Draw(t, name+" left")), Top: float64(side.Draw(t, name+" top"))}
	b.Right, b.Bottom = b.Left+1+float64(side.Draw(t, name+" width")), b.Top+1+float64(side.Draw(t, name+" height"))
	return b
}

// Two boxes meet, either way round, where a square of the grid lies in both.
func TestBoxesMeetWhereTheyShareASquare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawBox(t, "first"), drawBox(t, "second")
		shared, covered := false, true
		for x := range 42 {
			for y := range 42 {
				middle := drawing.At(float64(x)+0.5, float64(y)+0.5)
				shared = shared || a.Holds(middle) && b.Holds(middle)
				covered = covered && (!a.Holds(middle) || b.Holds(middle))
			}
		}
		if a.Meets(b) != shared || b.Meets(a) != shared || a.Within(b) != covered {
			t.Fatalf("%v and %v: meet %v and %v, within %v", a, b, a.Meets(b), b.Meets(a), a.Within(b))
		}
	})
}
