package fix

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"lubberline.example/course/stream"
)

// A Track is a dead reckoning in order of time: runs, and observed lines that improve it. It
// keeps the estimated position and its covariance. Each observation is a fix by [Solve] with
// the estimate as its prior. Make a Track with [NewTrack]. It is not safe for concurrent use.
//
// The errors that bearings share, of variation and deviation, begin anew at each observation.
// After several fixes by one compass, the true uncertainty is larger than that of the track.
type Track struct {
	start   stream.Estimate
	entries []Entry
}

// An Entry is one run or one observation of a track, with its result.
type Entry struct {
	Run   *stream.ReckonedRun `json:"run,omitempty"`   // the run; nil for an observation
	Lines []Line              `json:"lines,omitempty"` // the lines observed

	// Fix is the fix by the lines and the estimate. Its Probability shows whether they agree.
	// For a run it is the zero Fix.
	Fix Fix `json:"fix,omitzero"`

	After stream.Estimate `json:"after"`
}

// NewTrack returns a track that begins at an estimate.
func NewTrack(start stream.Estimate) *Track { return &Track{start: start} }

// Estimate returns the present estimate. For a nil track it returns the zero value.
func (t *Track) Estimate() stream.Estimate {
	if t == nil {
		return stream.Estimate{}
	}
	if n := len(t.entries); n > 0 {
		return t.entries[n-1].After
	}
	return t.start
}

// Entries returns a copy of the runs and observations, in order.
func (t *Track) Entries() []Entry {
	if t == nil {
		return nil
	}
	out := append([]Entry(nil), t.entries...)
	for i := range out {
		e := &out[i]
		if e.Run != nil {
			run := *e.Run
			e.Run = &run
		}
		e.Lines = append([]Line(nil), e.Lines...)
	}
	return out
}

// Run adds a run from the present estimate, and returns the estimate after it. Errors are
// those of [lubberline.example/course/stream.Estimate.Run]. For a nil track it returns an
// [*Error].
func (t *Track) Run(r stream.ReckonedRun) (stream.Estimate, error) {
	if t == nil {
		return stream.Estimate{}, errNoTrack()
	}
	after, err := t.Estimate().Run(r)
	if err != nil {
		return stream.Estimate{}, err
	}
	t.entries = append(t.entries, Entry{Run: &r, After: after})
	return after, nil
}

// errNoTrack returns the error for a nil track.
func errNoTrack() error {
	return &Error{Kind: InvalidInput, Reason: "the track is nil: make one with NewTrack"}
}

// inTimeOrder is the advice for a line observed before the time of the track.
const inTimeOrder = "call Undo back to that time, Observe the line, and Run the later runs again; or Replay all entries in order of time"

// wrongTime returns the error of a line that was not observed at the time of the track.
func wrongTime(l *Line, now time.Time) *Error {
	want := "call Run to that time first"
	if l.time.Before(now) {
		want = inTimeOrder
	}
	return &Error{Kind: WrongTime, Line: l.name, Reason: fmt.Sprintf("it was observed at %s, but the time of the track is %s: %s", l.time.UTC().Format(time.DateTime), now.UTC().Format(time.DateTime), want)}
}

// atEntry returns the error of an entry of a track.
func atEntry(i int, err error) *Error {
	e := &Error{Kind: InvalidInput, Reason: err.Error(), cause: err}
	if own, ok := errors.AsType[*Error](err); ok {
		*e = *own
	}
	e.Entry = i + 1
	return e
}

// sameTime is the largest time between observations that count as simultaneous.
const sameTime = time.Minute

