package angle_test

import (
	"strings"
	"testing"

	"lubberline.example/angle"
)

// The characters that keyboards, typesetters and programs put for one another.
var (
	degreeSigns  = []string{"°", "º", "˚", "∘", "⁰", "ᵒ", "゜", "d", "D", "deg", "DEGREES"}
	primes       = []string{"′", "'", "’", "‘", "‛", "ʹ", "ʼ", "´", "＇", "`", "min", "MINUTES"}
	doublePrimes = []string{"″", "\"", "”", "“", "‟", "ʺ", "˝", "＂", "〃", "''", "′′", "’’", "´´", "``", "'′", "′'", "ʹ`", "sec", "SECONDS"}
	dashes       = []string{"-", "−", "–", "—", "‐", "‑", "‒", "﹣", "－"}
	blanks       = []string{" ", "\t", "\n", "\r", "\u00a0", "\u2002", "\u2003", "\u2007", "\u2008", "\u2009", "\u200a", "\u202f", "\u3000"}
	points       = []string{".", "·", "．"}
)

func TestLookAlikesAreFolded(t *testing.T) {
	const want = 4*deg + 15*minute + 30*second + second/2
	read := func(text string, want angle.Angle) {
		t.Helper()
		if got, err := angle.Parse(text); err != nil || got != want {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	for _, d := range degreeSigns {
		for _, m := range primes {
			for _, s := range doublePrimes {
				read("4"+d+"15"+m+"30.5"+s, want)
			}
		}
	}
	for _, sign := range dashes {
		read(sign+"4.25", -4*deg-15*minute)
		for _, separator := range dashes {
			read(sign+"4"+separator+"15"+separator+"30.5", -want)
		}
	}
	for _, b := range blanks {
		for _, c := range blanks {
			if strings.ContainsAny(b+c, "\r\n") { // between figures they part two angles
				read(b+c+"4 15\t30.5"+c, want)
				continue
			}
			read(b+c+"4"+b+"15"+b+c+"30.5"+c, want)
		}
	}
	for _, p := range points {
		read("4"+p+"25", 4*deg+15*minute)
		read(p+"5", 30*minute)
		read("4 15 30"+p+"5", want)
	}
}

// Offsets count bytes of the text as given, also with look-alikes of another width.
func TestOffsetsCountTheBytesOfTheText(t *testing.T) {
	for _, b := range blanks {
		for _, sign := range dashes {
			for _, d := range degreeSigns[:7] {
				for _, m := range primes[:10] {
					text := b + sign + "4" + d + "15" + m
					_, err := angle.Parse(text + "?")
					checkRefusal(t, refusal{text + "?", angle.TrailingText, len(text)}, err)
				}
			}
		}
	}
}

// What only looks a little like one of these is refused, never passed over.
func TestOtherCharactersAreRefused(t *testing.T) {
	for _, c := range strings.Split("℃ ☉ ¨ ~ ∼ _ + ± \u200b \ufeff \u00ad ‖ ‴ ′′′ , ; | \\ ( ) * ? ! \x7f \ufffd", " ") {
		if got, err := angle.Parse("4" + c + "15"); err == nil {
			t.Errorf("4%q15 is read as %v", c, got)
		}
	}
}
