package diagram_test

import (
	"bytes"
	"encoding/xml"
	"io"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/deviation"
	"lubberline.example/deviation/check"
	"lubberline.example/deviation/diagram"
	"lubberline.example/variation"
)

// bookCheck is an invented check.
func bookCheck(t *testing.T, what, remarks string) check.Check {
	t.Helper()
	c, err := check.Reading{
		Time: time.Date(2026, 7, 4, 8, 10, 0, 0, time.UTC), Heading: new(angle.MustParseCompass("045")), Bearing: new(angle.MustParseCompass("141")),
		Variation: variation.MustParse("5°06′W ±0°15′"),
	}.Against(what, angle.MustParseTrue("138.4"), angle.Uncertainty{})
	if err != nil {
		t.Fatal(err)
	}
	c.Method, c.Remarks = "transit", remarks
	return c
}

// recordBook draws a page as a plate.
func recordBook(t *testing.T, details deviation.Details, checks ...check.Check) string {
	t.Helper()
	var b bytes.Buffer
	if err := diagram.RecordBook(details, diagram.Options{}, checks...).WriteSVG(&b, drawing.Plate); err != nil {
		t.Fatal(err)
	}
	for d := xml.NewDecoder(bytes.NewReader(b.Bytes())); ; {
		if _, err := d.Token(); err == io.EOF {
			return b.String()
		} else if err != nil {
			t.Fatal(err)
		}
	}
}

// TestRecordBookIsOnePage draws a blank page, one with a check and a full one: each fits on A4 lying.
// With more checks the paper is larger, and none is left out.
func TestRecordBookIsOnePage(t *testing.T) {
	const a4 = `width="297mm" height="210mm"`
	for _, n := range []int{0, 1, 16, 18, 60} {
		var checks []check.Check
		for range n {
			checks = append(checks, bookCheck(t, "the beacons", "steady"))
		}
		svg := recordBook(t, deviation.Details{Vessel: "Quillon", Compass: "steering compass", Date: time.Date(2026, 5, 14, 0, 0, 0, 0, time.UTC)}, checks...)
		if strings.Contains(svg, a4) != (n <= 16) {
			t.Errorf("%d checks: %.120s", n, svg)
		}
		if strings.Count(svg, ">138.4°T<") != n || strings.Count(svg, ">2.7°W<") != 0 || strings.Count(svg, ">2.6°W<") != n || !strings.Contains(svg, ">14 May 2026<") {
			t.Errorf("%d checks: rows are missing", n)
		}
	}
}

// A narrow page has all that the checks and the details have, and can be read on a small screen.
func TestNarrowRecordBookIsWhole(t *testing.T) {
	long := strings.Repeat("Beacon of the Innermost Ledge ", 20)
	for _, names := range [][2]string{{"the beacons", "steady"}, {long, "灯台 " + long}, {"ประภาคาร", strings.Repeat("W", 200)}} {
		details := deviation.Details{Vessel: names[0], Compass: "steering compass", Place: names[1]}
		sheet := diagram.RecordBook(details, diagram.Options{Narrow: true}, bookCheck(t, names[0], names[1]), bookCheck(t, "the Sun", ""))
		svg := figure(t, sheet, nil)
		small(t, "book", svg)
		_, want, _ := strings.Cut(sheet.Description(), "Checks filled in: 2. ")
		values := strings.ReplaceAll(written(t, svg, "value"), ";", "")
		for _, text := range []string{names[0], names[1], "steering compass", want} {
			if text = strings.Join(strings.Fields(strings.ReplaceAll(text, ";", "")), ""); !strings.Contains(values, text) {
				t.Errorf("%.80q is not on the page: %.300s", text, values)
			}
		}
	}
	blank := figure(t, diagram.RecordBook(deviation.Details{}, diagram.Options{Narrow: true}), nil)
	if small(t, "blank", blank); !strings.Contains(blank, ">Deviation<") || !strings.Contains(blank, ">Swung at<") {
		t.Error("a blank page has no columns")
	}
}

// TestRecordBookWithLongNames draws names that are too long for the page, and names in other scripts.
func TestRecordBookWithLongNames(t *testing.T) {
	long := strings.Repeat("Beacon of the Innermost Ledge ", 20)
	svg := recordBook(t, deviation.Details{Vessel: long, Compass: "κομπάς <1>", Place: "港"}, bookCheck(t, long, long), bookCheck(t, "حرف & 灯台", "мгла"))
	if !strings.Contains(svg, "…") || !strings.Contains(svg, "灯台") || !strings.Contains(svg, "&lt;1&gt;") || !strings.Contains(svg, `width="297mm"`) {
		t.Errorf("%.300s", svg)
	}
	sheet := diagram.RecordBook(deviation.Details{}, diagram.Options{}, bookCheck(t, "the beacons", "hazy"))
	for _, word := range []string{"Checks filled in: 1", "138.4°T", "the beacons", "hazy"} {
		if !strings.Contains(sheet.Description(), word) {
			t.Errorf("%q is not in the description: %s", word, sheet.Description())
		}
	}
}
