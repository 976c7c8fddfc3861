package slip

import (
	"errors"
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"
	"time"

	"lubberline.example/angle"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/course/stream"
	"lubberline.example/deviation"
	"lubberline.example/variation"
)

// TestReadAnswers reads answers in many forms, and refuses those of
// another north, without a name, or of no number.
func TestReadAnswers(t *testing.T) {
	rose := variation.MustParseLegend("7°20′W 2015 (12′E)")
	k := in2026(rose, deviation.None())
	for _, test := range []struct {
		p    Problem
		text string
		want float64 // not a number: refused
	}{
		{angle.Must(NewToSteer(angle.MustParseTrue("230"), k)), "232", 232},
		{angle.Must(NewToSteer(angle.MustParseTrue("230"), k)), "232°C", 232},
		{angle.Must(NewToSteer(angle.MustParseTrue("230"), k)), "232T", math.NaN()},
		{angle.Must(NewToSteer(angle.MustParseTrue("230"), k)), "400", math.NaN()},
		{angle.Must(NewTrueCourse(angle.MustParseCompass("230"), k)), "232 C", math.NaN()},
		{angle.Must(NewRose(rose, 2026)), "2.5W", -2.5},
		{angle.Must(NewRose(rose, 2026)), "2°61′W", math.NaN()},
		{angle.Must(NewRose(rose, 2026)), "5°13′ east", 5 + 13.0/60},
		{angle.Must(NewRose(rose, 2026)), "w 5 13", -5 - 13.0/60},
		{angle.Must(NewDLong(angle.Latitude{}, 1852)), "59.0E", 59},
		{angle.Must(NewDLong(angle.Latitude{}, 1852)), "59.0′ w", -59},
		{angle.Must(NewDLong(angle.Latitude{}, 1852)), "59", math.NaN()},
		{angle.Must(NewDLong(angle.Latitude{}, 1852)), "59.0' east", 59},
		{angle.Must(NewDLong(angle.Latitude{}, 1852)), "1°01.0′W", -61},
		{angle.Must(NewDLong(angle.Latitude{}, 1852)), "-1°01.0′W", math.NaN()},
		{angle.Must(NewDLong(angle.Latitude{}, 1852)), "1°61.0′W", math.NaN()},
		{angle.Must(NewDLong(angle.Latitude{}, 1852)), "E", math.NaN()},
		{angle.Must(NewRun(3, time.Hour)), "44.0NM", 44},
		{angle.Must(NewRun(3, time.Hour)), "44.0 n.m.", 44},
		{angle.Must(NewRun(3, time.Hour)), "44.0 Nautical Miles", 44},
		{angle.Must(NewRun(3, time.Hour)), "44.0 m", math.NaN()},
		{angle.Must(NewRun(3, time.Hour)), "44.0 nm", 44},
		{angle.Must(NewRun(3, time.Hour)), "44 miles", 44},
		{angle.Must(NewRun(3, time.Hour)), "44 E junk", math.NaN()},
		{angle.Must(NewRun(3, time.Hour)), "-44", math.NaN()},
	} {
		got, err := test.p.Read(test.text)
		if refused := math.IsNaN(test.want); refused != (err != nil) || !refused && math.Abs(got-test.want) > 1e-9 {
			t.Errorf("%s: %q is %v, %v; want %v", test.p.Topic, test.text, got, err, test.want)
		}
	}
}

// TestAnswerWithoutNameIsRefused also refuses figures beyond the range.
func TestAnswerWithoutNameIsRefused(t *testing.T) {
	variations := angle.Must(NewRose(variation.MustParseLegend("7°20′W 2015 (12′E)"), 2026))
	latitudes := angle.Must(NewLatitude(angle.Must(angle.LatitudeDegrees(51)), sailing.Run{Course: angle.MustParseTrue("300"), Distance: 40 * sailing.NauticalMile}))
	for _, p := range []Problem{variations, latitudes} {
		for _, text := range []string{"5.13", " 5.13 ", "-5.13", "+5.13", "5", "0", "5 deg", "-5°13′", "181°E", "400W", "91°S", "90°00.1′N"} {
			x, err := p.Read(text)
			if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Input != text {
				t.Errorf("%s: %q is %v, %v", p.Topic, text, x, err)
			}
		}
	}
	for text, p := range map[string]Problem{"180°W": variations, "0°E": variations, "90°S": latitudes, "south 3": latitudes} {
		if x, err := p.Read(text); err != nil {
			t.Errorf("%s: %q is %v, %v", p.Topic, text, x, err)
		}
	}
}

