package angle_test

import (
	"testing"

	"lubberline.example/angle"
)

// What a loop over a thousand bearings calls must not make garbage.
func TestNothingIsAllocated(t *testing.T) {
	a := 47*deg + 12*minute
	d, e := angle.TrueFrom(350*deg), angle.TrueFrom(10*deg)
	r := angle.RelativeFrom(325 * deg)
	v := angle.EastWestFrom(-a / 10).WithUncertainty(sigma(minute))
	p, q := orlesk, place(47, -19)
	bearings := []angle.True{d, e, d.Add(a)}
	buf := make([]byte, 0, 128)
	// Sinks of the test's own, so that nothing is dropped as unused.
	var text []byte
	var sum angle.Angle
	keep := func(b []byte, err error) {
		if err != nil {
			t.Error(err)
		}
		text = b
	}
	ok := func(err error) {
		if err != nil {
			t.Error(err)
		}
	}
	for name, f := range map[string]func(){
		"arithmetic":     func() { sum += (a*3 - a/7).Normalized() + a.NormalizedSigned() + a.Round(minute) + a.Abs() },
		"Degrees":        func() { x, err := angle.Degrees(a.Degrees()); sum += x; ok(err) },
		"Radians":        func() { x, err := angle.Radians(a.Radians()); sum += x; ok(err) },
		"Scale":          func() { x, err := a.Scale(0.3); sum += x; ok(err) },
		"Add":            func() { sum += d.Add(a).FromNorth() },
		"Sub":            func() { sum += d.Sub(e) },
		"Reciprocal":     func() { sum += d.Reciprocal().FromNorth() },
		"Bearing":        func() { sum += d.Bearing(r).Relative(d).FromBow() },
		"NearestPoint":   func() { sum += d.NearestPoint().Angle() },
		"SinCos":         func() { s, c := a.SinCos(); sum += angle.Angle(s + c) },
		"Atan2":          func() { x, err := angle.Atan2(3, 4); sum += x; ok(err) },
		"ArcTo":          func() { sum += p.ArcTo(q) },
		"Mean":           func() { _, spread, err := angle.Mean(bearings...); sum += spread; ok(err) },
		"Plus":           func() { sum += v.Plus(v).Angle() },
		"Parse":          func() { x, err := angle.Parse("-4°15.5′"); sum += x; ok(err) },
		"Parse decimals": func() { x, err := angle.Parse("4.25"); sum += x; ok(err) },
		"Parse points":   func() { x, err := angle.Parse("1½ points"); sum += x; ok(err) },
		"ParseEastWest":  func() { x, err := angle.ParseEastWest("4°15.5′W"); sum += x; ok(err) },
		"ParsePrinted":   func() { x, err := angle.ParsePrinted("4°15.5′W"); sum += x.Step; ok(err) },
		"ParseTrue":      func() { x, err := angle.ParseTrue("104.3°T"); sum += x.FromNorth(); ok(err) },
		"ParseTrue bare": func() { x, err := angle.ParseTrue("035"); sum += x.FromNorth(); ok(err) },
		"ParseRelative":  func() { x, err := angle.ParseRelative("35° to port"); sum += x.FromBow(); ok(err) },
		"ParsePosition": func() {
			x, err := angle.ParsePosition("47°12.4′N 019°33.1′W")
			sum += x.Latitude.Angle()
			ok(err)
		},
		"ParsePosition, 2": func() { x, err := angle.ParsePosition("47.2067, -19.5517"); sum += x.Latitude.Angle(); ok(err) },
		"ISO 6709":         func() { x, err := angle.ParsePosition("+4712.4-01933.1/"); sum += x.Latitude.Angle(); ok(err) },
		"Angle text":       func() { keep(a.AppendText(buf[:0])) },
		"Direction text":   func() { keep(d.AppendText(buf[:0])) },
		"Relative text":    func() { keep(r.AppendText(buf[:0])) },
		"Position text":    func() { keep(p.AppendText(buf[:0])) },
		"EastWest text":    func() { keep(v.AppendText(buf[:0])) },
	} {
		if n := testing.AllocsPerRun(100, f); n != 0 {
			t.Errorf("%s: %v allocations", name, n)
		}
	}
	if text == nil || sum == 0 {
		t.Error("nothing was measured")
	}
}

// A text is one allocation.
func TestTextIsAllocatedOnce(t *testing.T) {
	a := 47*deg + 12*minute + 30*second
	texts := map[string]func() string{
		"Angle":       a.String,
		"EastWest":    angle.EastWestFrom(-a).String,
		"Uncertainty": sigma(a).String,
		"True":        angle.TrueFrom(a).String,
		"Relative":    angle.RelativeFrom(a).String,
		"Position":    orlesk.String,
	}
	var text string
	for name, f := range texts {
		if n := testing.AllocsPerRun(100, func() { text = f() }); n != 1 {
			t.Errorf("%s: %v allocations for %s", name, n, text)
		}
	}
}
