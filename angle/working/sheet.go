package working

// Caution stands under every working that ends in something to steer by.
const Caution = "An aid for checking. It does not replace up-to-date charts and notices to mariners, a proper lookout, or a competent navigator; local rules and licensed practice come first."

// A Sheet is a whole working, as it stands on the page.
type Sheet struct {
	Title    string    `json:"title,omitempty"`    // of one line; may be empty
	Steps    Steps     `json:"steps"`              // in the order in which they were taken
	Warnings []Warning `json:"warnings,omitempty"` // why the answer is weak
	Caution  string    `json:"caution,omitempty"`  // usually [Caution]; empty where nothing is steered by
}

// String returns the sheet as text: the title, the steps in columns, the
// warnings and the caution.
func (s Sheet) String() string {
	var b []byte
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
