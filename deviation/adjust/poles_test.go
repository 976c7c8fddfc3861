package adjust_test

import (
	"math"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/internal/devtest"
)

// A vector has its parts ahead, to starboard and down.
type vector [3]float64

// plus returns the sum of two vectors.
func (v vector) plus(w vector) vector { return vector{v[0] + w[0], v[1] + w[1], v[2] + w[2]} }

// times returns a vector by a factor.
func (v vector) times(x float64) vector { return vector{v[0] * x, v[1] * x, v[2] * x} }

// dot returns the scalar product.
func (v vector) dot(w vector) float64 { return v[0]*w[0] + v[1]*w[1] + v[2]*w[2] }

// rolled returns a vector turned about the fore-and-aft line, the starboard side down.
func (v vector) rolled(a float64) vector {
	return vector{v[0], v[1]*math.Cos(a) - v[2]*math.Sin(a), v[1]*math.Sin(a) + v[2]*math.Cos(a)}
}

// dipole returns the field at the compass of a magnetic moment at a place.
func dipole(moment, at vector) vector {
	r := math.Sqrt(at.dot(at))
	n := at.times(-1 / r)
	return n.times(3 * moment.dot(n)).plus(moment.times(-1)).times(1 / (r * r * r))
}

// pole returns the field at the compass of a pole at a place, positive if red.
func pole(strength float64, at vector) vector {
	r := math.Sqrt(at.dot(at))
	return at.times(-strength / (r * r * r))
}

// correctorField returns the field of a corrector, each in its place by the compass, in units in which they are weak.
// The moment of a magnet points from its blue end to its red end. Soft iron takes a moment along
// the earth's field. A Flinders bar has a pole at each end; where the field is down, the lower is
// red.
func correctorField(way adjust.Way, slew float64, earth vector) vector {
	below := vector{0, 0, 0.3}
	magnet := func(red vector) vector { return dipole(red.times(0.0005), below) }
	spheres := func(turn float64) vector {
		at := vector{math.Cos(turn), math.Sin(turn), 0}.times(0.3)
		m := earth.times(0.0005)
		return dipole(m, at).plus(dipole(m, at.times(-1)))
	}
	bar := func(ahead float64) vector {
		return pole(-0.003*earth[2], vector{ahead, 0, 0}).plus(pole(0.003*earth[2], vector{ahead, 0, 0.6}))
	}
	switch way {
	case adjust.RedForward:
		return magnet(vector{1, 0, 0})
	case adjust.RedAft:
		return magnet(vector{-1, 0, 0})
	case adjust.RedStarboard:
		return magnet(vector{0, 1, 0})
	case adjust.RedPort:
		return magnet(vector{0, -1, 0})
	case adjust.RedUp:
		return magnet(vector{0, 0, -1})
	case adjust.RedDown:
		return magnet(vector{0, 0, 1})
	case adjust.Abeam:
		return spheres(math.Pi/2 + slew)
	case adjust.AheadAstern:
		return spheres(slew)
	case adjust.BarForward:
		return bar(0.3)
	}
	return bar(-0.3)
}

// analysed returns A to E of the deviations that a corrector makes, on 24 magnetic headings.
func analysed(way adjust.Way, slew, dip float64) (k [5]float64) {
	for i := range 24 {
		z := float64(i) * 15 * math.Pi / 180
		earth := vector{math.Cos(z), -math.Sin(z), math.Tan(dip)}
		f := earth.plus(correctorField(way, slew, earth))
		d := math.Remainder(z+math.Atan2(f[1], f[0]), 2*math.Pi) * 180 / math.Pi
		for j, x := range []float64{1, 2 * math.Sin(z), 2 * math.Cos(z), 2 * math.Sin(2*z), 2 * math.Cos(2*z)} {
			k[j] += d * x / 24
		}
	}
	return k
}

// The way of each corrector is held to the fields of dipoles and poles, which share no code with
// it. The coefficients that they make have the signs that Correction.Adds states, and its
// proportion of D and E. The others are at most a tenth of the largest.
func TestWaysAreThoseOfThePoles(t *testing.T) {
	corrector := map[adjust.Way]adjust.Corrector{
		adjust.RedForward: adjust.ForeAndAftMagnets, adjust.RedAft: adjust.ForeAndAftMagnets, adjust.RedStarboard: adjust.AthwartshipMagnets, adjust.RedPort: adjust.AthwartshipMagnets,
		adjust.Abeam: adjust.Spheres, adjust.AheadAstern: adjust.Spheres, adjust.BarForward: adjust.FlindersBar, adjust.BarAft: adjust.FlindersBar,
	}
	for way, which := range corrector {
		for _, dip := range []float64{-70, -20, 20, 70} {
			for _, slew := range []float64{-45, -20, 0, 10, 30} {
				if slew != 0 && which != adjust.Spheres {
					continue
				}
				got := analysed(way, slew*math.Pi/180, dip*math.Pi/180)
				size := 0.0
				for _, x := range got {
					size = math.Hypot(size, x)
				}
				adds, _, err := adjust.Correction{Corrector: which, Way: way, Amount: devtest.Degrees(size), Slew: devtest.Degrees(slew), Dip: devtest.Degrees(dip)}.Adds()
				if err != nil {
					t.Fatal(err)
				}
				for i, want := range []angle.Angle{adds.A, adds.B, adds.C, adds.D, adds.E} {
					if math.Abs(got[i]-want.Degrees()) > size/10 {
						t.Errorf("%s, slew %v°, dip %v°: the poles make %.3f, Adds says %v", way, slew, dip, got, adds)
						break
					}
				}
			}
		}
	}
}

// The heeling magnet is held to a dipole that heels with the vessel, below a card that stays
// level.
func TestHeelingMagnetIsADipole(t *testing.T) {
	for _, way := range []adjust.Way{adjust.RedUp, adjust.RedDown} {
		for _, high := range []angle.Side{angle.Port, angle.Starboard} {
			for _, heading := range []float64{0, 50, 130, 180, 250} {
				z, heel := heading*math.Pi/180, 10*math.Pi/180
				roll := heel // the starboard side goes down
				if high == angle.Starboard {
					roll = -heel
				}
				earth := vector{math.Cos(z), -math.Sin(z), 1}
				f := earth.plus(correctorField(way, 0, earth).rolled(roll))
				d := math.Remainder(z+math.Atan2(f[1], f[0]), 2*math.Pi) * 180 / math.Pi
				_, j, err := adjust.Correction{Corrector: adjust.HeelingMagnet, Way: way, Amount: devtest.Deg}.Adds()
				if err != nil {
					t.Fatal(err)
				}
				added, err := j.Adds(angle.CompassFrom(devtest.Degrees(heading)), 10*devtest.Deg, high)
				if err != nil || added.Degrees()*d <= 0 {
					t.Errorf("%s, high side %s, on %v°: the dipole makes %.2f°, the coefficient %v, %v", way, high, heading, d, added, err)
				}
			}
		}
	}
}
