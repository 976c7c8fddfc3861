package gpx

// The limits and the namespace, for the tests.
const (
	MaxPoints = maxPoints
	MaxBytes  = maxBytes
	MaxToken  = maxToken
	MaxDepth  = maxDepth
	Namespace = namespace11
)
