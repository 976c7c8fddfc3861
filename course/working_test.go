package course_test

import (
	"errors"
	"flag"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/internal/coursetest"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

var update = flag.Bool("update", false, "write the sheets to testdata as they are now; then read them")

// golden compares a sheet with the one kept in testdata.
func golden(t *testing.T, name string, sheet working.Sheet) {
	t.Helper()
	got := sheet.String()
	path := filepath.Join("testdata", name+".golden")
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		t.Errorf("%s (- kept, + now):\n%s", name, diff)
	}
}

// Conversions of directions that are written with their north.
var known, given, taken = coursetest.Known, coursetest.Heading, coursetest.Bearing

// sheetsOfHeadings are the sheets of headings that are kept, by their names.
func sheetsOfHeadings(t *testing.T) map[string]working.Sheet {
	with := func(v variation.Source) course.With {
		return course.With{Variation: v, Deviation: unsure(), At: &offOrlesk, On: day}
	}
	chart, blended := orleskChart(t), orleskChart(t)
	blended.Method = variation.Blended
	far := with(chart)
	far.At = new(angle.MustParsePosition("47°N 022°W"))
	sure := with(variation.MustParse("3°30′W ±0°30′"))
	sure.Deviation = quillon()
	read := sure
	read.Reading = sigma(deg)
	byMagnetic := sure
	byMagnetic.Deviation = angle.Must(deviation.ReadTable(strings.NewReader(strings.Replace(quillonCard, "compass", "magnetic", 1)))).Smooth()

	sheets := map[string]working.Sheet{}
	for _, c := range []struct {
		name, from string
		with       course.With
	}{
		{"heading-true-by-rose", "112T", with(orleskRose())},
		{"heading-compass-by-rose", "112C", with(orleskRose())},
		{"heading-magnetic-by-rose", "112M", with(orleskRose())},
		{"heading-true-by-chart", "227.5T", with(chart)},
		{"heading-true-by-blended-chart", "227.5T", with(blended)},
		{"heading-on-a-row", "090C", with(orleskRose())},
		{"heading-smooth-by-magnetic", "112T", byMagnetic},

		{"north-up-to-compass", "358T", known("4°15′W", "3°30′W")},
		{"north-down-to-compass", "002T", known("4°15′E", "3°30′E")},
		{"north-up-to-true", "358C", known("4°15′E", "3°30′E")},
		{"north-down-to-true", "002C", known("4°15′W", "3°30′W")},
		{"north-there-and-back", "358M", known("4°15′E", "3°30′W")},
		{"north-reached", "000T", known("0°30′W", "0°30′E")},
		{"north-reached-from-below", "357C", known("2°E", "1°E")},
		{"north-by-rounding", "355.2T", known("4°15′W", "0°10′W")},

		{"names-east-east", "112T", known("4°15′E", "3°30′E")},
		{"names-east-west", "112T", known("4°15′E", "3°30′W")},
		{"names-west-east", "112T", known("4°15′W", "3°30′E")},
		{"names-west-west", "112T", known("4°15′W", "3°30′W")},
		{"names-cancel", "112T", known("3°30′W", "3°30′E")},
		{"names-over-half-a-turn", "358T", known("150E", "35E")},
		{"zero-variation", "112C", known("0", "3°30′E")},
		{"zero-deviation", "112C", known("4°15′W", "0")},
		{"zero-both", "112C", known("0", "0")},

		{"uncertain", "112T", sure},
		{"uncertain-reading", "112C", read},
		{"warnings-old-rose", "112T", with(variation.MustParseLegend("11°20′W 1984 (7′E)"))},
		{"warnings-no-change", "112C", with(variation.MustParseLegend("3°50′W 2014"))},
		{"warnings-far-from-rose", "112T", far},
	} {
		sheets[c.name] = given(t, c.from, c.with).Working()
	}
	return sheets
}

