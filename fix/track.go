package fix

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"lubberline.example/course/stream"
)

// A Track is a reckoning kept in time order: runs that are reckoned, and lines that
// improve it. It keeps the estimated position and its covariance; each observation is
// a fix with the estimate as prior, the same model as [Solve]. Make one with
// [NewTrack]; it is not for use by several goroutines at once.
type Track struct {
	start   stream.Estimate
	entries []Entry
}

// An Entry is one thing that was done to a track, with what came of it. Where Run is
// nil the Lines are meant.
type Entry struct {
	Run   *stream.ReckonedRun `json:"run,omitempty"`   // what was reckoned; nil if lines were observed
	Lines []Line              `json:"lines,omitempty"` // what was observed

	// Fix is that of the lines with the estimate; its Probability tells whether they
	// agree with the estimate and with each other. Of a run it is the zero Fix.
	Fix Fix `json:"fix,omitzero"`

	After stream.Estimate `json:"after"`
}

// NewTrack returns a track that begins at an estimate.
func NewTrack(start stream.Estimate) *Track { return &Track{start: start} }

// Estimate returns the present estimate; of a nil track the zero one.
func (t *Track) Estimate() stream.Estimate {
	if t == nil {
		return stream.Estimate{}
	}
	if n := len(t.entries); n > 0 {
		return t.entries[n-1].After
	}
	return t.start
}

// Entries returns what was done, in order.
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

// Run reckons a run from the present estimate. Its errors are those of
// [lubberline.example/course/stream.Estimate.Run]; a nil track is refused with a [*Error].
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

// errNoTrack refuses a nil track.
func errNoTrack() error {
	return &Error{Kind: InvalidInput, Reason: "the track is nil: make one with NewTrack"}
}

// inTimeOrder is what would do for a line observed before.
const inTimeOrder = "Undo to that time, observe it, and reckon the runs since again; or Replay all in time order"

// wrongTime returns the error of a line that was not observed at the time of the track.
func wrongTime(l *Line, now time.Time) *Error {
	want := "reckon a run to that time first"
	if l.time.Before(now) {
		want = inTimeOrder
	}
	return &Error{Kind: WrongTime, Line: l.name, Reason: fmt.Sprintf("observed at %s, but the track stands at %s: %s", l.time.UTC().Format(time.DateTime), now.UTC().Format(time.DateTime), want)}
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

// sameTime is how far apart observations may be to count as made at once.
const sameTime = time.Minute

// Observe improves the present estimate by some lines observed at its time, within a
// minute, where their time is known; otherwise the error is a [*Error]. A line
// observed before is observed where the track stood then, by [Track.Undo] or [Replay]:
// the runs since carry it along with the rest. A transferred line is an [*Error]: the error
// of its run is in the track's reckoning already and would count twice. Other errors are those of
// [Solve], which takes a transferred line with a prior that the run has no part in.
func (t *Track) Observe(lines ...Line) (Fix, error) {
	if t == nil {
		return Fix{}, errNoTrack()
	}
	if len(lines) == 0 {
		return Fix{}, &Error{Kind: TooFewLines, Reason: "no lines were observed: want at least one"}
	}
	now := t.Estimate()
	for i := range lines {
		l := &lines[i]
		if l.moved {
			return Fix{}, invalidLine(l.name, "it is transferred by a run that the track has reckoned too: "+inTimeOrder+", the line not transferred")
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
		return Fix{}, &Error{Kind: UncertaintyMissing, Reason: "the uncertainties of the lines are not stated: a track needs them to weigh lines against the reckoning"}
	}
	t.entries = append(t.entries, Entry{Lines: append([]Line(nil), lines...), Fix: f, After: stream.Estimate{Position: f.position, Time: now.Time, Covariance: f.covariance}})
	return f, nil
}

// Undo takes back what was done last, such as lines that do not agree. It reports
// whether there was anything.
func (t *Track) Undo() bool {
	if t == nil || len(t.entries) == 0 {
		return false
	}
	t.entries = t.entries[:len(t.entries)-1]
	return true
}

// Replay works some entries anew from a start, and so gives the same track to the last
// bit; only Run and Lines of the entries count. The error is an [*Error], which holds
// that of [Track.Run] or [Track.Observe].
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

// String returns the track as a log: a line for each entry, with the estimate after it
// and the region that holds the vessel in 95 cases of 100. From an observation that does
// not agree on there is no region: take it back with [Track.Undo].
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

// inHours is a time in hours and minutes.
func inHours(d time.Duration) string {
	m := int(d.Round(time.Minute) / time.Minute)
	if m < 60 {
		return fmt.Sprintf("%d min", m)
	}
	return fmt.Sprintf("%d h %02d min", m/60, m%60)
}
