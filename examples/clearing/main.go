// Command clearing works the limits that keep a vessel clear of a danger: the clearing
// bearing of a mark by true, magnetic and the steering compass, and the danger angles.
//
// Without flags it works an invented danger.
//
//	go run ./examples/clearing
//	go run ./examples/clearing -h # how to give it your own
//
// It shows package [lubberline.example/fix/danger].
package main

import (
	"bytes"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/course"
	"lubberline.example/course/sailing"
	"lubberline.example/deviation"
	"lubberline.example/examples/internal/help"
	"lubberline.example/fix"
	"lubberline.example/fix/danger"
	"lubberline.example/variation"
)

//go:embed deviation.csv
var inventedCard []byte

const about = `Usage: clearing [flags]

Works a clearing bearing for a vessel that heads for a mark and leaves a danger on one
side, and the angles that keep outside the danger. Without flags it works an invented
danger. With your own mark and danger give your rose and card too. The height and the
second mark are then left out unless you give them, and the date is today.

The card is CSV, with a line of column names, or a JSON array of objects: compass (or
magnetic), deviation[, uncertainty].

`

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// errFlag is the fault of a flag whose value is out of range.
var errFlag = errors.New("out of range")

// run does the program's work and returns its exit status: 1 if there is no answer, 2 for
// invalid flags.
func run(args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("clearing", flag.ContinueOnError)
	var g given
	g.define(flags)
	if status, goOn := help.Parse(flags, about, args, stderr); !goOn {
		return status
	}
	has := map[string]bool{}
	flags.Visit(func(f *flag.Flag) { has[f.Name] = true })
	missing := g.own(has)
	j, err := g.job()
	switch {
	case flags.NArg() > 0:
		err = fmt.Errorf("%q is not a flag; -h lists the flags", flags.Arg(0))
	case err == nil:
		err = missing
	}
	if err != nil {
		fmt.Fprintln(stderr, "clearing:", err)
		return 2
	}
	if g.card != "" {
		if j.card, err = os.ReadFile(g.card); err != nil {
			fmt.Fprintln(stderr, "clearing: -card:", err)
			return 2
		}
	}
	j.invented = !has["mark"] && !has["danger"]
	if err := j.work(stdout); err != nil {
		fmt.Fprintln(stderr, "clearing:", strings.TrimPrefix(err.Error(), "danger: "))
		return 1
	}
	return 0
}

// given is what the flags say.
type given struct {
	mark, second, danger, leave, head, legend, date, card string
	margin, height, eye                                   float64
}

// define makes the flags.
func (g *given) define(flags *flag.FlagSet) {
	flags.StringVar(&g.mark, "mark", "46°47.5′N 019°01.0′W", "position of the mark to head for")
	flags.StringVar(&g.second, "second", "46°51.7′N 018°57.9′W", "position of a second mark, for the horizontal danger angle; empty to leave it out")
	flags.StringVar(&g.danger, "danger", "46°49.3′N 019°02.4′W", "position of the danger")
	flags.Float64Var(&g.margin, "margin", 0.5, "distance to keep from it, in miles")
	flags.StringVar(&g.leave, "leave", "port", "side on which the danger is left: port or starboard")
	flags.Float64Var(&g.height, "height", 42, "height of the mark above the water, in metres, for the vertical danger angle; 0 to leave it out")
	flags.Float64Var(&g.eye, "eye", 2, "height of eye, in metres; it decides how far off a water line is seen")
	flags.StringVar(&g.head, "head", "", "vessel's true heading (default: the clearing bearing)")
	flags.StringVar(&g.legend, "rose", "7°20′W 2015 (12′E)", "legend of the chart's rose, or the variation now: 5°08′W ±0°15′")
	flags.StringVar(&g.date, "date", "2026-07-02", "date, for the rose; with your own mark, today is the default")
	flags.StringVar(&g.card, "card", "", "file of the deviation card (default: the invented one)")
}