// sheetsOfBearings are the sheets of bearings that are kept, by their names.
func sheetsOfBearings(t *testing.T) map[string]working.Sheet {
	w := course.With{Variation: orleskRose(), Deviation: unsure(), At: &offOrlesk, On: day}
	plain := course.With{Variation: variation.MustParse("2°W"), Deviation: unsure()}
	sure := course.With{Variation: variation.MustParse("3°30′W ±0°30′"), Deviation: quillon(), Reading: sigma(deg)}
	unread := sure
	unread.Reading = angle.Uncertainty{}
	old := w
	old.Variation = variation.MustParseLegend("11°20′W 1984 (7′E)")

	sheets := map[string]working.Sheet{}
	for _, c := range []struct {
		name, heading, bearing string
		with                   course.With
	}{
		{"bearing-compass", "045C", "300C", w},
		{"bearing-magnetic", "045C", "300M", w},
		{"bearing-true", "045C", "300T", w},
		{"bearing-relative", "045C", "300R", w},
		{"bearing-on-a-true-course", "045T", "300C", w},
		{"bearing-north-up", "045C", "359.5C", plain},
		{"bearing-north-down", "045C", "000.5M", plain},
		{"bearing-north-relative", "357C", "359R", known("2°E", "3°E")},
		{"bearing-uncertain-compass", "045C", "300C", sure},
		{"bearing-uncertain-magnetic", "045C", "300M", sure},
		{"bearing-uncertain-variation-only", "045C", "300M", unread},
		{"bearing-warnings", "045C", "300C", old},
		{"bearing-warnings-relative", "045C", "300R", old},
	} {
		sheets[c.name] = taken(given(t, c.heading, c.with), c.bearing).Working()
	}
	return sheets
}

