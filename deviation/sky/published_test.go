package sky_test

import (
	"math"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/deviation/sky"
)

// Burdwood: Sun's True Bearing or Azimuth Tables, computed for intervals of four
// minutes between the parallels of latitude 30 and 60 inclusive, Hydrographic Office,
// Admiralty, edition of the 1890s, read from a scan.
const (
	burdwood38     = "Burdwood, p. 91, latitude 38, declination contrary name"
	burdwood32     = "Burdwood, p. 26, latitude 32, declination same name"
	burdwoodRising = "Burdwood, p. 26, latitude 32, bearing of the sun at rising"
	burdwoodIntro  = "Burdwood, introduction p. IV, example of 11 October 1894"
	trainingManual = "NAVEDTRA 14220/14221 (1990s), amplitude of the sun"
	burton         = "Burton's Nautical Tables, amplitude table, latitude 14, as quoted in print in 2008"
	mailingList    = "note on amplitude tables, navigation mailing list, 2022"
	bowditch       = "The American Practical Navigator, Pub. No. 9 (1995/2002), ch. 17, amplitude example"
)

// Cells of azimuth tables: the Sun in the morning, hour angles east, azimuth from
// north to east as printed, tolerances from half a unit of the last figure.
var azimuthCells = []struct {
	source                           string
	latitude, declination, hourAngle angle.Angle
	printed                          angle.Angle
	tolerance                        float64 // degrees
	misprinted                       bool    // off by more than the tolerance, by every way of computing it
}{
	{burdwood38, 38 * deg, -12 * deg, 45 * deg, 130*deg + 27*minute, 0.0125, false},
	{burdwood38, 38 * deg, -14 * deg, 45 * deg, 131*deg + 47*minute, 0.0125, false},
	{burdwood38, 38 * deg, -18 * deg, 45 * deg, 134*deg + 21*minute, 0.0125, false},
	{burdwood38, 38 * deg, -20 * deg, 45 * deg, 135*deg + 36*minute, 0.0125, false},
	{burdwood38, 38 * deg, -23 * deg, 45 * deg, 137*deg + 26*minute, 0.0125, false},
	{burdwood38, 38 * deg, -13 * deg, 46 * deg, 130*deg + 17*minute, 0.0125, false},
	{burdwood38, 38 * deg, -19 * deg, 46 * deg, 134*deg + 11*minute, 0.0125, false},
	{burdwood38, 38 * deg, -23 * deg, 46 * deg, 136*deg + 39*minute, 0.0125, false},
	{burdwood38, 38 * deg, -16 * deg, 50 * deg, 129*deg + 4*minute, 0.0125, false},
	{burdwood38, 38 * deg, -20 * deg, 50 * deg, 131*deg + 42*minute, 0.0125, false},
	{burdwood38, 38 * deg, -13 * deg, 55 * deg, 123*deg + 10*minute, 0.0125, true},
	{burdwood38, 38 * deg, -17 * deg, 55 * deg, 125*deg + 57*minute, 0.0125, false},
	{burdwood38, 38 * deg, -20 * deg, 55 * deg, 128*deg + 0*minute, 0.0125, false},
	{burdwood38, 38 * deg, -12 * deg, 60 * deg, 118*deg + 45*minute, 0.0125, false},
	{burdwood38, 38 * deg, -15 * deg, 60 * deg, 120*deg + 56*minute, 0.0125, false},
	{burdwood38, 38 * deg, -21 * deg, 60 * deg, 125*deg + 10*minute, 0.0125, false},
	{burdwood38, 38 * deg, -23 * deg, 60 * deg, 126*deg + 34*minute, 0.0125, false},
	{burdwood32, 32 * deg, 3 * deg, 90 * deg, 87*deg + 27*minute, 0.0167, false},
	{burdwood32, 32 * deg, 4 * deg, 90 * deg, 86*deg + 36*minute, 0.0167, false},
	{burdwood32, 32 * deg, 7 * deg, 90 * deg, 84*deg + 3*minute, 0.0167, false},
	{burdwood32, 32 * deg, 8 * deg, 90 * deg, 83*deg + 13*minute, 0.0167, false},
	{burdwood32, 32 * deg, 10 * deg, 90 * deg, 81*deg + 30*minute, 0.0167, false},
	{burdwood32, 32 * deg, 11 * deg, 90 * deg, 80*deg + 38*minute, 0.0167, false},
	{burdwood32, 32 * deg, 4 * deg, 91 * deg, 86*deg + 4*minute, 0.0167, false},
	{burdwood32, 32 * deg, 6 * deg, 91 * deg, 84*deg + 22*minute, 0.0167, false},
	{burdwood32, 32 * deg, 9 * deg, 91 * deg, 81*deg + 50*minute, 0.0167, false},
	{burdwood32, 32 * deg, 10 * deg, 91 * deg, 80*deg + 59*minute, 0.0167, false},
}

