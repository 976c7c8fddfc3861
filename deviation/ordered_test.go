package deviation_test

import (
	"errors"
	"math"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation"
)

// bowl is a table of B degrees times the sine of the heading, every 15°.
func bowl[H deviation.TableHeading](b float64, heading func(angle.Angle) H) *deviation.Table {
	var rows []deviation.Row[H]
	for a := angle.Angle(0); a < angle.Turn; a += 15 * angle.Degree {
		d := angle.Must(angle.Degrees(b * a.Sin()))
		rows = append(rows, deviation.Row[H]{Heading: heading(a), Deviation: deviation.East(d)})
	}
	return angle.Must(deviation.NewTable(rows))
}

// A deviation of B sin z turns by B radians per radian at most: beyond 57.3° two
// compass headings can have one magnetic heading.
func TestOrderedTablesAreNeverAmbiguous(t *testing.T) {
	for _, test := range []struct {
		b    float64
		want bool
	}{{0, true}, {5, true}, {40, true}, {70, false}, {-70, false}} {
		for _, table := range []*deviation.Table{
			bowl(test.b, angle.CompassFrom), bowl(test.b, angle.CompassFrom).Smooth(),
			bowl(test.b, angle.MagneticFrom), bowl(test.b, angle.MagneticFrom).Smooth(),
		} {
			if table.Ordered() != test.want {
				t.Errorf("B %v, by %v, smooth %v: ordered %v", test.b, table.By(), table.IsSmooth(), table.Ordered())
			}
			ambiguous := false
			for a := angle.Angle(0); a < angle.Turn; a += angle.Degree / 2 {
				_, err1 := table.OnCompass(angle.CompassFrom(a))
				_, err2 := table.OnMagnetic(angle.MagneticFrom(a))
				for _, err := range []error{err1, err2} {
					_, is := errors.AsType[*deviation.AmbiguousHeadingError](err)
					ambiguous = ambiguous || is
				}
			}
			if ambiguous == test.want {
				t.Errorf("B %v, by %v, smooth %v: ambiguous headings %v", test.b, table.By(), table.IsSmooth(), ambiguous)
			}
		}
	}
}

func TestEmptyTableReturnsError(t *testing.T) {
	for _, table := range []*deviation.Table{nil, {}} {
		if table.Ordered() {
			t.Error("ordered")
		}
		_, err1 := table.OnCompass(angle.Compass{})
		_, err2 := table.OnMagnetic(angle.Magnetic{})
		_, err3 := table.ExplainDeviation(angle.Compass{})
		for _, err := range []error{err1, err2, err3} {
			if e, ok := errors.AsType[*deviation.Error](err); !ok || e.Kind != deviation.NoRows {
				t.Errorf("got %v", err)
			}
		}
	}
	if !(math.Abs(angle.Must(bowl(5, angle.CompassFrom).OnCompass(angle.MustParseCompass("090"))).Degrees()-5) < 1e-9) { // the row itself
		t.Error("the table of this test is not what it says")
	}
}
