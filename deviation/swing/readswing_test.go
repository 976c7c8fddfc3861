package swing_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"lubberline.example/deviation/internal/devtest"
	"lubberline.example/deviation/swing"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/deviation"
	"lubberline.example/deviation/sky"
	"lubberline.example/variation"
)

// rdsVariation is the variation of these records.
var rdsVariation = variation.West(5 * devtest.Deg)

// rdsMethods are the methods with a record of each, by CSV and by JSON, whose
// first reading has a deviation of 2°E on 000°C with an uncertainty of ½°. The
// figures are invented.
var rdsMethods = []struct {
	name      string
	method    swing.Method
	csv, json string
}{
	{"transit", swing.Transit{Direction: angle.MustParseTrue("062"), Variation: rdsVariation},
		"heading,bearing,uncertainty\n000,065,0.5\n045,066,\n", `[{"heading":"000","bearing":"065°C","uncertainty":"±0.5°"},{"heading":45,"bearing":66}]`},
	{"transit from the bow", swing.Transit{Direction: angle.MustParseTrue("062"), Variation: rdsVariation},
		"relative,heading,uncertainty\n065,000,30′\n021,045,\n", `[{"heading":"000","relative":"65","uncertainty":"30′"},{"heading":"045","relative":21}]`},
	{"true headings", swing.TrueHeadings{Variation: rdsVariation},
		"heading,true,uncertainty\n000,357,0.5\n045,043,\n", `[{"heading":"000","true":"357°T","uncertainty":0.5},{"heading":"045","true":"043"}]`},
	{"shore compass", swing.ShoreCompass{},
		"heading,bearing,shore,uncertainty\n000,065,247,0.5\n045,066,248,\n", `[{"heading":"000","bearing":"065","shore":"247°M","uncertainty":0.5},{"heading":"045","bearing":"066","shore":"248"}]`},
	{"second compass", swing.SecondCompass{Deviation: deviation.West(devtest.Deg).WithUncertainty(devtest.Sigma(0))},
		"heading,other,uncertainty\n000,003,0.5\n045,046,\n", `[{"heading":"000","other":"003","uncertainty":0.5},{"heading":"045","other":"046"}]`},
	{"deviations", swing.StatedDeviations{},
		"heading,deviation,uncertainty\n000,2E,0.5\n045,1W,\n", `[{"heading":"000","deviation":"2°E","uncertainty":0.5},{"heading":"045","deviation":-1}]`},
}

func TestASwingIsReadFromEitherForm(t *testing.T) {
	for _, m := range rdsMethods {
		for _, text := range []string{m.csv, m.json} {
			swung, err := swing.ReadSwing(strings.NewReader(text), m.method)
			if err != nil {
				t.Errorf("%s: %v", m.name, err)
				continue
			}
			first := swung.Observations[0]
			if len(swung.Observations) != 2 || first.Heading != angle.MustParseCompass("000") || first.Deviation != deviation.East(2*devtest.Deg).WithUncertainty(devtest.Sigma(devtest.Deg/2)) {
				t.Errorf("%s: %v", m.name, swung.Observations)
			}
			if _, stated := swung.Observations[1].Deviation.Uncertainty().Sigma(); stated {
				t.Errorf("%s: an uncertainty where there is none", m.name)
			}
		}
	}
}

func TestASwingOfADistantObjectIsRead(t *testing.T) {
	var b strings.Builder
	b.WriteString("heading,bearing\n")
	for _, r := range dstReadings(62, dstEven(8)...) {
		fmt.Fprintf(&b, "%.6f,%.6f\n", r.Heading.Degrees(), r.Bearing.Degrees())
	}
	swung, err := swing.ReadSwing(strings.NewReader(b.String()), swing.DistantObject{})
	if err != nil {
		t.Fatal(err)
	}
	if got := devtest.Number(t, swung.Steps, "magnetic"); !devtest.Near(got, 62, 1e-6) { // written to six places
		t.Errorf("%v", got)
	}
}

func TestASwingOfTheSunIsRead(t *testing.T) {
	var b strings.Builder
	b.WriteString("time,heading,bearing\n")
	for _, r := range smtReadings(t, time.Date(2026, 5, 3, 18, 0, 0, 0, time.UTC), devtest.Place, rdsVariation) {
		fmt.Fprintf(&b, "%s,%.6f,%.6f\n", r.Time.Format(time.RFC3339), r.Heading.Degrees(), r.Bearing.Degrees())
	}
	m := swing.SunAzimuths{Position: &devtest.Place, Variation: rdsVariation}
	swung, err := swing.ReadSwing(strings.NewReader(b.String()), m)
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range swung.Observations {
		if !devtest.Near(o.Deviation.Degrees(), devtest.UsualOn(o.Heading).Degrees(), 2e-6) { // written to six places
			t.Errorf("on %v: %v", o.Heading, o.Deviation)
		}
	}
}