// TestRefusalQuotesWholeAnswer quotes what the learner wrote, not a part of it.
func TestRefusalQuotesWholeAnswer(t *testing.T) {
	k := in2026(variation.MustParseLegend("7°20′W 2015 (12′E)"), deviation.None())
	for _, p := range []Problem{angle.Must(NewToSteer(angle.MustParseTrue("230"), k)), angle.Must(NewTrueCourse(angle.MustParseCompass("230"), k))} {
		for _, text := range []string{"abc", " abc", "2x3c", "2x3t", "400", ""} {
			_, err := p.Read(text)
			if e, ok := errors.AsType[*angle.ParseError](err); !ok || e.Input != text {
				t.Errorf("%s: %q: %v", p.Topic, text, err)
			}
		}
	}
}

// The right answer is not listed as that of a slip.
func TestRightAnswerIsNoSlip(t *testing.T) {
	for _, p := range drawn(t) {
		right := p.Print(p.Answer())
		for _, c := range p.Slips() {
			if p.Print(c.Answer) == right {
				t.Errorf("%s: %s: %s", p.Question, right, c)
			}
		}
	}
}

// TestAnswersAvoidRoundingTies checks that less careful working gives the same rounded answer.
func TestAnswersAvoidRoundingTies(t *testing.T) {
	for _, p := range drawn(t) {
		for _, off := range []float64{-0.099, 0.099} {
			if got := p.Print(p.Answer() + off*p.Rounding); got != p.Print(p.Answer()) {
				t.Errorf("%s: %v rounds to %s, and a tenth of the last figure off to %s", p.Question, p.Answer(), p.Print(p.Answer()), got)
			}
		}
	}
}

// TestSlipVariants tells too many years from too few. If both explain the answer, it names
// neither.
func TestSlipVariants(t *testing.T) {
	rose := angle.Must(NewRose(variation.MustParseLegend("7°20′W 2015 (12′E)"), 2026))
	for answer, want := range map[float64]string{-(4 + 56.0/60): "one year too many", -(5 + 20.0/60): "one year too few", -(3 + 8.0/60): "ten years too many", -(7 + 8.0/60): ""} {
		d := rose.Diagnose(answer)
		if want == "" { // 7°08′W is ten years too few, and one year only
			if !d.Certain() || d.Causes[0].Ways != nil {
				t.Errorf("%v: %v", answer, d)
			}
			continue
		}
		if !d.Certain() || !slices.Equal(d.Causes[0].Ways, []string{want}) || d.String() != "wrong; this slip would give it: the years were miscounted, "+want {
			t.Errorf("%v: %v", answer, d)
		}
	}
	both := Cause{Slips: []Kind{StreamWrongWay, YearsMiscounted}, Ways: []string{"", "one year too many"}}
	if both.String() != StreamWrongWay.String()+", and the years were miscounted, one year too many" {
		t.Error(both)
	}
	if both.join(Cause{Slips: both.Slips, Ways: []string{"", "ten years too many"}}); both.Ways != nil {
		t.Error(both)
	}
}

