package gpx

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"lubberline.example/angle"
)

// Namespace is that of the schema's version 1.1.
const Namespace = "http://www.topografix.com/GPX/1/1"

// A Document is the waypoints and routes of a file.
type Document struct {
	Creator   string    `json:"creator,omitempty"` // the program that wrote it
	Name      string    `json:"name,omitempty"`
	Time      time.Time `json:"time,omitzero"` // when it was made; zero if it is not said
	Waypoints []Point   `json:"waypoints"`
	Routes    []Route   `json:"routes"`
}

// A Route is a series of points to a destination.
type Route struct {
	Name        string  `json:"name,omitempty"`
	Description string  `json:"description,omitempty"`
	Points      []Point `json:"points"`
}

// A Point is a waypoint, alone or of a route.
type Point struct {
	Position    angle.Position `json:"position"`
	Name        string         `json:"name,omitempty"`
	Comment     string         `json:"comment,omitempty"`
	Description string         `json:"description,omitempty"`
	Symbol      string         `json:"symbol,omitempty"`
	Type        string         `json:"type,omitempty"`
	Time        time.Time      `json:"time,omitzero"` // zero if it is not said
}

// An Error reports what is wrong with a file, or with a document that is to be
// written, and where.
type Error struct {
	Line, Column int    // from 1, of the end of the element at fault; 0 in writing
	Element      string // at fault, such as time; empty if it is the whole
	Err          error
}

// Error says where and what.
func (e *Error) Error() string {
	switch {
	case e.Line == 0 && e.Element == "":
		return fmt.Sprintf("gpx: %v", e.Err)
	case e.Line == 0:
		return fmt.Sprintf("gpx: element %s: %v", e.Element, e.Err)
	case e.Element == "":
		return fmt.Sprintf("gpx: line %d: %v", e.Line, e.Err)
	}
	return fmt.Sprintf("gpx: line %d, element %s: %v", e.Line, e.Element, e.Err)
}

// Unwrap returns what is wrong.
func (e *Error) Unwrap() error { return e.Err }

// MostPoints is how many points a file may have.
const MostPoints = 1_000_000

// Read reads the waypoints and routes of a file. Other versions than 1.1, points
// that are not on the earth, times that are none, broken XML and files of more than
// [MostPoints] points are refused with an [*Error].
func Read(r io.Reader) (*Document, error) {
	d := &reader{xml: xml.NewDecoder(r)}
	d.xml.CharsetReader = func(charset string, _ io.Reader) (io.Reader, error) {
		return nil, fmt.Errorf("encoding %q: want UTF-8", charset)
	}
	for {
		token, err := d.xml.Token()
		if errors.Is(err, io.EOF) {
			return nil, d.fault("", errors.New("no element gpx: this is not a GPX file"))
		}
		if err != nil {
			return nil, d.fault("", err)
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if start.Name.Local != "gpx" || start.Name.Space != Namespace {
			return nil, d.fault(start.Name.Local, fmt.Errorf("namespace %q: want gpx of %s", start.Name.Space, Namespace))
		}
		return d.document(start)
	}
}

// reader keeps the place in the file.
type reader struct {
	xml    *xml.Decoder
	points int
}

func (d *reader) fault(element string, err error) error {
	line, column := d.xml.InputPos()
	return &Error{line, column, element, err}
}

func attribute(start xml.StartElement, name string) (string, bool) {
	for _, a := range start.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value, true
		}
	}
	return "", false
}

func (d *reader) document(start xml.StartElement) (*Document, error) {
	doc := &Document{}
	doc.Creator, _ = attribute(start, "creator")
	if version, _ := attribute(start, "version"); version != "1.1" {
		return nil, d.fault("gpx", fmt.Errorf("version %q: want 1.1", version))
	}
	err := d.children("gpx", func(child xml.StartElement) error {
		switch child.Name.Local {
		case "metadata":
			return d.children("metadata", func(child xml.StartElement) error {
				switch child.Name.Local {
				case "name":
					return d.text(child, &doc.Name)
				case "time":
					return d.time(child, &doc.Time)
				}
				return d.xml.Skip()
			})
		case "wpt":
			p, err := d.point(child)
			doc.Waypoints = append(doc.Waypoints, p)
			return err
		case "rte":
			route, err := d.route()
			doc.Routes = append(doc.Routes, route)
			return err
		}
		return d.xml.Skip()
	})
	if err != nil {
		return nil, err
	}
	return doc, nil
}

