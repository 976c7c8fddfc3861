package gpx

import (
	"fmt"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
)

// The namespaces of the two versions of the schema.
const (
	namespace10 = "http://www.topografix.com/GPX/1/0"
	namespace11 = "http://www.topografix.com/GPX/1/1"
)

// A Document holds the waypoints, routes and tracks of a file.
type Document struct {
	Creator   string    `json:"creator,omitempty"` // the program that wrote the file
	Name      string    `json:"name,omitempty"`    // of the content; may be empty
	Time      time.Time `json:"time,omitzero"`     // when the file was made; zero if unknown
	Waypoints []Point   `json:"waypoints"`         // those outside routes and tracks
	Routes    []Route   `json:"routes"`

	// Tracks is filled by [ReadWithTracks] only.
	Tracks []Track `json:"tracks,omitempty"`

	// PassedOver counts the elements of the file that are not in the Document, by their names
	// in the schema. Examples are "ele", "extensions", and "trk" and "trkpt" for tracks and
	// their points. All elements that are not in the schema count as "other". Elements inside
	// one that was passed over are not counted, except the points of tracks.
	PassedOver map[string]int `json:"passedOver,omitempty"`

	// Warnings lists what is doubtful in the file: [TimeWithoutZone], [RepeatedElement].
	Warnings []working.Warning `json:"warnings,omitempty"`
}

// The kinds of warnings about a file.
const (
	TimeWithoutZone working.WarningKind = "time-without-zone" // it was read as UTC, as the schema says
	RepeatedElement working.WarningKind = "repeated-element"  // such as two names of one point; the first was kept
)

// A Route is a series of points to a destination.
type Route struct {
	Name        string  `json:"name,omitempty"` // may be empty
	Description string  `json:"description,omitempty"`
	Points      []Point `json:"points"` // from the first to the last
}

// A Track is where a vessel went, point by point.
type Track struct {
	Name string `json:"name,omitempty"` // may be empty

	// Segments are the parts of the track. Recording stopped between them.
	Segments [][]Point `json:"segments"`
}

// A Point is a waypoint, or a point of a route or a track.
type Point struct {
	Position    angle.Position `json:"position"`       // on WGS84
	Name        string         `json:"name,omitempty"` // this and the other texts may be empty
	Comment     string         `json:"comment,omitempty"`
	Description string         `json:"description,omitempty"`
	Symbol      string         `json:"symbol,omitempty"`
	Type        string         `json:"type,omitempty"` // what kind of place it is
	Time        time.Time      `json:"time,omitzero"`  // zero if unknown
}

// An Error reports what is wrong with a file or a document, and where.
type Error struct {
	Line    int    // from 1, where the element at fault ends; 0 in writing
	Element string // at fault, such as time; empty if it is the whole document
	Err     error  // what is wrong
}

// Error returns the place and the fault, with very long names shortened.
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

// Unwrap returns the fault.
func (e *Error) Unwrap() error { return e.Err }
