package gpx

import (
	"bufio"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"lubberline.example/angle/working"
)

// Limits, far beyond any file of waypoints and routes.
const (
	maxPoints = 1_000_000 // in a file, and as many routes, tracks and segments
	maxBytes  = 64 << 20  // of a file
	maxToken  = 256 << 10 // bytes of a tag, a text between tags or a comment
	maxDepth  = 250_000   // of elements within elements
)

// Read reads the waypoints and routes of a file of GPX 1.1 or 1.0 in UTF-8. The elements may be in
// the namespace of either version or in none. Tracks are counted in
// [Document.PassedOver]; to read them use [ReadWithTracks].
//
// If the file is not well-formed XML or not GPX, or has an invalid position or time, Read
// returns an [*Error]. It does so too for two documents in one file, and for entities that a file
// declares. A file may have at most 64 MiB, a million points, and a million routes, tracks and
// segments. One tag or text may have at most 256 KiB, and elements may be 250,000 deep.
func Read(r io.Reader) (*Document, error) { return read(r, false, maxPoints, maxBytes) }

// ReadWithTracks reads a file as [Read] does, and its tracks too: positions with times. The
// million points include those of tracks.
func ReadWithTracks(r io.Reader) (*Document, error) { return read(r, true, maxPoints, maxBytes) }

// read reads a file, with its tracks or without, up to a number of points and of bytes.
func read(r io.Reader, tracks bool, points, bytes int) (*Document, error) {
	if r == nil {
		return nil, &Error{Err: errors.New("no reader: give an open file")}
	}
	bounded := &boundedReader{Reader: bufio.NewReader(r), most: bytes}
	d := &reader{xml: xml.NewDecoder(bounded), bounded: bounded, tracks: tracks, most: points, doc: &Document{}}
	d.xml.CharsetReader = func(charset string, _ io.Reader) (io.Reader, error) {
		return nil, fmt.Errorf("the encoding %.60q cannot be read: save the file as UTF-8", charset)
	}
	start, err := d.outside()
	if errors.Is(err, io.EOF) {
		err = errNotGPX
	}
	if err != nil {
		return nil, d.fault("", err)
	}
	if err := d.document(start); err != nil {
		return nil, err
	}
	next, err := d.outside()
	switch {
	case errors.Is(err, io.EOF):
		d.warn()
		return d.doc, nil
	case err == nil:
		err = errors.New("a second document follows the first: split the file")
	}
	return nil, d.fault(next.Name.Local, err)
}

var (
	errNotGPX = errors.New("no element gpx: this is not a GPX file")
	errText   = errors.New("text outside the element gpx: the file is damaged, or not a GPX file")
)

// outside returns the next element outside the document. Only blanks, comments and
// declarations may stand before it, and a byte-order mark.
func (d *reader) outside() (xml.StartElement, error) {
	for {
		token, err := d.token()
		if err != nil {
			return xml.StartElement{}, err
		}
		switch token := token.(type) {
		case xml.StartElement:
			return token, nil
		case xml.CharData:
			if strings.TrimSpace(strings.TrimPrefix(string(token), "\ufeff")) != "" {
				if d.space == nil {
					return xml.StartElement{}, errNotGPX
				}
				return xml.StartElement{}, errText
			}
		}
	}
}

// reader keeps the place in the file.
type reader struct {
	xml     *xml.Decoder
	bounded *boundedReader
	doc     *Document
	space   *string // the namespace of the document, once known
	tracks  bool    // whether to read them
	most    int     // points, and as many routes, tracks and segments
	depth   int
	points  int
	groups  int // routes, tracks and segments

	withoutZone, repeated occurrences
}

// occurrences are how often something was found, and where first.
type occurrences struct {
	count, line int
	element     string
}

// note counts something that was found, and keeps the place of the first.
func (d *reader) note(o *occurrences, element string) {
	if o.count++; o.count == 1 {
		o.line, _ = d.xml.InputPos()
		o.element = element
	}
}

