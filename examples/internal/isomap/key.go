package isomap

import (
	"bytes"
	"fmt"
	"math"

	"lubberline.example/angle"
	"lubberline.example/angle/drawing"
	"lubberline.example/wmm"
)

// changes writes the annual change in italics at some places. Each place is a number of
// hundredths of the way up the map, and a number of hundredths of the way across.
func (s *sheet) changes(b *bytes.Buffer, e *wmm.Evaluator, hundredths ...angle.Angle) error {
	for _, up := range hundredths {
		for _, across := range hundredths {
			at := angle.Position{
				Latitude:  angle.Must(angle.LatitudeFrom(s.area.South.Angle() + s.area.height()/100*up)),
				Longitude: s.area.West.Add(s.area.width() / 100 * across),
			}
			f, rates, err := e.FieldAndRates(at, 0)
			if err != nil {
				return err
			}
			text := "(" + minutes(60*rates.D(f)) + ")"
			if f.Zone() == wmm.BlackoutZone || s.room(at) < textLength(text)/2+4 {
				continue
			}
			x, y := s.point(at, s.left)
			s.onMap(b, spot{x, y}, 0, text, ` font-style="italic"`)
		}
	}
	return nil
}

// minutes returns an annual change to a tenth of a minute: 12′E, 0.5′W, 0′.
func minutes(east float64) string {
	figure := math.Round(10*math.Abs(east)) / 10
	switch {
	case figure == 0:
		return "0′"
	case east > 0:
		return fmt.Sprintf("%g′E", figure)
	}
	return fmt.Sprintf("%g′W", figure)
}

// key writes the key under the map: what the lines mean.
func (s *sheet) key(b *bytes.Buffer, lines, changes bool) {
	left, y := (s.page.x-textWidth)/2, s.top+s.height+48
	places := []spot{{left, y}, {left + 190, y}, {left + 380, y}, {left + 604, y}}
	if s.area.Narrow {
		left = (s.page.x - narrowText) / 2
		places = []spot{{left, y}, {left, y + 22}, {left + 230, y}, {left + 230, y + 22}}
	}
	for k, sample := range []struct{ text, style string }{
		{"easterly variation", `stroke-width="1.3"`},
		{"westerly variation", `stroke-width="1.3" stroke-dasharray="9 4"`},
		{"no variation (agonic line)", `stroke-width="3.2"`},
		{"annual change", changeStyle},
	} {
		if at := places[k]; k < 3 || changes {
			fmt.Fprintf(b, `<path fill="none" stroke="black" %s d="M%.0f %.0fh46"/><text x="%.0f" y="%.0f">%s</text>`+"\n", sample.style, at.x, at.y, at.x+54, at.y+5, sample.text)
		}
	}
	y = places[len(places)-1].y
	sigma := ""
	if h := s.model.Uncertainty().DOffset; h != 0 {
		sigma = fmt.Sprintf("; standard uncertainty %.1f°, more near the dip poles", h)
	}
	every := fmt.Sprintf("Variation every %s by %s for %s%s.", short(s.area.Every), s.model.Name(), s.date, sigma)
	if !lines {
		every = fmt.Sprintf("No line: the variation is from %[2]s to %[3]s, without a multiple of %[1]s (%[4]s, %[5]s).", short(s.area.Every), figure(s.survey.from.NormalizedSigned(), "E", "W"), figure(s.survey.to.NormalizedSigned(), "E", "W"), s.model.Name(), s.date)
	}
	change := "No annual change is shown: a compass is of no use on this map."
	if s.survey.changeKnown {
		change = fmt.Sprintf("Annual change, in brackets: from %s to %s on this map.", minutes(s.survey.least), minutes(s.survey.most))
		if a, c := minutes(s.survey.least), minutes(s.survey.most); a == c {
			change = fmt.Sprintf("Annual change, in brackets: %s everywhere on this map.", a)
		}
	}
	if changes {
		change = fmt.Sprintf("Annual change every %g′, figures in brackets: from %s to %s on this map.", s.survey.changeSpacing(), minutes(s.survey.least), minutes(s.survey.most))
	}
	texts := []string{
		every, change,
		"The map shows no coast and no local anomaly. Map: " + s.kind + ".",
		"Not for navigation: use the compass roses of a corrected chart.",
	}
	if s.area.Narrow {
		var lines []string
		for _, text := range texts {
			lines = append(lines, drawing.Wrapped(text, narrowText/14.0)...)
		}
		texts = lines
	}
	for k, text := range texts {
		fmt.Fprintf(b, "\n"+`<text x="%.0f" y="%.0f">%s</text>`, left, y+30+22*float64(k), escaped(text))
	}
	fmt.Fprintln(b)
}
