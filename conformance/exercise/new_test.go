package exercise_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"lubberline.example/angle"
	"lubberline.example/angle/page"
	"lubberline.example/conformance/exercise"
	"lubberline.example/conformance/slip"
	"lubberline.example/course/sailing"
	"lubberline.example/fix/practice"
)

var levels = []slip.Difficulty{slip.Easy, slip.Medium, slip.Hard}

// made returns a paper that New makes.
func made(t testing.TB, o exercise.Options) exercise.Paper {
	t.Helper()
	p, err := exercise.New(o)
	if err != nil {
		t.Fatalf("%+v: %v", o, err)
	}
	return p
}

// seeds returns how many seeds a test tries: n, or ten times as many with FULL=1.
func seeds(n int) int {
	if os.Getenv("FULL") == "1" {
		return 10 * n
	}
	return n
}

// html returns a page as HTML.
func html(t testing.TB, p page.Page) string {
	t.Helper()
	var b bytes.Buffer
	if err := page.Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// Every seed, level and length gives a paper whose right answers are marked right, and whose
// wrong answers are marked wrong.
func TestPapersOfAllSeeds(t *testing.T) {
	for seed := range uint64(seeds(30)) {
		for _, level := range levels {
			n := 6 + int(seed)%7
			p := made(t, exercise.Options{Seed: seed, Level: level, Questions: n})
			if len(p.Problems) != n {
				t.Fatalf("seed %d: %d questions", seed, len(p.Problems))
			}
			for i, q := range p.Problems {
				where := fmt.Sprintf("seed %d, %s, question %d (%s)", seed, level, i+1, q.Topic)
				answer, err := q.Read(q.Print(q.Answer()))
				if err != nil || !q.Diagnose(answer).Right {
					t.Errorf("%s: %s is read as %v, %v", where, q.Print(q.Answer()), answer, err)
				}
				if !strings.HasSuffix(q.Question, "?") || strings.Contains(q.Question, "%!") || strings.Contains(q.Question, " she ") {
					t.Errorf("%s: %s", where, q.Question)
				}
				if len(q.Working()) == 0 || len(q.Slips()) == 0 {
					t.Errorf("%s: no working or no slips", where)
				}
			}
		}
	}
}

// The same options give the same pages.
func TestSeedMakesTheSamePaper(t *testing.T) {
	o := exercise.Options{Seed: 7, Level: slip.Hard, Questions: 12}
	a, b := made(t, o), made(t, o)
	for i, pages := range [][2]page.Page{{a.Questions(), b.Questions()}, {a.Key(), b.Key()}, {a.Workings(), b.Workings()}} {
		if html(t, pages[0]) != html(t, pages[1]) {
			t.Errorf("page %d differs", i)
		}
	}
	o.Seed++
	if html(t, made(t, o).Questions()) == html(t, a.Questions()) {
		t.Error("another seed gives the same paper")
	}
}

// Each topic is asked once before one is asked again.
func TestTopicsAreAskedInTurn(t *testing.T) {
	for seed := range uint64(20) {
		seen := map[string]int{}
		for _, q := range made(t, exercise.Options{Seed: seed}).Problems {
			seen[q.Topic]++
		}
		if len(seen) != min(8, len(exercise.Topics())) {
			t.Errorf("seed %d: %v", seed, seen)
		}
	}
	some := []string{"variation", "course to steer", "distance run"}
	for _, q := range made(t, exercise.Options{Topics: some, Questions: 6}).Problems {
		if !slices.Contains(some, q.Topic) {
			t.Errorf("a question on %q", q.Topic)
		}
	}
}

// Unknown words and numbers out of range are refused with typed errors.
func TestOptionsAreChecked(t *testing.T) {
	for name, o := range map[string]exercise.Options{
		"level": {Level: "odd"}, "topic": {Topics: []string{"knots"}},
		"few": {Questions: 5}, "many": {Questions: 13}, "negative": {Questions: -1},
		"few topics": {Topics: []string{"stream"}, Questions: 6},
	} {
		_, err := exercise.New(o)
		_, parse := errors.AsType[*angle.ParseError](err)
		_, number := errors.AsType[*angle.RangeError](err)
		if !parse && !number {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A paper of 12 questions with its key and its workings.
func BenchmarkPaper(b *testing.B) {
	for seed := uint64(0); b.Loop(); seed++ {
		p := made(b, exercise.Options{Seed: seed, Level: slip.Hard, Questions: 12})
		for _, doc := range []page.Page{p.Questions(), p.Key(), p.Workings()} {
			html(b, doc)
		}
	}
}

// intro reads what the first paragraph of a paper says of the passage.
var intro = regexp.MustCompile(`departure from (\S+ \S+)\. The speed through the water is ([\d.]+) kn\. .*, ([\d.]+) m, low water ([\d.]+) m\.`)

// The vessel comes in from the sea, to the west of the land, with 5 M and more to run, and has water
// all the way. Its tide rises: by what the chart's table has between neaps, 2.2 m, and springs,
// 4.6 m. On an easy paper its speed is in whole knots.
func TestPassageSuitsTheChart(t *testing.T) {
	chart, landfall := practice.Orlesk(), angle.MustParsePosition("46°59.0′N 019°09.0′W")
	for seed := range uint64(seeds(30)) {
		for _, level := range levels {
			says := intro.FindStringSubmatch(made(t, exercise.Options{Seed: seed, Level: level}).Passage[0])
			if says == nil {
				t.Fatalf("seed %d, %s: no passage", seed, level)
			}
			from, knots := angle.MustParsePosition(says[1]), says[2]
			run := sailing.WGS84().Rhumb(from, landfall)
			if east := run.Distance.NauticalMiles() * math.Sin(run.Course.FromNorth().Radians()); east < 5 {
				t.Errorf("seed %d, %s: from %v the landfall lies %.1f M to the east", seed, level, from, east)
			}
			for d := sailing.Distance(0); d < run.Distance; d += 200 {
				if p := angle.Must(sailing.WGS84().Follow(from, sailing.Run{Course: run.Course, Distance: d})); !chart.InWater(p) {
					t.Fatalf("seed %d, %s: land at %v", seed, level, p)
				}
			}
			if level == slip.Easy && !strings.HasSuffix(knots, ".0") {
				t.Errorf("seed %d, easy: %s kn", seed, knots)
			}
			high, low := angle.Must(strconv.ParseFloat(says[3], 64)), angle.Must(strconv.ParseFloat(says[4], 64))
			if rise := high - low; rise < 2.15 || rise > 4.65 { // printed to a tenth
				t.Errorf("seed %d, %s: the tide rises by %.1f m", seed, level, rise)
			}
		}
	}
}
