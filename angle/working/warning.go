package working

// A Warning says why an answer is weak. The answer is still valid.
type Warning struct {
	Kind    WarningKind `json:"kind"`            // for programs
	Message string      `json:"message"`         // with the figures, in English
	Reason  Reason      `json:"reason,omitzero"` // the message for other languages
}

// Warn returns a warning. It formats the message as fmt.Sprintf does. The key is that of the
// [Reason]. A kind with a single message uses the kind as its key.
func Warn(kind WarningKind, key, format string, arguments ...any) Warning {
	message, r := because(key, format, arguments...)
	return Warning{Kind: kind, Message: message, Reason: r}
}

// String returns the message.
func (w Warning) String() string { return w.Message }

// A WarningKind says why an answer is weak. Programs can compare it. The kinds are
// constants of the packages that give warnings.
type WarningKind string
