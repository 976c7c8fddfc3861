package angle_test

import (
	"errors"
	"testing"

	"lubberline.example/angle"
)

// Charts and log-books put the letter of the north in brackets.
func TestTheNorthMayStandInBrackets(t *testing.T) {
	for _, text := range []string{"035°(T)", "035° (T)", "N 35° E (T)", "035 (true)", "035(T) "} {
		if d, err := angle.ParseTrue(text); err != nil || d != angle.MustParseTrue("035") {
			t.Errorf("%q: %v, %v", text, d, err)
		}
	}
	for text, want := range map[string]angle.ErrorKind{
		"035°(M)": angle.WrongNorth, "035°(": angle.TrailingText, "035°()": angle.TrailingText,
		"035°(T": angle.TrailingText, "035°(x)": angle.TrailingText, "035°(T) x": angle.TrailingText,
	} {
		_, err := angle.ParseTrue(text)
		if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Kind != want || e.Offset > len(text) {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
	var m angle.Magnetic
	if err := m.UnmarshalText([]byte("035°(M)")); err != nil || m != angle.MustParseMagnetic("035") {
		t.Errorf("%v, %v", m, err)
	}
}

// Where the latitude has its name, a bare longitude might be on either side.
func TestLongitudeNeedsNameAfterNamedLatitude(t *testing.T) {
	for _, text := range []string{"50N 4", "4N15", "50°12.4′N 004.135", "N50, 4"} {
		_, err := angle.ParsePosition(text)
		if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Kind != angle.MissingName {
			t.Errorf("%q: %v, want %s", text, err, angle.MissingName)
		}
	}
	for _, text := range []string{"50N -4", "50N 4W", "50, 4", "50N 0", "50N 000°00′"} {
		if p, err := angle.ParsePosition(text); err != nil {
			t.Errorf("%q: %v, %v", text, p, err)
		}
	}
}