// Observe improves the present estimate by lines observed at its time, to within a minute. If
// a line has another time, Observe returns an [*Error]. To add an earlier line, go back with
// [Track.Undo], observe it and run again, or use [Replay].
//
// A transferred line is an [*Error] too. The track already contains the error of its run,
// which would count twice. Other errors are those of [Solve].
func (t *Track) Observe(lines ...Line) (Fix, error) {
	if t == nil {
		return Fix{}, errNoTrack()
	}
	if len(lines) == 0 {
		return Fix{}, &Error{Kind: TooFewLines, Reason: "no lines were given: give at least one, such as a bearing"}
	}
	now := t.Estimate()
	for i := range lines {
		l := &lines[i]
		if l.moved {
			return Fix{}, invalidLine(l.name, "it is transferred by a run that the track contains too, so give the line as it was observed: "+inTimeOrder)
		}
		if off := l.time.Sub(now.Time); !l.time.IsZero() && !now.Time.IsZero() && (off > sameTime || off < -sameTime) {
			return Fix{}, wrongTime(l, now.Time)
		}
	}
	lines = append([]Line(nil), lines...)
	f, err := Solve(lines, Options{Prior: &now})
	if err != nil {
		return Fix{}, err
	}
	if !f.known {
		return Fix{}, &Error{Kind: UncertaintyMissing, Reason: "the uncertainties of the lines are not stated: a track needs them to weight the lines against the reckoning, such as 2° for a bearing"}
	}
	t.entries = append(t.entries, Entry{Lines: append([]Line(nil), lines...), Fix: f, After: stream.Estimate{Position: f.position, Time: now.Time, Covariance: f.covariance}})
	return f, nil
}

// Undo removes the last entry, such as lines that do not agree. It reports whether there was
// one.
func (t *Track) Undo() bool {
	if t == nil || len(t.entries) == 0 {
		return false
	}
	t.entries = t.entries[:len(t.entries)-1]
	return true
}

// Replay returns the track from a start by the Run or the Lines of each entry. It computes the
// other fields again, and gives exactly the same track. If an entry fails, Replay returns an
// [*Error] with the number of the entry, which wraps the error of [Track.Run] or
// [Track.Observe].
func Replay(start stream.Estimate, entries []Entry) (*Track, error) {
	t := NewTrack(start)
	for i, e := range entries {
		var err error
		if e.Run != nil {
			_, err = t.Run(*e.Run)
		} else {
			_, err = t.Observe(e.Lines...)
		}
		if err != nil {
			return nil, atEntry(i, err)
		}
	}
	return t, nil
}

// String returns the track as a log: a line for each entry, with the estimate after it and its
// 95 % ellipse. After an observation that does not agree, the log has no ellipse: remove it
// with [Track.Undo].
func (t *Track) String() string {
	if t == nil {
		return "no track"
	}
	var b strings.Builder
	doubted := false
	write := func(what string, e stream.Estimate) {
		ellipse, err := e.Covariance.Ellipse(0.95)
		clock := "            "
		if !e.Time.IsZero() {
			clock = e.Time.UTC().Round(time.Minute).Format("2 Jan 15:04")
		}
		region := "±" + ellipse.SemiMajor.String()
		if ellipse.SemiMinor.String() != ellipse.SemiMajor.String() {
			region += fmt.Sprintf(" by %v, longer toward %.0f", ellipse.SemiMinor, ellipse.MajorAxis)
		}
		if err != nil { // 0.95 is a probability
			region = "accuracy unknown"
		}
		if doubted {
			region = "accuracy cannot be stated"
		}
		fmt.Fprintf(&b, "%s  %v  %s  %s\n", clock, e.Position, region, what)
	}
	write("start", t.start)
	for _, e := range t.entries {
		if e.Run != nil {
			write(fmt.Sprintf("run of %s on %v at %v", inHours(e.Run.Lasts), e.Run.Heading, e.Run.Speed), e.After)
			continue
		}
		names := make([]string, len(e.Lines))
		for i, l := range e.Lines {
			names[i] = l.titled()
		}
		note := ""
		if e.Fix.disagrees() {
			doubted = true
			note = "; THEY DO NOT AGREE with the reckoning or each other"
		}
		write(strings.Join(names, ", ")+note, e.After)
	}
	return b.String()
}

// inHours returns a duration in hours and minutes.
func inHours(d time.Duration) string {
	m := int(d.Round(time.Minute) / time.Minute)
	if m < 60 {
		return fmt.Sprintf("%d min", m)
	}
	return fmt.Sprintf("%d h %02d min", m/60, m%60)
}
