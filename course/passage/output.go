package passage

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"text/tabwriter"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/geojson"
	"lubberline.example/angle/working"
	"lubberline.example/course/gpx"
	"lubberline.example/course/sailing"
)

// String returns the plan as text: a line for each leg, the sums, the warnings and
// the caution.
func (p Passage) String() string {
	var b strings.Builder
	if p.Name != "" {
		fmt.Fprintf(&b, "%s\n", p.Name)
	}
	fmt.Fprintf(&b, "Departure %s\n\n", minute(p.Depart).Format("2 January 2006, 15:04 UTC"))
	t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "leg\tto\ttrack\tdistance\tto head\tvariation\tmagnetic\tdeviation\tcompass\t±\tground speed\ttime\tarrival")
	for _, l := range p.Legs {
		h := l.Heading
		fmt.Fprintf(t, "%d\t%s\t%.1f\t%v\t%.1f\t%.0v\t%.1f\t%.0v\t%.0f\t%s\t%v\t%s\t%s\n", l.Number, l.To, l.Track, l.Distance, h.True(), h.Variation(), h.Magnetic(), h.Deviation(), h.Compass(), plusMinus(h.Uncertainty()), l.Ground.Speed, clock(minute(l.Ends).Sub(minute(l.Begins))), minute(l.Ends).Format("2 Jan 15:04"))
	}
	t.Flush() // a strings.Builder takes everything
	fmt.Fprintf(&b, "\nTogether %v, %s; arrival %s\n", p.Distance, clock(minute(p.Arrive).Sub(minute(p.Depart))), minute(p.Arrive).Format("2 January 2006, 15:04 UTC"))
	for _, l := range p.Legs {
		for _, w := range l.Warnings() {
			fmt.Fprintf(&b, "Leg %d: %s\n", l.Number, w.Message)
		}
	}
	fmt.Fprintf(&b, "± is one standard uncertainty of the conversion.\n%s\n", working.Caution)
	return b.String()
}

func plusMinus(u angle.Uncertainty) string {
	sigma, stated := u.Sigma()
	if !stated {
		return "not stated"
	}
	return string(sigma.AppendDegrees(nil, 1))
}

// WriteCSV writes a line for each leg: degrees to a tenth, nautical miles and knots to
// a tenth, times in UTC to the second. The leeway is plus to starboard. Uncertainties
// that are not stated are empty. It writes all or nothing, and returns the writer's error
// as it is. A nil Passage has no legs: it is a line of column names.
func (p *Passage) WriteCSV(w io.Writer) error {
	p = p.orNone()
	var b strings.Builder
	rows := csv.NewWriter(&b)
	rows.Write([]string{ // a strings.Builder takes everything
		"leg", "from", "to", "line", "track_true", "distance_nautical_miles", "water_course_true", "water_speed_knots", "leeway_starboard",
		"heading_true", "variation_east", "heading_magnetic", "deviation_east", "heading_compass", "uncertainty", "ground_speed_knots", "begins", "ends",
	})
	number := func(x float64) string {
		if text := strconv.FormatFloat(x, 'f', 1, 64); text != "-0.0" {
			return text
		}
		return "0.0"
	}
	for _, l := range p.Legs {
		h := l.Heading
		u, line := "", rhumb
		if s, stated := h.Uncertainty().Sigma(); stated {
			u = number(s.Degrees())
		}
		if l.To.GreatCircle {
			line = greatCircle
		}
		rows.Write([]string{
			strconv.Itoa(l.Number), l.From.String(), l.To.String(), line, onCircle(l.Track.FromNorth()), number(l.Distance.NauticalMiles()),
			onCircle(l.Water.Course.FromNorth()), number(l.Water.Speed.Knots()), number(l.Leeway.Deflection().Degrees()),
			onCircle(h.True().FromNorth()), number(h.Variation().Degrees()), onCircle(h.Magnetic().FromNorth()), number(h.Deviation().Degrees()), onCircle(h.Compass().FromNorth()), u,
			number(l.Ground.Speed.Knots()), second(l.Begins).Format(time.RFC3339), second(l.Ends).Format(time.RFC3339),
		})
	}
	rows.Flush()
	_, err := io.WriteString(w, b.String())
	return err
}

// second is a time to the nearest second.
func second(t time.Time) time.Time { return t.UTC().Round(time.Second) }

// onCircle prints a direction to a tenth of a degree, never as 360.0.
func onCircle(a angle.Angle) string {
	tenths := int(a.Round(angle.Degree/10).Normalized() / (angle.Degree / 10))
	return fmt.Sprintf("%03d.%d", tenths/10, tenths%10)
}

// mapStep is how closely a leg is drawn: a rhumb line is no straight line between
// longitudes and latitudes.
const mapStep = 30 * sailing.NauticalMile

// WriteGeoJSON writes the waypoints as points and the legs as lines; nothing of a nil
// Passage. Its error is that of [geojson.Write].
func (p *Passage) WriteGeoJSON(w io.Writer) error {
	p = p.orNone()
	var features []geojson.Feature
	for i, point := range p.plan.Waypoints {
		features = append(features, geojson.Feature{Point: point.Position, Properties: map[string]any{"waypoint": i + 1, "name": point.Name}})
	}
	for _, l := range p.Legs {
		n := min(1000, 1+int(l.Distance/mapStep))
		line := []angle.Position{l.From.Position}
		for i := 1; i < n; i++ {
			line = append(line, l.at(l.Distance*sailing.Distance(i)/sailing.Distance(n)))
		}
		line = append(line, l.To.Position)
		properties := map[string]any{
			"leg": l.Number, "trackDegrees": l.Track.Degrees(), "distanceMetres": l.Distance.Metres(), "timeSeconds": seconds(l.Begins, l.Ends),
			"headingCompassDegrees": l.Heading.Compass().Degrees(), "steerCompassDegrees": l.Heading.Steer().Degrees(),
			"begins": second(l.Begins), "ends": second(l.Ends), "caution": working.Caution,
		}
		if warnings := l.Warnings(); len(warnings) > 0 {
			properties["warnings"] = warnings
		}
		features = append(features, geojson.Feature{Lines: [][]angle.Position{line}, Properties: properties})
	}
	return geojson.Write(w, features)
}

// orNone is the passage, or one without legs for nil.
func (p *Passage) orNone() *Passage {
	if p == nil {
		return &Passage{}
	}
	return p
}

// Route returns the waypoints as a route, with the time of arrival at each; a route
// without points of a nil Passage.
func (p *Passage) Route() gpx.Route {
	p = p.orNone()
	r := gpx.Route{Name: p.Name}
	for i, w := range p.plan.Waypoints {
		at := p.Depart
		if i > 0 && i <= len(p.Legs) {
			at = p.Legs[i-1].Ends
		}
		r.Points = append(r.Points, gpx.Point{Position: w.Position, Name: w.Name, Time: second(at)})
	}
	return r
}
