package sky

import (
	_ "embed"
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"sync"
	"time"
	"unicode"

	"lubberline.example/angle"
)

// A star is an entry of the catalogue.
type star struct {
	name      string
	letters   string // of the name
	place     vector // of unit length, ICRS at epoch J1991.25
	motion    vector // a Julian year
	magnitude float64
}

//go:embed stars.csv
var starsCSV string

// stars returns the catalogue in the order of the almanac's numbers, Polaris last. It is
// read when it is first asked for.
var stars = sync.OnceValue(func() []star {
	r := csv.NewReader(strings.NewReader(starsCSV))
	r.Comment = '#'
	rows := angle.Must(r.ReadAll())
	list := make([]star, 0, len(rows)-1)
	for _, row := range rows[1:] {
		var x [5]float64
		for i := range x {
			x[i] = angle.Must(strconv.ParseFloat(row[1+i], 64))
		}
		sinRA, cosRA := math.Sincos(x[0] * degree)
		sinDec, cosDec := math.Sincos(x[1] * degree)
		const milliseconds = degree / 3_600_000
		east, north := x[2]*milliseconds, x[3]*milliseconds
		list = append(list, star{
			name:    row[0],
			letters: letters(row[0]),
			place:   vector{cosDec * cosRA, cosDec * sinRA, sinDec},
			motion: vector{
				-sinRA*east - sinDec*cosRA*north,
				cosRA*east - sinDec*sinRA*north,
				cosDec * north,
			},
			magnitude: x[4],
		})
	}
	return list
})

// StarNames returns the names of the 57 navigational stars in the order of their numbers
// in the Nautical Almanac, and Polaris as the last. Number 1, Alpheratz, has index 0.
func StarNames() []string {
	var names []string
	for _, s := range stars() {
		names = append(names, s.name)
	}
	return names
}

// Star returns the apparent place of a star of [StarNames] at an instant of the years 1950 to 2100,
// UTC. Case, spaces and punctuation of the name do not matter: "al na'ir" is Alnair. A name may be
// shortened to five letters or more if only one star begins with them: "Rigil Kent." is Rigil
// Kentaurus.
//
// If the name is unknown, it returns an [*angle.ParseError]. If the time is zero or outside these
// years, it returns an [*Error].
func Star(name string, t time.Time) (Body, error) {
	t, err := inYears(t)
	if err != nil {
		return Body{}, err
	}
	s := find(name)
	if s == nil {
		return Body{}, &angle.ParseError{
			What: "star", Input: name, Kind: angle.UnknownWord,
			Want: "Polaris or a navigational star, such as Vega or Rigil Kentaurus",
		}
	}
	f := newFrame(t)
	return f.of(s), nil
}

// find returns the star of a name, or nil.
func find(name string) *star {
	wanted := letters(name)
	var found *star
	for i := range stars() {
		s := &stars()[i]
		if s.letters == wanted {
			return s
		}
		if len(wanted) >= 5 && strings.HasPrefix(s.letters, wanted) {
			if found != nil {
				return nil
			}
			found = s
		}
	}
	return found
}

// letters returns the letters of a name in lower case.
func letters(name string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, name)
}

// A vector has its first component toward the equinox, its third toward the north pole.
type vector [3]float64

// turned returns the vector in axes turned about an axis, 0 to 2, by an angle in seconds of
// arc.
func (v vector) turned(axis int, seconds float64) vector {
	sin, cos := math.Sincos(seconds / 3600 * degree)
	i, j := (axis+1)%3, (axis+2)%3
	v[i], v[j] = cos*v[i]+sin*v[j], cos*v[j]-sin*v[i]
	return v
}

// A frame holds what all stars have in common at an instant.
type frame struct {
	time       time.Time
	epoch      epoch
	toEcliptic [3]vector // columns: the ICRS axes in the mean ecliptic and equinox of date
	velocity   vector    // of the Earth in the same, in units of the speed of light
	obliquity  float64   // true, seconds of arc
}

// newFrame returns the frame of an instant.
//
// The angles of precession are those of N. Capitaine, P. Wallace and J. Chapront, Astronomy
// and Astrophysics 412, 2003 (IAU 2006), equation 40, from memory. The bias between
// ICRS and the equator of J2000.0, 0.02″, is left out.
func newFrame(t time.Time) frame {
	f := frame{time: t, epoch: epochOf(t)}
	T := f.epoch.centuries
	zeta := 2.650545 + T*(2306.083227+T*(0.2988499+T*0.01801828))
	z := -2.650545 + T*(2306.077181+T*(1.0927348+T*0.01826837))
	theta := T * (2004.191903 - T*(0.4294934+T*0.04182264))
	mean := meanObliquity(T)
	f.obliquity = mean + f.epoch.nutationOblique
	for i := range f.toEcliptic {
		var axis vector
		axis[i] = 1
		f.toEcliptic[i] = axis.turned(2, -zeta).turned(1, theta).turned(2, -z).turned(0, mean)
	}
	// The motion of the Earth, by the constant of aberration and the Sun's longitude
	// (Meeus, Astronomical Algorithms, chapter 23, from memory).
	const aberration = 20.49552 / 3600 * degree
	longitude, eccentricity, _ := sunLongitude(T)
	perihelion := (102.93735 + T*(1.71946+T*0.00046)) * degree
	sinSun, cosSun := math.Sincos(longitude * degree)
	sinPerihelion, cosPerihelion := math.Sincos(perihelion)
	f.velocity = vector{
		aberration * (sinSun - eccentricity*sinPerihelion),
		-aberration * (cosSun - eccentricity*cosPerihelion),
		0,
	}
	return f
}

// of returns the apparent place of a star.
func (f *frame) of(s *star) Body {
	const catalogueEpoch = -0.0875 // J1991.25 in centuries from J2000.0
	years := 100 * (f.epoch.centuries - catalogueEpoch)
	apparent := f.velocity
	for i := range s.place {
		x := s.place[i] + years*s.motion[i]
		for k := range apparent {
			apparent[k] += f.toEcliptic[i][k] * x
		}
	}
	apparent = apparent.turned(2, -f.epoch.nutation).turned(0, -f.obliquity)
	declination := math.Atan2(apparent[2], math.Hypot(apparent[0], apparent[1])) / degree
	rightAscension := math.Atan2(apparent[1], apparent[0]) / degree
	return Body{
		Name:               s.name,
		Time:               f.time,
		Declination:        angle.Must(angle.Degrees(declination)),
		GreenwichHourAngle: angle.Must(angle.Degrees(f.epoch.hourAngle(rightAscension))).Normalized(),
	}
}
