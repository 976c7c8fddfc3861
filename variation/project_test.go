package variation_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/variation"
)

func TestProjectionsOfTheTrade(t *testing.T) {
	for _, c := range []struct {
		legend string
		year   int
		want   string // the variation, exactly
		rule   string
	}{
		{"3°50′W 2014 (9′E)", 2026, "2°02′W", "change east, variation west: it decreases"},
		{"3°50′W 2014 (9′W)", 2026, "5°38′W", "change and variation both west: it increases"},
		{"3°50′E 2014 (9′E)", 2026, "5°38′E", "change and variation both east: it increases"},
		{"3°50′E 2014 (9′W)", 2026, "2°02′E", "change west, variation east: it decreases"},
		{"3°50′W 2014 (9′E)", 2014, "3°50′W", "unchanged"},
		{"3°50′W 2014 (9′E)", 2004, "5°20′W", "change and variation both west: it increases"}, // backwards
		{"0°40′W 2014 (8′E)", 2018, "0°08′W", "change east, variation west: it decreases"},
		{"0°40′W 2014 (8′E)", 2019, "0°00′E", "change east, variation west: it decreases to zero"},
		{"0°40′W 2014 (8′E)", 2026, "0°56′E", "change east, variation west: it decreases through zero and becomes east"},
		{"0°40′E 2014 (8′W)", 2026, "0°56′W", "change west, variation east: it decreases through zero and becomes west"},
		{"0°40′E 2014, annual decrease 8′", 2026, "0°56′W", "change west, variation east: it decreases through zero and becomes west"},
		{"0°00′E 2014 (8′W)", 2015, "0°08′W", "from zero it takes the name of the change, west"},
		{"0°00′W 2014 (8′E)", 2015, "0°08′E", "from zero it takes the name of the change, east"},
		{"3°50′W 2014 (no annual change)", 2026, "3°50′W", "unchanged"},
		{"3°50′W 2014", 2026, "3°50′W", "unchanged"},
		// Across the meridian of 180°, where east and west meet.
		{"179°50′E 2014 (8′E)", 2016, "179°54′W", "change and variation both east: it increases beyond 180° and becomes west"},
		{"179°50′W 2014 (8′W)", 2016, "179°54′E", "change and variation both west: it increases beyond 180° and becomes east"},
		{"179°44′W 2014 (8′W)", 2016, "180°00′E", "change and variation both west: it increases beyond 180° and becomes east"},
		{"179°44′E 2014 (8′E)", 2016, "180°00′E", "change and variation both east: it increases"},
	} {
		p, err := variation.MustParseLegend(c.legend).InYear(c.year)
		if err != nil {
			t.Errorf("%s in %d: %v", c.legend, c.year, err)
			continue
		}
		if v := variation.MustParse(c.want); p.Variation.Angle() != v.Angle() {
			t.Errorf("%s in %d: %v, want %s", c.legend, c.year, p.Variation, c.want)
		}
		if last, ok := p.Working().Find("variation"); !ok || last.How != c.rule {
			t.Errorf("%s in %d: %q, want %q", c.legend, c.year, last.How, c.rule)
		}
	}
}

func TestWholeYearsOnAnyDay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRose(t)
		day := time.Date(rapid.IntRange(1500, 2500).Draw(t, "year"), 1, 1, 0, 0, 0, 0, time.UTC).
			Add(time.Duration(rapid.Int64Range(0, int64(365*24*time.Hour)-1).Draw(t, "into the year")))
		whole, err := r.InYear(day.Year())
		if err != nil {
			t.Fatal(err)
		}
		zone := time.FixedZone("", rapid.IntRange(-14*3600, 14*3600).Draw(t, "zone"))
		if p, err := r.On(day.In(zone), variation.WholeYears); err != nil || !p.Equal(whole) {
			t.Fatalf("on %v: %+v, %v; in its year: %+v", day, p, err, whole)
		}
		if v, err := r.VariationAt(angle.Position{}, day); err != nil || v != whole.Variation {
			t.Fatalf("as a source: %v, %v; want %v", v, err, whole.Variation)
		}
	})
}

func TestWholeYearProjectionIsLinear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRose(t)
		year := rapid.IntRange(1500, 2500).Draw(t, "to")
		p, err := r.InYear(year)
		if err != nil {
			t.Fatal(err)
		}
		n := year - r.Year
		perYear, _ := r.Change.PerYear()
		change, err := perYear.Scale(float64(n))
		if err != nil {
			t.Fatal(err)
		}
		if p.Change != change || p.Variation.Angle() != (r.Variation.Angle()+change).NormalizedSigned() {
			t.Fatalf("after %d years %v and %v, want %v more", n, p.Change, p.Variation, change)
		}
		if p.Years != float64(n) || p.Count != variation.WholeYears || p.Rose != r {
			t.Fatalf("%v %v from %+v", p.Years, p.Count, p.Rose)
		}
	})
}