func TestSheets(t *testing.T) {
	sheets := sheetsOfHeadings(t)
	maps.Copy(sheets, sheetsOfBearings(t))
	for name, sheet := range sheets {
		golden(t, name, sheet)
	}
	files, err := filepath.Glob(filepath.Join("testdata", "*.golden"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if _, ok := sheets[strings.TrimSuffix(filepath.Base(f), ".golden")]; !ok {
			t.Errorf("%s is a sheet that nothing is compared with", f)
		}
	}
}

func keys(s working.Steps) string {
	var k []string
	for _, step := range s {
		k = append(k, step.Key)
	}
	return strings.Join(k, ", ")
}

// Programs find the steps by their keys, in the order in which they are taken.
func TestKeysOfTheSteps(t *testing.T) {
	stated := course.With{Variation: variation.MustParse("3°30′W ±0°30′"), Deviation: quillon()}
	not := known("4°15′W", "3°30′W")
	for _, c := range []struct {
		sheet working.Sheet
		want  string
	}{
		{given(t, "112T", not).Working(), "true course, variation, magnetic course, deviation, compass course, compass error, course to steer"},
		{given(t, "112M", not).Working(), "magnetic course, deviation, compass course, variation, true course, compass error, course to steer"},
		{given(t, "112C", not).Working(), "compass course, deviation, magnetic course, variation, true course, compass error"},
		{given(t, "112T", stated).Working(), "true course, variation, magnetic course, deviation, compass course, compass error, uncertainty, course to steer"},
		{taken(given(t, "112C", not), "300C").Working(), "compass bearing, compass heading, deviation, magnetic bearing, variation, true bearing"},
		{taken(given(t, "112C", not), "300M").Working(), "magnetic bearing, variation, true bearing"},
		{taken(given(t, "112C", not), "300T").Working(), "true bearing, variation, magnetic bearing, compass heading, deviation, compass bearing"},
		{taken(given(t, "112C", not), "300R").Working(), "relative bearing, compass heading, deviation, variation, true heading, true bearing"},
		{taken(given(t, "112C", stated), "300M").Working(), "magnetic bearing, variation, true bearing, uncertainty"},
	} {
		if got := keys(c.sheet.Steps); got != c.want {
			t.Errorf("steps %s, want %s", got, c.want)
		}
		if c.sheet.Caution != working.Caution {
			t.Errorf("caution %q", c.sheet.Caution)
		}
	}
}

// The figures of the steps are those of the heading, not rounded; only the
// course to steer is.
func TestOnlySteerIsRounded(t *testing.T) {
	w := course.With{Variation: variation.MustParse("4°15.37′W"), Deviation: unsure()}
	h := given(t, "112.123456T", w)
	s := h.Working().Steps
	for key, want := range map[string]float64{
		"true course": h.True().Degrees(), "magnetic course": h.Magnetic().Degrees(), "compass course": h.Compass().Degrees(),
		"variation": h.Variation().Degrees(), "deviation": h.Deviation().Degrees(), "compass error": h.CompassError().Degrees(),
		"course to steer": h.Compass().Round(deg).Degrees(),
	} {
		if step, ok := s.Find(key); !ok || step.Number != want {
			t.Errorf("%s: %v (%t), want %v", key, step.Number, ok, want)
		}
	}
	for degrees, want := range map[string]string{"112.4T": "112°C", "112.5T": "113°C", "359.4T": "359°C", "359.5T": "000°C"} {
		step, ok := given(t, degrees, known("0", "0")).Working().Steps.Find("course to steer")
		if !ok || step.Value != want {
			t.Errorf("%s: steer %q, want %s", degrees, step.Value, want)
		}
	}
}

// A sum of exactly half a turn is named E.
func TestErrorOfHalfATurn(t *testing.T) {
	for _, w := range []course.With{known("150E", "30E"), known("150W", "30W")} {
		step, _ := given(t, "112T", w).Working().Steps.Find("compass error")
		if step.Value != "180°00′E" || step.How != "variation and deviation have the same name: added" {
			t.Errorf("got %s, %s", step.Value, step.How)
		}
	}
}

// bare has answers, but no working of its own.
type bare struct{}

func (bare) VariationAt(angle.Position, time.Time) (variation.Variation, error) {
	return variation.West(5 * deg), nil
}
func (bare) OnCompass(angle.Compass) (deviation.Deviation, error) {
	return deviation.East(2 * deg), nil
}
func (bare) OnMagnetic(angle.Magnetic) (deviation.Deviation, error) {
	return deviation.East(2 * deg), nil
}

func TestSourceWithoutWorking(t *testing.T) {
	h := given(t, "100T", course.With{Variation: bare{}, Deviation: bare{}, At: &offOrlesk, On: day})
	if h.Compass() != angle.CompassFrom(103*deg) {
		t.Errorf("got %v, want 103°C", h.Compass())
	}
	s := h.Working()
	for _, key := range []string{"variation", "deviation"} {
		if step, ok := s.Steps.Find(key); !ok || step.How != "as given" {
			t.Errorf("%s: %q (%t), want as given", key, step.How, ok)
		}
	}
	if len(s.Warnings) != 0 {
		t.Errorf("warnings %q", s.Warnings)
	}
}

// once answers the first time it is asked, and then no more.
type once struct{ left *int }

func (o once) answer() error {
	if *o.left--; *o.left < 0 {
		return errors.New("not any more")
	}
	return nil
}
func (o once) VariationAt(angle.Position, time.Time) (variation.Variation, error) {
	return variation.West(5 * deg), o.answer()
}
func (o once) OnCompass(angle.Compass) (deviation.Deviation, error) {
	return deviation.East(2 * deg), o.answer()
}
func (o once) OnMagnetic(angle.Magnetic) (deviation.Deviation, error) {
	return deviation.East(2 * deg), o.answer()
}

func TestSourceThatAnswersOnce(t *testing.T) {
	left := 1
	h := given(t, "100C", course.With{Variation: once{&left}, Deviation: deviation.None(), At: &offOrlesk, On: day})
	if step, _ := h.Working().Steps.Find("variation"); step.How != "as given" || step.Value != "5°00′W" {
		t.Errorf("variation: %+v", step)
	}
	left = 1
	h = given(t, "100C", course.With{Variation: variation.West(5 * deg), Deviation: once{&left}})
	if step, _ := h.Working().Steps.Find("deviation"); step.How != "as given" || step.Value != "2°00′E" {
		t.Errorf("deviation: %+v", step)
	}
}

// The zero values are north with nothing between the norths.
func TestZeroHeadingHasAWorking(t *testing.T) {
	if got := keys(course.Heading{}.Working().Steps); got != "true course, variation, magnetic course, deviation, compass course, compass error, course to steer" {
		t.Errorf("zero heading: %s", got)
	}
	if got := keys(course.Bearing{}.Working().Steps); got != "true bearing, variation, magnetic bearing, compass heading, deviation, compass bearing" {
		t.Errorf("zero bearing: %s", got)
	}
}
