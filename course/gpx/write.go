package gpx

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"time"

	"lubberline.example/angle"
)

// The elements as they are written, in the order of the schema.
type (
	fileElement struct {
		XMLName  xml.Name         `xml:"gpx"`
		Version  string           `xml:"version,attr"`
		Creator  string           `xml:"creator,attr"`
		Space    string           `xml:"xmlns,attr"`
		Metadata *metadataElement `xml:"metadata"`
		Points   []pointElement   `xml:"wpt"`
		Routes   []routeElement   `xml:"rte"`
		Tracks   []trackElement   `xml:"trk"`
	}
	metadataElement struct {
		Name string `xml:"name,omitempty"`
		Time string `xml:"time,omitempty"`
	}
	routeElement struct {
		Name        string         `xml:"name,omitempty"`
		Description string         `xml:"desc,omitempty"`
		Points      []pointElement `xml:"rtept"`
	}
	trackElement struct {
		Name     string           `xml:"name,omitempty"`
		Segments []segmentElement `xml:"trkseg"`
	}
	segmentElement struct {
		Points []pointElement `xml:"trkpt"`
	}
	pointElement struct {
		Latitude    string `xml:"lat,attr"`
		Longitude   string `xml:"lon,attr"`
		Time        string `xml:"time,omitempty"`
		Name        string `xml:"name,omitempty"`
		Comment     string `xml:"cmt,omitempty"`
		Description string `xml:"desc,omitempty"`
		Symbol      string `xml:"sym,omitempty"`
		Type        string `xml:"type,omitempty"`
	}
)

// Write writes a document as GPX 1.1. PassedOver and Warnings are not written.
//
// An empty Creator is written as "lubberline", since the schema requires one. Longitude 180° is
// written as −180, as the schema requires. Characters that XML can't hold, such as most control
// characters, are written as U+FFFD.
//
// If the document is nil, or the year of a time is not from 0 to 9999, Write returns an
// [*Error] and writes nothing. Other errors are those of the writer.
func Write(w io.Writer, d *Document) error {
	if d == nil {
		return &Error{Err: errors.New("no document: give one, even without points")}
	}
	if w == nil {
		return &Error{Err: errors.New("no writer: give an open file")}
	}
	if err := checkTimes(d); err != nil {
		return err
	}
	file := fileElement{Version: "1.1", Creator: d.Creator, Space: namespace11}
	if file.Creator == "" {
		file.Creator = "lubberline"
	}
	if d.Name != "" || !d.Time.IsZero() {
		file.Metadata = &metadataElement{d.Name, timeText(d.Time)}
	}
	file.Points = elements(d.Waypoints)
	for _, r := range d.Routes {
		file.Routes = append(file.Routes, routeElement{r.Name, r.Description, elements(r.Points)})
	}
	for _, t := range d.Tracks {
		track := trackElement{Name: t.Name}
		for _, segment := range t.Segments {
			track.Segments = append(track.Segments, segmentElement{elements(segment)})
		}
		file.Tracks = append(file.Tracks, track)
	}
	var b bytes.Buffer
	b.WriteString(xml.Header)
	e := xml.NewEncoder(&b)
	e.Indent("", "  ")
	if err := e.Encode(file); err != nil {
		return &Error{Err: err}
	}
	b.WriteByte('\n')
	_, err := w.Write(b.Bytes())
	return err
}

// elements returns points as they are written.
func elements(points []Point) []pointElement {
	var out []pointElement
	for _, p := range points {
		longitude := p.Position.Longitude.Angle()
		if longitude == angle.Turn/2 {
			longitude = -longitude
		}
		out = append(out, pointElement{
			Latitude: decimal(p.Position.Latitude.Angle()), Longitude: decimal(longitude), Time: timeText(p.Time),
			Name: p.Name, Comment: p.Comment, Description: p.Description, Symbol: p.Symbol, Type: p.Type,
		})
	}
	return out
}

// decimal is the shortest text that reads back to the same angle.
func decimal(a angle.Angle) string { return strconv.FormatFloat(a.Degrees(), 'f', -1, 64) }

// checkTimes refuses times that the schema can't write.
func checkTimes(d *Document) error {
	if !writable(d.Time) {
		return &Error{Element: "time", Err: fmt.Errorf("of the document %v: the year must be from 0 to 9999 UTC", d.Time)}
	}
	all := [][]Point{d.Waypoints}
	for _, r := range d.Routes {
		all = append(all, r.Points)
	}
	for _, t := range d.Tracks {
		all = append(all, t.Segments...)
	}
	for _, p := range slices.Concat(all...) {
		if !writable(p.Time) {
			return &Error{Element: "time", Err: fmt.Errorf("of point %q %v: the year must be from 0 to 9999 UTC", p.Name, p.Time)}
		}
	}
	return nil
}

// writable reports whether the schema can write a time.
func writable(t time.Time) bool {
	year := t.UTC().Year()
	return year >= 0 && year <= 9999
}

// timeText returns a time as it is written; empty if it is zero.
func timeText(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.UTC().Format(time.RFC3339Nano)
}
