package stream_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/variation"
)

var (
	braddle = angle.MustParsePosition("47°20′N 018°50′W") // 25 miles from offOrlesk
	tides   = stream.Hourly{Start: day, Streams: []stream.Stream{streamOf(120, 1), streamOf(110, 2), streamOf(290, 1.5), streamOf(300, 2), streamOf(310, 1), streamOf(320, 0.5)}}
)

// A streamFunc is a source of streams as a program may have its own.
type streamFunc func(p angle.Position, t time.Time) (stream.Stream, error)

func (f streamFunc) StreamAt(p angle.Position, t time.Time) (stream.Stream, error) { return f(p, t) }

func TestHourlyStreamsStartAndEnd(t *testing.T) {
	halfHours := stream.Hourly{Start: day, Period: 30 * time.Minute, Streams: tides.Streams[:2]}
	never := stream.Hourly{Start: day, Period: -1, Streams: tides.Streams[:2]} // as zero: an hour
	for _, c := range []struct {
		name string
		from stream.Hourly
		at   time.Duration
		want int // which stream; none below zero
	}{
		{"start", tides, 0, 0},
		{"end of the first hour", tides, time.Hour - 1, 0},
		{"second hour", tides, time.Hour, 1},
		{"last moment", tides, 6*time.Hour - 1, 5},
		{"end", tides, 6 * time.Hour, -1},
		{"long after", tides, 1 << 62, -1},
		{"just before", tides, -1, -1},
		{"long before", tides, -1 << 62, -1},
		{"first half hour", halfHours, 30*time.Minute - 1, 0},
		{"second half hour", halfHours, 30 * time.Minute, 1},
		{"end of the half hours", halfHours, time.Hour, -1},
		{"a period below zero is an hour", never, time.Hour, 1},
		{"no streams", stream.Hourly{Start: day}, 0, -1},
	} {
		got, err := c.from.StreamAt(angle.Position{}, day.Add(c.at))
		if c.want >= 0 {
			if err != nil || got != c.from.Streams[c.want] {
				t.Errorf("%s: %v, %v", c.name, got, err)
			}
			continue
		}
		if e := errorOf(err, stream.NoStream); e == nil || !strings.Contains(e.Reason, "no stream for "+day.Add(c.at).Format(time.DateTime)) || !strings.Contains(e.Reason, "begin at 2026-07-02 09:00:00 and") {
			t.Errorf("%s: %v, %v", c.name, got, err)
		}
	}
	_, err := tides.StreamAt(offOrlesk, day.In(time.FixedZone("", 3600)).Add(6*time.Hour))
	const want = "stream: no stream for 2026-07-02 15:00:00 UTC: the streams begin at 2026-07-02 09:00:00 and end at 2026-07-02 15:00:00 UTC; add the stream for that time"
	if err == nil || err.Error() != want {
		t.Errorf("%v\nwant %s", err, want)
	}
}

func TestStreamIsASource(t *testing.T) {
	if got, err := streamOf(45, 2).StreamAt(offOrlesk, day); err != nil || got != streamOf(45, 2) {
		t.Errorf("%v, %v", got, err)
	}
}

// Streams read from a table have no start until it is set.
func TestStreamsWithoutAStartAreRefused(t *testing.T) {
	unset := stream.Hourly{Streams: tides.Streams}
	for _, at := range []time.Time{day, {}} {
		_, err := unset.StreamAt(offOrlesk, at)
		if errorOf(err, stream.NoStream) == nil || !strings.Contains(err.Error(), at.Format(time.DateTime)) || !strings.HasSuffix(err.Error(), "set Start to the time at which the first begins") {
			t.Error(err)
		}
	}
	_, err := stream.CourseToSteerAcross(offOrlesk, braddle, day, 6*sailing.Knot, unset)
	if errorOf(err, stream.NoStream) == nil || !strings.Contains(err.Error(), "set Start") {
		t.Error(err)
	}
}

// A nil pointer does not mean slack water: the caller forgot to read the streams.
func TestNilStreamsPointerIsRefused(t *testing.T) {
	for _, streams := range []stream.Source{(*stream.Hourly)(nil), (*stream.Stream)(nil)} {
		for _, to := range []angle.Position{braddle, offOrlesk} {
			_, err := stream.CourseToSteerAcross(offOrlesk, to, day, 6*sailing.Knot, streams)
			if e, is := errors.AsType[*variation.MissingInputError](err); !is || e.What != "streams" || err.Error() != "no streams: a nil pointer; give some, or nil for slack water" {
				t.Errorf("%T: %v", streams, err)
			}
		}
	}
	if _, err := stream.CourseToSteerAcross(offOrlesk, braddle, day, 6*sailing.Knot, nil); err != nil {
		t.Error(err)
	}
}

func TestSlackWaterHasNoSet(t *testing.T) {
	c := angle.Must(stream.CourseToSteerAcross(offOrlesk, braddle, day, 6*sailing.Knot, stream.Hourly{Start: day, Period: 24 * time.Hour, Streams: []stream.Stream{streamOf(90, 0)}}))
	if step, _ := c.Working().Steps.Find("stream 1"); step.Value != "slack water" || step.What != "Stream 09:00–13:12 UTC" {
		t.Errorf("%+v", step)
	}
}
