package angle_test

import (
	"encoding"
	"encoding/json"
	"fmt"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"lubberline.example/angle"
)

// power is a power of ten, to divide a unit by for a number of decimals.
func power(n int) angle.Angle {
	p := angle.Angle(1)
	for range n {
		p *= 10
	}
	return p
}

// What is printed to some decimals reads back as what was rounded to them.
func TestWhatIsPrintedReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAngle().Draw(t, "a") % (7116 * turn)
		d, r := anyTrue().Draw(t, "d"), anyRelative().Draw(t, "r")
		n := rapid.IntRange(0, 11).Draw(t, "decimals")
		same := func(text string, want any, got any, err error) {
			t.Helper()
			if err != nil || got != want {
				t.Fatalf("%s: %v, %v; want %v", text, got, err, want)
			}
		}
		text := fmt.Sprintf("%.*f", n, a)
		got, err := angle.Parse(text)
		same(text, a.Round(deg/power(n)), got, err)
		east := angle.EastWestFrom(a)
		text = fmt.Sprintf("%.*f", n, east)
		got, err = angle.ParseEastWest(text)
		same(text, east.Angle().Round(deg/power(n)), got, err)
		text = fmt.Sprintf("%.*f", n, d)
		direction, err := angle.ParseTrue(text)
		same(text, d.Round(deg/power(n)), direction, err)
		text = fmt.Sprintf("%.*f", n, r)
		relative, err := angle.ParseRelative(text)
		same(text, angle.RelativeFrom(r.FromBow().Round(deg/power(n))), relative, err)

		n = min(n, 10)
		text = fmt.Sprintf("%.*v", n, a)
		got, err = angle.Parse(text)
		same(text, a.Round(minute/power(n)), got, err)
		text = fmt.Sprintf("%.*v", n, east)
		got, err = angle.ParseEastWest(text)
		same(text, east.Angle().Round(minute/power(n)), got, err)
		text = fmt.Sprintf("%.*v", n, d)
		direction, err = angle.ParseTrue(text)
		same(text, d.Round(minute/power(n)), direction, err)
		text = fmt.Sprintf("%.*v", n, r)
		relative, err = angle.ParseRelative(string(text))
		same(text, angle.RelativeFrom(r.FromBow().Round(minute/power(n))), relative, err)

		n = min(n, 9)
		text = fmt.Sprintf("%.*d", n, a)
		got, err = angle.Parse(string(text))
		same(text, a.Round(second/power(n)), got, err)

		side := r.SideString()
		relative, err = angle.ParseRelative(side)
		if rounded := angle.RelativeFrom(r.FromBow().NormalizedSigned().Round(deg / 10)); err != nil || relative != rounded {
			t.Fatalf("%s: %v, %v", side, relative, err)
		}
		quadrantal := fmt.Sprintf("%.1q", d)
		direction, err = angle.ParseTrue(quadrantal)
		same(quadrantal, d.Round(deg/10), direction, err)
		same(d.String(), d.Round(deg/10), angle.MustParseTrue(d.String()), nil)
		same(a.String(), a.Round(minute/10), angle.Must(angle.Parse(a.String())), nil)
		same(a.EastWestString(), a.Round(minute/10), angle.Must(angle.ParseEastWest(a.EastWestString())), nil)
	})
}

func TestAPositionPrintedReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, n := anyPosition().Draw(t, "p"), rapid.IntRange(0, 11).Draw(t, "decimals")
		rounded := func(unit angle.Angle) angle.Position {
			return angle.Position{
				Latitude:  angle.Must(angle.LatitudeFrom(p.Latitude.Angle().Round(unit))),
				Longitude: angle.LongitudeFrom(p.Longitude.Angle().Round(unit)),
			}
		}
		text := fmt.Sprintf("%.*f", n, p)
		if got, err := angle.ParsePosition(text); err != nil || got != rounded(deg/power(n)) {
			t.Fatalf("%s: %v, %v", text, got, err)
		}
		n = min(n, 10)
		text = fmt.Sprintf("%.*v", n, p)
		want := rounded(minute / power(n))
		if got, err := angle.ParsePosition(text); err != nil || got != want {
			t.Fatalf("%s: %v, %v", text, got, err)
		}
		lat, err := angle.ParseLatitude(fmt.Sprintf("%.*v", n, p.Latitude))
		lon, err2 := angle.ParseLongitude(fmt.Sprintf("%.*v", n, p.Longitude))
		if err != nil || err2 != nil || (angle.Position{Latitude: lat, Longitude: lon}) != want {
			t.Fatalf("%s: %v %v, %v, %v", text, lat, lon, err, err2)
		}
	})
}

// MarshalText is exact on every value there is, and AppendText appends the same.
func TestMarshalTextIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, value := range drawAll(t) {
			text, err := value.(encoding.TextMarshaler).MarshalText()
			appended, err2 := value.(encoding.TextAppender).AppendText([]byte("at "))
			if err != nil || err2 != nil || string(appended) != "at "+string(text) {
				t.Fatalf("%s, %s, %v, %v", text, appended, err, err2)
			}
			back := reflect.New(reflect.TypeOf(value))
			if err := back.Interface().(encoding.TextUnmarshaler).UnmarshalText(text); err != nil || back.Elem().Interface() != value {
				t.Fatalf("%T %s: %v, %v", value, text, back.Elem(), err)
			}
		}
		// With its name an angle is exact too.
		a := anyAngle().Draw(t, "east")
		if got, err := angle.ParseEastWest(string(angle.AppendExactEastWest(a, nil))); err != nil || got != a {
			t.Fatalf("%s: %v, %v", angle.AppendExactEastWest(a, nil), got, err)
		}
	})
}

