package sailing_test

import (
	"math"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
)

const (
	lectures = "Lectures in Navigation (Officers' Material School, United States Navy, 1918), "
	exams    = "US Coast Guard deck-licence examination questions (public release of the 1990s and 2000s), question "
	bowditch = "The American Practical Navigator (Bowditch), Pub. No. 9, "
	traverse = lectures + "Week II, Wednesday, traverse from Barnegat light"
	daysWork = lectures + "Week VII, Thursday, day's work"
	table3   = lectures + "Week II, Friday, cell of Bowditch's Table 3"
)

// printed compares a figure with the printed one, in the unit in which it was printed.
func printed(t *testing.T, source, what string, got, want, tolerance float64) {
	t.Helper()
	if math.Abs(got-want) > tolerance {
		t.Errorf("%s: %s %.5f, printed %v ± %v", source, what, got, want, tolerance)
	}
}

func TestMeridionalPartsPublished(t *testing.T) {
	for _, c := range []struct {
		source     string
		figure     *sailing.Ellipsoid
		latitude   angle.Angle
		printed    float64
		recomputed float64 // as checked by a second program
	}{
		// Printed 2644.2: it is 2644.25144, so that the table's last figure is low by
		// 0.05144, hardly more than half a unit.
		{table3, sailing.Clarke1866(), 40*deg + 28*minute, 2644.2, 2644.25144},
		{table3, sailing.Clarke1866(), 39*deg + 51*minute, 2596.0, 2596.0303},
	} {
		got := c.figure.MeridionalParts(lat(c.latitude))
		printed(t, c.source, "meridional parts", got, c.printed, 0.0515)             // half the last figure, and the case above
		printed(t, c.source, "meridional parts recomputed", got, c.recomputed, 6e-6) // half its last figure
	}
}

func TestTraverseTablePublished(t *testing.T) {
	for _, c := range []struct {
		source          string
		course          float64
		distance        float64
		dlat, departure float64
		tolerance       float64
	}{
		// The lectures enter the table with whole degrees.
		{lectures + "Week II, Wednesday, SSW entered as 202°", 202, 50, -46.4, -18.7, 0.05},
		{traverse, 133, 30, -20.5, 21.9, 0.06},
		{traverse, 189, 55, -54.3, -8.6, 0.06},
		{traverse, 88, 50, 1.7, 50.0, 0.06},
		// The course of the current is printed N 3 E, a misprint for N 37 E: the
		// difference of latitude and the departure beside it belong to 037°.
		{traverse + ", current", 37, 12, 9.6, 7.2, 0.05},
		{daysWork, 40, 138.5, 106.1, 89.0, 0.06},
		{daysWork, 39, 24.5, 19.0, 15.4, 0.06},
		// From memory; recomputed.
		{bowditch + "1995/2002, ch. 24, plane sailing, example 1, from memory", 5, 188, 187.3, 16.4, 0.05},
	} {
		p, err := sailing.Plane(run(c.course, sailing.Distance(c.distance)*mile))
		if err != nil {
			t.Fatal(err)
		}
		printed(t, c.source, "d.lat", p.DLat.Minutes(), c.dlat, c.tolerance)                     // half the last figure, and the table's own rounding
		printed(t, c.source, "departure", p.Departure.NauticalMiles(), c.departure, c.tolerance) // likewise
	}
}

func TestTraversePublished(t *testing.T) {
	// From memory; the result was recomputed.
	source := bowditch + "1995/2002, ch. 24, traverse sailing, example, from memory"
	got, err := sailing.NewTraverse(run(158, 15.5*mile), run(135, 33.7*mile), run(259, 16.1*mile), run(293, 39*mile), run(169, 40.4*mile))
	if err != nil {
		t.Fatal(err)
	}
	printed(t, source, "course", got.Course.Degrees(), 192.3, 0.1)          // the table's rounding of five legs
	printed(t, source, "distance", got.Distance.NauticalMiles(), 67.2, 0.1) // likewise
}

func TestParallelSailingPublished(t *testing.T) {
	source := bowditch + "1995/2002, ch. 24, parallel sailing, example 1, from memory"
	printed(t, source, "departure", sailing.Departure(lat(49*deg+30*minute), 210*minute).NauticalMiles(), 136.4, 0.05) // half the last figure
	from := place(-38*deg-12*minute, -12*deg-6*minute)
	w, err := sailing.FollowMidLatitude(from, run(270, 1543*mile))
	if err != nil {
		t.Fatal(err)
	}
	printed(t, exams+"528", "longitude", w.To.Longitude.Degrees(), -(44 + 49.0/60), 0.01) // half a minute
}

