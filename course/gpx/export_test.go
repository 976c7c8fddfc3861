package gpx

import "io"

// The limits and the namespace, for the tests.
const (
	MaxPoints = maxPoints
	MaxBytes  = maxBytes
	MaxToken  = maxToken
	MaxDepth  = maxDepth
	Namespace = namespace11
)

// ReadBounded reads as ReadWithTracks does, with other limits.
func ReadBounded(r io.Reader, points, bytes int) (*Document, error) {
	return read(r, true, points, bytes)
}
