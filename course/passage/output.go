package passage

import (
	"encoding/csv"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"text/tabwriter"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/geojson"
	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/course/internal/printed"
	"lubberline.example/course/sailing"
)

// String returns the passage as text: a line for each leg, the sums, the warnings and the
// caution.
func (p Passage) String() string {
	var b strings.Builder
	if p.plan.Name != "" {
		fmt.Fprintf(&b, "%s\n", working.OneLine(p.plan.Name))
	}
	fmt.Fprintf(&b, "Departure %s\n\n", p.plan.local(p.depart(), "2 January 2006, "))
	t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "leg\tto\ttrack\tdistance\theading\tvariation\tmagnetic\tdeviation\tcompass\t±\tground speed\ttime\tarrival")
	for _, l := range p.Legs {
		h := l.Heading
		fmt.Fprintf(t, "%d\t%s\t%.1f\t%v\t%.1f\t%.0v\t%.1f\t%.0v\t%.0f\t%s\t%v\t%s\t%s\n", l.number, working.OneLine(l.To.String()), l.Track, l.Distance, h.True(), h.Variation(), h.Magnetic(), h.Deviation(), h.Compass(), plusMinus(h.Uncertainty()), l.Ground.Speed, printed.Clock(l.shown()), p.plan.short(l.Ends))
	}
	t.Flush() // a strings.Builder takes everything
	fmt.Fprintf(&b, "\nTotal %v, %s; arrival %s\n", p.Distance, printed.Clock(minute(p.Arrive).Sub(minute(p.depart()))), p.plan.local(p.Arrive, "2 January 2006, "))
	for _, l := range p.Legs {
		for _, w := range l.Warnings() {
			fmt.Fprintf(&b, "Leg %d: %s\n", l.number, working.OneLine(w.Message))
		}
	}
	fmt.Fprintf(&b, "± is one standard uncertainty of the conversion.\n%s\n", working.Caution)
	return b.String()
}

// plusMinus prints an uncertainty to a tenth of a degree.
func plusMinus(u angle.Uncertainty) string {
	sigma, stated := u.Sigma()
	if !stated {
		return "not stated"
	}
	return fmt.Sprintf("%.1f", sigma)
}

// worked are the columns of [Passage.WriteCSV] that [ReadWaypoints] passes over, since [New]
// works them anew.
var worked = []string{
	"leg", "track_true", "distance_nautical_miles", "water_course_true", "water_speed_knots", "leeway_starboard", "heading_true", "variation_east", "heading_magnetic",
	"deviation_east", "heading_compass", "uncertainty", "ground_speed_knots", "begins", "ends", "warnings",
}

// WriteCSV writes a line for each waypoint, with the leg that ends there. [ReadWaypoints] reads the
// waypoints back.
//
// Positions are exact. Directions are in degrees to a tenth, distances in nautical miles and speeds in
// knots to a tenth; times are in UTC to the second. The leeway is plus to starboard. The speed is
// the waypoint's own, if it has one. Uncertainties that are not stated are empty.
//
// It writes all or nothing, and returns the writer's error as it is, or a [*fs.PathError] if w is nil. A nil Passage has no waypoints:
// it is a line of column names.
func (p *Passage) WriteCSV(w io.Writer) error {
	if w == nil {
		return &fs.PathError{Op: "write", Path: "a passage to a nil writer", Err: fs.ErrInvalid}
	}
	p = p.orNone()
	var b strings.Builder
	rows := csv.NewWriter(&b)
	rows.Write(slices.Concat(worked[:1], []string{"name", "position", "sailing", "speed"}, worked[1:])) // a strings.Builder takes everything
	for i, point := range p.plan.Waypoints {
		position, err := point.Position.MarshalText()
		if err != nil {
			return err
		}
		row := make([]string, 5, 4+len(worked))
		row[1], row[2] = record.Cell(strings.Join(strings.Fields(point.Name), " ")), string(position)
		if point.Speed != 0 {
			speed, err := point.Speed.MarshalText()
			if err != nil {
				return err
			}
			row[4] = string(speed)
		}
		if i > 0 && i <= len(p.Legs) {
			l := p.Legs[i-1]
			row[0], row[3] = strconv.Itoa(l.number), rhumb
			if point.GreatCircle {
				row[3] = greatCircle
			}
			row = append(row, l.figures()...)
		} else {
			row = row[:cap(row)]
			if i == 0 {
				row[len(row)-2] = second(p.depart()).Format(time.RFC3339)
			}
		}
		rows.Write(row)
	}
	rows.Flush()
	_, err := io.WriteString(w, b.String())
	return err
}

// figures are the cells of a leg, in the order of [worked].
func (l Leg) figures() []string {
	number := func(x float64) string {
		if text := strconv.FormatFloat(x, 'f', 1, 64); text != "-0.0" {
			return text
		}
		return "0.0"
	}
	h, u := l.Heading, ""
	if s, stated := h.Uncertainty().Sigma(); stated {
		u = number(s.Degrees())
	}
	var warnings []string
	for _, w := range l.Warnings() {
		warnings = append(warnings, w.Message)
	}
	return []string{
		onCircle(l.Track.FromNorth()), number(l.Distance.NauticalMiles()), onCircle(l.Water.Course.FromNorth()), number(l.Water.Speed.Knots()), number(l.Leeway.Deflection().Degrees()),
		onCircle(h.True().FromNorth()), number(h.Variation().Degrees()), onCircle(h.Magnetic().FromNorth()), number(h.Deviation().Degrees()), onCircle(h.Compass().FromNorth()), u,
		number(l.Ground.Speed.Knots()), second(l.Begins).Format(time.RFC3339), second(l.Ends).Format(time.RFC3339), record.Cell(strings.Join(warnings, "; ")),
	}
}

// second is a time to the nearest second.
func second(t time.Time) time.Time { return t.UTC().Round(time.Second) }

// onCircle prints a direction to a tenth of a degree, never as 360.0.
func onCircle(a angle.Angle) string {
	tenths := int(a.Round(angle.Degree/10).Normalized() / (angle.Degree / 10))
	return fmt.Sprintf("%03d.%d", tenths/10, tenths%10)
}

// mapStep is the distance between points of a leg on the map. A rhumb line is not a straight line
// between longitudes and latitudes.
const mapStep = 30 * sailing.NauticalMile

// WriteGeoJSON writes the waypoints as points and the legs as lines. A nil Passage has none. Its
// errors are those of [geojson.Write].
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
			"leg": l.number, "trackDegrees": l.Track.Degrees(), "distanceMetres": l.Distance.Metres(), "timeSeconds": seconds(l.Begins, l.Ends),
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

// orNone is the passage, or one without legs if it is nil.
func (p *Passage) orNone() *Passage {
	if p == nil {
		return &Passage{}
	}
	return p
}