// own leaves out what is of the invented mark, if the mark or the danger is the user's own. It
// returns an error if something is missing then: the invented figures are of another coast.
func (g *given) own(has map[string]bool) error {
	if !has["mark"] && !has["danger"] {
		return nil
	}
	if !has["height"] {
		g.height = 0
	}
	if !has["second"] {
		g.second = ""
	}
	if !has["date"] {
		g.date = time.Now().UTC().Format(time.DateOnly)
	}
	for _, name := range []string{"mark", "danger", "rose", "card"} {
		if !has[name] {
			return fmt.Errorf("-%s missing: with your own mark or danger give -mark, -danger, -rose and -card; the invented ones are of another coast", name)
		}
	}
	return nil
}

// job reads the flags. Its error names the first that is invalid.
func (g given) job() (job, error) {
	var err, fault error
	set := func(name, text string, fault error, want string) {
		if err == nil && fault != nil {
			err = fmt.Errorf("-%s: %q is invalid; give %s", name, text, want)
		}
	}
	const position = "a position such as 46°47.5′N 019°01.0′W"
	j := job{margin: sailing.Distance(g.margin) * sailing.NauticalMile, height: sailing.Distance(g.height), eye: sailing.Distance(g.eye), card: inventedCard, file: g.card}
	j.mark = fix.Mark{Name: "the mark"}
	j.mark.Position, fault = angle.ParsePosition(g.mark)
	set("mark", g.mark, fault, position)
	j.danger, fault = angle.ParsePosition(g.danger)
	set("danger", g.danger, fault, position)
	if g.second != "" {
		j.second = &fix.Mark{Name: "the second mark"}
		j.second.Position, fault = angle.ParsePosition(g.second)
		set("second", g.second, fault, position+", or none")
	}
	if g.head != "" {
		var t angle.True
		t, fault = angle.ParseTrue(g.head)
		set("head", g.head, fault, "a true heading such as 125°T")
		j.head = &t
	}
	j.rose, fault = variationOf(g.legend)
	set("rose", g.legend, fault, "the words printed in the rose, such as 7°20′W 2015 (12′E), or the variation now, such as 5°08′W ±0°15′")
	j.day, fault = time.Parse(time.DateOnly, g.date)
	set("date", g.date, fault, "a date such as 2026-07-02")
	j.leave, fault = angle.Side(strings.ToLower(g.leave)), nil
	if j.leave != angle.Port && j.leave != angle.Starboard {
		fault = errFlag
	}
	set("leave", g.leave, fault, "port or starboard")
	if !(g.height >= 0) {
		set("height", fmt.Sprint(g.height), errFlag, "metres, or 0 for none")
	}
	if !(g.eye >= 0 && g.eye <= 1000) {
		set("eye", fmt.Sprint(g.eye), errFlag, "metres from 0 to 1000")
	}
	return j, err
}

// variationOf reads the legend of a rose, or the variation now.
func variationOf(text string) (variation.Source, error) {
	if rose, err := variation.ParseLegend(text); err == nil {
		return rose, nil
	}
	return variation.Parse(text)
}

// farthest is how far a mark can stand from the danger. Beyond it no mark is seen from there.
const farthest = 60 * sailing.NauticalMile

// check refuses marks that cannot be seen from the danger.
func (j job) check() error {
	for _, m := range []*fix.Mark{&j.mark, j.second} {
		if m == nil {
			continue
		}
		if off := sailing.WGS84().Rhumb(m.Position, j.danger).Distance; off > farthest {
			return fmt.Errorf("%v is %v from the danger, too far to be seen: check both positions, also N or S and E or W", m, off)
		}
	}
	return nil
}

// job is the work to do.
type job struct {
	mark     fix.Mark
	second   *fix.Mark
	danger   angle.Position
	margin   sailing.Distance
	leave    angle.Side
	height   sailing.Distance
	eye      sailing.Distance
	head     *angle.True
	rose     variation.Source
	day      time.Time
	card     []byte
	file     string // of the card
	invented bool
}

