package angle_test

import (
	"errors"
	"fmt"

	"lubberline.example/angle"
)

// grandeurs are the quantities of the program, in French.
var grandeurs = map[string]string{"latitude": "la latitude", "longitude": "la longitude"}

// enFrançais says an error in French, by its type and its kind: the words are the program's
// own. What it has no words for is said as the library says it.
func enFrançais(err error) string {
	var beyond *angle.RangeError
	if errors.As(err, &beyond) && grandeurs[beyond.What] != "" {
		return fmt.Sprintf("%s ne peut pas être %v", grandeurs[beyond.What], beyond.Value)
	}
	var refused *angle.ParseError
	if !errors.As(err, &refused) {
		return err.Error()
	}
	switch refused.Kind {
	case angle.Empty:
		return "écrivez un cap"
	case angle.MinutesOutOfRange:
		return fmt.Sprintf("%q : les minutes vont de 0 à 59", refused.Input)
	case angle.OutOfRange:
		return fmt.Sprintf("%q : un cap va de 0° à 360°", refused.Input)
	}
	return err.Error()
}

// An error shown to a user in another language. Its kind is a key that does not change.
func ExampleErrorKind() {
	for _, text := range []string{"", "47°61′"} {
		_, err := angle.ParseCompass(text)
		fmt.Println(err)
		fmt.Println(enFrançais(err))
	}
	_, err := angle.PositionDegrees(95, -19)
	fmt.Println(err)
	fmt.Println(enFrançais(err))
	// Output:
	// "" is not a compass direction; write a direction such as 035° or NNE
	// écrivez un cap
	// "47°61′" is not a compass direction: minutes out of range at "61′"; write less than 60, as in 035°C
	// "47°61′" : les minutes vont de 0 à 59
	// latitude 95 is invalid; give −90° to 90°, north positive
	// la latitude ne peut pas être 95
}
