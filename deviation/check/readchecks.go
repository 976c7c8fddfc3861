package check

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"lubberline.example/angle"
	"lubberline.example/angle/record"
	"lubberline.example/angle/working"
	"lubberline.example/deviation"
	"lubberline.example/deviation/internal/harmonic"
	"lubberline.example/deviation/internal/sunsight"
	"lubberline.example/variation"
)

// ReadLog reads a log of checks from CSV or JSON (see package [record]), for
// [ReviewCard]. It reads what [WriteLog] writes, and the JSON of a slice of checks.
//
// Its columns are heading, by compass, deviation, as found, and uncertainty, one standard
// deviation of all together. The deviation may have it instead: 2°E ±0°48′. A row with
// compassError may leave it out, but a card is not reviewed by such a check. Other columns
// may be left out:
//
//   - time is UTC, as in 2026-05-14T17:03:20Z.
//   - method and against say how the check was made, and what with. The columns
//     observer, remarks and variationSource are words too.
//   - variation is as applied, with its uncertainty: 5°08′W ±0°15′. Give it: checks share
//     its error, and a review without it calls a good card wrong more often.
//   - variationChange is the part of it that brought a rose up to date.
//   - bearing is by compass, and position is that of the vessel. With them, and the time,
//     a review can say what may be wrong with a check that does not agree.
//   - compassError, and true, the true bearing, must agree with the other figures
//     to 0.1°.
//   - warnings are their kinds with spaces between.
//
// A deviation of more than 90° carries a warning, [NotADeviation], one of more than 30°
// [LargeDeviation]. Errors are [*record.Error]. With an error ReadLog returns the checks
// that stand before the fault, so that a broken last line loses no other. Steps are not
// read.
func ReadLog(r io.Reader) ([]Check, error) {
	rows, broken := record.Read(r, record.Columns{
		Required: []string{"heading", "deviation"},
		Optional: []string{"uncertainty", "time", "method", "against", "bearing", "true", "position", "variation", "variationsource", "variationchange", "compasserror", "observer", "remarks", "warnings", "steps"},
		Nested:   []string{"warnings", "steps"},
		Partial:  true,
	})
	var checks []Check
	if len(rows) > 0 {
		checks = make([]Check, 0, len(rows))
	}
	explained := 0
	for _, row := range rows {
		c, err := readCheck(row)
		if err != nil {
			return checks, err
		}
		if large := c.tooLarge(explained < mostExplained); len(large) > 0 {
			c.Warnings = append(c.Warnings, large...)
			explained++
		}
		checks = append(checks, c)
	}
	return checks, broken
}

// readCheck reads a row of a log.
func readCheck(row record.Row) (Check, error) {
	c := Check{
		Method: row.Text("method"), Against: row.Text("against"), VariationSource: row.Text("variationsource"),
		Observer: row.Text("observer"), Remarks: row.Text("remarks"),
	}
	var err error
	if c.Heading, err = angle.ParseCompass(row.Text("heading")); err != nil {
		return c, row.Fault("heading", err)
	}
	if row.Has("time") {
		if c.Time, err = sunsight.ParseTime(row.Text("time")); err != nil {
			return c, row.Fault("time", err)
		}
	}
	if row.Has("bearing") {
		bearing, err := angle.ParseCompass(row.Text("bearing"))
		if err != nil {
			return c, row.Fault("bearing", err)
		}
		c.Bearing = &bearing
	}
	if row.Has("position") {
		position, err := angle.ParsePosition(row.Text("position"))
		if err != nil {
			return c, row.Fault("position", err)
		}
		c.Position = &position
	}
	if err := c.readFigures(row); err != nil {
		return c, err
	}
	c.Warnings, err = readWarnings(row)
	return c, err
}

// agreeing is the largest difference between figures of a row of which one follows from
// the others. Logs kept by hand have them to a tenth of a degree or worse.
const agreeing = angle.Degree/10 + angle.Second

