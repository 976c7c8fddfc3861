package angle_test

import (
	"errors"
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"lubberline.example/angle"
)

const (
	deg    = angle.Degree
	minute = angle.Minute
	second = angle.Second
	turn   = angle.Turn
)

// anyAngle draws from the whole range, except the one integer without a negative,
// which no constructor gives. Half of the draws are figures as navigators write
// them.
func anyAngle() *rapid.Generator[angle.Angle] {
	return rapid.OneOf(
		rapid.Map(rapid.Int64Range(-math.MaxInt64, math.MaxInt64), func(n int64) angle.Angle { return angle.Angle(n) }),
		rapid.Map(rapid.Int64Range(-7116*360*60, 7116*360*60), func(n int64) angle.Angle { return angle.Angle(n) * minute }),
	)
}

// smallAngle draws from a few turns, whole minutes and halves of them among the
// values.
func smallAngle() *rapid.Generator[angle.Angle] {
	return rapid.OneOf(
		rapid.Map(rapid.Int64Range(-3*int64(turn), 3*int64(turn)), func(n int64) angle.Angle { return angle.Angle(n) }),
		rapid.Map(rapid.Int64Range(-3*720*60, 3*720*60), func(n int64) angle.Angle { return angle.Angle(n) * (minute / 2) }),
	)
}

func anyTrue() *rapid.Generator[angle.True] {
	return rapid.Map(smallAngle(), angle.TrueFrom)
}

func anyRelative() *rapid.Generator[angle.Relative] {
	return rapid.Map(smallAngle(), angle.RelativeFrom)
}

func anyLatitude() *rapid.Generator[angle.Latitude] {
	return rapid.Map(rapid.OneOf(
		rapid.Int64Range(-90*int64(deg), 90*int64(deg)),
		rapid.Map(rapid.Int64Range(-900*60, 900*60), func(n int64) int64 { return n * int64(minute/10) }),
	), func(n int64) angle.Latitude { return angle.Must(angle.LatitudeFrom(angle.Angle(n))) })
}

func anyLongitude() *rapid.Generator[angle.Longitude] {
	return rapid.Map(smallAngle(), angle.LongitudeFrom)
}

func anyPosition() *rapid.Generator[angle.Position] {
	return rapid.Custom(func(t *rapid.T) angle.Position {
		return angle.Position{Latitude: anyLatitude().Draw(t, "latitude"), Longitude: anyLongitude().Draw(t, "longitude")}
	})
}

// A refusal is a text that a parser must refuse, with the kind and the byte at
// which it says so.
type refusal struct {
	text   string
	kind   angle.ErrorKind
	offset int
}

func checkRefusal(t *testing.T, r refusal, err error) {
	t.Helper()
	var p *angle.ParseError
	switch {
	case err == nil:
		t.Errorf("%q: read, want %s at byte %d", r.text, r.kind, r.offset)
	case !errors.As(err, &p):
		t.Errorf("%q: %T %v, want a *ParseError", r.text, err, err)
	case p.Kind != r.kind || p.Offset != r.offset:
		t.Errorf("%q: %s at byte %d, want %s at byte %d", r.text, p.Kind, p.Offset, r.kind, r.offset)
	case p.Input != r.text || p.Want == "":
		t.Errorf("%q: input %q, want %q", r.text, p.Input, p.Want)
	}
}

// wantRange checks that an error is a *RangeError that says what was wrong.
func wantRange(t *testing.T, err error, label string) {
	t.Helper()
	var r *angle.RangeError
	if !errors.As(err, &r) {
		t.Errorf("%s: error %v, want a *RangeError", label, err)
		return
	}
	if r.What == "" || r.Accepted == "" {
		t.Errorf("%s: %#v leaves something unsaid", label, r)
	}
}

// nearest is the slow, obvious rounding: to the nearest integer, halves away
// from zero. ok is false for what an Angle can't hold.
func nearest(exact *big.Rat) (units angle.Angle, ok bool) {
	doubled := new(big.Rat).Add(new(big.Rat).Abs(exact), big.NewRat(1, 2))
	size := new(big.Int).Quo(doubled.Num(), doubled.Denom())
	if !size.IsInt64() {
		return 0, false
	}
	if exact.Sign() < 0 {
		size.Neg(size)
	}
	return angle.Angle(size.Int64()), true
}

func product(x float64, unit angle.Angle) *big.Rat {
	exact := new(big.Rat).SetFloat64(x)
	return exact.Mul(exact, new(big.Rat).SetInt64(int64(unit)))
}

// onSide returns the side of an object and its angle from the bow, starboard if it is
// right ahead or right astern.
func onSide(r angle.Relative) (angle.Side, angle.Angle) {
	if a := r.FromBow().NormalizedSigned(); a < 0 {
		return angle.Port, -a
	}
	return angle.Starboard, r.FromBow()
}