// TestTransposedFigures exchanges the figures of degrees and minutes as written, and never gives
// an invalid direction.
func TestTransposedFigures(t *testing.T) {
	rose := angle.Must(NewRose(variation.MustParseLegend("10°05′W 2018 (10′W)"), 2026)) // 11°25′W
	if e := rose.Diagnose(-(11 + 52.0/60)); len(e.Causes) != 1 || !slices.Equal(e.Causes[0].Slips, []Kind{FiguresTransposed}) {
		t.Errorf("11°52′W for 11°25′W: %v", e)
	}
	from := angle.Must(angle.LatitudeDegrees(51))
	latitude := angle.Must(NewLatitude(from, sailing.Run{Course: angle.MustParseTrue("300"), Distance: 40 * sailing.NauticalMile}))
	if e := latitude.Diagnose(-latitude.Answer()); !e.Certain() || e.Causes[0].Slips[0] != NorthForSouth {
		t.Errorf("south for north: %v", e)
	}
	made := angle.Must(NewTrueCourse(angle.MustParseCompass("059"), in2026(variation.MustParseLegend("0°E 2026 (0′)"), deviation.None())))
	for _, c := range made.Slips() {
		if c.Slips[0] == FiguresTransposed && c.Answer != 95 { // 509° is not a direction
			t.Errorf("059 transposed to %v", c.Answer)
		}
	}
}

// Two figures of a track given are exchanged: 218° or 182° for 128°.
func TestTransposedGivenDirection(t *testing.T) {
	p := angle.Must(NewToSteer(angle.MustParseTrue("128"), course.With{Variation: variation.MustParse("5°W"), Deviation: deviation.MustParse("2°E")}))
	// By hand, from 218° and from 182°: 5° more and 2° less.
	for _, answer := range []float64{221, 185} {
		named := slices.ContainsFunc(p.Diagnose(answer).Causes, func(c Cause) bool { return slices.Equal(c.Slips, []Kind{FiguresTransposed}) })
		if !named {
			t.Errorf("%v is %v", answer, p.Diagnose(answer))
		}
	}
}

// By definition the stream runs faster at springs than at neaps; those drawn run at up to 4 knots.
func TestTidalStreamsRunFasterAtSprings(t *testing.T) {
	rates := regexp.MustCompile(`°T, (\d\.\d) and (\d\.\d)`)
	for _, p := range angle.Must(Exercises("tidal stream", Medium, 20, 1, nil)) {
		hours := rates.FindAllStringSubmatch(p.Question, -1)
		if len(hours) != 9 {
			t.Fatalf("%d hours: %s", len(hours), p.Question)
		}
		for _, h := range hours {
			springs, neaps := angle.Must(strconv.ParseFloat(h[1], 64)), angle.Must(strconv.ParseFloat(h[2], 64))
			if !(neaps > 0 && neaps < springs && springs <= 4) {
				t.Errorf("%v kn at springs, %v kn at neaps: %s", springs, neaps, p.Question)
			}
		}
	}
}

// TestQuestionHasAllFigures uses finer figures than usual.
func TestQuestionHasAllFigures(t *testing.T) {
	p := angle.Must(NewRun(5.26*sailing.Knot, 10*time.Hour))
	if want := "A vessel makes 5.26 kn for 10 h 00 min. What is the distance run, to a tenth of a mile?"; p.Question != want {
		t.Errorf("%s", p.Question)
	}
	for _, leeway := range []angle.Angle{-8 * angle.Degree, 120 * angle.Degree} {
		if p, err := NewToSteerThroughStream(angle.True{}, 3, stream.Stream{}, stream.Leeway{Angle: leeway}); err == nil {
			t.Errorf("leeway %v: %s", leeway, p.Question)
		}
	}
}

// TestReciprocalAndDecimals steers the reciprocal, and writes 5°08′ as 5.08°.
func TestReciprocalAndDecimals(t *testing.T) {
	rose := variation.MustParseLegend("7°20′W 2015 (12′E)")
	k := in2026(rose, deviation.None()) // 5°08′W
	toSteer := angle.Must(NewToSteer(angle.MustParseTrue("230"), k))
	for _, test := range []struct {
		p      Problem
		answer float64
		want   Kind
	}{
		{toSteer, 55, ReciprocalTaken},
		{angle.Must(NewRose(rose, 2026)), -5.08, MinutesAsDecimals},
	} {
		if e := test.p.Diagnose(test.answer); len(e.Causes) == 0 || e.Causes[0].Slips[0] != test.want {
			t.Errorf("%s, %v: %v", test.p.Topic, test.answer, e)
		}
	}
}