func drawAll(t *rapid.T) []any {
	return []any{
		anyAngle().Draw(t, "angle"), anyTrue().Draw(t, "true"), angle.MagneticFrom(anyAngle().Draw(t, "magnetic")), angle.CompassFrom(anyAngle().Draw(t, "compass")),
		anyRelative().Draw(t, "relative"), anyLatitude().Draw(t, "latitude"), anyLongitude().Draw(t, "longitude"), anyPosition().Draw(t, "position"),
		sigma(anyAngle().Draw(t, "sigma").Abs()), angle.EastWestFrom(anyAngle().Draw(t, "offset")),
	}
}

// A log has every kind of value, as fields and as keys.
type log struct {
	Angle     angle.Angle
	True      angle.True
	Magnetic  *angle.Magnetic
	Compass   []angle.Compass
	Relative  angle.Relative
	Latitude  angle.Latitude
	Longitude angle.Longitude
	Position  angle.Position
	Sigma     angle.Uncertainty
	Offset    angle.EastWest
	ByAngle   map[angle.Angle]string
	ByTrue    map[angle.True]angle.Position
	ByCompass map[angle.Compass]angle.EastWest
	ByPlace   map[angle.Position]int
	ByBearing map[angle.Relative]int
	ByLat     map[angle.Latitude]map[angle.Longitude]int
}

func TestJSONReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := drawAll(t)
		m := v[2].(angle.Magnetic)
		in := log{
			v[0].(angle.Angle), v[1].(angle.True), &m, []angle.Compass{v[3].(angle.Compass), {}}, v[4].(angle.Relative), v[5].(angle.Latitude), v[6].(angle.Longitude), v[7].(angle.Position),
			v[8].(angle.Uncertainty), v[9].(angle.EastWest),
			map[angle.Angle]string{v[0].(angle.Angle): "x"}, map[angle.True]angle.Position{v[1].(angle.True): v[7].(angle.Position), {}: {}}, map[angle.Compass]angle.EastWest{v[3].(angle.Compass): v[9].(angle.EastWest)},
			map[angle.Position]int{v[7].(angle.Position): 1}, map[angle.Relative]int{v[4].(angle.Relative): 3}, map[angle.Latitude]map[angle.Longitude]int{v[5].(angle.Latitude): {v[6].(angle.Longitude): 4}},
		}
		data, err := json.Marshal(in)
		if err != nil {
			t.Fatal(err)
		}
		var out log
		if err := json.Unmarshal(data, &out); err != nil {
			t.Fatalf("%s: %v", data, err)
		}
		// Equal is there for this comparison: without it, it panics.
		if diff := cmp.Diff(in, out); diff != "" {
			t.Fatalf("%s\n%s", data, diff)
		}
	})
}

func TestJSONIsTheTextInQuotes(t *testing.T) {
	data, err := json.Marshal([]any{4*deg + 15*minute, angle.TrueFrom(35*deg + 30*minute), orlesk, angle.RelativeFrom(325 * deg), map[angle.Magnetic]angle.Angle{angle.MagneticFrom(5 * deg): -deg}})
	if want := `["4°15′","035.5°T","47°12.4′N 019°33.1′W","325°R",{"005°M":"-1°00′"}]`; err != nil || string(data) != want {
		t.Errorf("%s, %v; want %s", data, err, want)
	}
	// A north left out, or another, does not pass by way of JSON.
	var d angle.True
	for _, text := range []string{`"035"`, `"035°M"`, `35`, `"-5T"`} {
		if err := json.Unmarshal([]byte(text), &d); err == nil {
			t.Errorf("%s is read as %v", text, d)
		}
	}
}

func TestExactText(t *testing.T) {
	for want, value := range map[string]encoding.TextMarshaler{
		"0°00′": angle.Angle(0), "4°15′": 4*deg + 15*minute, "4°15.5′": 4*deg + 15*minute + 30*second, "-0°00.0000000001′": angle.Angle(-6), // ten decimals of a minute
		"0°00′00.000000001″": angle.Angle(1), // which no decimals of a minute end on
		"035°T":              angle.TrueFrom(35 * deg), "104.25°T": angle.TrueFrom(104*deg + 15*minute), "000.00000000001°T": angle.TrueFrom(36), "104°20′T": angle.TrueFrom(104*deg + 20*minute), "359°59′59.999999999″C": angle.CompassFrom(-1),
		"325°R": angle.RelativeFrom(325 * deg), "47°12.4′N": orlesk.Latitude, "019°33.1′W": orlesk.Longitude, "00°00′00.000000001″S": angle.Must(angle.LatitudeFrom(-1)), "180°00′E": angle.LongitudeFrom(turn / 2),
	} {
		if got, err := value.MarshalText(); err != nil || string(got) != want {
			t.Errorf("%s, %v; want %s", got, err, want)
		}
	}
}
