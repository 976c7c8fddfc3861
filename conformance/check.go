package conformance

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path"
	"slices"
	"strings"
	"time"
)

// A Status is how a case went.
type Status string

// The statuses.
const (
	Pass        Status = "pass"         // the answer is within the case's tolerances
	Fail        Status = "fail"         // it is not
	KnownFail   Status = "known"        // a failure, or a case declined, that the subject lists with its reason
	KnownPasses Status = "known-passes" // a listed failure that passes: the list is stale
	NotOffered  Status = "not-offered"  // the subject has no such operation
	Declined    Status = "declined"     // the subject can't work the case, and says so
	Broke       Status = "broke"        // it crashed, or returned an error that is no refusal
	TimedOut    Status = "timed-out"    // no answer in the time allowed
	BadAnswer   Status = "bad-answer"   // its answer breaks the protocol
)

// Good reports whether a status lets a run succeed. A declined case does not, unless it
// is listed as known.
func (s Status) Good() bool { return s == Pass || s == KnownFail || s == NotOffered }

// A Result is how one case went.
type Result struct {
	Case   Case
	Topic  string // that the case is of
	Source Source // with the case's place
	Status Status // how it went

	// Problems say what is wrong, a line for each value: given, expected with its
	// tolerance, got, and the difference.
	Problems []string
	Took     time.Duration // the subject's answer
}

// String says how the case went, with the source where it failed.
func (r Result) String() string {
	if r.Status == Pass || r.Status == NotOffered {
		return string(r.Status) + " " + r.Case.ID
	}
	text := fmt.Sprintf("%s %s\n", r.Status, r.Case.ID)
	for _, p := range r.Problems {
		text += "    " + p + "\n"
	}
	var given bytes.Buffer
	if err := json.Compact(&given, r.Case.Given); err != nil {
		given.Write(r.Case.Given)
	}
	text += "    given " + given.String() + "\n"
	return text + fmt.Sprintf("    source: %s, %s; %s (%s, %s)", r.Source.Title, r.Source.Edition, r.Case.Source.At, r.Source.Kind, r.Case.Standing)
}

// A Report is how a subject did.
type Report struct {
	Subject string   // its name
	Version string   // the subject's
	Corpus  string   // the version of the corpus
	Results []Result // one for each case chosen, withdrawn ones left out
}

// Counts returns how many cases have each status.
func (r Report) Counts() map[Status]int {
	counts := map[Status]int{}
	for _, result := range r.Results {
		counts[result.Status]++
	}
	return counts
}

// Good reports whether at least one case passed and no status stands against it, by
// [Status.Good]. Nothing offered, or everything listed as known, is not good.
func (r Report) Good() bool {
	passed := false
	for _, result := range r.Results {
		if !result.Status.Good() {
			return false
		}
		passed = passed || result.Status == Pass
	}
	return passed
}

// Summary is one line: offered 1 of 61 operations; 11 pass, 0 fail, 531 not-offered.
func (r Report) Summary() string {
	all, offered := map[string]bool{}, map[string]bool{}
	for _, result := range r.Results {
		all[result.Case.Operation] = true
		if result.Status != NotOffered {
			offered[result.Case.Operation] = true
		}
	}
	var parts []string
	counts := r.Counts()
	for _, s := range []Status{Pass, Fail, KnownFail, KnownPasses, Declined, Broke, TimedOut, BadAnswer, NotOffered} {
		if n := counts[s]; n > 0 || s == Pass || s == Fail {
			parts = append(parts, fmt.Sprintf("%d %s", n, s))
		}
	}
	return fmt.Sprintf("offered %d of %d operations; %s", len(offered), len(all), strings.Join(parts, ", "))
}

// Options choose cases and say what is known to fail. The zero value takes all cases.
type Options struct {
	Topic string // only this topic
	ID    string // only ids that match this pattern, as in path.Match, or begin with it

	// Known are cases that are known to fail or to be declined, with the reason. A case
	// that passes all the same, or an id of no case, makes the run fail: the list is stale.
	Known map[string]string
}