func TestAFaultInASwingIsFoundByItsLine(t *testing.T) {
	transit := rdsMethods[0].method
	azimuths := swing.SunAzimuths{Position: &devtest.Place, Variation: rdsVariation}
	for _, c := range []struct {
		name, text string
		method     swing.Method
		line       int
		column     string
		says       string
	}{
		{"empty", "", transit, 0, "", "empty"},
		{"no rows", "heading,bearing\n", transit, 0, "", "no rows"},
		{"a column not asked for", "heading,bearing,time\n", transit, 1, "", `unknown column "time"`},
		{"no column true", "heading\n000\n", rdsMethods[2].method, 1, "", `no column "true"`},
		{"an invalid heading", "# Quillon, invented\n\nheading,bearing\n000,065\n\n# port helm\n361,066\n", transit, 7, "heading", "out of range"},
		{"an invalid bearing", "heading,bearing\n000,065\n045,NE½\n", transit, 3, "bearing", ""},
		{"an invalid bow bearing", "heading,relative\n000,red\n", transit, 2, "relative", ""},
		{"both bearings", "heading,bearing,relative\n000,065,\n045,,020\n090,65,20\n", transit, 4, "relative", "give one of them"},
		{"neither bearing", "heading,bearing,relative\n000,065,\n045,,\n", transit, 3, "bearing", "the bearing is missing"},
		{"no column of bearings", "heading\n000\n", transit, 2, "bearing", "the bearing is missing"},
		{"an uncertainty that is negative", "heading,bearing,uncertainty\n000,065,-1\n", transit, 2, "uncertainty", "sign"},
		{"an invalid uncertainty", "heading,bearing,uncertainty\n000,065,fair\n", transit, 2, "uncertainty", ""},
		{"an invalid time", "heading,bearing,time\n000,065,17:03\n", azimuths, 2, "time", `"17:03" is not a date and time; write it as 2026-05-14T17:03:20Z`},
		{"a true heading that is magnetic", "heading,true\n000,065°M\n", rdsMethods[2].method, 2, "true", ""},
		{"a shore bearing that is true", "heading,bearing,shore\n000,065,245°T\n", rdsMethods[3].method, 2, "shore", ""},
		{"another invalid heading", "heading,other\n000,?\n", rdsMethods[4].method, 2, "other", ""},
		{"an invalid deviation", "heading,deviation\n000,2N\n", rdsMethods[5].method, 2, "deviation", ""},
		{"JSON", "[{\"heading\": 0,\n\"bearing\": 65},\n\n{\"heading\": 45,\n \"bearing\": 400}]", transit, 5, "bearing", "out of range"},
		{"a year without a Sun", "heading,bearing,time\n000,065,2026-05-03T18:00:00Z\n# next\n045,66,1900-05-03T18:00:00Z\n", azimuths, 4, "time", "1900"},
		{"a Sun that is down", "heading,bearing,time\n000,065,2026-05-03T01:00:00Z\n", azimuths, 2, "time", "below the horizon"},
		{"a second compass without an answer", "heading,other\n000,003\n045,046\n", swing.SecondCompass{Deviation: devtest.Torn{On: angle.MustParseCompass("046")}}, 3, "other", "torn"},
		{"a second compass without a card", "heading,other\n000,003\n", swing.SecondCompass{}, 0, "", "no source of deviation"},
		{"too few headings", "heading,bearing\n000,003\n", swing.DistantObject{}, 0, "", "different headings"},
	} {
		_, err := swing.ReadSwing(strings.NewReader(c.text), c.method)
		e, ok := errors.AsType[*record.Error](err)
		if !ok || e.Line != c.line || e.Column != c.column || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	_, err := swing.ReadSwing(strings.NewReader("heading,bearing\n000,065\n045,400\n"), transit)
	if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Input != "400" {
		t.Errorf("no *angle.ParseError in %v", err)
	}
	_, err = swing.ReadSwing(strings.NewReader("heading,bearing,time\n000,065,1900-05-03T18:00:00Z\n"), azimuths)
	if e, ok := errors.AsType[*sky.Error](err); !ok || e.Kind != sky.OutsideYears || e.Time.Year() != 1900 {
		t.Errorf("no *sky.Error in %v", err)
	}
}

func FuzzReadSwing(f *testing.F) {
	methods := []swing.Method{swing.DistantObject{}, swing.SunAzimuths{Position: &devtest.Place, Variation: rdsVariation}}
	for i, m := range rdsMethods {
		methods = append(methods, m.method)
		f.Add(uint(i+2), m.csv)
		f.Add(uint(i+2), m.json)
	}
	f.Add(uint(0), "heading,bearing\n000,60\n45,61\n90,62\n135,63\n180,62\n225,61\n270,60\n315,59\n")
	f.Add(uint(1), "heading,bearing,time\n000,300,2026-05-03T18:00:00Z\n# c\n\n045,301,1900-05-03T18:00:00Z\n")
	f.Fuzz(func(t *testing.T, which uint, text string) {
		method := methods[which%uint(len(methods))]
		swung, err := swing.ReadSwing(strings.NewReader(text), method)
		if err != nil {
			e, ok := errors.AsType[*record.Error](err)
			lines := 1 + strings.Count(text, "\n") + strings.Count(text, "\r")
			if !ok || e.Line < 0 || e.Line > lines+1 || e.Err == nil || swung != nil {
				t.Fatalf("%#v", err)
			}
			return
		}
		if len(swung.Observations) == 0 || swung.Method == "" {
			t.Fatalf("%+v", swung)
		}
		swung.Suspicions()
	})
}
