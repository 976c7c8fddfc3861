package main

import (
	"flag"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"lubberline.example/angle"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/adjust"
	"lubberline.example/deviation/swing"
	"lubberline.example/wmm"
)

// lessonFlags are the flags of the adjuster's lesson.
type lessonFlags struct {
	lesson                    bool
	correct, induced, heeling string
}

// add adds the flags to a set.
func (f *lessonFlags) add(flags *flag.FlagSet) {
	flags.BoolVar(&f.lesson, "lesson", false, "print the adjuster's lesson instead of the card: which corrector acts and which way, and what it should leave")
	flags.StringVar(&f.correct, "correct", "", "with -lesson: the corrections, as \"red-forward 2°, red-starboard 1.5°, abeam 0.5°\" (default: all of B to E)")
	flags.StringVar(&f.induced, "induced", "", "with -lesson: the part of B from vertical soft iron, as 1°E")
	flags.StringVar(&f.heeling, "heeling", "", "with -lesson: the heeling coefficient, degrees for each degree of heel, plus to the high side, as 0.2")
}

// lesson is the adjuster's lesson in the output.
type lesson struct {
	Working     working.Sheet       `json:"working"`
	Corrections []adjust.Correction `json:"corrections"`
	Predicted   adjust.Comparison   `json:"predicted"` // before and after
	Residual    *deviation.Card     `json:"residualCard"`
	Rules       working.Sheet       `json:"rules"`

	dip   angle.Angle
	curve *deviation.Curve // after
	of    adjust.Lesson
}

// teach works the lesson out.
func (j job) teach(fit *swing.Fit) (*lesson, error) {
	l := &lesson{Rules: adjust.Rules(), of: adjust.Lesson{Coefficients: fit.Curve.Coefficients()}}
	fault := func(name string, err error) (*lesson, error) { return nil, flagError{fmt.Errorf("-%s: %w", name, err)} }
	model, err := wmm.Models().On(j.details.Date)
	if err != nil {
		return nil, err
	}
	field, err := model.Field(j.position, 0)
	if err != nil {
		return nil, err
	}
	if l.dip, err = field.I(); err != nil {
		return nil, err
	}
	l.of.Dip = l.dip
	if j.induced != "" {
		d, err := deviation.Parse(j.induced)
		if err != nil {
			return fault("induced", err)
		}
		l.of.Induced = d.Angle()
	}
	if j.heeling != "" {
		x, err := strconv.ParseFloat(strings.Replace(j.heeling, "−", "-", 1), 64)
		if err != nil || !(math.Abs(x) <= 10) {
			return fault("heeling", fmt.Errorf("%q is not a heeling coefficient; give −10 to 10, such as 0.2", j.heeling))
		}
		l.of.Heeling = adjust.Heeling(x)
	}
	if l.Working, err = l.of.Working(); err != nil {
		return nil, err
	}
	if l.Corrections, err = l.of.Corrections(); err == nil && j.correct != "" {
		if l.Corrections, err = parseCorrections(j.correct, l.dip); err != nil {
			return fault("correct", err)
		}
	}
	if err != nil {
		return nil, err
	}
	if l.curve, err = adjust.After(fit.Curve, l.Corrections...); err != nil {
		return nil, err
	}
	both, err := adjust.Compare(fit.Curve, l.curve, j.step)
	if err != nil {
		return nil, err
	}
	l.Predicted = *both
	details := j.details
	details.Remarks = strings.TrimSpace("PREDICTED, not swung: not for steering. " + details.Remarks)
	l.Residual, err = deviation.NewCard(l.curve, j.step, details)
	return l, err
}