// Match reports whether a case is chosen.
func (o Options) Match(topic, id string) bool {
	if o.Topic != "" && o.Topic != topic {
		return false
	}
	if o.ID == "" || strings.HasPrefix(id, o.ID) {
		return true
	}
	ok, err := path.Match(o.ID, id)
	return ok && err == nil
}

// A Worker works a case: what [Check] asks a [Subject], and the command asks a child
// process. It returns an answer, a [*Refusal], a [*Decline], or another error with a
// status, or [Broke] if it has none.
type Worker interface {
	Offers(operation string) bool
	Work(c Case) (Answer, error)
}

// A StatusError is an error that knows the status it stands for.
type StatusError struct {
	Status Status
	Err    error // what went wrong
}

// Error returns the error's text.
func (e *StatusError) Error() string { return e.Err.Error() }

// Unwrap returns the error.
func (e *StatusError) Unwrap() error { return e.Err }

// Offers reports whether the subject has an operation.
func (s Subject) Offers(operation string) bool { return s.Operations[operation] != nil }

// Work works a case. A panic of an operation is an error.
func (s Subject) Work(c Case) (answer Answer, err error) {
	defer func() {
		if p := recover(); p != nil {
			answer, err = nil, fmt.Errorf("panic: %v", p)
		}
	}()
	return s.Operations[c.Operation](c.Given)
}

// Check holds a subject to the corpus. It errs if the subject names an operation that
// the corpus does not know (it is misspelt, or of another version), or if a known
// failure names no case.
func Check(s Subject, options Options) (Report, error) {
	topics, err := Load()
	if err != nil {
		return Report{}, err
	}
	known := map[string]bool{}
	for _, t := range topics {
		for _, c := range t.Cases {
			known[c.Operation] = true
		}
	}
	for name := range s.Operations {
		if !known[name] {
			return Report{}, fmt.Errorf("conformance: %s: no operation %q in the corpus", s.Name, name)
		}
	}
	return Hold(s, s.Name, s.Version, options, nil)
}

// Hold works the chosen cases with a worker and judges its answers. Unless each is nil,
// Hold calls it after each case. If each returns an error, Hold stops and returns that
// error with the report so far.
func Hold(w Worker, name, version string, options Options, each func(Result) error) (Report, error) {
	topics, err := Load()
	if err != nil {
		return Report{}, err
	}
	report := Report{Subject: name, Version: version, Corpus: Version}
	unused := map[string]bool{}
	for id := range options.Known {
		unused[id] = true
	}
	for _, t := range topics {
		for _, c := range t.Cases {
			delete(unused, c.ID)
			if c.Status != "active" || !options.Match(t.Topic, c.ID) {
				continue
			}
			r := Result{Case: c, Topic: t.Topic, Source: t.Sources[c.Source.ID]}
			r.work(w, options.Known)
			report.Results = append(report.Results, r)
			if each != nil {
				if err := each(r); err != nil {
					return report, err
				}
			}
		}
	}
	if len(unused) > 0 {
		var ids []string
		for id := range unused {
			ids = append(ids, id)
		}
		slices.Sort(ids)
		return report, fmt.Errorf("conformance: known failures name no case: %s", strings.Join(ids, ", "))
	}
	if len(report.Results) == 0 {
		return report, fmt.Errorf("conformance: no case of topic %q with id %q", options.Topic, options.ID)
	}
	return report, nil
}

// work works one case.
func (r *Result) work(w Worker, known map[string]string) {
	if !w.Offers(r.Case.Operation) {
		r.Status = NotOffered
		return
	}
	start := time.Now()
	answer, err := w.Work(r.Case)
	r.Took = time.Since(start)
	r.Status, r.Problems = judge(r.Case, answer, err)
	if why, listed := known[r.Case.ID]; listed {
		switch r.Status {
		case Pass:
			r.Status, r.Problems = KnownPasses, []string{"listed as failing (" + why + ") and passes: take it off the list"}
		case Fail, Broke, TimedOut, BadAnswer, Declined:
			r.Status = KnownFail
		}
	}
}
