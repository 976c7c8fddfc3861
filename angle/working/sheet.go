package working

// Caution stands below each working that a vessel may be navigated by, such as that of a course to
// steer, a fix or a deviation.
const Caution = "An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first."

// A Sheet is a whole working, ready to print.
type Sheet struct {
	Title    string    `json:"title,omitempty"`    // one line; may be empty
	Steps    Steps     `json:"steps"`              // in order
	Warnings []Warning `json:"warnings,omitempty"` // why the answer is weak
	Caution  string    `json:"caution,omitempty"`  // such as [Caution]; may be empty
}

// String returns the title, the steps in columns, the warnings and the caution, as text.
func (s Sheet) String() string {
	const usual = 128 // bytes of a line
	b := make([]byte, 0, usual*(len(s.Steps)+len(s.Warnings)+2))
	indent := ""
	if s.Title != "" {
		b = append(append(b, OneLine(s.Title)...), '\n')
		indent = "  "
	}
	b = s.Steps.Append(b, indent)
	for _, w := range s.Warnings {
		b = append(b, indent...)
		b = append(append(append(b, "Warning: "...), OneLine(w.Message)...), '\n')
	}
	if s.Caution != "" {
		b = append(b, indent...)
		b = append(append(b, OneLine(s.Caution)...), '\n')
	}
	return string(b)
}