// other returns the other side.
func other(side angle.Side) angle.Side {
	if side == angle.Port {
		return angle.Starboard
	}
	return angle.Port
}

// work prints the limits.
func (j job) work(w io.Writer) error {
	table, err := deviation.ReadTable(bytes.NewReader(j.card))
	if err != nil {
		if j.file == "" {
			j.file = "deviation.csv"
		}
		return fmt.Errorf("%s: %w", j.file, err)
	}
	if err := j.check(); err != nil {
		return err
	}
	c, err := danger.NewClearingBearing(j.mark, j.danger, j.margin, j.leave)
	if err != nil {
		return err
	}
	head := c.Limit
	if j.head != nil {
		head = *j.head
	}
	h, err := course.FromTrue(head, course.With{Variation: j.rose, Deviation: table, At: &j.mark.Position, On: j.day})
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if j.invented {
		fmt.Fprintln(&b, "Vessel, coast and figures are invented.")
	}
	fmt.Fprintf(&b, "%s\n\n", j.course(head, c.Limit))
	bearing := c.Working(h)
	bearing.Caution = ""
	fmt.Fprint(&b, bearing)
	if j.height > 0 || j.second != nil {
		fmt.Fprintln(&b, "\nFor a vessel that does not head for the mark, but passes with the danger between it and the shore:")
	}
	if err := j.angles(&b); err != nil {
		return err
	}
	fmt.Fprintf(&b, "\n%s\n", working.Caution)
	_, err = w.Write(b.Bytes())
	return err
}

// along is the largest angle between the heading and the clearing bearing, or its
// reciprocal. Beyond 45° the vessel crosses the line rather than follows it, and the bearing
// changes too fast to be watched.
const along = 45 * angle.Degree

// course says how the clearing bearing serves a vessel on a heading.
func (j job) course(head, limit angle.True) string {
	side, way := j.leave, "heads for the mark"
	off := limit.Sub(head)
	switch {
	case off.Abs() > angle.Turn/2-along:
		side, way = other(j.leave), "heads away from the mark"
	case off.Abs() > along:
		bow := angle.Starboard
		if off < 0 {
			bow = angle.Port
		}
		return fmt.Sprintf("On %.0f the mark is %.0f on the %v bow: this clearing bearing serves only courses within %.0f of it, or of its reciprocal.", head, off.Abs(), bow, along)
	}
	return fmt.Sprintf("A vessel that %s leaves the danger at %v to %v, %v off.", way, j.danger, side, j.margin)
}

// angles prints the danger angles.
func (j job) angles(w io.Writer) error {
	if j.height > 0 {
		off := sailing.WGS84().Rhumb(j.mark.Position, j.danger).Distance + j.margin
		d, err := danger.VerticalAngle(j.height, off, danger.Outside)
		if err != nil {
			return err
		}
		seen, err := fix.Horizon(j.eye, fix.HorizonTable)
		if err != nil {
			return err
		}
		s := d.Working()
		s.Title += " of the mark"
		s.Caution = ""
		if off > seen {
			s.Warnings = append(s.Warnings, working.Warn("water-line-unseen", "water-line-unseen",
				"an eye at %g metres sees no water line beyond %.2f M, and the limit is %.2f M off: watch from higher up, or by another means",
				j.eye.Metres(), seen.NauticalMiles(), off.NauticalMiles()))
		}
		fmt.Fprintf(w, "\n%s", s)
	}
	if j.second != nil {
		d, err := danger.HorizontalAngle(j.mark, *j.second, j.danger, j.margin, danger.Outside)
		if err != nil {
			return err
		}
		s := d.Working()
		s.Caution = ""
		fmt.Fprintf(w, "\n%s", s)
	}
	return nil
}
