package stream_test

import (
	"errors"
	"time"

	"pgregory.net/rapid"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
)

const (
	deg  = angle.Degree
	turn = angle.Turn
)

// The Orlesk coast is invented.
var (
	offOrlesk = angle.MustParsePosition("46°58′N 019°08′W")
	day       = time.Date(2026, time.July, 2, 9, 0, 0, 0, time.UTC)
)

// between draws an angle in a range: any, or half of the time one in whole
// tenths of a degree.
func between(low, high angle.Angle) *rapid.Generator[angle.Angle] {
	return rapid.OneOf(
		rapid.Map(rapid.Int64Range(int64(low), int64(high)), func(n int64) angle.Angle { return angle.Angle(n) }),
		rapid.Map(rapid.Int64Range(int64(low/(deg/10)), int64(high/(deg/10))), func(n int64) angle.Angle { return angle.Angle(n) * (deg / 10) }),
	)
}

func anyTrue() *rapid.Generator[angle.True] {
	return rapid.Map(between(0, turn-1), angle.TrueFrom)
}

// near fails if two directions differ by more than some angle.
func near[R angle.North](t *rapid.T, what string, got, want angle.Direction[R], within angle.Angle) {
	t.Helper()
	if off := got.Sub(want); off.Abs() > within {
		t.Fatalf("%s: got %v, want %v: off by %d units", what, got, want, int64(off))
	}
}

// errorOf returns the error of a kind, or nil.
func errorOf(err error, kind angle.ErrorKind) *stream.Error {
	if e, is := errors.AsType[*stream.Error](err); is && e.Kind == kind {
		return e
	}
	return nil
}

// timeFor is how long the ground course takes over a distance.
func timeFor(s stream.Steering, d sailing.Distance) (time.Duration, error) {
	return d.TimeAt(s.Ground.Speed)
}
