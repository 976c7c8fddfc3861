package conformance

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// A Status is the result of a case.
type Status string

// The statuses.
const (
	Pass        Status = "pass"         // the answer is within the case's tolerances
	Fail        Status = "fail"         // the answer is wrong
	KnownFail   Status = "known"        // a failed or declined case that is listed with its reason
	KnownPasses Status = "known-passes" // a listed case that passes: the list is out of date
	NotOffered  Status = "not-offered"  // the subject has no such operation
	Declined    Status = "declined"     // the subject can't work the case, and says so
	Broke       Status = "broke"        // the subject crashed, or returned another error
	TimedOut    Status = "timed-out"    // no answer in the time allowed
	BadAnswer   Status = "bad-answer"   // the answer breaks the protocol
	Refused     Status = "refused"      // of an [Error]: the input is invalid
	BadRequest  Status = "bad-request"  // of an [Error]: a line to [Serve] breaks the protocol
)

// Good reports whether a run with this status can succeed. A declined case is good only if it is
// listed as known.
func (s Status) Good() bool { return s == Pass || s == KnownFail || s == NotOffered }

// A Result is the result of one case.
type Result struct {
	Case   Case
	Topic  string // of the case
	Source Source // of the case
	Status Status

	Expect map[string]Expected // what the tier asks for; empty if the case expects a refusal
	Answer Answer              // of the subject, or nil
	Err    error               // of the subject, or nil

	// Problems say what is wrong, one line a value: the expected value with its tolerance,
	// the answer, and the difference.
	Problems    []string
	Conventions []string      // that the expected answer follows; other sources may have others
	Tiers       map[Tier]bool // whether it passes at each tier of the case; nil if not offered
	Took        time.Duration // time for the answer
}

// String returns the status and the id. If the case failed, it adds the problems, the conventions
// and the source.
func (r Result) String() string {
	if r.Status == Pass || r.Status == NotOffered {
		return string(r.Status) + " " + r.Case.ID
	}
	text := fmt.Sprintf("%s %s\n", r.Status, r.Case.ID)
	for _, p := range r.Problems {
		text += "    " + strings.ReplaceAll(p, "\n", "\n    ") + "\n" // a trace of the program has lines
	}
	for _, convention := range r.Conventions {
		text += "    convention: " + convention + "\n"
	}
	var given bytes.Buffer
	if err := json.Compact(&given, r.Case.Given); err != nil {
		given.Write(r.Case.Given)
	}
	text += "    given " + given.String() + "\n"
	source := r.Source.Title
	if r.Source.Edition != "" {
		source += ", " + r.Source.Edition
	}
	return text + fmt.Sprintf("    source: %s; %s (%s)", source, r.Case.Source.At, Provenance(r.Source, r.Case))
}

// A Report has the results of a subject.
type Report struct {
	Subject string   // the name of the subject
	Version string   // of the subject
	Corpus  string   // the version of the corpus
	Tier    Tier     // that decides the statuses
	Results []Result // one for each chosen case, without withdrawn cases
}

// Counts returns the number of cases with each status.
func (r Report) Counts() map[Status]int {
	counts := map[Status]int{}
	for _, result := range r.Results {
		counts[result.Status]++
	}
	return counts
}

// Good reports whether at least one case passed and each status is good; see [Status.Good].
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

// Summary returns one line: offered 1 of 78 operations; 14 pass, 0 fail, 1277 not-offered.
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

// Options choose cases and list known failures. The zero value chooses all cases.
type Options struct {
	Topic string         // only this topic; all if empty
	Run   *regexp.Regexp // only cases whose id or operation has a match; all if nil
	Skip  *regexp.Regexp // no case whose id or operation has a match; none is left out if nil
	Tier  Tier           // how closely answers are compared; Library if empty

	// Known has the ids of cases that are known to fail or to be declined, with the reason. A
	// listed case that passes makes the run fail, and so does an id without a case.
	Known map[string]string
}