// readFigures reads the deviation, the variation and the compass error, and the figures
// that follow from them.
func (c *Check) readFigures(row record.Row) error {
	var err error
	if c.Deviation, err = deviation.Parse(row.Text("deviation")); err != nil {
		return row.Fault("deviation", err)
	}
	own := c.Deviation.Uncertainty()
	u := own
	if row.Has("uncertainty") {
		if err = u.UnmarshalText([]byte(row.Text("uncertainty"))); err != nil {
			return row.Fault("uncertainty", err)
		}
		if stated(own) && own != u {
			return row.Fault("uncertainty", fmt.Errorf("the deviation has %v, and this column %v: leave one of them out", own, u))
		}
	} else if !stated(u) && !row.Has("compasserror") {
		return row.Fault("uncertainty", errors.New("empty: every row needs a value in this column"))
	}
	c.Deviation = c.Deviation.WithUncertainty(u)
	if row.Has("variation") {
		if c.Variation, err = variation.Parse(row.Text("variation")); err != nil {
			return row.Fault("variation", err)
		}
		c.Error = c.Variation.Plus(c.Deviation.EastWest)
		if stated(u) {
			rest, err := ownPart(u, c.Variation.Uncertainty())
			if err != nil {
				return row.Fault("uncertainty", err)
			}
			c.Error = c.Error.WithUncertainty(harmonic.Sigma(rest))
		}
	}
	if row.Has("variationchange") {
		if c.VariationChange, err = angle.Parse(row.Text("variationchange")); err != nil {
			return row.Fault("variationchange", err)
		}
	}
	if row.Has("compasserror") {
		if !row.Has("variation") {
			return row.Fault("compasserror", errors.New("there is no variation to divide it from the deviation: give the variation that was applied"))
		}
		sum := c.Error
		if err = c.Error.UnmarshalText([]byte(row.Text("compasserror"))); err != nil {
			return row.Fault("compasserror", err)
		}
		if apart(c.Error.Angle(), sum.Angle()) {
			return row.Fault("compasserror", fmt.Errorf("%v is not the variation and the deviation together, which are %v: correct one of them", c.Error.WithUncertainty(angle.Uncertainty{}), sum.WithUncertainty(angle.Uncertainty{})))
		}
	}
	if !row.Has("true") {
		return nil
	}
	direction, err := angle.ParseTrue(row.Text("true"))
	switch {
	case err != nil:
		return row.Fault("true", err)
	case c.Bearing == nil || !row.Has("variation"):
		return row.Fault("true", errors.New("a true bearing needs the bearing by compass and the variation beside it"))
	case apart(direction.FromNorth(), c.trueBearing().FromNorth()):
		return row.Fault("true", fmt.Errorf("%v is not the bearing and the compass error together, which are %v: correct one of them", direction, *c.trueBearing()))
	}
	return nil
}

// stated reports whether an uncertainty is known.
func stated(u angle.Uncertainty) bool { _, ok := u.Sigma(); return ok }

// apart reports whether two angles differ by more than rounding.
func apart(a, b angle.Angle) bool { return angle.EastWestFrom(a-b).Angle().Abs() > agreeing }

// trueBearing returns the true bearing of what was observed; nil if the compass's is not
// known.
func (c *Check) trueBearing() *angle.True {
	if c.Bearing == nil {
		return nil
	}
	return new(angle.TrueFrom(c.Bearing.FromNorth() + c.Error.Angle()))
}

// readWarnings reads the warnings of a row, without those that its deviation gives.
func readWarnings(row record.Row) ([]working.Warning, error) {
	var list []working.Warning
	text := row.Text("warnings")
	if strings.HasPrefix(text, "[") {
		if err := json.Unmarshal([]byte(text), &list); err != nil {
			return nil, row.Fault("warnings", err)
		}
	} else {
		for kind := range strings.FieldsSeq(text) {
			list = append(list, working.Warn(working.WarningKind(kind), "check-logged", "the log has the warning %s", kind))
		}
	}
	list = slices.DeleteFunc(list, func(w working.Warning) bool { return w.Kind == NotADeviation || w.Kind == LargeDeviation })
	if len(list) == 0 {
		return nil, nil
	}
	return list, nil
}

// format returns a time as logs have it; empty if it is not known.
func format(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.UTC().Format(time.RFC3339Nano)
}