// parseCorrections reads corrections: the way of each corrector, and an angle.
func parseCorrections(text string, dip angle.Angle) ([]adjust.Correction, error) {
	corrector := map[adjust.Way]adjust.Corrector{
		adjust.RedForward: adjust.ForeAndAftMagnets, adjust.RedAft: adjust.ForeAndAftMagnets,
		adjust.RedStarboard: adjust.AthwartshipMagnets, adjust.RedPort: adjust.AthwartshipMagnets,
		adjust.Abeam: adjust.Spheres, adjust.AheadAstern: adjust.Spheres,
		adjust.BarForward: adjust.FlindersBar, adjust.BarAft: adjust.FlindersBar,
		adjust.RedUp: adjust.HeelingMagnet, adjust.RedDown: adjust.HeelingMagnet,
	}
	var list []adjust.Correction
	for part := range strings.SplitSeq(text, ",") {
		way, amount, _ := strings.Cut(strings.TrimSpace(part), " ")
		which, known := corrector[adjust.Way(way)]
		if !known {
			return nil, fmt.Errorf("%q is not a way; give red-forward, red-aft, red-starboard, red-port, abeam, ahead-astern, bar-forward, bar-aft, red-up or red-down, and an angle", way)
		}
		a, err := angle.Parse(amount)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", way, err)
		}
		c := adjust.Correction{Corrector: which, Way: adjust.Way(way), Amount: a, Dip: dip}
		if _, _, err := c.Adds(); err != nil {
			return nil, err
		}
		list = append(list, c)
	}
	return list, nil
}

// ifLesson returns a text for a lesson, and otherwise none.
func (f lessonFlags) ifLesson(text string) string {
	if f.lesson {
		return text
	}
	return ""
}

// checkLesson refuses the flags of a lesson without it.
func (o options) checkLesson() error {
	for _, name := range []string{"correct", "induced", "heeling"} {
		if slices.Contains(o.given, name) && !o.lesson {
			return flagError{fmt.Errorf("-%s: it needs -lesson", name)}
		}
	}
	return nil
}

// stands are the correctors as they stand, in words.
var stands = map[adjust.Way]string{
	adjust.RedForward: "fore-and-aft magnets, red ends forward", adjust.RedAft: "fore-and-aft magnets, red ends aft",
	adjust.RedStarboard: "athwartship magnets, red ends to starboard", adjust.RedPort: "athwartship magnets, red ends to port",
	adjust.Abeam: "spheres abeam", adjust.AheadAstern: "spheres ahead and astern",
	adjust.BarForward: "Flinders bar forward", adjust.BarAft: "Flinders bar aft",
	adjust.RedUp: "heeling magnet, red end up", adjust.RedDown: "heeling magnet, red end down",
}

// print prints the lesson.
func (l *lesson) print(w io.Writer) error {
	fmt.Fprintf(w, "\n%s\n", l.Working)
	way := "down"
	if l.dip < 0 {
		way = "up"
	}
	fmt.Fprintf(w, "Corrections, predicted (dip %.0f° %s, by a field model)\n", l.dip.Abs().Degrees(), way)
	for _, c := range l.Corrections {
		fmt.Fprintf(w, "  %s: %.2f°", stands[c.Way], c.Amount.Degrees())
		switch {
		case c.Corrector == adjust.HeelingMagnet:
			fmt.Fprint(w, " for each degree of heel")
		case c.Slew > 0:
			fmt.Fprintf(w, ", slewed %.0f° clockwise", c.Slew.Degrees())
		case c.Slew < 0:
			fmt.Fprintf(w, ", slewed %.0f° counterclockwise", -c.Slew.Degrees())
		}
		fmt.Fprintln(w)
	}
	fmt.Fprintf(w, "They should leave  %v\n\n%s", l.curve.Coefficients(), &l.Predicted)
	remark, err := adjust.FlagStateLimit().Remark(l.curve)
	if err != nil {
		return err
	}
	fmt.Fprintf(w, "\n%s %s %s\n\n%s\n%s\n", remark.What, remark.Value, remark.How, l.Residual, l.Rules)
	if err := l.printHeel(w); err != nil {
		return err
	}
	return printFlinders(w)
}

