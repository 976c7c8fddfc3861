package angle_test

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

func TestUnitsAreWhatTheirNamesSay(t *testing.T) {
	for _, c := range []struct {
		name string
		got  angle.Angle
		want int64
	}{
		{"Second", angle.Second, 1e9},
		{"Minute", angle.Minute, 60e9},
		{"Degree", angle.Degree, 3600e9},
		{"Turn", angle.Turn, 1296000e9},
		{"Point, 11°15′ exactly", angle.Point, (11*60 + 15) * 60e9},
		{"32 points, the circle", 32 * angle.Point, 1296000e9},
	} {
		if int64(c.got) != c.want {
			t.Errorf("%s: %d units, want %d", c.name, int64(c.got), c.want)
		}
	}
	// A minute of arc on the ground is a nautical mile of 1,852 m.
	if nanometres := 1852e9 / float64(angle.Minute); math.Abs(nanometres-31) > 0.2 {
		t.Errorf("one unit is %.2f nm on the ground, documented as 31", nanometres)
	}
	if most := int64(math.MaxInt64) / int64(angle.Turn); most != 7116 {
		t.Errorf("the range is %d turns, documented as 7,116", most)
	}
}

// The documentation says how many decimals are exact, and so that one more is
// not.
func TestDecimalsHeldExactly(t *testing.T) {
	for _, c := range []struct {
		unit   angle.Angle
		places int64
	}{{angle.Degree, 11}, {angle.Minute, 10}} {
		power := int64(math.Pow10(int(c.places)))
		if int64(c.unit)%power != 0 {
			t.Errorf("%d places of %v are not whole units", c.places, c.unit)
		}
		if int64(c.unit)%(10*power) == 0 {
			t.Errorf("%d places of %v are whole units too", c.places+1, c.unit)
		}
	}
}

// Degrees and minutes add without a rounding error: every sum there is.
func TestSumsAreExact(t *testing.T) {
	for d := range angle.Angle(360) {
		for m := range angle.Angle(60) {
			a := d*deg + m*minute
			for n := range angle.Angle(60) {
				want := (d*60 + m + n) * 60 * second
				if a+n*minute != want {
					t.Fatalf("%d°%d′ + %d′ = %v", d, m, n, a+n*minute)
				}
			}
		}
	}
}

// All 21,600 whole minutes of the circle, by every door and back.
func TestEveryMinuteOfTheCircle(t *testing.T) {
	for n := range 21600 {
		want := angle.Angle(n) * minute
		d, m := n/60, n%60
		for door, got := range map[string]angle.Angle{
			"DegreesMinutes":  angle.Must(angle.DegreesMinutes(d, float64(m))),
			"Degrees":         angle.Must(angle.Degrees(float64(d) + float64(m)/60)).Round(second),
			"Minutes":         angle.Must(angle.Minutes(float64(n))),
			"Seconds":         angle.Must(angle.Seconds(60 * float64(n))),
			"through Degrees": angle.Must(angle.Degrees(want.Degrees())),
			"through Radians": angle.Must(angle.Radians(want.Radians())).Round(second),
		} {
			if got != want {
				t.Errorf("%s: %d°%d′ is %v", door, d, m, got)
			}
		}
	}
}

// doors are the constructors from a float64 with the unit they multiply by.
var doors = []struct {
	name string
	make func(float64) (angle.Angle, error)
	unit angle.Angle
}{
	{"Degrees", angle.Degrees, angle.Degree},
	{"Minutes", angle.Minutes, angle.Minute},
	{"Seconds", angle.Seconds, angle.Second},
	{"Scale", angle.Angle(4503599627370497).Scale, 4503599627370497},       // 2⁵² + 1
	{"Scale largest", angle.Angle(math.MaxInt64).Scale, math.MaxInt64},     // not a float64
	{"Scale a negative", angle.Angle(-1<<62 + 255).Scale, -1<<62 + 255},    // not a float64
	{"Scale smallest", angle.Angle(math.MinInt64).Scale, math.MinInt64},    // has no negative
	{"Scale one unit", angle.Angle(1).Scale, 1},                            //
	{"Scale zero", angle.Angle(0).Scale, 0},                                //
	{"Scale 834°", angle.Angle(3002399751580333).Scale, 3002399751580333},  // × 1.5 is a tie beyond 2⁵²
	{"Scale 2502°", angle.Angle(9007199254740995).Scale, 9007199254740995}, // × 0.5 likewise
}

func checkDoor(t *testing.T, x float64) {
	t.Helper()
	for _, door := range doors {
		got, err := door.make(x)
		want, fits := nearest(product(x, door.unit))
		if fits {
			if err != nil || got != want {
				t.Errorf("%s(%v) = %d, %v; exactly %d", door.name, x, int64(got), err, int64(want))
			}
			continue
		}
		if got != 0 {
			t.Errorf("%s(%v) = %d with a refusal", door.name, x, int64(got))
		}
		wantRange(t, err, door.name)
	}
}

