package gpx

import (
	"encoding/xml"
	"errors"
	"fmt"
	"strings"

	"lubberline.example/angle"
)

// known reports whether an element is one of the schema's that may be passed over.
func known(name string) bool {
	switch name {
	case "ageofdgpsdata", "author", "bounds", "cmt", "copyright", "course", "desc", "dgpsid", "ele", "email", "extensions", "fix", "geoidheight", "hdop", "keywords", "link", "magvar",
		"metadata", "name", "number", "pdop", "rte", "rtept", "sat", "speed", "src", "sym", "time", "trk", "trkpt", "trkseg", "type", "url", "urlname", "vdop", "wpt":
		return true
	}
	return false
}

// passOver skips the present element and counts it.
func (d *reader) passOver(start xml.StartElement) error {
	if d.doc.PassedOver == nil {
		d.doc.PassedOver = map[string]int{}
	}
	if start.Name.Space != *d.space || !known(start.Name.Local) {
		d.doc.PassedOver["other"]++
		return d.skip(nil)
	}
	d.doc.PassedOver[start.Name.Local]++
	if start.Name.Local != "trk" && start.Name.Local != "trkseg" {
		return d.skip(nil)
	}
	return d.skip(func(within xml.StartElement) {
		if within.Name.Space == *d.space && within.Name.Local == "trkpt" {
			d.doc.PassedOver["trkpt"]++
		}
	})
}

// document reads the element gpx.
func (d *reader) document(start xml.StartElement) error {
	space := start.Name.Space
	if start.Name.Local != "gpx" || space != namespace11 && space != namespace10 && space != "" {
		return d.fault(start.Name.Local, fmt.Errorf("namespace %.60q: this is not a GPX file; its root is gpx of %s or %s", space, namespace11, namespace10))
	}
	d.space = &space
	d.doc.Creator, _ = attribute(start, "creator")
	if version, _ := attribute(start, "version"); version != "1.1" && version != "1.0" {
		return d.fault("gpx", fmt.Errorf("version %.60q is not supported; use 1.1 or 1.0", version))
	}
	return d.children("gpx", func(child xml.StartElement) error {
		switch child.Name.Local {
		case "metadata": // of 1.1
			return d.children("metadata", d.metadata)
		case "name", "time": // of 1.0
			return d.metadata(child)
		case "wpt":
			return d.point(child, &d.doc.Waypoints)
		case "rte":
			return d.route()
		case "trk":
			if d.tracks {
				return d.track()
			}
		}
		return d.passOver(child)
	})
}

// metadata reads an element of metadata.
func (d *reader) metadata(child xml.StartElement) error {
	switch child.Name.Local {
	case "name":
		return d.text("name", &d.doc.Name)
	case "time":
		return d.time(&d.doc.Time)
	}
	return d.passOver(child)
}

// children calls a function for each element of the schema within the present one. It passes
// over other elements.
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
			if token.Name.Space != *d.space {
				err = d.passOver(token)
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

// group counts a route, a track or a segment.
func (d *reader) group() error {
	if d.groups++; d.groups > d.most {
		return fmt.Errorf("more than %d routes, tracks and segments: split the file", d.most)
	}
	return nil
}

// route reads an element rte.
func (d *reader) route() error {
	if err := d.group(); err != nil {
		return err
	}
	var route Route
	err := d.children("rte", func(child xml.StartElement) error {
		switch child.Name.Local {
		case "name":
			return d.text("name", &route.Name)
		case "desc":
			return d.text("desc", &route.Description)
		case "rtept":
			return d.point(child, &route.Points)
		}
		return d.passOver(child)
	})
	d.doc.Routes = append(d.doc.Routes, route)
	return err
}

// track reads an element trk.
func (d *reader) track() error {
	if err := d.group(); err != nil {
		return err
	}
	var track Track
	err := d.children("trk", func(child xml.StartElement) error {
		switch child.Name.Local {
		case "name":
			return d.text("name", &track.Name)
		case "trkseg":
			if err := d.group(); err != nil {
				return err
			}
			var segment []Point
			err := d.children("trkseg", func(child xml.StartElement) error {
				if child.Name.Local == "trkpt" {
					return d.point(child, &segment)
				}
				return d.passOver(child)
			})
			track.Segments = append(track.Segments, segment)
			return err
		}
		return d.passOver(child)
	})
	d.doc.Tracks = append(d.doc.Tracks, track)
	return err
}

// point reads a point and appends it.
func (d *reader) point(start xml.StartElement, to *[]Point) error {
	element := start.Name.Local
	if d.points++; d.points > d.most {
		return d.fault(element, fmt.Errorf("more than %d points: split the file", d.most))
	}
	var p Point
	var err error
	if p.Position, err = position(start); err != nil {
		return d.fault(element, err)
	}
	err = d.children(element, func(child xml.StartElement) error {
		switch name := child.Name.Local; name {
		case "name":
			return d.text(name, &p.Name)
		case "cmt":
			return d.text(name, &p.Comment)
		case "desc":
			return d.text(name, &p.Description)
		case "sym":
			return d.text(name, &p.Symbol)
		case "type":
			return d.text(name, &p.Type)
		case "time":
			return d.time(&p.Time)
		}
		return d.passOver(child)
	})
	*to = append(*to, p)
	return err
}

// position reads the attributes lat and lon, in plain decimal degrees.
func position(start xml.StartElement) (angle.Position, error) {
	var p angle.Position
	for _, name := range []string{"lat", "lon"} {
		text, ok := attribute(start, name)
		if !ok {
			return p, fmt.Errorf("no attribute %s: a point has lat and lon", name)
		}
		if text = strings.TrimSpace(text); strings.Trim(text, "+-.0123456789") != "" {
			return p, fmt.Errorf("attribute %s %.60q is not in decimal degrees; write it as 47.14", name, text)
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