func TestMidLatitudeSailingPublished(t *testing.T) {
	for _, c := range []struct {
		source   string
		from, to angle.Position
		course   float64
		distance float64
		rounded  bool // worked from the course as rounded: then the distance is d.lat / cos of that
	}{
		{exams + "308", place(20*deg, -107*deg-30*minute), place(24*deg+40*minute, -112*deg-30*minute), 315.3, 394.0, false},
		// Printed 384.6, which is 95 / cos 75.7°; with the course unrounded it is 383.4.
		{exams + "312", place(7*deg+5*minute, -81*deg-45*minute), place(8*deg+40*minute, -88*deg), 284.3, 384.6, true},
		// From memory; recomputed.
		{bowditch + "1995/2002, ch. 24, middle-latitude sailing, example 2, from memory", place(-8*deg-489*minute/10, -89*deg-533*minute/10), place(-17*deg-69*minute/10, -104*deg-516*minute/10), 240.4, 1007.1, false},
	} {
		w, err := sailing.MidLatitude(c.from, c.to)
		if err != nil {
			t.Fatal(err)
		}
		printed(t, c.source, "course", w.Course.Degrees(), c.course, 0.05) // half the last figure
		got := w.Distance.NauticalMiles()
		if c.rounded {
			p, err := sailing.PlaneFromCourse(w.Course.Round(deg/10), w.DLat)
			if err != nil {
				t.Fatal(err)
			}
			got = p.Distance.NauticalMiles()
		}
		printed(t, c.source, "distance", got, c.distance, 0.6) // the printed one is from the rounded course
	}
	// From memory; recomputed.
	source := bowditch + "1995/2002, ch. 24, middle-latitude sailing, example 1, from memory"
	w, err := sailing.FollowMidLatitude(place(15*deg+17*minute, 151*deg+37*minute), run(70, 1253*mile))
	if err != nil {
		t.Fatal(err)
	}
	printed(t, source, "latitude", w.To.Latitude.Degrees(), 22+25.6/60, 0.002)    // a tenth of a minute
	printed(t, source, "longitude", w.To.Longitude.Degrees(), 172+21.2/60, 0.004) // two, from a rounded departure
	// The lectures take course and middle latitude to the whole degree, 202° and 40°.
	source = lectures + "Week II, Wednesday, SSW 50 miles"
	p, err := sailing.Plane(run(202, 50*mile))
	if err != nil {
		t.Fatal(err)
	}
	dlong, err := sailing.DLong(lat(40*deg), p.Departure)
	if err != nil {
		t.Fatal(err)
	}
	printed(t, source, "d.long", dlong.Minutes(), -24, 0.5) // half a minute, as printed
}

func TestMercatorSailingPublished(t *testing.T) {
	for _, c := range []struct {
		source                            string
		from, to                          angle.Position
		course, courseWithin              float64
		distance, distanceWithin, rounded float64
	}{
		// Printed 042.8° and 896.2 miles; recomputed 042.87° and 894.6. The keyed
		// figures disagree with every figure of the earth.
		{exams + "398", place(32*deg+166*minute/10, -68*deg-28*minute), place(43*deg+122*minute/10, -55*deg-39*minute), 42.8, 0.08, 896.2, 1.7, 894.58354},
		{exams + "417", place(21*deg+32*minute, -160*deg-30*minute), place(30*deg, 150*deg), 281, 0.5, 2733, 3, 2733.47612},
		{exams + "397", place(32*deg+45*minute, -79*deg-50*minute), place(-34*deg-21*minute, 18*deg+29*minute), 125.78915, 1e-5, 6884, 3, 6884.35694},
	} {
		w, err := sailing.Mercator(c.from, c.to, sailing.Clarke1866())
		if err != nil {
			t.Fatal(err)
		}
		printed(t, c.source, "course", w.Course.Degrees(), c.course, c.courseWithin)               // the printed figure's; 397 prints none
		printed(t, c.source, "distance", w.Distance.NauticalMiles(), c.distance, c.distanceWithin) // table rounding, which grows near east and west
		printed(t, c.source, "distance recomputed", w.Distance.NauticalMiles(), c.rounded, 6e-6)   // half its last figure
	}
	source := bowditch + "2002/2024, Mercator sailing, example 2 (2024: art. 910), from memory, figures confirmed by a quotation"
	w, err := sailing.FollowMercator(place(75*deg+317*minute/10, -79*deg-87*minute/10), run(155, 263.5*mile), sailing.Clarke1866())
	if err != nil {
		t.Fatal(err)
	}
	printed(t, source, "latitude", w.To.Latitude.Degrees(), 71+32.9/60, 0.001)        // a tenth of a minute, nearly
	printed(t, source, "longitude", w.To.Longitude.Degrees(), -(72 + 34.1/60), 0.003) // two, by table rounding
}

func TestGreatCirclePublished(t *testing.T) {
	source := exams + "472"
	g, err := sailing.Sphere().GreatCircle(place(38*deg+17*minute, -123*deg-16*minute), place(35*deg+minute, 142*deg+21*minute))
	if err != nil {
		t.Fatal(err)
	}
	printed(t, source, "distance", g.Distance.NauticalMiles(), 4330, 0.5) // half the last figure
	printed(t, source, "course", g.Initial.Degrees(), 300.9, 0.05)        // half the last figure
	north, _, _ := g.Vertices()
	printed(t, source, "vertex", north.Position.Latitude.Degrees(), 47.675, 0.05) // half the last figure
	if !g.OnLeg(north.Distance) {
		t.Error("the vertex is on the leg")
	}
	// Question 615 prints 4245 miles as data for a time of arrival, which seem to
	// follow a route; the arc is 4163.4.
	g, err = sailing.Sphere().GreatCircle(place(35*deg+27*minute, 139*deg+39*minute), place(47*deg+36*minute, -122*deg-22*minute))
	if err != nil {
		t.Fatal(err)
	}
	printed(t, exams+"615", "distance recomputed, printed 4245", g.Distance.NauticalMiles(), 4163.38671, 6e-6) // half its last figure
}

func TestLengthsOfDegreesPublished(t *testing.T) {
	source := bowditch + "1958–1977, length of a degree, Clarke 1866, from memory; recomputed"
	e := sailing.Clarke1866()
	printed(t, source, "degree of latitude in 45°", e.DegreeOfLatitude(lat(45*deg)).Metres(), 111130.9, 0.3) // the table may be of the radius rather than the arc
	printed(t, source, "degree of longitude in 45°", e.DegreeOfLongitude(lat(45*deg)).Metres(), 78849, 0.6)  // half the last figure
	printed(t, source, "degree of longitude in 60°", e.DegreeOfLongitude(lat(60*deg)).Metres(), 55802, 0.6)  // half the last figure
}
