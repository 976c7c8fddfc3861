package gpx

import (
	"bufio"
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
	Name      string    `json:"name,omitempty"`    // of the file's content; may be empty
	Time      time.Time `json:"time,omitzero"`     // when it was made; zero if it is not said
	Waypoints []Point   `json:"waypoints"`         // those of no route
	Routes    []Route   `json:"routes"`
}

// A Route is a series of points to a destination.
type Route struct {
	Name        string  `json:"name,omitempty"` // may be empty
	Description string  `json:"description,omitempty"`
	Points      []Point `json:"points"` // from the first to the last
}

// A Point is a waypoint, alone or of a route.
type Point struct {
	Position    angle.Position `json:"position"`       // on WGS84
	Name        string         `json:"name,omitempty"` // this and the other texts are empty if they are not said
	Comment     string         `json:"comment,omitempty"`
	Description string         `json:"description,omitempty"`
	Symbol      string         `json:"symbol,omitempty"`
	Type        string         `json:"type,omitempty"` // what kind of place it is
	Time        time.Time      `json:"time,omitzero"`  // zero if it is not said
}

// An Error reports what is wrong with a file, or with a document that is to be
// written, and where.
type Error struct {
	Line, Column int    // from 1, of the end of the element at fault; 0 in writing
	Element      string // at fault, such as time; empty if it is the whole
	Err          error  // what is wrong
}

// Error says where and what, without the rest of names as long as a page.
func (e *Error) Error() string {
	switch {
	case e.Line == 0 && e.Element == "":
		return fmt.Sprintf("gpx: %.300v", e.Err)
	case e.Line == 0:
		return fmt.Sprintf("gpx: element %.60s: %.300v", e.Element, e.Err)
	case e.Element == "":
		return fmt.Sprintf("gpx: line %d: %.300v", e.Line, e.Err)
	}
	return fmt.Sprintf("gpx: line %d, element %.60s: %.300v", e.Line, e.Element, e.Err)
}

// Unwrap returns what is wrong.
func (e *Error) Unwrap() error { return e.Err }

// Bounds of what is read, far beyond any file of waypoints and routes.
const (
	MostPoints = 1_000_000 // of a file, and as many routes
	MostBytes  = 64 << 20  // of a file
	MostToken  = 256 << 10 // bytes of a tag, a text between tags or a comment
	MostDepth  = 250_000   // of elements within elements
)

// Read reads the waypoints and routes of a file. Other versions than 1.1, points
// that are not on the earth, times that are none, broken XML, and files beyond
// [MostPoints], [MostBytes], [MostToken] or [MostDepth] are refused with an
// [*Error], and no more is read of them. Entities that a file declares are not
// known, and refused where they are used.
func Read(r io.Reader) (*Document, error) {
	bounded := &boundedReader{Reader: bufio.NewReader(r)}
	d := &reader{xml: xml.NewDecoder(bounded), bounded: bounded}
	d.xml.CharsetReader = func(charset string, _ io.Reader) (io.Reader, error) {
		return nil, fmt.Errorf("encoding %.60q: want UTF-8", charset)
	}
	for {
		token, err := d.token()
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
			return nil, d.fault(start.Name.Local, fmt.Errorf("namespace %.60q: want gpx of %s", start.Name.Space, Namespace))
		}
		return d.document(start)
	}
}

// reader keeps the place in the file.
type reader struct {
	xml     *xml.Decoder
	bounded *boundedReader
	depth   int
	points  int
	routes  int
}

// token reads what comes next in the file.
func (d *reader) token() (xml.Token, error) {
	d.bounded.token = 0
	token, err := d.xml.Token()
	switch token.(type) {
	case xml.StartElement:
		if d.depth++; d.depth > MostDepth {
			return nil, fmt.Errorf("more than %d elements within each other", MostDepth)
		}
	case xml.EndElement:
		d.depth--
	}
	return token, err
}

// skip passes over the rest of the present element.
func (d *reader) skip() error {
	for outside := d.depth - 1; d.depth > outside; {
		if _, err := d.token(); err != nil {
			return err
		}
	}
	return nil
}

// A boundedReader counts what the decoder reads. The decoder reads a ByteReader byte
// by byte, and no further than the token at hand.
type boundedReader struct {
	*bufio.Reader
	all, token int
}

// ReadByte reads a byte, unless there are too many.
func (b *boundedReader) ReadByte() (byte, error) {
	if b.all++; b.all > MostBytes {
		return 0, fmt.Errorf("more than %d MiB: want a file of at most that", MostBytes>>20)
	}
	if b.token++; b.token > MostToken {
		return 0, fmt.Errorf("more than %d KiB in one tag, text or comment", MostToken>>10)
	}
	return b.Reader.ReadByte()
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
		return nil, d.fault("gpx", fmt.Errorf("version %.60q: want 1.1", version))
	}
	err := d.children("gpx", func(child xml.StartElement) error {
		switch child.Name.Local {
		case "metadata":
			return d.children("metadata", func(child xml.StartElement) error {
				switch child.Name.Local {
				case "name":
					return d.text(&doc.Name)
				case "time":
					return d.time(&doc.Time)
				}
				return d.skip()
			})
		case "wpt":
			p, err := d.point(child)
			doc.Waypoints = append(doc.Waypoints, p)
			return err
		case "rte":
			if d.routes++; d.routes > MostPoints {
				return fmt.Errorf("more than %d routes", MostPoints)
			}
			route, err := d.route()
			doc.Routes = append(doc.Routes, route)
			return err
		}
		return d.skip()
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
		token, err := d.token()
		if err != nil {
			return d.fault(element, err)
		}
		switch token := token.(type) {
		case xml.EndElement:
			return nil
		case xml.StartElement:
			if token.Name.Space != Namespace {
				err = d.skip()
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
			return d.text(&route.Name)
		case "desc":
			return d.text(&route.Description)
		case "rtept":
			p, err := d.point(child)
			route.Points = append(route.Points, p)
			return err
		}
		return d.skip()
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
			return d.text(&p.Name)
		case "cmt":
			return d.text(&p.Comment)
		case "desc":
			return d.text(&p.Description)
		case "sym":
			return d.text(&p.Symbol)
		case "type":
			return d.text(&p.Type)
		case "time":
			return d.time(&p.Time)
		}
		return d.skip()
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
			return p, fmt.Errorf("attribute %s %.60q: want decimal degrees", name, text)
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

// text reads an element that holds text only; elements within it are passed over.
func (d *reader) text(to *string) error {
	var b strings.Builder
	for outside := d.depth - 1; d.depth > outside; {
		inside := d.depth == outside+1
		token, err := d.token()
		if err != nil {
			return err
		}
		if text, is := token.(xml.CharData); is && inside {
			b.Write(text)
		}
	}
	*to = strings.TrimSpace(b.String())
	return nil
}

func (d *reader) time(to *time.Time) error {
	var text string
	if err := d.text(&text); err != nil {
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
		return fmt.Errorf("%.60q: want a date and time such as 2026-07-02T06:00:00Z", text)
	}
	*to = t.UTC()
	return nil
}