// printHeel prints what a heel adds.
func (l *lesson) printHeel(w io.Writer) error {
	j := l.of.Heeling
	fmt.Fprintln(w, "Heeling error")
	if j == 0 {
		fmt.Fprintln(w, "  Unknown here. Heel the vessel on north or south and see what the deviation changes by; give -heeling.")
		return nil
	}
	after := j
	for _, c := range l.Corrections {
		_, adds, err := c.Adds()
		if err != nil {
			return err
		}
		after += adds
	}
	fmt.Fprintln(w, "  Heeled 10°, starboard side high, a heel adds, before and after the heeling magnet:")
	for _, on := range []string{"000°C", "045°C", "090°C", "180°C"} {
		heading := angle.MustParseCompass(on)
		before, err := j.Adds(heading, 10*angle.Degree, angle.Starboard)
		if err != nil {
			return err
		}
		left, err := after.Adds(heading, 10*angle.Degree, angle.Starboard)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "  %v  %8s  %8s\n", heading, named(before), named(left))
	}
	fmt.Fprintln(w, "  No published figures of a heeling error were found. The rule and the formula are from memory.")
	return nil
}

// named prints a deviation to the minute, and zero without a name.
func named(d deviation.Deviation) string {
	a := d.Angle().Round(angle.Minute)
	if a == 0 {
		return a.String()
	}
	return a.EastWestString()
}

// shore is a field by its dip, and a horizontal intensity of a dipole of any strength.
type shore float64

// H returns the horizontal intensity, nanotesla.
func (s shore) H() float64 { return 30000 * math.Cos(math.Atan(math.Tan(float64(s)*math.Pi/180)/2)) }

// I returns the dip.
func (s shore) I() (angle.Angle, error) { return angle.Degrees(float64(s)) }

// printFlinders works the Flinders bar on Flinders's own figures.
func printFlinders(w io.Writer) error {
	south, coepang := shore(-63), shore(-24)
	exact := func(degrees float64) deviation.ExactCoefficients {
		return deviation.ExactCoefficients{B: math.Sin(degrees * math.Pi / 180)}
	}
	forces, err := adjust.Separate(exact(-3.2), south, exact(-1.5), coepang)
	if err != nil {
		return err
	}
	permanent, err := angle.Degrees(math.Asin(forces.PermanentAhead/south.H()) * 180 / math.Pi)
	if err != nil {
		return err
	}
	all := adjust.Lesson{Coefficients: deviation.Coefficients{B: -angle.Must(angle.Degrees(3.2))}, Dip: angle.Must(south.I())}
	parts := all
	parts.Induced = all.Coefficients.B - permanent
	fmt.Fprintf(w, "\nThe Flinders bar, on Flinders's voyage\n  B was −3.20° in 35°S in May 1803 and −1.50° at Coepang in April 1803 (A Voyage to Terra\n  Australis, 1814). The dips, 63° and 24° up, are those of King's places from 1817 to 1819\n  (Narrative of a Survey, 1826), by latitude. No intensity was measured: that of a dipole.\n  In 35°S B has %s from permanent magnetism and %s from vertical soft iron.\n", signed(permanent), signed(parts.Induced))
	for _, of := range []struct {
		name   string
		lesson adjust.Lesson
	}{{"magnets alone, set in 35°S", all}, {"Flinders bar and magnets", parts}} {
		list, err := of.lesson.Corrections()
		if err != nil {
			return err
		}
		corrected, err := forces.Corrected(south, list...)
		if err != nil {
			return err
		}
		k, err := corrected.At(coepang)
		if err != nil {
			return err
		}
		fmt.Fprintf(w, "  %-28s at Coepang B is %s\n", of.name+":", signed(angle.Must(angle.Degrees(math.Asin(k.B)*180/math.Pi))))
	}
	fmt.Fprintf(w, "%s\n", deviation.AdjusterCaution)
	return nil
}

// signed prints an angle in degrees, with its sign.
func signed(a angle.Angle) string {
	return strings.Replace(fmt.Sprintf("%+.2f°", a.Round(angle.Degree/100).Degrees()+0), "-", "−", 1)
}