// Rounding is once, to the nearest, halves away from zero, compared with
// arithmetic in fractions.
func TestConstructorsRoundCorrectly(t *testing.T) {
	for _, x := range []float64{
		0, math.Copysign(0, -1), 1, -1, 0.5, -0.5, 1.5, -1.5, 0.1, 1e-11, 2.5e-12, 360, -360,
		math.SmallestNonzeroFloat64, -math.SmallestNonzeroFloat64, 0x1p-1022, 0x1p-63, 0x1p-64, 0x1p-65, 0x1p-127, 0x1p-128,
		1.0 / (1 << 14), -1.0 / (1 << 14), 3.0 / (1 << 14), // ties in degrees
		1.0 / (1 << 12), 1.0 / (1 << 10), // in minutes, in seconds
		math.Nextafter(1.0/(1<<14), 0), math.Nextafter(1.0/(1<<14), 1),
		2562047.5, 2562047.788015215, 2562047.7880152157, 2562047.7880152163, 2562047.9, -2562047.9, 2562048, 1e300, -1e300, math.MaxFloat64,
		9223372036.854775, 153722867.28091293, 227737.58, 7116 * 360, -7116 * 360,
	} {
		checkDoor(t, x)
	}
	random := rand.New(rand.NewPCG(1, 2)) // the same figures every run
	for range 4000 {
		size := math.Ldexp(random.Float64()*2-1, random.IntN(100)-60)
		checkDoor(t, size)
		checkDoor(t, math.Ldexp(float64(random.IntN(1<<20)*2+1), -random.IntN(24))) // few bits: ties
	}
}

func TestConstructorsRefuseInvalidNumbers(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300} {
		for _, door := range doors[:4] {
			a, err := door.make(x)
			if a != 0 {
				t.Errorf("%s(%v) = %d", door.name, x, int64(a))
			}
			wantRange(t, err, door.name)
		}
		a, err := angle.Radians(x)
		if a != 0 {
			t.Errorf("Radians(%v) = %d", x, int64(a))
		}
		wantRange(t, err, "Radians")
	}
	for _, factor := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for _, a := range []angle.Angle{0, deg} {
			_, err := a.Scale(factor)
			wantRange(t, err, "Scale")
		}
	}
	// 2562047.9° lies past the end, and the largest that fits does not.
	_, err := angle.Degrees(2562047.9)
	wantRange(t, err, "Degrees(2562047.9)")
	if _, err := angle.Degrees(2562047.7); err != nil {
		t.Error(err)
	}
}

// π to 70 digits, for the reference.
const piDigits = "3.1415926535897932384626433832795028841971693993751058209749445923078164"

func unitsPerRadian() *big.Rat {
	pi, _ := new(big.Rat).SetString(piDigits)
	return new(big.Rat).Quo(new(big.Rat).SetInt64(int64(turn/2)), pi)
}

func TestRadiansAreGoodToTheLastUnit(t *testing.T) {
	factor := unitsPerRadian()
	random := rand.New(rand.NewPCG(3, 4))
	for range 20000 {
		r := (random.Float64()*2 - 1) * math.Ldexp(50, -random.IntN(60))
		exact := new(big.Rat).Mul(new(big.Rat).SetFloat64(r), factor)
		want, _ := nearest(exact)
		got, err := angle.Radians(r)
		// One unit: beyond some 8 turns a float64 does not hold every unit.
		if err != nil || (got-want).Abs() > 1 {
			t.Fatalf("Radians(%v) = %d, %v; exactly %d", r, int64(got), err, int64(want))
		}
		if math.Abs(r) < 6 && got != want {
			if f, _ := new(big.Rat).Sub(exact, new(big.Rat).SetInt64(int64(got))).Float64(); math.Abs(f) > 0.5+0.125 { // half the last place of the product
				t.Fatalf("Radians(%v) = %d, off by %v units", r, int64(got), f)
			}
		}
		// And the way back, to the last place but one.
		if back := got.Radians(); math.Abs(back-r) > 0.5e-14+2e-16*math.Abs(r) {
			t.Fatalf("Radians(%v) goes back to %v", r, back)
		}
	}
	// Up to the end of the range and not a hair beyond.
	end := 0x1p63 / 206264806247096.355
	for range 8 {
		end = math.Nextafter(end, 0)
	}
	refused := 0
	for range 16 {
		if got, err := angle.Radians(end); err != nil {
			refused++
		} else if got < math.MaxInt64-20000 || refused > 0 { // a float64 here is 1,500 units wide
			t.Errorf("Radians(%v) = %d", end, int64(got))
		}
		end = math.Nextafter(end, math.Inf(1))
	}
	if refused == 0 || refused == 16 {
		t.Errorf("of 16 about the end %d refused", refused)
	}
	for _, c := range []struct {
		radians float64
		want    angle.Angle
	}{{math.Pi, turn / 2}, {-math.Pi, -turn / 2}, {math.Pi / 2, 90 * deg}, {2 * math.Pi, turn}, {math.Pi / 6, 30 * deg}, {math.Copysign(0, -1), 0}} {
		// float64 has π to 1.2e-16, some 0.03 units.
		if got := angle.Must(angle.Radians(c.radians)); got != c.want {
			t.Errorf("Radians(%v) = %d, want %d", c.radians, int64(got), int64(c.want))
		}
	}
}

// Correctly rounded within 2,500°: no float64 lies nearer.
func TestDegreesAreCorrectlyRounded(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for range 20000 {
		a := angle.Angle(random.Int64N(5000*int64(deg)) - 2500*int64(deg))
		for _, c := range []struct {
			name string
			got  float64
			unit angle.Angle
		}{{"degrees", a.Degrees(), angle.Degree}, {"minutes", a.Minutes(), angle.Minute}, {"seconds", a.Seconds(), angle.Second}} {
			want, _ := big.NewRat(int64(a), int64(c.unit)).Float64()
			if c.got != want {
				t.Fatalf("%d units in %s: %v, nearest %v", int64(a), c.name, c.got, want)
			}
		}
	}
}

func TestDegreesRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := smallAngle().Draw(t, "a")
		if back := angle.Must(angle.Degrees(a.Degrees())); back != a {
			t.Fatalf("%d through degrees: %d", int64(a), int64(back))
		}
		if back := angle.Must(angle.Minutes(a.Minutes())); back != a {
			t.Fatalf("%d through minutes: %d", int64(a), int64(back))
		}
	})
}