// warn adds one warning of each kind to the document.
func (d *reader) warn() {
	add := func(w working.Warning) { d.doc.Warnings = append(d.doc.Warnings, w) }
	switch o := d.withoutZone; {
	case o.count == 1:
		add(working.Warn(TimeWithoutZone, "time-without-zone", "a time has no zone (line %d, element %s): it was read as UTC", o.line, o.element))
	case o.count > 1:
		add(working.Warn(TimeWithoutZone, "times-without-zone", "%d times have no zone (the first on line %d, element %s): they were read as UTC", o.count, o.line, o.element))
	}
	switch o := d.repeated; {
	case o.count == 1:
		add(working.Warn(RepeatedElement, "repeated-element", "an element is given twice (line %d, %s): the first was kept", o.line, o.element))
	case o.count > 1:
		add(working.Warn(RepeatedElement, "repeated-elements", "%d elements are given twice (the first on line %d, %s): of each, the first was kept", o.count, o.line, o.element))
	}
}

// token reads what comes next in the file.
func (d *reader) token() (xml.Token, error) {
	d.bounded.token = 0
	token, err := d.xml.Token()
	switch token := token.(type) {
	case xml.StartElement:
		if d.depth++; d.depth > maxDepth {
			return nil, fmt.Errorf("more than %d nested elements: the file is damaged, or not a GPX file", maxDepth)
		}
		if name := doubled(token.Attr); name != "" {
			return nil, fmt.Errorf("element %.60s has the attribute %.60s twice: remove one", token.Name.Local, name)
		}
	case xml.EndElement:
		d.depth--
	}
	return token, err
}

// doubled is the name of an attribute that is given twice, or empty. XML does not allow that, and
// the decoder does not check it.
func doubled(attributes []xml.Attr) string {
	if len(attributes) <= 8 {
		for i, a := range attributes {
			for _, b := range attributes[:i] {
				if a.Name == b.Name {
					return a.Name.Local
				}
			}
		}
		return ""
	}
	seen := make(map[xml.Name]bool, len(attributes))
	for _, a := range attributes {
		if seen[a.Name] {
			return a.Name.Local
		}
		seen[a.Name] = true
	}
	return ""
}

// skip passes over the rest of the present element and calls a function for each
// element within it; the function may be nil.
func (d *reader) skip(each func(xml.StartElement)) error {
	for outside := d.depth - 1; d.depth > outside; {
		token, err := d.token()
		if err != nil {
			return err
		}
		if start, is := token.(xml.StartElement); is && each != nil {
			each(start)
		}
	}
	return nil
}

// A boundedReader counts what the decoder reads. The decoder reads a ByteReader byte
// by byte, and no further than the token at hand.
type boundedReader struct {
	*bufio.Reader
	most       int // bytes in all
	all, token int
}

// ReadByte reads a byte, unless there are too many.
func (b *boundedReader) ReadByte() (byte, error) {
	if b.all++; b.all > b.most {
		return 0, fmt.Errorf("more than %d MiB: split the file", b.most>>20)
	}
	if b.token++; b.token > maxToken {
		return 0, fmt.Errorf("more than %d KiB in one tag, text or comment: shorten it", maxToken>>10)
	}
	return b.Reader.ReadByte()
}

// fault returns an [*Error] at the present line.
func (d *reader) fault(element string, err error) error {
	line, _ := d.xml.InputPos()
	return &Error{line, element, err}
}

// attribute returns the value of an attribute, and whether it is there.
func attribute(start xml.StartElement, name string) (string, bool) {
	for _, a := range start.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value, true
		}
	}
	return "", false
}

// text reads an element that holds text only. Elements within it are passed over. A text that was
// read before stays.
func (d *reader) text(element string, to *string) error {
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
	text := strings.TrimSpace(b.String())
	switch {
	case *to == "":
		*to = text
	case text != "":
		d.note(&d.repeated, element)
	}
	return nil
}

// time reads an element time.
func (d *reader) time(to *time.Time) error {
	var text string
	if err := d.text("time", &text); err != nil {
		return err
	}
	if text == "" {
		return nil
	}
	t, err := time.Parse(time.RFC3339, text)
	if err != nil { // the schema's times are UTC
		if t, err = time.Parse("2006-01-02T15:04:05", text); err == nil {
			d.note(&d.withoutZone, "time")
		}
	}
	if err != nil || !writable(t) {
		return fmt.Errorf("%.60q is not a date and time; write it as 2026-07-02T06:00:00Z", text)
	}
	if !to.IsZero() {
		d.note(&d.repeated, "time")
		return nil
	}
	*to = t.UTC()
	return nil
}
