package working

// A Warning says why an answer is weak. The answer still stands.
type Warning struct {
	Kind    WarningKind `json:"kind"`    // for programs
	Message string      `json:"message"` // with the figures, for a person
}

// String returns the message.
func (w Warning) String() string { return w.Message }

// A WarningKind says, in a word that programs can compare, what weakens an answer. The
// packages that warn list theirs.
type WarningKind string
