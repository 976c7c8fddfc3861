package signs

import (
	"lubberline.example/angle"
)

// A Usage is a way to draw signs. The zero value is [Commonwealth]. A [Pen] draws an unknown usage
// as Commonwealth; functions that return a sheet return an error for it.
type Usage string

// The usages.
const (
	Commonwealth Usage = "commonwealth"  // arrowheads distinguish the lines
	UnitedStates Usage = "united-states" // labels distinguish the lines
)

// ParseUsage reads commonwealth or united-states. An empty text is [Commonwealth]. If the text
// is neither, it returns an [*angle.ParseError].
func ParseUsage(text string) (Usage, error) {
	switch u := Usage(text); u {
	case "":
		return Commonwealth, nil
	case Commonwealth, UnitedStates:
		return u, nil
	}
	return "", &angle.ParseError{What: "usage of signs", Input: text, Kind: angle.UnknownWord, Want: "commonwealth or united-states"}
}

// name returns the usage as it is printed.
func (u Usage) name() string {
	if u == UnitedStates {
		return "the United States"
	}
	return "the Commonwealth"
}