// children calls a function for each element of the schema within the present one;
// others are passed over.
func (d *reader) children(element string, each func(xml.StartElement) error) error {
	for {
		token, err := d.xml.Token()
		if err != nil {
			return d.fault(element, err)
		}
		switch token := token.(type) {
		case xml.EndElement:
			return nil
		case xml.StartElement:
			if token.Name.Space != Namespace {
				err = d.xml.Skip()
			} else {
				err = each(token)
			}
			if _, is := errors.AsType[*Error](err); err != nil && !is {
				err = d.fault(token.Name.Local, err)
			}
			if err != nil {
				return err
			}
		}
	}
}

func (d *reader) route() (Route, error) {
	var route Route
	err := d.children("rte", func(child xml.StartElement) error {
		switch child.Name.Local {
		case "name":
			return d.text(child, &route.Name)
		case "desc":
			return d.text(child, &route.Description)
		case "rtept":
			p, err := d.point(child)
			route.Points = append(route.Points, p)
			return err
		}
		return d.xml.Skip()
	})
	return route, err
}

func (d *reader) point(start xml.StartElement) (Point, error) {
	var p Point
	if d.points++; d.points > MostPoints {
		return p, d.fault(start.Name.Local, fmt.Errorf("more than %d points", MostPoints))
	}
	var err error
	if p.Position, err = position(start); err != nil {
		return p, d.fault(start.Name.Local, err)
	}
	err = d.children(start.Name.Local, func(child xml.StartElement) error {
		switch child.Name.Local {
		case "name":
			return d.text(child, &p.Name)
		case "cmt":
			return d.text(child, &p.Comment)
		case "desc":
			return d.text(child, &p.Description)
		case "sym":
			return d.text(child, &p.Symbol)
		case "type":
			return d.text(child, &p.Type)
		case "time":
			return d.time(child, &p.Time)
		}
		return d.xml.Skip()
	})
	return p, err
}

// position reads the attributes lat and lon, in plain decimal degrees.
func position(start xml.StartElement) (angle.Position, error) {
	var p angle.Position
	for _, name := range []string{"lat", "lon"} {
		text, ok := attribute(start, name)
		if !ok {
			return p, fmt.Errorf("no attribute %s", name)
		}
		if text = strings.TrimSpace(text); strings.Trim(text, "+-.0123456789") != "" {
			return p, fmt.Errorf("attribute %s %q: want decimal degrees", name, text)
		}
		var err error
		if name == "lat" {
			p.Latitude, err = angle.ParseLatitude(text)
		} else {
			p.Longitude, err = angle.ParseLongitude(text)
		}
		if err != nil {
			return p, fmt.Errorf("attribute %s: %w", name, err)
		}
	}
	return p, nil
}

// text reads an element that holds text only.
func (d *reader) text(start xml.StartElement, to *string) error {
	var content struct {
		Text string `xml:",chardata"`
	}
	if err := d.xml.DecodeElement(&content, &start); err != nil {
		return err
	}
	*to = strings.TrimSpace(content.Text)
	return nil
}

func (d *reader) time(start xml.StartElement, to *time.Time) error {
	var text string
	if err := d.text(start, &text); err != nil {
		return err
	}
	if text == "" {
		return nil
	}
	t, err := time.Parse(time.RFC3339, text)
	if err != nil { // without a zone the schema's times are UTC
		t, err = time.Parse("2006-01-02T15:04:05", text)
	}
	if err != nil || !writable(t) {
		return fmt.Errorf("%q: want a date and time such as 2026-07-02T06:00:00Z", text)
	}
	*to = t.UTC()
	return nil
}
