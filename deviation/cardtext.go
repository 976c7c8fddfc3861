package deviation

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"lubberline.example/angle"
	"lubberline.example/deviation/internal/say"
)

// String returns the deviation card as text: the details, and two tables side by side. Enter the
// left one with a compass heading, and the right one with a magnetic heading to find the course to
// steer. Deviations are to a tenth of a degree, ± one standard uncertainty if stated. A nil Card is
// printed as an empty one.
func (c *Card) String() string {
	if c == nil {
		c = &Card{}
	}
	var b strings.Builder
	b.WriteString("Deviation card\n")
	for _, line := range c.lines() {
		fmt.Fprintf(&b, "  %s\n", line)
	}
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(w, "\ncompass\tdeviation\tmagnetic\t    magnetic\tdeviation\tcompass\t\n")
	for i, row := range c.ByCompass[:min(len(c.ByCompass), len(c.ByMagnetic))] {
		other := c.ByMagnetic[i]
		// The heading found is that of the deviation as printed, so that the figures
		// on the page can be summed.
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\t%s\t\n", c.heading(row.Compass.FromNorth(), "C"), say.Tenths(row.Deviation.EastWest), onTenth(onPage(row.Deviation).Magnetic(row.Compass).FromNorth(), "M"),
			c.heading(other.Magnetic.FromNorth(), "M"), say.Tenths(other.Deviation.EastWest), onTenth(onPage(other.Deviation).Compass(other.Magnetic).FromNorth(), "C"))
	}
	w.Flush() // a strings.Builder takes everything
	b.WriteByte('\n')
	if strings.Contains(b.String(), "±") {
		b.WriteString("± is one standard uncertainty.\n")
	}
	fmt.Fprintf(&b, "%s\n", AdjusterCaution)
	return b.String()
}

// stated reports whether every deviation has an uncertainty.
func (c *Card) stated() bool {
	for _, row := range c.ByCompass {
		if _, stated := row.Deviation.Uncertainty().Sigma(); !stated {
			return false
		}
	}
	return len(c.ByCompass) > 0
}

// lines returns the details that are known, one a line.
func (d Details) lines() []string {
	var lines []string
	add := func(name, text string) {
		if text = strings.Join(strings.Fields(text), " "); text != "" {
			lines = append(lines, fmt.Sprintf("%-9s %s", name+":", text))
		}
	}
	add("Vessel", d.Vessel)
	add("Compass", d.Compass)
	add("Place", d.Place)
	if !d.Date.IsZero() {
		add("Date", d.Date.Format("2 January 2006"))
	}
	add("Adjuster", d.Adjuster)
	add("Remarks", d.Remarks)
	return lines
}

// heading prints a heading of the card's own steps: whole degrees, or degrees and
// minutes for points.
func (c *Card) heading(h angle.Angle, letter string) string {
	if c.Step%angle.Degree == 0 {
		return fmt.Sprintf("%03d°%s", int(h/angle.Degree), letter)
	}
	decimals := 0
	if h%angle.Minute != 0 {
		decimals = 1
	}
	return strings.TrimSuffix(fmt.Sprintf("%.*v", decimals, angle.CompassFrom(h)), "C") + letter
}

// onPage returns a deviation as the card prints it.
func onPage(d Deviation) Deviation { return East(d.Angle().Round(angle.Degree / 10)) }

// onTenth prints a direction to a tenth of a degree.
func onTenth(h angle.Angle, letter string) string {
	n := int(h.Round(angle.Degree/10).Normalized() / (angle.Degree / 10))
	return fmt.Sprintf("%03d.%d°%s", n/10, n%10, letter)
}

// WriteCSV writes the card's rows by compass heading, exactly, in the form that [ReadTable] reads.
// The details stand before them as comments. If the card is nil or has no rows, WriteCSV writes
// nothing and returns an [*Error]. It returns the writer's error unchanged.
func (c *Card) WriteCSV(w io.Writer) error {
	if c == nil || len(c.ByCompass) == 0 {
		return errNoRows(ByCompass)
	}
	if w == nil {
		return errors.New("deviation: card: no writer: nil")
	}
	var b strings.Builder
	for _, line := range c.lines() {
		fmt.Fprintf(&b, "# %s\n", line)
	}
	stated := c.stated()
	header := []string{"compass", "deviation"}
	if stated {
		header = append(header, "uncertainty")
	}
	rows := csv.NewWriter(&b)
	rows.Write(header) // a strings.Builder takes everything
	for _, row := range c.ByCompass {
		heading, _ := row.Compass.MarshalText() // a Compass always has a text
		d, _ := row.Deviation.WithUncertainty(angle.Uncertainty{}).MarshalText()
		fields := []string{string(heading), string(d)}
		if stated {
			u, _ := row.Deviation.Uncertainty().MarshalText()
			fields = append(fields, string(u))
		}
		rows.Write(fields)
	}
	rows.Flush()
	_, err := io.WriteString(w, b.String())
	return err
}