func TestForwardThenBackwardIsTheRose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRose(t)
		year := rapid.IntRange(1500, 2500).Draw(t, "to")
		there, err := r.InYear(year)
		if err != nil {
			t.Fatal(err)
		}
		back, err := variation.Rose{Variation: there.Variation, Year: year, Change: r.Change}.InYear(r.Year)
		if err != nil || back.Variation.Angle() != r.Variation.Angle() {
			t.Fatalf("%v came back as %v, %v", r.Variation, back.Variation, err)
		}
	})
}

func TestInItsOwnYearTheRoseStands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRose(t)
		p, err := r.InYear(r.Year)
		if err != nil || p.Variation.Angle() != r.Variation.Angle() || p.Years != 0 || p.Change != 0 {
			t.Fatalf("%+v, %v", p, err)
		}
		begins := time.Date(r.Year, 1, 1, 0, 0, 0, 0, time.UTC)
		if p, err := r.On(begins, variation.DecimalYears); err != nil || p.Variation.Angle() != r.Variation.Angle() || p.Years != 0 {
			t.Fatalf("%+v, %v", p, err)
		}
	})
}

func TestDecimalYearsFromNewYear(t *testing.T) {
	r := variation.MustParseLegend("3°50′W 2014 (8′E)")
	for _, c := range []struct {
		date  time.Time
		years float64
		want  string
	}{
		{time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC), 12, "2°14′W"},
		{noon(2026, time.July, 2), 12.5, "2°10′W"},
		{time.Date(2024, 7, 2, 0, 0, 0, 0, time.UTC), 10.5, "2°26′W"},
		{noon(2014, time.July, 2), 0.5, "3°46′W"},
		{noon(2013, time.July, 2), -0.5, "3°54′W"},
		{time.Date(2026, 7, 2, 23, 0, 0, 0, time.FixedZone("", 11*3600)), 12.5, "2°10′W"},
	} {
		p, err := r.On(c.date, variation.DecimalYears)
		if err != nil || p.Years != c.years || p.Count != variation.DecimalYears {
			t.Errorf("on %v: %v years in %v, %v; want %v", c.date, p.Years, p.Count, err, c.years)
		}
		if p.Variation.Angle() != variation.MustParse(c.want).Angle() {
			t.Errorf("on %v: %v, want %s", c.date, p.Variation, c.want)
		}
	}
}

func TestDecimalProjectionIsLinear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRose(t)
		date := time.Unix(rapid.Int64Range(-14e9, 16e9).Draw(t, "seconds since 1970"), 0)
		p, err := r.On(date, variation.DecimalYears)
		if err != nil {
			t.Fatal(err)
		}
		perYear, _ := r.Change.PerYear()
		years := variation.DecimalYear(date) - float64(r.Year)
		change, err := perYear.Scale(years)
		if err != nil || p.Years != years || p.Change != change || p.Variation.Angle() != (r.Variation.Angle()+change).NormalizedSigned() {
			t.Fatalf("%+v, want a change of %v in %v years", p, change, years)
		}
	})
}

func TestYearsThatARoseIsNotProjectedTo(t *testing.T) {
	r := variation.MustParseLegend("3°50′W 2014 (9′E)")
	for _, year := range []int{1500, 2500} {
		if _, err := r.InYear(year); err != nil {
			t.Errorf("in %d: %v", year, err)
		}
		if _, err := r.On(noon(year, time.December, 31), variation.DecimalYears); err != nil {
			t.Errorf("in %d: %v", year, err)
		}
	}
	for _, year := range []int{1499, 2501, 0, -1, math.MinInt, math.MaxInt} {
		_, err := r.InYear(year)
		e, ok := errors.AsType[*angle.RangeError](err)
		if !ok || e.Value != float64(year) || e.What != "year of the date" || !strings.Contains(err.Error(), "1500 to 2500") {
			t.Errorf("in %d: %v", year, err)
		}
		r := r
		r.Year = year
		_, err = r.InYear(2026)
		if e, ok = errors.AsType[*angle.RangeError](err); !ok || e.Value != float64(year) || e.What != "year of the rose" {
			t.Errorf("of %d: %v", year, err)
		}
		if _, err := r.ExplainVariation(angle.Position{}, noon(2026, 7, 2)); err == nil {
			t.Errorf("of %d: explained", year)
		}
	}
	// The year is that of UTC.
	inZone := time.Date(1500, 1, 1, 0, 30, 0, 0, time.FixedZone("", 3600))
	if _, err := r.On(inZone, variation.DecimalYears); err == nil {
		t.Error("half past eleven on the last evening of 1499 was accepted")
	}
	if _, err := r.On(time.Date(2501, 1, 1, 0, 30, 0, 0, time.FixedZone("", 3600)), variation.DecimalYears); err != nil {
		t.Errorf("the last half hour of 2500: %v", err)
	}
	var zero variation.Rose
	if _, err := zero.InYear(2026); err == nil {
		t.Error("the zero Rose, of the year 0, was accepted")
	}
}