func TestAzimuthsOfPublishedTables(t *testing.T) {
	for _, c := range azimuthCells {
		azimuth, _, err := sky.Azimuth(latitude(t, c.latitude), c.declination, -c.hourAngle)
		if err != nil {
			t.Errorf("%s: declination %v, hour angle %v: %v", c.source, c.declination, c.hourAngle, err)
			continue
		}
		if off := math.Abs((azimuth.FromNorth() - c.printed).Degrees()); off > c.tolerance != c.misprinted || off > 0.02 {
			t.Errorf("%s: declination %v, hour angle %v: %.4v, printed %v", c.source, c.declination, c.hourAngle, azimuth, c.printed)
		}
	}
}

// Amplitudes on the celestial horizon, as printed. Where the book gives no bearing
// of the Sun, bearing is zero.
var amplitudeCells = []struct {
	source                string
	latitude, declination float64 // degrees
	amplitude             float64 // degrees, or zero where it gives only the bearing
	setting               bool    // the bearing is that at setting
	bearing               float64 // degrees true, or zero
	tolerance             float64
}{
	{burdwoodRising, 32, 1, 0, false, 88 + 49.0/60, 0.0167},
	{burdwoodRising, 32, 3, 0, false, 86 + 27.0/60, 0.0167},
	{burdwoodRising, 32, 6, 0, false, 82 + 55.0/60, 0.0167},
	{burdwoodRising, 32, 7, 0, false, 81 + 44.0/60, 0.0167},
	{burdwoodRising, 32, 10, 0, false, 78 + 11.0/60, 0.0167},
	{trainingManual, 51, 19, 31.2, false, 0, 0.05},
	{trainingManual, 51 + 4.6/60, 19 + 0.4/60, 31.2, true, 301.2, 0.06}, // worked example: gyro 300°, error 1.2°
	{burton, 14, 16, 16.5, false, 0, 0.06},
	{burton, 14, 17, 17.5, false, 0, 0.06},
	{mailingList, 23.5, 23.5, 23.5 + 2.3, false, 0, 0.06},          // prints amplitude less declination
	{mailingList, 23.5, 10, 10 + 0.95, false, 0, 0.06},             // the same
	{bowditch, 51 + 24.6/60, 19 + 40.4/60, 32.6, true, 302.6, 0.1}, // worked example: gyro 303°, error −0.4°
}

func TestAmplitudesOfPublishedTables(t *testing.T) {
	for _, c := range amplitudeCells {
		got, err := sky.Amplitude(angle.Must(angle.LatitudeDegrees(c.latitude)), angle.Must(angle.Degrees(c.declination)))
		if err != nil {
			t.Errorf("%s: latitude %v, declination %v: %v", c.source, c.latitude, c.declination, err)
			continue
		}
		if c.amplitude != 0 && math.Abs(got.Amplitude().Degrees()-c.amplitude) > c.tolerance {
			t.Errorf("%s: latitude %v, declination %v: amplitude %v, printed %v", c.source, c.latitude, c.declination, got.Amplitude(), c.amplitude)
		}
		bearing := got.Rising
		if c.setting {
			bearing = got.Setting
		}
		if c.bearing != 0 && math.Abs(bearing.Degrees()-c.bearing) > c.tolerance {
			t.Errorf("%s: latitude %v, declination %v: bearing %v, printed %v", c.source, c.latitude, c.declination, bearing, c.bearing)
		}
	}
}

// The example gives the time and no declination; −7.1° is what it implies. Its
// azimuth was taken from the table by eye, hence the tolerance.
func TestPublishedExampleOfAnAzimuth(t *testing.T) {
	azimuth, _, err := sky.Azimuth(latitude(t, 49*deg), -(7*deg + 6*minute), -51*deg)
	if printed := 125*deg + 34*minute; err != nil || (azimuth.FromNorth()-printed).Abs() > 3*deg/10 {
		t.Errorf("%s: %v, %v, printed %v", burdwoodIntro, azimuth, err, printed)
	}
}
