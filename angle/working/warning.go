package working

// A Warning says why an answer is weak. The answer is still valid.
type Warning struct {
	Kind    WarningKind `json:"kind"`    // for programs
	Message string      `json:"message"` // with the figures, for a person
}

// String returns the message.
func (w Warning) String() string { return w.Message }

// A WarningKind says why an answer is weak. Programs can compare it. The kinds are
// constants of the packages that give warnings.
type WarningKind string