// Match reports whether a case of a topic is chosen.
func (o Options) Match(topic string, c Case) bool {
	in := func(r *regexp.Regexp) bool { return r.MatchString(c.ID) || r.MatchString(c.Operation) }
	return (o.Topic == "" || o.Topic == topic) && (o.Run == nil || in(o.Run)) && (o.Skip == nil || !in(o.Skip))
}

// A Worker answers cases: a [Subject], or the program that the command starts. It returns an
// answer or an error. An [*Error] gives the case its status; any other error is [Broke].
type Worker interface {
	Offers(operation string) bool
	Work(c Case) (Answer, error)
}

// Offers reports whether the subject has an operation.
func (s Subject) Offers(operation string) bool { return s.Operations[operation] != nil }

// Work answers a case. A panic of an operation becomes an error. If the subject lacks the
// operation, Work returns an [*Error] of status [NotOffered].
func (s Subject) Work(c Case) (answer Answer, err error) {
	if !s.Offers(c.Operation) {
		return nil, &Error{Status: NotOffered, Reason: "no operation " + strconv.Quote(c.Operation)}
	}
	defer func() {
		if p := recover(); p != nil {
			answer, err = nil, fmt.Errorf("panic: %v", p)
		}
	}()
	return s.Operations[c.Operation](c.Given)
}

// Check runs the corpus on a subject. It returns an error if the corpus lacks an operation of the
// subject, which is then misspelt or of another version. It also does if a known failure is not a
// case.
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

// Hold gives the chosen cases to a worker and judges its answers. After each case it calls each,
// unless that is nil. If each returns an error, Hold stops and returns that error with the report
// so far. For a nil worker it returns an error.
func Hold(w Worker, name, version string, options Options, each func(Result) error) (Report, error) {
	if w == nil {
		return Report{}, errors.New("conformance: no worker: give a Subject, or what starts a program")
	}
	topics, err := Load()
	if err != nil {
		return Report{}, err
	}
	if options.Tier == "" {
		options.Tier = TierLibrary
	}
	if !slices.Contains(tiers, options.Tier) {
		return Report{}, fmt.Errorf("conformance: %q is not a tier; use %s, %s or %s", options.Tier, TierNavigation, TierLibrary, TierFormat)
	}
	report := Report{Subject: name, Version: version, Corpus: Version, Tier: options.Tier}
	unused := map[string]bool{}
	for id := range options.Known {
		unused[id] = true
	}
	for _, t := range topics {
		for _, c := range t.Cases {
			delete(unused, c.ID)
			if c.Status != "active" || !options.Match(t.Topic, c) {
				continue
			}
			expect, asked := options.Tier.asks(c)
			if !asked {
				continue
			}
			r := Result{Case: c, Topic: t.Topic, Source: t.Sources[c.Source.ID], Expect: expect, Conventions: conventionsOf(c)}
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
		return report, fmt.Errorf("conformance: known failures that are not cases: %s", strings.Join(ids, ", "))
	}
	if len(report.Results) == 0 {
		return report, fmt.Errorf("conformance: no case at tier %s is chosen; check the topic and the patterns", options.Tier)
	}
	return report, nil
}

// work answers and judges one case.
func (r *Result) work(w Worker, known map[string]string) {
	if !w.Offers(r.Case.Operation) {
		r.Status = NotOffered
		return
	}
	start := time.Now()
	r.Answer, r.Err = w.Work(r.Case)
	r.Took = time.Since(start)
	r.Status, r.Problems = judge(r.Case, r.Expect, r.Answer, r.Err)
	r.Tiers = map[Tier]bool{}
	for _, t := range tiers {
		if expect, asked := t.asks(r.Case); asked {
			status, _ := judge(r.Case, expect, r.Answer, r.Err)
			r.Tiers[t] = status == Pass
		}
	}
	if why, listed := known[r.Case.ID]; listed {
		switch r.Status {
		case Pass:
			r.Status, r.Problems = KnownPasses, []string{"listed as failing (" + why + ") and passes: remove it from the list"}
		case Fail, Broke, TimedOut, BadAnswer, Declined:
			r.Status = KnownFail
		}
	}
}