func TestWorkingOfAProjection(t *testing.T) {
	for _, c := range []struct {
		legend string
		date   time.Time
		count  variation.YearCount
		want   string
	}{
		{"0°40′W 2014 (8′E)", noon(2026, time.July, 2), variation.WholeYears, `
Variation in 2014      0°40′W  printed at the rose, annual change 8′E
Years, 2014 to 2026  12 years  counted in whole years
Change                 1°36′E  12 years × 8′E
Change error           ±0°27′  the annual change is not steady over 12 years
Source                 ±0°23′  the error of the forecast on the chart; local anomalies are not included
Uncertainty            ±0°36′  standard: change error, source and rounding (±0°04′) together
Variation in 2026      0°56′E  change east, variation west: it decreases through zero and becomes east
`},
		{"3°50′W 2014 (8′E)", noon(2026, time.July, 2), variation.DecimalYears, `
Variation in 2014               3°50′W  printed at the rose, annual change 8′E
Years, 2014 to 2 July 2026  12.5 years  counted in decimal years
Change                          1°40′E  12.5 years × 8′E
Change error                    ±0°29′  the annual change is not steady over 12.5 years
Source                          ±0°23′  the error of the forecast on the chart; local anomalies are not included
Uncertainty                     ±0°37′  standard: change error, source and rounding (±0°05′) together
Variation on 2 July 2026        2°10′W  change east, variation west: it decreases
`},
		{"3°50′W 2014 (8′E)", noon(2013, time.July, 2), variation.WholeYears, `
Variation in 2014         3°50′W  printed at the rose, annual change 8′E
Years, 2014 to 2013  1 year back  counted in whole years
Change                    0°08′W  1 year back × 8′E
Change error            ±0°01.1′  the annual change is not steady over 1 year
Source                    ±0°23′  the error of the forecast on the chart; local anomalies are not included
Uncertainty               ±0°23′  standard: change error, source and rounding (±0°03′) together
Variation in 2013         3°58′W  change and variation both west: it increases
`},
		{"3°50′W 2014 (no annual change)", noon(2026, time.July, 2), variation.WholeYears, `
Variation in 2014      3°50′W  printed at the rose, no annual change
Years, 2014 to 2026  12 years  counted in whole years
Change                 0°00′E  there is no annual change
Change error           ±0°27′  the annual change is not steady over 12 years
Source                 ±0°23′  the error of the forecast on the chart; local anomalies are not included
Uncertainty            ±0°35′  standard: change error, source and rounding (±0°01.2′) together
Variation in 2026      3°50′W  unchanged
`},
		{"3°50′W 2014", noon(2026, time.July, 2), variation.WholeYears, `
Variation in 2014      3°50′W  printed at the rose, annual change not stated
Years, 2014 to 2026  12 years  counted in whole years
Variation in 2026      3°50′W  unchanged
`},
	} {
		p, err := variation.MustParseLegend(c.legend).On(c.date, c.count)
		if err != nil {
			t.Fatal(err)
		}
		if got := p.Working().String(); fold(got) != fold(c.want) {
			t.Errorf("%s:\n%swant%s", c.legend, got, c.want)
		}
	}
}

// fold replaces blanks by one, since another package makes the columns.
func fold(s string) string { return strings.Join(strings.Fields(s), " ") }

func TestAProjectionAsData(t *testing.T) {
	p, err := variation.MustParseLegend("3°50′W 2014 (8′E)").On(noon(2026, time.July, 2), variation.DecimalYears)
	if err != nil {
		t.Fatal(err)
	}
	data, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Rose                variation.Rose
		Count, Change, Date string
		Years               float64
		Variation           variation.Variation
		Working             []struct {
			Key, What, Value, Unit string
			Number                 float64
		}
	}
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	if got.Rose != p.Rose || got.Count != "decimal-years" || got.Date != "2026-07-02T12:00:00Z" || got.Years != 12.5 || got.Change != "1°40′" || got.Variation != p.Variation {
		t.Errorf("%s", data)
	}
	var keys []string
	for _, s := range got.Working {
		keys = append(keys, s.Key)
	}
	if strings.Join(keys, ", ") != "rose variation, years, change, rose drift, rose source, rose uncertainty, variation" {
		t.Errorf("steps %q", keys)
	}
	if last := got.Working[6]; last.Number != p.Variation.Degrees() || last.Unit != "degrees, east positive" {
		t.Errorf("%+v", last)
	}
}

// A date long before the rose's year asks for a rose of that time. No warning asks for a newer
// chart as well.
func TestADateBeforeTheRoseAsksForNoNewerChart(t *testing.T) {
	rose, err := variation.ParseLegend("22°15′E 2022 (3′E)")
	if err != nil {
		t.Fatal(err)
	}
	p, err := rose.On(time.Date(1990, 7, 1, 0, 0, 0, 0, time.UTC), variation.WholeYears)
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, w := range p.Warnings(variation.Limits{}) {
		all = append(all, w.Message)
	}
	text := strings.Join(all, "\n")
	if !strings.Contains(text, "use a rose of that time") || !strings.Contains(text, "beyond the limit") || strings.Contains(text, "newer") {
		t.Error(text)
	}
}
