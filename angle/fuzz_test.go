package angle_test

import (
	"encoding"
	"errors"
	"fmt"
	"math/big"
	"math/rand/v2"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"lubberline.example/angle"
)

// checkParse checks two laws of every parser. A refusal is a *ParseError whose place
// lies in the text. A value that is read prints exactly, and its text reads back to
// the same value.
func checkParse[V comparable](t *testing.T, text string, value V, err error) {
	t.Helper()
	if err != nil {
		var p *angle.ParseError
		if !errors.As(err, &p) || p.Input != text || p.Offset < 0 || p.Offset > len(text) || p.Kind == "" || p.Want == "" {
			t.Fatalf("%q: %#v", text, err)
		}
		if value != *new(V) {
			t.Fatalf("%q: refused and read as %v", text, value)
		}
		return
	}
	if q, ok := any(value).(angle.QuarterPoint); ok {
		if back, err := angle.ParseTrue(q.String()); err != nil || back.NearestQuarterPoint() != q {
			t.Fatalf("%q, printed %v, read back as %v, %v", text, q, back, err)
		}
		return
	}
	printed, err := any(value).(encoding.TextMarshaler).MarshalText()
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	back := reflect.New(reflect.TypeOf(value))
	if err := back.Interface().(encoding.TextUnmarshaler).UnmarshalText(printed); err != nil || back.Elem().Interface() != any(value) {
		t.Fatalf("%q, printed %q, read back as %v, %v", text, printed, back.Elem(), err)
	}
}

func addTexts(f *testing.F, texts ...string) {
	for _, text := range texts {
		f.Add(text)
	}
}

func FuzzParse(f *testing.F) {
	for _, r := range angleReadings {
		f.Add(r.text)
	}
	for _, r := range angleRefusals {
		f.Add(r.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		a, err := angle.Parse(text)
		checkParse(t, text, a, err)
		if want, plain := slowParse(text); plain {
			if (want != nil) != (err == nil) || err == nil && a != *want {
				t.Fatalf("%q: %d, %v; slowly %v", text, int64(a), err, want)
			}
		}
		e, err := angle.ParseEastWest(text)
		checkParse(t, text, e, err)
		printed, err2 := angle.ParsePrinted(text)
		if (err == nil) != (err2 == nil) || printed.Angle != e || e < 0 && !printed.West || e > 0 && printed.West {
			t.Fatalf("%q: %v, %v, but printed %+v, %v", text, e, err, printed, err2)
		}
		var u angle.Uncertainty
		err = u.UnmarshalText([]byte(text))
		checkParse(t, text, u, err)
		var o angle.EastWest
		err = o.UnmarshalText([]byte(text))
		checkParse(t, text, o, err)
	})
}

// slowParse reads the plain grammar, without look-alikes, words and fractions, one
// regular expression at a time and in fractions. It returns nil for a text that must
// be refused. It reports false for a text that it cannot judge.
func slowParse(text string) (want *angle.Angle, plain bool) {
	if !plainText.MatchString(text) || strings.Contains(text, "''") || manyDecimals.MatchString(text) {
		return nil, false
	}
	rest := strings.Trim(text, " ")
	negative := strings.HasPrefix(rest, "-")
	if negative || strings.HasPrefix(rest, "+") {
		rest = strings.TrimLeft(rest[1:], " ")
	}
	total := new(big.Rat)
	rank := -1
	for {
		m := plainFigure.FindStringSubmatch(rest)
		if m == nil || rank >= 0 && m[1][0] == '.' {
			return nil, true
		}
		rest = rest[len(m[0]):]
		if decimals := afterMark.FindString(rest); m[2] != "" && !strings.Contains(m[1], ".") {
			m[1], rest = m[1]+decimals, rest[len(decimals):] // 15′.4 for 15.4′
		}
		before := rank
		rank++
		if m[2] != "" {
			if rank = map[string]int{"°": 0, "'": 1, "\"": 2}[m[2]]; rank <= before {
				return nil, true
			}
		}
		value, _ := new(big.Rat).SetString("0" + strings.TrimSuffix(m[1], "."))
		if rank > 0 && value.Cmp(big.NewRat(60, 1)) >= 0 {
			return nil, true
		}
		unit := []angle.Angle{deg, minute, second}[rank]
		total.Add(total, value.Mul(value, new(big.Rat).SetInt64(int64(unit))))
		if rest == "" {
			break
		}
		separator := plainSeparator.FindString(rest)
		rest = rest[len(separator):]
		if separator == "" && m[2] == "" || strings.Contains(m[1], ".") || rank == 2 {
			return nil, true
		}
	}
	if negative {
		total.Neg(total)
	}
	a, fits := nearest(total)
	if !fits {
		return nil, true
	}
	return &a, true
}

var (
	plainText      = regexp.MustCompile(`^[0-9 .,+:°'"-]*$`)
	manyDecimals   = regexp.MustCompile(`\.[0-9]{19}`) // dropped far below the unit
	plainFigure    = regexp.MustCompile(`^([0-9]+\.?[0-9]*|\.[0-9]+)(?: *([°'"]))?`)
	afterMark      = regexp.MustCompile(`^(?:\.[0-9]+)?`)
	plainSeparator = regexp.MustCompile(`^(?: +|[-:])?`)
)

