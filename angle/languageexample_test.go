package angle_test

import (
	"errors"
	"fmt"

	"lubberline.example/angle"
)

// enFrançais says an error of a parser in French, by its kind: the words are the program's
// own. What it has no words for is said as the library says it.
func enFrançais(err error) string {
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
	// Output:
	// "" is not a compass direction; write a direction such as 035° or NNE
	// écrivez un cap
	// "47°61′" is not a compass direction: minutes out of range at "61′"; write less than 60, as in 035°C
	// "47°61′" : les minutes vont de 0 à 59
}