func FuzzParseDirection(f *testing.F) {
	for _, r := range directionReadings {
		addTexts(f, r.text, r.text+"T", r.text+" M")
	}
	for _, r := range directionRefusals {
		f.Add(r.text)
	}
	addTexts(f, "030 p.s.c.", "090 pasacx", "N.N.W. ¼ W. magnetic")
	f.Fuzz(func(t *testing.T, text string) {
		d, err := angle.ParseTrue(text)
		checkParse(t, text, d, err)
		m, err2 := angle.ParseMagnetic(text)
		checkParse(t, text, m, err2)
		c, err3 := angle.ParseCompass(text)
		checkParse(t, text, c, err3)
		// The letter decides between norths; without one the figure is the same.
		if err == nil && err2 == nil && (d.FromNorth() != m.FromNorth() || err3 != nil || c.FromNorth() != d.FromNorth()) {
			t.Fatalf("%q: %v, %v, %v, %v", text, d, m, c, err3)
		}
		// Data says which north: it is read by one of the three at most.
		if err := d.UnmarshalText([]byte(text)); err == nil && (err2 == nil || err3 == nil) {
			t.Fatalf("%q is %v and %v %v", text, d, m, c)
		}
	})
}

func FuzzParsePosition(f *testing.F) {
	for _, table := range [][]refusal{positionRefusals, isoRefusals, latitudeRefusals, longitudeRefusals} {
		for _, r := range table {
			f.Add(r.text)
		}
	}
	addTexts(f, "47°12.4′N 019°33.1′W", "47-12.4N, 19-33.1W", "N47 12.4 W19 33.1", "47.2067, -19.5517", "+47.2067-019.5517/", "+471224-0193306/", "47/-19", "90S 180W", "Lat. 47° 12' N., Long. 1h 18m 12.4s W.", "φ 47°N λ=19°W")
	f.Fuzz(func(t *testing.T, text string) {
		p, err := angle.ParsePosition(text)
		checkParse(t, text, p, err)
		if lat := p.Latitude.Angle(); lat.Abs() > 90*deg || p.Longitude.Angle() <= -180*deg || p.Longitude.Angle() > 180*deg {
			t.Fatalf("%q: off the earth at %v", text, p)
		}
		for _, printed := range []string{p.ISO6709(11), fmt.Sprintf("%.11f", p)} {
			again, err := angle.ParsePosition(printed)
			if err != nil || again.Latitude.Angle() != p.Latitude.Angle().Round(36) || again.Longitude != angle.LongitudeFrom(p.Longitude.Angle().Round(36)) {
				t.Fatalf("%q, printed %q, read back as %v, %v", text, printed, again, err)
			}
		}
		lat, err := angle.ParseLatitude(text)
		checkParse(t, text, lat, err)
		lon, err := angle.ParseLongitude(text)
		checkParse(t, text, lon, err)
	})
}

func FuzzParseRelative(f *testing.F) {
	for _, r := range relativeRefusals {
		f.Add(r.text)
	}
	addTexts(f, "325", "325.5 rel", "35° to port", "port 35°", "red 35", "green 110", "ahead", "astern", "12½ to starboard", "R045", "G 110", "045R", "2 points on the port bow", "1½ points abaft the starboard beam", "20° forward of the port beam", "broad on the port quarter", "abeam to port", "on the starboard beam", "two points on the port bow", "right ahead")
	f.Fuzz(func(t *testing.T, text string) {
		r, err := angle.ParseRelative(text)
		checkParse(t, text, r, err)
		side, a := onSide(r)
		again, err := angle.ParseRelative(fmt.Sprintf("%.9d to %s", a, side))
		if err != nil || again != r {
			t.Fatalf("%q: %v, on its side %v, %v", text, r, again, err)
		}
	})
}

// The fuzzer finds odd bytes; this finds odd sentences, of the words that the
// notations are made of. The same texts every run.
func TestSentencesOfTheRightWords(t *testing.T) {
	plain := strings.Split("4|15|60|359|0|007|2562047|.|.5|1.5|-|+|:|°|'|\"| |  |,|4°|15'|30\"", "|")
	words := append(plain, strings.Split("N|S|E|W|T|M|C|R|NNE|NbE|NE ½ E|north| by |east|west|½|3/4|1/2| points|°W|′N|port|red| to |starboard|ahead|G| on the | points| abaft | before |bow|beam|quarter|abeam|broad|p.s.c.|/|±|−|″|magnetic|deg.|min|;|\xff|Lat. |Long.|L|λ |φ|h |m |s |5h|due |right |two |dead", "|")...)
	random := rand.New(rand.NewPCG(7, 8))
	agreed := 0
	for range 25000 {
		var b strings.Builder
		vocabulary := words
		if random.IntN(2) == 0 {
			vocabulary = plain
		}
		for range 1 + random.IntN(7) {
			b.WriteString(vocabulary[random.IntN(len(vocabulary))])
		}
		text := b.String()
		a, err := angle.Parse(text)
		checkParse(t, text, a, err)
		if want, plain := slowParse(text); plain {
			if (want != nil) != (err == nil) || err == nil && a != *want {
				t.Fatalf("%q: %d, %v; slowly %v", text, int64(a), err, want)
			}
			if err == nil {
				agreed++
			}
		}
		e, err := angle.ParseEastWest(text)
		checkParse(t, text, e, err)
		d, err := angle.ParseCompass(text)
		checkParse(t, text, d, err)
		p, err := angle.ParsePosition(text)
		checkParse(t, text, p, err)
		r, err := angle.ParseRelative(text)
		checkParse(t, text, r, err)
		var o angle.EastWest
		err = o.UnmarshalText([]byte(text))
		checkParse(t, text, o, err)
	}
	if agreed < 400 {
		t.Errorf("only %d texts were read by both parsers", agreed)
	}
}
